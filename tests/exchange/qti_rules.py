"""The part of QTI 2.1 that our packages use, as rules, and a reader that scores an item by it.

Structure of item, interactions, operators, modalFeedback and outcomeProcessing: read in the text of
the final XML schema imsqti_v2p1 (2012); manifest: read in that of the packaging profile
qtiv2p1_imscpv1p2_v1p0 (2014). Values of test attributes: from memory. The schemas themselves may
not be handed on by us without registration, so they are neither shipped nor run. Nothing here is
shared with the code that writes the packages.
"""

import re
from xml.etree import ElementTree as ET

NAMESPACE = "{http://www.imsglobal.org/xsd/imsqti_v2p1}"
PACKAGING = "{http://www.imsglobal.org/xsd/imscp_v1p1}"
EXPRESSION = ("variable", "baseValue", "sum", "multiple", "match", "equal", "testVariables")
ANY, ONE, SOME, MAYBE = "*", "1", "+", "?"

RULES = {
    "assessmentItem": [("responseDeclaration", ANY), ("outcomeDeclaration", ANY),
                       ("itemBody", MAYBE), ("responseProcessing", MAYBE),
                       ("modalFeedback", ANY)],
    "responseDeclaration": [("correctResponse", MAYBE)],
    "correctResponse": [("value", SOME)],
    "outcomeDeclaration": [("defaultValue", MAYBE)],
    "defaultValue": [("value", SOME)],
    "value": [], "itemBody": [(("p", "choiceInteraction"), ANY)],
    "p": [(("img", "textEntryInteraction", "inlineChoiceInteraction"), ANY)],
    "img": [], "textEntryInteraction": [],
    "choiceInteraction": [("prompt", MAYBE), ("simpleChoice", SOME)],
    "prompt": [], "simpleChoice": [], "inlineChoice": [],
    "inlineChoiceInteraction": [("inlineChoice", SOME)],
    "responseProcessing": [("responseCondition", ANY)],
    "responseCondition": [("responseIf", ONE), ("responseElseIf", ANY), ("responseElse", MAYBE)],
    "responseIf": [(EXPRESSION, ONE), ("setOutcomeValue", ANY)],
    "responseElseIf": [(EXPRESSION, ONE), ("setOutcomeValue", ANY)],
    "setOutcomeValue": [(EXPRESSION, ONE)],
    "equal": [(EXPRESSION, ONE), (EXPRESSION, ONE)],
    "match": [(EXPRESSION, ONE), (EXPRESSION, ONE)],
    "sum": [(EXPRESSION, SOME)], "multiple": [(EXPRESSION, ANY)],
    "variable": [], "baseValue": [], "modalFeedback": [], "testVariables": [],
    "assessmentTest": [("outcomeDeclaration", ANY), ("testPart", SOME),
                       ("outcomeProcessing", MAYBE)],
    "testPart": [("assessmentSection", SOME)],
    "assessmentSection": [("selection", MAYBE), ("ordering", MAYBE), ("assessmentItemRef", ANY)],
    "selection": [], "assessmentItemRef": [], "outcomeProcessing": [("setOutcomeValue", ANY)],
}
REQUIRED = {
    "assessmentItem": {"identifier", "title", "adaptive", "timeDependent"},
    "responseDeclaration": {"identifier", "cardinality"},
    "outcomeDeclaration": {"identifier", "cardinality"},
    "textEntryInteraction": {"responseIdentifier"},
    "choiceInteraction": {"responseIdentifier"}, "simpleChoice": {"identifier"},
    "inlineChoiceInteraction": {"responseIdentifier"}, "inlineChoice": {"identifier"},
    "img": {"src", "alt"}, "setOutcomeValue": {"identifier"}, "variable": {"identifier"},
    "baseValue": {"baseType"}, "equal": {"toleranceMode"},
    "modalFeedback": {"outcomeIdentifier", "identifier", "showHide"},
    "assessmentTest": {"identifier", "title"},
    "testPart": {"identifier", "navigationMode", "submissionMode"},
    "assessmentSection": {"identifier", "title", "visible"},
    "assessmentItemRef": {"identifier", "href"}, "selection": {"select"},
    "testVariables": {"variableIdentifier"},
}
OPTIONAL = {"choiceInteraction": {"shuffle", "maxChoices"}, "textEntryInteraction":
            {"expectedLength"}, "inlineChoiceInteraction": {"shuffle"}, "equal": {"tolerance"},
            "responseDeclaration": {"baseType"}, "outcomeDeclaration": {"baseType"},
            "assessmentItem": {"toolName", "toolVersion"}}
VALUES = {
    "cardinality": {"multiple", "ordered", "record", "single"},
    "baseType": {"boolean", "directedPair", "duration", "file", "float", "identifier", "integer",
                 "pair", "point", "string", "uri"},
    "toleranceMode": {"absolute", "exact", "relative"}, "showHide": {"show", "hide"},
    "navigationMode": {"linear", "nonlinear"}, "submissionMode": {"individual", "simultaneous"},
    "adaptive": {"true", "false"}, "timeDependent": {"true", "false"},
    "shuffle": {"true", "false"}, "visible": {"true", "false"},
}
NUMBERS = {"maxChoices": int, "expectedLength": int, "select": int, "tolerance": float}
IDENTIFIER = re.compile(r"[A-Za-z_][A-Za-z0-9_.\-]*")
MIXED = {"p", "value", "prompt", "simpleChoice", "inlineChoice", "baseValue", "modalFeedback"}


def faults(text):
    """Return what in a file is against the rules, as sentences."""
    found = []
    _look(ET.fromstring(text), found)
    return found


def _name(element):
    return element.tag.removeprefix(NAMESPACE)


def _look(element, found):
    name = _name(element)
    if not element.tag.startswith(NAMESPACE) or name not in RULES:
        found.append(f"{element.tag} is not allowed")
        return
    own = {key for key in element.attrib if not key.startswith("{")}
    required = REQUIRED.get(name, set())
    found += [f"{name}: {key} is missing" for key in sorted(required - own)]
    found += [f"{name}: {key} is unknown"
              for key in sorted(own - required - OPTIONAL.get(name, set()))]
    for key in ("identifier", "responseIdentifier", "outcomeIdentifier"):
        if key in own and not IDENTIFIER.fullmatch(element.get(key)):
            found.append(f"{name}: {key} {element.get(key)!r} is no identifier")
    found += [f"{name}: {key} is {element.get(key)!r}" for key, allowed in VALUES.items()
              if key in own and element.get(key) not in allowed]
    for key, kind in NUMBERS.items():
        if key in own and not _is(kind, element.get(key)):
            found.append(f"{name}: {key} is {element.get(key)!r}, which is no number")
    if name not in MIXED and (element.text or "").strip():
        found.append(f"{name}: text is not allowed")
    _order(name, [_name(child) for child in element], found)
    for child in element:
        _look(child, found)


def _is(kind, text):
    try:
        kind(text)
    except ValueError:
        return False
    return True


def _order(name, children, found, rules=RULES):
    left = list(children)
    for allowed, count in rules[name]:
        allowed = (allowed,) if isinstance(allowed, str) else allowed
        most = 1 if count in (ONE, MAYBE) else len(left)
        taken = 0
        while taken < most and left and left[0] in allowed:
            left.pop(0)
            taken += 1
        if not taken and count in (ONE, SOME):
            found.append(f"{name}: {'/'.join(allowed)} is missing")
    if left:
        found.append(f"{name}: {left[0]} stands in the wrong place")


MANIFEST = {
    "manifest": [("metadata", ONE), ("organizations", ONE), ("resources", ONE)],
    "metadata": [("schema", ONE), ("schemaversion", ONE)], "schema": [], "schemaversion": [],
    "organizations": [], "resources": [("resource", ANY)],
    "resource": [("file", ANY), ("dependency", ANY)], "file": [], "dependency": [],
}
MANIFEST_REQUIRED = {"manifest": {"identifier"}, "resource": {"identifier", "type"},
                     "file": {"href"}, "dependency": {"identifierref"}}
MANIFEST_TEXT = {"schema": {"QTIv2.1 Package", "QTIv2.1 Item Bank Package"},
                 "schemaversion": {"1.0.0"}}
RESOURCES = {"imsqti_test_xmlv2p1", "imsqti_section_xmlv2p1", "imsqti_item_xmlv2p1",
             "imsqti_resprocessing_xmlv2p1", "webcontent"}


def manifest_faults(text):
    """Return what in a manifest is against the packaging profile, as sentences."""
    manifest, found = ET.fromstring(text), []
    for element in manifest.iter():
        name = element.tag.removeprefix(PACKAGING)
        if not element.tag.startswith(PACKAGING) or name not in MANIFEST:
            found.append(f"{element.tag} is not allowed")
            continue
        own = {key for key in element.attrib if not key.startswith("{")}
        required = MANIFEST_REQUIRED.get(name, set())
        found += [f"{name}: {key} is missing" for key in sorted(required - own)]
        found += [f"{name}: {key} is unknown"
                  for key in sorted(own - required - ({"href"} if name == "resource" else set()))]
        if (element.text or "").strip() not in MANIFEST_TEXT.get(name, {""}):
            found.append(f"{name}: the text {element.text!r} is not allowed")
        if name == "resource" and element.get("type") not in RESOURCES:
            found.append(f"resource: type is {element.get('type')!r}")
        _order(name, [child.tag.removeprefix(PACKAGING) for child in element], found, MANIFEST)
    names = [one.get("identifier") for one in manifest.iter() if one.get("identifier")]
    found += [f"the identifier {one} stands twice" for one in sorted(set(names))
              if names.count(one) > 1]
    found += [f"{one} is no identifier" for one in names if not IDENTIFIER.fullmatch(one)]
    found += [f"nothing has the identifier {one.get('identifierref')}"
              for one in manifest.iter(f"{PACKAGING}dependency")
              if one.get("identifierref") not in names]
    return found


def score(text, responses):
    """Return score and feedback of an item for responses by identifier, as a platform would."""
    item = ET.fromstring(text)
    kinds = {one.get("identifier"): one.get("baseType")
             for one in item.iter(f"{NAMESPACE}responseDeclaration")}
    values = {name: _typed(responses.get(name), kind) for name, kind in kinds.items()}
    for one in item.iter(f"{NAMESPACE}outcomeDeclaration"):
        default = one.find(f"{NAMESPACE}defaultValue/{NAMESPACE}value")
        values[one.get("identifier")] = None if default is None else float(default.text)
    for condition in item.iter(f"{NAMESPACE}responseCondition"):
        for branch in condition:
            if _value(branch[0], values) is True:
                for rule in branch[1:]:
                    values[rule.get("identifier")] = _value(rule[0], values)
                break
    shown = values["FEEDBACK"] or []
    told = [one.text for one in item.iter(f"{NAMESPACE}modalFeedback")
            if one.get("identifier") in shown]
    return values["SCORE"], shown, told


def _typed(text, kind):
    if text is None:
        return None
    return float(text) if kind == "float" else text


def _value(element, values):
    name = _name(element)
    if name == "variable":
        return values[element.get("identifier")]
    if name == "baseValue":
        return _typed(element.text, element.get("baseType"))
    parts = [_value(child, values) for child in element]
    if name == "sum":
        return sum(parts)
    if name == "multiple":
        return [one for part in parts if part is not None
                for one in (part if isinstance(part, list) else [part])]
    if None in parts:
        return None
    if name == "match":
        return parts[0] == parts[1]
    assert name == "equal" and element.get("toleranceMode") == "absolute"
    return abs(parts[0] - parts[1]) <= float(element.get("tolerance"))
