"""Designing a two-fluid indicator: scale ratio, fluid, range, limbs, filling."""

from dataclasses import dataclass

from ..constants import STANDARD_GRAVITY
from ..errors import checked
from .differential import reference_differential
from .fluid_balance import fluid_difference


@dataclass(frozen=True, slots=True)
class TwoFluidRange:
    """What the limbs of a two-fluid indicator must take.

    Attributes
    ----------
    greatest_difference, least_difference : float or array [m]
        R with the drum at the lower connection and at the weir.
    reference_travel, drum_travel : float or array [m]
        Travel of the surfaces in the constant-head limb and in the drum-side limb.
    least_limb_height : float or array [m]
        Height above the bend that the drum-side surface reaches when the asked-for fluid is
        left in the constant-head limb.
    """

    greatest_difference: object
    least_difference: object
    reference_travel: object
    drum_travel: object
    least_limb_height: object


def surface_share(visible_area, other_area):
    """Return which part of a change of R the visible surface makes.

    ``|dz_v / dR| = 1 / (1 + A_v / A_o)``: the volume of the fluid stays what it is

    Parameters
    ----------
    visible_area, other_area : float or array [m2]
        Bore areas of the visible and of the other limb.

    Returns
    -------
    float or array [1]
        One half for equal bores; nearly 1 beside a wide reservoir.

    Raises
    ------
    InputError
        An area outside its range.

    References
    ----------
    [VOLUME-BALANCE] what leaves one limb enters the other.

    Examples
    --------
    >>> surface_share(5e-5, 5e-5)
    0.5
    """
    visible = checked("area of the visible limb", visible_area, 1e-7, 1.0, "m2")
    other = checked("area of the other limb", other_area, 1e-7, 1.0, "m2")
    return other / (visible + other)


def scale_ratio(water_density, steam_density, leg_density, fluid_density, share=0.5):
    """Return how far the visible surface moves for each millimetre of drum level.

    ``S = (rho_f - rho_g) / [(rho_m - rho_w)(1 + r)]`` with ``r = A_v / A_o``

    Parameters
    ----------
    water_density, steam_density, leg_density, fluid_density : float or array [kg/m3]
        Drum, legs and indicating fluid.
    share : float or array [1]
        Part of a change of R that the visible surface makes, :func:`surface_share`.

    Returns
    -------
    float or array [1]
        Scale ratio; 1 is a full-size scale.

    Raises
    ------
    InputError
        A value outside its range, or a fluid no denser than the leg water.

    References
    ----------
    [HYDROSTATICS] slope of R over level; [VOLUME-BALANCE] share of one surface.

    Examples
    --------
    >>> round(scale_ratio(785.5, 23.2, 992.2, 1373.35), 3)
    1.0
    """
    low, high = (fluid_difference(level, 1.0, water_density, steam_density, leg_density,
                                  fluid_density) for level in (0.0, 1.0))
    return (low - high) * checked("share of the visible surface", share, 0.0, 1.0, "")


def fluid_density_for_scale(wanted_ratio, water_density, steam_density, leg_density, share=0.5):
    """Return the density that an indicating fluid must have for a wanted scale.

    ``rho_m = rho_w + (rho_f - rho_g) / [S (1 + r)]`` with ``r = A_v / A_o``

    Parameters
    ----------
    wanted_ratio : float or array [1]
        Movement of the visible surface over that of the drum level, 0.05 to 20.
    water_density, steam_density, leg_density : float or array [kg/m3]
        Drum and legs.
    share : float or array [1]
        Part of a change of R that the visible surface makes, :func:`surface_share`.

    Returns
    -------
    float or array [kg/m3]
        Density of the fluid at its temperature in service.

    Raises
    ------
    InputError
        A value outside its range.

    References
    ----------
    [HYDROSTATICS] slope of R over level; [VOLUME-BALANCE] share of one surface.

    Examples
    --------
    >>> round(fluid_density_for_scale(1.0, 785.5, 23.2, 992.2), 2)
    1373.35
    """
    ratio = checked("wanted scale ratio", wanted_ratio, 0.05, 20.0, "")
    share = checked("share of the visible surface", share, 0.01, 1.0, "")
    empty, full = (reference_differential(level, 1.0, water_density, steam_density, leg_density)
                   for level in (0.0, 1.0))
    return leg_density + (empty - full) / STANDARD_GRAVITY * share / ratio


def two_fluid_range(weir_height, water_density, steam_density, leg_density, fluid_density,
                    reference_area, drum_area, fluid_left=0.0):
    """Return the ends of R, the travel of both surfaces and the limb that they need.

    ``R_max = (rho_w - rho_g) H / (rho_m - rho_w)``, ``R_min = (rho_w - rho_f) H / (rho_m - rho_w)``

    Parameters
    ----------
    weir_height : float [m]
        Height of the weir: the range goes from the lower connection up to it.
    water_density, steam_density, leg_density, fluid_density : float or array [kg/m3]
        Drum, legs and indicating fluid.
    reference_area, drum_area : float [m2]
        Bore areas of the constant-head limb and of the drum-side limb.
    fluid_left : float [m]
        Fluid that must remain above the bend in the constant-head limb at R_max, 0 to 5.

    Returns
    -------
    TwoFluidRange
        Lengths [m].

    Raises
    ------
    InputError
        A value outside its range, or a fluid no denser than the leg water.

    Notes
    -----
    R_min is not zero: equal surfaces in service are a fault, not a level.

    References
    ----------
    [HYDROSTATICS] R at both ends; [VOLUME-BALANCE] travel.

    Examples
    --------
    >>> found = two_fluid_range(0.5, 785.5, 23.2, 992.2, 1373.0, 5e-5, 5e-5, 0.06)
    >>> f"{found.greatest_difference:.4f} {found.least_difference:.4f} {found.drum_travel:.4f}"
    '1.2723 0.2714 0.5005'
    """
    left = checked("fluid left in the constant-head limb", fluid_left, 0.0, 5.0, "m",
                   "Less than nothing cannot be left; give metres.")
    most, least = (fluid_difference(level, weir_height, water_density, steam_density,
                                    leg_density, fluid_density) for level in (0.0, weir_height))
    change = most - least
    return TwoFluidRange(most, least, change * surface_share(reference_area, drum_area),
                         change * surface_share(drum_area, reference_area), left + most)


def filling_shift(extra_volume, reference_area, drum_area):
    """Return how far both surfaces rise when fluid is added.

    ``dz = dV / (A_v + A_o)``: R is fixed by the drum and does not change

    Parameters
    ----------
    extra_volume : float or array [m3]
        Fluid above the mark; negative for fluid lost.
    reference_area, drum_area : float [m2]
        Bore areas of both limbs.

    Returns
    -------
    float or array [m]
        Rise of both surfaces. Divided by the scale ratio it is the error of the level: on
        the constant-head limb too much reads HIGH, on the drum-side limb LOW.

    Raises
    ------
    InputError
        A value outside its range.

    References
    ----------
    [VOLUME-BALANCE] volume over area.

    Examples
    --------
    >>> round(1e3 * filling_shift(6e-6, 5.0265e-5, 5.0265e-5), 1)
    59.7
    """
    volume = checked("extra filling", extra_volume, -0.1, 0.1, "m3",
                     "Give cubic metres: 6 ml is 6e-6.")
    reference = checked("area of the constant-head limb", reference_area, 1e-7, 1.0, "m2")
    drum = checked("area of the drum-side limb", drum_area, 1e-7, 1.0, "m2")
    return volume / (reference + drum)


