"""The documented example, from the bank to the report, as the lecturer types it."""

import csv
import re
import shlex
import shutil
from pathlib import Path

import pytest

from levelkit.cli import main
from levelkit.papers.paper_record import read_paper
from levelkit.records.answers import read_answers
from levelkit.records.rehearsal import rehearse
from levelkit.resources import shipped_folder

EXAMPLE = shipped_folder("lessons") / "class_test"


@pytest.fixture(scope="module")
def folder(tmp_path_factory):
    place = tmp_path_factory.mktemp("term") / "example"
    shutil.copytree(EXAMPLE, place)
    assert main(["paper", str(place / "class_test.toml")]) == 0
    return place / "class_test"


def rows(path):
    with path.open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def test_bank_to_paper_to_answers_to_marks_to_report(folder, capsys):
    invented = rehearse(read_paper(folder), "spring")
    lines = invented.text.splitlines()
    broken = lines[6].replace(",", ',"', 1)  # one cadet's row is damaged on the way
    (folder / "answers.csv").write_text("\n".join([*lines[:6], broken, *lines[7:]]) + "\n",
                                        encoding="utf-8")
    assert main(["mark", str(folder)]) == 0
    said = capsys.readouterr().out
    assert "answers.csv, line 7: A quotation mark is opened and not closed." in said
    assert "11 of 12 candidates marked" in said and "1 rows or files could not be read" in said
    planted = {(one.candidate, str(one.question), one.step, one.slip)
               for one in invented.planted if one.candidate != "306"}
    found = {(row["candidate"], row["question"], row["step"], row["slip"])
             for row in rows(folder / "marks" / "marks.csv") if row["slip"]}
    assert found == planted and len(planted) > 10
    assert rows(folder / "marks" / "not_read.csv")[0]["text"] == broken

    totals = {row["candidate"]: row for row in rows(folder / "marks" / "totals.csv")}
    assert len(totals) == 12 and totals["306"]["question 1 [of 7]"] == "absent"

    candidate, question, step, _ = min(planted)
    assert main(["override", str(folder), candidate, question, step, "0", "--reason",
                 "no method on paper", "--by", "AB"]) == 0
    assert "The reason is kept in overrides.csv." in capsys.readouterr().out
    assert any(row["reason for override"] == "no method on paper"
               for row in rows(folder / "marks" / "marks.csv"))
    assert list((folder / "marks" / "earlier").glob("marks *.csv"))

    assert main(["report", str(folder)]) == 0
    assert (folder / "report" / "class_report.pdf").read_bytes().startswith(b"%PDF")
    page = (folder / "report" / "class_report.html").read_text(encoding="utf-8")
    assert "no method on paper" in page and "answers.csv, line 7" in page
    assert len(list((folder / "report" / "feedback").glob("*.html"))) == 11
    assert (folder / "anonymous" / "marks.csv").is_file()

    assert main(["second-marker", str(folder), "--count", "3"]) == 0
    assert main(["second-marker", str(folder), "--back"]) == 0
    assert "0 steps compared, 0 differ; " in capsys.readouterr().out


def documented():
    """(command, lines that it is said to answer with) of the walk-through, in order."""
    found = []
    text = (shipped_folder("lessons") / "notes" / "class_test.md").read_text(encoding="utf-8")
    for kind, body in re.findall(r"```(sh|text)\n(.*?)```", text, re.DOTALL):
        if kind == "sh":
            found += [(shlex.split(line), []) for line in body.splitlines()]
            first = len(body.splitlines())
        else:  # what the commands of the block before answer, together
            found[-first][1].extend(body.splitlines())
    return found


def test_the_walk_through_runs_as_it_is_written(tmp_path, monkeypatch, capsys):
    """Every command out of the document itself; every line that it promises is printed.

    No connection is opened on the way: nothing leaves the machine.
    """
    for name in ("connect", "connect_ex", "sendto", "bind"):
        monkeypatch.setattr(f"socket.socket.{name}",
                            lambda *_, name=name: pytest.fail(f"socket.{name} was called"))
    shutil.copytree(EXAMPLE, tmp_path / "class_test")
    monkeypatch.chdir(tmp_path)
    commands = documented()
    assert [words[1] for words, _ in commands if words[0] == "levelkit"] == [
        "paper", "mark", "mark", "override", "second-marker", "second-marker", "report", "paper",
        "paper", "handout", "qti", "syllabus", "delete-class"]
    promised, printed = [], ""
    for words, lines in commands:
        if words[0] == "cp":
            shutil.copyfile(*words[1:])
        else:
            assert main(words[1:]) == 0, words
        printed += capsys.readouterr().out
        promised += lines
        if words[1] == "report":
            folder = Path("class_test/class_test/report")
            for name in ("class_report.pdf", "class_report.html", "feedback.pdf"):
                assert (folder / name).stat().st_size > 5000
            page = (folder / "class_report.html").read_text(encoding="utf-8")
            assert "right height in the sketch" in page
            assert rows(Path("class_test/class_test/anonymous/marks.csv"))
    assert len(promised) >= 14
    for line in promised:
        pattern = ".+".join(map(re.escape, line.split("…")))
        assert re.search(rf"^{pattern}$", printed, re.MULTILINE), line
    left = sorted(path.name for path in Path("class_test").rglob("*") if path.is_file())
    assert len(left) == 8 and all(name.startswith(("03_", "evidence", "platform", "stcw", "syll"))
                                  for name in left)


def test_the_documented_hand_in_is_read_as_it_stands(folder, tmp_path):
    text = (shipped_folder("lessons") / "notes" / "class_test.md").read_text(encoding="utf-8")
    path = tmp_path / "x.json"
    path.write_text(re.search(r"```json\n(.*?)```", text, re.DOTALL).group(1), encoding="utf-8")
    answers = read_answers([path], read_paper(folder))
    assert answers.faults == () and answers.entries == {"303": {
        (2, "height"): "231,4 mm", (2, "error"): "13.6 mm low", (4, "falls"): "b"}}


def test_the_rehearsal_needs_nothing_handed_in(folder, capsys):
    assert main(["mark", str(folder), "--rehearse"]) == 0
    assert "12 of 12 candidates marked" in capsys.readouterr().out
    planted = rows(folder / "rehearsal" / "planted.csv")
    found = [row for row in rows(folder / "rehearsal" / "marks.csv") if row["slip"]]
    assert [(row["candidate"], row["question"], row["slip"]) for row in planted] == [
        (row["candidate"], row["question"], row["slip"]) for row in found]


@pytest.mark.parametrize("arguments, complaint", [
    (["mark", "nowhere"], "There is no paper.json in nowhere"),
    (["report", "nowhere"], "There is no paper.json in nowhere"),
    (["override", "nowhere", "1", "1", "x", "1", "--reason", "y"], "There is no paper.json"),
    (["second-marker", "nowhere"], "There is no paper.json"),
    (["delete-class", "nowhere", "Class"], "no sheet file of the class “Class”"),
])
def test_a_mistake_is_a_sentence_and_a_status(tmp_path, monkeypatch, capsys, arguments, complaint):
    monkeypatch.chdir(tmp_path)
    assert main(arguments) == 2
    said = capsys.readouterr().err
    assert said.startswith("levelkit: ") and complaint in said and "Traceback" not in said


def test_the_whole_command_line_can_delete_the_class_again(folder, capsys):
    assert main(["delete-class", str(folder.parent), "Engine cadets of the Vesterlume (invented)"
                 ]) == 0
    assert "files of the class are deleted." in capsys.readouterr().out
    assert not list(folder.parent.rglob("*"))
