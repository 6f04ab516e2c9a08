"""Lesson plans: the clock adds up to the lesson, nothing of book or notes is lost on the way."""

import datetime
import re
import shutil

import pytest

from levelkit.cli import main
from levelkit.errors import InputError
from levelkit.papers.handout import lesson_paths
from levelkit.papers.handout_files import make_plans
from levelkit.papers.markdown_blocks import plain
from levelkit.papers.plan import lesson_plan

NOW = datetime.datetime(2026, 1, 2, 3, 4)
PATHS = lesson_paths()


def section(plan, title):
    """Blocks from a heading to the next."""
    places = [place for place, one in enumerate(plan.blocks) if one["kind"] == "heading"]
    begin = next(place for place in places if plain(plan.blocks[place]["text"]) == title)
    end = next((place for place in places if place > begin), len(plan.blocks))
    return plan.blocks[begin + 1:end]


@pytest.mark.parametrize("path", PATHS, ids=lambda path: path.stem[:2])
def test_the_clock_runs_through_to_the_minutes_that_the_lesson_names(path):
    plan = lesson_plan(path)
    named = int(re.search(r"(\d+) minutes", " ".join(
        plain(one["text"]) for one in plan.blocks if one["kind"] == "paragraph"))[1])
    rows = section(plan, "Timing")[0]["rows"]
    spans = [tuple(int(x) for x in plain(row[0]).split("\u2013")) for row in rows if plain(row[0])]
    assert sum(end - begin for begin, end in spans) == named
    for (_, end), (begin, _) in zip(spans, spans[1:], strict=False):
        assert begin in (end, 0), "a sitting begins at nought, all else where the last one ended"
    assert any(one["kind"] == "list" and len(one["items"]) >= 2 for one in plan.blocks[:4]), (
        "objectives")


@pytest.mark.parametrize("path", PATHS, ids=lambda path: path.stem[:2])
def test_every_prediction_is_asked_with_its_answer(path):
    source = path.read_text(encoding="utf-8")
    choices = [one for one in lesson_plan(path).blocks if one["kind"] == "choice"]
    assert len(choices) == source.count("lesson.Prediction(")
    assert all(sum(option["right"] for option in one["options"]) == 1 for one in choices)


def test_what_to_bring_and_what_to_expect_are_those_of_the_notes():
    plan = lesson_plan(lesson_paths(["03"])[0])
    assert "U-tube with brine" in plain(section(plan, "Demonstrations: what to bring")[0]["text"])
    assert "MC01" in plain(section(plan, "What to expect")[1]["text"])
    items = [plain(item[0]["text"]) for item in section(plan, "Before class")[0]["items"]]
    assert items == ["Run levelkit check before class", "Press Projector size before the class "
                                                        "comes in"]
    assert "7 marks; glass-reads-low" in plain(
        section(plan, "Exercises, with own numbers")[0]["items"][0][0]["text"])


def test_own_notes_beside_an_own_notebook_come_first(tmp_path):
    own = tmp_path / "03_why_the_glass_reads_low.ipynb"
    shutil.copy(lesson_paths(["03"])[0], own)
    (tmp_path / "notes").mkdir()
    (tmp_path / "notes" / f"{own.stem}.md").write_text(
        "# Mine\n\n30 minutes. Bring cake.\n\n| minutes | what |\n|--:|---|\n| 30 | eat |\n",
        encoding="utf-8")
    plan = lesson_plan(own)
    assert plain(section(plan, "Timing")[0]["rows"][0][2]) == "eat"
    assert plain(section(plan, "Before class")[0]["items"][0][0]["text"]) == "Bring cake"


def test_a_notebook_without_notes_or_lesson_parts_still_has_a_plan(tmp_path):
    book = tmp_path / "99_mine.ipynb"
    book.write_text('{"cells": [{"cell_type": "markdown", "source": ["# 99 What?"]}]}', "utf-8")
    plan = lesson_plan(book)
    assert plan.title == "Lesson plan: 99 What?" and plan.blocks == ()
    with pytest.raises(InputError, match="cannot be read"):
        lesson_plan(tmp_path / "none.ipynb")


def test_the_command_writes_a_page_to_print_and_one_for_the_screen(tmp_path, capsys):
    assert main(["plan", "03", "--output", str(tmp_path)]) == 0
    assert "1 lessons, 2 files" in capsys.readouterr().out
    page = (tmp_path / "03_why_the_glass_reads_low_plan.html").read_text("utf-8")
    assert "It sinks by about 55 mm" in page and "43\u201345" in page
    pdf = (tmp_path / "03_why_the_glass_reads_low_plan.pdf").read_bytes()
    assert pdf.startswith(b"%PDF")
    said = make_plans(lesson_paths(["03"]), tmp_path, NOW, "Letter")
    assert len(said) > 1, "what stood there before is kept as a dated copy"
