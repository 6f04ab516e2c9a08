"""Lessons are thin, complete and compared; a wrong number in a kept output is found."""

import re
import subprocess
import sys
from pathlib import Path

import nbformat
import pytest

from levelkit.exercises import families

ROOT = Path(__file__).resolve().parent.parent
LESSONS = sorted((ROOT / "lessons").glob("*.ipynb"))
COMPARED = "nbval-check-output"


def cells(path, kind):
    return [cell for cell in nbformat.read(path, as_version=4).cells if cell.cell_type == kind]


def tags(cell):
    return cell.metadata.get("tags", [])


def prose(path):
    return "\n".join(cell.source for cell in cells(path, "markdown"))


def test_there_are_lessons():
    assert [path.name[:2] for path in LESSONS] == [*(f"{number:02}" for number in range(17)), "90"]


@pytest.mark.parametrize("path", LESSONS, ids=lambda path: path.stem)
class TestLesson:
    def test_something_is_compared(self, path):
        compared = [cell for cell in cells(path, "code") if COMPARED in tags(cell)]
        assert compared, "no cell is tagged for comparison"
        for cell in compared:
            text = "".join(output.get("text", "") for output in cell.outputs)
            assert re.search(r"\d", text), "a compared cell keeps no number"
            assert "keep_output" in tags(cell), "the notebook stripper would empty this cell"

    def test_no_program_hides_in_it(self, path):
        code = "\n".join(cell.source for cell in cells(path, "code"))
        for forbidden in (r"^\s*(def|class|global)\b", r"\bmatplotlib\b", r"\bipywidgets\b",
                          r"\bexec\(|\beval\("):
            assert not re.search(forbidden, code, re.M), forbidden
        visible = [line for cell in cells(path, "code")
                   if not cell.metadata.get("jupyter", {}).get("source_hidden")
                   for line in cell.source.splitlines() if line.strip()]
        assert len(visible) <= 25, f"{len(visible)} visible code lines"

    def test_it_has_the_parts_of_a_lesson(self, path):
        text, code = prose(path), "\n".join(cell.source for cell in cells(path, "code"))
        assert re.match(rf"# {path.name[:2]} · .+\?", text), "the title is a question"
        assert "you can" in text and "minutes" in text
        assert "not for operating decisions" in text
        assert "**Sources.**" in text and "**Next:**" in text
        for part in ("Prediction(", "SelfCheck(", "lesson.exercise(", ".twin("):
            assert part in code, part

    def test_its_exercises_are_of_the_bank_and_of_its_own_subject(self, path):
        code = "\n".join(cell.source for cell in cells(path, "code"))
        asked = [families()[name] for name in re.findall(r'lesson\.exercise\("([^"]+)"', code)]
        assert asked, "no exercise cell"
        if path.name[:2] < "15":  # the last two practise all of them
            assert path.name[:2] in {one.lesson for one in asked}

    def test_it_leads_on_to_the_next_one(self, path):
        following = prose(path).rsplit("**Next:**", 1)[1]
        if path.name[:2] < "16":  # the last lesson, and the check page that stands apart
            assert f"lesson {int(path.name[:2]) + 1:02}" in following

    def test_the_still_picture_is_kept(self, path):
        twin = next(cell for cell in cells(path, "code") if ".twin(" in cell.source)
        assert "keep_output" in tags(twin)
        assert any("data:image/svg+xml" in output.get("data", {}).get("text/html", "")
                   for output in twin.outputs)

    def test_the_lecturer_has_notes(self, path):
        notes = ROOT / "lessons" / "notes" / f"{path.stem}.md"
        assert notes.exists() and "minutes" in notes.read_text("utf-8")


def run_nbval(path):
    return subprocess.run(
        [sys.executable, "-m", "pytest", "-q", "-p", "no:cacheprovider", "-o", "addopts=",
         "--nbval-lax", str(path)], capture_output=True, text=True, cwd=path.parent)


def test_a_planted_wrong_number_is_found(tmp_path):
    book = nbformat.read(ROOT / "lessons" / "03_why_the_glass_reads_low.ipynb", as_version=4)
    kept = next(cell for cell in book.cells if COMPARED in tags(cell))
    assert "194.9 mm" in kept.outputs[0]["text"]
    kept.outputs[0]["text"] = kept.outputs[0]["text"].replace("194.9 mm", "195.9 mm")
    nbformat.write(book, tmp_path / "planted.ipynb")
    done = run_nbval(tmp_path / "planted.ipynb")
    assert done.returncode == 1 and "1 failed" in done.stdout
