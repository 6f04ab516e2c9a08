"""The two-fluid U-tube: what a remote indicator without power shows.

Reference leg and drum-side leg press on the two surfaces of a denser fluid that does not
mix with water. The drum level is read from one of the two surfaces, on a scale drawn for
one pressure, one fluid temperature and one filling.
"""

from dataclasses import dataclass
from math import cos

import numpy as np

from ..constants import STANDARD_GRAVITY
from ..errors import InputError, checked
from ._scalar import anywhere, mean_value
from .columns import balancing_height
from .indicating_fluids import fluid_density
from .leg_water import filling_time
from .trapped_water import shut_in
from .u_tube import REFERENCE_LIMB, fluid_surfaces, pressure_across, scale_level
from .wet_legs import instrument_ports

_HAIR = 1e-6  # m: a level at the very end of the scale is on it, whatever the rounding

IN_RANGE, OFF_SCALE_LOW, OFF_SCALE_HIGH = "on the scale", "off the scale low", "off the scale high"


@dataclass(frozen=True, slots=True)
class TwoFluidResult:
    """What a two-fluid indicator shows.

    Attributes
    ----------
    difference : float or array [m]
        R, how much higher the fluid stands in the drum-side limb.
    reference_surface, drum_surface : float or array [m]
        Heights of the two fluid surfaces above the lower connection: both negative.
    indicated_level : float or array [m]
        What the scale shows at the visible surface.
    error : float or array [m]
        Indicated minus true level: negative reads LOW.
    status : str or array of str
        "on the scale", "off the scale low" or "off the scale high".
    reference_pressure, drum_side_pressure : float or array [Pa]
        Absolute pressures at the manifold.
    interface_pressure : float or array [Pa]
        Absolute pressure at the lower of the two surfaces, that of the constant-head limb.
    fluid_density : float or array [kg/m3]
        Density of the indicating fluid at its temperature.
    shut_in : tuple of str
        Sides behind a shut isolator: the reading does not move.
    below_connection : bool or array of bool
        True where the drum level is below what the instrument can see.
    response_time : float [s]
        Time constant of the reading: moving the fluid through the lines.
    """

    difference: object
    reference_surface: object
    drum_surface: object
    indicated_level: object
    error: object
    status: object
    reference_pressure: object
    drum_side_pressure: object
    interface_pressure: object
    fluid_density: object
    shut_in: tuple
    below_connection: object
    response_time: float


def two_fluid_reading(state, gravity=STANDARD_GRAVITY):
    """Return what a two-fluid indicator shows, and where its surfaces stand.

    ``(rho_r - rho_g) H - (rho_f - rho_g) h + (rho_r - rho_c) b = (rho_m - rho_r) R`` with
    ``R = a - b`` and the depths a, b of the surfaces from R and the volume of the fluid

    Parameters
    ----------
    state : TwoFluidState [m, Pa, kg/m3, K, m3]
        The indicator; drum contents, densities, temperature and filling may be arrays.
    gravity : float [m/s2]
        Acceleration of gravity.

    Returns
    -------
    TwoFluidResult
        Heights [m], pressures [Pa], indicated level [m] and its error.

    Raises
    ------
    InputError
        A value outside its range, a level above the weir, too little or too much fluid,
        fluid blown over, a fluid no denser than the water on it, or a shut isolator without
        a record of the pressure behind it.

    Notes
    -----
    R is never zero in service: equal surfaces mean equal pressures, a fault that the
    constant-head limb shows as FULL. List: the U-tube leans with the drum, so the cosine
    cancels; the two limbs are taken to stand close together. A shut isolator freezes the
    reading, because the fluid between two bodies of water cannot move.

    References
    ----------
    [HYDROSTATICS] round the loop drum, reference leg, fluid, drum-side leg;
    [MANIFOLD-MODEL] valves.

    Examples
    --------
    >>> from levelkit.physics.leg_state import DrumContents, LegsState
    >>> from levelkit.physics.two_fluid_state import drawn_two_fluid
    >>> from levelkit.physics.u_tube import UTube
    >>> from dataclasses import replace
    >>> from levelkit.physics.indicating_fluids import IndicatingFluid
    >>> legs = LegsState(0.5, 3.0, 992.2, 992.2, 992.2)
    >>> state = drawn_two_fluid(DrumContents(0.3, 4.6e6, 785.5, 23.2), legs,
    ...                         UTube(0.008, 0.008, 5.0, 1.6),
    ...                         IndicatingFluid("exercise", 1373.0), 293.15, 7e-5)
    >>> cold = replace(state, drum=DrumContents(0.25, 101_325.0, 998.2, 1.2),
    ...                legs=LegsState(0.5, 3.0, 998.2, 998.2, 998.2))
    >>> f"{1e3 * two_fluid_reading(cold).error:+.0f} mm"
    '+53 mm'
    """
    legs, tube = state.legs, state.tube
    density, volume = _fluid_as_it_is(state)
    ports = instrument_ports(state.drum, legs, 1.0, gravity)
    across = ports.reference - ports.drum_side
    upright = cos(legs.list_angle)

    difference = balancing_height(lambda height: across / upright - pressure_across(
        height, volume, tube, -legs.depth, density, legs.reference_run_density,
        legs.drum_run_density, gravity))
    if not np.ndim(difference):
        difference = float(difference)
    surfaces = fluid_surfaces(difference, volume, tube)
    reference_surface, drum_surface = surfaces.reference, surfaces.drum_side
    _check_fluid_in_place(reference_surface, drum_surface, tube)
    interface_pressure = ports.reference + legs.reference_run_density * gravity * upright * (
        -legs.depth - reference_surface)
    indicated = scale_level(state.scale, tube, legs.weir_height,
                            reference_surface if tube.visible_limb == REFERENCE_LIMB
                            else drum_surface)
    return TwoFluidResult(
        difference, reference_surface, drum_surface, indicated, indicated - state.drum.level,
        scale_status(indicated, legs.weir_height), ports.reference, ports.drum_side,
        interface_pressure, density,
        shut_in(legs.manifold), state.drum.level < 0.0,
        filling_time(legs, _compliance(state, density, gravity), ports.line_resistance))


def scale_status(indicated_level, weir_height):
    """Return whether a level can be read off the scale.

    Parameters
    ----------
    indicated_level : float or array [m]
        Level that belongs to the visible surface.
    weir_height : float [m]
        Upper end of the scale; the lower end is the connection.

    Returns
    -------
    str or array of str
        "on the scale", "off the scale low" or "off the scale high".

    Raises
    ------
    InputError
        A value outside its range.

    References
    ----------
    None: a comparison, not a formula.

    Examples
    --------
    >>> scale_status(0.62, 0.5)
    'off the scale high'
    """
    indicated_level = checked("indicated level", indicated_level, -1e6, 1e6, "m")
    weir_height = checked("weir height", weir_height, 0.0, 20.0, "m", "Give metres.")
    low, high = indicated_level < -_HAIR, indicated_level > weir_height + _HAIR
    if np.ndim(indicated_level):
        return np.select([low, high], [OFF_SCALE_LOW, OFF_SCALE_HIGH], IN_RANGE)
    return OFF_SCALE_LOW if low else OFF_SCALE_HIGH if high else IN_RANGE


def _fluid_as_it_is(state):
    """Density of the fluid, and its volume above the bend."""
    checked("filling", state.filling, 0.0, 0.1, "m3",
            "Give cubic metres: 60 ml is 6e-5. A negative filling does not exist.")
    density = fluid_density(state.fluid, state.fluid_temperature)
    volume = state.filling * state.fluid.density / density - state.tube.bend_volume
    if anywhere(volume <= 0.0):
        raise InputError(
            f"The fluid above the bend is {1e6 * np.min(volume):.4g} ml; it must be more than 0 "
            f"ml: the bend alone takes {1e6 * state.tube.bend_volume:.4g} ml. Fill to the mark.")
    for water in (state.legs.reference_run_density, state.legs.drum_run_density):
        if anywhere(density <= water):
            raise InputError(
                f"The indicating fluid ({np.min(density):.4g} kg/m3) is not denser than the water "
                f"on it ({np.max(water):.4g} kg/m3); the allowed range begins above that density.")
    return density, volume


def _check_fluid_in_place(reference_surface, drum_surface, tube):
    """The fluid must stand in both limbs: between the bend and their upper end."""
    for name, surface in (("constant-head limb", reference_surface),
                          ("drum-side limb", drum_surface)):
        height = surface + tube.bend_depth
        if anywhere(height < 0.0) or anywhere(height > tube.limb_length):
            worst = np.min(height) if anywhere(height < 0.0) else np.max(height)
            raise InputError(
                f"The fluid is blown over: in the {name} it would stand {worst:.4g} m above the "
                f"bend; the allowed range is 0 to {tube.limb_length:g} m. Look for unequal "
                "pressures on the two legs, or for a wrong filling.")


def _compliance(state, density, gravity):
    """Volume that moves through a line for each pascal across the U-tube [m3/Pa]."""
    reference, drum = state.tube.reference_area, state.tube.drum_area
    weight = mean_value(density - state.legs.reference_run_density) * gravity
    return reference * drum / (reference + drum) / weight
