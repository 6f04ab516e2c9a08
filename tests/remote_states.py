"""Healthy remote indicators of an invented boiler, for the tests."""

from levelkit.physics.fluid_balance import fluid_difference
from levelkit.physics.indicating_fluids import IndicatingFluid
from levelkit.physics.leg_state import DrumContents, LegsState
from levelkit.physics.transmitter_range import REVERSED
from levelkit.physics.transmitter_state import calibrated_transmitter
from levelkit.physics.two_fluid_design import fluid_density_for_scale
from levelkit.physics.two_fluid_state import drawn_two_fluid
from levelkit.physics.u_tube import REFERENCE_LIMB, UTube
from levelkit.properties import compressed_water_density, saturation_at_pressure

LEG_TEMPERATURE = 323.15
FLUID_TEMPERATURE = 318.15


def drum_and_legs(level=0.4, pressure=6.1e6, weir=0.8, depth=2.0, leg=LEG_TEMPERATURE):
    """Saturated drum, and both legs full of water of one temperature."""
    steam = saturation_at_pressure(pressure)
    water = compressed_water_density(pressure, leg)
    return (DrumContents(level, pressure, steam.water_density, steam.steam_density),
            LegsState(weir, depth, water, water, water))


def transmitter(level=0.4, connection=REVERSED, **boiler):
    """A transmitter calibrated for the conditions it stands in."""
    return calibrated_transmitter(*drum_and_legs(level, **boiler), connection)


def two_fluid(level=0.4, visible=REFERENCE_LIMB, expansion=1e-3, bores=(0.008, 0.008), **boiler):
    """An indicator with a full-size scale drawn for the conditions it stands in."""
    drum, legs = drum_and_legs(level, **boiler)
    weir = legs.weir_height
    wanted = fluid_density_for_scale(1.0, drum.water_density, drum.steam_density,
                                     legs.reference_density)
    fluid = IndicatingFluid("test fluid", wanted * (1 + expansion * 25.0), expansion)
    tube = UTube(*bores, legs.depth + 4.1 * weir, 4.0 * weir, visible_limb=visible)
    farthest = fluid_difference(0.0, weir, drum.water_density, drum.steam_density,
                                legs.reference_density, wanted)
    volume = (tube.drum_area * farthest
              + 0.3 * weir * (tube.reference_area + tube.drum_area))
    return drawn_two_fluid(drum, legs, tube, fluid, FLUID_TEMPERATURE, volume)


drum_and_legs()  # the first call builds the saturation line, before a test is timed
