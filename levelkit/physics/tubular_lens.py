"""The tubular glass as a cylindrical lens: why the stripes behind it lean the other way.

Seen from above: tube axis at the origin, the distant eye on the positive x side, the
striped backing plate at x = -plate_distance. Offsets are across the line of sight. At
concentric faces index times distance from the axis stays constant along a ray, which
gives every point without a search.
"""

from dataclasses import dataclass

import numpy as np

from ..errors import checked


@dataclass(frozen=True, slots=True)
class TubularGlass:
    """A tubular gauge glass and the plate behind it.

    Attributes
    ----------
    bore_radius, outer_radius : float [m]
        Radii of the tube.
    glass_index : float [1]
        Refractive index of the tube.
    plate_distance : float [m]
        Distance of the backing plate behind the tube axis.
    """

    bore_radius: float
    outer_radius: float
    glass_index: float
    plate_distance: float

    def __post_init__(self):
        checked("bore radius", self.bore_radius, 1e-4, 0.1, "m", "Give metres: 6 mm is 0.006.")
        checked("outer radius", self.outer_radius, self.bore_radius * 1.001, 0.2, "m",
                "It must be larger than the bore radius.")
        checked("refractive glass index", self.glass_index, 1.3, 3.0, "")
        checked("plate distance", self.plate_distance, self.outer_radius, 1.0, "m",
                "The plate stands behind the tube: at least its outer radius from the axis.")


@dataclass(frozen=True, slots=True)
class LensView:
    """What the backing plate looks like through the tube.

    Attributes
    ----------
    focal_length : float [m]
        From the tube axis; negative where the filled tube spreads light.
    magnification : float [1]
        Plate millimetres seen per millimetre of tube, near the middle. Negative: the
        stripes lean the other way.
    reversed : bool
        True where the stripes lean the other way.
    """

    focal_length: float
    magnification: float
    reversed: bool


@dataclass(frozen=True, slots=True)
class LensRays:
    """Rays from a distant eye through the tube to the plate.

    Attributes
    ----------
    points : array [m]
        Shape (rays, 6, 2): eye end, entry into glass, into the bore, out of the bore,
        out of the glass, plate. A ray that misses the bore, or is thrown back by it,
        repeats its nearest point. NaN from where a ray never reaches the plate.
    plate_offset : array [m]
        Where each ray meets the plate; NaN where it does not.
    path : array of str
        "through the bore", "through the wall" or "thrown back by the bore".
    """

    points: object
    plate_offset: object
    path: object


def lens_view(tube, fill_index):
    """Return how the plate looks near the middle of a filled tube.

    ``1/f = 2 [(1 - 1/n_g)/R_o + (1/n_g - 1/n_f)/R_i]``, ``magnification = 1 - b/f``

    Parameters
    ----------
    tube : TubularGlass [m, 1]
        Tube and plate.
    fill_index : float [1]
        Refractive index of what fills the bore, 1 to 2.

    Returns
    -------
    LensView [m, 1]
        Focal length, magnification, whether the stripes lean the other way.

    Raises
    ------
    InputError
        An index outside its range.

    Notes
    -----
    Rays near the middle, distant eye. The stripes reverse only when the plate stands
    farther behind the axis than the focal length: with hot water, which bends light
    less, the plate must stand farther back.

    References
    ----------
    [OPTICS-PLANE-BOUNDARY] law of refraction at four concentric faces, small angles.

    Examples
    --------
    >>> tube = TubularGlass(0.006, 0.009, 1.473, 0.030)
    >>> lens_view(tube, 1.294).reversed, lens_view(tube, 1.0016).reversed
    (True, False)
    """
    fill = checked("refractive fill index", fill_index, 1.0, 2.0, "", "Water 1.33, steam 1.00.")
    power = 2 * ((1 - 1 / tube.glass_index) / tube.outer_radius
                 + (1 / tube.glass_index - 1 / fill) / tube.bore_radius)
    magnification = 1 - tube.plate_distance * power
    return LensView(1 / power if power else float("inf"), magnification, magnification < 0)


def lens_rays(tube, fill_index, offsets, eye_distance=0.05):
    """Return the rays that run from a distant eye through the tube to the plate.

    ``n r sin(angle)`` is constant along a ray

    Parameters
    ----------
    tube : TubularGlass [m, 1]
        Tube and plate.
    fill_index : float [1]
        Refractive index of what fills the bore, 1 to 2.
    offsets : float or array [m]
        Offsets of the rays at the eye, less than the outer radius either way.
    eye_distance : float [m]
        Where the drawn rays begin, in front of the axis.

    Returns
    -------
    LensRays [m]
        Points for a drawing, where each ray meets the plate, and its path.

    Raises
    ------
    InputError
        An index, offset or distance outside its range.

    References
    ----------
    [OPTICS-PLANE-BOUNDARY] law of refraction at four concentric faces.

    Examples
    --------
    >>> tube = TubularGlass(0.006, 0.009, 1.473, 0.030)
    >>> rays = lens_rays(tube, 1.294, [-0.002, 0.002])
    >>> (1e3 * rays.plate_offset).round(1).tolist()  # crossed over
    [0.4, -0.4]
    """
    fill = checked("refractive fill index", fill_index, 1.0, 2.0, "", "Water 1.33, steam 1.00.")
    outer, bore, plate = tube.outer_radius, tube.bore_radius, tube.plate_distance
    limit = outer * (1 - 1e-9)
    offsets = np.atleast_1d(checked("ray offset", offsets, -limit, limit, "m",
                                    "Give an offset inside the tube, in metres."))
    start = checked("eye distance", eye_distance, outer, 10.0, "m")
    side, height = np.sign(offsets), np.abs(offsets)
    in_glass, in_fill = height / tube.glass_index, height / fill
    misses, thrown_back = in_glass >= bore, (in_glass < bore) & (in_fill >= bore)

    nearest = np.maximum(in_glass, bore)  # radius at which the way inwards through glass ends
    wall = np.arccos(in_glass / outer) - np.arccos(np.minimum(in_glass / nearest, 1.0))
    across = np.where(misses | thrown_back, 0.0,
                      2 * np.arccos(np.minimum(in_fill / bore, 1.0)))
    entry = np.arcsin(height / outer)
    angles = np.stack([entry, entry + wall, entry + wall + across, entry + 2 * wall + across])
    radii = np.stack([np.full_like(height, outer), nearest, nearest, np.full_like(height, outer)])
    x, y = radii * np.cos(angles), radii * np.sin(angles)

    direction = angles[3] + entry
    reaches = (np.cos(direction) < -1e-9) & (x[3] > -plate)
    run = np.where(reaches, -plate - x[3], np.nan)
    meets = y[3] + run * np.tan(direction)
    x = np.concatenate([[np.full_like(height, start)], x, [np.where(reaches, -plate, np.nan)]])
    y = side * np.concatenate([[height], y, [meets]])
    path = np.select([misses, thrown_back], ["through the wall", "thrown back by the bore"],
                     "through the bore")
    return LensRays(np.stack([x, y], axis=-1).swapaxes(0, 1), side * meets, path)
