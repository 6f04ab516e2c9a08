"""Feedback as files: one PDF for the class, a web page for each candidate, a key to exercises."""

from dataclasses import asdict

from .. import __version__
from ..constants import CAUTION
from ..papers.documents import in_words
from ..papers.html_pages import page
from ..papers.scheme import LETTERS, letter_of
from ..papers.typesetting import compile_pdf
from .csv_rows import csv_text
from .feedback import feedback

FOLDER = "feedback"


def feedback_files(marks, large=()):
    """Return everybody's feedback.

    Parameters
    ----------
    marks : ClassMarks
        A marked class.
    large : iterable of str
        Candidates who want larger type.

    Returns
    -------
    dict of str to (str or bytes)
        By file name; numbers stand in names, never a candidate's name.
    """
    sheet, large = marks.paper.sheet, set(large)
    common = {"title": sheet.title, "class": sheet.class_name, "date": in_words(sheet.date),
              "caution": CAUTION, "stamp": f"levelkit {__version__}, issue {marks.paper.issue}"}
    sheets = [feedback(marks, one.number) for one in marks.present]
    pages = [_plain(one) | {"large": one.number in large} for one in sheets]
    made = {"feedback.pdf": compile_pdf("feedback", common | {"page": "a4", "pages": pages}),
            "practice_key.csv": _key(sheets)}
    for one in pages:
        made[f"{FOLDER}/{one['number']}.html"] = page(
            "feedback", class_name=sheet.class_name, **common, **one)
    return made


def _plain(one):
    practice = one.practice
    asks = []
    for step in practice.steps:
        ask = step.ask + (f" [{step.unit}]" if step.unit else "")
        for letter, (_, text) in zip(LETTERS, step.options, strict=False):
            ask += f" ({letter}) {text}."
        asks.append(ask)
    return {
        "number": one.number, "total": one.total, "of": one.of,
        "questions": [list(question) for question in one.questions], "right": list(one.right),
        "slips": [asdict(slip) for slip in one.slips], "more": one.more,
        "changed": list(one.changed), "to_do": one.to_do, "practice_text": practice.text,
        "practice_asks": asks, "practice_code": f"{practice.family.id} {practice.code}"}


def _key(sheets):
    """Answers to everybody's exercise, for the lecturer."""
    rows = []
    for one in sheets:
        for step in one.practice.steps:
            answer = one.practice.answer(step.id)
            if step.options:
                family_step = one.practice.family.step(step.id)
                right = one.practice.solution.steps[step.id]
                answer = f"({letter_of(one.practice, family_step, right)}) {answer}"
            rows.append([one.number, one.practice.family.id, one.practice.code, step.id, answer])
    return csv_text(("candidate", "family", "code", "step", "answer"), rows)
