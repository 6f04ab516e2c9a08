"""How well a remote indicator in order knows the level, with what practice can measure.

What each input is known to is the same here and at the diagnosis bench, which owns it.
"""

from ..diagnosis.correction import (
    FLUID_BY,
    LEG_KELVIN,
    PRESSURE_BY,
    READ_DIFFERENTIAL,
    READ_TUBE,
    WEIR_BY,
)
from ..physics.instrument_budgets import transmitter_budget, two_fluid_budget
from ..physics.transmitter import transmitter_reading
from ..physics.uncertainty import Measured, UncertaintyBudget
from ..properties import compressed_water_density, saturation_at_pressure


def transmitter_known(state, leg_temperature) -> UncertaintyBudget | None:
    """Return what remains uncertain once pressure is allowed for; None where the leg is lost."""
    if state.compensation is None or state.legs.reference_loss:
        return None
    reading = transmitter_reading(state)
    return transmitter_budget(
        Measured(reading.reference_pressure - reading.drum_side_pressure, READ_DIFFERENTIAL),
        Measured(state.legs.weir_height, WEIR_BY),
        Measured(state.compensation.leg_density,
                 _leg_spread(state.drum.pressure, leg_temperature)),
        Measured(state.drum.pressure, PRESSURE_BY), saturation_at_pressure)


def two_fluid_known(state, reading, leg_temperature) -> UncertaintyBudget:
    """Return how well the level is known from R and the pressure, legs taken as alike."""
    return two_fluid_budget(
        Measured(reading.difference, READ_TUBE), Measured(state.legs.weir_height, WEIR_BY),
        Measured(state.legs.reference_density, _leg_spread(state.drum.pressure, leg_temperature)),
        Measured(reading.fluid_density, FLUID_BY),
        Measured(state.drum.pressure, PRESSURE_BY), saturation_at_pressure)


def _leg_spread(pressure, temperature):
    """How much the leg density changes with what its temperature may be off; by its slope,
    because a leg just below boiling may not be tried hotter."""
    cooler, here = (compressed_water_density(pressure, temperature - step) for step in (1.0, 0.0))
    return abs(cooler - here) * LEG_KELVIN
