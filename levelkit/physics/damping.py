"""What the connections of a glass do to a swinging level: smaller swing, later news.

First-order lag: the shown level runs after the true one at a rate proportional to the
gap. A cock is not quite that (its flow goes with the root of the gap), so its swing is
found by harmonic balance. Damping that hides the roll hides a fault as well.
"""

from dataclasses import dataclass
from math import atan, gamma, pi, sqrt

import numpy as np

from ..constants import STANDARD_GRAVITY
from ..errors import checked
from ._scalar import checked_gravity

DISCHARGE = 0.6
"""Discharge coefficient of a sharp-edged opening [1] (source ORIFICE)."""
ROOT_OF_SINE = 2 * gamma(1.25) / (sqrt(pi) * gamma(1.75))
"""First harmonic of the signed square root of a unit sinusoid [1], 1.1128."""


@dataclass(frozen=True, slots=True)
class DampedSwing:
    """A level swing behind a lag.

    Attributes
    ----------
    amplitude : float or array [m]
        Half the swing that is shown.
    share : float or array [1]
        Shown over true amplitude.
    lag : float or array [s]
        How much later the shown level turns.
    time_constant : float or array [s]
        Time constant of the lag.
    """

    amplitude: object
    share: object
    lag: object
    time_constant: object


def first_order_swing(amplitude, period, time_constant):
    """Return what a first-order lag leaves of a sinusoidal level swing.

    ``share = 1 / sqrt(1 + (omega tau)^2)``, ``lag = atan(omega tau) / omega``

    Parameters
    ----------
    amplitude : float or array [m]
        Half the true swing, 0 to 5.
    period : float or array [s]
        Period of the swing, 0.1 to 1000.
    time_constant : float or array [s]
        Time constant of the lag, 0 to 1e5.

    Returns
    -------
    DampedSwing
        Amplitude [m], share [1], lag [s], time constant [s].

    Raises
    ------
    InputError
        A value outside its range.

    References
    ----------
    [FIRST-ORDER-LAG]

    Examples
    --------
    >>> swing = first_order_swing(0.1, 9.0, 10.0)
    >>> f"{1000 * swing.amplitude:.1f} mm, {swing.lag:.2f} s late"
    '14.2 mm, 2.05 s late'
    """
    amplitude = checked("swing", amplitude, 0.0, 5.0, "m", "Give half the swing in metres.")
    period = checked("period", period, 0.1, 1000.0, "s", "Give seconds.")
    constant = checked("time constant", time_constant, 0.0, 1e5, "s", "Give seconds.")
    angle = 2 * pi / period * constant
    share = 1 / (1 + angle ** 2) ** 0.5
    late = np.arctan(angle) if np.ndim(angle) else atan(angle)
    return DampedSwing(amplitude * share, share, late * period / (2 * pi), constant)


def throttled_swing(amplitude, period, glass_area, opening_area, discharge=DISCHARGE,
                    gravity=STANDARD_GRAVITY):
    """Return what a throttled water cock leaves of a sinusoidal level swing.

    A gap of amplitude E drives the first harmonic of ``C_d a sqrt(2 g E) sqrt|sin|``, so
    ``tau = A sqrt(E) / (1.1128 C_d a sqrt(2 g))`` with ``E = amplitude omega tau share``

    Parameters
    ----------
    amplitude : float [m]
        Half the true swing, 0 to 5.
    period : float [s]
        Period of the swing, 0.1 to 1000.
    glass_area, opening_area : float [m2]
        Bore area of the glass and area left open in the cock.
    discharge : float [1]
        Discharge coefficient, 0.1 to 1.
    gravity : float [m/s2]
        Acceleration of gravity.

    Returns
    -------
    DampedSwing
        Amplitude [m], share [1], lag [s] and the time constant [s] of the equal lag.

    Raises
    ------
    InputError
        A value outside its range.

    Notes
    -----
    The lag grows with the swing: a large roll is damped more than a small one. The
    amplitude is that of the first harmonic; the peaks themselves reach up to 8 % further.

    References
    ----------
    [ORIFICE] flow; [FIRST-ORDER-LAG] harmonic balance, root by scipy's brentq.

    Examples
    --------
    >>> swing = throttled_swing(0.1, 9.0, 113e-6, 5e-6)
    >>> f"{1000 * swing.amplitude:.0f} mm of 100 mm"
    '54 mm of 100 mm'
    """
    from scipy.optimize import brentq

    glass = checked("bore area of the glass", glass_area, 1e-6, 1.0, "m2",
                    "Give square metres: 113 mm2 is 113e-6.")
    opening = checked("open area of the cock", opening_area, 1e-10, 1.0, "m2",
                      "Give square metres: 1 mm2 is 1e-6.")
    discharge = checked("discharge coefficient", discharge, 0.1, 1.0, "")
    gravity = checked_gravity(gravity)
    ratio = glass / (ROOT_OF_SINE * discharge * opening * sqrt(2 * gravity))
    still = first_order_swing(amplitude, period, 0.0)
    amplitude = still.amplitude
    omega = 2 * pi / period
    if amplitude == 0:
        return still

    def surplus(angle):  # angle = omega tau; the gap lies between nothing and the whole swing
        gap = amplitude * angle / sqrt(1 + angle ** 2)
        return ratio * sqrt(gap) * omega - angle

    highest = ratio * sqrt(amplitude) * omega
    angle = brentq(surplus, min(1e-3, 1e-3 * highest ** 2), highest, xtol=1e-14)
    return first_order_swing(amplitude, period, angle / omega)
