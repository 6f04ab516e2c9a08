"""Beside CoolProp: its IF97 backend (same formulation, another program) and IAPWS-95.

IF97 is a fit to IAPWS-95. On the saturation line the two differ by up to 2e-4 in density
below 100 bar and somewhat more above; the wider tolerances here come from that, not from us.
"""

import CoolProp.CoolProp as reference
import numpy as np
import pytest

from levelkit.properties import (
    compressed_water_density,
    compressed_water_enthalpy,
    saturation_at_pressure,
    saturation_heat,
    steam_density,
)

LINE = np.geomspace(1_000.0, 16_400_000.0, 120)  # below region 3
MARINE = LINE[LINE <= 10_000_000.0]


def coolprop(quantity, first, a, second, b, fluid="Water"):
    return np.array(reference.PropsSI(quantity, first, a, second, b, fluid))


COLUMNS = {
    "temperature": ("T", 0, lambda s, h: s.temperature),
    "water density": ("Dmass", 0, lambda s, h: s.water_density),
    "steam density": ("Dmass", 1, lambda s, h: s.steam_density),
    "water enthalpy": ("Hmass", 0, lambda s, h: h.water_enthalpy),
    "steam enthalpy": ("Hmass", 1, lambda s, h: h.steam_enthalpy),
    "water entropy": ("Smass", 0, lambda s, h: h.water_entropy),
    "steam entropy": ("Smass", 1, lambda s, h: h.steam_entropy),
    "heat capacity": ("Cpmass", 0, lambda s, h: h.water_heat_capacity),
}


@pytest.mark.parametrize("name", COLUMNS)
def test_saturation_line_with_the_same_formulation(name):
    quantity, quality, ours = COLUMNS[name]
    found = ours(saturation_at_pressure(LINE), saturation_heat(LINE))
    expected = coolprop(quantity, "P", LINE, "Q", np.full_like(LINE, quality), "IF97::Water")
    assert np.max(np.abs(found / expected - 1)) <= 1e-6


@pytest.mark.parametrize("name, marine, whole", [
    ("temperature", 5e-5, 5e-5),
    ("water density", 3e-4, 4e-4),
    ("steam density", 3e-4, 4e-4),
    ("steam enthalpy", 3e-4, 4e-4),
])
def test_saturation_line_with_the_other_formulation(name, marine, whole):
    quantity, quality, ours = COLUMNS[name]
    for line, tolerance in ((MARINE, marine), (LINE, whole)):
        found = ours(saturation_at_pressure(line), saturation_heat(line))
        expected = coolprop(quantity, "P", line, "Q", np.full_like(line, quality))
        assert np.max(np.abs(found / expected - 1)) <= tolerance


def test_water_enthalpy_on_the_saturation_line():
    # Both formulations set u = 0 at the triple point: an absolute difference, of the latent heat.
    expected = coolprop("Hmass", "P", LINE, "Q", np.zeros_like(LINE))
    assert np.max(np.abs(saturation_heat(LINE).water_enthalpy - expected)) <= 300.0  # J/kg


def water_states():
    pressure, temperature = (grid.ravel() for grid in np.meshgrid(
        [1e5, 8e5, 17e5, 61e5, 101e5, 200e5], np.linspace(274.15, 620.0, 40)))
    boils = coolprop("T", "P", pressure, "Q", np.zeros_like(pressure))
    return pressure[temperature < boils - 0.1], temperature[temperature < boils - 0.1]


def test_compressed_water():
    pressure, temperature = water_states()
    assert len(pressure) > 100
    density = coolprop("Dmass", "P", pressure, "T", temperature, "IF97::Water")
    assert np.max(np.abs(compressed_water_density(pressure, temperature) / density - 1)) <= 1e-8
    density = coolprop("Dmass", "P", pressure, "T", temperature)
    assert np.max(np.abs(compressed_water_density(pressure, temperature) / density - 1)) <= 2e-4
    enthalpy = coolprop("Hmass", "P", pressure, "T", temperature)
    assert np.max(np.abs(compressed_water_enthalpy(pressure, temperature) - enthalpy)) <= 400.0


def test_superheated_steam():
    pressure, temperature = (grid.ravel() for grid in np.meshgrid(
        [1e3, 1e5, 8e5, 61e5, 101e5], np.linspace(600.0, 1000.0, 20)))
    expected = coolprop("Dmass", "P", pressure, "T", temperature, "IF97::Water")
    assert np.max(np.abs(steam_density(pressure, temperature) / expected - 1)) <= 1e-8
    expected = coolprop("Dmass", "P", pressure, "T", temperature)
    assert np.max(np.abs(steam_density(pressure, temperature) / expected - 1)) <= 5e-4
