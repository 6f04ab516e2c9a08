"""Why a cold glass must be warmed slowly: stress from a sudden difference of temperature."""

from dataclasses import dataclass

import numpy as np

from ..errors import InputError, checked
from .optics import BOROSILICATE, SODALIME


@dataclass(frozen=True, slots=True)
class GlassMechanics:
    """What a glass does when heated.

    Attributes
    ----------
    modulus : float [Pa]
        Modulus of elasticity.
    expansion : float [1/K]
        Linear expansion per kelvin.
    contraction_ratio : float [1]
        Sideways over lengthwise strain.
    source : str
        Where the numbers come from.
    """

    modulus: float
    expansion: float
    contraction_ratio: float
    source: str


MECHANICS = {
    SODALIME: GlassMechanics(70e9, 9.0e-6, 0.2, "EN 572-1, from memory"),
    BOROSILICATE: GlassMechanics(64e9, 3.3e-6, 0.2, "ISO 3585, from memory"),
}
"""Mechanical data of the two gauge glasses by name."""


def thermal_shock_stress(glass, temperature_difference):
    """Return the stress in the surface of a glass whose body stays at another temperature.

    ``sigma = E alpha dT / (1 - nu)``

    Parameters
    ----------
    glass : str
        "soda-lime glass" or "borosilicate glass 3.3".
    temperature_difference : float or array [K]
        Body less surface temperature: positive where the surface is chilled, which pulls
        it; -500 to 500.

    Returns
    -------
    float or array [Pa]
        Stress, positive for tension, of the shape of `temperature_difference`.

    Raises
    ------
    InputError
        Another glass, or a difference outside its range.

    Notes
    -----
    The worst case: the surface takes its new temperature at once and is fully held.
    Toughened glass carries a surface pressure that must be used up first.

    References
    ----------
    [THERMAL-STRESS]; [ISO-3585]; [EN-572-1].

    Examples
    --------
    >>> round(thermal_shock_stress("borosilicate glass 3.3", 100.0) / 1e6, 1)
    26.4
    """
    if glass not in MECHANICS:
        raise InputError(f"The glass {glass!r} is not known; give one of {', '.join(MECHANICS)}.")
    data = MECHANICS[glass]
    difference = checked("temperature difference", temperature_difference, -500.0, 500.0, "K")
    stress = data.modulus * data.expansion * difference / (1 - data.contraction_ratio)
    return stress if np.ndim(stress) else float(stress)
