"""Uncertainty budgets, by partial derivatives and by the open uncertainties library."""

from math import hypot

import pytest
from hypothesis import given
from hypothesis import strategies as st
from uncertainties import ufloat

from levelkit.errors import InputError
from levelkit.physics.instrument_budgets import glass_budget, transmitter_budget, two_fluid_budget
from levelkit.physics.uncertainty import Measured, agreement_band, uncertainty_budget
from levelkit.properties import (
    compressed_water_density,
    saturation_at_pressure,
    saturation_slopes,
)

G, P = 9.80665, 6.1e6
STEAM = saturation_at_pressure(P)
LEG = compressed_water_density(P, 323.15)
DENSITY = STEAM.water_density - STEAM.steam_density
HALF = G * ((LEG - STEAM.steam_density) * 0.8 - DENSITY * 0.4)


def budget(differential=0.0, weir=0.0, leg=0.0, pressure=0.0):
    return transmitter_budget(Measured(HALF, differential), Measured(0.8, weir),
                              Measured(LEG, leg), Measured(P, pressure), saturation_at_pressure)


@pytest.mark.parametrize("given, millimetres, near", [
    ({"differential": 10.0}, 1.4, 0.05),   # 10 Pa
    ({"leg": 4.8}, 5.3, 0.05),             # 10 K of the leg
    ({"weir": 0.003}, 4.0, 0.05),          # 3 mm of weir height
    ({"pressure": 1e5}, 1.0, 0.5),         # 1 bar: "about 1 mm"
])
def test_single_contributions_of_the_trade(given, millimetres, near):
    found = budget(**given)
    assert found.level == pytest.approx(0.4)
    assert 1e3 * found.uncertainty == pytest.approx(millimetres, abs=near)
    assert found.contributions[0].share == pytest.approx(1.0)


@given(st.floats(0.1, 50.0), st.floats(1e-4, 0.01), st.floats(0.1, 8.0), st.floats(1e3, 2e5))
def test_transmitter_by_partial_derivatives(differential, weir, leg, pressure):
    slopes = saturation_slopes(P)
    effects = {
        "differential pressure": -differential / (G * DENSITY),
        "weir height": weir * (LEG - STEAM.steam_density) / DENSITY,
        "leg density": leg * 0.8 / DENSITY,
        "drum pressure": pressure * (
            -0.4 * slopes.water_density + (0.4 - 0.8) * slopes.steam_density) / DENSITY}
    found = budget(differential, weir, leg, pressure)
    for item in found.contributions:
        assert item.effect == pytest.approx(effects[item.name], rel=2e-3)
    assert found.largest == max(effects, key=lambda name: abs(effects[name]))
    assert found.uncertainty == pytest.approx(hypot(*effects.values()), rel=2e-3)
    assert sum(item.share for item in found.contributions) == pytest.approx(1.0)


def test_two_fluid_by_the_uncertainties_library():
    inputs = (0.6273, 0.002), (0.5, 0.003), (992.2, 4.8), (1400.0, 8.0)
    difference, weir, leg, fluid = (ufloat(*item) for item in inputs)
    steam = saturation_at_pressure(4.6e6)
    level = ((leg - steam.steam_density) * weir - (fluid - leg) * difference) / (
        steam.water_density - steam.steam_density)
    found = two_fluid_budget(*(Measured(*item) for item in inputs), Measured(4.6e6),
                             saturation_at_pressure)
    assert found.level == pytest.approx(level.nominal_value)
    assert found.uncertainty == pytest.approx(level.std_dev, rel=1e-3)


def test_glass_of_the_trade():
    """2 mm of reading and 20 K of mean temperature at 260 mm: the guess costs about 6 mm."""
    spread = 0.5 * (compressed_water_density(P, 393.15) - compressed_water_density(P, 433.15))
    found = glass_budget(Measured(0.26, 0.0), Measured(929.2, spread), 756.1, 31.4)
    assert 1e3 * found.uncertainty == pytest.approx(6.0, abs=0.5)
    height, glass = ufloat(0.26, 0.002), ufloat(929.2, spread)
    level = height * (glass - 31.4) / (756.1 - 31.4)
    both = glass_budget(Measured(0.26, 0.002), Measured(929.2, spread), 756.1, 31.4)
    assert both.uncertainty == pytest.approx(level.std_dev, rel=1e-3)
    assert both.largest == "glass water density"


def test_agreement_of_20_to_30_millimetres_covers_two_remote_instruments():
    one = budget(10.0, 0.003, 4.8, 1e5).uncertainty
    assert 0.008 < agreement_band(one, 0.0066) < 0.025  # one coverage; twice that: 20 mm


def test_nothing_uncertain_names_nothing():
    found = uncertainty_budget(lambda a: a, {"a": Measured(0.5)})
    assert found.uncertainty == 0.0 and found.largest == ""


@pytest.mark.parametrize("call, message", [
    (lambda: uncertainty_budget(lambda a: a, {"a": Measured(0.5, -0.1)}),
     r"uncertainty of the a is -0\.1"),
    (lambda: agreement_band(0.01), "1 uncertainty is given; at least 2"),
    (lambda: agreement_band(0.01, 10.0), r"uncertainty is 10 m"),
])
def test_impossible_budget_is_refused(call, message):
    with pytest.raises(InputError, match=message):
        call()
