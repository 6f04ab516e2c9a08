"""Lesson 11 as its user sees it: list by keyboard, the roll played, at 1280x720."""

import re
from math import radians, tan

import pytest
from looking import (
    SIZES,
    assert_fits_in_size,
    colliding_texts,
    errors_shown,
    picture,
    predict,
    press,
    wait_for_words,
)
from playing import assert_plays_without_the_kernel, assert_shows_frame, watch

from levelkit.constants import CAUTION
from levelkit.lesson import ship_motion_panel

LESSON = "11_ship_motion.ipynb"
WATER = (".lk-player svg polygon[data-part]", "points")


@pytest.fixture(scope="module")
def own():
    return ship_motion_panel()


def panel_of(page):
    return page.locator(".lk-panel", has=page.get_by_role("slider", name="List to port"))


@pytest.fixture()
def panel(opened):
    """The panel, revealed, in an upright ship; a film begins at its start."""
    found = panel_of(opened)
    predict(opened, found, "Port about 420 mm", "at mid-drum")
    press(found, "upright")
    wait_for_words(found, "Upright, even keel: port glass 250 mm, starboard glass 250 mm")
    return found


def choose(panel, preset):
    """Press a preset that moves, and wait for the first picture of its film."""
    press(panel, preset)
    panel.get_by_role("button", name="Play").wait_for()
    wait_for_words(panel, "Roll: upright, even keel: port glass 250 mm")


def test_all_cells_run_and_the_panel_does_not_give_the_prediction_away(opened):
    assert errors_shown(opened) == 0
    wait_for_words(panel_of(opened), "Upright, even keel: port glass 250 mm, starboard glass "
                                     "250 mm. What the drum holds is hidden.")
    assert "port glass 419 mm" in opened.locator("figure img").get_attribute("alt")
    assert opened.get_by_text(CAUTION).count() >= 2


def test_list_by_keyboard_moves_both_glasses_by_half_the_distance(opened, panel):
    panel.get_by_role("slider", name="List to port").focus()
    for _ in range(20):
        opened.keyboard.press("ArrowRight")
    wait_for_words(panel, "List 2.0\u00b0 to port, even keel: port glass")
    port, starboard = map(int, re.findall(r"glass (\d+) mm", panel.locator(
        ".lk-words").inner_text()))
    assert port - starboard == pytest.approx(4800 * tan(radians(2.0)), abs=1.0)
    assert (port + starboard) / 2 == pytest.approx(250, abs=1.0)
    assert panel.get_by_role("group", name="Playing").count() == 0, "nothing to play"


def test_a_typed_comma_is_taken_and_a_refusal_is_a_sentence(opened, panel):
    entry = panel.get_by_role("textbox", name="List to port")
    entry.fill("2,5")
    entry.press("Enter")
    wait_for_words(panel, "List 2.5\u00b0 to port")
    entry.fill("45")
    entry.press("Enter")
    panel.locator(".lk-message", has_text="outside \u221220.0 to 20.0 \u00b0").wait_for()
    assert entry.input_value() == "45"
    press(panel, "Reset")


def test_it_plays_smoothly_and_leaves_the_kernel_alone(opened, panel, own):
    choose(panel, "rolling")
    own.set(**own.presets["rolling"])
    assert_plays_without_the_kernel(opened, panel, *WATER, own.player.film)


def test_the_time_is_worked_by_keyboard(opened, panel):
    choose(panel, "rolling")
    time = panel.get_by_role("slider", name="Time")
    time.focus()
    opened.keyboard.press("Home")
    for _ in range(20):
        opened.keyboard.press("ArrowRight")
    wait_for_words(panel, "Roll: 2.6\u00b0 to port, even keel")  # 3 sin 120 degrees
    assert time.get_attribute("aria-valuetext") == "3.0 s"  # a third of 9 s
    picture(opened, "lesson-11-rolling")
    press(panel, "One step on")
    assert time.input_value() == "21"
    press(panel, "To the start")
    assert time.input_value() == "0"


def test_a_frame_on_the_page_is_the_frame_in_the_kernel(panel, own):
    choose(panel, "heavy roll")
    own.set(**own.presets["heavy roll"])
    time = panel.get_by_role("slider", name="Time")
    for frame in (15, 37, 0):
        time.fill(str(frame))
        wait_for_words(panel, own.player.film["words"][frame])
        assert_shows_frame(panel, own.player.film, frame)
        assert colliding_texts(panel) == []


def test_the_still_picture_follows_the_frame_at_rest(opened, panel):
    choose(panel, "rolling")
    panel.get_by_role("slider", name="Time").fill("45")
    opened.wait_for_function(
        "() => document.querySelector('figure img').alt.includes('3.0\u00b0 to starboard')")


@SIZES
@pytest.mark.parametrize("preset, frame", [("list 4\u00b0", None), ("heavy roll", "0"),
                                           ("heavy roll", "9"), ("heavy roll", "45")])
def test_the_panel_fits_a_1280x720_screen_and_nothing_is_cut(opened, panel, projector, preset,
                                                             frame):
    press(panel, preset)
    if frame:
        panel.get_by_role("slider", name="Time").fill(frame)
    assert_fits_in_size(opened, panel, f"lesson-11-{preset.split()[0]}-{frame}", projector)


def test_for_less_motion_the_film_is_shown_picture_by_picture(opened, panel):
    choose(panel, "heavy roll")
    opened.emulate_media(reduced_motion="reduce")
    press(panel, "Play")
    found = watch(opened, *WATER, 2200)
    press(panel, "Pause")
    opened.emulate_media(reduced_motion="no-preference")
    assert 2 <= found["changes"] <= 6
