"""Feedback, class report, anonymous export, deletion: what is said, to whom, and what is not."""

import csv
import datetime
import html
import io
import re

import pytest
from paper_samples import class_paper, write_sheet
from pypdf import PdfReader

from levelkit.cli import main
from levelkit.errors import InputError
from levelkit.exercises import families, variant
from levelkit.papers.making import make_papers
from levelkit.records import rehearsal
from levelkit.records.answers import Answers, read_answers
from levelkit.records.class_folder import report_folder
from levelkit.records.class_marks import mark_class
from levelkit.records.feedback import feedback
from levelkit.records.feedback_pages import feedback_files
from levelkit.records.privacy import WITHHELD, anonymised_csv, codes, delete_class
from levelkit.records.rehearsal import rehearse
from levelkit.records.report import class_report

NOW = datetime.datetime(2026, 3, 20, 9, 0, 0)


@pytest.fixture(scope="module")
def marks(tmp_path_factory):
    folder = tmp_path_factory.mktemp("class")
    paper = class_paper(folder, 10)
    (folder / "a.csv").write_text(rehearse(paper, "reports").text, encoding="utf-8")
    answers = read_answers([folder / "a.csv"], paper)
    answers.entries.pop("1010")
    answers.entries["1009"] = {(2, "height"): "I am Invented Cadet 09", (2, "error"): "<b>3</b>"}
    return mark_class(paper, answers)


@pytest.fixture(scope="module")
def pages(marks):
    return feedback_files(marks, ["1002"])


def plain(text):
    return re.sub(r"\s+", "", html.unescape(text))


def test_one_page_for_everybody_who_was_there(marks, pages):
    reader = PdfReader(io.BytesIO(pages["feedback.pdf"]))
    texts = [page.extract_text() for page in reader.pages]
    numbers = [re.search(r"candidate (\d+)", text).group(1) for text in texts]
    assert list(dict.fromkeys(numbers)) == [f"{number}" for number in range(1001, 1010)]
    assert all(numbers.count(number) == 1 for number in numbers if number != "1002")
    assert {name for name in pages if name.startswith("feedback/")} == {
        f"feedback/{number}.html" for number in range(1001, 1010)}
    for one in marks.present:
        assert "</em>Lesson" not in pages[f"feedback/{one.number}.html"]  # a space between words
        assert f"{one.total}of31" in plain(texts[numbers.index(one.number)])
        assert f"{one.total}of31" in plain(pages[f"feedback/{one.number}.html"])


def test_one_page_is_enough_for_the_worst_paper(tmp_path, monkeypatch):
    monkeypatch.setattr(rehearsal, "SLIP_IN_A_HUNDRED", 100)
    paper = class_paper(tmp_path, 12, questions=(
        '["gauge-to-table", "error-grows-with-pressure", "two-fluid-range", "hot-read-cold", '
        '"signal-conversions", "water-cock-nearly-choked"]'))
    (tmp_path / "a.csv").write_text(rehearse(paper, "worst").text, encoding="utf-8")
    marks = mark_class(paper, read_answers([tmp_path / "a.csv"], paper))
    assert max(len(one.slips) for one in marks.present) == 6
    assert len(PdfReader(io.BytesIO(feedback_files(marks)["feedback.pdf"])).pages) == 12


def test_each_slip_is_told_with_the_own_answer_its_sentence_and_a_lesson(marks, pages):
    told = 0
    for one in marks.present:
        text = plain(pages[f"feedback/{one.number}.html"])
        for slip in feedback(marks, one.number).slips:
            assert plain(slip.answer) in text and plain(slip.said) in text
            assert f"Lesson{slip.lesson}." in text
            told += 1
    assert told >= 10


def test_no_right_number_of_the_paper_is_given_away(marks, pages):
    for one in marks.present:
        own = marks.paper.paper(one.number)
        page = feedback(marks, one.number)
        said = " ".join((*page.right, *(slip.said for slip in page.slips), page.to_do))
        for question in own.variants:
            for step in question.family.value_steps:
                if len(question.numbers[step.id]) >= 4:
                    assert question.numbers[step.id] not in said


def test_the_exercise_is_like_the_gravest_slip_and_its_key_is_the_lecturers(marks, pages):
    key = {(row["candidate"], row["step"]): row
           for row in csv.DictReader(io.StringIO(pages["practice_key.csv"]))}
    for one in marks.present:
        page = feedback(marks, one.number)
        family = page.practice.family
        if page.slips and page.slips[0].code:
            assert page.slips[0].code in family.misconceptions
        assert plain(page.practice.text) in plain(pages[f"feedback/{one.number}.html"])
        again = variant(family.id, *page.practice.seed)
        for step in family.value_steps:
            assert key[one.number, step.id]["answer"] == again.answer(step.id)
            assert key[one.number, step.id]["answer"] not in page.to_do
    assert len({feedback(marks, one.number).practice.text for one in marks.present}) == len(
        marks.present)


def test_a_candidate_without_slip_or_answer_gets_something_to_do(tmp_path):
    paper = class_paper(tmp_path, 2, questions='["glass-reads-low"]')
    right = {(1, step.id): paper.papers[0].variants[0].answer(step.id)
             for step in paper.families[0].value_steps}
    marks = mark_class(paper, Answers({"1001": right, "1002": {(1, "height"): "1 mm"}}, {}, ()))
    good, bad = feedback(marks, "1001"), feedback(marks, "1002")
    assert good.right == ("Question 1: everything.",) and good.slips == ()
    assert good.to_do.startswith("No known slip was found.")
    assert bad.right == () and bad.to_do.startswith("Leave no step blank")


def test_markup_in_an_answer_stays_text(marks, pages):
    page = pages["feedback/1009.html"]
    assert "<b>3</b>" not in page
    report = class_report(marks)["class_report.html"]
    assert "<b>3</b>" not in report and "<script" not in report
    assert not re.search(r"(?:src|href)=.?https?:", report + page)


def test_the_class_report_holds_plan_map_items_and_slips(marks):
    made = class_report(marks)
    text = plain("".join(page.extract_text() for page in
                         PdfReader(io.BytesIO(made["class_report.pdf"])).pages))
    page = plain(made["class_report.html"])
    for found in (text, page):
        for wanted in ("The first ten minutes of the next lesson", "Misunderstandings by candidate",
                       "9 handed in, 1 absent (1010)", "Discrimination", "Commonest slips"):
            assert plain(wanted) in found
        for family in marks.paper.families:
            assert plain(family.title) in found
        assert "InventedCadet" not in found
    assert made["class_report.html"].count("<svg") == 2


def test_a_report_on_nothing_but_right_answers(tmp_path):
    paper = class_paper(tmp_path, 3, questions='["glass-reads-low"]')
    entries = {one.candidate.number: {(1, step.id): one.variants[0].answer(step.id)
                                      for step in paper.families[0].value_steps}
               for one in paper.papers}
    made = class_report(mark_class(paper, Answers(entries, {}, ())))
    assert "No known misunderstanding was shown." in made["class_report.html"]
    assert made["class_report.pdf"].startswith(b"%PDF")


def test_the_anonymous_marks_carry_no_number_name_or_order(marks):
    text = anonymised_csv(marks)
    rows = list(csv.DictReader(io.StringIO(text)))
    assert not re.search(r"\b10(0\d|10)\b", "\n".join(row["code"] for row in rows))
    assert "Cadet" not in text and "<b>" not in text
    assert sum(row["answer"] == WITHHELD for row in rows) == 2
    code = codes(marks)
    assert len(set(code.values())) == 10
    assert [code[one.number] for one in marks.candidates] != sorted(code.values())
    for one in marks.present:
        own = [row for row in rows if row["code"] == code[one.number]]
        assert sum(int(row["marks"]) for row in own) == one.total
    seeds = [question.code.split(".")[0] for paper in marks.paper.papers
             for question in paper.variants]
    assert not any(seed in text for seed in seeds)


def test_names_stand_in_no_file_and_in_no_file_name(tmp_path):
    folder, _ = make_papers(write_sheet(tmp_path, 4, questions='["glass-reads-low"]'), NOW)
    assert main(["mark", str(folder), "--rehearse"]) == 0
    for path in folder.rglob("*"):
        assert "Cadet" not in path.name and "Invented" not in path.name
        if path.suffix in (".csv", ".json", ".html"):
            assert "Invented Cadet" not in path.read_text(encoding="utf-8"), path


def test_a_class_is_deleted_with_all_copies_and_nothing_else(tmp_path):
    write_sheet(tmp_path, 3, name="other", **{"class": '"Other class"'})
    folder, _ = make_papers(write_sheet(tmp_path, 3, questions='["glass-reads-low"]'), NOW)
    make_papers(write_sheet(tmp_path, 3, questions='["glass-reads-low"]', minutes="80"), NOW)
    main(["mark", str(folder), "--rehearse"])
    (folder / "hand_ins").mkdir()
    (folder / "hand_ins" / "1001.json").write_text("{}")
    (folder / "my notes.txt").write_text("mine")
    (tmp_path / "letter.txt").write_text("mine")
    outside = tmp_path.parent / f"{tmp_path.name} outside.csv"
    outside.write_text("number\n1\n")
    with pytest.raises(InputError, match="no sheet file of the class “Class E5”"):
        delete_class(tmp_path, "Class E5")
    deleted, left = delete_class(tmp_path, "Class E4 (invented)")
    assert deleted > 15
    assert [path.relative_to(tmp_path).as_posix() for path in left] == [
        "class.csv", "letter.txt", "other.toml", "test_1/my notes.txt"]  # other needs class.csv
    deleted, left = delete_class(tmp_path, "Other class")
    assert deleted == 2 and [path.name for path in left] == ["letter.txt", "my notes.txt"]


def test_a_register_outside_the_folder_is_not_deleted(tmp_path):
    inner = tmp_path / "class"
    inner.mkdir()
    path = write_sheet(inner, 2, register='"../class.csv"')
    (tmp_path / "class.csv").write_text("number\n1001\n")
    assert delete_class(inner, "Class E4 (invented)")[0] == 1
    assert (tmp_path / "class.csv").exists() and not path.exists()


def test_a_report_before_anything_is_handed_in(tmp_path):
    folder, _ = make_papers(write_sheet(tmp_path, 2, questions='["glass-reads-low"]'), NOW)
    with pytest.raises(InputError, match="Nothing is handed in yet"):
        report_folder(folder, NOW)


def test_every_misconception_of_the_bank_leads_to_an_exercise():
    for one in families().values():
        for code in one.misconceptions:
            assert any(code in other.misconceptions for other in families().values())
