"""The class report: two pages that are read on the way to class, as HTML and PDF."""

from statistics import mean, pstdev

from .. import __version__
from ..charts.class_map import draw_items, draw_misconception_map
from ..constants import CAUTION
from ..exercises.misconceptions import misconception
from ..papers.documents import in_words
from ..papers.html_pages import page
from ..papers.typesetting import compile_pdf, picture_pdf
from .next_lesson import first_ten_minutes
from .statistics import (
    LOW_FACILITY,
    item_statistics,
    misconception_counts,
    misconception_map,
)

LISTED_SLIPS = 12


def class_report(marks):
    """Return the class report as HTML and as PDF.

    Parameters
    ----------
    marks : ClassMarks
        A marked class.

    Returns
    -------
    dict of str to (str or bytes)
        By file name.
    """
    data, drawings = _data(marks), _drawings(marks)
    return {
        "class_report.html": page("class_report", class_name=data["class"], **data, drawings={
            name: drawing.svg for name, drawing in drawings.items()}),
        "class_report.pdf": compile_pdf(
            "class_report", data | {"page": "a4", "figures": {
                name: drawing.words for name, drawing in drawings.items()}},
            {name: picture_pdf(drawing.svg) for name, drawing in drawings.items()}),
    }


def _data(marks):
    paper, present = marks.paper, marks.present
    totals = [one.total for one in present]
    return {
        "title": paper.sheet.title, "class": paper.sheet.class_name,
        "date": in_words(paper.sheet.date), "caution": CAUTION,
        "stamp": f"levelkit {__version__}, issue {paper.issue}",
        "present": len(present), "of": paper.marks,
        "absent": [one.number for one in marks.candidates if not one.present],
        "mean": f"{mean(totals):.1f}" if totals else "-",
        "spread": f"{pstdev(totals):.1f}" if totals else "-",
        "lowest": min(totals, default=0), "highest": max(totals, default=0),
        "plan": [[line.minutes, line.what] for line in first_ten_minutes(marks)],
        "misconceptions": [_misconception(code, count, len(present))
                           for code, count in misconception_counts(marks).items()],
        "items": [_item(item, paper) for item in item_statistics(marks)],
        "slips": _slips(marks),
        "faults": [str(fault) for fault in marks.faults],
        "overrides": [_override(one, step) for one in marks.candidates for step in one.steps
                      if step.override],
    }


def _misconception(code, count, present):
    one = misconception(code)
    return {"code": code, "title": one.title, "lesson": one.lesson, "count": count,
            "share": f"{100 * count / present:.0f} %", "critical": bool(one.rank)}


def _item(item, paper):
    family = paper.families[item.question - 1]
    value = item.discrimination
    return {"n": item.question, "title": family.title, "facility": f"{item.facility:.2f}",
            "discrimination": "-" if value is None else f"{value:+.2f}".replace("-", "−"),
            "review": item.review}


def _slips(marks):
    """The commonest slips of the whole paper, with the sentence that the candidates are told."""
    shares = sorted((share for item in item_statistics(marks) for share in item.slips),
                    key=lambda share: -share.count)
    return [{"question": one.question, "step": _spaced(one.step), "code": one.misconception,
             "count": one.count, "share": f"{100 * one.share:.0f} %",
             "said": _sentence(marks, one)} for one in shares[:LISTED_SLIPS]]


def _spaced(step_id):
    """A step as it is read: the underscore would lower what follows, as in a symbol."""
    return step_id.replace("_", " ")


def _sentence(marks, share):
    return next(step.mark.message for one in marks.present for step in one.slips
                if (step.question, step.mark.step, step.mark.slip)
                == (share.question, share.step, share.slip))


def _override(one, step):
    return {"candidate": one.number, "question": step.question, "step": _spaced(step.mark.step),
            "before": step.mark.marks, "after": step.marks, "reason": step.override.reason,
            "by": step.override.by, "when": step.override.when}


def _drawings(marks):
    if not marks.present:
        return {}
    codes, numbers, cells = misconception_map(marks)
    items = item_statistics(marks)
    names = [f"{item.question} {marks.paper.families[item.question - 1].title}" for item in items]
    drawings = {"items": draw_items(names, [item.facility for item in items],
                                    [item.discrimination for item in items], LOW_FACILITY)}
    if codes:
        drawings["map"] = draw_misconception_map(
            codes, [misconception(code).title for code in codes], numbers, cells)
    return drawings
