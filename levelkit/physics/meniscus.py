"""The curved edge of the water in a glass: where the eye should read it.

A wetted wall lifts the water round the edge; in a narrow bore it lifts the middle as
well. Read the bottom of the curve.
"""

from dataclasses import dataclass

import numpy as np

from ..constants import STANDARD_GRAVITY
from ..errors import checked
from ._scalar import checked_gravity


@dataclass(frozen=True, slots=True)
class Meniscus:
    """The surface in a round bore.

    Attributes
    ----------
    middle_rise : float [m]
        Height of the middle above the level that a very wide glass would show.
    edge_rise : float [m]
        Height of the edge above the same level.
    depth : float [m]
        Edge above middle: what reading at the edge would add.
    """

    middle_rise: float
    edge_rise: float
    depth: float


def capillary_length(surface_tension, density_difference, gravity=STANDARD_GRAVITY):
    """Return the length over which a wall curves a water surface.

    ``l = sqrt(sigma / ((rho_w - rho_g) g))``

    Parameters
    ----------
    surface_tension : float or array [N/m]
        Surface tension of water against its vapour, 1e-6 to 1.
    density_difference : float or array [kg/m3]
        Density of the water less that of the steam, 0.1 to 2000.
    gravity : float [m/s2]
        Acceleration of gravity.

    Returns
    -------
    float or array [m]
        Capillary length; arguments broadcast together.

    Raises
    ------
    InputError
        A value outside its range.

    References
    ----------
    [CAPILLARITY] surface tension against weight.

    Examples
    --------
    >>> round(1000 * capillary_length(0.0728, 997.0), 2)
    2.73
    """
    tension = checked("surface tension", surface_tension, 1e-6, 1.0, "N/m")
    difference = checked("density difference", density_difference, 0.1, 2000.0, "kg/m3")
    length = np.sqrt(tension / (difference * checked_gravity(gravity)))
    return length if np.ndim(length) else float(length)


def wall_rise(surface_tension, density_difference, contact_angle=0.0, gravity=STANDARD_GRAVITY):
    """Return how high water climbs a flat wall: a plate gauge.

    ``h = l sqrt(2 (1 - sin(contact angle)))``

    Parameters
    ----------
    surface_tension : float or array [N/m]
        Surface tension, 1e-6 to 1.
    density_difference : float or array [kg/m3]
        Density of the water less that of the steam, 0.1 to 2000.
    contact_angle : float or array [rad]
        Angle in the water between surface and wall, 0 (clean glass) to pi/2.
    gravity : float [m/s2]
        Acceleration of gravity.

    Returns
    -------
    float or array [m]
        Rise at the wall; arguments broadcast together.

    Raises
    ------
    InputError
        A value outside its range.

    References
    ----------
    [CAPILLARITY] surface at a flat vertical wall.

    Examples
    --------
    >>> round(1000 * wall_rise(0.0728, 997.0), 2)
    3.86
    """
    angle = checked("contact angle", contact_angle, 0.0, np.pi / 2, "rad", "0 is wetted glass.")
    rise = capillary_length(surface_tension, density_difference, gravity) * np.sqrt(
        2 * (1 - np.sin(angle)))
    return rise if np.ndim(rise) else float(rise)


def bore_meniscus(bore_radius, surface_tension, density_difference, contact_angle=0.0,
                  gravity=STANDARD_GRAVITY):
    """Return the surface in a round bore of any width.

    ``d phi / d s = 2/b + z/l^2 - sin(phi)/r``, from the middle (curvature 1/b) to the wall

    Parameters
    ----------
    bore_radius : float [m]
        Radius of the bore, 1e-5 to 0.05.
    surface_tension : float [N/m]
        Surface tension, 1e-6 to 1.
    density_difference : float [kg/m3]
        Density of the water less that of the steam, 0.1 to 2000.
    contact_angle : float [rad]
        Angle in the water between surface and wall, 0 (clean glass) to 1.5.
    gravity : float [m/s2]
        Acceleration of gravity.

    Returns
    -------
    Meniscus [m]
        Rise of middle and edge, and their difference.

    Raises
    ------
    InputError
        A value outside its range, or a bore more than 12 capillary lengths wide.

    Notes
    -----
    Narrow bore: the rise tends to ``2 sigma cos(angle) / (rho g r)``. Wide bore: the
    middle tends to 0, the edge to that of a flat wall.

    References
    ----------
    [CAPILLARITY] pressure step across a curved surface; shooting for the curvature of
    the middle.

    Examples
    --------
    >>> glass = bore_meniscus(0.006, 0.0608, 961.0)
    >>> f"{1000 * glass.middle_rise:.2f} mm, {1000 * glass.depth:.2f} mm"
    '1.06 mm, 3.40 mm'
    """
    from scipy.integrate import solve_ivp
    from scipy.optimize import brentq

    length = capillary_length(surface_tension, density_difference, gravity)
    radius = checked("bore radius", bore_radius, 1e-5, min(0.05, 12 * length), "m",
                     "A wider glass has a flat middle: use the rise at a flat wall.") / length
    wall_slope = np.pi / 2 - checked("contact angle", contact_angle, 0.0, 1.5, "rad",
                                     "0 is wetted glass.")

    # lengths in capillary lengths; the slope angle phi as the running variable keeps the
    # steep edge regular: dr/dphi = cos(phi)/k, dz/dphi = sin(phi)/k, k the local curvature
    def surface(log_middle_rise):
        middle = np.exp(log_middle_rise)

        def slopes(phi, place):
            r, z = place
            curvature = z - (np.sin(phi) / r if r > 0 else z / 2)
            return [np.cos(phi) / curvature, np.sin(phi) / curvature]

        phi0 = 1e-6
        start = [2 * np.sin(phi0) / middle, middle]
        return solve_ivp(slopes, (phi0, wall_slope), start, method="LSODA", rtol=1e-8,
                         atol=1e-12).y[:, -1]

    narrow = np.log(2 * np.sin(wall_slope) / radius)
    middle = brentq(lambda guess: surface(guess)[0] - radius, narrow - 1.5 * radius - 2.0,
                    narrow + 0.5, xtol=1e-8)
    middle_rise = float(np.exp(middle)) * length
    edge_rise = float(surface(middle)[1]) * length
    return Meniscus(middle_rise, edge_rise, edge_rise - middle_rise)
