"""The tubular glass as a lens: rays to the striped plate, and the stripes as the eye sees them."""

from dataclasses import dataclass

import numpy as np

from ..physics.meniscus import Meniscus
from ..physics.tubular_lens import LensView, TubularGlass, lens_rays
from .parts import draw_eye

_WIDTH, _AXIS, _PER_MM = 284, 208, 4.0
_PLATE_HALF = 112
_RAYS = (-0.55, -0.28, 0.0, 0.28, 0.55)  # shares of the outer radius
_EYE = 0.023
_WINDOW, _HALF, _TOP, _FOOT = 690, 62, 44, 300
_STRIPE = 27.0
_SMEARED = 4.0  # plate millimetres per millimetre of tube beyond which no stripe is made out


@dataclass(frozen=True, slots=True)
class TubularView:
    """What the picture of a tubular glass shows.

    Attributes
    ----------
    tube : TubularGlass [m, 1]
        Tube and plate.
    steam_index, water_index : float [1]
        Refractive indices of what fills the bore.
    behind_water, behind_steam : LensView [m, 1]
        How the plate looks near the middle.
    meniscus : Meniscus [m]
        The curved edge of the water.
    share : float [1]
        Share of the window that holds water.
    striped : bool
        Diagonal stripes on the plate, or none.
    """

    tube: TubularGlass
    steam_index: float
    water_index: float
    behind_water: LensView
    behind_steam: LensView
    meniscus: Meniscus
    share: float
    striped: bool


def draw_tubular(canvas, view, show_truth):
    """Draw the tube from above with steam and with water, and the front view."""
    for left, title, fluid, index in ((18, "steam in the bore", "steam", view.steam_index),
                                      (322, "water in the bore", "glass water",
                                       view.water_index)):
        _draw_from_above(canvas, left + _WIDTH / 2, title, fluid, index, view, show_truth)
    _draw_front(canvas, view, show_truth)


def _draw_from_above(canvas, centre, title, fluid, index, view, show_truth):
    tube, font = view.tube, canvas.look.font
    plate = _AXIS - 1000 * _PER_MM * tube.plate_distance
    canvas.text(centre, 17, title, "middle", bold=True)
    canvas.rect(centre - _PLATE_HALF, plate - 10, 2 * _PLATE_HALF, 10, "metal", "outline")
    for end, letter in ((-1, "A"), (1, "B")):
        canvas.text(centre + end * (_PLATE_HALF + 8), plate + 0.2 * font, letter,
                    "end" if end < 0 else "start", bold=True)
    canvas.circle(centre, _AXIS, 1000 * _PER_MM * tube.outer_radius, "paper", "outline")
    canvas.circle(centre, _AXIS, 1000 * _PER_MM * tube.bore_radius, fluid, "outline")
    if show_truth:
        rays = lens_rays(tube, index, np.array(_RAYS) * tube.outer_radius, _EYE)
        for number, points in enumerate(rays.points):
            places = [(centre + 1000 * _PER_MM * y, _AXIS + 1000 * _PER_MM * x)
                      for x, y in points if np.isfinite(x) and np.isfinite(y)]
            pen = "error" if number == 0 else "thin"
            canvas.polyline(places, pen)
            if np.isfinite(points[-1]).all():
                canvas.arrow(*places[-2], *places[-1], pen, 7)
    eye = _AXIS + 1000 * _PER_MM * _EYE + 10
    draw_eye(canvas, centre, eye)
    canvas.text(centre, eye + 12 + 1.15 * font, _said(view, fluid) if show_truth else "?",
                "middle", 1.0, bold=True, pen="error")


def _said(view, fluid):
    lens = view.behind_steam if fluid == "steam" else view.behind_water
    return "seen crossed over" if lens.reversed else "seen as it is"


def _draw_front(canvas, view, show_truth):
    canvas.text(_WINDOW, _TOP - 24, "the eye sees", "middle", bold=True)
    canvas.rect(_WINDOW - _HALF, _TOP, 2 * _HALF, _FOOT - _TOP, "paper", "outline")
    if not show_truth:
        canvas.rect(_WINDOW - _HALF, _TOP, 2 * _HALF, _FOOT - _TOP, "hidden", "outline")
        canvas.text(_WINDOW, (_TOP + _FOOT) / 2, "?", "middle", 1.5, bold=True)
        return
    level = _FOOT - view.share * (_FOOT - _TOP)
    if view.striped:
        for index, low, high in ((view.steam_index, _TOP, level), (view.water_index, level, _FOOT)):
            if high - low > 1:
                _draw_stripes(canvas, view.tube, index, low, high)
    half = 1000 * _PER_MM * view.tube.outer_radius
    for edge in (-half, half):
        canvas.line(_WINDOW + edge, _TOP, _WINDOW + edge, _FOOT, "outline")
    if 0.0 < view.share < 1.0:
        bore = min(1000 * _PER_MM * view.tube.bore_radius * view.tube.glass_index, half)
        depth = 1000 * _PER_MM * view.meniscus.depth
        curve = [(_WINDOW + bore * step / 8, level - depth * (step / 8) ** 2)
                 for step in range(-8, 9)]
        canvas.polyline([(x, max(y, _TOP)) for x, y in curve], "true")
    canvas.rect(_WINDOW - _HALF, _TOP, 2 * _HALF, _FOOT - _TOP, None, "outline")
    if canvas.look.detail and view.share not in (0.0, 1.0):
        canvas.text(_WINDOW + _HALF + 5, _TOP + canvas.look.font, "steam")
        canvas.text(_WINDOW + _HALF + 5, _FOOT - 4, "water")


def _draw_stripes(canvas, tube, index, low, high):
    """Draw every stripe where the eye sees it: straight beside the tube, bent through it."""
    across = np.arange(-_HALF, _HALF + 0.1, 1.5)
    metres = across / (1000 * _PER_MM)
    inside = np.abs(metres) < 0.999 * tube.outer_radius
    plate = across.copy()
    plate[inside] = 1000 * _PER_MM * lens_rays(tube, index, metres[inside]).plate_offset
    plate[inside & (np.abs(np.gradient(plate, across)) > _SMEARED)] = np.nan
    reach = np.nanmax(np.abs(plate))
    first = np.floor((low - reach) / _STRIPE) * _STRIPE
    for start in np.arange(first, high + reach + _STRIPE, _STRIPE):
        heights = start - plate
        shown = np.isfinite(heights) & (heights > low) & (heights < high)
        for piece in np.split(np.arange(len(across)), np.flatnonzero(np.diff(shown)) + 1):
            # the two sides of the tube are pieces of their own: its edge bends them apart
            for part in np.split(piece, np.flatnonzero(np.diff(inside[piece])) + 1):
                if shown[part[0]] and len(part) > 1:
                    canvas.polyline([(_WINDOW + across[i], heights[i]) for i in part], "outline")


def verdict_of_tube(view):
    """Return in one or two lines what the stripes say."""
    if not view.striped and view.share in (0.0, 1.0):
        return "full or empty?", "nobody can tell"
    if not view.striped:
        return "only the thin edge", "shows the level"
    if not view.behind_water.reversed:
        return "the stripes do NOT", "turn: plate too near"
    if view.share == 0.0:
        return "EMPTY: stripes lean", "as beside the tube"
    if view.share == 1.0:
        return "FULL: all stripes", "are turned round"
    return "the stripes turn", "round behind water"
