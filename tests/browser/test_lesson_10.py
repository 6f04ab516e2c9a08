"""Lessons 09 and 10 as their users see them: curve, manifold and loop, by keyboard, 1280x720."""

import pytest
from conftest import open_and_run
from looking import assert_fits_the_screen, errors_shown

from levelkit.constants import CAUTION

LESSON_09, LESSON_10 = ("09_density_and_the_reference_leg.ipynb",
                        "10_manifold_and_signal_loop.ipynb")
SIZES = pytest.mark.parametrize("projector", [False, True], ids=["screen", "projector"])


@pytest.fixture(scope="module")
def opened(page, lab):
    open_and_run(page, lab, LESSON_10)
    return page


@pytest.fixture(scope="module")
def curves(browser, lab):
    sheet = browser.new_page(viewport={"width": 1280, "height": 720})
    sheet.set_default_timeout(60_000)
    open_and_run(sheet, lab, LESSON_09)
    yield sheet
    sheet.close()


def panel_with(page, name):
    return page.locator(".lk-panel", has=page.get_by_role("button", name=name, exact=True))


def manifold(page):
    return panel_with(page, "Show a sound move")


def loop(page):
    return panel_with(page, "12 V battery")


def press(panel, name):
    panel.get_by_role("button", name=name, exact=True).click()


def said(panel):
    return panel.locator(".lk-wide [role=status]")


def reveal(page, answer):
    choice = page.get_by_role("radio", name=answer)
    if choice.is_disabled():
        return
    choice.check()
    page.get_by_role("button", name="Lock my prediction").click()
    page.get_by_role("button", name="Reveal", exact=True).click()
    page.locator("[role=status]", has_text="As you predicted").wait_for()


def fits(page, panel, name, projector):
    if projector:
        press(panel, "Projector size")
    page.wait_for_timeout(700)
    try:
        assert_fits_the_screen(page, panel, f"{name}-{'projector' if projector else 'screen'}")
    finally:
        if projector:
            press(panel, "Projector size")


def test_all_cells_run_without_an_error(opened):
    assert errors_shown(opened) == 0


def test_the_equaliser_is_opened_by_keyboard_judged_and_logged(opened):
    reveal(opened, "20.5 mA: full")
    panel = manifold(opened)
    press(panel, "Start again")
    panel.get_by_role("button", name="Open equaliser").focus()
    opened.keyboard.press("Enter")
    panel.get_by_role("button", name="Shut equaliser").wait_for()
    said(panel).filter(has_text="the reference leg runs out").wait_for()
    text = said(panel).inner_text()
    assert "20.50 mA at once" in text and CAUTION in text
    lettering = panel.locator("svg").text_content()
    assert "last move: WRONG" in lettering and "mm lost" in lettering
    press(panel, "Start again")


def test_the_sound_way_is_led_step_by_step_to_its_goal(opened):
    panel = manifold(opened)
    press(panel, "Start again")
    for valve in ("drum isolator", "reference isolator"):
        press(panel, "Show a sound move")
        said(panel).filter(has_text=f"shut the {valve}").wait_for()
        press(panel, f"Shut {valve}")
        panel.get_by_role("button", name=f"Open {valve}").wait_for()
    press(panel, "Open equaliser")
    panel.locator("svg text", has_text="GOAL REACHED").wait_for()
    panel.get_by_label("Zero check:").select_option(label="4.00 mA")
    said(panel).filter(has_text="Wrong: with no differential").wait_for()
    press(panel, "Start again")


@SIZES
def test_the_drill_fits_a_1280x720_screen_with_a_full_log(opened, projector):
    panel = manifold(opened)
    press(panel, "Start again")
    for valve in ("equaliser", "reference drain", "drum vent", "reference vent", "drum drain",
                  "equaliser"):
        panel.get_by_role("button", name=f"{valve}").first.click()
        opened.wait_for_timeout(250)
    fits(opened, panel, "lesson-10-manifold", projector)
    press(panel, "Start again")


def test_the_loop_starves_at_the_current_that_the_volts_allow(opened):
    panel = loop(opened)
    press(panel, "12 V battery")
    panel.locator(".lk-words", has_text="starves").wait_for()
    by_hand = 1e3 * (12.0 - 10.5) / (250.0 + 2 * 320 * 0.0175 / 1.5)
    assert f"gets {by_hand:.2f} mA" in panel.locator(".lk-words").inner_text()
    slider = panel.get_by_role("slider", name="Supply")
    slider.focus()
    for _ in range(16):
        opened.keyboard.press("ArrowRight")
    panel.locator(".lk-words", has_text="gets 16.80 mA").wait_for()
    press(panel, "Reset")


@SIZES
@pytest.mark.parametrize("state", ["12 V battery", "second in parallel", "wire broken", "leak"])
def test_the_loop_fits_a_1280x720_screen(opened, projector, state):
    panel = loop(opened)
    press(panel, state)
    fits(opened, panel, f"lesson-10-loop-{state[:4]}", projector)
    press(panel, "Reset")


def test_a_curve_moves_by_keyboard_and_says_where_the_alarm_is_silent(curves):
    assert errors_shown(curves) == 0
    reveal(curves, "About 64 %")
    panel = panel_with(curves, "pressure fell fast")
    press(panel, "cold, open to the air")
    panel.locator(".lk-words", has_text="249.1 mm").wait_for()
    before = panel.locator("svg polyline").get_attribute("points")
    press(panel, "leg lost")
    panel.locator(".lk-words", has_text="SILENT").wait_for()
    assert panel.locator("svg polyline").get_attribute("points") != before
    slider = panel.get_by_role("slider", name="Lost from leg")
    slider.focus()
    curves.keyboard.press("Home")
    panel.locator(".lk-words", has_text="The two agree").wait_for()


@SIZES
@pytest.mark.parametrize("state", ["leg lost", "pressure fell fast"])
def test_the_curve_fits_a_1280x720_screen(curves, projector, state):
    reveal(curves, "About 64 %")
    panel = panel_with(curves, "pressure fell fast")
    press(panel, state)
    fits(curves, panel, f"lesson-09-{state[:4]}", projector)
