"""The U-tube itself: where its fluid stands, and what its scale says about that."""

from dataclasses import dataclass
from math import pi

from ..constants import STANDARD_GRAVITY
from ..errors import InputError, checked
from .columns import Column, path_difference
from .differential import level_of_differential

REFERENCE_LIMB, DRUM_LIMB = "constant-head limb", "drum-side limb"


@dataclass(frozen=True, slots=True)
class UTube:
    """The U-tube as built.

    Attributes
    ----------
    reference_bore, drum_bore : float [m]
        Bores of the constant-head limb and of the drum-side limb.
    bend_depth : float [m]
        Depth of the bend below the lower connection.
    limb_length : float [m]
        Height of both limbs above the bend.
    bend_volume : float [m3]
        Fluid in the bend, below the limbs.
    visible_limb : str
        "constant-head limb" (upright scale) or "drum-side limb" (inverted scale).
    """

    reference_bore: float
    drum_bore: float
    bend_depth: float
    limb_length: float
    bend_volume: float = 2e-6
    visible_limb: str = REFERENCE_LIMB

    def __post_init__(self):
        for name in ("reference_bore", "drum_bore"):
            checked(name.replace("_", " "), getattr(self, name), 1e-3, 0.5, "m",
                    "Give metres: 8 mm is 0.008.")
        depth = checked("depth of the bend", self.bend_depth, 0.05, 60.0, "m",
                        "Depth counts downwards from the lower connection.")
        checked("length of the limbs", self.limb_length, 0.01, depth, "m",
                "The limbs end below the lower connection.")
        checked("volume of the bend", self.bend_volume, 0.0, 0.01, "m3",
                "Give cubic metres: 2 ml is 2e-6.")
        if self.visible_limb not in (REFERENCE_LIMB, DRUM_LIMB):
            raise InputError(f"The visible limb is {self.visible_limb!r}; choose "
                             f"{REFERENCE_LIMB!r} or {DRUM_LIMB!r}.")

    @property
    def reference_area(self):
        """Bore area of the constant-head limb [m2]."""
        return 0.25 * pi * self.reference_bore ** 2

    @property
    def drum_area(self):
        """Bore area of the drum-side limb [m2]."""
        return 0.25 * pi * self.drum_bore ** 2


@dataclass(frozen=True, slots=True)
class TwoFluidScale:
    """Conditions for which the scale was drawn.

    Attributes
    ----------
    water_density, steam_density, leg_density : float [kg/m3]
        Drum and legs.
    fluid_density : float [kg/m3]
        Indicating fluid.
    fluid_volume : float [m3]
        Fluid in both limbs, above the bend: the filling mark.
    """

    water_density: float
    steam_density: float
    leg_density: float
    fluid_density: float
    fluid_volume: float

    def __post_init__(self):
        checked("drum water density", self.water_density, 1.0, 1100.0, "kg/m3")
        checked("steam density", self.steam_density, 0.0, 400.0, "kg/m3")
        checked("leg water density", self.leg_density, 1.0, 1100.0, "kg/m3")
        checked("density of the indicating fluid", self.fluid_density, 1.0, 20_000.0, "kg/m3")
        checked("fluid in the limbs", self.fluid_volume, 0.0, 1.0, "m3",
                "Give cubic metres: 60 ml is 6e-5.")


@dataclass(frozen=True, slots=True)
class FluidSurfaces:
    """Where the two surfaces of the indicating fluid stand.

    Attributes
    ----------
    reference, drum_side : float or array [m]
        Heights above the lower connection: both negative.
    """

    reference: object
    drum_side: object


def fluid_surfaces(difference, fluid_volume, tube):
    """Return where both surfaces stand for a difference R and a volume of fluid.

    ``A_1 z_1 + A_2 z_2 = V`` above the bend, ``z_2 - z_1 = R``

    Parameters
    ----------
    difference : float or array [m]
        R, how much higher the fluid stands in the drum-side limb.
    fluid_volume : float or array [m3]
        Fluid above the bend.
    tube : UTube [m]
        The U-tube.

    Returns
    -------
    FluidSurfaces
        Heights above the lower connection [m].

    Raises
    ------
    InputError
        A value outside its range.

    References
    ----------
    [VOLUME-BALANCE] the fluid is in one limb or in the other.

    Examples
    --------
    >>> found = fluid_surfaces(0.6, 1e-4, UTube(0.008, 0.008, 5.0, 1.6))
    >>> round(found.drum_side - found.reference, 6)
    0.6
    """
    difference = checked("difference of the surfaces", difference, -1e6, 1e6, "m")
    volume = checked("fluid in the limbs", fluid_volume, -1.0, 1.0, "m3",
                     "Give cubic metres: 60 ml is 6e-5.")
    reference, drum = tube.reference_area, tube.drum_area
    foot = (volume - drum * difference) / (reference + drum) - tube.bend_depth
    return FluidSurfaces(foot, foot + difference)


def pressure_across(difference, fluid_volume, tube, top, fluid_density, reference_density,
                    drum_density, gravity=STANDARD_GRAVITY):
    """Return the pressure difference that holds the two surfaces at a difference R.

    ``p_ref - p_drum = rho_m g R - rho_1 g (z_top - z_1) + rho_2 g (z_top - z_2)``

    Parameters
    ----------
    difference : float or array [m]
        R, how much higher the fluid stands in the drum-side limb.
    fluid_volume : float or array [m3]
        Fluid above the bend.
    tube : UTube [m]
        The U-tube.
    top : float [m]
        Height at which the two pressures are taken, both limbs full of water up to it.
    fluid_density : float or array [kg/m3]
        Indicating fluid.
    reference_density, drum_density : float or array [kg/m3]
        Water on the fluid in the constant-head limb and in the drum-side limb.
    gravity : float [m/s2]
        Acceleration of gravity.

    Returns
    -------
    float or array [Pa]
        Pressure on the constant-head limb less that on the drum-side limb.

    Raises
    ------
    InputError
        A value outside its range.

    References
    ----------
    [HYDROSTATICS] down one limb, up the other.

    Examples
    --------
    >>> tube = UTube(0.008, 0.008, 5.0, 1.6)
    >>> round(pressure_across(0.6, 1e-4, tube, -3.0, 1400.0, 990.0, 990.0))
    2412
    """
    at = fluid_surfaces(difference, fluid_volume, tube)
    return path_difference(
        [Column(fluid_density, at.reference, at.drum_side),
         Column(drum_density, at.drum_side, top)],
        [Column(reference_density, at.reference, top)], gravity)


def scale_level(scale, tube, weir_height, surface_height):
    """Return the level that a scale shows where the visible surface stands.

    From the height of the surface and the volume at the filling mark follows R, from R
    ``h_i = [(rho_w0 - rho_g0) H - R (rho_m0 - rho_w0)] / (rho_f0 - rho_g0)``

    Parameters
    ----------
    scale : TwoFluidScale [kg/m3, m3]
        What the scale was drawn for.
    tube : UTube [m]
        The U-tube with its visible limb.
    weir_height : float [m]
        Height of the weir.
    surface_height : float or array [m]
        Height of the visible surface above the lower connection (negative).

    Returns
    -------
    float or array [m]
        Level on the scale, beyond its ends too.

    Raises
    ------
    InputError
        A value outside its range.

    References
    ----------
    [HYDROSTATICS] the balance at the densities of the scale.

    Examples
    --------
    >>> tube = UTube(0.008, 0.008, 5.0, 1.6)
    >>> scale = TwoFluidScale(785.5, 23.2, 992.2, 1373.3, 7e-5)
    >>> low, high = (scale_level(scale, tube, 0.5, z) for z in (-4.62, -4.52))
    >>> round((high - low) / 0.1, 3)
    1.0
    """
    above_bend = tube.bend_depth + checked("height of the surface", surface_height, -1e6, 1e6, "m",
                                           "Give metres above the lower connection.")
    reference, drum = tube.reference_area, tube.drum_area
    if tube.visible_limb == REFERENCE_LIMB:
        difference = (scale.fluid_volume - (reference + drum) * above_bend) / drum
    else:
        difference = ((reference + drum) * above_bend - scale.fluid_volume) / reference
    weight = path_difference([Column(scale.fluid_density, 0.0, difference)],
                             [Column(scale.leg_density, 0.0, difference)])
    return level_of_differential(weight, weir_height, scale.water_density, scale.steam_density,
                                 scale.leg_density)
