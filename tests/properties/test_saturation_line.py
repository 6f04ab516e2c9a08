"""The whole saturation line in one object is the same line as in its parts."""

import numpy as np
import pytest

from levelkit.errors import InputError
from levelkit.properties import (
    saturation_at_pressure,
    saturation_heat,
    saturation_line,
    saturation_slopes,
)


@pytest.mark.parametrize("pressure", [8e5, np.geomspace(2e3, 190e5, 50)])
def test_one_object_holds_state_heat_and_slopes(pressure):
    line = saturation_line(pressure)
    state, heat = saturation_at_pressure(pressure), saturation_heat(pressure)
    slopes = saturation_slopes(pressure)
    for name in ("temperature", "water_density", "steam_density", "water_enthalpy",
                 "steam_enthalpy"):
        source = state if hasattr(state, name) else heat
        assert np.array_equal(getattr(line, name), getattr(source, name))
        assert np.array_equal(getattr(line, f"{name}_slope"), getattr(slopes, name))
    assert np.array_equal(line.latent_heat, heat.latent_heat)


def test_slope_of_the_saturation_temperature_obeys_latent_heat_and_volumes():
    line = saturation_line(85e5)
    change_of_volume = 1 / line.steam_density - 1 / line.water_density
    by_vaporisation = line.temperature * change_of_volume / line.latent_heat
    assert line.temperature_slope == pytest.approx(by_vaporisation, rel=2e-4)


def test_outside_the_range_is_refused():
    with pytest.raises(InputError, match="add the barometer"):
        saturation_line(8.0)
