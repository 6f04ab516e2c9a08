"""Lesson 08 as its user sees it: in JupyterLab, by keyboard, at 1280x720."""

import pytest
from conftest import numbers_in, open_and_run
from looking import assert_fits_the_screen, errors_shown, picture, predict, press, wait_for_words

from levelkit.constants import CAUTION
from levelkit.physics.differential import indicated_level, reference_differential
from levelkit.physics.signal import signal_current
from levelkit.properties import compressed_water_density, steaming_drum_fluids
from levelkit.units import absolute_pressure, kelvin

LESSON = "08_dp_transmitter_and_its_range.ipynb"
WEIR = 0.5


@pytest.fixture(scope="module")
def opened(page, lab):
    open_and_run(page, lab, LESSON)
    return page


def panel_of(page):
    return page.locator(".lk-panel", has=page.get_by_role("combobox", name="Connection"))


def reveal(page):
    predict(page, panel_of(page), "It grows", "The drum holds")


def densities(gauge_bar, leg_celsius):
    fluids = steaming_drum_fluids(absolute_pressure(gauge_bar, 101_325.0))
    return (fluids.water_density, fluids.steam_density,
            compressed_water_density(fluids.pressure, kelvin(leg_celsius)))


def test_all_cells_run_without_an_error(opened):
    assert errors_shown(opened) == 0


def test_the_prediction_hides_the_level_until_it_is_locked(opened):
    words = panel_of(opened).locator(".lk-words")
    if not opened.get_by_role("radio", name="It grows").is_disabled():
        assert "The true level is hidden" in words.inner_text()
    reveal(opened)
    assert "The drum holds" in words.inner_text()


def test_pressure_moved_by_keyboard_changes_drawing_and_numbers(opened):
    reveal(opened)
    panel = panel_of(opened)
    press(panel, "normal steaming")
    wait_for_words(panel_of(opened), "250.0 mm")
    before = panel.locator("svg").inner_html()
    slider = panel.get_by_role("slider", name="Drum pressure")
    slider.focus()
    for _ in range(40):
        opened.keyboard.press("ArrowLeft")
    opened.wait_for_function("e => e.value === '40'", arg=slider.element_handle())
    opened.wait_for_timeout(800)
    shown, percent, current, true_level, error = numbers_in(
        panel.locator(".lk-words").inner_text())
    by_hand = 1000 * indicated_level(0.250, WEIR, *densities(40, 50), *densities(60, 50))
    assert true_level == 250.0
    assert shown == pytest.approx(by_hand, abs=0.051)
    assert percent == pytest.approx(by_hand / 5, abs=0.051)
    assert current == pytest.approx(1e3 * signal_current(by_hand / 500), abs=0.0051)
    assert error == pytest.approx(by_hand - 250.0, abs=0.051)
    assert panel.locator("svg").inner_html() != before
    differential = reference_differential(0.250, WEIR, *densities(40, 50))
    assert panel.locator("svg text", has_text=f"{differential / 1e3:.2f} kPa").count() == 1


def test_the_connection_mirrors_the_range_and_not_the_reading(opened):
    reveal(opened)
    panel = panel_of(opened)
    press(panel, "low water")
    wait_for_words(panel_of(opened), "150.0 mm")
    words = panel.locator(".lk-words").inner_text()
    panel.get_by_role("combobox", name="Connection").select_option(
        label="direct: H on the drum")
    panel.locator("svg text", has_text="= \u22123.64 kPa").wait_for()
    assert panel.locator(".lk-words").inner_text() == words
    press(panel, "Reset")


def test_a_fault_says_what_to_do_with_the_caution_beside_it(opened):
    reveal(opened)
    panel = panel_of(opened)
    press(panel, "equaliser open")
    wait_for_words(panel_of(opened), "off scale FULL")
    advice = panel.locator(".lk-wide").inner_text()
    assert "Feed by hand on a proved glass" in advice and CAUTION in advice
    assert "May hide low water" in advice
    press(panel, "Reset")


@pytest.mark.parametrize("projector", [False, True], ids=["screen", "projector"])
@pytest.mark.parametrize("state", ["normal steaming", "cold, open to the air", "equaliser open",
                                   "leg lost"])
def test_the_panel_fits_a_1280x720_screen_and_nothing_is_cut(opened, projector, state):
    reveal(opened)
    panel = panel_of(opened)
    press(panel, state)
    if projector:
        press(panel, "Projector size")
    opened.wait_for_timeout(700)
    try:
        assert_fits_the_screen(
            opened, panel, f"lesson-08-{state[:4]}-{'projector' if projector else 'screen'}")
    finally:
        if projector:
            press(panel, "Projector size")
        press(panel, "Reset")


@pytest.mark.parametrize("projector", [False, True], ids=["screen", "projector"])
def test_a_range_by_hand_fits_and_one_without_span_is_refused_in_a_sentence(opened, projector):
    reveal(opened)
    panel = panel_of(opened)
    if projector:
        press(panel, "Projector size")
    panel.get_by_role("checkbox", name="Range by hand").check()
    for name, typed in (("LRV, 4 mA at", "2,5"), ("URV, 20 mA at", "2,5")):
        entry = panel.get_by_role("textbox", name=name)
        entry.fill(typed)
        entry.press("Enter")
    panel.locator(".lk-problem", has_text="both 2500 Pa; the span must not be 0 Pa").wait_for()
    try:
        assert_fits_the_screen(opened, panel,
                               f"lesson-08-by-hand-{'projector' if projector else 'screen'}")
    finally:
        if projector:
            press(panel, "Projector size")
        press(panel, "Reset")


def test_the_longest_advice_still_fits(opened):
    reveal(opened)
    panel = panel_of(opened)
    faults = panel.get_by_role("combobox", name="Fault")
    for label in ("26 reference leg valve shut", "44 pressure input of the compensation failed"):
        faults.select_option(label=label.replace(" ", "  ", 1))
        opened.wait_for_timeout(500)
        assert_fits_the_screen(opened, panel, f"lesson-08-fault-{label[:2]}")
    press(panel, "Reset")


def test_the_exercise_takes_its_own_working_as_right(opened):
    card = opened.locator(".lk-panel", has_text="Reversed connection, reverse-acting")
    card.scroll_into_view_if_needed()
    for name in ("Hint", "Formula", "Working"):
        card.get_by_role("button", name=name).click()
    working = card.locator("li", has_text="kPa").last
    working.wait_for()
    answer = working.inner_text().split("=")[-1].strip()
    assert answer.endswith("kPa")
    field = card.locator(".widget-text", has_text="Answer [kPa]").get_by_role("textbox")
    field.first.fill(answer)
    card.get_by_role("button", name="Check my answers").click()
    card.locator("[role=status]", has_text="\u2713").first.wait_for()
    picture(opened, "lesson-08-exercise")
