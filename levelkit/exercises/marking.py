"""Marking of typed answers: marks by step, follow-through, the slip named, nothing given away."""

from dataclasses import dataclass, replace

from ..errors import InputError
from .data import in_si
from .entries import parse_entry
from .family import CHOICE, METHOD
from .sentences import sentence
from .solution import solved_family
from .verdicts import (
    BLANK,
    FOLLOWED,
    GUESSED_SIGN,
    METHOD_EARNED,
    RIGHT,
    SLIP,
    TRUSTED,
    UNREADABLE,
    WRONG,
    Verdict,
    right_verdict,
    sign_of,
    wrong_verdict,
)

SHOWN, NOT_SHOWN = "shown", "not shown"


@dataclass(frozen=True, slots=True)
class StepMark:
    """Marks for one step.

    Attributes
    ----------
    step, entry : str
        Id of the step; what was typed, unchanged.
    verdict : str
        Kind of :class:`Verdict`; "shown" or "not shown" for a method step.
    marks, of : int
        Marks earned, marks to be had.
    message : str
        A sentence for the person; empty for a method step.
    slip, misconception : str
        Id of the slip recognised and code of the misunderstanding; may be empty.
    """

    step: str
    entry: str
    verdict: str
    marks: int
    of: int
    message: str = ""
    slip: str = ""
    misconception: str = ""


@dataclass(frozen=True, slots=True)
class MarkResult:
    """A marked question.

    Attributes
    ----------
    steps : tuple of StepMark
        Every step in order.
    marks, maximum : int
        Sum of marks, and of marks to be had.
    messages : tuple of str
        What to tell the person, in order, without the right numbers.
    slip : str
        Id of the first slip recognised; empty for none.
    misconceptions : tuple of str
        Codes behind the slips, in order, each once.
    """

    steps: tuple
    marks: int
    maximum: int
    messages: tuple
    slip: str
    misconceptions: tuple

    @property
    def complete(self):
        """Whether every mark was earned."""
        return self.marks == self.maximum

    def step(self, step_id):
        """Return the marks of one step."""
        return next(step for step in self.steps if step.step == step_id)


def mark(variant, answers):
    """Return the marks for typed answers.

    Parameters
    ----------
    variant : Variant
        The question with its numbers.
    answers : dict of str to str
        Typed text by step id; a step left out counts as blank.

    Returns
    -------
    MarkResult
        Marks by step, sentences, slips.

    Raises
    ------
    InputError
        A step that the question does not have. What a person types never raises.

    Examples
    --------
    >>> from levelkit.exercises import example
    >>> result = mark(example("glass-reads-low"), {"height": "186,4 mm", "error": "high 13.6 mm"})
    >>> f"{result.marks} of {result.maximum}", result.step("error").misconception
    ('6 of 7', 'MC13')
    """
    family = variant.family
    unknown = set(answers) - {step.id for step in family.asked_steps}
    if unknown:
        raise InputError(f"{family.id} has no step {', '.join(sorted(unknown))}; it asks for "
                         f"{', '.join(step.id for step in family.asked_steps)}.")
    entries, faults = _entries(family, answers)
    followed, note = _followed(variant, entries)
    marked = {}
    for step in family.asked_steps:
        typed = str(answers.get(step.id, ""))
        if step.kind == CHOICE:
            marked[step.id] = _marked_choice(variant, step, typed, followed)
        else:
            marked[step.id] = _marked_value(variant, step, typed, entries.get(step.id),
                                            faults.get(step.id), followed)
    steps = tuple(marked[step.id] if step.kind != METHOD else _marked_method(family, step, marked)
                  for step in family.steps)
    return _result(steps, note)


def _entries(family, answers):
    """Entries by value step, and the sentence for each that cannot be read."""
    entries, faults = {}, {}
    for step in family.value_steps:
        typed = str(answers.get(step.id, ""))
        if typed.strip():
            try:
                entries[step.id] = parse_entry(typed, step)
            except InputError as fault:
                faults[step.id] = str(fault)
    return entries, faults


def _followed(variant, entries):
    """What every step should be after the candidate's own earlier values, and a note."""
    key, family = variant.solution, variant.family
    own = {}
    for step in family.value_steps:
        entry = entries.get(step.id)
        if entry is not None:
            verdict = (right_verdict(step, entry, key.steps[step.id], None)
                       or wrong_verdict(family, step, entry, key, False))
            if verdict.kind in TRUSTED:
                own[step.id] = entry.si
                if step.direction and not entry.direction and key.steps[step.id] < 0:
                    own[step.id] = -entry.si
    if not own:
        return key, ""
    try:
        return solved_family(family, in_si(family, variant.data), own), ""
    except (ArithmeticError, ValueError):  # an own value that physics cannot carry further
        return key, sentence("own_impossible")


def _marked_value(variant, step, typed, entry, fault, followed):
    if entry is None:
        kind, message = (UNREADABLE, fault) if fault else (
            BLANK, sentence("blank", ask=_asked(variant, step)))
        return StepMark(step.id, typed, kind, 0, step.mark_count, message)
    key, own = variant.solution, followed.steps[step.id]
    verdict = right_verdict(step, entry, key.steps[step.id], own)
    if verdict is None:
        verdict = wrong_verdict(variant.family, step, entry, key, own != key.steps[step.id])
        if verdict.kind == WRONG and own != key.steps[step.id]:
            verdict = wrong_verdict(variant.family, step, entry, followed, True)
    kinds = step.mark_kinds
    earned = kinds["A"] + kinds["M"] if verdict.kind in (RIGHT, FOLLOWED) else 0
    if not earned and verdict.keeps_method and kinds["A"]:
        earned = kinds["M"]
    if step.direction:
        expected = own if verdict.kind == FOLLOWED else key.steps[step.id]
        verdict, gained = _direction(step, entry, verdict, expected)
        earned += gained
    return StepMark(step.id, typed, verdict.kind, earned, step.mark_count, verdict.message,
                    verdict.slip, verdict.misconception)


def _direction(step, entry, verdict, expected):
    """The verdict with what there is to say of the direction, and the mark for it."""
    if step.is_nought(expected):  # no direction to hit or miss: its mark follows the value
        return verdict, step.mark_kinds["B"] if verdict.kind in (RIGHT, FOLLOWED) else 0
    if entry.direction == sign_of(expected):
        return verdict, step.mark_kinds["B"]
    if verdict.kind not in (RIGHT, FOLLOWED):
        return verdict, 0
    if not entry.direction:
        return replace(verdict, message=sentence("no_direction", negative=step.direction[0],
                                                 positive=step.direction[1])), 0
    return replace(verdict, message=step.direction_sentence or sentence("direction"),
                   slip="direction",
                   misconception=step.direction_misconception or GUESSED_SIGN), 0


def _marked_choice(variant, step, typed, followed):
    chosen = _chosen(variant, step, typed)
    if chosen is None:
        kind, message = (UNREADABLE, sentence("option", text=typed.strip()[:40])) if (
            typed.strip()) else (BLANK, sentence("blank", ask=_asked(variant, step)))
        return StepMark(step.id, typed, kind, 0, step.mark_count, message)
    if chosen.id == variant.solution.steps[step.id]:
        verdict = Verdict(RIGHT, sentence("right"))
    elif chosen.id == followed.steps[step.id]:
        verdict = Verdict(FOLLOWED, sentence("followed"))
    else:
        verdict = Verdict(SLIP, chosen.sentence, chosen.id, chosen.misconception)
    earned = step.mark_count if verdict.kind in (RIGHT, FOLLOWED) else 0
    return StepMark(step.id, typed, verdict.kind, earned, step.mark_count, verdict.message,
                    verdict.slip, verdict.misconception)


def _chosen(variant, step, typed):
    """The option meant by its id, its text or its letter in this variant, or None."""
    meant = typed.strip().rstrip(").").casefold()
    for index, (option_id, text) in enumerate(variant.options(step)):
        if meant and meant in (option_id.casefold(), text.rstrip(".").casefold(),
                               "abcdefghij"[index], str(index + 1)):
            return step.option(option_id)
    return None


def _asked(variant, step):
    return next(asked.ask for asked in variant.steps if asked.id == step.id)


def _marked_method(family, step, marked):
    """A method step is earned where the value that it leads to shows the method."""
    shown = marked[step.shown_by]
    earned = shown.verdict in METHOD_EARNED or (
        shown.verdict == SLIP and family.slip(shown.slip).keeps_method)
    return StepMark(step.id, "", SHOWN if earned else NOT_SHOWN,
                    step.mark_count if earned else 0, step.mark_count)


def _result(steps, note):
    messages = [note] if note else []
    for step in steps:
        if step.message and step.message not in messages:
            messages.append(step.message)
    slips = [step for step in steps if step.slip]
    codes = dict.fromkeys(step.misconception for step in slips if step.misconception)
    return MarkResult(steps, sum(step.marks for step in steps), sum(step.of for step in steps),
                      tuple(messages), slips[0].slip if slips else "", tuple(codes))
