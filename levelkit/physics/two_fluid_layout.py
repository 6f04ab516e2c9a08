"""Laying out a two-fluid U-tube: limbs, filling mark and depth from what the ship gives."""

from dataclasses import dataclass, replace

from ..errors import InputError, checked
from .fluid_balance import fluid_difference
from .indicating_fluids import fluid_density
from .two_fluid_design import two_fluid_range
from .u_tube import REFERENCE_LIMB, UTube, fluid_surfaces

FLUID_LEFT = 0.12
"""Fluid [m] left above the bend in the constant-head limb with the drum at the connection."""

ROOM_ABOVE = 0.12
"""Room [m] above the highest surface in service: for a cold boiler and a wrong filling."""

LEG_ENDS = 0.05
"""Height [m] of the manifold above the limbs."""


@dataclass(frozen=True, slots=True)
class TwoFluidLayout:
    """A U-tube, where it hangs and what is filled in.

    Attributes
    ----------
    tube : UTube [m]
        The U-tube.
    manifold_depth : float [m]
        Depth of the manifold below the lower connection.
    fluid_volume : float [m3]
        Fluid above the bend: the filling mark.
    """

    tube: UTube
    manifold_depth: float
    fluid_volume: float


def two_fluid_layout(drum, weir_height, leg_density, fluid, fluid_temperature, reference_bore,
                     drum_bore, upper_surface_depth, visible_limb=REFERENCE_LIMB):
    """Return the U-tube that takes the whole range of a drum with room to spare.

    ``V = A_1 l + A_2 (l + R_max)``, limbs ``l + R_max`` and the room above, with `l` the fluid
    left in the constant-head limb

    Parameters
    ----------
    drum : DrumContents [m, Pa, kg/m3]
        Drum for which the scale is drawn, its level where the depth is given; scalars.
    weir_height : float [m]
        Height of the weir.
    leg_density : float [kg/m3]
        Water of both legs when the scale is drawn.
    fluid : IndicatingFluid [kg/m3, 1/K]
        The fluid.
    fluid_temperature : float [K]
        Its temperature when the scale is drawn.
    reference_bore, drum_bore : float [m]
        Bores of the constant-head limb and of the drum-side limb.
    upper_surface_depth : float [m]
        Depth of the upper surface of the fluid below the lower connection, 0.5 to 40.
    visible_limb : str
        "constant-head limb" or "drum-side limb".

    Returns
    -------
    TwoFluidLayout
        U-tube and depth [m], volume of fluid [m3].

    Raises
    ------
    InputError
        A value outside its range, a fluid no denser than the leg water, or limbs that would
        reach up to the lower connection.

    Notes
    -----
    The margins are common practice, no source. A fluid little denser than the water needs
    long limbs.

    References
    ----------
    [HYDROSTATICS] R at both ends of the range; [VOLUME-BALANCE] filling.

    Examples
    --------
    >>> from levelkit.physics.indicating_fluids import IndicatingFluid
    >>> from levelkit.physics.leg_state import DrumContents
    >>> layout = two_fluid_layout(DrumContents(0.25, 4.6e6, 785.5, 23.2), 0.5, 992.2,
    ...                           IndicatingFluid("exercise", 1373.0), 293.15, 0.008, 0.008, 8.0)
    >>> round(layout.tube.limb_length, 3), f"{1e6 * layout.fluid_volume:.1f} ml"
    (1.512, '76.0 ml')
    """
    depth = checked("depth of the upper surface", upper_surface_depth, 0.5, 40.0, "m",
                    "Depth counts downwards from the lower connection.")
    density = fluid_density(fluid, fluid_temperature)
    here = fluid_difference(drum.level, weir_height, drum.water_density, drum.steam_density,
                            leg_density, density)
    tube = UTube(reference_bore, drum_bore, 60.0, 0.01, visible_limb=visible_limb)
    needed = two_fluid_range(weir_height, drum.water_density, drum.steam_density, leg_density,
                             density, tube.reference_area, tube.drum_area, FLUID_LEFT)
    volume = tube.reference_area * FLUID_LEFT + tube.drum_area * needed.least_limb_height
    upper = fluid_surfaces(here, volume, tube).drum_side + tube.bend_depth
    limb, bend = needed.least_limb_height + ROOM_ABOVE, depth + upper
    manifold = bend - limb - LEG_ENDS
    if manifold < 0.0:
        raise InputError(
            f"With its upper surface {depth:.4g} m down the U-tube would reach above the lower "
            f"connection: its limbs are {limb:.4g} m long. The allowed range begins at "
            f"{depth - manifold:.4g} m: hang it lower, or take a denser fluid.")
    return TwoFluidLayout(replace(tube, bend_depth=bend, limb_length=limb), manifold, volume)
