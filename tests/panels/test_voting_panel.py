"""The voting panel without a browser: votes, times and odds, and a draw that can be repeated."""

import csv
import io

import pytest
from handling import nothing_swallowed, press, redraws

from levelkit.lesson import voting_panel
from levelkit.panels.vote_case import (
    FALSE_LOW,
    FROZEN,
    KNOWN_BAD,
    LEG_LOST,
    OWN_LEGS,
    SHARED_LEG,
    YEAR,
)
from levelkit.physics.drum_geometry import water_volume
from levelkit.physics.voting import ARCHITECTURES


@pytest.fixture()
def panel(caplog):
    """A panel; an exception swallowed by a callback fails the test."""
    with nothing_swallowed(caplog):
        yield voting_panel()


def trips(panel, **values):
    panel.set(**values)
    assert panel._problem.value == ""
    return panel.result.result.trips


def test_every_preset_redraws_once_and_reset_returns(panel):
    start = panel.drawing.words
    for label in panel.presets:
        seen = redraws(panel)
        press(panel, label)
        assert len(seen) <= 1 and panel._problem.value == ""
    press(panel, "Reset")
    assert panel.drawing.words == start


@pytest.mark.parametrize("name, blind, nuisance", [
    ("1oo1", True, True), ("1oo2", False, True), ("2oo2", True, False), ("2oo3", False, False),
    ("median", False, False)])
def test_one_bad_transmitter_in_each_arrangement(panel, name, blind, nuisance):
    """By hand: a frozen one blinds all that need it, a false low trips all that need one."""
    assert trips(panel, vote=name, level=100, A=FROZEN) is not blind
    assert trips(panel, level=250, A=FALSE_LOW) is nuisance


@pytest.mark.parametrize("name", ARCHITECTURES)
def test_a_shared_leg_blinds_every_arrangement(panel, name):
    assert not trips(panel, vote=name, level=60, A=LEG_LOST, legs=SHARED_LEG)
    assert "DOES NOT TRIP" in panel.drawing.words
    assert panel.drawing.words.count("FULL") == ARCHITECTURES[name][1]


def test_a_leg_of_its_own_that_is_lost_is_outvoted(panel):
    assert trips(panel, level=100, A=LEG_LOST, legs=OWN_LEGS)
    assert panel.drawing.words.count("FULL") == 1


def test_a_lost_leg_shows_the_whole_leg_too_much(panel):
    """By hand: shown - true = H (rho_r - rho_g) / (rho_f - rho_g), the leg full of steam."""
    panel.set(A=LEG_LOST)
    assert panel.result.shown[0] - 0.250 == pytest.approx(
        0.5 * (990.6 - 31.4) / (756.1 - 31.4), rel=1e-3)


@pytest.mark.parametrize("rule, comes", [("trip", True), ("healthy", False), ("removed", False)])
def test_two_known_bad_signals_do_as_they_are_told(panel, rule, comes):
    assert trips(panel, A=KNOWN_BAD, B=KNOWN_BAD, bad=rule) is comes
    assert trips(panel, level=100) is (rule != "healthy")


def test_the_time_to_the_trip_by_volume(panel):
    drum = panel.boiler.drum.shape
    panel.set(loss=9.5)
    water = water_volume(drum, 0.25) - water_volume(drum, 0.12)
    assert panel.result.times["low-low trip"] == pytest.approx(
        water * (756.1 - 31.38) / 9.5, rel=1e-3)
    panel.set(shrink=40)
    assert panel.result.times["low-low trip"] < 0.75 * water * (756.1 - 31.38) / 9.5
    panel.set(level=110)
    assert panel.result.times["low-low trip"] == 0.0
    assert "low-low trip 120 mm: passed" in [box.text for box in panel.drawing.text_boxes]


def test_the_odds_by_hand(panel):
    """x = 2e-6 x 8760: x/2, x^2/3, x, x^2 within the few percent that simple forms leave out."""
    panel.set(common=0)
    x = 2e-6 * 8760
    for name, simple in (("1oo1", x / 2), ("1oo2", x ** 2 / 3), ("2oo2", x), ("2oo3", x ** 2)):
        assert panel.result.on_demand[name] == pytest.approx(simple, rel=0.03)
    panel.set(common=5)
    assert panel.result.simplified == pytest.approx(7.15e-4, rel=1e-3)
    assert panel.result.spurious["1oo1"] * YEAR == pytest.approx(1e-5 * 8760)


def test_a_shared_leg_takes_away_what_the_vote_bought(panel):
    panel.set(leg_losses=1, legs=OWN_LEGS)
    own = panel.result.on_demand["2oo3"]
    assert panel.result.simplified is None
    panel.set(legs=SHARED_LEG)
    assert panel.result.on_demand["2oo3"] > 4 * own
    assert panel.result.on_demand["2oo3"] > 1e-6 * 8760 / 2 * 0.98


def test_a_draw_agrees_with_the_sum_can_be_repeated_and_is_dropped_with_its_setting(panel):
    panel.draw_at_random(seed=5)
    seed, found, false_trips = panel.counted
    assert found.low < panel.result.on_demand["2oo3"] < found.high
    assert false_trips.low < panel.result.spurious["2oo3"] < false_trips.high
    assert f"drawn, seed {seed}" in [box.text for box in panel.drawing.text_boxes]
    panel.draw_at_random(seed=5)
    assert panel.counted == (seed, found, false_trips)
    panel.set(level=200)
    assert panel.counted is not None, "the odds do not depend on the level"
    panel.set(common=10)
    assert panel.counted is None and "not yet" in [b.text for b in panel.drawing.text_boxes]


def test_the_button_takes_the_next_seed(panel):
    button = next(child for child in panel.children[4].children
                  if getattr(child, "description", "") == "Draw failures at random")
    button.click()
    first = panel.counted
    button.click()
    assert (first[0], panel.counted[0]) == (1, 2) and first[1] != panel.counted[1]


def test_transmitters_that_are_not_used_are_switched_off(panel):
    panel.set(vote="1oo2")
    assert panel.controls["C"].disabled and not panel.controls["B"].disabled


def test_hiding_gives_neither_level_nor_faults_away(panel):
    panel.truth.value = False
    panel.set(level=97, A=LEG_LOST, legs=SHARED_LEG)
    lettering = [box.text for box in panel.drawing.text_boxes]
    assert not any("97" in text or "lost" in text or "empty" in text or "DOES" in text
                   for text in lettering)
    assert "is that right?" in lettering


def test_readings_carry_the_decision_and_the_seed(panel, tmp_path):
    panel.set(level=100, A=FROZEN)
    panel.draw_at_random(seed=3)
    panel.readings.record()
    row = next(csv.DictReader(io.StringIO(panel.readings.save(tmp_path).read_text("utf-8"))))
    assert row["trips"] == "yes" and row["seed"] == "3" and "frozen" in row["A"]
    assert float(row["drawn [1]"]) == pytest.approx(panel.counted[1].value, rel=1e-3)


def test_a_twin_begins_with_its_own_values_and_then_follows(panel):
    """A page run at one go must not show the answer of its prediction in the panel."""
    panel.twin(show_truth=True, **panel.presets["low water, shared leg lost"])
    assert panel.values() == panel._start and "FULL" not in panel.drawing.words
    panel.set(level=200)
    assert "True level 200 mm" in panel._twins[-1].output().data
