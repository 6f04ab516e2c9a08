"""The saturation spline beside iapws itself, at points off its knots, in every column."""

import iapws
import numpy as np
import pytest
from iapws import iapws97

from levelkit.properties import (
    _if97,
    saturation_at_pressure,
    saturation_at_temperature,
    saturation_heat,
    saturation_pressure,
    saturation_slopes,
    saturation_temperature,
)

PROMISED = 1e-6
SEAM = iapws97._PSat_T(623.15)  # MPa: region 3 begins
BELOW = np.exp(np.random.default_rng(1).uniform(np.log(1.0001e-3), np.log(SEAM - 1e-6), 400))
ABOVE = np.random.default_rng(2).uniform(SEAM + 1e-6, 19.9999, 25)
PRESSURES = np.sort(np.concatenate([BELOW, ABOVE]))  # MPa


def reference(pressure):
    """T, rho', rho'', h', h'', s', s'', cp' straight from iapws; region 3 by its public class."""
    if pressure > SEAM:
        water, steam = iapws.IAPWS97(P=pressure, x=0), iapws.IAPWS97(P=pressure, x=1)
        return (water.T, water.rho, steam.rho, water.h, steam.h, water.s, steam.s, water.cp)
    temperature = iapws97._TSat_P(pressure)
    water = iapws97._Region1(temperature, pressure)
    steam = iapws97._Region2(temperature, pressure)
    return (temperature, 1 / water["v"], 1 / steam["v"], water["h"], steam["h"], water["s"],
            steam["s"], water["cp"])


@pytest.fixture(scope="module")
def table():
    return np.array([reference(pressure) for pressure in PRESSURES]).T


def columns(pressure):
    state, heat = saturation_at_pressure(pressure), saturation_heat(pressure)
    return (state.temperature, state.water_density, state.steam_density,
            heat.water_enthalpy / 1e3, heat.steam_enthalpy / 1e3, heat.water_entropy / 1e3,
            heat.steam_entropy / 1e3, heat.water_heat_capacity / 1e3)


NAMES = ("temperature", "water density", "steam density", "water enthalpy", "steam enthalpy",
         "water entropy", "steam entropy", "water heat capacity")


def test_the_points_lie_off_the_knots():
    knots = np.exp(_if97.saturation_splines()[0].x)
    assert np.min(np.abs(PRESSURES[:, None] / knots - 1)) > 1e-7


@pytest.mark.parametrize("column", range(len(NAMES)), ids=NAMES)
def test_column_is_within_the_promise(table, column):
    found = columns(PRESSURES * 1e6)[column]
    assert np.max(np.abs(found / table[column] - 1)) <= PROMISED


def test_a_coarser_spline_would_be_caught(table):
    """The same check refuses straight lines between the knots."""
    spline = _if97.saturation_splines()[0]
    knots = spline.x
    coarse = np.interp(np.log(PRESSURES), knots, spline(knots)[:, 2])
    assert np.max(np.abs(coarse / table[2] - 1)) > PROMISED


def test_latent_heat_is_the_difference_of_the_enthalpies(table):
    found = saturation_heat(PRESSURES * 1e6).latent_heat / 1e3
    assert np.max(np.abs(found / (table[4] - table[3]) - 1)) <= 5 * PROMISED  # a difference


def test_pressure_of_a_temperature_is_within_the_promise(table):
    expected = np.array([iapws97._PSat_T(t) if t <= 623.15 else p
                         for t, p in zip(table[0], PRESSURES, strict=True)])
    assert np.max(np.abs(saturation_pressure(table[0]) / 1e6 / expected - 1)) <= PROMISED


def test_state_of_a_temperature_is_that_of_its_pressure(table):
    state = saturation_at_temperature(table[0])
    assert np.max(np.abs(state.water_density / table[1] - 1)) <= 2 * PROMISED  # two splines
    # Steam density follows the pressure in proportion, so it carries both errors.
    assert np.max(np.abs(state.steam_density / table[2] - 1)) <= 3 * PROMISED


def test_temperature_and_pressure_are_inverse():
    temperature = np.linspace(281.0, 638.0, 500)
    back = saturation_temperature(saturation_pressure(temperature))
    assert np.max(np.abs(back - temperature)) < 1e-4


def test_slopes_agree_with_finite_differences_of_iapws():
    pressure = BELOW[::8]
    step = 1e-4 * pressure
    upper = np.array([reference(p) for p in pressure + step]).T
    lower = np.array([reference(p) for p in pressure - step]).T
    expected = (upper - lower) / (2 * step) / 1e6
    slopes = saturation_slopes(pressure * 1e6)
    for name, column, scale in (("temperature", 0, 1), ("water_density", 1, 1),
                                ("steam_density", 2, 1), ("water_enthalpy", 3, 1e3)):
        error = np.abs(getattr(slopes, name) / (scale * expected[column]) - 1)
        assert np.max(error) < 2e-4, name
    # h'' has a maximum near 30 bar, where a relative error means nothing.
    error = np.abs(slopes.steam_enthalpy - 1e3 * expected[4])
    assert np.max(error / np.abs(1e3 * expected[3])) < 2e-4


@pytest.mark.parametrize("end", [1_000.0, 20_000_000.0])
def test_both_ends_of_the_range_are_usable(end):
    assert saturation_at_pressure(end).pressure == end
    assert saturation_pressure(saturation_temperature(end)) == pytest.approx(end, rel=1e-6)
