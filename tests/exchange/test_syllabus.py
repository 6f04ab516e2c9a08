"""The syllabus map: each outcome with where it is taught, practised, asked, shown; its gaps."""

import csv
import io
import re

import pytest
from paper_samples import class_paper

from levelkit.cli import main
from levelkit.errors import InputError
from levelkit.exchange.syllabus import (
    competence_tables,
    evidence_csv,
    map_csv,
    syllabus_map,
    tables_csv,
)
from levelkit.exercises import families
from levelkit.exercises.oral import oral_questions
from levelkit.records.answers import Answers
from levelkit.records.class_marks import mark_class


def rows():
    return {row.outcome: row for row in syllabus_map()}


def test_every_outcome_of_the_bank_stands_in_the_map_once():
    codes = [row.outcome for row in syllabus_map()]
    assert len(codes) == len(set(codes))
    assert {code for one in families().values() for code in one.outcomes} <= set(codes)


def test_a_row_names_lesson_exercises_and_oral_questions():
    row = rows()["L03.1"]
    assert row.lessons == ("03_why_the_glass_reads_low",)
    assert "glass-reads-low" in row.exercises and row.orals == ("glass-true",)
    assert row.tables == ("A-III/1", "A-III/4") and row.gaps == () and row.evidence is None
    assert all(code in oral_questions() for row in rows().values() for code in row.orals)


def test_the_lessons_of_practice_are_in_the_map_too():
    assert rows()["L15.1"].lessons == ("15_worked_examples",) and rows()["L15.1"].exercises
    assert rows()["L16.1"].lessons == ("16_oral_practice",)
    assert rows()["L16.1"].orals == ("handover",)


def test_words_are_our_own_and_short():
    """No wording of the code is repeated: none of its well-known phrases stands in ours."""
    text = " ".join([row.words for row in syllabus_map()]
                    + [row["in our words"] for row in competence_tables().values()]).lower()
    for phrase in ("maintain the correct water levels", "surveillance and performance",
                   "operate main and auxiliary machinery", "maintain a safe engineering watch"):
        assert phrase not in text
    assert all(len(row.words) < 110 for row in syllabus_map())
    assert all(re.fullmatch(r"A-III/\d", table) for table in competence_tables())


def listed(tmp_path, text):
    path = tmp_path / "outcomes.csv"
    path.write_text(text, encoding="utf-8")
    return path


def test_gaps_are_shown(tmp_path):
    own = listed(tmp_path, "outcome,in our words,lesson,stcw tables\n"
                           "X1,Something nobody teaches,77,A-III/1\nL03.1,,03,\n")
    found = {row.outcome: row for row in syllabus_map(outcomes=own)}
    assert found["X1"].gaps == ("no lesson", "no exercise", "no oral question")
    assert found["L03.1"].gaps == ("no wording", "no competence table")
    assert "no wording" in found["L05.1"].gaps  # in the bank, not in this college's list


@pytest.mark.parametrize("text, complaint", [
    ("outcome,in our words,lesson,stcw tables\nX1,words,03,A-II/1\n", "line 2: the table A-II/1"),
    ("code,words\nX1,words\n", "line 2: outcome and lesson are needed"),
])
def test_a_list_that_cannot_be_used(tmp_path, text, complaint):
    with pytest.raises(InputError, match=complaint):
        syllabus_map(outcomes=listed(tmp_path, text))
    with pytest.raises(InputError, match="cannot be read"):
        syllabus_map(outcomes=tmp_path / "none.csv")


def test_evidence_counts_who_has_shown_an_outcome_on_a_marked_paper(tmp_path):
    paper = class_paper(tmp_path, 3, questions='["glass-reads-low", "reversed-reading"]')
    entries = {"1001": {(1, step.id): paper.paper("1001").variants[0].answer(step.id)
                        for step in paper.families[0].value_steps},
               "1002": {(1, "height"): "1 mm"}}
    found = {row.outcome: row for row in
             syllabus_map([mark_class(paper, Answers(entries, {}, ()))])}
    assert found["L03.1"].evidence == found["L03.2"].evidence == 1
    assert found["L08.1"].evidence == 0 and "no assessed evidence" in found["L08.1"].gaps
    assert found["L03.1"].gaps == ()
    marks = mark_class(paper, Answers(entries, {}, ()))
    lines = list(csv.DictReader(io.StringIO(evidence_csv([marks]))))
    shown = {(row["outcome"], row["candidate"]): row["shown"] for row in lines}
    assert shown["L03.1", "1001"] == "yes" and shown["L03.1", "1002"] == "no"
    assert ("L03.1", "1003") not in shown  # absent
    for row in found.values():
        assert row.evidence == len({who for (code, who), said in shown.items()
                                    if code == row.outcome and said == "yes"})


def test_the_tables_open_anywhere_and_have_units_in_their_heads():
    head, *lines = csv.reader(io.StringIO(map_csv(syllabus_map())))
    assert "evidence [candidates]" in head and len(lines) == len(syllabus_map())
    assert all(len(line) == len(head) for line in lines)
    tables = list(csv.DictReader(io.StringIO(tables_csv())))
    assert [row["STCW table"] for row in tables] == list(competence_tables())
    assert all(row["outcomes"] for row in tables)


def test_the_command_writes_both_tables(tmp_path, capsys):
    assert main(["syllabus", "--output", str(tmp_path)]) == 0
    said = capsys.readouterr().out
    assert "outcomes" in said and "gaps" in said
    assert (tmp_path / "syllabus_map.csv").is_file() and (tmp_path / "stcw_tables.csv").is_file()
    assert main(["syllabus", "--output", str(tmp_path), "--outcomes", "nowhere.csv"]) == 2
