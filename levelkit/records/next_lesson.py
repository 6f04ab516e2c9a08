"""The suggested first ten minutes of the next lesson, out of what the class got wrong."""

from dataclasses import dataclass

from ..exercises import families
from ..exercises.misconceptions import misconception
from .statistics import item_statistics, misconception_counts

WORTH_A_DEMONSTRATION = 0.1  # of the class: fewer are better helped one by one


@dataclass(frozen=True, slots=True)
class PlanLine:
    """One line of the plan.

    Attributes
    ----------
    minutes : str
        Such as "0 to 2".
    what : str
        What to do.
    """

    minutes: str
    what: str


def first_ten_minutes(marks):
    """Return the plan: the most pressing misunderstanding, its demonstration, a question like it.

    Parameters
    ----------
    marks : ClassMarks
        A marked class.

    Returns
    -------
    tuple of PlanLine
        Empty where nobody handed anything in.
    """
    present = len(marks.present)
    if not present:
        return ()
    counts = misconception_counts(marks)
    code = next(iter(counts), None)
    if code is None or counts[code] < WORTH_A_DEMONSTRATION * present:
        return _hardest_question(marks)
    one = misconception(code)
    lines = [
        PlanLine("0 to 2", f"{counts[code]} of {present} showed {code}: {one.title}. Ask for a "
                           f"show of hands before you say so. Why it is believed: {one.belief}"),
        PlanLine("2 to 6", f"Predict, then reveal (lesson {one.lesson}): {one.demonstration}"),
        PlanLine("6 to 8", f"Without a projector: {one.bench}"),
        PlanLine("8 to 10", _exercise(code, marks)),
    ]
    others = [other for other in counts if other != code
              and counts[other] >= WORTH_A_DEMONSTRATION * present]
    if others:
        second = misconception(others[0])
        lines.append(PlanLine("later", f"{others[0]} ({counts[others[0]]} of {present}): "
                                       f"{second.title}. Lesson {second.lesson}."))
    return tuple(lines)


def _exercise(code, marks):
    used = {family.id for family in marks.paper.families}
    able = sorted((family for family in families().values() if code in family.misconceptions),
                  key=lambda family: (family.id in used, family.difficulty, family.marks))
    return (f"One question like it, everybody with own numbers: “{able[0].title}” "
            f"({able[0].id}, {able[0].marks} marks).")


def _hardest_question(marks):
    hardest = min(item_statistics(marks), key=lambda item: item.facility)
    family = marks.paper.families[hardest.question - 1]
    return (PlanLine("0 to 10", (
        "No misunderstanding was shown by a tenth of the class. Work through question "
        f"{hardest.question} (“{family.title}”, facility {hardest.facility:.2f}) on the board, "
        "asking for each step.")),)
