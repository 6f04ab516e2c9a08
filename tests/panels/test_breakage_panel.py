"""The breakage panel without a browser: flows, ball, time in sight, order of shutting."""

import csv
import io
import logging

import pytest
from handling import press

from levelkit.constants import CAUTION
from levelkit.lesson import breakage_panel, ship
from levelkit.panels.breakage_panel import BreakagePanel
from levelkit.scene.breakage import FREE, STUCK


@pytest.fixture()
def panel(caplog):
    made = breakage_panel()
    yield made
    assert not [r for r in caplog.records if r.name in ("traitlets", "levelkit")
                and r.levelno >= logging.ERROR]


@pytest.mark.parametrize("gauge_bar, water, steam", [(7, 0.61, 0.13), (16, 1.09, 0.27),
                                                     (60, 2.73, 0.98)])
def test_break_flows_of_a_12_mm_bore(panel, gauge_bar, water, steam):
    """A lecturer's table for 8, 17 and 61 bar absolute, homogeneous equilibrium."""
    panel.set(pressure=gauge_bar)
    assert panel.result.broken.water_flow == pytest.approx(water, rel=0.05)
    assert panel.result.broken.steam_flow == pytest.approx(steam, rel=0.05)


def test_flow_grows_with_the_square_of_the_bore(panel):
    panel.set(bore=5)
    small = panel.result.broken
    panel.set(bore=10)
    assert panel.result.broken.water_flow == pytest.approx(4 * small.water_flow)


def test_the_ball_rises_for_a_break_and_not_for_a_crack_or_through_scale(panel):
    """Lift at 897 kg/m3, 12.7 mm steel ball, 16 mm passage: 0.304 kg/s by pocket calculator."""
    assert panel.result.lift_flow == pytest.approx(0.304, abs=0.002)
    for bore, ball, seated in ((12, FREE, True), (2, FREE, False), (12, STUCK, False)):
        panel.set(bore=bore, ball=ball)
        assert panel.result.seated is seated
    assert "never relied on" in panel.drawing.words


def test_a_seated_ball_leaves_the_steam_end_and_lengthens_the_time(panel):
    stuck = panel.result.time_in_sight
    press(panel, "ball free")
    assert panel.result.loss == panel.result.broken.steam_flow
    assert panel.result.time_in_sight > 4 * stuck
    panel.set(feed=3)
    assert "while fed" in panel.drawing.svg
    panel.set(level=0)
    assert panel.result.time_in_sight in (0.0, float("inf"))


def test_water_first_always_loses_less(panel):
    for gauge_bar in (1, 7, 60, 100):
        panel.set(pressure=gauge_bar, seconds=30)
        broken = panel.result.broken
        saved = panel.result.steam_first - panel.result.water_first
        assert saved == pytest.approx(30 * (broken.water_flow - broken.steam_flow)) and saved > 0


def test_a_warmer_glass_is_shocked_less(panel):
    shocks = []
    for celsius in (20, 90, 150):
        panel.set(cold=celsius)
        shocks.append(abs(panel.result.shock))
    assert shocks == sorted(shocks, reverse=True)
    assert shocks[0] / 1e6 == pytest.approx(64e3 * 3.3e-6 * 150.4 / 0.8, rel=0.01)


def test_the_caution_and_every_preset(panel):
    grid = panel.children[2]
    assert any(CAUTION in getattr(child, "value", "") for child in grid.children)
    for label in panel.presets:
        press(panel, label)
        assert panel._problem.value == ""


@pytest.mark.parametrize("name", ship.boilers)
def test_every_boiler_can_break_its_glass(name):
    made = BreakagePanel(ship.boilers[name], ship.barometer)
    assert made._problem.value == "" and made.result.broken.flow_ratio > 2


def test_it_says_in_both_sizes_that_the_flow_is_a_lower_bound(panel):
    note = panel.children[2].children[-1].value
    assert "homogeneous equilibrium are a lower bound" in note and CAUTION in note
    for projector in (False, True):
        panel.projector.value = projector
        assert "Water end \u2265" in panel.drawing.svg


def test_readings_have_units(panel):
    panel.readings.record()
    row = next(csv.DictReader(io.StringIO(panel.readings.text())))
    assert row["water end [kg/s]"].startswith("0.61") and row["bore [mm]"] == "12.0"
