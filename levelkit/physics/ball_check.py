"""The ball in the water way: when a rush lifts it, and what holds it on its seat."""

import numpy as np

from ..constants import STANDARD_GRAVITY
from ..errors import InputError, checked
from ._scalar import checked_gravity

STEEL_BALL_DENSITY = 7800.0
BALL_DRAG = 0.45


def ball_lift_velocity(ball_diameter, fluid_density, ball_density=STEEL_BALL_DENSITY,
                       drag_coefficient=BALL_DRAG, gravity=STANDARD_GRAVITY):
    """Return the upward velocity that just carries a ball.

    ``V = sqrt(4 (rho_b - rho) g D / (3 C_D rho))``

    Parameters
    ----------
    ball_diameter : float or array [m]
        Diameter of the ball.
    fluid_density, ball_density : float or array [kg/m3]
        Fluid and ball.
    drag_coefficient : float or array [1]
        Drag coefficient, 0.05 to 10; 0.45 for a turbulent wake.
    gravity : float [m/s2]
        Acceleration of gravity.

    Returns
    -------
    float or array [m/s]
        Velocity; arguments broadcast together.

    Raises
    ------
    InputError
        A value outside its range, or a ball that floats.

    Notes
    -----
    In a wide passage. In a narrow one the fluid is quicker beside the ball, which then
    lifts at a smaller flow.

    References
    ----------
    [DRAG-SPHERE] weight less buoyancy equals drag.

    Examples
    --------
    >>> round(ball_lift_velocity(0.0127, 897.0), 2)
    1.69
    """
    diameter = checked("ball diameter", ball_diameter, 1e-4, 0.2, "m", "Give metres.")
    fluid = checked("fluid density", fluid_density, 1e-3, 2e4, "kg/m3")
    ball = checked("ball density", ball_density, 1.0, 2.5e4, "kg/m3")
    drag = checked("drag coefficient", drag_coefficient, 0.05, 10.0, "")
    if np.any(ball <= fluid):
        raise InputError(f"The ball ({np.min(ball):.4g} kg/m3) floats in the fluid "
                         f"({np.max(fluid):.4g} kg/m3). Give a ball denser than the fluid.")
    gravity = checked_gravity(gravity)
    velocity = np.sqrt(4 * (ball - fluid) * gravity * diameter / (3 * drag * fluid))
    return _plain(velocity)


def ball_lift_flow(lift_velocity, fluid_density, passage_diameter):
    """Return the mass flow that just carries the ball in its passage.

    ``m = rho V pi D^2 / 4``

    Parameters
    ----------
    lift_velocity : float or array [m/s]
        From :func:`ball_lift_velocity`.
    fluid_density : float or array [kg/m3]
        Fluid in the passage.
    passage_diameter : float or array [m]
        Diameter of the passage; the ball's blockage is neglected.

    Returns
    -------
    float or array [kg/s]
        Mass flow; arguments broadcast together.

    Raises
    ------
    InputError
        A value outside its range.

    References
    ----------
    [DRAG-SPHERE].

    Examples
    --------
    >>> round(ball_lift_flow(1.687, 897.0, 0.016), 3)
    0.304
    """
    velocity = checked("lift velocity", lift_velocity, 0.0, 1e3, "m/s")
    fluid = checked("fluid density", fluid_density, 1e-3, 2e4, "kg/m3")
    passage = checked("passage diameter", passage_diameter, 1e-4, 0.5, "m", "Give metres.")
    return _plain(fluid * velocity * np.pi * np.square(passage) / 4)


def ball_holding_pressure(ball_diameter, fluid_density, seat_diameter,
                          ball_density=STEEL_BALL_DENSITY, gravity=STANDARD_GRAVITY):
    """Return the pressure difference that keeps a seated ball from falling back.

    ``dp = (rho_b - rho) g pi D^3 / 6 / (pi d_seat^2 / 4)``

    Parameters
    ----------
    ball_diameter, seat_diameter : float or array [m]
        Ball and seat.
    fluid_density, ball_density : float or array [kg/m3]
        Fluid and ball.
    gravity : float [m/s2]
        Acceleration of gravity.

    Returns
    -------
    float or array [Pa]
        Pressure difference; arguments broadcast together.

    Raises
    ------
    InputError
        A value outside its range.

    Notes
    -----
    Under a kilopascal: a seated ball drops only once its cock is shut and the pressures
    are equal.

    References
    ----------
    [DRAG-SPHERE] weight less buoyancy on the seat area.

    Examples
    --------
    >>> round(ball_holding_pressure(0.0127, 897.0, 0.010))
    924
    """
    diameter = checked("ball diameter", ball_diameter, 1e-4, 0.2, "m", "Give metres.")
    seat = checked("seat diameter", seat_diameter, 1e-4, 0.2, "m", "Give metres.")
    fluid = checked("fluid density", fluid_density, 1e-3, 2e4, "kg/m3")
    ball = checked("ball density", ball_density, 1.0, 2.5e4, "kg/m3")
    gravity = checked_gravity(gravity)
    return _plain((ball - fluid) * gravity * 2 / 3 * np.power(diameter, 3) / np.square(seat))


def _plain(value):
    return value if np.ndim(value) else float(value)
