"""The water panel without a browser: one redraw, honest numbers, sentences for mistakes."""

import csv
import io
import re

import pytest
from handling import nothing_swallowed, press, redraws, type_in

from levelkit.check.values import check_values
from levelkit.lesson import water_panel
from levelkit.panels.water_panel import BORE
from levelkit.physics.columns import Column, column_head
from levelkit.physics.equal_masses import mass_column_height
from levelkit.properties import saturation_at_pressure, saturation_heat


@pytest.fixture()
def panel(caplog):
    """A panel; an exception swallowed by a callback fails the test."""
    with nothing_swallowed(caplog):
        yield water_panel()


@pytest.mark.parametrize("pressure", [0, 16, 60, 100])
def test_a_preset_redraws_once_and_reset_returns(panel, pressure):
    start = panel._picture.value
    panel.controls["slip"].value = True
    seen = redraws(panel)
    press(panel, f"{pressure} bar g")  # the slip stays, so that pressures can be compared
    assert len(seen) == 1 and panel._problem.value == "" and panel.controls["slip"].value
    press(panel, "Reset")
    assert len(seen) == 2
    assert re.sub(r"lk\d+-", "", panel._picture.value) == re.sub(r"lk\d+-", "", start)


def test_the_result_is_that_of_the_property_functions(panel):
    panel.set(pressure=45.5, barometer=987.5)
    pressure = 45.5e5 + 98_750.0
    state, heat = saturation_at_pressure(pressure), saturation_heat(pressure)
    right = panel.result.right
    assert right.pressure == pytest.approx(pressure, rel=1e-12)
    assert (right.temperature, right.water_density, right.steam_density, right.latent_heat) == (
        pytest.approx((state.temperature, state.water_density, state.steam_density,
                       heat.latent_heat), rel=1e-12))
    assert panel.result.slip.water_density == saturation_at_pressure(45.5e5).water_density
    assert f"{state.water_density:.1f}" in panel._picture.value


def test_twenty_bar_absolute_against_the_reference_library(panel):
    """19 bar gauge, barometer 1000 mbar; rows of the check values, [IF97-REFERENCE-LIBRARY]."""
    rows = check_values()
    panel.set(pressure=19, barometer=1000)
    right = panel.result.right
    assert 1 / right.water_density == pytest.approx(rows["SAT-20bar-v'"].expected, rel=1e-6)
    assert 1 / right.steam_density == pytest.approx(rows['SAT-20bar-v"'].expected, rel=1e-6)
    assert right.temperature - 273.15 == pytest.approx(rows["SAT-20bar-t_s"].expected,
                                                       abs=1e-4)
    assert right.latent_heat / 1e3 == pytest.approx(
        rows['SAT-20bar-h"'].expected - rows["SAT-20bar-h'"].expected, abs=1.2e-3)


def test_the_slip_makes_both_wrong_the_same_way_and_least_at_high_pressure(panel):
    steam = []
    for pressure in (1, 7, 16, 60, 100):
        panel.set(pressure=pressure)
        water, gas = panel.result.slip.errors(panel.result.right)
        assert water > 0 > gas  # the slip makes water too heavy and steam too light
        steam.append(gas)
    assert steam == sorted(steam)


def test_at_no_gauge_pressure_the_slip_has_no_line(panel):
    panel.set(pressure=0, slip=True)
    assert panel.result.slip is None and panel._problem.value == ""
    assert "no such line" in panel.drawing.words


def test_equal_masses_press_equally_on_the_foot(panel):
    """One kilogram on the area of the tube presses m g / A, whatever it is."""
    area = 3.141592653589793 / 4 * BORE ** 2
    for density in (998.2, panel.result.right.water_density, panel.result.right.steam_density):
        height = mass_column_height(1.0, density, area)
        assert column_head([Column(density, 0.0, height)]) == pytest.approx(9.80665 / area)


def test_a_typed_comma_is_taken(panel):
    type_in(panel.controls["pressure"], "0,25")
    assert panel.result.right.pressure == pytest.approx(126_325.0)


def test_a_typed_number_outside_the_range_is_refused_in_a_sentence(panel):
    seen = redraws(panel)
    type_in(panel.controls["pressure"], "165")
    assert "outside 0.0 to 100.0 bar g" in panel.controls["pressure"].message and seen == []


def test_readings_carry_units_and_the_shown_numbers(panel, tmp_path):
    for pressure in (0, 60):
        panel.set(pressure=pressure)
        panel.readings.record()
    rows = list(csv.DictReader(io.StringIO(panel.readings.save(tmp_path).read_text("utf-8"))))
    assert [row["water [kg/m3]"] for row in rows] == ["958.4", "756.1"]
    assert [row["slip: steam [kg/m3]"] for row in rows] == ["none", "30.82"]
    assert all("[" in head for head in rows[0])
