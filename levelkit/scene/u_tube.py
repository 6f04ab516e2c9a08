"""The U-tube of a two-fluid indicator: manifold, limbs, indicating fluid, scale, dimensions."""

from dataclasses import dataclass
from functools import lru_cache

from ..physics.u_tube import REFERENCE_LIMB
from ..units import format_number
from .canvas import Canvas
from .lettering import text_width
from .parts import cock, dimension, scale_bar
from .water_legs import leg_tag, pipe_break

_DRUM_X, _REFERENCE_X, _PIPE = 628, 730, 10
_TAG_Y, _BREAK_Y, _COCK_Y, _EQUALISER_Y, _LIMB_TOP, _BEND = 21, 41, 59, 77, 95, 308
_BEND_HEIGHT = 12
_CHAIN_X, _OUTER_X, _DIMENSIONS_TOP = 552, 452, 82
_WIDEST, _WIDTH_PER_METRE = 46.0, 1600.0


@dataclass(frozen=True, slots=True)
class UTubeView:
    """The U-tube as it stands.

    Attributes
    ----------
    tube : UTube [m]
        The U-tube as built.
    manifold : ManifoldState [1]
        Its valves.
    reference_surface, drum_surface : float [m]
        Heights of the two surfaces above the lower connection: negative.
    scale : tuple of (float, float) [m]
        Level and height of the visible surface at both ends of the scale.
    leg_words : tuple of (str, str)
        What stands beside the reference leg and beside the drum-side leg.
    """

    tube: object
    manifold: object
    reference_surface: float
    drum_surface: float
    scale: tuple
    leg_words: tuple


def draw_u_tube(canvas, view):
    """Draw this half on a canvas."""
    to_y, half = _to_y(view.tube), _half_widths(view.tube)
    _draw_dimensions(canvas, view, to_y)
    limbs = tuple(zip((_REFERENCE_X, _DRUM_X), half,
                      (view.reference_surface, view.drum_surface), strict=True))
    for x, width, surface in limbs:
        canvas.rect(x - width, _LIMB_TOP, 2 * width, _BEND - _LIMB_TOP, "glass water", "outline")
        canvas.rect(x - width, to_y(surface), 2 * width, _BEND - to_y(surface), "fluid")
    canvas.stamp(_still_part(view.tube, view.scale, view.manifold, view.leg_words, canvas.look))
    for x, width, surface in limbs:
        canvas.line(x - width, to_y(surface), x + width, to_y(surface), "fluid")
    _draw_pointer(canvas, view, to_y, half)


@lru_cache(maxsize=64)
def _still_part(tube, scale, manifold, leg_words, look):
    """Everything that does not move with the fluid, drawn once."""
    canvas, half = Canvas(look, _BEND), _half_widths(tube)
    _draw_manifold(canvas, manifold)
    left, right = _DRUM_X - half[1], _REFERENCE_X + half[0]
    canvas.rect(left, _BEND, right - left, _BEND_HEIGHT, "fluid")
    _draw_glass_outline(canvas, half)
    _draw_pressures(canvas, half)
    _draw_scale(canvas, tube, scale, half)
    canvas.text((_DRUM_X + _REFERENCE_X) / 2, _BEND + _BEND_HEIGHT + 1.0 * look.font,
                "indicating fluid", "middle", pen="fluid")
    for tag, x, side, words in (("1", _REFERENCE_X, 1, leg_words[0]),
                                ("2", _DRUM_X, -1, leg_words[1])):
        leg_tag(canvas, x, _TAG_Y, tag)
        for index, line in enumerate(words):
            canvas.text(x + side * 16, _TAG_Y - 2 + 1.15 * index * look.font, line,
                        "start" if side > 0 else "end")
    return canvas.fragment()


def _to_y(tube):
    per_metre = (_BEND - _LIMB_TOP) / tube.limb_length
    return lambda height: _BEND - (height + tube.bend_depth) * per_metre


def _half_widths(tube):
    """Half the bores in one scale, the wider one never wider than its room."""
    widest = max(tube.reference_bore, tube.drum_bore)
    per_metre = min(_WIDTH_PER_METRE, _WIDEST / widest)
    return tuple(max(bore * per_metre, 7.0) / 2 for bore in (tube.reference_bore, tube.drum_bore))


def _draw_glass_outline(canvas, half):
    """Draw both limbs and the bend as one line round the fluid."""
    foot = _BEND + _BEND_HEIGHT
    inner = (_DRUM_X + half[1], _REFERENCE_X - half[0])
    outer = (_DRUM_X - half[1], _REFERENCE_X + half[0])
    canvas.polyline([(outer[0], _LIMB_TOP), (outer[0], foot), (outer[1], foot),
                     (outer[1], _LIMB_TOP)])
    canvas.polyline([(inner[0], _LIMB_TOP), (inner[0], _BEND), (inner[1], _BEND),
                     (inner[1], _LIMB_TOP)])


def _draw_manifold(canvas, manifold):
    """Draw legs, isolators, equaliser, and whatever drain is not shut."""
    for x in (_DRUM_X, _REFERENCE_X):
        canvas.rect(x - _PIPE / 2, _BREAK_Y, _PIPE, _LIMB_TOP - _BREAK_Y, "glass water")
        for side in (-_PIPE / 2, _PIPE / 2):
            canvas.line(x + side, _BREAK_Y, x + side, _LIMB_TOP)
        pipe_break(canvas, x, _BREAK_Y)
    left, right = _DRUM_X + _PIPE / 2, _REFERENCE_X - _PIPE / 2
    canvas.rect(left, _EQUALISER_Y - 4, right - left, 8, "glass water", "outline")
    middle, font = (left + right) / 2, canvas.look.font
    cock(canvas, middle, _EQUALISER_Y, manifold.equaliser > 0.0, size=9)
    if canvas.look.detail:
        canvas.text(middle, _EQUALISER_Y - 12, "equaliser", "middle", 0.85)
    for x, side, isolator, drain in (
            (_REFERENCE_X, 1, manifold.reference_isolator, manifold.reference_drain),
            (_DRUM_X, -1, manifold.drum_isolator, manifold.drum_drain)):
        cock(canvas, x, _COCK_Y, isolator > 0.0, size=9, vertical=True)
        if drain > 0.0:
            start, y = x + side * _PIPE / 2, _EQUALISER_Y + 9
            canvas.arrow(start, y, start + side * 26, y, "error", 8)
            canvas.text(start + side * 22, y + 3 + font, "leak",
                        "start" if side > 0 else "end", pen="error", bold=True)


def _draw_pressures(canvas, half):
    """Draw the two pressures that press on the fluid."""
    room = abs(_REFERENCE_X - _DRUM_X) - sum(half) - 14
    font = canvas.look.font
    fit = min(1.0, room / (2 * text_width("p1", font, bold=True)))
    for x, side, width, name in ((_REFERENCE_X, -1, half[0], "p1"), (_DRUM_X, 1, half[1], "p2")):
        canvas.arrow(x, _EQUALISER_Y + 8, x, _LIMB_TOP + 22, "true", 9)
        canvas.text(x + side * (width + 4), _LIMB_TOP + 8 + 0.7 * font, name,
                    "end" if side < 0 else "start", fit, bold=True)


def _beside_visible_limb(tube, half):
    """Whether the scale stands upright, its x, and on which side of the limb it stands."""
    if tube.visible_limb == REFERENCE_LIMB:
        return True, _REFERENCE_X + half[0] + 8, 1
    return False, _DRUM_X - half[1] - 8, -1


def _draw_scale(canvas, tube, scale, half):
    """Draw the scale beside the visible limb; a very short one has a number at its zero only."""
    upright, x, side = _beside_visible_limb(tube, half)
    to_y, ((low_level, low), (high_level, high)) = _to_y(tube), scale

    def y_of(level):
        return to_y(low + (high - low) * (level - low_level) / (high_level - low_level))

    font = canvas.look.font
    name, anchor = ("right", "start") if upright else ("left", "end")
    length, line = abs(y_of(high_level) - y_of(low_level)), 1.3 * 0.85 * font
    if length <= line:
        scale_bar(canvas, x, [low_level, high_level], y_of, 2, side=name)
        return
    ticks = [0.025 * step for step in range(round((high_level - low_level) / 0.025) + 1)]
    pitch = length / (len(ticks) - 1)
    step = next((n for n in (4, 8) if n * pitch > line), len(ticks) - 1)
    scale_bar(canvas, x, ticks, y_of, step, side=name)
    canvas.text(x + side * 12, min(y_of(low_level), y_of(high_level)) - 0.85 * font, "mm", anchor,
                0.85)


def _draw_pointer(canvas, view, to_y, half):
    """Draw where the visible surface stands on the scale, with its mark on the other side."""
    upright, x, side = _beside_visible_limb(view.tube, half)
    y = to_y(view.reference_surface if upright else view.drum_surface)
    inner = (_REFERENCE_X - half[0] if upright else _DRUM_X + half[1]) - side * 4
    canvas.line(inner, y, x + side * 9, y, "indicated")
    canvas.mark([(inner, y), (inner - side * 10, y - 7), (inner - side * 10, y + 7)], "indicated",
                filled=False)


def _draw_dimensions(canvas, view, to_y):
    """Draw the chain b + R beside the depth a, all three from the surfaces of the fluid."""
    y_reference, y_drum = to_y(view.reference_surface), to_y(view.drum_surface)
    canvas.line(_CHAIN_X - 6, y_drum, _DRUM_X, y_drum, "thin")
    reach = _OUTER_X if canvas.look.detail else _CHAIN_X
    canvas.line(reach - 6, y_reference, _REFERENCE_X, y_reference, "thin")
    difference = view.drum_surface - view.reference_surface
    if not canvas.look.detail:
        dimension(canvas, _CHAIN_X, y_drum, y_reference, "R")
        return
    dimension(canvas, _CHAIN_X, y_drum, y_reference, f"R {_millimetres(difference)}")
    font = canvas.look.font
    for x, y in ((_OUTER_X, y_reference), (_CHAIN_X, y_drum)):
        canvas.arrow(x, _DIMENSIONS_TOP, x, y)
        pipe_break(canvas, x, _DIMENSIONS_TOP + 9)
    canvas.text(_OUTER_X - 8, _DIMENSIONS_TOP - 6 - 1.25 * font,
                f"a {_millimetres(-view.reference_surface)}", bold=True)
    canvas.text(_CHAIN_X, _DIMENSIONS_TOP - 6, f"b {_millimetres(-view.drum_surface)}", "middle",
                bold=True)


def _millimetres(length):
    return f"{format_number(1000 * length, 0)} mm"
