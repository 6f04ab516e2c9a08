"""Worked steps from one source: the hint, then the formula, then the line with the numbers."""

from dataclasses import dataclass

from .family import CHOICE, METHOD, VALUE
from .templates import filled, formula_text, number_text, working_text

FULL, PARTLY, BLANK = "full", "partly", "blank"
GAP = "……"


@dataclass(frozen=True, slots=True)
class WorkedStep:
    """One step as help that is given piece by piece.

    Attributes
    ----------
    step, kind, marks, ask : str
        Id, kind, marks such as "M1 A1", and what to find.
    hint : str
        A nudge without formula.
    formula : str
        In symbols; empty for a choice.
    working : str
        In numbers with the result; for a choice the right option.
    """

    step: str
    kind: str
    marks: str
    ask: str
    hint: str
    formula: str
    working: str


def result_text(step, value):
    """Return the value of a step as it is printed, with unit and direction.

    Parameters
    ----------
    step : Step
        The step.
    value : float or str
        SI value, or the id of an option.

    Returns
    -------
    str
        Such as "186.4 mm" or "13.6 mm, LOW".
    """
    if step.kind == CHOICE:
        return step.option(value).text
    shown = step.si.from_si(value)
    if step.direction:
        word = step.direction[0 if shown < 0 else 1].upper()
        return f"{_with_unit(step, abs(shown))}, {word}"
    return _with_unit(step, shown)


def _with_unit(step, number):
    return step.si.after(number_text(number, step.decimals, step.power))


def worked_steps(variant):
    """Return every step of a variant with hint, formula and working.

    Parameters
    ----------
    variant : Variant
        A question with its numbers.

    Returns
    -------
    tuple of WorkedStep
        In the order of the solution.

    Examples
    --------
    >>> from levelkit.exercises import example
    >>> print(worked_steps(example("glass-reads-low"))[1].working)
    h_g = 200 × (897.0 − 4.16) / (962.2 − 4.16) = 186.4 mm
    """
    return tuple(_worked(variant, step) for step in variant.family.steps)


def _worked(variant, step):
    ask = filled(step.ask, variant.texts)
    if step.kind == CHOICE:
        return WorkedStep(step.id, step.kind, step.marks, ask, step.hint, "",
                          result_text(step, variant.solution.steps[step.id]))
    formula = formula_text(step.formula, variant.symbols)
    working = working_text(step.formula, variant.numbers)
    if step.kind == METHOD:
        return WorkedStep(step.id, step.kind, step.marks, ask, step.hint, formula, working)
    result = result_text(step, variant.solution.steps[step.id])
    if step.direction:
        shown = step.si.from_si(variant.solution.steps[step.id])
        result = f"{_with_unit(step, shown)} ({step.direction[0 if shown < 0 else 1].upper()})"
    return WorkedStep(step.id, step.kind, step.marks, ask, step.hint,
                      _equation(step.symbol, formula), _equation(step.symbol, working, result))


def _equation(*parts):
    """The parts joined by equals signs; a value read from a table has no formula."""
    return " = ".join(part for part in parts if part)


def faded(variant, amount):
    """Return a worked example as lines of text with more or less left to the learner.

    Parameters
    ----------
    variant : Variant
        A question with its numbers.
    amount : str
        "full": every step worked; "partly": the later half in formulas with gaps;
        "blank": only what is asked.

    Returns
    -------
    tuple of str
        One line for each step, with its marks.

    Examples
    --------
    >>> from levelkit.exercises import example
    >>> print(faded(example("glass-reads-low"), "partly")[-1])
    e = h_g − h = …… mm   [A1 B1]
    """
    steps = worked_steps(variant)
    shown = {FULL: len(steps), PARTLY: len(steps) // 2, BLANK: 0}[amount]
    lines = []
    for index, worked in enumerate(steps):
        if index < shown:
            line = worked.working
            if worked.kind == CHOICE:
                line = f"{worked.ask} {line}"
        elif worked.kind == METHOD:
            line = worked.formula if amount == PARTLY else worked.hint
        else:
            gap = GAP
            if worked.kind == VALUE:
                mark = variant.family.step(worked.step).si.shown
                gap = f"{GAP} {mark}".rstrip()
            formula = worked.formula if amount == PARTLY else ""
            line = f"{formula} = {gap}" if formula else f"{worked.ask} {gap}"
        lines.append(f"{line}   [{worked.marks}]")
    return tuple(lines)
