"""How warm the reference leg is, and when its water begins to boil.

Near the chamber the leg is hot: the pipe conducts heat down from it and loses it to the
air. The excess temperature dies away exponentially, as along any thin stem.
"""

from functools import cache

import numpy as np

from ..constants import STANDARD_GRAVITY
from ..errors import InputError, checked
from ._scalar import checked_gravity
from .circulation import glass_temperature

POINTS = 32


@cache
def _quadrature():
    """Abscissae and weights of the quadrature on 0 to 1."""
    points, weights = np.polynomial.legendre.leggauss(POINTS)
    return 0.5 * (points + 1), 0.5 * weights


def leg_temperature(distance, top_temperature, ambient_temperature, decay_length):
    """Return the temperature of the reference leg at a distance below the chamber.

    ``T = t_a + (t_top - t_a) exp(-s m)``, decay length 1/m

    Parameters
    ----------
    distance : float or array [m]
        Distance below the chamber, 0 to 5.
    top_temperature, ambient_temperature : float [K]
        Temperature of the chamber and of the air.
    decay_length : float [m]
        Length over which the excess falls to 1/e: one over the decay rate of the stem;
        greater than 0.

    Returns
    -------
    float or array [K]
        Temperature, same shape as `distance`.

    Raises
    ------
    InputError
        A value outside its range.

    References
    ----------
    [FIN-THEORY] long stem of uniform section, the same law as in a circulating glass.

    Examples
    --------
    >>> round(leg_temperature(0.11, 549.8, 318.15, 0.11) - 273.15, 1)
    130.2
    """
    return glass_temperature(distance, top_temperature, ambient_temperature, decay_length)


def mean_leg_temperature(length, top_temperature, ambient_temperature, decay_length):
    """Return the mean temperature of a leg that conducts heat down from the chamber.

    ``T_mean = t_a + (t_top - t_a) (1 - exp(-m H)) / (m H)``

    Parameters
    ----------
    length : float or array [m]
        Length of the leg, 0.001 to 5.
    top_temperature, ambient_temperature : float [K]
        Temperature of the chamber and of the air.
    decay_length : float [m]
        Length over which the excess falls to 1/e.

    Returns
    -------
    float or array [K]
        Mean over the length, same shape.

    Raises
    ------
    InputError
        A value outside its range.

    References
    ----------
    [FIN-THEORY] integral of the exponential.

    Examples
    --------
    >>> round(mean_leg_temperature(0.8, 549.82, 318.15, 0.1138) - 273.15, 1)
    77.9
    """
    length = checked("length of the leg", length, 1e-3, 5.0, "m", "Give metres.")
    decay_length = checked("decay length", decay_length, 1e-6, 1e3, "m")
    share = -np.expm1(-length / decay_length) * decay_length / length
    top, ambient = _checked_temperatures(top_temperature, ambient_temperature)
    mean = ambient + (top - ambient) * share
    return mean if np.ndim(mean) else float(mean)


def mean_leg_density(length, top_temperature, ambient_temperature, decay_length, water_density):
    """Return the mean density of a leg that conducts heat down from the chamber.

    ``rho_r = (1/H) integral of rho(T(s)) ds``

    Parameters
    ----------
    length : float [m]
        Length of the leg, 0.001 to 5.
    top_temperature, ambient_temperature : float [K]
        Temperature of the chamber and of the air.
    decay_length : float [m]
        Length over which the excess falls to 1/e.
    water_density : callable [K -> kg/m3]
        Density of water at drum pressure, for an array of temperatures.

    Returns
    -------
    float [kg/m3]
        The density to calibrate with; less than that at the mean temperature, because
        water expands faster the hotter it is.

    Raises
    ------
    InputError
        A value outside its range.

    References
    ----------
    [FIN-THEORY] profile; quadrature with 32 points.

    Examples
    --------
    >>> from levelkit.properties import compressed_water_density
    >>> density = mean_leg_density(0.8, 549.8, 318.15, 0.1138,
    ...                            lambda t: compressed_water_density(6.1e6, t))
    >>> round(density, 1)
    969.2
    """
    length = checked("length of the leg", length, 1e-3, 5.0, "m", "Give metres.")
    points, weights = _quadrature()
    temperature = leg_temperature(points * length, top_temperature, ambient_temperature,
                                  decay_length)
    return float(np.sum(weights * water_density(temperature)))


def flash_drum_pressure(leg_saturation_pressure, depth=0.0, leg_density=1000.0,
                        gravity=STANDARD_GRAVITY):
    """Return the drum pressure below which the water of the reference leg boils.

    ``p = p_sat(T_leg) - rho_r g s``

    Parameters
    ----------
    leg_saturation_pressure : float or array [Pa]
        Saturation pressure at the temperature of the leg there, absolute.
    depth : float or array [m]
        Depth of that place below the surface in the chamber, 0 to 20.
    leg_density : float or array [kg/m3]
        Density of the leg water above it.
    gravity : float [m/s2]
        Acceleration of gravity.

    Returns
    -------
    float or array [Pa]
        Absolute drum pressure at which boiling begins.

    Raises
    ------
    InputError
        A value outside its range.

    Notes
    -----
    Water is expelled from the leg: the instrument jumps HIGH, and comes back only as
    condensate fills the leg again. Dissolved gas does the same to a cold leg.

    References
    ----------
    [NRC-BULLETIN-79-21] names the effect; [NRC-IN-92-54] gas coming out of solution.

    Examples
    --------
    >>> round((flash_drum_pressure(4.76e5) - 1.01e5) / 1e5, 2)
    3.75
    """
    gravity = checked_gravity(gravity)
    boiling = checked("saturation pressure of the leg", leg_saturation_pressure, 1e3, 2.2e7, "Pa",
                      "Absolute pressure.")
    depth = checked("depth below the chamber", depth, 0.0, 20.0, "m", "Give metres.")
    density = checked("leg density", leg_density, 1.0, 1100.0, "kg/m3")
    return boiling - density * gravity * depth


def flashing_length(drum_pressure, length, top_temperature, ambient_temperature, decay_length,
                    leg_density, saturation_temperature, gravity=STANDARD_GRAVITY):
    """Return how much of the reference leg is too hot to stay water at a drum pressure.

    The place where ``T(s) = T_sat(p + rho_r g s)``: above it the leg boils and empties.

    Parameters
    ----------
    drum_pressure : float [Pa]
        Absolute drum pressure after the fall.
    length : float [m]
        Length of the leg, 0.001 to 5.
    top_temperature, ambient_temperature : float [K]
        Temperature of the chamber before the fall, and of the air.
    decay_length : float [m]
        Length over which the excess falls to 1/e.
    leg_density : float [kg/m3]
        Density of the leg water.
    saturation_temperature : callable [Pa -> K]
        Saturation temperature at a pressure.
    gravity : float [m/s2]
        Acceleration of gravity.

    Returns
    -------
    float [m]
        Length from the top that boils; 0 where the leg stays water.

    Raises
    ------
    InputError
        A value outside its range.

    Notes
    -----
    Fast fall of pressure: the leg has no time to cool. All of the boiling length is
    taken as lost, which is the worst case.

    References
    ----------
    [NRC-BULLETIN-79-21] names the effect; profile of [FIN-THEORY]; root by scipy's brentq.

    Examples
    --------
    >>> from levelkit.properties import saturation_temperature
    >>> lost = flashing_length(4.01e5, 0.8, 549.8, 318.15, 0.1138, 969.0,
    ...                        saturation_temperature)
    >>> f"{1000 * lost:.0f} mm"
    '97 mm'
    """
    from scipy.optimize import brentq

    length = checked("length of the leg", length, 1e-3, 5.0, "m", "Give metres.")
    pressure = checked("absolute drum pressure", drum_pressure, 1e3, 2e7, "Pa")
    checked("leg water density", leg_density, 1.0, 1100.0, "kg/m3")
    gravity = checked_gravity(gravity)
    top_temperature, ambient_temperature = _checked_temperatures(top_temperature,
                                                                 ambient_temperature)
    if top_temperature < ambient_temperature:
        raise InputError(f"The chamber is at {top_temperature:.4g} K and the air at "
                         f"{ambient_temperature:.4g} K; the chamber must be the warmer one.")

    def too_hot(distance):
        boils = saturation_temperature(pressure + leg_density * gravity * distance)
        return leg_temperature(distance, top_temperature, ambient_temperature,
                               decay_length) - boils

    if too_hot(0.0) <= 0.0:
        return 0.0
    if too_hot(length) >= 0.0:
        return length
    return float(brentq(too_hot, 0.0, length, xtol=1e-9))


def _checked_temperatures(top, ambient):
    return tuple(checked(name, value, 200.0, 2000.0, "K",
                         "Give kelvin: 100 degrees Celsius is 373.15 K.")
                 for name, value in (("temperature of the chamber", top),
                                     ("air temperature", ambient)))
