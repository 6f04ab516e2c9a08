"""Grids and hand-ins as people hand them over: what is broken is told, the rest is marked."""

import json
import os

import pytest
from paper_samples import class_paper

from levelkit.papers.grid import columns, empty_grid
from levelkit.records.answers import read_answers
from levelkit.records.class_marks import mark_class
from levelkit.records.csv_rows import csv_text, read_rows
from levelkit.records.mark_files import faults_csv, marks_csv, totals_csv
from levelkit.records.rehearsal import rehearse


@pytest.fixture(scope="module")
def paper(tmp_path_factory):
    return class_paper(tmp_path_factory.mktemp("class"), 8)


@pytest.fixture(scope="module")
def grid(paper):
    """A filled-in grid as a list of lines; the heading is the first."""
    return rehearse(paper, "reading").text.splitlines()


def read(tmp_path, paper, text, name="answers.csv"):
    path = tmp_path / name
    path.write_bytes(text if isinstance(text, bytes) else text.encode())
    return read_answers([path], paper)


def test_a_whole_grid_has_no_fault(tmp_path, paper, grid):
    answers = read(tmp_path, paper, "\n".join(grid))
    assert answers.faults == ()
    assert list(answers.entries) == [one.candidate.number for one in paper.papers]
    assert len(answers.entries["1001"]) == len(columns(paper.families))


@pytest.mark.parametrize("rewrite", [
    lambda text: "\ufeff" + text,
    lambda text: text.replace("\n", "\r\n"),
    lambda text: text.encode("utf-16"),
    lambda text: text.encode("cp1252"),
    lambda text: text + "\n\n,,,\n",
], ids=["byte-order mark", "carriage returns", "UTF-16", "old code page", "empty lines"])
def test_the_same_grid_as_other_programs_write_it(tmp_path, paper, rewrite):
    head = "candidate,2 height [mm],2 error [mm],4 level [mm]"
    text = f'{head}\n1001,"186,4 mm",low 13.6 mm,250\n1002,1,2,3\n'
    plain = read(tmp_path, paper, text)
    other = read(tmp_path, paper, rewrite(text))
    assert other.entries == plain.entries and other.faults == ()
    assert plain.entries["1001"] == {(2, "height"): "186,4 mm", (2, "error"): "low 13.6 mm",
                                     (4, "level"): "250"}


def test_semicolons_and_decimal_commas(tmp_path, paper):
    answers = read(tmp_path, paper, "Candidate;2 Height;2 error [mm]\n1001;186,4;13,6 low\n")
    assert answers.entries == {"1001": {(2, "height"): "186,4", (2, "error"): "13,6 low"}}


BROKEN = [
    ("1003", lambda line: line + ",extra", "cells; the heading has"),
    ("1004", lambda line: line.rpartition(",")[0], "cells; the heading has"),
    ("1005", lambda line: line.replace(",", ',"', 1), "opened and not closed"),
    ("1006", lambda line: line.replace("1006", "9999"), "is not in this paper"),
    ("1007", lambda line: line.replace("1007", "1001"), "stands already in"),
    ("1008", lambda line: line.replace(",", "\0,", 1), "characters that are no text"),
]


def test_a_broken_grid_loses_nothing(tmp_path, paper, grid):
    """Six ways to break a line, all in one file: each is told with its line, the rest is marked."""
    lines = list(grid)
    for candidate, spoil, _ in BROKEN:
        index = next(i for i, line in enumerate(lines) if line.startswith(candidate))
        lines[index] = spoil(lines[index])
    answers = read(tmp_path, paper, "\n".join(lines))
    assert sorted(answers.entries) == ["1001", "1002"]
    whole = read(tmp_path, paper, "\n".join(grid))
    for candidate in answers.entries:
        assert answers.entries[candidate] == whole.entries[candidate]
    told = {fault.line: fault for fault in answers.faults}
    assert len(told) == len(answers.faults) == len(BROKEN)
    for candidate, _, complaint in BROKEN:
        line = next(i for i, text in enumerate(grid, 1) if text.startswith(candidate))
        assert complaint in told[line].problem, told[line]
        assert told[line].cure and told[line].text == lines[line - 1]
        assert str(told[line]).startswith(f"answers.csv, line {line}: ")
    marks = mark_class(paper, answers)
    assert [one.number for one in marks.present] == ["1001", "1002"]
    kept = faults_csv(marks.faults)
    assert all(spoilt.split(",")[1] in kept for spoilt in (lines[3], lines[4]))


def test_a_decimal_comma_in_a_comma_file_is_explained(tmp_path, paper):
    answers = read(tmp_path, paper, "candidate,2 height [mm]\n1001,186,4\n1002,186.4\n")
    fault, = answers.faults
    assert "The line has 3 cells; the heading has 2." in str(fault)
    assert "write a decimal point" in str(fault)
    assert list(answers.entries) == ["1002"]


def test_unknown_columns_are_told_and_the_others_marked(tmp_path, paper):
    answers = read(tmp_path, paper, "candidate,2 height,2 breadth,remark\n1001,186,5,hello\n")
    assert answers.entries == {"1001": {(2, "height"): "186"}}
    assert [fault.text for fault in answers.faults] == ["2 breadth", "remark"]


@pytest.mark.parametrize("content, complaint", [
    (b"PK\x03\x04rest", "This is no CSV file."),
    (b"%PDF-1.7", "This is no CSV file."),
    (b"a,b\n1,2\n", "There is no column “candidate”"),
    (b"candidate,2 height,2 height\n", "stands twice"),
    (b"x" * 5_000_001, "larger than 5 MB"),
])
def test_files_that_are_no_grid(tmp_path, paper, content, complaint):
    answers = read(tmp_path, paper, content)
    assert answers.entries == {}
    assert complaint in answers.faults[0].problem


def test_a_missing_or_empty_file(tmp_path, paper):
    assert "cannot be read" in read_answers([tmp_path / "none.csv"], paper).faults[0].problem
    assert "cannot be read" in read_answers([tmp_path], paper).faults[0].problem
    assert read(tmp_path, paper, "") .entries == {}


def hand_in(candidate, answers):
    return json.dumps({"candidate": candidate, "answers": answers})


def test_a_hand_in_is_read(tmp_path, paper):
    text = hand_in("1002", {"2": {"height": "186,4 mm", "error": None}, "4": {"level": 250.5}})
    answers = read(tmp_path, paper, text, "x.json")
    assert answers.entries == {"1002": {(2, "height"): "186,4 mm", (4, "level"): "250.5"}}
    assert answers.faults == ()


@pytest.mark.parametrize("text, complaint", [
    ("{", "cannot be read"), ("[1]", "it is no hand-in"), ("\ud800", "cannot be read"),
    ("[" * 100_000, "cannot be read"),
    ('{"candidate": "1001"}', "There is no list “answers”"),
    ('{"candidate": "nobody", "answers": {"2": {"height": "1"}}}', "is not in this paper"),
    ('{"candidate": "1001", "answers": {"9": {"height": "1"}}}', "Question 9, step height"),
    ('{"candidate": "1001", "answers": {"2": {"height": ["1"]}}}', "holds no text"),
    ('{"candidate": "1001", "answers": {"2": "high"}}', "is none of this paper"),
])
def test_a_broken_hand_in_is_told(tmp_path, paper, text, complaint):
    path = tmp_path / "x.json"
    path.write_bytes(text.encode("utf-8", "surrogatepass"))
    answers = read_answers([path], paper)
    assert answers.entries == {}
    assert complaint in answers.faults[0].problem


def test_one_bad_step_costs_one_step(tmp_path, paper):
    answers = read(tmp_path, paper, hand_in("1001", {"2": {"height": [1], "error": "low 3"}}),
                   "x.json")
    assert answers.entries == {"1001": {(2, "error"): "low 3"}} and len(answers.faults) == 1


def test_a_progress_file_of_the_lessons_counts_if_its_numbers_are_the_right_ones(tmp_path, paper):
    code = paper.paper("1003").variants[1].code
    attempts = [
        {"family": "glass-reads-low", "code": code, "entries": {"height": "1 mm"}},
        {"family": "glass-reads-low", "code": code, "entries": {"height": "2 mm"}},
        {"family": "glass-reads-low", "code": "dead-beef.0", "entries": {"height": "3 mm"}},
        {"family": "not-of-this-paper", "code": code, "entries": {"height": "4 mm"}}, "odd"]
    answers = read(tmp_path, paper, json.dumps({"version": 1, "attempts": attempts}), "1003.json")
    assert answers.entries == {"1003": {(2, "height"): "2 mm"}}
    assert "answered with other numbers (code dead-beef.0" in answers.faults[0].problem


def test_two_hand_ins_of_one_candidate_are_told(tmp_path, paper):
    paths = []
    for name in ("a.json", "b.json"):
        paths.append(tmp_path / name)
        paths[-1].write_text(hand_in("1001", {"2": {"height": name}}))
    answers = read_answers(paths, paper)
    assert answers.entries["1001"] == {(2, "height"): "a.json"}
    assert answers.faults[0].problem == "Candidate 1001 stands already in a.json, which is marked."


def test_nothing_that_is_handed_in_is_run(tmp_path, paper, monkeypatch):
    """Code in answers, in file names, in notebooks handed in instead: text, all of it."""
    trap = tmp_path / "trap"
    code = f"__import__('os').system('touch {trap}')"
    grid = csv_text(["candidate", "2 height [mm]"], [["1001", code], ["1002", "{{7*7}} #eval[1]"]])
    for name, text in (("answers.csv", grid), ("x.json", hand_in("1003", {"2": {"height": code}})),
                       ("1004.json", json.dumps({"cells": [{"cell_type": "code", "source": code}],
                                                 "nbformat": 4})), ("$(touch trap).csv", grid)):
        (tmp_path / name).write_text(text)
    monkeypatch.setattr(os, "system", lambda _: pytest.fail("a command was run"))
    answers = read_answers(sorted(tmp_path.glob("*.*")), paper)
    marks = mark_class(paper, answers)
    assert not trap.exists()
    assert marks.candidate("1001").total == 0
    typed = next(step for step in marks.candidate("1001").steps if step.mark.entry)
    assert typed.mark.verdict == "unreadable"


def test_what_a_spreadsheet_would_run_is_written_as_text(paper):
    text = csv_text(["answer"], [["=1+1"], ["@x"], ["+cmd"], ["-13.6 mm"], ["- 2"], ["+4"], [None]])
    assert text.splitlines() == ["answer", "'=1+1", "'@x", "'+cmd", "-13.6 mm", "- 2", "+4", '""']


def test_an_empty_grid_marks_everybody_absent(tmp_path, paper):
    marks = mark_class(paper, read(tmp_path, paper, empty_grid(paper)))
    assert marks.present == () and marks.faults == ()
    assert totals_csv(marks).splitlines()[1].startswith("1001,absent,absent")
    assert len(marks_csv(marks).splitlines()) == 1


def test_one_answer_that_breaks_the_marking_costs_one_question(tmp_path, paper, grid, monkeypatch):
    from levelkit.records import class_marks

    def fragile(variant, typed, mark=class_marks.mark):
        if typed.get("height", "").startswith("boom"):
            raise RuntimeError("planted")
        return mark(variant, typed)
    monkeypatch.setattr(class_marks, "mark", fragile)
    text = "candidate,2 height,4 level\n1001,boom,1\n1002,1,1\n"
    marks = mark_class(paper, read(tmp_path, paper, text))
    fault, = marks.faults
    assert "Question 2 could not be marked (RuntimeError: planted)" in fault.problem
    assert len(marks.present) == 2


def test_rows_are_read_with_their_line_numbers(tmp_path):
    path = tmp_path / "a.csv"
    path.write_text("\nhead,second\n\n1,2\n,\n3,4\n")
    head, rows, faults = read_rows(path)
    assert head == ["head", "second"] and faults == []
    assert [(line, cells) for line, _, cells in rows] == [
        (4, {"head": "1", "second": "2"}), (6, {"head": "3", "second": "4"})]
