"""The reflex glass: why steam looks bright and water dark, and when that fails."""

from dataclasses import dataclass

import numpy as np

from ..errors import checked
from .optics import critical_angle, reflectance

GROOVE_ANGLE = np.pi / 4
"""Incidence on a groove face of light that meets the front of the glass squarely [rad]."""

FAILING_RATIO = 3.0
"""Below this brightness ratio the two spaces are called hard to tell apart: our own choice."""


@dataclass(frozen=True, slots=True)
class GrooveView:
    """A grooved glass against steam and against water.

    Attributes
    ----------
    critical_angle_steam, critical_angle_water : float or array [rad]
        Steepest incidence at which light still passes; NaN where the fluid bends light
        as much as the glass, so that none exists.
    steam_brightness, water_brightness : float or array [1]
        Share of the light sent in that two groove faces send back to the eye.
    ratio : float or array [1]
        Steam over water brightness, both with the glare of the front face added.
    side_view_limit : float or array [rad]
        How far from the square view an eye may stand, across the grooves, before the
        steam part loses total reflection; 0 where it has none at all.
    contrast : str or array of str
        "clear", or why it fails.
    """

    critical_angle_steam: object
    critical_angle_water: object
    steam_brightness: object
    water_brightness: object
    ratio: object
    side_view_limit: object
    contrast: object


def groove_view(glass_index, steam_index, water_index, side_angle=0.0, veil=0.0):
    """Return how bright steam and water look through a glass with right-angled grooves.

    Light enters the front, meets one groove face at 45 degrees plus and the other at
    45 degrees minus the side angle inside the glass, and returns: ``B = mean over s and
    p of R(45 + a) R(45 - a)``

    Parameters
    ----------
    glass_index, steam_index, water_index : float or array [1]
        Refractive indices, 1 to 3.
    side_angle : float or array [rad]
        Angle of view in air from the square view, across the grooves, 0 to 1.2.
    veil : float or array [1]
        Share of the light that dirt or etching takes from the clean path and scatters
        back to the eye, 0 (clean) to 1.

    Returns
    -------
    GrooveView [rad, 1]
        Critical angles, brightness of both spaces, their ratio with front glare, the
        limit of the side view and whether the contrast holds.

    Raises
    ------
    InputError
        A value outside its range.

    Notes
    -----
    Lamp beside the eye. A condensate film of even thickness on a groove does not spoil
    total reflection (the film's outer face meets the same condition); water that fills
    the groove, scale or etching does. Glare (the reflectance of the front face) and
    veil are added to both spaces alike: they hide the difference.

    References
    ----------
    [OPTICS-PLANE-BOUNDARY] law of refraction and reflectance formulas, twice.

    Examples
    --------
    >>> view = groove_view(1.523, 1.002, 1.294)
    >>> view.steam_brightness, view.water_brightness < 0.001, view.contrast
    (1.0, True, 'clear')
    """
    glass = _checked_index("glass", glass_index)
    steam = _checked_index("steam", steam_index)
    water = _checked_index("water", water_index)
    side = checked("side angle", side_angle, 0.0, 1.2, "rad", "Give radians: 10 degrees is 0.175.")
    veil = checked("veil of dirt", veil, 0.0, 1.0, "", "0 is clean, 1 is blind.")
    inside = np.arcsin(np.sin(side) / glass)
    brightness = []
    for fluid in (steam, water):
        one = reflectance(GROOVE_ANGLE + inside, glass, fluid)
        two = reflectance(GROOVE_ANGLE - inside, glass, fluid)
        brightness.append(_plain((np.multiply(one.crosswise, two.crosswise)
                                  + np.multiply(one.in_plane, two.in_plane)) / 2))
    bright, dark = brightness
    glare = reflectance(side, 1.0, glass).unpolarised + veil
    ratio = _plain(((1 - veil) * bright + glare) / ((1 - veil) * dark + glare))
    limit_steam, limit_water = critical_angle(glass, steam), critical_angle(glass, water)
    spare = np.maximum(np.nan_to_num(GROOVE_ANGLE - limit_steam, nan=0.0), 0.0)
    side_limit = np.arcsin(np.minimum(glass * np.sin(spare), 1.0))
    contrast = np.select(
        [np.greater(dark, 0.5), np.less(bright, 0.5), np.less(ratio, FAILING_RATIO)],
        ["fails: water reflects as steam does", "fails: steam part no longer reflects",
         "fails: glare hides the difference"], "clear")
    if not np.ndim(contrast):
        contrast = str(contrast)
    return GrooveView(limit_steam, limit_water, bright, dark, ratio, _plain(side_limit), contrast)


def _checked_index(name, index):
    return checked(f"refractive index of the {name}", index, 1.0, 3.0, "",
                   "Air is 1, water 1.33, glass 1.5.")


def _plain(value):
    return value if np.ndim(value) else float(value)
