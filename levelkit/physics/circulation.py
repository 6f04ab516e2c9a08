"""How warm the water in a gauge glass is: condensate circulation.

The steam part of the glass condenses steam; the condensate runs into the glass
water at nearly saturation temperature, passes down, cools, and returns to the drum
through the water cock. One dimension, no heat along the metal, no subcooling of the
film: a teaching model. Real glasses lie between it and a glass of one temperature.
"""

from dataclasses import dataclass
from functools import cache

import numpy as np

from ..errors import InputError, checked

POINTS = 24


@dataclass(frozen=True, slots=True)
class CirculationState:
    """A glass whose water is warmed by its own condensate.

    Attributes
    ----------
    level : float [m]
        True (collapsed) drum level above the water connection.
    drum_water_density, steam_density : float [kg/m3]
        Saturated water and steam of the drum.
    saturation_temperature, ambient_temperature : float [K]
        Temperature of the steam and of the air around the glass.
    latent_heat : float [J/kg]
        Heat given up by condensing steam.
    heat_capacity : float [J/(kg K)]
        Heat capacity of the glass water.
    steam_connection : float [m]
        Height of the steam cock above the water cock.
    extra_condensing_length : float [m]
        Length of top fitting and pipe that also condenses steam.
    wet_to_dry_heat_loss : float [1]
        Heat loss per metre of the water part over that of the steam part.
    """

    level: float
    drum_water_density: float
    steam_density: float
    saturation_temperature: float
    ambient_temperature: float
    latent_heat: float
    heat_capacity: float
    steam_connection: float
    extra_condensing_length: float = 0.1
    wet_to_dry_heat_loss: float = 1.0


@dataclass(frozen=True, slots=True)
class CirculationResult:
    """A circulating glass.

    Attributes
    ----------
    indicated_level : float [m]
        Height of the glass water above the connection.
    error : float [m]
        Indicated minus true level: negative reads LOW.
    mean_density : float [kg/m3]
        Mean density of the glass water.
    mean_temperature : float [K]
        Mean temperature of the glass water.
    decay_length : float [m]
        Distance below the surface over which the excess temperature falls to 1/e.
    """

    indicated_level: float
    error: float
    mean_density: float
    mean_temperature: float
    decay_length: float


@cache
def _quadrature():
    """Abscissae and weights of the quadrature on 0 to 1."""
    points, weights = np.polynomial.legendre.leggauss(POINTS)
    return 0.5 * (points + 1), 0.5 * weights


def glass_temperature(depth, saturation_temperature, ambient_temperature, decay_length):
    """Return the temperature of circulating glass water at a depth below its surface.

    ``T = t_a + (t_s - t_a) exp(-depth / lambda)``

    Parameters
    ----------
    depth : float or array [m]
        Depth below the surface in the glass, 0 to 5.
    saturation_temperature, ambient_temperature : float [K]
        Temperature of the steam and of the air.
    decay_length : float [m]
        Length over which the excess falls to 1/e; greater than 0.

    Returns
    -------
    float or array [K]
        Temperature, same shape as `depth`.

    Raises
    ------
    InputError
        A value outside its range.

    References
    ----------
    [CIRCULATION-MODEL] heat balance of a stream that loses heat in proportion to its excess.

    Examples
    --------
    >>> round(glass_temperature(0.0, 549.8, 313.15, 0.2), 1)
    549.8
    """
    depth = checked("depth", depth, 0.0, 5.0, "m")
    decay_length = checked("decay length", decay_length, 1e-9, 1e3, "m")
    hot, ambient = (checked(name, value, 200.0, 2000.0, "K",
                            "Give kelvin: 100 degrees Celsius is 373.15 K.")
                    for name, value in (("saturation temperature", saturation_temperature),
                                        ("air temperature", ambient_temperature)))
    temperature = ambient + (hot - ambient) * np.exp(-depth / decay_length)
    return temperature if np.ndim(temperature) else float(temperature)


def circulating_glass(state, water_density):
    """Return what a glass shows whose water is warmed by its own condensate.

    ``integral over the glass of [rho(T(z)) - rho_g] dz = (rho_f - rho_g) h`` with
    ``lambda = (U'_s/U'_w)(L - y + L_e) c_p (t_s - t_a) / h_fg``

    Parameters
    ----------
    state : CirculationState [m, kg/m3, K, J/kg]
        Level, densities, temperatures, lengths; scalars.
    water_density : callable [K -> kg/m3]
        Density of water at drum pressure, for an array of temperatures.

    Returns
    -------
    CirculationResult
        Indicated level [m], error [m], mean density [kg/m3], mean temperature [K],
        decay length [m].

    Raises
    ------
    InputError
        A value outside its range, or a level so high that the glass is full and
        nothing is left to condense steam.

    Notes
    -----
    If wet and dry lengths lose heat alike, the heat loss per metre cancels. The
    level at which the circulation carries no heat (level 0) reads 0.

    References
    ----------
    [CIRCULATION-MODEL] own derivation; root by scipy's brentq, quadrature with 24 points.

    Examples
    --------
    >>> from levelkit.properties import compressed_water_density
    >>> state = CirculationState(0.25, 756.12, 31.377, 549.82, 313.15, 1564.1e3, 5226.0, 0.5)
    >>> result = circulating_glass(state, lambda t: compressed_water_density(6.1e6, t))
    >>> f"{1000 * result.indicated_level:.1f} mm"
    '220.0 mm'
    """
    from scipy.optimize import brentq

    top = checked("steam connection", state.steam_connection, 0.05, 5.0, "m")
    level = checked("drum level", state.level, 0.0, top, "m",
                    "The circulation model needs water and steam in the glass.")
    extra = checked("extra condensing length", state.extra_condensing_length, 0.0, 5.0, "m")
    ratio = checked("ratio of wet to dry heat loss", state.wet_to_dry_heat_loss, 0.01, 100.0, "")
    checked("drum water density", state.drum_water_density, 1.0, 1100.0, "kg/m3")
    checked("steam density", state.steam_density, 0.0, 400.0, "kg/m3")
    checked("latent heat", state.latent_heat, 1e3, 3e6, "J/kg")
    checked("heat capacity", state.heat_capacity, 100.0, 1e6, "J/(kg K)")
    for name in ("saturation_temperature", "ambient_temperature"):
        checked(name.replace("_", " "), getattr(state, name), 200.0, 2000.0, "K")
    excess = state.saturation_temperature - state.ambient_temperature
    checked("excess of steam over air temperature", excess, 1.0, 700.0, "K",
            "The steam must be hotter than the air.")
    points, weights = _quadrature()
    head = (state.drum_water_density - state.steam_density) * level

    def decay_length(height):
        return ((top - height + extra) * state.heat_capacity * excess
                / (ratio * state.latent_heat))

    def mean(height, quantity):
        temperature = state.ambient_temperature + excess * np.exp(
            -points * height / decay_length(height))
        return float(np.sum(weights * quantity(temperature)))

    def surplus(height):
        return (mean(height, water_density) - state.steam_density) * height - head

    highest = top if extra > 1e-9 else top * (1 - 1e-9)
    if surplus(highest) < 0:
        raise InputError(
            f"drum level is {level:.4g} m; with this pressure the glass of {top:.4g} m would be "
            "full of water and nothing would condense. Lower the level."
        )
    height = brentq(surplus, 0.0, highest, xtol=1e-9) if level else 0.0
    return CirculationResult(height, height - level, mean(height, water_density),
                             mean(height, lambda t: t), decay_length(height))
