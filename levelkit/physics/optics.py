"""Light at the boundary of two clear media: refraction, reflectance, the index of gauge glass.

Angles in radians, measured from the normal of the boundary. Indices of water and
steam come in as numbers.
"""

from dataclasses import dataclass

import numpy as np

from ..errors import InputError, checked

SODALIME, BOROSILICATE = "soda-lime glass", "borosilicate glass 3.3"

@dataclass(frozen=True, slots=True)
class Reflectance:
    """Share of light that a boundary throws back.

    Attributes
    ----------
    crosswise : float or array [1]
        Light that swings across the plane of incidence (s).
    in_plane : float or array [1]
        Light that swings in the plane of incidence (p).
    unpolarised : float or array [1]
        Mean of the two: lamp light.
    """

    crosswise: object
    in_plane: object
    unpolarised: object


def glass_refractive_index(glass, wavelength=587.6e-9):
    """Return the refractive index of a gauge glass in cold air.

    soda-lime ``n = 1.5130 - 0.003169 L2 + 0.003962 / L2``; borosilicate 3.3
    ``n2 - 1 = 0.3542 + 0.78657 L2/(L2 - 0.10856^2) + 0.18285 L2/(L2 - 4.427^2)``,
    with L2 the square of the wavelength in micrometres

    Parameters
    ----------
    glass : str
        "soda-lime glass" or "borosilicate glass 3.3".
    wavelength : float or array [m]
        Wavelength in vacuum, 400 to 800 nm; yellow helium light by default.

    Returns
    -------
    float or array [1]
        Refractive index, of the shape of `wavelength`.

    Raises
    ------
    InputError
        Another glass, or a wavelength that is not visible.

    Notes
    -----
    Borosilicate 3.3 is the laboratory and gauge glass; the optical glass called
    borosilicate crown (1.517) is another. Its change with temperature, some 1e-6 per
    kelvin, is left out. Toughening does not change the index to this accuracy.

    References
    ----------
    [SODALIME-1985] clear soda-lime glass; [INDEX-DATABASE] borosilicate glass 3.3.

    Examples
    --------
    >>> round(glass_refractive_index("soda-lime glass"), 3)
    1.523
    >>> round(glass_refractive_index("borosilicate glass 3.3"), 3)
    1.471
    """
    square = np.square(1e6 * checked("wavelength", wavelength, 400e-9, 800e-9, "m",
                                     "Give metres of visible light: 587.6 nm is 587.6e-9."))
    if glass == SODALIME:
        index = 1.5130 - 0.003169 * square + 0.003962 / square
    elif glass == BOROSILICATE:
        index = np.sqrt(1.3542 + 0.78657 * square / (square - 0.10856**2)
                        + 0.18285 * square / (square - 4.427**2))
    else:
        raise InputError(f"The glass {glass!r} is not known; give {SODALIME!r} or "
                         f"{BOROSILICATE!r}.")
    return _plain(index)


def critical_angle(index, index_beyond):
    """Return the incidence beyond which a boundary reflects all light.

    ``sin(theta_c) = n2 / n1``

    Parameters
    ----------
    index : float or array [1]
        Refractive index on the side of the light, 1 to 3.
    index_beyond : float or array [1]
        Refractive index beyond the boundary, 1 to 3.

    Returns
    -------
    float or array [rad]
        Critical angle; NaN where the far side bends light at least as much, because
        light then passes at every angle.

    Raises
    ------
    InputError
        An index outside its range.

    References
    ----------
    [OPTICS-PLANE-BOUNDARY] law of refraction at grazing exit.

    Examples
    --------
    >>> import math
    >>> round(math.degrees(critical_angle(1.523, 1.0)), 2)
    41.04
    """
    near, far = _checked_index("index", index), _checked_index("index beyond", index_beyond)
    ratio = np.asarray(np.divide(far, near))
    return _plain(np.where(ratio < 1, np.arcsin(np.minimum(ratio, 1.0)), np.nan))


def refraction_angle(incidence, index, index_beyond):
    """Return the angle of the light that has passed a boundary.

    ``n1 sin(theta_1) = n2 sin(theta_2)``

    Parameters
    ----------
    incidence : float or array [rad]
        Angle from the normal, 0 to pi/2.
    index, index_beyond : float or array [1]
        Refractive indices before and beyond the boundary, 1 to 3.

    Returns
    -------
    float or array [rad]
        Angle from the normal beyond; NaN where no light passes (total reflection).

    Raises
    ------
    InputError
        A value outside its range.

    References
    ----------
    [OPTICS-PLANE-BOUNDARY] law of refraction.

    Examples
    --------
    >>> import math
    >>> round(math.degrees(refraction_angle(math.pi / 4, 1.523, 1.333)), 1)
    53.9
    """
    sine = np.asarray(_sine_beyond(*_checked_light(incidence, index, index_beyond)))
    return _plain(np.where(sine <= 1, np.arcsin(np.minimum(sine, 1.0)), np.nan))


def reflectance(incidence, index, index_beyond):
    """Return the share of light that a clean, smooth boundary throws back.

    ``R_s = ((n1 cos1 - n2 cos2)/(n1 cos1 + n2 cos2))^2``,
    ``R_p = ((n2 cos1 - n1 cos2)/(n2 cos1 + n1 cos2))^2``

    Parameters
    ----------
    incidence : float or array [rad]
        Angle from the normal, 0 to pi/2.
    index, index_beyond : float or array [1]
        Refractive indices before and beyond the boundary, 1 to 3.

    Returns
    -------
    Reflectance [1]
        Crosswise, in-plane and unpolarised share; 1 at total reflection.

    Raises
    ------
    InputError
        A value outside its range.

    Notes
    -----
    At 45 degrees the in-plane share is the square of the crosswise one, whatever the
    two indices.

    References
    ----------
    [OPTICS-PLANE-BOUNDARY] reflectance formulas.

    Examples
    --------
    >>> round(reflectance(0.0, 1.0, 1.5).unpolarised, 3)
    0.04
    """
    angle, near, far = _checked_light(incidence, index, index_beyond)
    sine = _sine_beyond(angle, near, far)
    cos1, cos2 = np.cos(angle), np.sqrt(np.maximum(1 - np.square(sine), 0.0))
    crosswise = np.square((near * cos1 - far * cos2) / (near * cos1 + far * cos2))
    in_plane = np.square((far * cos1 - near * cos2) / (far * cos1 + near * cos2))
    # at total reflection cos2 is 0 and both shares come out as 1 by themselves
    return Reflectance(_plain(crosswise), _plain(in_plane), _plain((crosswise + in_plane) / 2))


def _checked_index(name, index):
    return checked(f"refractive {name}", index, 1.0, 3.0, "", "Air is 1, water 1.33, glass 1.5.")


def _checked_light(incidence, index, index_beyond):
    return (checked("incidence", incidence, 0.0, np.pi / 2, "rad",
                    "Give radians from the normal: 45 degrees is 0.785."),
            _checked_index("index", index), _checked_index("index beyond", index_beyond))


def _sine_beyond(incidence, index, index_beyond):
    return index * np.sin(incidence) / index_beyond


def _plain(value):
    return value if np.ndim(value) else float(value)
