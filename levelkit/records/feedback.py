"""One page for each candidate: what was right, each slip, where to look, one exercise like it."""

from dataclasses import dataclass

from ..exercises import families, variant
from ..exercises.family import METHOD
from ..exercises.misconceptions import misconception
from ..exercises.verdicts import BLANK

MOST_SLIPS = 4
_NO_RANK = 99


@dataclass(frozen=True, slots=True)
class SlipNote:
    """One slip as the candidate is told.

    Attributes
    ----------
    question : int
        Number of the question.
    ask, answer, said : str
        What was asked; what was typed; the sentence, which does not give the number away.
    code, title, lesson : str
        The misunderstanding behind it and the lesson that cures it; code and title may be empty.
    """

    question: int
    ask: str
    answer: str
    said: str
    code: str
    title: str
    lesson: str


@dataclass(frozen=True, slots=True)
class Feedback:
    """A candidate's page.

    Attributes
    ----------
    number : str
        Candidate number.
    total, of : int
        Marks earned and to be had.
    questions : tuple of (int, int, int)
        Number, marks earned, marks to be had.
    right : tuple of str
        What was right, one line for each question that has something.
    slips : tuple of SlipNote
        The gravest first.
    more : int
        Slips that found no room on the page.
    changed : tuple of str
        Marks that were changed by hand, with the reason.
    to_do : str
        The one thing to do.
    practice : Variant
        An exercise like the gravest slip.
    """

    number: str
    total: int
    of: int
    questions: tuple
    right: tuple
    slips: tuple
    more: int
    changed: tuple
    to_do: str
    practice: object


def feedback(marks, number):
    """Return the page of one candidate who handed something in.

    Parameters
    ----------
    marks : ClassMarks
        A marked class.
    number : str
        Candidate number.

    Returns
    -------
    Feedback
        Without any right number of the paper.
    """
    own, one = marks.paper.paper(number), marks.candidate(number)
    slips = sorted(one.slips, key=_gravity)
    notes = tuple(_note(own, step) for step in slips)
    practice, to_do = _practice(marks, own, one, notes)
    return Feedback(
        number, one.total, marks.paper.marks,
        tuple((index, one.of_question(index), question.family.marks)
              for index, question in enumerate(own.variants, 1)),
        _right(own, one), notes[:MOST_SLIPS], max(0, len(notes) - MOST_SLIPS),
        tuple(_change(own, step) for step in one.steps if step.override),
        to_do, practice)


def _change(own, step):
    asked = _asked(own, step.question, step.mark.step) or "the method"
    return (f"Question {step.question}, {asked[:1].lower()}{asked[1:]}: {step.override.marks} "
            f"instead of {step.mark.marks} marks. {step.override.reason}")


def _gravity(step):
    """What can hide low water comes first, then what cost most."""
    code = step.mark.misconception
    rank = (misconception(code).rank or _NO_RANK) if code else _NO_RANK
    return rank, step.marks - step.mark.of, step.question


def _asked(own, question, step_id):
    steps = own.variants[question - 1].steps
    return next((asked.ask for asked in steps if asked.id == step_id), "")


def _note(own, step):
    code = step.mark.misconception
    family = own.variants[step.question - 1].family
    answer = step.mark.entry
    for asked in own.variants[step.question - 1].steps:
        if asked.id == step.mark.step and asked.options:
            answer = dict(asked.options).get(step.mark.slip, answer)
    ask = _asked(own, step.question, step.mark.step)
    return SlipNote(step.question, ask if ask.endswith("?") else f"{ask}.", answer,
                    step.mark.message, code, misconception(code).title if code else "",
                    misconception(code).lesson if code else family.lesson)


def _right(own, one):
    lines = []
    for number, question in enumerate(own.variants, 1):
        steps = [step for step in one.steps if step.question == number
                 and question.family.step(step.mark.step).kind != METHOD]
        full = [step for step in steps if step.marks == step.mark.of]
        if steps and len(full) == len(steps):
            lines.append(f"Question {number}: everything.")
        elif full:
            asks = "; ".join(_asked(own, number, step.mark.step) for step in full)
            lines.append(f"Question {number}: {asks}{'' if asks.endswith('?') else '.'}")
    return tuple(lines)


def _practice(marks, own, one, notes):
    """An exercise for the gravest slip, and the sentence that sends the candidate to it."""
    used = {question.family.id for question in own.variants}
    if notes:
        first = notes[0]
        family = (_like(first.code, used) if first.code else None) or (
            own.variants[first.question - 1].family)
        about = f" ({first.title[:1].lower()}{first.title[1:]})" if first.title else ""
        to_do = (f"Work through lesson {first.lesson}{about}, then solve the exercise below with a "
                 "pocket calculator and bring it along.")
    else:
        family, blank = _weakest(own, one)
        to_do = ("Leave no step blank: " if blank else "No known slip was found. ") + (
            "solve the exercise below with a pocket calculator and bring it along.")
    seed = ("practice", marks.paper.sheet.name, one.number)
    return variant(family.id, *seed), to_do


def _like(code, used):
    """The easiest family, not of this paper, in which the same slip can be made."""
    able = [family for family in families().values()
            if code in family.misconceptions and family.id not in used]
    return min(able, key=lambda family: (family.difficulty, family.marks, family.id), default=None)


def _weakest(own, one):
    """The family of the question that lost most, and whether something was left blank."""
    lost = {number: question.family.marks - one.of_question(number)
            for number, question in enumerate(own.variants, 1)}
    blank = any(step.mark.verdict == BLANK for step in one.steps)
    return own.variants[max(lost, key=lost.get) - 1].family, blank
