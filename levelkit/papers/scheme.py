"""A mark scheme with a candidate's own numbers: steps, marks, accepted range, known slips."""

from dataclasses import dataclass
from math import ceil, floor, log10

from ..exercises import mark
from ..exercises.family import CHOICE, VALUE
from ..exercises.misconceptions import misconception
from ..exercises.templates import number_text
from ..exercises.working import result_text, worked_steps

LETTERS = "abcdefghij"


@dataclass(frozen=True, slots=True)
class SchemeLine:
    """One step of a scheme.

    Attributes
    ----------
    marks : str
        Such as "M1 A1".
    ask, formula, working : str
        What is asked; the relation in symbols; the line with the numbers.
    accept : str
        Accepted range with unit, or the right letter; empty for a method step.
    """

    marks: str
    ask: str
    formula: str
    working: str
    accept: str


@dataclass(frozen=True, slots=True)
class KnownSlip:
    """A wrong answer that is recognised.

    Attributes
    ----------
    answer : str
        What is written down by whoever makes it.
    what : str
        The misunderstanding, or what was done.
    code : str
        Code of the misunderstanding, or empty.
    earns : str
        Marks earned all the same, of those of the step and its method.
    sentence : str
        What the candidate is told.
    """

    answer: str
    what: str
    code: str
    earns: str
    sentence: str


def letter_of(variant, step, option_id):
    """Return the letter under which an option stands in this variant."""
    ids = [one for one, _ in variant.options(step)]
    return LETTERS[ids.index(option_id)]


def scheme_lines(variant):
    """Return the steps of a mark scheme.

    Parameters
    ----------
    variant : Variant
        The question with its numbers.

    Returns
    -------
    tuple of SchemeLine
        In the order of the solution.

    Examples
    --------
    >>> from levelkit.exercises import example
    >>> scheme_lines(example("glass-reads-low"))[1].accept
    '185.9 to 186.8 mm'
    """
    lines = []
    for step, worked in zip(variant.family.steps, worked_steps(variant), strict=True):
        if step.kind == VALUE:
            accept = accepted(step, variant.solution.steps[step.id])
        elif step.kind == CHOICE:
            accept = f"({letter_of(variant, step, variant.solution.steps[step.id])})"
        else:
            accept = ""
        formula = worked.formula if step.formula else ""
        lines.append(SchemeLine(step.marks, worked.ask, formula, worked.working, accept))
    return tuple(lines)


def accepted(step, value):
    """Return the accepted range of a value step as it is printed, with unit and direction.

    Its ends are rounded inwards, so that whoever marks by hand accepts nothing that the marking
    would refuse.
    """
    centre, allowed = step.si.from_si(value), step.allowed(value) / step.si.factor
    if step.direction:
        word = step.direction[0 if centre < 0 else 1].upper()
        centre = abs(centre)
    decimals = _decimals(step, centre, allowed)
    low, high = (number_text(_inwards(edge, decimals, step.power, towards), decimals, step.power)
                 for edge, towards in ((centre - allowed, ceil), (centre + allowed, floor)))
    span = step.si.after(f"{low} to {high}")
    return f"{span}, {word}" if step.direction else span


def _inwards(edge, decimals, power, towards):
    """An end of the range on the grid of printed numbers, inside the range."""
    grid = 10.0 ** -decimals
    if power and edge:
        grid *= 10.0 ** floor(log10(abs(edge)))
    return towards(edge / grid + (-1e-6 if towards is ceil else 1e-6)) * grid


def _decimals(step, centre, allowed):
    """Digits fine enough that rounding takes little of the range away."""
    grain = 10.0 ** floor(log10(abs(centre))) if step.power and centre else 1.0
    decimals = step.decimals
    while decimals < 6 and grain * 10.0 ** -decimals > 0.25 * allowed:
        decimals += 1
    return decimals


def known_slips(variant):
    """Return the wrong answers that are recognised, as they would be written.

    Parameters
    ----------
    variant : Variant
        The question with its numbers.

    Returns
    -------
    tuple of KnownSlip
        Value slips in the order of the bank, then wrong options.

    Examples
    --------
    >>> from levelkit.exercises import example
    >>> [slip.answer for slip in known_slips(example("glass-reads-low"))]
    ['200.0 mm', '214.6 mm', '179.7 mm']
    """
    found = []
    for slip in variant.family.slips:
        answer = result_text(variant.family.step(slip.step), variant.solution.slips[slip.id])
        found.append(KnownSlip(answer, _what(slip.misconception, slip.sentence),
                               slip.misconception, _earned(variant, slip.step, answer),
                               slip.sentence))
    for step in variant.family.steps:
        if step.kind == CHOICE:
            right = variant.solution.steps[step.id]
            for option_id, _ in variant.options(step):
                option = step.option(option_id)
                if option_id != right and option.sentence:
                    found.append(KnownSlip(
                        f"({letter_of(variant, step, option_id)})",
                        _what(option.misconception, option.sentence), option.misconception,
                        f"0 of {step.mark_count}",
                        option.sentence))
    return tuple(found)


def marks_at(family, step_id):
    """Return the marks of a step together with those of the method that leads to it.

    Examples
    --------
    >>> from levelkit.exercises import family
    >>> marks_at(family("glass-reads-low"), "height")
    5
    """
    return sum(step.mark_count for step in family.steps if step_id in (step.id, step.shown_by))


def _earned(variant, step_id, answer):
    """What an answer earns of the marks of its step and of the method that leads to it."""
    marked = mark(variant, {step_id: answer})
    return f"{marked.marks} of {marks_at(variant.family, step_id)}"


def _what(code, sentence):
    return misconception(code).title if code else sentence

