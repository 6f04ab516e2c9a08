"""A lesson plan on paper: objectives, clock, predictions, what to bring, from book and notes."""

import re

from ..exercises import example
from ..resources import shipped_folder
from .handout import Handout
from .lesson_cells import read_cells
from .markdown_blocks import blocks, heading, paragraph, plain, said
from .scheme import LETTERS

PLAN = "plan"
_LENGTH = re.compile(r"^\d+ minutes[.,;]?\s*")
_EXPECTED = ("Predictions to expect", "Misconceptions cured")
_BENCH = "Bench"


def lesson_plan(path):
    """Return the plan of a lesson.

    Parameters
    ----------
    path : pathlib.Path
        The notebook; it is read, never run. Notes of the lecturer's own in `notes` beside it go
        before those that levelkit ships.

    Returns
    -------
    Handout
        Plain data for the templates.

    Raises
    ------
    InputError
        No notebook.
    """
    cells = read_cells(path)
    words = [block for cell in cells if cell.words for block in blocks(cell.words)]
    title = next((plain(one["text"]) for one in words if one["kind"] == "heading"), path.stem)
    notes = _notes(path)
    made = [*_frame(words), *_before_class(notes), *_clock(notes), *_predictions(cells),
            *_expected(notes), *_demonstrations(notes), *_practice(cells)]
    return Handout(path.stem, PLAN, f"Lesson plan: {title}", tuple(made), {})


def _notes(path):
    places = path.parent / "notes", shipped_folder("lessons") / "notes"
    found = next((file for place in places if (file := place / f"{path.stem}.md").is_file()), None)
    return blocks(found.read_text(encoding="utf-8")) if found else []


def _frame(words):
    """How long it takes, what comes before it, and the objectives."""
    first = next((place for place, one in enumerate(words) if one["kind"] == "list"), None)
    if first is None:
        return []
    return [one for one in words[1:first + 1] if one["kind"] in ("paragraph", "list")]


def _before_class(notes):
    """The sentences of the notes before their first table, as a list to tick off."""
    opening = []
    for one in notes:
        if one["kind"] == "table":
            break
        if one["kind"] == "paragraph":
            opening.append(_LENGTH.sub("", plain(one["text"])))
    items = [sentence for text in opening
             for sentence in re.split(r"(?<=[.;?!])\s+(?=\S)", text) if sentence]
    if not items:
        return []
    return [heading(2, "Before class"),
            {"kind": "list", "ordered": False, "start": 1,
             "items": [[paragraph(f"{item[0].upper()}{item[1:].rstrip(';.')}")]
                       for item in items]}]


def _clock(notes):
    """The timetable with the time on the clock; a row without minutes begins a sitting."""
    table = next((one for one in notes if one["kind"] == "table"
                  and plain(one["head"][0]) == "minutes"), None)
    if table is None:
        return []
    rows, passed = [], 0
    for minutes, what in table["rows"]:
        if not plain(minutes).strip().isdigit():
            passed = 0
            rows.append([[said("")], [said("")], what])
            continue
        length = int(plain(minutes))
        rows.append([[said(f"{passed}\u2013{passed + length}")], [said(str(length))], what])
        passed += length
    return [heading(2, "Timing"),
            {"kind": "table", "align": ["right", "right", "left"],
             "head": [[said("clock")], [said("min")], [said("what")]], "rows": rows}]


def _predictions(cells):
    made = []
    for name, given in (call for cell in cells for call in cell.calls):
        if name == "Prediction" and {"question", "options", "answer"} <= set(given):
            made.append({"kind": "choice", "label": "Predict", "question": given["question"],
                         "options": [{"letter": letter, "text": option, "reply": "",
                                      "right": option == given["answer"]}
                                     for letter, option in zip(LETTERS, given["options"],
                                                               strict=False)],
                         "answers": True, "why": given.get("why", "")})
    return [heading(2, "Predict before you show"), *made] if made else []


def _expected(notes):
    made = [one for one in notes if _opens_with(one, _EXPECTED)]
    return [heading(2, "What to expect"), *made] if made else []


def _demonstrations(notes):
    made = [one for one in notes if _opens_with(one, (_BENCH,))]
    return [heading(2, "Demonstrations: what to bring"), *made] if made else []


def _opens_with(block, words):
    return (block["kind"] == "paragraph" and block["text"]
            and block["text"][0]["kind"] == "strong"
            and plain(block["text"][:1]).startswith(words))


def _practice(cells):
    """The exercises of the lesson, by title and marks."""
    families = [given["family_id"] for cell in cells for name, given in cell.calls
                if name == "exercise" and isinstance(given.get("family_id"), str)]
    items = [[paragraph(f"{family.title} ({family.marks} marks; {name})")]
             for name in families for family in (example(name).family,)]
    return [heading(2, "Exercises, with own numbers"),
            {"kind": "list", "ordered": False, "start": 1, "items": items}] if items else []
