"""How well a remote indicator in order knows the level, with what practice can measure."""

from ..constants import BAR
from ..physics.indicating_fluids import fluid_density
from ..physics.instrument_budgets import transmitter_budget, two_fluid_budget
from ..physics.transmitter import transmitter_reading
from ..physics.uncertainty import Measured, UncertaintyBudget
from ..properties import compressed_water_density, saturation_at_pressure

BY_PASCAL, BY_METRES, BY_KELVIN, BY_BAR = 10.0, 0.003, 10.0, 1.0
"""How well differential, weir, leg and drum pressure are known: common practice, no source."""

BY_SURFACES, BY_FLUID_KELVIN = 0.002, 5.0
"""The same of the difference R [m] and of the indicating fluid [K]: common practice, no source."""


def transmitter_known(state, leg_temperature) -> UncertaintyBudget | None:
    """Return what remains uncertain once pressure is allowed for; None where the leg is lost."""
    if state.compensation is None or state.legs.reference_loss:
        return None
    reading = transmitter_reading(state)
    return transmitter_budget(
        Measured(reading.reference_pressure - reading.drum_side_pressure, BY_PASCAL),
        Measured(state.legs.weir_height, BY_METRES),
        Measured(state.compensation.leg_density,
                 _leg_spread(state.drum.pressure, leg_temperature)),
        Measured(state.drum.pressure, BY_BAR * BAR), saturation_at_pressure)


def two_fluid_known(state, reading, leg_temperature) -> UncertaintyBudget:
    """Return how well the level is known from R and the pressure, legs taken as alike."""
    cooler, warmer = (fluid_density(state.fluid, state.fluid_temperature + step)
                      for step in (-BY_FLUID_KELVIN, BY_FLUID_KELVIN))
    return two_fluid_budget(
        Measured(reading.difference, BY_SURFACES), Measured(state.legs.weir_height, BY_METRES),
        Measured(state.legs.reference_density, _leg_spread(state.drum.pressure, leg_temperature)),
        Measured(reading.fluid_density, (cooler - warmer) / 2),
        Measured(state.drum.pressure, BY_BAR * BAR), saturation_at_pressure)


def _leg_spread(pressure, temperature):
    """How much the leg density changes with what its temperature may be off; by its slope,
    because a leg just below boiling may not be tried hotter."""
    cooler, here = (compressed_water_density(pressure, temperature - step) for step in (1.0, 0.0))
    return abs(cooler - here) * BY_KELVIN
