"""The most that a bore passes of boiling water or of steam: homogeneous equilibrium.

Water and steam are taken to share one velocity and to be in equilibrium at every
pressure. Both make the flow too small: in a short passage water has no time to flash,
and steam slips ahead. So the homogeneous equilibrium flow is a LOWER bound for a clear
bore of the stated area; friction and narrower cocks before it are another matter and
belong to the discharge coefficient.
"""

from dataclasses import dataclass

import numpy as np

from ..errors import InputError, checked

WATER, STEAM = "water", "steam"
_LEAST_RATIO = 0.3  # well below the critical ratio of steam, 0.577
_POINTS = 48


@dataclass(frozen=True, slots=True)
class CriticalFlow:
    """Flow through an ideal nozzle.

    Attributes
    ----------
    mass_flux : float or array [kg/(s m2)]
        Mass flow per area of the throat.
    throat_pressure : float or array [Pa]
        Absolute pressure there; above the back pressure where the flow is critical.
    throat_steam_share : float or array [1]
        Mass share of steam there.
    """

    mass_flux: object
    throat_pressure: object
    throat_steam_share: object


def critical_flow(pressure, start, saturation, back_pressure=None):
    """Return the homogeneous equilibrium flow of saturated water or steam.

    ``G = max over p of rho(p, s_0) sqrt(2 (h_0 - h(p, s_0)))``, p not below the back pressure

    Parameters
    ----------
    pressure : float or array [Pa]
        Absolute pressure of the fluid at rest.
    start : str
        "water" or "steam": what enters, saturated.
    saturation : callable [Pa -> kg/m3, J/kg, J/(kg K)]
        Gives an object with water and steam density, enthalpy and entropy for an array
        of absolute pressures, such as ``levelkit.properties.saturated_fluid``.
    back_pressure : float or None [Pa]
        Absolute pressure outside; None for a vacuum.

    Returns
    -------
    CriticalFlow
        Mass flux [kg/(s m2)], throat pressure [Pa], steam share [1], of the shape of
        `pressure`.

    Raises
    ------
    InputError
        Unknown start, or a pressure outside the range of `saturation` or not above the
        back pressure.

    Notes
    -----
    Two sweeps over the throat pressure, the second between the neighbours of the best
    point of the first: the flux is flat there and good to 1e-6.

    References
    ----------
    [CRITICAL-FLOW]; [TWO-PHASE-STEAM-WATER] measured flow is above it.

    Examples
    --------
    >>> from levelkit.properties import saturated_fluid
    >>> flow = critical_flow(1e6, "water", saturated_fluid)
    >>> f"{flow.mass_flux:.0f} kg/(s m2) at {flow.throat_pressure / 1e5:.1f} bar"
    '6441 kg/(s m2) at 8.9 bar'
    """
    if start not in (WATER, STEAM):
        raise InputError(f"The fluid at rest is {start!r}; give {WATER!r} or {STEAM!r}.")
    rest_pressure = np.atleast_1d(checked("absolute pressure", pressure, 1e3, 2e7, "Pa",
                                          "Give the absolute pressure at rest in pascal."))
    lowest = _LEAST_RATIO * rest_pressure
    if back_pressure is not None:
        outside = checked("back pressure", back_pressure, 0.0, float(rest_pressure.min()), "Pa",
                          "It cannot exceed the pressure at rest.")
        lowest = np.maximum(lowest, outside)
    rest = saturation(rest_pressure)
    entropy, enthalpy = ((rest.water_entropy, rest.water_enthalpy) if start == WATER
                         else (rest.steam_entropy, rest.steam_enthalpy))

    def expanded(throat):
        """Mass flux and steam share at trial throat pressures, shape (points, pressures)."""
        fluid = saturation(throat)
        share = (entropy - fluid.water_entropy) / (fluid.steam_entropy - fluid.water_entropy)
        fall = enthalpy - (fluid.water_enthalpy
                           + share * (fluid.steam_enthalpy - fluid.water_enthalpy))
        volume = (1 - share) / fluid.water_density + share / fluid.steam_density
        return np.sqrt(2 * np.maximum(fall, 0.0)) / volume, share

    low, high = lowest, rest_pressure
    columns = np.arange(rest_pressure.size)
    for _ in range(2):
        throat = low + (high - low) * np.linspace(0, 1, _POINTS)[:, None]
        flux, share = expanded(throat)
        best = flux.argmax(axis=0)
        low = throat[np.maximum(best - 1, 0), columns]
        high = throat[np.minimum(best + 1, _POINTS - 1), columns]
    found = [array[best, columns] for array in (flux, throat, share)]
    if not np.ndim(pressure):
        found = [float(array[0]) for array in found]
    return CriticalFlow(*found)
