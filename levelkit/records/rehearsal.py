"""Invented hand-ins with known slips, to try marking and reports before the first class does."""

from dataclasses import dataclass

from ..exercises.data import in_si
from ..exercises.family import CHOICE
from ..exercises.selection import seed_number
from ..exercises.solution import solved_family
from ..papers.grid import CANDIDATE, columns
from ..papers.scheme import letter_of
from .csv_rows import csv_text

SLIP_IN_A_HUNDRED = 40
SPARE_DIGITS = 3  # beyond those of the key, so that rounding plants nothing of its own


@dataclass(frozen=True, slots=True)
class Planted:
    """One slip that was planted.

    Attributes
    ----------
    candidate : str
        Whose.
    question : int
        Number of the question.
    step, slip, misconception : str
        As the marking names them.
    """

    candidate: str
    question: int
    step: str
    slip: str
    misconception: str


@dataclass(frozen=True, slots=True)
class Rehearsal:
    """Invented answers of a class.

    Attributes
    ----------
    text : str
        The grid as CSV.
    planted : tuple of Planted
        Every slip in it, at most one for each question of a candidate.
    """

    text: str
    planted: tuple

    def planted_csv(self):
        """Return the slips as CSV."""
        return csv_text(("candidate", "question", "step", "slip", "misconception"),
                        [[one.candidate, one.question, one.step, one.slip, one.misconception]
                         for one in self.planted])


def rehearse(paper, *seed_parts):
    """Return invented answers for everybody: right but for the planted slips.

    After a slip the later steps follow from it, as they do with an honest candidate.

    Parameters
    ----------
    paper : ClassPaper
        The questions.
    *seed_parts : str or int
        Another seed plants other slips.

    Returns
    -------
    Rehearsal
        Answers and slips.
    """
    heads = columns(paper.families)
    rows, planted = [], []
    for one in paper.papers:
        typed = {}
        for number, variant in enumerate(one.variants, 1):
            seed = (*seed_parts, one.candidate.number, number)
            step_id, slip_id, code = _choice(variant, seed)
            if slip_id:
                planted.append(Planted(one.candidate.number, number, step_id, slip_id, code))
            for step, text in _typed(variant, step_id, slip_id, seed).items():
                typed[number, step] = text
        rows.append([one.candidate.number, *(typed[place] for place in heads.values())])
    return Rehearsal(csv_text([CANDIDATE, *heads], rows), tuple(planted))


def _choice(variant, seed):
    """(step, slip, code) of what is planted in one question; empty texts for nothing."""
    if seed_number("whether", *seed) % 100 >= SLIP_IN_A_HUNDRED:
        return "", "", ""
    able = [(slip.step, slip.id, slip.misconception) for slip in variant.family.slips]
    for step in variant.family.steps:
        if step.kind == CHOICE:
            right = variant.solution.steps[step.id]
            able += [(step.id, option.id, option.misconception) for option in step.options
                     if option.id != right]
        elif step.direction:
            able.append((step.id, "direction", step.direction_misconception or "MC13"))
    return able[seed_number("which", *seed) % len(able)] if able else ("", "", "")


def _typed(variant, step_id, slip_id, seed):
    """What is typed at every step, by step id."""
    family, data, own, typed = variant.family, in_si(variant.family, variant.data), {}, {}
    for step in family.asked_steps:
        followed = solved_family(family, data, own).steps[step.id]
        if step.kind == CHOICE:
            chosen = slip_id if step.id == step_id else followed
            typed[step.id] = letter_of(variant, step, chosen)
        elif step.id == step_id and slip_id == "direction":
            typed[step.id] = _number_text(step, -followed, seed)
        elif step.id == step_id:
            own[step.id] = variant.solution.slips[slip_id]
            typed[step.id] = _number_text(step, own[step.id], seed)
        else:
            typed[step.id] = _number_text(step, followed, seed)
    return typed


def _number_text(step, value, seed):
    """A number as people type them: comma or point, with or without unit."""
    shown = step.si.from_si(value)
    word = step.direction[0 if shown < 0 else 1] if step.direction else ""
    number = abs(shown) if step.direction else shown
    text = (f"{number:.{step.decimals + SPARE_DIGITS}e}" if step.power
            else f"{number:.{step.decimals + SPARE_DIGITS}f}")
    style = seed_number("style", *seed, step.id)
    if style % 3 == 0:
        text = text.replace(".", ",")
    if style % 2 == 0 and step.si.shown:
        text = f"{text} {step.si.shown}"
    return f"{text} {word}".strip()
