"""Outside values of the direct glass; row, source and how it is known stand in the test id."""

import pytest
from outside import outside_values

from levelkit.check.breakage import rate_model_flux
from levelkit.check.computed import computed_value
from levelkit.physics.critical_flow import critical_flow
from levelkit.physics.relief_formulas import orifice_flux
from levelkit.properties import saturated_fluid


@pytest.mark.parametrize("row", outside_values(
    "optics", "meniscus", "cocks", "critical flow", "breakage", "heat loss", "rules"))
def test_outside_value(row):
    assert computed_value(row) == pytest.approx(row.expected, rel=0, abs=row.allowed)


@pytest.mark.parametrize("pressure", [7e5, 16e5, 40e5, 100e5])
def test_equilibrium_flow_is_the_lower_bound(pressure):
    """TWO-PHASE-STEAM-WATER: measured flow was always above it; the formulas agree in order."""
    equilibrium = critical_flow(pressure, "water", saturated_fluid).mass_flux
    no_flashing = orifice_flux(saturated_fluid(pressure).water_density, pressure - 101_325.0)
    assert equilibrium < rate_model_flux(pressure) < no_flashing
    assert 1.10 < rate_model_flux(pressure) / equilibrium < 1.30
