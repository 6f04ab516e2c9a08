"""Which data make a fair question: every slip told apart from the answer, nothing lucky."""

from itertools import combinations
from math import isfinite

from .templates import number_text

CLEARANCE = 3  # tolerances between an answer and a slip: marking accepts one


def objection(family, numbers, solution):
    """Return why a variant must not be used, or an empty text.

    Parameters
    ----------
    family : Family
        The question family.
    numbers : dict of str to float
        Given quantities as printed.
    solution : Solution
        Its steps and slips, in SI.

    Returns
    -------
    str
        A sentence for whoever writes the bank; empty for a good variant.
    """
    if solution.unfair:
        return solution.unfair
    for step in family.value_steps:
        value = solution.steps[step.id]
        if not isfinite(value):
            return f"{step.id} is not a finite number"
        slips = [(slip.id, solution.slips[slip.id]) for slip in family.slips
                 if slip.step == step.id]
        reason = _hidden_slip(step, value, slips) or _luck(family, numbers, step, value)
        if reason:
            return f"{step.id}: {reason}"
    return ""


def _hidden_slip(step, value, slips):
    allowed = step.allowed(value)
    apart = abs if step.direction else float
    for name, slip in slips:
        if abs(apart(slip) - apart(value)) <= CLEARANCE * allowed:
            return f"slip {name} falls within {CLEARANCE} tolerances of the answer"
    for (one, first), (other, second) in combinations(slips, 2):
        if abs(first - second) <= max(step.slip_window(value, first),
                                      step.slip_window(value, second)):
            return f"slips {one} and {other} cannot be told apart"
    return ""


def _luck(family, numbers, step, value):
    if step.fixed:
        return ""
    shown = step.si.from_si(value)
    text = number_text(abs(shown), step.decimals, step.power)
    if not step.power and float(text) == 0.0:
        return "the answer is nought"
    if step.unit == "1" and abs(value - 1.0) <= step.allowed(1.0):
        return "the ratio is one"
    for given in family.givens:
        if given.unit == step.unit and text == number_text(
                abs(numbers[given.name]), step.decimals, step.power):
            return f"the answer equals the given {given.name}"
    digits = text.replace(".", "").lstrip("0")
    if not step.power and len(digits) >= 3 and len(digits.rstrip("0")) == 1:
        return "the answer is too round"
    return ""
