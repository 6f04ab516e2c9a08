"""The empty grid for answers: a line for each candidate, a column for each step with its unit."""

import csv
import io

CANDIDATE = "candidate"


def columns(families):
    """Return the heading of every column with the question and step that it holds.

    Parameters
    ----------
    families : sequence of Family
        The questions in order.

    Returns
    -------
    dict of str to (int, str)
        Question number and step id by heading, such as "2 height [mm]".

    Examples
    --------
    >>> from levelkit.exercises import family
    >>> list(columns([family("glass-reads-low")]))
    ['1 height [mm]', '1 error [mm]']
    """
    found = {}
    for number, one in enumerate(families, 1):
        for step in one.asked_steps:
            if step.kind == "choice":
                unit = "letter"
            else:
                unit = step.si.shown or "-"
            found[f"{number} {step.id} [{unit}]"] = (number, step.id)
    return found


def empty_grid(paper):
    """Return the CSV text of an answer grid that is to be filled in by keyboard."""
    heads = columns(paper.families)
    text = io.StringIO()
    writer = csv.writer(text, lineterminator="\n")
    writer.writerow([CANDIDATE, *heads])
    for one in paper.papers:
        writer.writerow([one.candidate.number, *("" for _ in heads)])
    return text.getvalue()
