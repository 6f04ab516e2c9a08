"""The sweep panel without a browser: the curve is the physics', the point lies on the curve."""

import re
from itertools import product

import numpy as np
import pytest
from handling import nothing_swallowed, press, redraws
from overlaps import off_the_sheet, overlapping

from levelkit.lesson import sweep_panel
from levelkit.panels.remote_setting import FELL, HOT_TOP, UNIFORM
from levelkit.panels.sweep_panel import COLD
from levelkit.physics.differential import indicated_level, right_level
from levelkit.properties import compressed_water_density, steaming_drum_fluids
from levelkit.scene.look import LOOKS, PROJECTOR, SCREEN
from levelkit.scene.sweep import HEIGHT
from levelkit.units import absolute_pressure, kelvin


@pytest.fixture()
def panel(caplog):
    """A panel; an exception swallowed by a callback fails the test."""
    with nothing_swallowed(caplog):
        yield sweep_panel("water_tube")


def densities(gauge_bar, leg_celsius):
    fluids = steaming_drum_fluids(absolute_pressure(gauge_bar, 101_325.0))
    return (fluids.water_density, fluids.steam_density,
            compressed_water_density(fluids.pressure, kelvin(leg_celsius)))


def test_the_curve_is_the_balance_with_other_densities_and_the_point_lies_on_it(panel):
    panel.set(pressure=20, leg_temperature=80, level=260)
    result = panel.result
    expected = indicated_level(result.levels, 0.5, *densities(20, 80), *densities(60, 50))
    inside = (expected > -0.00625) & (expected < 0.5156)
    assert result.indicated[inside] == pytest.approx(expected[inside], abs=1e-9)
    on_curve = np.interp(0.260, result.levels, result.indicated)
    assert result.reading.indicated_level == pytest.approx(on_curve, abs=1e-4)


def test_the_level_of_no_error_is_where_curve_and_diagonal_cross(panel):
    """By another route: the root of the error, worked out from the densities alone."""
    panel.set(pressure=5, leg_temperature=35)
    at = panel.result.right_at
    assert at == pytest.approx(right_level(0.5, *densities(5, 35), *densities(60, 50)), abs=1e-9)
    crossing = np.interp(at, panel.result.levels, panel.result.indicated)
    assert crossing == pytest.approx(at, abs=1e-4)
    panel.set(level=round(1000 * at))
    assert abs(panel.result.reading.error) < 2e-4


@pytest.mark.parametrize("values, row", [
    ({}, ("Right at", "every level")), ({"loss": 40}, ("Right at", "no level")),
    ({"pressure": 0, "leg_temperature": 20, "loss": 10}, ("Right only at", " mm"))])
def test_where_it_is_right_is_told_for_a_leg_that_lost_water_too(panel, values, row):
    panel.set(**values)
    name, value = panel._rows(panel.result, SCREEN, True)[6]
    assert name == row[0] and value.endswith(row[1])
    at = panel.result.right_at
    if at is not None:
        crossing = np.interp(at, panel.result.levels, panel.result.indicated)
        assert crossing == pytest.approx(at, abs=1e-9)


def test_cold_at_half_level_shows_nearly_fourteen_per_cent_too_much(panel):
    """63.6 % by hand: 997.0 x (H - h) against (959.2 H - ...)/724.7, all at 20 degC."""
    panel.set(state=COLD, level=250)
    assert 100 * panel.result.reading.shown_fraction == pytest.approx(63.6, abs=0.05)
    assert panel.controls["pressure"].disabled and panel.controls["profile"].disabled


def test_a_compensated_level_is_known_to_some_millimetres_by_the_partial_derivatives(panel):
    """Root of the sum of squares of 10 Pa, 3 mm of weir, 10 K of leg and 1 bar, by hand."""
    panel.set(compensated=True, level=250)
    water, steam, leg = densities(60, 50)
    by_leg = 10 * (densities(60, 49.5)[2] - densities(60, 50.5)[2])
    above, below = densities(61, 50), densities(59, 50)
    differential = 9.80665 * ((leg - steam) * 0.5 - (water - steam) * 0.25)

    def level(water, steam):
        return ((leg - steam) * 0.5 - differential / 9.80665) / (water - steam)

    effects = (10.0 / 9.80665 / (water - steam), 0.003 * (leg - steam) / (water - steam),
               by_leg * 0.5 / (water - steam), (level(*above[:2]) - level(*below[:2])) / 2)
    budget = panel.result.budget
    assert budget.uncertainty == pytest.approx(sum(e ** 2 for e in effects) ** 0.5, rel=3e-3)
    assert budget.largest == "weir height" and 0.004 < budget.uncertainty < 0.008
    assert "Known to \u00b1 5." in " ".join(box.text for box in panel.drawing.text_boxes)
    panel.set(loss=30)
    assert panel.result.budget is None


@pytest.mark.parametrize("pressure, leg", [(60, 5), (5, 158)])
def test_a_leg_at_the_end_of_its_range_has_a_budget_too(panel, pressure, leg):
    """10 K colder than 5 degC is ice, 10 K hotter than 158 degC boils: neither is tried."""
    panel.set(compensated=True, pressure=pressure, leg_temperature=leg)
    assert panel._problem.value == "" and 0.002 < panel.result.budget.uncertainty < 0.02


def test_a_hot_top_weighs_less_than_a_leg_at_the_temperature_of_the_air(panel):
    panel.set(leg_temperature=45)
    cool = panel.result.reading.error
    panel.set(profile=HOT_TOP)
    assert panel.result.reading.error > cool + 0.015
    assert panel.result.leg.mean_temperature > kelvin(80)


def test_a_fast_fall_boils_the_hot_top_away_and_a_slow_one_does_not(panel):
    panel.set(pressure=3, profile=HOT_TOP, leg_temperature=45, level=150)
    slow = panel.result
    panel.set(profile=FELL)
    fast = panel.result
    assert slow.state.legs.reference_loss == 0.0 and fast.leg.flashed > 0.05
    assert fast.reading.error > slow.reading.error + 0.05
    panel.set(pressure=60)
    assert panel.result.leg.flashed == 0.0
    panel.set(profile=UNIFORM)
    assert panel.result.leg.density == pytest.approx(densities(60, 45)[2])


@pytest.mark.parametrize("boiler", ["auxiliary", "composite", "water_tube"])
def test_every_preset_can_be_worked_out_and_reset_returns(boiler):
    panel = sweep_panel(boiler)
    start = panel._picture.value
    for label in panel.presets:
        seen = redraws(panel)
        press(panel, label)
        assert len(seen) <= 1 and panel._problem.value == "", label
    press(panel, "Reset")
    assert re.sub(r"lk\d+-", "", panel._picture.value) == re.sub(r"lk\d+-", "", start)


def test_a_hidden_truth_leaves_neither_curve_nor_number(panel):
    panel.set(level=213, pressure=20)
    assert "<polyline" in panel.drawing.svg
    panel.truth.value = False
    assert "<polyline" not in panel.drawing.svg
    assert "213" not in panel.drawing.words and "hidden" in panel.drawing.words
    error = f"{1000 * abs(panel.result.reading.error):.1f} mm"
    assert error not in panel.drawing.svg


@pytest.mark.parametrize("look", LOOKS.values(), ids=LOOKS)
def test_lettering_neither_collides_nor_leaves_the_sheet(look):
    panel = sweep_panel("auxiliary")
    for pressure, level, loss, truth in product((0, 7, 60), range(0, 401, 40), (0, 5, 60),
                                                (True, False)):
        result = panel.evaluate(panel._start | {"pressure": pressure, "level": level,
                                                "loss": loss})
        drawing = panel.draw(result, look, truth)
        where = f"{pressure} bar, {level} mm, {loss} mm lost, truth {truth}"
        assert overlapping(drawing) == [], where
        assert off_the_sheet(drawing, look.width, HEIGHT) == [], where


def test_projector_letters_are_larger(panel):
    sizes = {}
    for look in (SCREEN, PROJECTOR):
        svg = panel.draw(panel.result, look, True).svg
        sizes[look.name] = max(float(x) for x in re.findall(r'font-size[=:]"? ?([\d.]+)', svg))
    assert sizes["projector"] > 1.3 * sizes["screen"]
