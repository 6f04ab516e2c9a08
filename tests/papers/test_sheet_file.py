"""Sheet file and register: what is right is read, what is wrong is answered with a sentence."""

import datetime

import pytest
from paper_samples import QUESTIONS, register_text, write_sheet

from levelkit.errors import InputError
from levelkit.exercises import families
from levelkit.papers.register import read_register
from levelkit.papers.sheet_file import read_sheet


def test_a_sheet_file_is_read(tmp_path):
    sheet = read_sheet(write_sheet(tmp_path, tables='[print]\npage = "Letter"\nlarge = true'))
    assert sheet.family_ids == QUESTIONS
    assert sheet.date == datetime.date(2026, 3, 12)
    assert [one.number for one in sheet.candidates] == ["1001", "1002", "1003", "1004", "1005",
                                                        "1006"]
    assert sheet.candidates[1].large_print and sheet.candidates[1].extra_time == 25
    assert sheet.print.page == "Letter" and sheet.print.large and sheet.print.answer_book
    assert sheet.folder == tmp_path / "test_1"


def test_questions_can_be_chosen_by_topic_and_marks(tmp_path):
    path = write_sheet(tmp_path, questions=None, tables=(
        '[choose]\nnumber = 4\nmarks = 26\ntopics = ["gauge glass", "transmitter"]\n'
        'difficulty = [1, 2]'))
    chosen = [families()[one] for one in read_sheet(path).family_ids]
    assert sum(one.marks for one in chosen) == 26
    assert sorted(one.topic for one in chosen) == ["gauge glass"] * 2 + ["transmitter"] * 2
    assert max(one.difficulty for one in chosen) <= 2
    assert len({one.trap for one in chosen}) == 4


def test_versions_need_no_register(tmp_path):
    sheet = read_sheet(write_sheet(tmp_path, register=None, versions="2"))
    assert [one.number for one in sheet.candidates] == ["A", "B"]


@pytest.mark.parametrize("changes, complaint", [
    ({"title": None}, r"test_1.toml, key title: it is missing. Add title = "),
    ({"title": '""'}, r"key title: is '', which is no text"),
    ({"date": '"12.3.26"'}, r"key date: .*write a date such as 2026-03-12"),
    ({"minutes": "0"}, r"key minutes: is 0; the allowed range is 5 to 600"),
    ({"minutes": "true"}, r"key minutes: is True"),
    ({"minuts": "90"}, r"key minuts: it is unknown.*Perhaps minutes is meant"),
    ({"questions": '["glass-reads-high"]'}, r"no question family “glass-reads-high”"),
    ({"questions": '["glass-reads-low", "glass-reads-low"]'}, r"test the same trap"),
    ({"questions": '"glass-reads-low"'}, r"key questions: has to be a list"),
    ({"questions": "[]"}, r"key questions: has to be a list"),
    ({"register": '"nobody.csv"'}, r"register .*nobody.csv cannot be read"),
    ({"register": None}, r"key register: the class list is missing"),
    ({"candidates": '["2001"]'}, r"candidate 2001 is not in the register"),
    ({"tables": "[print]\npage = \"A5\""}, r"table \[print\], key page: is “A5”; allowed are A4"),
    ({"tables": "[print]\nblank_drawings = ['pump']"}, r"there is no drawing “pump”; drawings are"),
    ({"tables": "[print]\nlarge = 1"}, r"key large: is 1; write true or false"),
    ({"tables": "[choose]\nnumber = 3"}, r"both questions and choose are given"),
    ({"questions": None, "tables": "[choose]\nnumber = 3\nmarks = 300"}, r"allowed range is 1 to"),
    ({"questions": None, "tables": "[choose]\nnumber = 3\nmarks = 20\ndifficulty = [1, 9]"},
     r"key difficulty: is \[1, 9\]"),
    ({"questions": None, "tables": "[choose]\nnumber = 3\nmarks = 199"}, r"Ask for about"),
    ({"resit_of": '"first"'}, r"a resit takes its questions from the first paper"),
    ({"print": "3"}, r"key print: has to be a table"),
])
def test_a_mistake_names_file_key_and_cure(tmp_path, changes, complaint):
    path = write_sheet(tmp_path, **changes)
    with pytest.raises(InputError, match=complaint):
        read_sheet(path)


def test_a_file_that_is_missing_or_no_toml(tmp_path):
    with pytest.raises(InputError, match=r"cannot be read .*levelkit paper SHEET.toml"):
        read_sheet(tmp_path / "nothing.toml")
    (tmp_path / "odd.toml").write_bytes(b"title = \xff")
    with pytest.raises(InputError, match=r"odd.toml: .*Correct the sheet file"):
        read_sheet(tmp_path / "odd.toml")


def register(tmp_path, text):
    path = tmp_path / "class.csv"
    path.write_bytes(text if isinstance(text, bytes) else text.encode())
    return path


@pytest.mark.parametrize("text", [
    register_text(3), register_text(3).replace(",", ";"), "\ufeff" + register_text(3),
    register_text(3).replace("\n", "\r\n"), register_text(3).replace("\n", "\n\n"),
])
def test_registers_as_spreadsheets_write_them(tmp_path, text):
    found = read_register(register(tmp_path, text))
    assert [one.number for one in found] == ["1001", "1002", "1003"]
    assert found[0].name == "Invented Cadet 01"


@pytest.mark.parametrize("text, complaint", [
    ("name\nA\n", "no column “number”"),
    ("", "no column “number”"),
    ("number,age\n1,20\n", "line 1: the column “age” is unknown"),
    ("number\n", "holds no candidate"),
    ("number\n1001\n1001\n", "line 3: candidate 1001 stands twice"),
    ("number,name\nInvented Person,1001\n", "line 2: .*a name must not stand there"),
    ("number\n../1\n", "line 2: the candidate number is “../1”"),
    ("number,large print\n1,perhaps\n", "large print is “perhaps”"),
    ("number,extra time [%]\n1,500\n", "allowed range is 0 to 200 %"),
    (b"number,name\n1001,Inv\xe9nted\n", "not UTF-8"),
])
def test_a_broken_register_names_line_and_cure(tmp_path, text, complaint):
    with pytest.raises(InputError, match=complaint):
        read_register(register(tmp_path, text))
