"""The circulating glass beside an independent solution with adaptive quadrature."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.integrate import quad
from scipy.optimize import brentq

from levelkit.errors import InputError
from levelkit.physics.circulation import (
    CirculationState,
    circulating_glass,
    glass_temperature,
)
from levelkit.physics.glass import glass_column_height
from levelkit.properties import (
    compressed_water_density,
    saturation_at_pressure,
    saturation_heat,
)
from levelkit.units import kelvin


def glass(pressure=6.1e6, level=0.25, air=40.0, top=0.5, extra=0.1, ratio=1.0):
    """State and water density of a glass at an absolute pressure."""
    line, heat = saturation_at_pressure(pressure), saturation_heat(pressure)
    state = CirculationState(level, line.water_density, line.steam_density, line.temperature,
                             kelvin(air), heat.latent_heat, heat.water_heat_capacity, top, extra,
                             ratio)
    return state, lambda temperature: compressed_water_density(pressure, temperature)


def shown_mm(**changes):
    return 1000 * circulating_glass(*glass(**changes)).indicated_level


def by_adaptive_quadrature(state, density):
    """The same balance in depth below the surface, by scipy.integrate.quad and a plain root."""
    excess = state.saturation_temperature - state.ambient_temperature

    def decay(height):
        condensing = state.steam_connection - height + state.extra_condensing_length
        return condensing * state.heat_capacity * excess / (
            state.latent_heat * state.wet_to_dry_heat_loss)

    def surplus(height):
        weight, _ = quad(lambda depth: float(density(
            state.ambient_temperature + excess * np.exp(-depth / decay(height))))
            - state.steam_density, 0.0, height, epsabs=1e-9, epsrel=1e-11)
        return weight - (state.drum_water_density - state.steam_density) * state.level

    return brentq(surplus, 1e-6, state.steam_connection - 1e-6, xtol=1e-10)


@pytest.mark.parametrize("changes", [
    {}, {"pressure": 4e5}, {"pressure": 1.01e7}, {"level": 0.05}, {"level": 0.4},
    {"ratio": 2.0}, {"ratio": 0.5}, {"air": 10.0}, {"extra": 0.0}, {"top": 1.0},
], ids=str)
def test_root_and_quadrature_agree_with_scipy(changes):
    state, density = glass(**changes)
    found = circulating_glass(state, density).indicated_level
    assert 1000 * found == pytest.approx(1000 * by_adaptive_quadrature(state, density), abs=1e-3)


@pytest.mark.parametrize("changes, printed", [
    # Worked out by script outside levelkit: 60 bar gauge, level 250 mm, L 0.5 m, L_e 0.1 m.
    ({}, 220.1), ({"air": 10.0}, 219.6), ({"air": 55.0}, 220.3),
    ({"ratio": 0.5}, 229.7), ({"ratio": 2.0}, 209.8),
], ids=["air 40 C", "air 10 C", "air 55 C", "wet part lagged", "wet part bare"])
def test_printed_reading(changes, printed):
    assert shown_mm(**changes) == pytest.approx(printed, abs=0.2)


def test_circulating_and_uniform_glass_beside_each_other():
    # 60 bar gauge, true level 250 mm: 194.9 mm with the glass all at 100 C, 220.1 mm circulating.
    line = saturation_at_pressure(6.1e6)
    uniform = glass_column_height(0.25, line.water_density, line.steam_density,
                                  compressed_water_density(6.1e6, kelvin(100.0)))
    assert 1000 * uniform == pytest.approx(194.9, abs=0.05)
    assert shown_mm() == pytest.approx(220.1, abs=0.2)


def test_the_result_closes_the_balance_of_columns():
    state, density = glass()
    result = circulating_glass(state, density)
    by_mean = glass_column_height(state.level, state.drum_water_density, state.steam_density,
                                  result.mean_density)
    assert by_mean == pytest.approx(result.indicated_level, rel=1e-7)
    assert result.error == result.indicated_level - state.level < 0
    assert state.ambient_temperature < result.mean_temperature < state.saturation_temperature


def test_it_reads_low_and_the_error_grows_faster_than_the_level():
    shown = np.array([shown_mm(level=level) for level in (0.1, 0.2, 0.3, 0.4)])
    share = 1 - shown / np.array([100, 200, 300, 400])
    assert np.all(share > 0) and np.all(np.diff(share) > 0)


def test_limits():
    assert circulating_glass(*glass(level=0.0)).indicated_level == 0.0
    # A great condensing length keeps the glass at saturation: no error is left.
    assert shown_mm(extra=5.0, ratio=0.01) == pytest.approx(250.0, abs=0.1)
    # Circulation without effect: all the glass at the temperature of the air.
    line = saturation_at_pressure(6.1e6)
    cold = glass_column_height(0.25, line.water_density, line.steam_density,
                               compressed_water_density(6.1e6, kelvin(40.0)))
    assert shown_mm(ratio=100.0) == pytest.approx(1000 * cold, abs=3.0)


@settings(max_examples=40, deadline=None)
@given(st.floats(2e5, 1.2e7), st.floats(0.02, 0.4), st.floats(0.0, 55.0), st.floats(0.2, 5.0))
def test_reading_lies_between_a_hot_and_a_cold_glass(pressure, level, air, ratio):
    state, density = glass(pressure, level, air, ratio=ratio)
    height = circulating_glass(state, density).indicated_level
    cold = glass_column_height(level, state.drum_water_density, state.steam_density,
                               float(density(kelvin(air))))
    assert cold <= height <= level


def test_temperature_falls_to_a_third_over_the_decay_length():
    # e^-1 = 0.3679: hand calculation, 40 + 200 x 0.3679 = 113.6 C.
    found = glass_temperature(np.array([0.0, 0.2, 5.0]), kelvin(240.0), kelvin(40.0), 0.2)
    assert found - 273.15 == pytest.approx([240.0, 113.58, 40.0], abs=0.01)


def test_the_profile_is_that_of_a_slow_stream_in_a_cool_pipe():
    """HT-exp-cooling: 0.5 g/s of 4400 J/(kg K), 10 W/(m2 K) on a perimeter of 62.8 mm, 1 m on."""
    decay = 0.0005 * 4400.0 / (10.0 * 0.0628)
    found = glass_temperature(1.0, kelvin(180.0), kelvin(40.0), decay)
    assert found - 273.15 == pytest.approx(145.232, abs=0.01)


def test_what_cannot_circulate_is_refused_with_a_sentence():
    with pytest.raises(InputError, match="drum level is 0.6 m; the allowed range is 0 to 0.5 m"):
        circulating_glass(*glass(level=0.6))
    with pytest.raises(InputError, match="excess of steam over air temperature.*hotter"):
        circulating_glass(*glass(pressure=1e5, air=100.0))
    with pytest.raises(InputError, match="ratio of wet to dry heat loss is 0"):
        circulating_glass(*glass(ratio=0.0))
