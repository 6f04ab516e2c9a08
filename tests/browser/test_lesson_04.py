"""Lesson 04 as its user sees it: parts quiz, optics, installation, bolts, at 1280x720."""

from math import asin, degrees

import pytest
from conftest import numbers_in, open_and_run
from looking import assert_fits_the_screen, cut_texts, errors_shown, picture

from levelkit.physics.optics import SODALIME, glass_refractive_index
from levelkit.properties import refractive_index, saturation_at_pressure
from levelkit.units import absolute_pressure

LESSON = "04_glass_types_and_what_the_eye_sees.ipynb"
STATES = ("reflex", "reflex, dirty", "from the side", "tube", "tube, full", "full, plain plate")


@pytest.fixture(scope="module")
def opened(page, lab):
    open_and_run(page, lab, LESSON)
    return page


def optics_of(page):
    return page.locator(".lk-panel", has=page.get_by_role("combobox", name="Made of"))


def types_of(page):
    return page.locator(".lk-panel", has=page.get_by_role("slider", name="Working pressure"))


def bolts_of(page):
    return page.locator(".lk-panel", has=page.get_by_role("button", name="8R", exact=True))


def press(panel, name):
    panel.get_by_role("button", name=name, exact=True).click()


def reveal(page):
    choice = page.get_by_role("radio", name="They look alike")
    if choice.is_disabled():
        return
    choice.check()
    page.get_by_role("button", name="Lock my prediction").click()
    page.get_by_role("button", name="Reveal", exact=True).click()


def fits(page, panel, name):
    """Look at a panel in both sizes; leave it in the smaller one."""
    for size in ("screen", "projector"):
        if size == "projector":
            press(panel, "Projector size")
        page.wait_for_timeout(700)
        try:
            assert_fits_the_screen(page, panel, f"lesson-04-{name}-{size}")
        finally:
            if size == "projector":
                press(panel, "Projector size")


def test_all_cells_run_without_an_error(opened):
    assert errors_shown(opened) == 0


def test_the_prediction_hides_what_the_eye_sees(opened):
    words = optics_of(opened).locator(".lk-words")
    if not opened.get_by_role("radio", name="They look alike").is_disabled():
        assert "hidden" in words.inner_text()
    reveal(opened)
    press(optics_of(opened), "full, plain plate")
    optics_of(opened).locator(".lk-words", has_text="nobody can tell").wait_for()


def test_pressure_moved_by_keyboard_moves_the_critical_angle(opened):
    reveal(opened)
    panel = optics_of(opened)
    press(panel, "reflex")
    slider = panel.get_by_role("slider", name="Pressure")
    slider.focus()
    for _ in range(10):
        opened.keyboard.press("ArrowRight")
    opened.wait_for_function("e => e.value === '17'", arg=slider.element_handle())
    state = saturation_at_pressure(absolute_pressure(17, 101_325.0))
    water = refractive_index(state.water_density, state.temperature)
    angle = degrees(asin(water / glass_refractive_index(SODALIME)))
    panel.locator("svg text", has_text=f"critical {angle:.1f}\u00b0").wait_for()
    shares = numbers_in(panel.locator(".lk-words").inner_text())
    assert shares[0] == 100.0 and shares[1] < 0.2
    press(panel, "Reset")


@pytest.mark.parametrize("state", STATES)
def test_the_optics_panel_fits_in_both_sizes(opened, state):
    reveal(opened)
    panel = optics_of(opened)
    press(panel, state)
    fits(opened, panel, state.replace(", ", "-").replace(" ", "-"))
    press(panel, "Reset")


def test_the_quiz_is_worked_by_keyboard_alone(opened):
    panel = types_of(opened)
    show = panel.get_by_role("checkbox")
    show.focus()
    opened.keyboard.press("Space")
    quiz = panel.get_by_role("combobox", name="is the")
    quiz.wait_for()
    said = panel.locator("[role=status]", has_text="named")
    slips = 0
    for _ in range(11):  # go down the list until the first name is right
        quiz.focus()
        opened.keyboard.press("ArrowDown")
        opened.keyboard.press("Tab")
        opened.keyboard.press("Enter")
        opened.wait_for_timeout(400)
        if "Right:" in said.inner_text():
            break
        slips += 1
        assert "has another task" in said.inner_text()
    assert f"1 of 11 named, {slips} slip" in said.inner_text()
    fits(opened, panel, "quiz")
    show.focus()
    opened.keyboard.press("Space")


@pytest.mark.parametrize("glass", ["tubular glass", "reflex glass", "plate glass with mica"])
def test_the_parts_fit_in_both_sizes(opened, glass):
    panel = types_of(opened)
    panel.get_by_role("combobox", name="Gauge glass").select_option(label=glass)
    fits(opened, panel, glass.split()[0])


def test_a_spoilt_installation_says_which_line_and_its_source(opened):
    card = opened.locator(".lk-panel", has=opened.get_by_role("combobox", name="Glass fitted"))
    card.get_by_role("combobox", name="Boiler").select_option(label="two-drum water-tube boiler")
    card.get_by_text("two-drum water-tube boiler: every line is met").wait_for()
    card.get_by_role("combobox", name="Glass fitted").select_option(label="tubular glass")
    card.locator("td", has_text="NOT MET").first.wait_for()
    row = card.locator("tr", has_text="glass type suits the working pressure")
    assert "common practice, no source" in row.inner_text()
    card.locator(".lk-title").evaluate("e => e.scrollIntoView({block: 'start'})")
    picture(opened, "lesson-04-installation")
    room = opened.locator(".jp-WindowedPanel-outer").first.bounding_box()
    assert card.bounding_box()["height"] <= room["height"] and cut_texts(card) == []


def test_bolts_are_pulled_by_keyboard_and_the_panel_fits(opened):
    panel = bolts_of(opened)
    for name in ("4L", "5R"):
        panel.get_by_role("button", name=name, exact=True).focus()
        opened.keyboard.press("Enter")
    entry = panel.get_by_role("textbox", name="Order")
    opened.wait_for_function("e => e.value === '4L 5R'", arg=entry.element_handle())
    press(panel, "end first")
    panel.locator(".lk-words", has_text="62 % of the mean").wait_for()
    fits(opened, panel, "bolts")
    press(panel, "Reset")
