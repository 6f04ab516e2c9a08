"""A class of 72 with known slips: every planted slip is found, none is invented."""

import csv
import datetime
import io

import pytest
from paper_samples import class_paper

from levelkit.errors import InputError
from levelkit.exercises import families
from levelkit.papers.class_paper import CandidatePaper
from levelkit.records import rehearsal
from levelkit.records.answers import Answers, read_answers
from levelkit.records.class_marks import mark_class
from levelkit.records.mark_files import marks_csv, totals_csv
from levelkit.records.next_lesson import first_ten_minutes
from levelkit.records.overrides import checked_override, read_overrides, with_override
from levelkit.records.rehearsal import rehearse
from levelkit.records.second_marking import compare_second, sample, sample_files
from levelkit.records.statistics import (
    correlation,
    item_statistics,
    misconception_counts,
    misconception_map,
)

NOW = datetime.datetime(2026, 3, 20, 9, 0, 0)


def marked(folder, paper, invented):
    (folder / "answers.csv").write_text(invented.text, encoding="utf-8")
    answers = read_answers([folder / "answers.csv"], paper)
    assert answers.faults == ()
    return mark_class(paper, answers)


def found_slips(marks):
    return {(one.number, step.question, step.mark.step, step.mark.slip, step.mark.misconception)
            for one in marks.candidates for step in one.slips}


def planted_slips(invented):
    return {(one.candidate, one.question, one.step, one.slip, one.misconception)
            for one in invented.planted}


@pytest.fixture(scope="module")
def big(tmp_path_factory):
    """72 candidates, five questions, about a hundred planted slips."""
    folder = tmp_path_factory.mktemp("big")
    paper = class_paper(folder, 72)
    invented = rehearse(paper, "big class")
    return paper, invented, marked(folder, paper, invented)


def test_every_planted_slip_is_found_and_none_invented(big):
    _, invented, marks = big
    assert len(invented.planted) > 100
    assert len(marks.present) == 72 and marks.faults == ()
    assert found_slips(marks) == planted_slips(invented)


def test_a_slip_costs_its_own_step_only_and_nothing_else_is_lost(big):
    paper, invented, marks = big
    by_question = {(one.candidate, one.question): one for one in invented.planted}
    for one in marks.candidates:
        for step in one.steps:
            lost = step.mark.of - step.marks
            planted = by_question.get((one.number, step.question))
            if planted is None:
                assert lost == 0, (one.number, step)
            elif lost:
                family = paper.families[step.question - 1]
                own = family.step(step.mark.step)
                assert planted.step in (own.id, own.shown_by), (one.number, step, planted)
        for number in range(1, 6):
            if (one.number, number) in by_question:
                assert one.of_question(number) < paper.families[number - 1].marks


@pytest.mark.parametrize("family_id", list(families()))
def test_the_whole_bank_finds_what_is_planted(tmp_path, monkeypatch, family_id):
    monkeypatch.setattr(rehearsal, "SLIP_IN_A_HUNDRED", 85)
    paper = class_paper(tmp_path, 5, questions=f'["{family_id}"]')
    invented = rehearse(paper, "bank")
    marks = marked(tmp_path, paper, invented)
    assert found_slips(marks) == planted_slips(invented)
    clean = {one.number for one in marks.candidates} - {one.candidate for one in invented.planted}
    assert all(marks.candidate(number).total == paper.marks for number in clean)


def test_marks_and_totals_agree_with_each_other(big):
    paper, _, marks = big
    rows = list(csv.DictReader(io.StringIO(marks_csv(marks))))
    sums = {}
    for row in rows:
        sums[row["candidate"]] = sums.get(row["candidate"], 0) + int(row["marks"])
    totals = list(csv.DictReader(io.StringIO(totals_csv(marks))))
    assert [row["candidate"] for row in totals] == [one.candidate.number for one in paper.papers]
    for row in totals:
        assert int(row["sum [of 31]"]) == sums[row["candidate"]]
        assert float(row["share [%]"]) == pytest.approx(100 * sums[row["candidate"]] / 31, abs=.05)
    assert "question 2 [of 7]" in totals[0]


@pytest.fixture
def small(tmp_path):
    """Four candidates on one question, with typed answers chosen by hand."""
    paper = class_paper(tmp_path, 4, questions='["glass-reads-low", "reversed-reading"]')

    def right(number):
        own = paper.paper(number)
        typed = {}
        for question, variant in enumerate(own.variants, 1):
            for step in variant.family.value_steps:
                typed[question, step.id] = variant.answer(step.id)
        return typed
    entries = {number: right(number) for number in ("1001", "1002", "1003")}
    glass = paper.paper("1001").variants[0]
    slip = glass.solution.slips["ratio_inverted"]
    entries["1001"][1, "height"] = f"{1000 * slip:.3f} mm"
    entries["1001"][1, "error"] = f"{1000 * slip - glass.data['level']:.3f} mm high"
    entries["1002"] = {(1, "height"): "1 mm"}
    return paper, mark_class(paper, Answers(entries, {}, ()))


def test_facility_and_discrimination_by_hand(small):
    """Question 1 (of 7): 6, 0, 7; question 2 without its choice (of 6): 6, 0, 6."""
    paper, marks = small
    assert [one.of_question(1) for one in marks.present] == [6, 0, 7]
    assert [one.of_question(2) for one in marks.present] == [6, 0, 6]
    first, second = item_statistics(marks)
    assert first.facility == pytest.approx(13 / 21)
    assert second.facility == pytest.approx(12 / 3 / paper.families[1].marks)
    # mean 13/3 and 4: deviations 5/3, -13/3, 8/3 and 2, -4, 2
    assert first.discrimination == pytest.approx(26 / (86 / 3 * 24) ** 0.5)
    assert first.review == second.review == ""
    share, = first.slips
    assert (share.step, share.slip, share.misconception, share.count) == (
        "height", "ratio_inverted", "MC02", 1)
    assert share.share == pytest.approx(1 / 3)


def test_items_to_review(small):
    paper, marks = small
    blank = mark_class(paper, Answers({number: {(1, "height"): "nothing"} for number in
                                       ("1001", "1002", "1003")}, {}, ()))
    first, _ = item_statistics(blank)
    assert first.facility == 0 and first.discrimination is None
    assert first.review == "facility under 0.2"
    assert item_statistics(mark_class(paper, Answers({}, {}, ()))) == ()


def test_correlation_needs_variation_and_enough_candidates():
    assert correlation([1, 2], [1, 2]) is None
    assert correlation([2, 2, 2, 2], [1, 2, 3, 4]) is None
    assert correlation([1, 2, 3], [3, 2, 1]) == pytest.approx(-1)


def test_the_map_counts_every_candidate_once_and_the_dangerous_weigh_more(big):
    _, invented, marks = big
    codes, numbers, cells = misconception_map(marks)
    wanted = {(one.candidate, one.misconception) for one in invented.planted if one.misconception}
    assert {(numbers[column], code) for code, row in zip(codes, cells, strict=True)
            for column, cell in enumerate(row) if cell} == wanted
    counts = misconception_counts(marks)
    assert all(counts[code] == sum(row) for code, row in zip(codes, cells, strict=True))
    heavy = [counts[code] * (1.5 if code in ("MC01", "MC14", "MC15", "MC16", "MC20", "MC22")
                             else 1.0) for code in codes]
    assert heavy == sorted(heavy, reverse=True)


def test_the_first_ten_minutes_treat_the_most_pressing_misunderstanding(big, small):
    _, _, marks = big
    code = next(iter(misconception_counts(marks)))
    plan = first_ten_minutes(marks)
    assert [line.minutes for line in plan[:4]] == ["0 to 2", "2 to 6", "6 to 8", "8 to 10"]
    assert code in plan[0].what and "(lesson " in plan[1].what
    family = plan[3].what.split("(")[1].split(",")[0]
    assert code in families()[family].misconceptions
    paper, _ = small
    assert first_ten_minutes(mark_class(paper, Answers({}, {}, ()))) == ()
    unknown = mark_class(paper, Answers({"1001": {(1, "height"): "1 mm"}}, {}, ()))
    line, = first_ten_minutes(unknown)
    assert "No misunderstanding was shown by a tenth of the class" in line.what


def test_an_override_counts_and_the_first_mark_stays_readable(small, tmp_path):
    paper, marks = small
    log = tmp_path / "overrides.csv"
    one = checked_override(paper, "1001", "1", "height", "2", "method was shown", "AB", "today")
    log.write_text(with_override(log, one), encoding="utf-8")
    overrides, faults = read_overrides(log, paper)
    assert faults == [] and list(overrides) == [("1001", 1, "height")]
    entries = {"1001": {(1, step.mark.step): step.mark.entry
                        for step in marks.candidate("1001").steps
                        if step.question == 1 and step.mark.entry}}
    again = mark_class(paper, Answers(entries, {}, ()), overrides)
    step = next(step for step in again.candidate("1001").steps if step.mark.step == "height")
    assert (step.mark.marks, step.marks) == (1, 2)
    row = next(row for row in csv.DictReader(io.StringIO(marks_csv(again)))
               if row["step"] == "height")
    assert (row["marks"], row["marks before override"], row["reason for override"]) == (
        "2", "1", "method was shown")
    assert again.candidate("1001").slips  # the slip stays in the statistics


def test_the_log_of_overrides_only_grows_and_the_later_one_counts(small, tmp_path):
    paper, _ = small
    log = tmp_path / "overrides.csv"
    for marks, reason in (("2", "first look"), ("0", "second look")):
        one = checked_override(paper, "1001", "1", "height", marks, reason)
        log.write_text(with_override(log, one), encoding="utf-8")
    assert [line.split(",")[3:5] for line in log.read_text().splitlines()[1:]] == [
        ["2", "first look"], ["0", "second look"]]
    overrides, _ = read_overrides(log, paper)
    assert overrides["1001", 1, "height"].marks == 0


@pytest.mark.parametrize("typed, complaint", [
    (("2001", "1", "height", "1", "why"), "Candidate 2001 is not among"),
    (("1001", "9", "height", "1", "why"), "no question 9; questions are 1 to 2"),
    (("1001", "one", "height", "1", "why"), "no question one"),
    (("1001", "1", "breadth", "1", "why"), "no step breadth; steps are balance, height, error"),
    (("1001", "1", "height", "3", "why"), "allowed range is 0 to 2"),
    (("1001", "1", "height", "-1", "why"), "allowed range is 0 to 2"),
    (("1001", "1", "height", "1", "  "), "The reason is missing"),
])
def test_an_override_that_does_not_fit_is_refused_and_in_a_file_told(small, tmp_path, typed,
                                                                     complaint):
    paper, _ = small
    with pytest.raises(InputError, match=complaint):
        checked_override(paper, *typed)
    log = tmp_path / "overrides.csv"
    log.write_text("candidate,question,step,marks,reason\n" + ",".join(typed)
                   + "\n1002,1,height,1,fits\n", encoding="utf-8")
    overrides, faults = read_overrides(log, paper)
    assert list(overrides) == [("1002", 1, "height")]
    assert len(faults) == 1 and faults[0].line == 2


def test_a_log_without_its_columns_changes_nothing(small, tmp_path):
    paper, _ = small
    log = tmp_path / "overrides.csv"
    log.write_text("candidate,marks\n1001,2\n")
    overrides, faults = read_overrides(log, paper)
    assert overrides == {} and "Columns are missing" in faults[0].problem


def test_the_second_marker_sees_neither_number_nor_mark(big):
    _, _, marks = big
    scripts = sample(marks, 8)
    totals = sorted(marks.candidate(number).total for number in scripts.values())
    every = sorted(one.total for one in marks.present)
    assert totals[0] == every[0] and totals[-1] == every[-1] and len(set(scripts.values())) == 8
    assert scripts == sample(marks, 8)
    files = sample_files(marks, 8)
    rows = list(csv.DictReader(io.StringIO(files["second_marking.csv"])))
    assert {row["script"] for row in rows} == set(scripts)
    assert all(row["second marks"] == "" for row in rows)
    assert not any(one.number in files["second_marking.csv"].split("\n")[0] for one in
                   marks.present)
    assert "1001" not in {row["script"] for row in rows}
    with pytest.raises(InputError, match="allowed range is 1 to 72"):
        sample(marks, 73)


def test_two_markings_are_compared_step_by_step(big, tmp_path):
    _, _, marks = big
    files = sample_files(marks, 3)
    key = tmp_path / "key.csv"
    key.write_text(files["second_marking_key.csv"])
    rows = list(csv.DictReader(io.StringIO(files["second_marking.csv"])))
    numbers = dict(line.split(",") for line in files["second_marking_key.csv"].split()[1:])
    changed = []
    for index, row in enumerate(rows):
        first = next(step for step in marks.candidate(numbers[row["script"]]).steps
                     if (str(step.question), step.mark.step) == (row["question"], row["step"]))
        row["second marks"] = str(first.marks)
        if index in (4, 9):
            row["second marks"] = str(first.mark.of - first.marks)
            if first.mark.of != 2 * first.marks:
                changed.append((numbers[row["script"]], first.question, first.mark.step))
    rows[1]["second marks"] = "many"
    rows[3]["second marks"] = ""
    rows[2]["question"] = "77"
    text = io.StringIO()
    writer = csv.DictWriter(text, list(rows[0]), lineterminator="\n")
    writer.writeheader()
    writer.writerows(rows)
    sheet = tmp_path / "sheet.csv"
    sheet.write_text(text.getvalue(), encoding="utf-8")
    differences, compared, blank, faults = compare_second(marks, sheet, key)
    assert [(one.candidate, one.question, one.step) for one in differences] == changed
    assert changed and (compared, blank) == (len(rows) - 3, 1)
    assert [fault.line for fault in faults] == [3, 4]


def test_versions_share_a_paper_and_are_marked_alike(tmp_path):
    paper = class_paper(tmp_path, 4, versions="2", questions='["glass-reads-low"]')
    assert all(isinstance(one, CandidatePaper) for one in paper.papers)
    answer = {(1, "height"): paper.paper("1001").variants[0].answer("height")}
    marks = mark_class(paper, Answers({number: answer for number in ("1001", "1002", "1003")},
                                      {}, ()))
    assert [one.total for one in marks.present] == [5, 0, 5]
