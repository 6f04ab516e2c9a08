"""The cocks panel without a browser: chokes, leaks, all eight positions, runs that go on."""

import csv
import io
import logging

import numpy as np
import pytest
from handling import press

from levelkit.constants import CAUTION
from levelkit.lesson import cocks_panel
from levelkit.panels.cocks_setting import DRAINED, FAULTS, KEPT


@pytest.fixture(scope="module")
def shared():
    return cocks_panel()


@pytest.fixture()
def panel(shared, caplog):
    shared.truth.value = True
    shared.reset()
    yield shared
    assert not [r for r in caplog.records if r.name in ("traitlets", "levelkit")
                and r.levelno >= logging.ERROR]


def millimetres(panel, second):
    history = panel.result.history
    return 1000 * float(np.interp(second, history.time, history.height))


def test_steam_choked_fills_by_the_exponential_within_two_millimetres(panel):
    """tau = 113e-6 x 2047.3e3 x 4.16 / (0.95 x 135.4) = 7.48 s, by pocket calculator."""
    press(panel, "steam choked")
    start = millimetres(panel, 0)
    assert start == pytest.approx(186.4, abs=0.1)
    for second in (2, 5, 10, 20, 30):
        by_hand = 400 - (400 - start) * np.exp(-second / 7.48)
        assert millimetres(panel, second) == pytest.approx(by_hand, abs=2.0)
    assert panel.result.steam_constant == pytest.approx(7.48, rel=0.005)


def test_water_choked_creeps_and_the_constants_stand_as_the_densities(panel):
    press(panel, "water choked")
    state = panel.result.state
    ratio = panel.result.water_constant / panel.result.steam_constant
    assert ratio == pytest.approx(state.fitting.water_density / state.drum.steam_density)
    first_minute = millimetres(panel, 60) - millimetres(panel, 0)
    assert first_minute == pytest.approx(7.3, abs=0.2)  # (400 - 186.4) / 28.8 min, less a trace
    assert millimetres(panel, 3600) == pytest.approx(400 - 213.6 * np.exp(-60 / 28.8), abs=3.0)


def test_both_choked_stays_whatever_the_drum_does(panel):
    press(panel, "both choked")
    panel.player.frame = 60
    panel.go_on()
    panel.set(level=60)
    assert panel.result.history.height == pytest.approx(0.187, abs=0.002)
    assert "HIGH" in panel._film.words[-1]


@pytest.mark.parametrize("fault, sign", [
    ("steam way choked", 1), ("steam way nearly choked, 0.8 mm hole", 1), ("water way choked", 1),
    ("drain passes, 3 mm\u00b2", -1), ("top joint leaks, 1 mm\u00b2", 1),
    ("bottom gland leaks, 1 mm\u00b2", -1)])
def test_every_fault_reads_its_way(panel, fault, sign):
    panel.set(fault=fault, seconds=120.0)
    wrong = panel.result.history.height[-1] - panel.result.true_height
    assert sign * wrong > 0.001


@pytest.mark.parametrize("stand, glass, blow", [
    ("S open, W open, D shut", 186, "none"), ("S open, W open, D open", 8, "strong wet"),
    ("S open, W shut, D shut", 190, "none"), ("S open, W shut, D open", 0, "strong dry"),
    ("S shut, W open, D shut", 396, "none"), ("S shut, W open, D open", 10, "strong wet"),
    ("S shut, W shut, D shut", 187, "none"), ("S shut, W shut, D open", 0, "none")])
def test_all_eight_positions(panel, stand, glass, blow):
    panel._combination.value = stand
    assert millimetres(panel, 30) == pytest.approx(glass, abs=3)
    last = panel.result.history.blow[-1]
    assert f"{last.strength} {last.nature}".strip() == blow


def test_the_list_of_eight_follows_the_sliders(panel):
    panel.set(steam=0)
    assert panel._combination.value == "S shut, W open, D shut"
    panel.set(steam=40)
    assert panel._combination.value == ""


def test_air_left_after_a_blow_keeps_the_glass_from_filling(panel):
    press(panel, "after a blow: W only")
    assert 0.82 < millimetres(panel, 30) / 400 < 0.88
    press(panel, "level below")
    assert millimetres(panel, 30) < 1


def test_a_short_column_below_the_connection_is_false_and_still(panel):
    panel.set(fault="water pipe rises 60 mm", level=-40)
    still = panel.result.history.height
    assert still[-1] == pytest.approx(0.060, abs=0.003)
    panel.set(level=-70)
    assert panel.result.history.height == pytest.approx(still, abs=0.001)


def test_a_run_goes_on_from_the_picture_at_rest(panel):
    press(panel, "steam choked")
    panel.player.frame = 20
    reached = float(panel.result.history.height[20])
    panel.go_on()
    assert panel.controls["begin"].value == KEPT
    panel.set(fault="none")
    assert panel.result.history.height[0] == pytest.approx(reached, abs=1e-4)
    assert millimetres(panel, 30) == pytest.approx(186.4, abs=0.5)


def test_advice_stands_beside_the_caution(panel):
    for fault in FAULTS:
        panel.set(fault=fault)
        assert panel.advice.value == "" or CAUTION in panel.advice.value
    press(panel, "water choked")
    assert "May hide low water" in panel.advice.value


def test_a_hidden_run_is_its_start_and_the_twin_may_show_the_end(panel):
    panel.truth.value = False
    press(panel, "steam choked")
    assert len(panel._film.times) == 1
    assert "396 mm" in panel.draw(panel.result, panel.look, True).words
    assert len(panel._film.times) == 1, "the twin does not play the panel's film"


def test_readings_belong_to_the_frame_at_rest(panel):
    press(panel, "steam choked")
    panel.player.frame = 20
    panel.readings.record()
    row = list(csv.DictReader(io.StringIO(panel.readings.text())))[-1]
    assert row["time [s]"] == "10.0" and row["fault"] == "steam way choked"
    assert float(row["in the glass [mm]"]) == pytest.approx(millimetres(panel, 10), abs=0.06)


def test_extremes_are_worked_out_or_refused_in_a_sentence(panel):
    for values in ({"pressure": 100, "drain": 100}, {"pressure": 0.5}, {"level": 480, "drain": 100},
                   {"level": -80, "begin": DRAINED}, {"steam": 1, "water": 1, "drain": 1}):
        panel.reset()
        panel.set(**values)
        assert "failed inside" not in panel._problem.value, values
        assert np.isfinite(panel.result.history.height).all()
