"""Lesson 14 as its user sees it: the diagnosis bench played by keyboard, at 1280x720."""

import pytest
from conftest import open_and_run
from looking import assert_fits_the_screen, errors_shown, picture

from levelkit.constants import CAUTION
from levelkit.physics.glass import drum_level
from levelkit.properties import compressed_water_density, steaming_drum_fluids
from levelkit.units import absolute_pressure, kelvin

LESSON = "14_three_readings.ipynb"


@pytest.fixture(scope="module")
def opened(page, lab):
    open_and_run(page, lab, LESSON)
    return page


def panel_of(page):
    return page.locator(".lk-panel", has=page.get_by_role("button", name="Next case"))


def key(page, name, times=1):
    """Press a button of the bench by keyboard alone."""
    button = panel_of(page).get_by_role("button", name=name, exact=True)
    button.focus()
    for _ in range(times):
        page.keyboard.press("Enter")


def wait_for(page, part):
    panel_of(page).locator("[role=status]", has_text=part).first.wait_for()


def begin(page, fault=None, hidden=None, level=None):
    """Start a case with controls worked by keyboard."""
    panel = panel_of(page)
    source = panel.get_by_role("combobox", name="Case")
    if hidden is not None:
        source.select_option("hidden, from its number")
        entry = panel.get_by_role("textbox", name="Case number")
        entry.fill(str(hidden))
        entry.press("Enter")
    else:
        source.select_option("set by the lecturer")
        entry = panel.get_by_role("textbox", name="True drum level")
        entry.wait_for()
        entry.fill(str(level))
        entry.press("Enter")
        panel.get_by_role("combobox", name="Fault 1").select_option(fault)
    page.wait_for_timeout(800)
    key(page, "Start again")
    wait_for(page, "Last entry")


def test_all_cells_run_without_an_error(opened):
    assert errors_shown(opened) == 0


def test_a_play_by_keyboard_ends_with_full_points(opened):
    begin(opened, "19  reference leg partly lost, transmitter 1", level=180)
    key(opened, "Reduce to drum level")
    wait_for(opened, "drum level")
    key(opened, "Compare")
    wait_for(opened, "Agree:")
    key(opened, "Assume low water")
    wait_for(opened, "Safe: the level is not proved")
    panel_of(opened).get_by_role("combobox", name="Check").select_option(
        "Blow through glass A: 3 min")
    key(opened, "Do this check")
    wait_for(opened, "all as usual")
    panel_of(opened).get_by_role("combobox", name="I diagnose").select_option(
        "19  reference leg partly lost, transmitter 1")
    key(opened, "Name the fault")
    wait_for(opened, "100 of 100")
    text = panel_of(opened).locator("[role=status]", has_text="of 100").first.inner_text()
    assert "It was: reference leg partly lost, transmitter 1" in text and CAUTION in text
    picture(opened, "lesson-14-played")


def test_the_corrected_glass_in_the_picture_is_the_textbook_balance(opened):
    begin(opened, "none", level=300)
    key(opened, "Reduce to drum level")
    wait_for(opened, "drum level")
    fluids = steaming_drum_fluids(absolute_pressure(60.0, 101_325.0))
    water = compressed_water_density(fluids.pressure, kelvin(100.0))
    words = panel_of(opened).locator("svg desc").first.text_content()
    shown = float(words.split("glass A ")[1].split(" mm")[0])
    level = 1000 * drum_level(shown / 1000, fluids.water_density, fluids.steam_density, water)
    assert f"drum {level:.0f}" in words or f"drum {level + 0.5:.0f}" in words or (
        f"drum {level - 0.5:.0f}" in words)
    assert level == pytest.approx(300.0, abs=1.0)


def test_feeding_out_of_sight_low_earns_nothing(opened):
    begin(opened, "23  equaliser open, transmitter 1", level=-40)
    key(opened, "Raise feed")
    wait_for(opened, "Not the safe one")
    key(opened, "Name the fault")
    wait_for(opened, "0 points")


def test_hands_are_counted_by_keyboard(opened):
    begin(opened, hidden=7)
    key(opened, "Count hands")
    wait_for(opened, "No hand counted yet")
    key(opened, "Assume low water", 3)
    key(opened, "Carry on", 1)
    wait_for(opened, "4 hands. assume low: 3 (75 %); carry on: 1 (25 %)")
    key(opened, "Count hands")
    wait_for(opened, "Last entry")


def begin_watch(page, title):
    panel = panel_of(page)
    panel.get_by_role("combobox", name="Case").select_option("a watch with a clock")
    panel.get_by_role("combobox", name="Watch").select_option(title)
    page.wait_for_timeout(800)
    key(page, "Start again")


def test_a_watch_is_played_by_keyboard_from_the_first_event_to_its_lesson(opened):
    begin_watch(opened, "A gland on the common leg")
    wait_for(opened, "A fitter nips up glands")
    key(opened, "Reduce to drum level")
    wait_for(opened, "fitter has finished")
    key(opened, "Assume low water")
    wait_for(opened, "Safe: the level is not proved")
    key(opened, "Wait a minute")
    wait_for(opened, "ALARM high level")
    picture(opened, "lesson-14-watch")
    key(opened, "Wait a minute")
    wait_for(opened, "No glass proved within the minute")
    panel_of(opened).get_by_role("combobox", name="I diagnose").select_option(
        "28  reference drain leaking, two-fluid")
    opened.wait_for_timeout(800)  # a choice waits for the kernel, a press of a button does not
    key(opened, "Name the fault")
    wait_for(opened, "It was: reference drain leaking, two-fluid")
    text = panel_of(opened).locator("[role=status]", has_text="of 100").first.inner_text()
    assert "they hung on one leg that ran empty" in text and CAUTION in text
    assert "fires are out" in text and "100 of 100" in text
    picture(opened, "lesson-14-watch-ended")


def test_a_watch_left_alone_by_keyboard_scores_nothing(opened):
    begin_watch(opened, "A gland on the common leg")
    wait_for(opened, "A fitter nips up glands")
    for minute in range(4):
        key(opened, "Wait a minute")
        wait_for(opened, f"{minute + 1.5:.1f} min")
    key(opened, "Name the fault")
    wait_for(opened, "0 points")


@pytest.mark.parametrize("projector", [False, True], ids=["screen", "projector"])
@pytest.mark.parametrize("who", ["hidden", "lecturer", "watch"])
def test_the_bench_fits_a_1280x720_screen_and_nothing_is_cut(opened, projector, who):
    if who == "hidden":
        begin(opened, hidden=3)
    elif who == "watch":
        begin_watch(opened, "Slow ahead, full ahead")
    else:
        begin(opened, "28  reference drain leaking, two-fluid", level=120)
    key(opened, "Reduce to drum level")
    wait_for(opened, "drum level")
    if projector:
        key(opened, "Projector size")
    opened.wait_for_timeout(700)
    try:
        assert_fits_the_screen(opened, panel_of(opened),
                               f"lesson-14-{who}-{'projector' if projector else 'screen'}")
    finally:
        if projector:
            key(opened, "Projector size")
