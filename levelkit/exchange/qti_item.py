"""One question as an item of the open standard QTI 2.1: text, entries, scoring, feedback per slip.

A learning platform marks each step from the printed numbers alone: follow-through needs our own
marking and is not in the item.
"""

from xml.etree import ElementTree as ET

from .. import __version__
from ..exercises.family import CHOICE
from ..exercises.misconceptions import misconception
from ..papers.scheme import marks_at

NAMESPACE = "http://www.imsglobal.org/xsd/imsqti_v2p1"
SCHEMA = "http://www.imsglobal.org/xsd/qti/qtiv2p1/imsqti_v2p1.xsd"
XSI = "http://www.w3.org/2001/XMLSchema-instance"
DIRECTION = "_direction"
_DIGITS = 9


def root(name, **attributes):
    """Return the outermost element of a file, with its namespace and schema location."""
    return ET.Element(name, {
        "xmlns": NAMESPACE, "xmlns:xsi": XSI, "xsi:schemaLocation": f"{NAMESPACE} {SCHEMA}",
        **attributes})


def xml_text(element):
    """Return an element as the text of a file."""
    ET.indent(element, " ")
    return '<?xml version="1.0" encoding="UTF-8"?>\n' + ET.tostring(element, "unicode") + "\n"


def item(variant, identifier, picture="", picture_words=""):
    """Return one question as an assessment item.

    Parameters
    ----------
    variant : Variant
        The question with its numbers.
    identifier : str
        Its name in the package.
    picture, picture_words : str
        Path of its drawing inside the package and the same in words; empty for none.

    Returns
    -------
    xml.etree.ElementTree.Element
        The item. Its title tells topic and marks only, for a family's title often tells the
        answer.
    """
    family = variant.family
    element = root("assessmentItem", identifier=identifier,
                   title=f"{family.topic}, {family.marks} marks", adaptive="false",
                   timeDependent="false", toolName="levelkit", toolVersion=__version__)
    for step in family.asked_steps:
        _declare(element, variant, step)
    _outcome(element, "SCORE", "single", "float", "0")
    _outcome(element, "MAXSCORE", "single", "float", f"{family.marks}")
    _outcome(element, "FEEDBACK", "multiple", "identifier")
    _body(element, variant, picture, picture_words)
    _process(element, variant)
    for slip, sentence in _sentences(family):
        modal = _sub(element, "modalFeedback", outcomeIdentifier="FEEDBACK", identifier=slip,
                     showHide="show")
        modal.text = sentence
    return element


def _sub(parent, name, text=None, **attributes):
    child = ET.SubElement(parent, name, attributes)
    child.text = text
    return child


def number(value):
    """Return a number as the standard writes it."""
    return f"{value:.{_DIGITS}g}"


def shown_key(step, value):
    """Return the number to be entered: in the step's unit, without sign where a word tells it."""
    shown = step.si.from_si(value)
    return abs(shown) if step.direction else shown


def _declare(element, variant, step):
    right = variant.solution.steps[step.id]
    kind = "identifier" if step.kind == CHOICE else "float"
    text = choice_name(right) if step.kind == CHOICE else number(shown_key(step, right))
    _response(element, step.id, kind, text)
    if step.kind != CHOICE and step.direction:
        _response(element, step.id + DIRECTION, "identifier", _word(step, right))


def _word(step, value):
    return step.direction[0 if value < 0 else 1]


def _response(element, identifier, base, right):
    declaration = _sub(element, "responseDeclaration", identifier=identifier,
                       cardinality="single", baseType=base)
    _sub(_sub(declaration, "correctResponse"), "value", right)


def _outcome(element, identifier, cardinality, base, default=None):
    declaration = _sub(element, "outcomeDeclaration", identifier=identifier,
                       cardinality=cardinality, baseType=base)
    if default is not None:
        _sub(_sub(declaration, "defaultValue"), "value", default)


def _body(element, variant, picture, picture_words):
    body = _sub(element, "itemBody")
    _sub(body, "p", variant.text)
    if picture:
        _sub(_sub(body, "p"), "img", src=picture, alt=picture_words)
    if variant.caution:
        _sub(body, "p", variant.caution)
    for asked in variant.steps:
        if asked.kind == CHOICE:
            interaction = _sub(body, "choiceInteraction", responseIdentifier=asked.id,
                               shuffle="false", maxChoices="1")
            _sub(interaction, "prompt", f"{asked.ask} [{asked.marks}]")
            for option, text in asked.options:
                _sub(interaction, "simpleChoice", text, identifier=choice_name(option))
            continue
        line = _sub(body, "p", f"{asked.ask} [{marks_at(variant.family, asked.id)}]: ")
        entry = _sub(line, "textEntryInteraction", responseIdentifier=asked.id,
                     expectedLength="12")
        entry.tail = f" {asked.unit} "
        if asked.direction:
            choice = _sub(line, "inlineChoiceInteraction",
                          responseIdentifier=asked.id + DIRECTION, shuffle="false")
            for word in asked.direction:
                _sub(choice, "inlineChoice", word, identifier=word)


def _process(element, variant):
    processing = _sub(element, "responseProcessing")
    for step in variant.family.asked_steps:
        if step.kind == CHOICE:
            _process_choice(processing, variant, step)
        else:
            _process_value(processing, variant, step)


def _process_choice(processing, variant, step):
    condition = _sub(processing, "responseCondition")
    rule = _sub(condition, "responseIf")
    _matches(rule, step.id, choice_name(variant.solution.steps[step.id]))
    _add_marks(rule, step.mark_count)
    for option in step.options:
        if option.sentence:
            rule = _sub(condition, "responseElseIf")
            _matches(rule, step.id, choice_name(option.id))
            _add_feedback(rule, slip_name(step.id, option.id))


def _process_value(processing, variant, step):
    family, kinds = variant.family, step.mark_kinds
    method = marks_at(family, step.id) - step.mark_count
    right = variant.solution.steps[step.id]
    condition = _sub(processing, "responseCondition")
    rule = _sub(condition, "responseIf")
    _equals(rule, step, right)
    _add_marks(rule, kinds["M"] + kinds["A"] + method)
    for slip in family.slips:
        if slip.step == step.id:
            rule = _sub(condition, "responseElseIf")
            _equals(rule, step, variant.solution.slips[slip.id], right)
            kept = method + (kinds["M"] if kinds["A"] else 0)  # as our own marking gives it
            if slip.keeps_method and kept:
                _add_marks(rule, kept)
            _add_feedback(rule, slip_name(step.id, slip.id))
    if step.direction:
        condition = _sub(processing, "responseCondition")
        rule = _sub(condition, "responseIf")
        _matches(rule, step.id + DIRECTION, _word(step, right))
        _add_marks(rule, kinds["B"])


def _matches(rule, response, identifier):
    match = _sub(rule, "match")
    _sub(match, "variable", identifier=response)
    _sub(match, "baseValue", identifier, baseType="identifier")


def _equals(rule, step, value, right=None):
    """Within the tolerance of the right value, as the marking takes it for slips too."""
    allowed = step.allowed(value if right is None else right) / step.si.factor
    equal = _sub(rule, "equal", toleranceMode="absolute", tolerance=number(allowed))
    _sub(equal, "variable", identifier=step.id)
    _sub(equal, "baseValue", number(shown_key(step, value)), baseType="float")


def _add_marks(rule, marks):
    total = _sub(_sub(rule, "setOutcomeValue", identifier="SCORE"), "sum")
    _sub(total, "variable", identifier="SCORE")
    _sub(total, "baseValue", f"{marks}", baseType="float")


def _add_feedback(rule, slip):
    shown = _sub(_sub(rule, "setOutcomeValue", identifier="FEEDBACK"), "multiple")
    _sub(shown, "variable", identifier="FEEDBACK")
    _sub(shown, "baseValue", slip, baseType="identifier")


def choice_name(option_id):
    """Return the name of an option inside an item; a name may not begin with a digit."""
    return f"choice_{option_id}"


def slip_name(step_id, slip_id):
    """Return the name of a slip inside an item."""
    return f"slip_{step_id}_{slip_id}"


def _sentences(family):
    """(name, sentence) of every known slip and wrong option, with the lesson to look at."""
    for slip in family.slips:
        yield slip_name(slip.step, slip.id), _with_lesson(slip.sentence, slip.misconception, family)
    for step in family.steps:
        for option in step.options:
            if option.sentence:
                yield slip_name(step.id, option.id), _with_lesson(
                    option.sentence, option.misconception, family)


def _with_lesson(sentence, code, family):
    return f"{sentence} Lesson {misconception(code).lesson if code else family.lesson}."
