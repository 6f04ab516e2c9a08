"""A drum that hangs still but not upright: where its water stands under list and trim.

The surface stays square to gravity and the volume stays what it was. List and trim are
what two clinometers show, one in the athwartships plane, one in the fore-and-aft plane.
"""

from dataclasses import dataclass
from math import atan, radians

import numpy as np

from ..errors import InputError, checked
from .drum_geometry import Drum, level_for

STEEPEST = radians(89.0)
_LIE = ("athwartships", "fore and aft")


@dataclass(frozen=True, slots=True)
class InclinedDrumState:
    """A drum with its water in a ship that lists and is out of trim.

    Attributes
    ----------
    drum : Drum [m]
        The drum.
    volume : float [m3]
        Water in it.
    list_angle : float or array [rad]
        List, positive to port.
    trim_angle : float or array [rad]
        Trim, positive by the stern; broadcast with the list.
    lies : str
        "athwartships" or "fore and aft": which way the drum's axis runs.
    """

    drum: Drum
    volume: float
    list_angle: float = 0.0
    trim_angle: float = 0.0
    lies: str = "athwartships"


@dataclass(frozen=True, slots=True)
class InclinedSurface:
    """The water surface in an inclined drum, as a plane fixed to the drum.

    All but the drum are arrays where list or trim is one.

    Attributes
    ----------
    drum : Drum [m]
        The drum.
    mid_level : float [m]
        Level above the water connection at mid-length on the upright mid-plane,
        measured square to the drum.
    slope_along : float [m/m]
        Rise per metre along the axis: to port in an athwartships drum, aft in a
        fore-and-aft one.
    slope_across : float [m/m]
        Rise per metre across the axis: aft in an athwartships drum, to port in a
        fore-and-aft one.
    exposed_bottom : float [m]
        Length of the shell's lowest line that stands dry.
    flooded_crown : float [m]
        Length of the shell's highest line that stands under water.
    """

    drum: Drum
    mid_level: float
    slope_along: float
    slope_across: float
    exposed_bottom: float
    flooded_crown: float


def inclined_surface(state):
    """Return the surface that holds the same water once the drum is inclined.

    ``V(level, tan list, tan trim) = V``, solved for the level at mid-length

    Parameters
    ----------
    state : InclinedDrumState [m, m3, rad]
        Drum, volume of water, list, trim, lie of the axis.

    Returns
    -------
    InclinedSurface
        Level at mid-length [m], slopes [m/m], dry bottom and flooded crown [m].

    Raises
    ------
    InputError
        An angle beyond 89 degrees, more water than the drum holds, an unknown lie.

    Notes
    -----
    On the centre line the level at mid-length does not move at all. Elsewhere it moves
    a little at once, because the drum is round: by about
    ``(level - axis) tan^2 (L^2/12) / (2 (r^2 - (level - axis)^2))`` along the axis and by
    the factor ``1/cos`` across it; and a lot once an end or the crown is cut.

    References
    ----------
    [MENSURATION] circular segments; [HYDROSTATICS] a surface at rest is level.

    Examples
    --------
    >>> from math import radians
    >>> drum = Drum(0.65, 5.6)
    >>> surface = inclined_surface(InclinedDrumState(drum, drum.volume / 2, radians(15.0)))
    >>> f"{1000 * surface.exposed_bottom:.0f} mm of the bottom is dry"
    '374 mm of the bottom is dry'
    """
    slope_to_port = np.tan(checked("list", state.list_angle, -STEEPEST, STEEPEST, "rad",
                                   "Give radians: 15 degrees is 0.2618."))
    slope_aft = np.tan(checked("trim", state.trim_angle, -STEEPEST, STEEPEST, "rad",
                               "Give radians: 5 degrees is 0.0873."))
    drum = state.drum
    if state.lies not in _LIE:
        raise InputError(f"lies is {state.lies!r}; the allowed words are athwartships and "
                         "fore and aft (no unit). Choose one.")
    along, across = slope_to_port, slope_aft
    if state.lies == "fore and aft":
        along, across = across, along
    level = level_for(drum, state.volume, along, across)
    dry = _length_above(drum, level, along, drum.axis_height - drum.radius)
    wet = drum.length - _length_above(drum, level, along, drum.axis_height + drum.radius)
    return InclinedSurface(drum, level, along, across, dry, wet)


def level_at(surface, along, across=0.0):
    """Return the level at a place in an inclined drum, measured square to the drum.

    ``h = h_mid + s_along x + s_across y``

    Parameters
    ----------
    surface : InclinedSurface [m]
        The surface.
    along, across : float or array [m]
        Distance from mid-length along the axis and from the upright mid-plane across
        it: positive to port and aft, as the slopes; -50 to 50.

    Returns
    -------
    float or array [m]
        Level above the water connection; broadcast shape.

    Raises
    ------
    InputError
        A distance outside its range.

    Notes
    -----
    A gauge glass there shows this level through its densities, as upright: list shortens
    drum side and glass alike. Give it to :func:`levelkit.physics.glass.gauge_glass_reading`.

    References
    ----------
    [MENSURATION] a plane.

    Examples
    --------
    >>> surface = InclinedSurface(Drum(0.65, 5.6), 0.18, 0.0699, 0.0, 0.0, 0.0)
    >>> [round(1000 * h) for h in level_at(surface, np.array([2.6, -2.6]))]
    [362, -2]
    """
    along = checked("distance along the drum", along, -50.0, 50.0, "m", "Give metres.")
    across = checked("distance across the drum", across, -50.0, 50.0, "m", "Give metres.")
    return surface.mid_level + surface.slope_along * along + surface.slope_across * across


def list_between_glasses(port_level, starboard_level, distance):
    """Return the list that two glasses on an athwartships drum show.

    ``tan list = (h_port - h_starboard) / distance``

    Parameters
    ----------
    port_level, starboard_level : float or array [m]
        Levels at the two glasses, corrected for density, -5 to 5.
    distance : float [m]
        Distance between the glasses, 0.1 to 50.

    Returns
    -------
    float or array [rad]
        List, positive to port.

    Raises
    ------
    InputError
        A value outside its range.

    Notes
    -----
    The level at mid-drum is the mean of the two, whatever the list.

    References
    ----------
    [MENSURATION] a plane.

    Examples
    --------
    >>> from math import degrees
    >>> round(degrees(list_between_glasses(0.214, 0.146, 5.20)), 2)
    0.75
    """
    port = checked("port level", port_level, -5.0, 5.0, "m", "Give metres: 214 mm is 0.214.")
    starboard = checked("starboard level", starboard_level, -5.0, 5.0, "m",
                        "Give metres: 146 mm is 0.146.")
    distance = checked("distance between the glasses", distance, 0.1, 50.0, "m", "Give metres.")
    slope = (port - starboard) / distance
    return np.arctan(slope) if np.ndim(slope) else atan(slope)


def exposed_length(surface, height, across=0.0):
    """Return how much of a straight line along the drum's shell length stands dry.

    Parameters
    ----------
    surface : InclinedSurface [m]
        The surface.
    height : float [m]
        Height of the line (a row of tube ends, say) above the water connection, -10 to 10.
    across : float [m]
        Its distance from the upright mid-plane, as in :func:`level_at`.

    Returns
    -------
    float [m]
        Length above the water, 0 to the length of the shell.

    Raises
    ------
    InputError
        A value outside its range.

    References
    ----------
    [MENSURATION] a line meets a plane.

    Examples
    --------
    >>> surface = InclinedSurface(Drum(0.65, 5.6), 0.0, 0.1, 0.0, 0.0, 0.0)
    >>> round(exposed_length(surface, -0.2), 3)
    0.8
    """
    height = checked("height of the line", height, -10.0, 10.0, "m", "Give metres.")
    level = level_at(surface, 0.0, across)
    return _length_above(surface.drum, level, surface.slope_along, height)


def _length_above(drum, level, slope, height):
    """Length of the shell at which the line of the water is below `height`."""
    half, steep = drum.length / 2, np.abs(slope)
    level_line = steep < 1e-12  # a rise of less than an atom from end to end
    crossing = np.clip((height - level) / np.where(level_line, 1.0, steep), -half, half) + half
    dry = np.where(level_line, np.where(level >= height, 0.0, drum.length), crossing)
    return dry if dry.ndim else float(dry)
