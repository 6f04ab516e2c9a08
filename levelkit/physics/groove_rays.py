"""A ray of light followed through one ridge of a grooved glass, for a drawing.

Ridge with its tip at the origin, faces leaning 45 degrees down to (-1, -1) and (1, -1), glass
below them, the flat front at y = -depth; lengths in heights of the ridge.
"""

from dataclasses import dataclass
from math import acos, asin, cos, degrees, pi, sin

import numpy as np

from ..errors import InputError, checked
from .optics import reflectance, refraction_angle

AIR, GLASS, FLUID = "air", "glass", "fluid"
_RUN = 0.55  # how far a ray is followed in air and in the fluid


@dataclass(frozen=True, slots=True)
class RayPiece:
    """One straight piece of a ray.

    Attributes
    ----------
    start, end : tuple of (float, float) [ridge heights]
        Where it begins and ends.
    share : float [1]
        Share of the light sent in that it carries, mean over both ways of swinging.
    place : str
        "air", "glass" or "fluid".
    incidence : float [rad]
        Angle from the square with which it meets a groove face; NaN where it meets none.
    """

    start: tuple
    end: tuple
    share: float
    place: str
    incidence: float


def groove_ray(glass_index, fluid_index, entry=0.6, side_angle=0.0, depth=1.5):
    """Return the pieces of a ray that enters a grooved glass from the front.

    Law of refraction at every face; at each groove face the reflected share stays in the
    ridge and the rest leaves into the fluid

    Parameters
    ----------
    glass_index, fluid_index : float [1]
        Refractive indices, 1 to 3.
    entry : float [ridge heights]
        Distance below the tip at which the ray meets the left face, 0.05 to 0.95.
    side_angle : float [rad]
        Angle of the ray in air from the square view, 0 to 1.2; leaning to the right.
    depth : float [ridge heights]
        From the tip to the front, more than 1.

    Returns
    -------
    tuple of RayPiece [ridge heights, 1, rad]
        In the order of travel; what leaves into the fluid follows the piece that it left.

    Raises
    ------
    InputError
        A value outside its range, or a glass that bends light from the side so little that
        it runs flatter than the faces and never meets the left one.

    Notes
    -----
    The share lost at the front is left out. Any ray that meets one face meets the other: the
    last share equals the brightness of :func:`levelkit.physics.reflex_glass.groove_view`, and
    the light leaves as it came.

    References
    ----------
    [OPTICS-PLANE-BOUNDARY] law of refraction and reflectance formulas.

    Examples
    --------
    >>> [piece.place for piece in groove_ray(1.523, 1.002)]  # against steam: all comes back
    ['air', 'glass', 'glass', 'glass', 'air']
    >>> round(groove_ray(1.523, 1.29)[2].share, 2)  # against water: it leaves at the first face
    0.98
    """
    glass = checked("refractive index of the glass", glass_index, 1.0, 3.0, "")
    fluid = checked("refractive index of the fluid", fluid_index, 1.0, 3.0, "")
    entry = checked("entry", entry, 0.05, 0.95, "ridge heights")
    side = checked("side angle", side_angle, 0.0, 1.2, "rad", "Give radians: 10 degrees is 0.175.")
    depth = checked("depth", depth, 1.01, 10.0, "ridge heights")
    inside = asin(sin(side) / glass)
    if inside >= pi / 4:
        raise InputError(
            f"In a glass of index {glass:g} the light runs {degrees(inside):.3g} degrees off the "
            "square view; the allowed range is 0 to 45 degrees. Take a denser glass or less "
            "side angle.")
    direction, point = np.array([sin(inside), cos(inside)]), np.array([-entry, -entry])
    front = point - direction * (depth - entry) / direction[1]
    pieces = [RayPiece(_pair(front - _RUN * np.array([sin(side), cos(side)])), _pair(front), 1.0,
                       AIR, np.nan)]
    shares, start = np.ones(2), front  # light that swings crosswise and in the plane
    for face in (-1, 1):
        square = np.array([face, 1.0]) / 2**0.5
        angle = acos(min(max(float(direction @ square), 0.0), 1.0))
        pieces.append(RayPiece(_pair(start), _pair(point), _mean(shares), GLASS, angle))
        back = reflectance(angle, glass, fluid)
        kept = shares * (back.crosswise, back.in_plane)
        if _mean(kept) < _mean(shares):
            beyond = _refracted(direction, square, angle, glass, fluid)
            pieces.append(RayPiece(_pair(point), _pair(point + _RUN * beyond),
                                   _mean(shares - kept), FLUID, np.nan))
        direction, shares, start = direction - 2 * (direction @ square) * square, kept, point
        if face < 0:
            run = (-point[1] - point[0]) / (direction[0] + direction[1])
            point = start + run * direction
    end = start + direction * (-depth - start[1]) / direction[1]
    pieces.append(RayPiece(_pair(start), _pair(end), _mean(shares), GLASS, np.nan))
    out = asin(min(max(glass * float(direction[0]), -1.0), 1.0))
    pieces.append(RayPiece(_pair(end), _pair(end + _RUN * np.array([sin(out), -cos(out)])),
                           _mean(shares), AIR, np.nan))
    return tuple(pieces)


def _refracted(direction, square, angle, index, index_beyond):
    """Direction of the light that has passed a face."""
    ratio = index / index_beyond
    return ratio * direction + (cos(refraction_angle(angle, index, index_beyond))
                                - ratio * cos(angle)) * square


def _pair(point):
    return float(point[0]), float(point[1])


def _mean(shares):
    return float(np.mean(shares))
