"""The still pictures kept in the lessons say what the code draws today: handouts print them.

`python tests/test_kept_pictures.py` draws anew whatever has changed at all; look at the difference.
"""

import ast
import json
import re
import sys
from pathlib import Path

import pytest

from levelkit.papers.lesson_cells import kept_lines

LESSONS = sorted((Path(__file__).resolve().parent.parent / "lessons").glob("*.ipynb"))
SHOWING = ("levelkit.panels.twin.display", "levelkit.panels.worked_page.display",
           "IPython.display.display")


def drawn_today(document, patch):
    """Run the code cells of a lesson of ours; return the pages that each cell shows."""
    shown, names, pages = [], {}, []
    for place in SHOWING:
        patch(place, lambda made, **_: shown.append(made))
    for cell in document["cells"]:
        shown.clear()
        if cell["cell_type"] == "code":
            tree = ast.parse("".join(cell["source"]))
            last = tree.body.pop() if tree.body and isinstance(tree.body[-1], ast.Expr) else None
            exec(compile(tree, "<lesson>", "exec"), names)
            if last is not None:
                value = eval(compile(ast.Expression(last.value), "<lesson>", "eval"), names)
                if not hasattr(value, "comm"):  # a panel is a widget and keeps no page
                    shown.append(value)
        pages.append([page for one in shown if (page := _page(one))])
    return pages


def _page(shown):
    made = getattr(shown, "_repr_html_", None)
    return made() if made else ""


def drawn(page):
    """The lines of a page; in drawings the serial number of their names does not count."""
    return [(tag, words, re.sub(r"\blkf?\d+-", "", svg)) for tag, words, svg in kept_lines(page)]


def said(page):
    """The lines of a page and the lettering of its drawings, wherever it stands in them."""
    return [(tag, words, sorted(re.findall(r">([^<>]+)</text>", svg)))
            for tag, words, svg in kept_lines(page)]


def kept_pages(cell):
    return ["".join(output["data"]["text/html"]) for output in cell.get("outputs", ())
            if "text/html" in output.get("data", {})]


@pytest.mark.parametrize("path", LESSONS, ids=lambda path: path.stem[:2])
def test_kept_pictures_say_what_those_of_today_say(path, monkeypatch, capsys):
    document = json.loads(path.read_text(encoding="utf-8"))
    today = drawn_today(document, monkeypatch.setattr)
    for cell, pages in zip(document["cells"], today, strict=True):
        kept = kept_pages(cell)
        if kept:
            assert [said(page) for page in kept] == [said(page) for page in pages], (
                "python tests/test_kept_pictures.py draws it anew")


def refresh(path):
    """Draw anew what is no longer so; return how many pages were."""
    document, count = json.loads(path.read_text(encoding="utf-8")), 0
    with pytest.MonkeyPatch.context() as patch:
        today = drawn_today(document, patch.setattr)
    for cell, pages in zip(document["cells"], today, strict=True):
        outputs = [one for one in cell.get("outputs", ()) if "text/html" in one.get("data", {})]
        for output, page in zip(outputs, pages, strict=bool(outputs)):
            if drawn("".join(output["data"]["text/html"])) != drawn(page):
                output["data"]["text/html"] = page.splitlines(keepends=True)
                count += 1
    if count:
        path.write_text(json.dumps(document, ensure_ascii=False, indent=1) + "\n", "utf-8")
    return count


if __name__ == "__main__":
    for lesson in LESSONS:
        if count := refresh(lesson):
            print(f"{lesson.name}: {count}", file=sys.stderr)
