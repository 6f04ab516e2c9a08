"""From what is set on the two-fluid panel to an indicator: its scale, its state, its way there."""

from dataclasses import dataclass, replace

import numpy as np

from ..constants import MILLIMETRE
from ..physics.leg_state import DrumContents, LegsState
from ..physics.signal import damped
from ..physics.two_fluid import scale_status, two_fluid_reading
from ..physics.two_fluid_layout import two_fluid_layout
from ..physics.two_fluid_state import TwoFluidState, drawn_two_fluid
from ..physics.u_tube import DRUM_LIMB, REFERENCE_LIMB
from ..properties import cold_drum_fluids, compressed_water_density, steaming_drum_fluids
from ..units import absolute_pressure, kelvin

STEAMING, COLD = "steaming: saturated", "cold: 20 \u00b0C, open to the air"
COLD_CELSIUS = SCALE_FLUID_CELSIUS = 20.0
MILLILITRE = 1e-6
DESIGN = ("visible_limb", "fluid", "visible_bore", "other_bore", "depth", "scale_pressure",
          "scale_legs", "barometer")
"""Keys of the settings that belong to the indicator as built and to its scale."""


@dataclass(frozen=True, slots=True)
class DrawnIndicator:
    """An indicator on the day its scale was drawn.

    Attributes
    ----------
    state : TwoFluidState
        The indicator.
    scale_ends : tuple of (float, float) [m]
        Level and height of the visible surface at both ends of the scale.
    """

    state: TwoFluidState
    scale_ends: tuple


def drawn_indicator(boiler, fluid, values) -> DrawnIndicator:
    """Return the boiler's indicator as designed, with the scale drawn for it."""
    barometer, weir = values["barometer"] * 100, boiler.legs.chamber_height
    fluids = steaming_drum_fluids(absolute_pressure(values["scale_pressure"], barometer))
    leg = compressed_water_density(fluids.pressure, kelvin(values["scale_legs"]))
    drum = DrumContents(boiler.levels.normal, fluids.pressure, fluids.water_density,
                        fluids.steam_density)
    bores = [values[key] * MILLIMETRE for key in ("visible_bore", "other_bore")]
    limb = values["visible_limb"]
    if limb == DRUM_LIMB:
        bores.reverse()
    temperature = kelvin(SCALE_FLUID_CELSIUS)
    layout = two_fluid_layout(drum, weir, leg, fluid, temperature, *bores, values["depth"], limb)
    legs = LegsState(weir, layout.manifold_depth, leg, leg, leg, barometer=barometer)
    drawn = drawn_two_fluid(drum, legs, layout.tube, fluid, temperature, layout.fluid_volume)
    levels = np.array([0.0, weir])
    over_range = two_fluid_reading(replace(drawn, drum=replace(drum, level=levels)))
    surface = (over_range.reference_surface if limb == REFERENCE_LIMB
               else over_range.drum_surface)
    return DrawnIndicator(drawn, tuple(zip(levels.tolist(), surface.tolist(), strict=True)))


def indicator_as_set(drawn, values) -> TwoFluidState:
    """Return the indicator as it stands now, without a fault."""
    barometer = values["barometer"] * 100
    if values["state"] == COLD:
        fluids = cold_drum_fluids(kelvin(COLD_CELSIUS), barometer)
    else:
        fluids = steaming_drum_fluids(absolute_pressure(values["pressure"], barometer))
    drum = DrumContents(values["level"] * MILLIMETRE, fluids.pressure, fluids.water_density,
                        fluids.steam_density)
    reference, drum_side = (compressed_water_density(fluids.pressure, kelvin(values[key]))
                            for key in ("reference_leg", "drum_leg"))
    legs = replace(drawn.legs, reference_density=reference, reference_run_density=reference,
                   drum_run_density=drum_side, reference_loss=values["leg_lost"] * MILLIMETRE)
    return replace(drawn, drum=drum, legs=legs,
                   fluid_temperature=kelvin(values["fluid_temperature"]),
                   filling=drawn.filling + values["extra_fill"] * MILLILITRE)


def reading_on_the_way(before, after, seconds, weir_height):
    """Return what is shown while the fluid still moves from one reading to the other."""
    moved = {name: damped(getattr(before, name), getattr(after, name), seconds,
                          after.response_time)
             for name in ("difference", "reference_surface", "drum_surface", "indicated_level")}
    error = after.error + moved["indicated_level"] - after.indicated_level
    return replace(after, error=error,
                   status=scale_status(moved["indicated_level"], weir_height), **moved)
