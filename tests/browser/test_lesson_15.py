"""Lesson 15 as its user sees it: answer, slip, help, fading and progress, by keyboard."""

import json

import pytest
from conftest import open_and_run
from looking import (
    SIZES,
    assert_fits_in_size,
    errors_shown,
    picture,
    press,
    press_by_key,
    tab_to,
)

from levelkit.exercises import example, families, family, variant
from levelkit.exercises.hand_in import SHEET

LESSON = "15_worked_examples.ipynb"
GLASS = family("glass-reads-low")


@pytest.fixture(scope="module")
def opened(page, lab):
    open_and_run(page, lab, LESSON)
    return page


def panel_of(page):
    return page.locator(".lk-panel", has=page.get_by_role("button", name="Next question"))


def choose(page, title):
    """Choose a question by its title."""
    box = panel_of(page).get_by_role("combobox", name="Question")
    titles = [text.replace("\u00a0", " ") for text in box.locator("option").all_inner_texts()]
    box.select_option(index=next(i for i, text in enumerate(titles) if text.startswith(title)))
    panel_of(page).locator(".lk-title", has_text=title).wait_for()


def name_myself(page, name, place=0):
    """Type a name, ask for the glass question that belongs to it, by keyboard; return it."""
    question = variant(GLASS.id, SHEET, name.lower(), place=place)
    panel_of(page).get_by_role("textbox", name="Name or number").focus()
    page.keyboard.press("Control+a")
    page.keyboard.type(name)
    tab_to(page, "Give me my question")
    page.keyboard.press("Enter")
    panel_of(page).get_by_text(question.text).wait_for()
    rest(page)
    return question


def rest(page):
    """Wait as long as a person takes from one field to the next."""
    page.wait_for_timeout(400)
    page.get_by_text("Python 3 (ipykernel) | Idle").wait_for()


def right_height(question):
    """Height in the glass by the textbook's balance, from the printed numbers."""
    water, steam, glass = (question.data[name] for name in (
        "water_density", "steam_density", "glass_density"))
    return question.data["level"] * (water - steam) / (glass - steam)


def type_into(page, which, text):
    panel_of(page).get_by_role("textbox", name="Answer").nth(which).focus()
    page.keyboard.press("Control+a")
    page.keyboard.type(text)
    page.keyboard.press("Tab")
    rest(page)


def check(page, part):
    """Press Check and wait for a verdict that says something."""
    press_by_key(panel_of(page), "Check my answers")
    panel_of(page).locator("[role=status]", has_text=part).first.wait_for()


def fresh(page, name):
    """The glass question of a learner who has not been here, nothing worked."""
    choose(page, GLASS.title)
    press(panel_of(page), "nothing")
    rest(page)
    return name_myself(page, name)


def test_all_cells_run_without_an_error(opened):
    assert errors_shown(opened) == 0


def test_a_known_slip_is_named_without_the_number_and_then_the_answer_is_right(opened, lab):
    """From the name to full marks with nothing but the keyboard."""
    question = fresh(opened, "Cadet 7")
    level, height = question.data["level"], right_height(question)
    tab_to(opened, "Answer [mm]")
    opened.keyboard.type(f"{level:g} mm")
    tab_to(opened, "Check my answers")
    opened.keyboard.press("Enter")
    panel = panel_of(opened)
    panel.locator("[role=status]", has_text=GLASS.slip("stands_level").sentence).wait_for()
    picture(opened, "lesson-15-slip")
    assert f"{height:.1f}" not in panel.inner_text()
    type_into(opened, 0, f"{height:.1f} mm".replace(".", ","))
    panel.get_by_role("textbox", name="Answer").first.focus()
    tab_to(opened, "Answer [mm], and low or high")
    opened.keyboard.type(f"low {level - height:.1f} mm")
    check(opened, "7 of 7 marks")
    assert panel.locator("[role=status]", has_text="Right.").count() == 2
    panel.get_by_text("Checked 2 times").wait_for()
    picture(opened, "lesson-15-right")
    kept = json.loads((lab.folder / "progress-cadet-7.json").read_text("utf-8"))["attempts"]
    assert [(one["marks"], one["misconceptions"]) for one in kept] == [(0, ["MC01"]), (7, [])]


def test_the_next_question_takes_up_the_slip_and_says_why(opened):
    question = fresh(opened, "Cadet 8")
    type_into(opened, 0, f"{question.data['level']:g} mm")
    check(opened, "0 of 7 marks")
    press_by_key(panel_of(opened), "Next question")
    why = panel_of(opened).locator("[role=status]", has_text="Why this one")
    why.wait_for()
    assert "(MC01)" in why.inner_text()
    title = panel_of(opened).locator(".lk-title").inner_text()
    chosen = next(one for one in families().values() if one.title == title)
    assert "MC01" in chosen.misconceptions and chosen.id != GLASS.id


@pytest.mark.parametrize("text, told", [
    ("1e400 mm", "too large"), ("full", "holds no number"), ("5 kg", "give a value in mm"),
    ("12 13 mm", "cannot be read"), ("", "Nothing is entered")])
def test_a_bad_entry_gets_a_sentence_and_stays(opened, text, told):
    fresh(opened, f"Cadet {told}")
    type_into(opened, 0, text or " ")
    check(opened, told)
    entry = panel_of(opened).get_by_role("textbox", name="Answer").first
    assert entry.input_value().strip() == text


def test_help_opens_in_order_and_only_the_last_piece_tells_the_number(opened):
    panel, right = panel_of(opened), f"{right_height(fresh(opened, 'Cadet 9')):.1f}"
    helps = [panel.get_by_role("button", name=name, exact=True)
             for name in ("Hint", "Formula", "Working")]
    for place, (button, shown) in enumerate(zip(
            helps, ("taller or the shorter", "h_g = h × (ρ_f − ρ_g) / (ρ_w − ρ_g)", right),
            strict=True)):
        assert [one.is_enabled() for one in helps] == [n <= place for n in range(3)]
        assert right not in panel.inner_text()
        button.focus()
        opened.keyboard.press("Enter")
        panel.locator("li", has_text=shown).first.wait_for()


def test_an_example_fades_by_keyboard(opened):
    fresh(opened, "Cadet 10")
    panel, one = panel_of(opened), example("glass-reads-low")
    entries = panel.get_by_role("textbox", name="Answer")
    for name, text, left, lines in (
            ("all of it", one.answer("height"), 0, 3), ("the first half", "\u2026\u2026", 2, 3),
            ("nothing", "Find the height", 2, 0)):
        press_by_key(panel, name)
        panel.get_by_text(text).first.wait_for()
        opened.wait_for_function(
            "([e, n, m]) => e.querySelectorAll('input[type=text]').length === n"
            " && e.querySelectorAll('li').length === m",
            arg=[panel.element_handle(), left + 1, lines])
        assert entries.count() == left


def test_a_half_written_progress_file_is_said_and_its_copy_taken(opened, lab):
    fresh(opened, "Cadet 11")
    for text, told in (("1 mm", "Checked once"), ("2 mm", "Checked 2 times")):
        type_into(opened, 0, text)
        press_by_key(panel_of(opened), "Check my answers")
        panel_of(opened).get_by_text(told).wait_for()
    path = lab.folder / "progress-cadet-11.json"
    path.write_text(path.read_text("utf-8")[:60], encoding="utf-8")
    name_myself(opened, "Cadet 12")
    name_myself(opened, "Cadet 11", place=1)
    panel_of(opened).locator("[role=status]", has_text="was not whole").wait_for()
    picture(opened, "lesson-15-recovered")
    assert "Checked once" in panel_of(opened).inner_text()


@SIZES
@pytest.mark.parametrize("title, worked", [
    (GLASS.title, "nothing"), (GLASS.title, "all of it"), (GLASS.title, "the first half"),
    ("Read the currents by NAMUR NE 43", "nothing"), ("Three indicators disagree", "all of it"),
    ("Three indicators disagree", "the first half")])
def test_the_panel_fits_a_1280x720_screen_and_nothing_is_cut(opened, title, worked, projector):
    choose(opened, title)
    press(panel_of(opened), worked)
    opened.wait_for_timeout(500)
    assert_fits_in_size(opened, panel_of(opened),
                        f"lesson-15-{title.split()[0]}-{worked.replace(' ', '-')}", projector)


def test_the_panel_fits_with_verdicts_and_working_shown(opened):
    question = fresh(opened, "Cadet 13")
    type_into(opened, 0, f"{question.data['level']:g} mm")
    check(opened, "0 of 7 marks")
    for name in ("Hint", "Formula", "Working"):
        press_by_key(panel_of(opened), name)
        opened.wait_for_timeout(500)
    assert_fits_in_size(opened, panel_of(opened), "lesson-15-helped", False)
