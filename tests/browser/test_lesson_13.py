"""Lesson 13 as its user sees it: votes worked by keyboard, drawn at random, at 1280x720."""

import re

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

from levelkit.constants import CAUTION

LESSON = "13_alarms_trips_and_voting.ipynb"


def panel_of(page):
    return page.locator(".lk-panel", has=page.get_by_role("slider", name="Steam less feed"))


@pytest.fixture()
def panel(opened):
    """The panel, revealed, with all transmitters good."""
    found = panel_of(opened)
    predict(opened, found, "All three show full: it does not trip", "True level")
    press(found, "Reset")
    wait_for_words(found, "True level 250 mm; A 250 mm, B 250 mm, C 250 mm.")
    return found


def written(panel, pattern):
    """The first match of a pattern in the lettering of the picture, once it is there."""
    found = panel.locator("svg text", has_text=re.compile(pattern)).first
    found.wait_for()
    return found.text_content()


def test_all_cells_run_and_the_panel_does_not_give_the_prediction_away(opened):
    assert errors_shown(opened) == 0
    wait_for_words(panel_of(opened), "A 250 mm, B 250 mm, C 250 mm. 2oo3: 2 of 3 needed, 0 for a "
                                     "trip: stays on. The true level is hidden.")
    assert "DOES NOT TRIP" in opened.locator("figure img").get_attribute("alt")
    assert opened.get_by_text(CAUTION).count() >= 2


def test_the_level_sinks_by_keyboard_through_alarm_and_trip(opened, panel):
    level = panel.get_by_role("slider", name="True level")
    level.focus()
    for _ in range(8):
        opened.keyboard.press("PageDown")
    for _ in range(10):
        opened.keyboard.press("ArrowLeft")
    opened.wait_for_timeout(800)
    now = int(level.input_value())
    assert now < 250
    wait_for_words(panel, f"True level {now} mm; A {now} mm, B {now} mm, C {now} mm.")
    entry = panel.get_by_role("textbox", name="True level")
    entry.fill("121")
    entry.press("Enter")
    wait_for_words(panel, "stays on as it should")
    assert "passed" in written(panel, "^low alarm")
    level.focus()
    opened.keyboard.press("ArrowLeft")
    wait_for_words(panel, "True level 120 mm")
    wait_for_words(panel, "trips as it should")
    assert "passed" in written(panel, "^low-low trip")


@pytest.mark.parametrize("preset, verdict", [
    ("one falsely low", "stays on as it should"),
    ("low water, one frozen", "trips as it should"),
    ("low water, two of two", "DOES NOT TRIP low water, fires on"),
    ("low water, shared leg lost", "DOES NOT TRIP low water, fires on"),
    ("two known bad", "FALSE TRIP the level is sound")])
def test_presets_by_keyboard_end_in_their_verdict(opened, panel, preset, verdict):
    panel.get_by_role("button", name=preset, exact=True).focus()
    opened.keyboard.press("Enter")
    wait_for_words(panel, verdict)
    assert colliding_texts(panel) == []


def test_the_vote_and_the_way_of_a_transmitter_are_chosen_by_keyboard(opened, panel):
    panel.get_by_role("combobox", name="Transmitter A").select_option("falsely low")
    wait_for_words(panel, "stays on as it should")
    panel.get_by_role("combobox", name="Vote").focus()
    for _ in range(2):  # from 2oo3 back to 1oo2
        opened.keyboard.press("ArrowUp")
    wait_for_words(panel, "FALSE TRIP the level is sound")
    assert panel.get_by_role("combobox", name="Transmitter C").is_disabled()


def test_a_typed_comma_is_taken_and_a_refusal_is_a_sentence(panel):
    before = written(panel, r"^low-low trip")
    entry = panel.get_by_role("textbox", name="Steam less feed")
    entry.fill("19,0")  # twice the loss: half the time
    entry.press("Enter")
    panel.locator("svg text", has_text=re.compile(r"^low-low trip")).filter(
        has_not_text=before).wait_for()
    seconds = [float(re.search(r": (\d+) ", text)[1])
               for text in (before, written(panel, r"^low-low trip"))]
    assert seconds[1] == pytest.approx(seconds[0] / 2, abs=1.0)
    entry.fill("300")
    entry.press("Enter")
    panel.locator(".lk-message", has_text="outside 0.1 to 30.0 kg/s").wait_for()
    assert entry.input_value() == "300"


def test_failures_drawn_at_random_stand_beside_the_sum_with_their_seed(opened, panel):
    press(panel, "Draw failures at random")
    seed = written(panel, r"^drawn, seed \d+")
    interval = written(panel, r"\d to \d")
    press(panel, "Draw failures at random")
    panel.locator("svg text", has_text=re.compile(r"^drawn, seed")).filter(
        has_not_text=seed).wait_for()
    assert written(panel, r"\d to \d") != interval, "another seed, another estimate"
    picture(opened, "lesson-13-drawn")
    press(panel, "one falsely low")
    wait_for_words(panel, "A 90 mm, B 250 mm")
    assert panel.locator("svg text", has_text="drawn, seed").count() == 1, "the odds are the same"


def test_the_still_picture_follows(opened, panel):
    press(panel, "low water, two of two")
    wait_for_words(panel, "DOES NOT TRIP")
    opened.wait_for_function(
        "() => document.querySelector('figure img').alt.includes('DOES NOT TRIP')")


@SIZES
@pytest.mark.parametrize("preset, drawn", [
    ("all good", True), ("low water, shared leg lost", False), ("two known bad", False)])
def test_the_panel_fits_a_1280x720_screen_and_nothing_is_cut(opened, panel, projector, preset,
                                                             drawn):
    press(panel, preset)
    if drawn:
        press(panel, "Draw failures at random")
    assert_fits_in_size(opened, panel, f"lesson-13-{preset.split()[-1]}", projector)
