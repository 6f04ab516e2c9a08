"""Drawing of a drum in a ship that lists, trims or rolls: its water plane and its end glasses.

The drum is drawn as the ship carries it, so that the water tilts; a small ship beside it
shows which way is down.
"""

from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from ..physics.drum_outline import Drum, section_radius
from ..physics.glass import IN_SIGHT, GlassMounting
from .canvas import Canvas
from .end_glass import HALF_BORE, draw_glass_water, draw_still_glass, to_y
from .film import film
from .lettering import text_width
from .parts import number_block
from .ship_inset import draw_sea, draw_ship
from .strip_chart import Axes, draw_axes, draw_curve, draw_dot, draw_key

HEIGHT = 330
_GLASSES = {"left": 68, "right": 742}
_TOP, _BOTTOM, _SHOWN = 30, 168, 197
_DRUM = (128, 682, 96)  # left, right, height of the middle
_CHART = (68, 233, 792, 303)
_BLOCK, _BLOCK_WIDTH, _VERDICT = 836, 250, 217
_SEA, _REACH, _SHIP = (961, 283), (125, 42), 52
_POINTS = np.linspace(-1.0, 1.0, 401)
_HEAD = np.sin(np.linspace(0.0, np.pi / 2, 16))


@dataclass(frozen=True, slots=True)
class DrumAtSea:
    """What stands still in the picture, heights above the water connection.

    Attributes
    ----------
    name : str
        Name of the boiler.
    drum : Drum [m]
        Its drum.
    lies : str
        "athwartships" or "fore and aft".
    distance : float [m]
        Between the end glasses.
    mounting : GlassMounting [m]
        Connections and window of both glasses.
    topmost_tube : float [m]
        Topmost heated tube.
    upright_level : float [m]
        Level of the same water in an upright ship.
    """

    name: str
    drum: Drum
    lies: str
    distance: float
    mounting: GlassMounting
    topmost_tube: float
    upright_level: float

    @property
    def ends(self):
        """Names of the left and the right end on the sheet."""
        return ("port", "starboard") if self.lies == "athwartships" else ("aft", "forward")


@dataclass(frozen=True, slots=True)
class MotionChart:
    """The chart under the drum.

    Attributes
    ----------
    across : str
        What runs across, with its unit.
    x_range, y_range : tuple of float [as named, mm]
        Its spans.
    xs : array [as named]
        Where the curves are known.
    curves : tuple of (str, array, str)
        Name, levels [mm] and pen of each.
    """

    across: str
    x_range: tuple
    y_range: tuple
    xs: object
    curves: tuple


@dataclass(frozen=True, slots=True)
class MotionFrame:
    """What moves in the picture.

    Attributes
    ----------
    mid_level, slope : float [m, m/m]
        Water plane at mid-length, and its rise towards the left end.
    glasses : tuple of GaugeGlassResult [m]
        What the left and the right glass show.
    ship_angle : float [rad]
        How the ship lies in the plane of the picture, left side low positive.
    dry_tubes : float [m]
        Length of the topmost tube row that stands dry.
    cursor : float [as the chart]
        Where the chart stands.
    rows : tuple of (str, str)
        Names and numbers of the block, already with units.
    verdict : str
        The large line: how the ship lies in the plane of the picture.
    attitude : str
        How she lies, list and trim.
    """

    mid_level: float
    slope: float
    glasses: tuple
    ship_angle: float
    dry_tubes: float
    cursor: float
    rows: tuple
    verdict: str
    attitude: str


def motion_film(still, chart, frames, times, look, show_truth=True):
    """Return the film of a drum at sea.

    Parameters
    ----------
    still : DrumAtSea [m]
        What stands still.
    chart : MotionChart [mm]
        The chart under the drum.
    frames : sequence of MotionFrame [m, rad]
        What moves.
    times : sequence of float [s]
        Instant of each frame.
    look : Look
        Screen, projector or print.
    show_truth : bool
        False covers what stands in the drum.

    Returns
    -------
    Film
        The picture and what changes in it.
    """
    back, front = _still_parts(still, chart, look, show_truth)
    canvases = []
    for frame in frames:
        canvas = Canvas(look, HEIGHT)
        canvas.stamp(back)
        if show_truth:
            _draw_water(canvas, still, frame)
        for x, glass in zip(_GLASSES.values(), frame.glasses, strict=True):
            draw_glass_water(canvas, still.mounting, x, _TOP, _BOTTOM, glass.indicated_level)
        canvas.stamp(front)
        if show_truth:
            _draw_levels(canvas, still, frame)
        _draw_readings(canvas, frame)
        _draw_cursor(canvas, chart, frame, show_truth)
        number_block(canvas, _BLOCK, 8, _BLOCK_WIDTH,
                     [(name, value, "outline") for name, value in frame.rows], still.name)
        draw_ship(canvas, *_SEA, _SHIP, frame.ship_angle, still.lies)
        fit = _BLOCK_WIDTH / text_width(frame.verdict, look.font, bold=True)
        canvas.text(_SEA[0], _VERDICT, frame.verdict, "middle", min(1.15, fit), bold=True,
                    pen="error")
        canvases.append(canvas)
    words = [describe_motion(still, frame, show_truth) for frame in frames]
    return film(canvases, times, f"{still.name}: a drum at sea", words)


def _place(still):
    """Scale [units per metre] and the functions that put a point of the drum on the sheet.

    Distances along the drum count from mid-length towards its left end, port or aft.
    """
    left, right, middle = _DRUM
    drum, centre = still.drum, (left + right) / 2
    scale = min((right - left) / (2 * drum.half_length), 132 / (2 * drum.radius))
    return (scale, lambda along: centre - along * scale,
            lambda height: middle - (height - drum.axis_height) * scale)


@lru_cache(maxsize=32)
def _profile(drum):
    """Places along a drum, and the radius at each."""
    along = _POINTS * drum.half_length
    return along, section_radius(drum, along)


def _outline(still, wall=0.0):
    """The inside of the drum as a closed line, or a line so far outside it."""
    scale, to_x, to_z = _place(still)
    drum, shell = still.drum, still.drum.length / 2
    head = shell + (drum.half_length - shell) * _HEAD
    along = np.concatenate([-head[::-1], head])
    stretch = 1 + wall / (drum.half_length * scale)
    upper = [(to_x(x * stretch), to_z(drum.axis_height + r) - wall)
             for x, r in zip(along, section_radius(drum, along), strict=True)]
    return upper + [(x, 2 * _DRUM[2] - y) for x, y in reversed(upper)]


def _still_parts(still, chart, look, show_truth):
    """What no frame moves: the part behind the water, and the part in front of it."""
    _, to_x, to_z = _place(still)
    back, front, drum = Canvas(look, HEIGHT), Canvas(look, HEIGHT), still.drum
    outline = _outline(still)
    back.clip("drum", outline)
    back.polygon(_outline(still, 6), "metal", "outline")
    back.polygon(outline, "steam" if show_truth else "hidden")
    draw_sea(back, *_SEA, *_REACH)
    _draw_chart(back, still, chart, show_truth)
    front.polygon(outline, None, "outline")
    left, right = to_x(drum.length / 2), to_x(-drum.length / 2)
    front.line(left, to_z(still.topmost_tube), right, to_z(still.topmost_tube), "limit")
    front.line(to_x(0), _DRUM[2] - drum.radius * _place(still)[0] - 14, to_x(0),
               _DRUM[2] + drum.radius * _place(still)[0] + 14, "centre")
    if look.detail and show_truth:
        front.text(to_x(0) + 10, to_z(still.topmost_tube) + 0.95 * look.font, "topmost tubes",
                   scale=0.85)
    if show_truth:
        front.line(left, to_z(still.upright_level), right, to_z(still.upright_level), "true-thin")
    else:
        front.text(to_x(0), _DRUM[2] - 0.6 * look.font, "what the drum holds is hidden", "middle",
                   bold=True)
    for (side, x), name, sign in zip(_GLASSES.items(), still.ends, (1, -1), strict=True):
        _draw_window(front, still, x + sign * (HALF_BORE + 6), sign)
        draw_still_glass(front, still.mounting, x, _TOP, _BOTTOM, side)
        front.text(x, _TOP - 14, name, "middle", bold=True)
    return back.fragment(), front.fragment()


def _draw_window(canvas, still, edge, sign):
    """Mark the window of a glass on the drum, and lead it to the enlarged one."""
    scale, to_x, to_z = _place(still)
    x, half = to_x(sign * still.distance / 2), max(2.0, 0.02 * scale)
    place, window = to_y(still.mounting, _TOP, _BOTTOM), (still.mounting.visible_bottom,
                                                          still.mounting.visible_top)
    for height in window:
        canvas.line(edge, place(height), x, to_z(height), "limit")
    canvas.rect(x - half, to_z(window[1]), 2 * half, to_z(window[0]) - to_z(window[1]), "paper",
                "outline")


def _draw_chart(canvas, still, chart, show_truth):
    axes = _axes(chart)
    draw_axes(canvas, axes, (chart.across, "mm"), x_most=10, y_most=3)
    window = [1000 * still.mounting.visible_bottom, 1000 * still.mounting.visible_top]
    for height in window:
        draw_curve(canvas, axes, chart.x_range, (height, height), "limit")
    if show_truth:
        for _, levels, pen in chart.curves:
            draw_curve(canvas, axes, list(chart.xs), list(levels), pen)
        draw_key(canvas, _CHART[0] + 62, _CHART[1] - 0.5 * canvas.look.font,
                 [(name, pen) for name, _, pen in chart.curves]
                 + [("window", "limit")] * canvas.look.detail)


def _axes(chart):
    left, top, right, bottom = _CHART
    return Axes(left, top, right, bottom, chart.x_range, chart.y_range)


def _draw_water(canvas, still, frame):
    _, to_x, to_z = _place(still)
    reach = still.drum.half_length
    ends = [(to_x(x), to_z(frame.mid_level + frame.slope * x)) for x in (reach, -reach)]
    canvas.clipped_polygon("drum", [*ends, (ends[1][0], HEIGHT), (ends[0][0], HEIGHT)], "water")


def _draw_levels(canvas, still, frame):
    """Draw the water plane from wall to wall, its middle, and the tubes that it leaves dry."""
    scale, to_x, to_z = _place(still)
    along, radius = _profile(still.drum)
    wet = np.abs(frame.mid_level + frame.slope * along - still.drum.axis_height) <= radius
    inside = along[wet] if wet.any() else np.zeros(1)
    ends = [(to_x(x), to_z(frame.mid_level + frame.slope * x)) for x in (inside[-1], inside[0])]
    canvas.line(*ends[0], *ends[1], "true")
    x, y = to_x(0), to_z(frame.mid_level)
    canvas.mark([(x, y), (x - 6, y - 9), (x + 6, y - 9)], "true", filled=True)
    high = 1 if frame.slope > 0 else -1
    dry_end = to_x(-high * still.drum.length / 2)
    y = to_z(still.topmost_tube)
    canvas.line(dry_end, y, dry_end - high * frame.dry_tubes * scale, y, "dry")
    text = f"tubes dry over {frame.dry_tubes:.2f} m" if frame.dry_tubes >= 0.005 else ""
    canvas.text(to_x(0), _SHOWN, text, "middle", bold=True, pen="error")


def _draw_readings(canvas, frame):
    for x, anchor, glass in zip((18, 800), ("start", "end"), frame.glasses, strict=True):
        canvas.text(x, _SHOWN, shown_text(glass), anchor, bold=True, pen="error")


def shown_text(glass):
    """Return what a person reads from a glass."""
    if glass.visibility == IN_SIGHT:
        return f"{1000 * glass.indicated_level:.0f} mm"
    return glass.visibility


def _draw_cursor(canvas, chart, frame, show_truth):
    axes = _axes(chart)
    x = axes.to_x(frame.cursor)
    canvas.line(x, axes.top, x, axes.bottom, "dimension")
    levels = [1000 * glass.indicated_level for glass in frame.glasses]
    for level, filled in zip(levels, (False, True), strict=True):
        draw_dot(canvas, axes, frame.cursor, level, "error", filled)
    if show_truth:
        draw_dot(canvas, axes, frame.cursor, sum(levels) / 2, "true")


def describe_motion(still, frame, show_truth=True):
    """Return what a frame shows, in a sentence or two."""
    shown = ", ".join(f"{name} glass {shown_text(glass)}"
                      for name, glass in zip(still.ends, frame.glasses, strict=True))
    sentence = f"{frame.attitude[0].upper()}{frame.attitude[1:]}: {shown}."
    if not show_truth:
        return f"{sentence} What the drum holds is hidden."
    dry = (f" The topmost tubes are dry over {frame.dry_tubes:.2f} m."
           if frame.dry_tubes >= 0.005 else "")
    return (f"{sentence} The water stands at {1000 * frame.mid_level:.0f} mm at mid-drum, "
            f"{1000 * still.upright_level:.0f} mm in an upright ship.{dry}")
