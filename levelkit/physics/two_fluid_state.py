"""A two-fluid U-tube indicator as it is built and filled, with the scale drawn for it."""

from dataclasses import dataclass

from ..errors import checked
from .indicating_fluids import IndicatingFluid, fluid_density
from .leg_state import DrumContents, LegsState, checked_contents
from .u_tube import TwoFluidScale, UTube


@dataclass(frozen=True, slots=True)
class TwoFluidState:
    """A two-fluid indicator with everything between drum and scale.

    Attributes
    ----------
    drum : DrumContents [m, Pa, kg/m3]
        Level, pressure, densities; may be arrays.
    legs : LegsState [m, kg/m3]
        Legs, chamber and manifold; its depth is that of the manifold above the limbs.
    tube : UTube [m]
        The U-tube.
    fluid : IndicatingFluid [kg/m3, 1/K]
        The fluid.
    fluid_temperature : float or array [K]
        Its temperature.
    filling : float or array [m3]
        Volume of all fluid, bend included, at the fluid's reference temperature.
    scale : TwoFluidScale [kg/m3, m3]
        What the scale was drawn for.
    """

    drum: DrumContents
    legs: LegsState
    tube: UTube
    fluid: IndicatingFluid
    fluid_temperature: object
    filling: object
    scale: TwoFluidScale

    def __post_init__(self):
        checked("length of the limbs", self.tube.limb_length, 0.0,
                self.tube.bend_depth - self.legs.depth, "m",
                "The limbs end below the manifold.")


def drawn_two_fluid(drum, legs, tube, fluid, fluid_temperature, fluid_volume):
    """Return a healthy indicator whose scale is drawn for the conditions it stands in.

    Parameters
    ----------
    drum : DrumContents [m, Pa, kg/m3]
        Drum when the scale is drawn; scalars.
    legs : LegsState [m, kg/m3]
        Legs when the scale is drawn; scalars.
    tube : UTube [m]
        The U-tube.
    fluid : IndicatingFluid [kg/m3, 1/K]
        The fluid.
    fluid_temperature : float [K]
        Its temperature when the scale is drawn.
    fluid_volume : float [m3]
        Fluid in both limbs, above the bend, at that temperature.

    Returns
    -------
    TwoFluidState
        The indicator [m, kg/m3, K, m3].

    Raises
    ------
    InputError
        A value outside its range, or a fluid no denser than the leg water.

    References
    ----------
    [HYDROSTATICS] the scale is the balance at these densities.

    Examples
    --------
    >>> from levelkit.physics.two_fluid import two_fluid_reading
    >>> from levelkit.physics.indicating_fluids import IndicatingFluid
    >>> legs = LegsState(0.5, 3.0, 992.2, 992.2, 992.2)
    >>> tube = UTube(0.008, 0.008, 5.0, 1.6)
    >>> state = drawn_two_fluid(DrumContents(0.3, 4.6e6, 785.5, 23.2), legs, tube,
    ...                         IndicatingFluid("exercise", 1400.0), 293.15, 7e-5)
    >>> result = two_fluid_reading(state)
    >>> round(result.difference, 4), round(result.indicated_level, 6)
    (0.6273, 0.3)
    """
    volume = checked("fluid in the limbs", fluid_volume, 1e-9, 0.1, "m3",
                     "Give cubic metres: 60 ml is 6e-5.")
    drum = checked_contents(drum, legs.weir_height)
    density = fluid_density(fluid, fluid_temperature)
    filling = (volume + tube.bend_volume) * density / fluid.density
    scale = TwoFluidScale(drum.water_density, drum.steam_density, legs.reference_density,
                          density, volume)
    return TwoFluidState(drum, legs, tube, fluid, fluid_temperature, filling, scale)
