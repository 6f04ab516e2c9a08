"""The grooved glass: a ridge against steam, a ridge against water, and what the eye sees."""

from dataclasses import dataclass
from math import degrees, isnan

from ..physics.groove_rays import AIR, FLUID, groove_ray
from ..physics.reflex_glass import GrooveView
from .parts import draw_eye

_WIDTH, _SCALE, _TIP, _DEPTH = 284, 84, 112, 1.55
_BACK, _FRONT = 26, 112 + 84 * 1.55
_ENTRIES = (0.74, 0.5)
WINDOW, WINDOW_WIDTH, WINDOW_TOP, WINDOW_FOOT = 652, 62, 44, 296


@dataclass(frozen=True, slots=True)
class ReflexView:
    """What the picture of a grooved glass shows.

    Attributes
    ----------
    glass_index, steam_index, water_index : float [1]
        Refractive indices.
    side_angle : float [rad]
        Angle of view in air.
    groove : GrooveView [rad, 1]
        Brightness and contrast.
    share : float [1]
        Share of the window that holds water.
    """

    glass_index: float
    steam_index: float
    water_index: float
    side_angle: float
    groove: GrooveView
    share: float


def draw_reflex(canvas, view, show_truth):
    """Draw both ridges and the window."""
    groove = view.groove
    for left, title, fluid, index, critical, share in (
            (18, "steam in the grooves", "steam", view.steam_index, groove.critical_angle_steam,
             groove.steam_brightness),
            (322, "water in the grooves", "water", view.water_index, groove.critical_angle_water,
             groove.water_brightness)):
        _draw_ridge(canvas, left, title, fluid)
        _draw_light(canvas, left + _WIDTH / 2, view, index, show_truth)
        _draw_words(canvas, left, view, critical, index, share, show_truth)
    _draw_window(canvas, view, show_truth)


def _draw_ridge(canvas, left, title, fluid):
    right, centre, valley = left + _WIDTH, left + _WIDTH / 2, _TIP + _SCALE
    side = (_WIDTH / 2 - _SCALE)  # the next ridges begin to rise
    edge = [(left, valley - side), (centre - _SCALE, valley), (centre, _TIP),
            (centre + _SCALE, valley), (right, valley - side)]
    canvas.polygon([(left, _BACK + 12), *edge, (right, _BACK + 12)], fluid)
    canvas.polygon([*edge, (right, _FRONT), (left, _FRONT)], "paper", "outline")
    canvas.rect(left, _BACK, _WIDTH, 12, "metal", "outline")
    canvas.text(centre, _BACK - 8, title, "middle", bold=True)
    canvas.text(right - 8, _FRONT - 8, "glass", "end")


def _draw_light(canvas, centre, view, index, show_truth):
    for entry in _ENTRIES:
        pieces = groove_ray(view.glass_index, index, entry, view.side_angle, _DEPTH)
        if entry == _ENTRIES[0]:
            x, y = _place(centre, pieces[1].end)
            canvas.line(x - 46, y - 46, x + 34, y + 34, "centre")
        for piece in pieces if show_truth else pieces[:2]:
            _draw_piece(canvas, centre, piece)


def _draw_piece(canvas, centre, piece):
    if piece.share < 5e-5:
        return
    pen = "outline" if piece.share > 0.5 else "thin" if piece.share > 0.05 else "limit"
    head = 8 if piece.share > 0.05 else 5
    start, end = _place(centre, piece.start), _place(centre, piece.end)
    if piece.place in (AIR, FLUID):
        canvas.arrow(*start, *end, pen, head)
    else:  # the head in the middle keeps clear of the faces
        middle = ((start[0] + end[0]) / 2, (start[1] + end[1]) / 2)
        canvas.arrow(*start, *middle, pen, head)
        canvas.line(*middle, *end, pen)


def _place(centre, point):
    return centre + _SCALE * point[0], _TIP - _SCALE * point[1]


def _draw_words(canvas, left, view, critical, index, share, show_truth):
    font, centre = canvas.look.font, left + _WIDTH / 2
    meets = groove_ray(view.glass_index, index, _ENTRIES[0], view.side_angle, _DEPTH)[1].incidence
    limit = "none" if isnan(critical) else f"{degrees(critical):.1f}\u00b0"
    canvas.text(left + 8, _BACK + 12 + 1.25 * font, f"meets at {degrees(meets):.1f}\u00b0")
    if show_truth:
        line = 1.25 if canvas.look.detail else 2.45
        canvas.text(left + _WIDTH - 8, _BACK + 12 + line * font, f"critical {limit}", "end")
    back = [groove_ray(view.glass_index, index, entry, view.side_angle, _DEPTH)[-1].end[0]
            for entry in _ENTRIES]
    draw_eye(canvas, centre + _SCALE * sum(back) / len(back), _FRONT + 58)
    said = "?" if not show_truth else f"{_percent(share)} comes back"
    canvas.text(centre, _FRONT + 68 + 1.5 * font, said, "middle", 1.1, bold=True, pen="error")


def _percent(share):
    return f"{100 * share:.0f} %" if share >= 0.0995 else f"{100 * share:.2g} %"


def _draw_window(canvas, view, show_truth):
    font, groove = canvas.look.font, view.groove
    level = WINDOW_FOOT - view.share * (WINDOW_FOOT - WINDOW_TOP)
    canvas.rect(WINDOW - 14, WINDOW_TOP - 14, WINDOW_WIDTH + 28, WINDOW_FOOT - WINDOW_TOP + 28,
                "metal", "outline")
    canvas.text(WINDOW + WINDOW_WIDTH / 2, WINDOW_TOP - 26, "the eye sees", "middle", bold=True)
    if not show_truth:
        canvas.rect(WINDOW, WINDOW_TOP, WINDOW_WIDTH, WINDOW_FOOT - WINDOW_TOP, "hidden",
                    "outline")
        canvas.text(WINDOW + WINDOW_WIDTH / 2, (WINDOW_TOP + WINDOW_FOOT) / 2, "?", "middle", 1.5,
                    bold=True)
        return
    steam = groove.steam_brightness
    canvas.shade(WINDOW, WINDOW_TOP, WINDOW_WIDTH, level - WINDOW_TOP, steam)
    canvas.shade(WINDOW, level, WINDOW_WIDTH, WINDOW_FOOT - level, steam / groove.ratio)
    for step in range(1, 6):
        x = WINDOW + step * WINDOW_WIDTH / 6
        canvas.line(x, WINDOW_TOP, x, WINDOW_FOOT, "thin")
    canvas.rect(WINDOW, WINDOW_TOP, WINDOW_WIDTH, WINDOW_FOOT - WINDOW_TOP, None, "outline")
    if view.share < 0.94:
        canvas.text(WINDOW + WINDOW_WIDTH + 22, WINDOW_TOP + font, "steam")
    if view.share > 0.06:
        canvas.text(WINDOW + WINDOW_WIDTH + 22, WINDOW_FOOT - 0.3 * font, "water")


def verdict_of_groove(groove):
    """Return in one or two lines how the spaces look, or why the contrast fails."""
    if groove.contrast == "clear":
        return "steam is BRIGHT", "water is DARK"
    cause = groove.contrast.removeprefix("fails: ")
    return {"glare hides the difference": ("contrast FAILS:", "glare hides it"),
            "steam part no longer reflects": ("contrast FAILS:", "steam is dark too"),
            }.get(cause, ("contrast FAILS:", "water is bright too"))
