"""How warm the reference leg is: profile, mean, flashing, and what the instrument makes of it."""

from dataclasses import replace
from math import exp, pi

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from remote_states import transmitter

from levelkit.errors import InputError
from levelkit.physics.heat_loss import stem_decay_rate
from levelkit.physics.reference_leg import (
    flash_drum_pressure,
    flashing_length,
    leg_temperature,
    mean_leg_density,
    mean_leg_temperature,
)
from levelkit.physics.transmitter import transmitter_reading
from levelkit.properties import (
    compressed_water_density,
    saturation_pressure,
    saturation_temperature,
)

PRESSURE, AIR = 6.1e6, 318.15
DECAY = 0.114  # of a bare 21 mm steel pipe


def water(temperature):
    return compressed_water_density(PRESSURE, temperature)


@given(st.floats(0.1, 3.0), st.floats(0.02, 5.0))
def test_mean_is_the_mean_of_the_profile(length, decay):
    distances = (np.arange(2000) + 0.5) * length / 2000
    profile = leg_temperature(distances, 549.8, AIR, decay)
    assert mean_leg_temperature(length, 549.8, AIR, decay) == pytest.approx(
        profile.mean(), abs=0.01)


def test_mean_density_is_that_of_many_short_pieces():
    distances = (np.arange(4000) + 0.5) * 0.8 / 4000
    pieces = water(leg_temperature(distances, 549.8, AIR, DECAY))
    assert mean_leg_density(0.8, 549.8, AIR, DECAY, water) == pytest.approx(
        pieces.mean(), abs=1e-3)


def test_a_long_decay_makes_the_leg_hot_and_a_short_one_leaves_it_at_ambient():
    assert mean_leg_density(0.8, 400.0, AIR, 1e3, water) == pytest.approx(water(400.0), abs=0.1)
    assert mean_leg_density(0.8, 549.8, AIR, 1e-3, water) == pytest.approx(water(AIR), abs=0.5)


def test_leg_of_the_trade_is_78_degrees_on_average_and_reads_26_mm_high():
    """H 0.8 m at 60 bar gauge in air of 45 degC, "a 21 mm pipe: 1/m about 0.11 m"."""
    outer, wall = 0.0213, 0.00265
    rate = stem_decay_rate(9.0, pi * outer, 50.0, pi * (outer - wall) * wall)
    assert 1.0 / rate == pytest.approx(0.11, abs=0.005)
    chamber = saturation_temperature(PRESSURE)
    mean = mean_leg_temperature(0.8, chamber, AIR, 1.0 / rate)
    assert mean - 273.15 == pytest.approx(78.0, abs=0.5)
    state = transmitter(0.4, leg=AIR)
    warm = mean_leg_density(0.8, chamber, AIR, 1.0 / rate, water)
    result = transmitter_reading(replace(state, legs=replace(state.legs, reference_density=warm)))
    assert 1e3 * result.error == pytest.approx(26.0, abs=1.0)


@pytest.mark.parametrize("conductivity, watts", [(398.0, 8.3), (14.0, 1.6)],
                         ids=["HT-fund-3.9-copper-q", "HT-fund-3.9-stainless-q"])
def test_the_profile_carries_the_heat_of_a_published_long_stem(conductivity, watts):
    """5 mm rod, base 100 degC, air 25 degC, 100 W/(m2 K): heat in at the base from the slope."""
    diameter, step = 0.005, 1e-5
    section = pi * diameter**2 / 4
    decay = 1.0 / stem_decay_rate(100.0, pi * diameter, conductivity, section)
    base, near = (leg_temperature(x, 373.15, 298.15, decay) for x in (0.0, step))
    assert conductivity * section * (base - near) / step == pytest.approx(watts, abs=0.05)


@given(st.floats(1.5e5, 5.9e6), st.floats(0.05, 0.5), st.floats(300.0, 330.0))
def test_flashing_ends_where_the_leg_just_does_not_boil(pressure, decay, air):
    hot = saturation_temperature(PRESSURE)
    lost = flashing_length(pressure, 0.8, hot, air, decay, 970.0, saturation_temperature)
    assert 0.0 < lost <= 0.8
    if lost < 0.8:
        there = leg_temperature(lost, hot, air, decay)
        boils_at = flash_drum_pressure(saturation_pressure(there), lost, 970.0)
        assert boils_at == pytest.approx(pressure, rel=1e-5)


def test_flashing_grows_with_the_fall_of_pressure_and_needs_a_fall():
    hot = saturation_temperature(PRESSURE)
    lengths = [flashing_length(p, 0.8, hot, AIR, DECAY, 970.0, saturation_temperature)
               for p in (7e6, 4e6, 1e6, 4e5)]
    assert lengths[0] == 0.0 and lengths == sorted(lengths)
    assert flashing_length(1e5, 0.2, hot, 400.0, 10.0, 970.0, saturation_temperature) == 0.2


def test_cold_leg_does_not_flash():
    assert flashing_length(2e5, 0.8, 330.0, 320.0, DECAY, 970.0, saturation_temperature) == 0.0


@pytest.mark.parametrize("call, message", [
    (lambda: mean_leg_temperature(0.0, 500.0, 300.0, 0.1), r"length of the leg is 0 m"),
    (lambda: leg_temperature(-0.1, 500.0, 300.0, 0.1), r"-0\.1 m"),
    (lambda: flash_drum_pressure(4.76), r"saturation pressure of the leg is 4\.76 Pa"),
    (lambda: flashing_length(1e5, 0.8, 300.0, 400.0, 0.1, 990.0, saturation_temperature),
     r"chamber is at 300 K and the air at 400 K"),
])
def test_impossible_leg_is_refused(call, message):
    with pytest.raises(InputError, match=message):
        call()


def test_decay_is_exponential_as_along_a_stem():
    excess = leg_temperature(0.25, 549.8, AIR, 0.1) - AIR
    assert excess / (549.8 - AIR) == pytest.approx(exp(-2.5))


def test_a_chamber_as_cold_as_the_air_has_no_excess_to_lose():
    assert flashing_length(1e5, 0.5, 300.0, 300.0, 0.2, 990.0, saturation_temperature) == 0.0
