"""Marks changed by hand, each with its reason: a log that is only ever added to."""

from dataclasses import dataclass

from ..errors import InputError
from .csv_rows import csv_text, read_rows
from .faults import Fault

HEAD = ("candidate", "question", "step", "marks", "reason", "by", "when")
FILE_NAME = "overrides.csv"


@dataclass(frozen=True, slots=True)
class Override:
    """One mark changed by hand.

    Attributes
    ----------
    candidate, step : str
        Whose, and which step of the question.
    question : int
        Number of the question.
    marks : int
        Marks instead of those of the marking.
    reason, by, when : str
        Why, by whom (initials), and when.
    """

    candidate: str
    question: int
    step: str
    marks: int
    reason: str
    by: str = ""
    when: str = ""

    @property
    def place(self):
        """Candidate, question and step."""
        return self.candidate, self.question, self.step


def read_overrides(path, paper):
    """Return the log of a folder, the later of two for one step standing for both, and faults.

    Parameters
    ----------
    path : pathlib.Path
        The CSV file; none is no override.
    paper : ClassPaper
        What they belong to.

    Returns
    -------
    overrides : dict of tuple to Override
        By candidate, question and step.
    faults : list of Fault
        Rows that cannot be used; they change nothing.
    """
    if not path.exists():
        return {}, []
    head, rows, faults = read_rows(path)
    found = {}
    if head and not {"candidate", "question", "step", "marks", "reason"} <= set(head):
        return {}, [*faults, Fault(path.name, 1, "Columns are missing.",
                                   f"The first line has to be {','.join(HEAD)}.", ",".join(head))]
    for line, text, cells in rows:
        try:
            one = checked_override(paper, *(cells.get(name, "") for name in HEAD))
        except InputError as problem:
            faults.append(Fault(path.name, line, str(problem), "This row changes nothing.", text))
        else:
            found[one.place] = one
    return found, faults


def checked_override(paper, candidate, question, step, marks, reason, by="", when=""):
    """Return an override once it is known to fit the paper.

    Parameters
    ----------
    paper : ClassPaper
        What it belongs to.
    candidate, question, step, marks, reason, by, when : str
        As typed.

    Returns
    -------
    Override
        With whole numbers.

    Raises
    ------
    InputError
        No such candidate, question or step; marks outside 0 and those to be had; no reason.
    """
    own = paper.paper(str(candidate))
    if not (str(question).isdecimal() and 1 <= int(question) <= len(own.variants)):
        raise InputError(f"There is no question {question}; questions are 1 to "
                         f"{len(own.variants)}.")
    family = own.variants[int(question) - 1].family
    steps = {one.id: one for one in family.steps}
    if step not in steps:
        raise InputError(f"Question {question} has no step {step}; steps are {', '.join(steps)}.")
    most = steps[step].mark_count
    if not (str(marks).isdecimal() and int(marks) <= most):
        raise InputError(f"The marks are {marks}; the allowed range is 0 to {most}.")
    if not reason.strip():
        raise InputError("The reason is missing; write why the mark is changed.")
    return Override(str(candidate), int(question), step, int(marks), reason.strip(), by, when)


def with_override(path, override):
    """Return the text of the log with one more row."""
    old = []
    if path.exists():
        _, rows, _ = read_rows(path)
        old = [[cells.get(name, "") for name in HEAD] for _, _, cells in rows]
    return csv_text(HEAD, [*old, [getattr(override, name) for name in HEAD]])
