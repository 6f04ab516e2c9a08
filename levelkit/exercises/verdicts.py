"""One value against what it should be: right, a known slip, a unit, a sign, or simply wrong."""

from dataclasses import dataclass

from ..constants import BAR
from .quantities import sister_units
from .sentences import sentence

RIGHT, FOLLOWED, SLIP, UNIT, REFERENCE = "right", "followed", "slip", "unit", "reference"
SIGN, WRONG, BLANK, UNREADABLE = "sign", "wrong", "blank", "unreadable"
METHOD_EARNED = {RIGHT, FOLLOWED, UNIT, REFERENCE, SIGN}
TRUSTED = {RIGHT, FOLLOWED, SLIP, SIGN, WRONG}
_BAROMETERS = (0.97 * BAR, 1.05 * BAR)

MIXED_UNITS, GAUGE_IN_TABLE, GUESSED_SIGN = "MC18", "MC09", "MC13"


@dataclass(frozen=True, slots=True)
class Verdict:
    """What one entry is.

    Attributes
    ----------
    kind : str
        "right", "followed", "slip", "unit", "reference", "sign", "wrong", "blank" or
        "unreadable".
    message : str
        A sentence for the person.
    slip, misconception : str
        Id of the slip and code of the misunderstanding; may be empty.
    keeps_method : bool
        Whether the method marks of the step are earned.
    """

    kind: str
    message: str
    slip: str = ""
    misconception: str = ""
    keeps_method: bool = False


def fits(step, value, expected):
    """Return whether an SI value is within the tolerance of what it should be."""
    if step.direction:
        value, expected = abs(value), abs(expected)
    return abs(value - expected) <= step.allowed(expected) * (1 + 1e-9)


def right_verdict(step, entry, key, followed):
    """Return the verdict on an entry that fits the key or follows from own values, or None.

    Where a direction is stated, the value that it belongs to comes first: a size may fit
    the key and the own value alike, a direction only one of them.
    """
    if not _reference_fits(step, entry):
        return None
    expected = [(RIGHT, key)] + ([(FOLLOWED, followed)] if followed is not None else [])
    found = [(kind, value) for kind, value in expected if fits(step, entry.si, value)]
    agreeing = [kind for kind, value in found if not entry.direction
                or entry.direction == sign_of(value)]
    for kind in agreeing + [kind for kind, _ in found]:
        return Verdict(kind, sentence("right" if kind == RIGHT else "followed"),
                       keeps_method=True)
    return None


def sign_of(value):
    """Return -1 for a negative value, else +1."""
    return -1 if value < 0 else 1


def wrong_verdict(family, step, entry, solution, after_own):
    """Return the verdict on an entry that does not fit: the slip if it is a known one.

    Parameters
    ----------
    family : Family
        The question family.
    step : Step
        A value step.
    entry : Entry
        What was typed.
    solution : Solution
        Key, or what follows from own earlier values.
    after_own : bool
        Whether earlier own values differ from the key, for the sentence.

    Returns
    -------
    Verdict
        Slip, unit, reference, sign or wrong.
    """
    expected = solution.steps[step.id]
    return (_known_slip(family, step, entry, solution)
            or _reference_slip(step, entry, expected)
            or _unit_slip(step, entry, expected)
            or _sign_slip(step, entry, expected)
            or Verdict(WRONG, sentence("wrong_after_own" if after_own else "wrong")))


def _known_slip(family, step, entry, solution):
    nearest, least = None, 1.0  # distances in units of the slip's own window
    for slip in family.slips:
        if slip.step == step.id:
            value = solution.slips[slip.id]
            distance = abs(entry.si - value)
            if step.direction and not entry.direction:
                distance = abs(abs(entry.si) - abs(value))
            share = distance / step.slip_window(solution.steps[step.id], value)
            if share <= least:
                nearest, least = slip, share
    if nearest is None:
        return None
    return Verdict(SLIP, nearest.sentence, nearest.id, nearest.misconception,
                   nearest.keeps_method)


def _reference_fits(step, entry):
    return not entry.reference or not step.reference or entry.reference == step.reference


def _reference_slip(step, entry, expected):
    if not step.reference:
        return None
    low, high = _BAROMETERS
    excess = entry.si - expected
    allowed = step.allowed(expected)
    if step.reference == "absolute" and low - allowed <= -excess <= high + allowed:
        key = "gauge_for_absolute"
    elif step.reference == "gauge" and low - allowed <= excess <= high + allowed:
        key = "absolute_for_gauge"
    elif not _reference_fits(step, entry) and fits(step, entry.si, expected):
        key = "gauge_for_absolute" if step.reference == "absolute" else "absolute_for_gauge"
    else:
        return None
    return Verdict(REFERENCE, sentence(key), "reference", GAUGE_IN_TABLE, True)


def _unit_slip(step, entry, expected):
    for other in sister_units(entry.unit):
        value = other.to_si(entry.number)
        if fits(step, abs(value), abs(expected)) and other.factor != entry.unit.factor:
            key = "unit" if entry.unit_written else "unit_unwritten"
            written = entry.unit.shown or "a pure number"
            return Verdict(UNIT, sentence(key, other=other.shown or "a pure number (a share of 1)",
                                          unit=written), "unit", MIXED_UNITS, True)
    return None


def _sign_slip(step, entry, expected):
    if step.direction or not fits(step, -entry.si, expected):
        return None
    return Verdict(SIGN, sentence("sign"), "sign", GUESSED_SIGN, True)
