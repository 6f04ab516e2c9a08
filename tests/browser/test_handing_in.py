"""The hand-in as a candidate makes it: number, answer, check, save; the file is marked."""

import json

import pytest
from conftest import open_and_run
from looking import errors_shown, picture, press

from levelkit.exercises import variant
from levelkit.exercises.hand_in import SHEET, practised_variant

LESSON = "15_worked_examples.ipynb"
NUMBER = "1003"


@pytest.fixture(scope="module")
def opened(page, lab):
    open_and_run(page, lab, LESSON)
    return page


def panel_of(page):
    return page.locator(".lk-panel", has=page.get_by_role("button", name="Save hand-in"))


def test_a_name_is_refused_and_a_number_gets_a_file_with_the_answers(opened, lab):
    panel = panel_of(opened)
    press(panel, "Save hand-in")
    panel.get_by_text("is no candidate number").wait_for()
    panel.get_by_role("textbox", name="Name or number").fill(NUMBER)
    press(panel, "Give me my question")
    question = variant("glass-reads-low", SHEET, NUMBER)
    panel.get_by_text(question.text).wait_for()
    answers = panel.get_by_role("textbox", name="Answer")
    answers.nth(0).fill(question.answer("height"))
    answers.nth(1).fill(question.answer("error"))
    press(panel, "Check my answers")
    panel.get_by_text("of 7 marks.").wait_for()
    press(panel, "Save hand-in")
    panel.get_by_text(f"hand-in-{NUMBER}.json").wait_for()
    panel.get_by_role("button", name="Save hand-in").scroll_into_view_if_needed()
    opened.wait_for_timeout(400)
    picture(opened, "hand-in")
    document = json.loads((lab.folder / f"hand-in-{NUMBER}.json").read_text(encoding="utf-8"))
    attempt, = document["attempts"]
    assert document["candidate"] == NUMBER and attempt["entries"]["height"]
    assert practised_variant(attempt["family"], attempt["code"], NUMBER).text == question.text
    assert errors_shown(opened) == 0
