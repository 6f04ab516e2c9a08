"""Lessons on paper: everything but the code, answers for the lecturer only, nothing is run."""

import datetime
import io
import json
import re

import pytest
from pypdf import PdfReader

from levelkit.cli import main
from levelkit.constants import CAUTION
from levelkit.errors import InputError
from levelkit.papers.handout import LECTURER, STUDENT, handout, lesson_paths
from levelkit.papers.handout_files import handout_files, make_handouts
from levelkit.papers.lesson_cells import read_cells
from levelkit.papers.markdown_blocks import blocks

LESSONS = lesson_paths()
NOW = datetime.datetime(2026, 3, 12, 14, 5, 6)


def joined(text):
    return re.sub(r"\s+", "", text)


def everything(one):
    """All that a handout hands to the templates, as one text."""
    return json.dumps(one.blocks, ensure_ascii=False)


def cards(path):
    return [(name, given) for cell in read_cells(path) for name, given in cell.calls]


@pytest.mark.parametrize("path", LESSONS, ids=lambda path: path.stem[:2])
def test_the_student_gets_every_question_and_no_answer(path):
    student, lecturer = (everything(handout(path, edition)) for edition in (STUDENT, LECTURER))
    asked = 0
    for name, given in cards(path):
        if name not in ("Prediction", "SelfCheck"):
            continue
        asked += 1
        said = [given["why"]] if name == "Prediction" else list(given["feedback"].values())
        options = given["options"] if name == "Prediction" else list(given["feedback"])
        for words in (given["question"], *options):
            assert json.dumps(words, ensure_ascii=False) in student
        for words in said:
            assert json.dumps(words, ensure_ascii=False) in lecturer and words not in student
    assert asked >= 2
    assert '"right": true' in lecturer and '"right": true' not in student
    notes = path.parent / "notes" / f"{path.stem}.md"
    assert ("Notes for the lecturer" in lecturer) == notes.is_file()
    assert "Notes for the lecturer" not in student


@pytest.mark.parametrize("path", LESSONS, ids=lambda path: path.stem[:2])
def test_every_formula_is_translated_and_every_kept_picture_is_there(path):
    one = handout(path, LECTURER)
    assert '"typst": ""' not in everything(one)
    kept = [svg for cell in read_cells(path) for *_, svg in cell.kept if svg]
    assert kept and set(kept) <= set(one.pictures.values())
    printed = [cell.printed.rstrip() for cell in read_cells(path) if cell.printed.strip()]
    for text in printed:
        assert json.dumps(text, ensure_ascii=False) in everything(one)


@pytest.mark.parametrize("path", LESSONS, ids=lambda path: path.stem[:2])
def test_no_code_and_no_words_about_working_a_panel(path):
    for edition in (STUDENT, LECTURER):
        text = everything(handout(path, edition))
        for code in ("from levelkit", "import ", "print(", "panel.set", "lesson.", "panel."):
            assert not re.search(rf'(?<![\w ]){re.escape(code)}\w', text), code
        assert "How to work it" not in text and "two cells further down" not in text


@pytest.fixture(scope="module")
def third():
    """Both editions of lesson 03 as files."""
    path, = lesson_paths(["3"])
    return {edition: handout_files(handout(path, edition)) for edition in (STUDENT, LECTURER)}


def text_of(files):
    content = next(content for name, content in files.items() if name.endswith(".pdf"))
    return [page.extract_text() for page in PdfReader(io.BytesIO(content)).pages]


def test_the_pdf_of_a_lesson_holds_its_numbers_words_and_caution(third):
    for edition, files in third.items():
        pages = text_of(files)
        text = joined("".join(pages))
        assert all(joined(CAUTION) in joined(page) for page in pages)
        assert joined("by hand: h_g = 250 x (756.1 - 31.38) / (961.1 - 31.38) = 194.9 mm") in text
        assert joined("The glass reads 55.1 mm LOW.") in text
        assert (joined("The drum water gets lighter with pressure") in text) == (
            edition == LECTURER)
        assert ("185.9to186.8mm" in text) == (edition == LECTURER)
        assert f"page 1 of {len(pages)}" in pages[0]


def test_the_web_page_stands_alone_and_names_the_same(third):
    for edition, files in third.items():
        page = next(content for name, content in files.items() if name.endswith(".html"))
        assert "<script" not in page and not re.search(r'(?:src|href)="(?!data:)', page)
        assert page.count("<math") > 10 and "<mfrac>" in page
        pictures = re.findall(r'<img[^>]* src="data:image/svg[^"]+" alt="([^"]+)"', page)
        assert len(pictures) == 2 and pictures[1].startswith("The gauge glass shows 194.9 mm")
        assert ("185.9 to 186.8 mm" in page) == (edition == LECTURER)
        assert "h<sub>g</sub>" in page or edition == STUDENT


def notebook(tmp_path, *cells):
    """A lecturer's own notebook; a tuple of source and output html is a code cell."""
    made = []
    for cell in cells:
        if isinstance(cell, str):
            made.append({"cell_type": "markdown", "source": cell})
        else:
            output = {"output_type": "display_data", "data": {"text/html": cell[1]}}
            made.append({"cell_type": "code", "source": cell[0], "outputs": [output]})
    path = tmp_path / "own.ipynb"
    path.write_text(json.dumps({"cells": made, "nbformat": 4}), encoding="utf-8")
    return path


def test_nothing_in_a_notebook_is_run_and_its_markup_stays_words(tmp_path):
    trap = tmp_path / "trap"
    code = f"__import__('pathlib').Path({str(trap)!r}).touch()"
    path = notebook(
        tmp_path, '# Own <script>alert(1)</script>\n\n<img src=x onerror="alert(2)"> & #read("x")',
        "## Formulas\n\n$#read(\"/etc/hostname\")$ and $\\href{x}{y}$ and $h_g$",
        (code, '<script>alert(3)</script><p onclick="alert(4)">kept <b>words</b></p>'
               '<img src="http://elsewhere/x.png" alt="far">'),
        (f'lesson.SelfCheck({code}, {{"a": "b"}}, right="a")\nlesson.exercise("glass-reads-low")',
         ""))
    files = handout_files(handout(path, LECTURER))
    assert not trap.exists()
    page = files["own_lecturer.html"]
    assert "<script" not in page and "<img src=x" not in page and "elsewhere" not in page
    assert not re.search(r"<[^>]*\son\w+=", page)
    assert "kept words" in page and "&lt;img src=x onerror=" in page
    text = joined("".join(text_of(files)))
    assert '#read("x")' in text and '#read("/etc/hostname")' in text  # shown as written
    assert "Self-check" not in text and joined("Exercise 1") in text


def test_a_section_that_has_nothing_for_paper_leaves_no_heading(tmp_path):
    path = notebook(tmp_path, "# Own", "## The panel\n\n**How to work it.** Drag.", ("panel", ""),
                    "## Bolts\n\nPress them.", ("lesson.bolts_panel()", ""), "## End\n\nDone.")
    text = everything(handout(path, STUDENT))
    assert "The panel" not in text and "This part is on the screen." in text and "Done." in text


@pytest.mark.parametrize("content, complaint", [
    (None, "cannot be read"), ("{", "is no notebook"), ("[]", "is no notebook"),
    ('{"cells": [{}]}', "is no notebook"), ('{"cells": 3}', "is no notebook"),
])
def test_what_is_no_notebook_is_a_sentence(tmp_path, content, complaint):
    path = tmp_path / "odd.ipynb"
    if content is not None:
        path.write_text(content)
    with pytest.raises(InputError, match=complaint):
        handout(path, STUDENT)


def test_drills_are_mixed_for_the_student_and_in_order_with_reasons_for_the_lecturer():
    path, = lesson_paths(["06"])
    drills = {edition: [block for block in handout(path, edition).blocks
                        if block["kind"] == "order"] for edition in (STUDENT, LECTURER)}
    first = [step for step, _ in drills[LECTURER][0]["steps"]]
    assert first[0] == "get clear and protect the face" and first[1].startswith("shut the water")
    mixed = [step for step, _ in drills[STUDENT][0]["steps"]]
    assert sorted(mixed) == sorted(first) and mixed != first
    assert all(reason for _, reason in drills[LECTURER][0]["steps"])
    assert not any(reason for _, reason in drills[STUDENT][0]["steps"])
    assert drills[STUDENT][0]["caution"] == CAUTION


def test_pages_and_type_as_wished_and_what_stood_there_is_kept(tmp_path):
    path = notebook(tmp_path, "# Own\n\nOne.")
    make_handouts([path], tmp_path, NOW, [STUDENT], "Letter", large=True)
    reader = PdfReader(tmp_path / "own_student.pdf")
    assert [round(float(side)) for side in reader.pages[0].mediabox[2:]] == [612, 792]
    path = notebook(tmp_path, "# Own\n\nTwo.")
    said = make_handouts([path], tmp_path, NOW, [STUDENT])
    assert said[0].startswith("own_student.pdf is renewed; the one before is kept as earlier/")
    assert said[-1] == f"1 lessons, 2 files, are in {tmp_path}."


def test_the_command(tmp_path, capsys):
    assert main(["handout", "07", "--edition", "student", "--output", str(tmp_path)]) == 0
    assert sorted(path.name for path in tmp_path.iterdir()) == [
        "07_two_fluid_u_tube_student.html", "07_two_fluid_u_tube_student.pdf"]
    assert main(["handout", "77"]) == 2
    assert "There is no lesson 77; lessons are 00, 01" in capsys.readouterr().err


def test_markdown_that_lessons_use_keeps_its_order_and_marks():
    text = ("Text with **bold** and `code`.\n\n2. two\n3. three\n\n| a | b |\n|--:|---|\n"
            "| $h$ | x |\n\n> said\n\n```\nas it is\n```\n")
    kinds = [block["kind"] for block in blocks(text)]
    assert kinds == ["paragraph", "list", "table", "quote", "code"]
    assert blocks(text)[1]["start"] == 2 and blocks(text)[2]["align"] == ["right", "left"]
