"""Practice: examples fade, the next question follows the slips, and nothing done is lost."""

import json
from html import unescape

import pytest

from levelkit.constants import CAUTION
from levelkit.exercises import BLANK, FULL, PARTLY, example, families, mark
from levelkit.exercises.progress import load_progress
from levelkit.panels.exercise_panel import ExercisePanel
from levelkit.panels.practice_panel import PracticePanel
from levelkit.scene.schematics import schematic_names


@pytest.fixture()
def panel(tmp_path):
    return PracticePanel("glass-reads-low", "Cadet 7", tmp_path)


def slip(panel):
    """Answer that the connected vessels stand level."""
    panel.entries["height"].value = f"{panel.question.data['level']:g} mm"
    panel.check.click()


def solve(panel):
    for step in panel.asked():
        panel.entries[step.id].value = (panel.question.solution.steps[step.id] if step.options
                                        else panel.question.answer(step.id).replace(",", " "))
    panel.check.click()


def test_a_slip_is_on_file_at_once_and_named_without_the_number(panel):
    right = panel.question.answer("height").split()[0]
    slip(panel)
    shown = "".join(widget.value for widget in panel._verdicts.values())
    assert "\u2717" in shown and right not in shown
    on_file = load_progress(panel.path).attempts
    assert [one.misconceptions for one in on_file] == [("MC01",)]
    assert panel.path.name == "progress-cadet-7.json"


def test_the_next_question_takes_up_the_weak_spot_and_says_why(panel):
    slip(panel)
    panel.next.click()
    assert panel.family_id != "glass-reads-low"
    assert "MC01" in panel.question.family.misconceptions
    assert "(MC01)" in panel._why.value and "stand level" in panel._why.value
    assert panel.family.value == panel.family_id and panel._heading.text in panel.family.label


def test_the_next_question_keeps_to_the_topic(panel):
    panel.topic.value = "ship motion"
    assert panel.question.family.topic == "ship motion"
    for _ in range(3):
        panel.next.click()
        assert panel.question.family.topic == "ship motion"
        panel.check.click()


def test_a_tried_question_comes_back_with_new_numbers_and_a_reopened_one_too(panel, tmp_path):
    texts = [panel.question.text]
    for _ in range(2):
        solve(panel)
        panel.fetch.click()
        texts.append(panel.question.text)
    assert len(set(texts)) == 3
    again = PracticePanel("glass-reads-low", "cadet 7 ", tmp_path)
    assert again.question.text == texts[-1] and len(again.progress.attempts) == 2


def test_the_full_example_is_the_banks_own_and_asks_for_nothing(panel):
    panel.worked.value = FULL
    one = example("glass-reads-low")
    assert panel.question.text == one.text and panel.entries == {}
    assert one.answer("height") in panel._steps.children[0].value
    panel.check.click()
    assert "All of this example is worked" in panel._said.value
    assert panel.progress.attempts == () and not panel.path.exists()


@pytest.mark.parametrize("family_id", families())
def test_half_worked_leaves_the_later_half_and_marks_only_that(tmp_path, family_id):
    panel = PracticePanel(family_id, "Cadet 7", tmp_path)
    panel.worked.value = PARTLY
    steps = panel.question.family.steps
    later = steps[len(steps) // 2:]
    assert set(panel.entries) == {step.id for step in later if step.kind != "method"} != set()
    given = mark(panel.question, panel._given())
    assert all(given.step(step).marks == given.step(step).of for step in panel._given())
    for step in later:
        if step.kind == "value" and step.symbol and step.formula:
            assert f"{step.symbol} = " in unescape(panel._steps.children[0].value)
    if family_id == "glass-reads-low":
        solve(panel)
        assert panel.result.marks == panel.result.maximum == sum(s.mark_count for s in later)
        assert panel.progress.attempts[0].help == "partly worked"


@pytest.mark.parametrize("family_id", families())
def test_every_question_is_shown_with_figure_and_caution_where_it_has_them(family_id):
    panel = ExercisePanel(family_id)
    family = families()[family_id]
    assert ("<svg" in panel._figure.value) == bool(family.figure)
    assert family.figure in ("", *schematic_names())
    assert (CAUTION in panel._text.value) == family.advises_action


def test_copying_the_working_is_on_file_as_such(panel):
    slip(panel)
    for name in ("hint", "formula", "working"):
        panel.help[name].click()
    solve(panel)
    assert [one.help for one in panel.progress.attempts] == ["", "working"]
    assert "To be cleared" in panel._progress_line.value


def test_pressing_check_twice_is_one_attempt(panel):
    slip(panel)
    panel.check.click()
    assert len(panel.progress.attempts) == 1


def test_what_was_typed_is_there_when_the_question_comes_back(panel):
    panel.entries["height"].value = "0,19 m"
    panel.family.value = "hot-column"
    panel.family.value = "glass-reads-low"
    assert panel.entries["height"].value == "0,19 m"


def test_another_learner_has_another_file_and_other_numbers(panel):
    slip(panel)
    text = panel.question.text
    panel.candidate.value = "Cadet 8/b"
    slip_belongs_to = panel.path.name
    panel.fetch.click()
    assert slip_belongs_to == "progress-cadet-7.json"
    assert panel.path.name == "progress-cadet-8-b.json"
    assert panel.progress.attempts == () and panel.question.text != text


def test_two_notebooks_of_one_learner_keep_each_others_attempts(panel, tmp_path):
    other = PracticePanel("hot-column", "Cadet 7", tmp_path)
    slip(panel)
    other.check.click()
    solve(panel)
    assert [one.family for one in load_progress(panel.path).attempts] == [
        "glass-reads-low", "hot-column", "glass-reads-low"]


def test_a_file_spoilt_while_the_panel_is_open_is_kept_aside_and_said(panel, tmp_path):
    slip(panel)
    panel.path.write_text('{"version": 1, "attem')
    solve(panel)
    assert "kept as progress-cadet-7.json.unreadable-1" in panel._progress_line.value
    assert len(load_progress(panel.path).attempts) == 2


def test_a_half_written_file_is_said_and_its_backup_taken(panel, tmp_path):
    slip(panel)
    solve(panel)
    panel.path.write_text(panel.path.read_text()[:40])
    again = PracticePanel("glass-reads-low", "Cadet 7", tmp_path)
    assert len(again.progress.attempts) == 1 and "was not whole" in again._progress_line.value


def test_a_file_that_cannot_be_written_gets_a_sentence_and_nothing_is_lost(panel, monkeypatch):
    def refuse(*_):
        raise OSError(28, "No space left on device")
    monkeypatch.setattr("levelkit.panels.practice_panel.save_progress", refuse)
    slip(panel)
    assert "No space left" in panel._progress_line.value
    monkeypatch.undo()
    solve(panel)
    assert len(json.loads(panel.path.read_text("utf-8"))["attempts"]) == 2


def test_the_csv_holds_every_attempt_and_overwrites_nothing(panel):
    assert panel.save_csv() is None and "nothing to save" in panel._progress_line.value
    slip(panel)
    solve(panel)
    first, second = panel.save_csv(), panel.save_csv()
    assert first.name == "progress-cadet-7-1.csv" and second.name == "progress-cadet-7-2.csv"
    lines = first.read_text("utf-8").splitlines()
    assert len(lines) == 3 and lines[0].endswith("help") and "MC01" in lines[1]


def test_the_page_for_print_holds_every_step_and_the_figure(panel, monkeypatch):
    shown = []
    monkeypatch.setattr("levelkit.panels.worked_page.display", shown.append)
    panel.twin()
    page = shown[0].data
    assert "data:image/svg+xml" in page and page.count("<li>") == 3
    assert example("glass-reads-low").answer("height") in page


def test_blank_is_the_ordinary_exercise(panel):
    assert panel.worked.value == BLANK and "<li>" not in panel._steps.children[0].value
    assert panel.question.text == ExercisePanel("glass-reads-low", "Cadet 7").question.text
