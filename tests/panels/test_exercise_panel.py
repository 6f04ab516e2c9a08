"""An exercise in a lesson: the slip is named without the number, help comes in order."""

import pytest

from levelkit.lesson import exercise


@pytest.fixture()
def panel():
    return exercise("glass-reads-low", candidate="Cadet 7")


def verdicts(panel):
    return " ".join(widget.value for widget in panel._verdicts.values())


def test_a_known_slip_is_named_without_giving_the_number_away(panel):
    question = panel.question
    panel.entries["height"].value = f"{question.data['level']:g} mm"
    panel.check.click()
    right = question.answer("height").split()[0]
    assert panel.result.steps[1].slip and right not in verdicts(panel)


def test_right_answers_earn_every_mark_with_comma_and_words(panel):
    panel.entries["height"].value = panel.question.answer("height").replace(".", ",")
    panel.entries["error"].value = "low " + panel.question.answer("error").split(",")[0]
    panel.check.click()
    assert panel.result.complete and f"{panel.result.maximum} marks" in panel._said.value


@pytest.mark.parametrize("typed", ["", "abc", "1e400 mm", "5 kg", "186.4 furlong", "--", "mm"])
def test_bad_entries_get_a_sentence_and_stay(panel, typed):
    panel.entries["height"].value = typed
    panel.check.click()
    assert panel.entries["height"].value == typed
    assert len(panel._verdicts["height"].value) > 60 and panel.result.marks == 0


def test_help_opens_in_order_and_comes_from_one_source(panel):
    assert [b.disabled for b in panel.help.values()] == [False, True, True]
    working = panel.question.hints()[1].working.split(" = ")[1]
    panel.help["hint"].click()
    assert working not in panel._helped.value and not panel.help["formula"].disabled
    panel.help["formula"].click()
    assert working not in panel._helped.value
    panel.help["working"].click()
    assert working in panel._helped.value


def test_a_choice_keeps_its_hint_until_the_working_and_then_names_what_was_asked():
    panel = exercise("three-indicators", candidate="Cadet 7")
    shown = {}
    for name in ("hint", "formula", "working"):
        panel.help[name].click()
        shown[name] = panel._helped.value
    step = panel.question.hints()[1]
    assert step.kind == "choice" and step.hint in shown["hint"] and step.hint in shown["formula"]
    assert step.hint not in shown["working"] and f"{step.ask} {step.working}" in shown["working"]


def test_the_same_name_gives_the_same_question_and_another_name_another(panel):
    text = panel.question.text
    panel.candidate.value = "cadet 7 "
    panel.fetch.click()
    assert panel.question.text == text
    panel.candidate.value = "Cadet 8"
    panel.fetch.click()
    assert panel.question.text != text
