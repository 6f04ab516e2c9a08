"""A blind sample for a second marker, and how far the two markings lie apart."""

from dataclasses import dataclass

from ..errors import InputError
from ..exercises.selection import shuffled
from ..papers.scheme import scheme_lines
from .csv_rows import csv_text, read_rows
from .faults import Fault

SAMPLE_HEAD = ("script", "question", "step", "marks for", "answer", "accept", "of",
               "second marks")


@dataclass(frozen=True, slots=True)
class Difference:
    """One step on which the two markers differ.

    Attributes
    ----------
    candidate : str
        Whose script.
    question : int
        Number of the question.
    step : str
        Which step.
    first, second : int
        Marks of the two.
    """

    candidate: str
    question: int
    step: str
    first: int
    second: int


def sample(marks, count):
    """Return candidates spread evenly from the lowest to the highest sum.

    Parameters
    ----------
    marks : ClassMarks
        A marked class.
    count : int
        How many scripts.

    Returns
    -------
    dict of str to str
        Candidate number by script code; the codes tell neither number nor rank.

    Raises
    ------
    InputError
        More scripts than were handed in, or fewer than one.
    """
    ranked = sorted(marks.present, key=lambda one: (one.total, one.number))
    if not 1 <= count <= len(ranked):
        raise InputError(f"The sample is {count} scripts; the allowed range is 1 to "
                         f"{len(ranked)}, for so many were handed in.")
    last = len(ranked) - 1
    places = sorted({round(index * last / max(1, count - 1)) for index in range(count)})
    chosen = shuffled([ranked[place].number for place in places], "second marker",
                      marks.paper.sheet.secret, marks.paper.sheet.name)
    return {f"S{index:02}": number for index, number in enumerate(chosen, 1)}


def sample_files(marks, count):
    """Return the second marker's sheet, and the key that stays with the lecturer.

    Returns
    -------
    dict of str to str
        CSV text by file name.
    """
    scripts = sample(marks, count)
    rows = []
    for script, number in scripts.items():
        own, one = marks.paper.paper(number), marks.candidate(number)
        for question, variant in enumerate(own.variants, 1):
            lines = dict(zip((step.id for step in variant.family.steps), scheme_lines(variant),
                             strict=True))
            for step in one.steps:
                if step.question == question:
                    line = lines[step.mark.step]
                    rows.append([script, question, step.mark.step, line.marks, step.mark.entry,
                                 line.accept or line.working, step.mark.of, ""])
    return {"second_marking.csv": csv_text(SAMPLE_HEAD, rows),
            "second_marking_key.csv": csv_text(("script", "candidate"), scripts.items())}


def compare_second(marks, sheet, key):
    """Return where the second marker gave other marks, and rows that cannot be used.

    Parameters
    ----------
    marks : ClassMarks
        The first marking.
    sheet, key : pathlib.Path
        The filled-in sheet, and the key.

    Returns
    -------
    differences : tuple of Difference
        In the order of the sheet.
    compared, blank : int
        Steps that both have marked; steps that the second marker has not filled in.
    faults : tuple of Fault
        Rows without a mark in the allowed range.
    """
    _, key_rows, faults = read_rows(key)
    numbers = {cells.get("script"): cells.get("candidate") for _, _, cells in key_rows}
    _, rows, said = read_rows(sheet)
    faults, found, compared, blank = [*faults, *said], [], 0, 0
    for line, text, cells in rows:
        first = _first_mark(marks, numbers.get(cells.get("script")), cells)
        second = cells.get("second marks", "")
        if first is None:
            faults.append(Fault(sheet.name, line, "There is no such script, question and step.",
                                "Leave these columns as they were.", text))
        elif not second:
            blank += 1
        elif not (second.isdecimal() and int(second) <= first.mark.of):
            faults.append(Fault(sheet.name, line, f"The second marks are “{second[:12]}”.",
                                f"Write a whole number from 0 to {first.mark.of}.", text))
        else:
            compared += 1
            if int(second) != first.marks:
                found.append(Difference(numbers[cells["script"]], first.question,
                                        first.mark.step, first.marks, int(second)))
    return tuple(found), compared, blank, tuple(faults)


def _first_mark(marks, number, cells):
    if number not in {one.number for one in marks.candidates}:
        return None
    return next((step for step in marks.candidate(number).steps
                 if (str(step.question), step.mark.step)
                 == (cells.get("question"), cells.get("step"))), None)
