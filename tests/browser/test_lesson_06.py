"""Lesson 06 as its user sees it: a broken glass, and the isolation drill by keyboard."""

import pytest
from conftest import open_and_run
from looking import assert_fits_the_screen, errors_shown, picture, predict, press

from levelkit.constants import CAUTION
from levelkit.physics.breakage import ISOLATION_DRILL

LESSON = "06_breakage_and_isolation.ipynb"


@pytest.fixture(scope="module")
def opened(page, lab):
    open_and_run(page, lab, LESSON)
    return page


def panel_of(page):
    return page.locator(".lk-panel", has=page.get_by_role("slider", name="Bore of the hole"))


def reveal(page):
    predict(page, panel_of(page), "The water end loses about five times as much", "4.7 to 1")


def test_all_cells_run_without_an_error(opened):
    assert errors_shown(opened) == 0


def test_the_prediction_hides_the_loss(opened):
    words = panel_of(opened).locator(".lk-words")
    if not opened.get_by_role("radio", name="The water end loses about five").is_disabled():
        assert "hidden" in words.inner_text()
    reveal(opened)
    panel_of(opened).locator(".lk-words", has_text="4.7 to 1").wait_for()


def test_pressure_moved_by_keyboard_moves_both_flows(opened):
    reveal(opened)
    panel = panel_of(opened)
    press(panel, "ball stuck")
    slider = panel.get_by_role("slider", name="Pressure")
    slider.focus()
    for _ in range(18):
        opened.keyboard.press("ArrowRight")
    opened.wait_for_function("e => e.value === '16'", arg=slider.element_handle())
    panel.locator(".lk-words", has_text="1.09 kg/s at least").wait_for()
    assert panel.locator("svg text", has_text="a LOWER bound").count() == 1
    assert CAUTION in panel.inner_text()
    press(panel, "Reset")


@pytest.mark.parametrize("state", ["ball stuck", "ball free", "cracked only, 2 mm", "60 bar g"])
@pytest.mark.parametrize("projector", [False, True], ids=["screen", "projector"])
def test_the_panel_fits_and_nothing_is_cut(opened, state, projector):
    reveal(opened)
    panel = panel_of(opened)
    press(panel, state)
    if projector:
        press(panel, "Projector size")
    opened.wait_for_timeout(700)
    try:
        assert_fits_the_screen(opened, panel, f"lesson-06-{state.replace(' ', '-')}-"
                               + ("projector" if projector else "screen"))
    finally:
        if projector:
            press(panel, "Projector size")
        press(panel, "Reset")


def test_isolation_by_keyboard_a_slip_first(opened):
    card = opened.locator(".lk-panel", has_text="A glass bursts beside you: what do you do")
    said = card.locator("[role=status]")
    steam = next(step for step in ISOLATION_DRILL if "shut the steam cock" in step.action)
    for step in (steam, *ISOLATION_DRILL):
        button = card.get_by_role("button", name=step.action, exact=True)
        button.focus()
        opened.keyboard.press("Enter")
        opened.wait_for_timeout(300)
        if step is steam and not card.locator("li").count():
            assert "Not yet" in said.inner_text()
            assert ISOLATION_DRILL[0].reason in said.inner_text()
    card.locator("[role=status]", has_text="All 6 steps done, 1 slip").wait_for()
    assert CAUTION in card.inner_text() and card.locator("li").count() == 6
    picture(opened, "lesson-06-isolation")
