"""The outline of a horizontal drum, and sums over its sections.

A drum is a body of revolution: every section square to the axis is a circle, and a
plane cuts it in a straight line. So whatever a plane cuts off is an integral along the
axis, for any ends and any inclination.
"""

from dataclasses import dataclass
from functools import cache, lru_cache
from math import inf, sqrt

import numpy as np

from ..errors import InputError, checked

HEAD_DEPTHS = {"ellipsoidal": 0.5, "hemispherical": 1.0}
"""Depth of a head over the drum radius: half of it is what 2:1 ellipsoidal says."""
CROWN_RADIUS, KNUCKLE_RADIUS = 2.0, 0.2
"""Radii of a torispherical head over the drum radius (source DIN-28011)."""
HEADS = ("flat", *HEAD_DEPTHS, "torispherical")
_POINTS = 48


@dataclass(frozen=True, slots=True)
class Drum:
    """A horizontal cylindrical drum with two equal ends.

    Attributes
    ----------
    radius : float [m]
        Inside radius.
    length : float [m]
        Inside length of the cylindrical part.
    axis_height : float [m]
        Height of the centre line above the water connection.
    head : str
        "flat", "ellipsoidal" (2:1), "hemispherical", or "torispherical": a shallow dish
        of crown radius one drum diameter, rounded into the shell by a knuckle of a tenth
        of it.
    """

    radius: float
    length: float
    axis_height: float = 0.0
    head: str = "flat"

    def __post_init__(self):
        checked("drum radius", self.radius, 0.05, 5.0, "m",
                "Give the inside radius in metres, half the diameter.")
        checked("drum length", self.length, 0.05, 50.0, "m",
                "Give the inside length of the cylindrical part in metres.")
        checked("height of the drum's centre line", self.axis_height, -self.radius, self.radius,
                "m", "The water connection enters the drum, so it lies within one radius.")
        if self.head not in HEADS:
            raise InputError(f"head is {self.head!r}; the allowed words are {', '.join(HEADS)} "
                             "(no unit). Choose one.")

    @property
    def half_length(self):
        """Distance from mid-length to the tip of an end [m]."""
        return _outline(self)[-1].end

    @property
    def volume(self):
        """Volume of the whole drum [m3]."""
        return sum_over_sections(self, 0.0, 0.0, lambda radius, line: np.pi * radius ** 2)


@dataclass(frozen=True, slots=True)
class _Piece:
    """A stretch of the outline: radius = base + height sqrt(1 - ((x - centre)/half)^2)."""

    start: float
    end: float
    base: float
    centre: float = 0.0
    half: float = inf
    height: float = 0.0

    def radius(self, x):
        inside = np.maximum(0.0, 1 - ((x - self.centre) / self.half) ** 2)
        return self.base + self.height * np.sqrt(inside)

    def mirrored(self):
        return _Piece(-self.end, -self.start, self.base, -self.centre, self.half, self.height)

    def edges(self, height, slope):
        """Ends of the piece and the places where the line height + slope x leaves it.

        A place beyond the piece becomes its nearer end: a stretch of no length, which adds
        nothing. So lines of any inclination have as many stretches.
        """
        roots = []
        for side in (1.0, -1.0):
            offset, rise = side * (height + slope * self.centre) - self.base, side * slope
            # (offset + rise q)^2 = height^2 (1 - (q/half)^2), q counted from the centre
            a = np.maximum(rise ** 2 + (self.height / self.half) ** 2, 1e-300)
            b, c = offset * rise, offset ** 2 - self.height ** 2
            # no real root: the nearest point of approach, a harmless extra edge
            root = np.sqrt(np.maximum(0.0, b * b - a * c))
            roots += [self.centre + (root - b) / a, self.centre - (root + b) / a]
        ends = [np.full(np.shape(height), self.start), np.full(np.shape(height), self.end)]
        return np.sort(np.clip(np.stack(ends + roots, axis=-1), self.start, self.end), axis=-1)


@lru_cache(maxsize=64)
def _outline(drum):
    """The pieces of the drum from one end to the other."""
    radius, half = drum.radius, drum.length / 2
    shell = _Piece(-half, half, radius)
    if drum.head == "flat":
        return (shell,)
    if drum.head in HEAD_DEPTHS:
        depth = HEAD_DEPTHS[drum.head] * radius
        end = (_Piece(half, half + depth, 0.0, half, depth, radius),)
    else:
        crown, knuckle = CROWN_RADIUS * radius, KNUCKLE_RADIUS * radius
        centre = -sqrt((crown - knuckle) ** 2 - (radius - knuckle) ** 2)
        joint = centre - crown * centre / (crown - knuckle)
        end = (_Piece(half, half + joint, radius - knuckle, half, knuckle, knuckle),
               _Piece(half + joint, half + centre + crown, 0.0, half + centre, crown, crown))
    return (*(piece.mirrored() for piece in reversed(end)), shell, *end)


@cache
def _angles():
    points, weights = np.polynomial.legendre.leggauss(_POINTS)
    angle = 0.5 * np.pi * (points + 1)
    return np.cos(angle), 0.5 * np.pi * weights * np.sin(angle)


def sum_over_sections(drum, height, slope, of_section):
    """Return the integral along a drum's axis of a quantity of its circular sections.

    ``integral of f(r(x), d(x) / r(x)) dx``, ``d = height + slope x``

    Parameters
    ----------
    drum : Drum [m]
        Radius, length, ends.
    height : float or array [m]
        Distance above the axis, at mid-length, of the line in which a plane cuts the
        sections.
    slope : float or array [m/m]
        Change of that distance per metre along the axis; broadcast with `height`.
    of_section : callable [m, 1 -> any]
        Quantity of a circle of radius r cut by a line at so many radii above its
        centre, -1 to 1; for arrays. It may hand over several of them, stacked along a
        new first axis.

    Returns
    -------
    float or array [any m]
        The integral, in the unit of the quantity times metre; the broadcast shape.

    Notes
    -----
    Values are not checked here, for a solver calls it thousands of times: its caller
    checks them.
    Where the line leaves the outline the integrand has a root-like corner. Pieces end
    there, and stepping in the cosine of an angle makes such corners smooth, so that 48
    points per piece give a relative error below 1e-11.

    References
    ----------
    [MENSURATION] sum over sections.

    Examples
    --------
    >>> round(sum_over_sections(Drum(1.0, 2.0), 0.0, 0.0, lambda r, line: 2 * r), 9)
    4.0
    """
    cosine, weight = _angles()
    height, slope = np.broadcast_arrays(np.asarray(height, float), np.asarray(slope, float))
    total = 0.0
    for piece in _outline(drum):
        edges = piece.edges(height, slope)
        middle, half = 0.5 * (edges[..., 1:] + edges[..., :-1]), 0.5 * np.diff(edges)
        x = middle[..., None] - half[..., None] * cosine
        radius = np.maximum(piece.radius(x), 1e-150)  # rounding may land on the very tip
        line = np.clip((height[..., None, None] + slope[..., None, None] * x) / radius, -1.0, 1.0)
        total = total + np.sum(half[..., None] * weight * of_section(radius, line), axis=(-2, -1))
    return total if total.ndim else float(total)


def section_radius(drum, along):
    """Return the radius of a drum's section at a place along its axis.

    Parameters
    ----------
    drum : Drum [m]
        Radius, length, ends.
    along : float or array [m]
        Distance from mid-length, within the drum.

    Returns
    -------
    float or array [m]
        Inside radius, same shape.

    Raises
    ------
    InputError
        A place outside the drum.

    References
    ----------
    [MENSURATION] body of revolution; [DIN-28011] torispherical ends.

    Examples
    --------
    >>> round(section_radius(Drum(1.0, 2.0, head="hemispherical"), 1.6), 9)
    0.8
    """
    along = checked("distance along the drum", along, -drum.half_length, drum.half_length, "m",
                    "Give metres from mid-length.")
    place = np.abs(along)
    ends = [piece for piece in _outline(drum) if piece.end > 0]
    radius = ends[-1].radius(place)
    for piece in ends[-2::-1]:
        radius = np.where(place <= piece.end, piece.radius(place), radius)
    return radius if np.ndim(along) else float(radius)
