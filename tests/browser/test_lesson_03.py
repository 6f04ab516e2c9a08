"""Lesson 03 as its user sees it: in JupyterLab, by keyboard, at 1280x720."""

import pytest
from conftest import numbers_in, open_and_run
from looking import assert_fits_the_screen, errors_shown, picture, predict

from levelkit.physics.glass import glass_column_height
from levelkit.properties import compressed_water_density, steaming_drum_fluids
from levelkit.units import absolute_pressure, kelvin

LESSON = "03_why_the_glass_reads_low.ipynb"


@pytest.fixture(scope="module")
def opened(page, lab):
    open_and_run(page, lab, LESSON)
    return page


def panel_of(page):
    return page.locator(".lk-panel", has=page.get_by_role("slider", name="Drum pressure"))


def reveal(page):
    predict(page, panel_of(page), "It sinks by about 55 mm", "The drum holds")


def expected_mm(gauge_bar, level_mm, glass_celsius):
    fluids = steaming_drum_fluids(absolute_pressure(gauge_bar, 101_325.0))
    water = compressed_water_density(fluids.pressure, kelvin(glass_celsius))
    return 1000 * glass_column_height(level_mm / 1000, fluids.water_density,
                                      fluids.steam_density, water)


def test_all_cells_run_without_an_error(opened):
    assert errors_shown(opened) == 0


def test_pressure_moved_by_keyboard_changes_drawing_and_numbers(opened):
    reveal(opened)
    panel = panel_of(opened)
    panel.get_by_role("button", name="normal steaming").click()
    words = panel.locator(".lk-words")
    opened.wait_for_function("e => e.textContent.includes('194.9')", arg=words.element_handle())
    before = panel.locator("svg").inner_html()
    slider = opened.get_by_role("slider", name="Drum pressure")
    slider.focus()
    for _ in range(10):
        opened.keyboard.press("ArrowLeft")
    opened.wait_for_function("e => e.value === '55'", arg=slider.element_handle())
    opened.wait_for_timeout(800)
    shown, true_level, error = numbers_in(words.inner_text())
    assert true_level == 250.0
    assert shown == pytest.approx(expected_mm(55, 250, 100), abs=0.051)
    assert error == pytest.approx(250.0 - expected_mm(55, 250, 100), abs=0.051)
    assert panel.locator("svg").inner_html() != before
    assert slider.get_attribute("aria-valuetext") == "55.0 bar g"


def test_typed_comma_is_taken_and_a_refusal_is_a_sentence(opened):
    panel = panel_of(opened)
    entry = panel.get_by_role("textbox", name="Drum pressure")
    entry.fill("0,25")
    entry.press("Enter")
    slider = opened.get_by_role("slider", name="Drum pressure")
    opened.wait_for_function("e => e.getAttribute('aria-valuetext') === '0.3 bar g'",
                             arg=slider.element_handle())
    entry.fill("900")
    entry.press("Enter")
    message = panel.locator(".lk-message:not(:empty)")
    message.wait_for()
    assert "outside 0.0 to 100.0 bar g" in message.inner_text()
    assert entry.input_value() == "900"
    panel.get_by_role("button", name="Reset").click()


@pytest.mark.parametrize("projector", [False, True], ids=["screen", "projector"])
def test_the_panel_fits_a_1280x720_screen_and_nothing_is_cut(opened, projector):
    reveal(opened)
    panel = panel_of(opened)
    panel.get_by_role("button", name="normal steaming").click()
    if projector:
        panel.get_by_role("button", name="Projector size").click()
    opened.wait_for_timeout(700)
    assert_fits_the_screen(opened, panel, f"lesson-03-{'projector' if projector else 'screen'}")
    if projector:
        panel.get_by_role("button", name="Projector size").click()


def test_the_still_picture_follows_when_the_sliders_rest(opened):
    still = opened.locator("figure img")
    still.wait_for()
    panel = panel_of(opened)
    panel.get_by_role("button", name="low water").click()
    opened.wait_for_function("() => document.querySelector('figure img').alt.includes('150.0')")


def test_an_exercise_names_the_slip_and_then_takes_the_right_answer(opened):
    card = opened.locator(".lk-panel", has=opened.get_by_role("button", name="Check my answers"))
    card.scroll_into_view_if_needed()
    text = card.inner_text()
    level = text.split("drum level is ")[1].split(" ")[0]
    answers = card.get_by_role("textbox", name="Answer")
    answers.first.fill(f"{level} mm")
    card.get_by_role("button", name="Check my answers").click()
    verdict = card.locator("[role=status]").first
    verdict.wait_for()
    slip = verdict.inner_text()
    card.get_by_role("button", name="Hint").click()
    card.get_by_role("button", name="Formula").click()
    card.get_by_role("button", name="Working").click()
    working = card.locator("li", has_text="h_g =").last
    card.locator("b", has_text="Working").wait_for()
    right = working.inner_text().split("=")[-1].strip()
    assert right.split()[0] not in slip and "\u2717" in slip
    picture(opened, "lesson-03-exercise")
    answers.first.fill(right)
    card.get_by_role("button", name="Check my answers").click()
    card.locator("[role=status]", has_text="\u2713").first.wait_for()
