"""Drawing of the three direct gauge glasses: parts by number, and which pressure each bears."""

from dataclasses import dataclass

from ..constants import BAR
from ..physics.glass_choice import TYPES, GlassType
from .balloons import draw_balloons
from .canvas import Canvas
from .glass_elevation import draw_elevation
from .glass_sections import draw_section

HEIGHT = 396
HIGHEST_BAR = 100.0
_LIST, _LIST_WIDTH, _LIST_TOP, _LIST_FOOT = 740, 350, 6, 390
_BARS, _BARS_END, _BARS_TOP, _BARS_FOOT = 384, 712, 312, 384


@dataclass(frozen=True, slots=True)
class GlassTypesView:
    """What the picture shows.

    Attributes
    ----------
    kind : GlassType [Pa]
        The gauge that is drawn.
    working_pressure : float [Pa]
        Gauge pressure marked on the bars.
    chosen : GlassType [Pa]
        What practice chooses for that pressure.
    named : tuple of str
        Parts whose names are written beside their numbers.
    asked : str or None
        The part that a quiz asks for.
    show_choice : bool
        False leaves the verdict on the pressure out.
    """

    kind: GlassType
    working_pressure: float
    chosen: GlassType
    named: tuple
    asked: object = None
    show_choice: bool = True


def part_numbers(kind):
    """Return the number of each part of a gauge by name, from 1."""
    return {part.name: number for number, part in enumerate(kind.parts, 1)}


def draw_glass_types(view, look):
    """Return the picture of one type of gauge glass and the same in words.

    Parameters
    ----------
    view : GlassTypesView [Pa]
        What is shown.
    look : Look
        Screen, projector or print.

    Returns
    -------
    Drawing
        SVG text, words, and the boxes of the lettering.
    """
    canvas = Canvas(look, HEIGHT)
    balloons = draw_elevation(canvas, view.kind.name) + draw_section(canvas, view.kind.name)
    draw_balloons(canvas, balloons, part_numbers(view.kind), view.asked)
    font = look.font
    canvas.text(384, 22, "cut across, from above" if look.detail else "from above",
                scale=0.9, pen="thin")
    _draw_list(canvas, view, font)
    _draw_bars(canvas, view, font)
    return canvas.drawing(f"{view.kind.name}: its parts", describe_glass_types(view))


def _draw_list(canvas, view, font):
    """Write the parts list; a name not yet found stays a row of dots."""
    pitch = min(1.75 * font, (_LIST_FOOT - _LIST_TOP) / (len(view.kind.parts) + 1))
    scale = min(1.0, pitch / (1.28 * font))
    height = pitch * (len(view.kind.parts) + 1)
    canvas.rect(_LIST, _LIST_TOP, _LIST_WIDTH, height, "paper", "outline")
    canvas.text(_LIST + 12, _LIST_TOP + 0.72 * pitch, view.kind.name, bold=True, scale=scale)
    for number, part in enumerate(view.kind.parts, 1):
        y, asked = _LIST_TOP + number * pitch, part.name == view.asked
        canvas.line(_LIST, y, _LIST + _LIST_WIDTH, y, "outline" if number == 1 else "thin")
        pen, baseline = "error" if asked else "outline", y + 0.72 * pitch
        canvas.text(_LIST + 36, baseline, str(number), "end", scale, bold=True, pen=pen)
        name = part.name if part.name in view.named else "which part is this?" if asked else ""
        if name:
            canvas.text(_LIST + 48, baseline, name, scale=scale, bold=asked, pen=pen)
        else:
            canvas.line(_LIST + 48, baseline, _LIST + 200, baseline, "limit")


def _draw_bars(canvas, view, font):
    """Draw up to which working pressure each type goes, and where the boiler stands."""
    per_bar = (_BARS_END - _BARS) / HIGHEST_BAR
    pitch = (_BARS_FOOT - _BARS_TOP) / 3
    bar = view.working_pressure / BAR
    for row, kind in enumerate(TYPES.values()):
        y = _BARS_TOP + row * pitch
        reach = min(kind.highest_pressure / BAR, HIGHEST_BAR)
        drawn = view.kind.name == kind.name
        canvas.rect(_BARS, y + 3, reach * per_bar, pitch - 6, "metal" if drawn else "paper",
                    "outline" if drawn else "thin")
        wide = reach == HIGHEST_BAR
        name = kind.name.split()[0] + (" with mica: above that" if wide else f": to {reach:.1f}")
        canvas.text(_BARS_END - 8 if wide else _BARS + reach * per_bar + 12,
                    y + pitch / 2 + 0.33 * font, name, "end" if wide else "start", 0.92,
                    bold=view.show_choice and kind.name == view.chosen.name)
    canvas.text(_BARS_END, _BARS_TOP - 8, "highest working pressure, bar g", "end", 0.85,
                pen="thin")
    if view.show_choice:
        x = _BARS + bar * per_bar
        canvas.line(x, _BARS_TOP - 4, x, _BARS_FOOT + 3, "error")
        canvas.mark([(x, _BARS_TOP + 1), (x - 6, _BARS_TOP - 9), (x + 6, _BARS_TOP - 9)],
                    "error", filled=True)


def describe_glass_types(view):
    """Return what the picture shows, in a sentence or two."""
    parts = f"A {view.kind.name} with {len(view.kind.parts)} numbered parts."
    if not view.show_choice:
        return parts
    kind, bar = view.kind, view.working_pressure / BAR
    limit = kind.highest_pressure / BAR
    if limit == float("inf"):
        verdict = f"For {bar:.1f} bar g it suits: practice sets it no limit"
    elif bar <= limit:
        verdict = f"For {bar:.1f} bar g it suits (up to {limit:.1f})"
    else:
        verdict = (f"NOT for {bar:.1f} bar g (only up to {limit:.1f}): a {view.chosen.name} "
                   "is wanted")
    return f"{parts} {verdict}; {kind.reason}. Limits: {kind.source}."
