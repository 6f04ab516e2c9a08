"""Drawing of a drum with its DP transmitter: legs, manifold, capsule, meter and range."""

from dataclasses import dataclass
from functools import lru_cache
from math import sqrt

from ..physics.transmitter import TransmitterResult
from ..physics.transmitter_range import DIRECT, TransmitterRange
from ..physics.transmitter_state import TransmitterState
from .canvas import Canvas
from .parts import break_line, dimension, error_bracket, level_line, number_block, side_labels
from .signal_meter import END, draw_meter_scale, draw_pointer, draw_range_ruler
from .transmitter_words import above_drum, describe_transmitter, is_failure, shown_in_words
from .valves import ValveWords, draw_capsule, draw_manifold, valve_word
from .water_legs import LegFills, LegPlaces, draw_loss, draw_water_legs, pipe_break

HEIGHT = 336
_LEFT, _TOP, _BOTTOM, _WALL = 18, 8, 210, 168
_NARROWEST = 90
_WEIR, _DATUM, _FOOT = 43, 193, 224
_DRUM_LEG, _REFERENCE, _DEPTH = 234, 304, 182
_CAPSULE_TOP, _CAPSULE_BOTTOM = 280, 314
_METER, _BRACKET, _LABELS = 458, 608, 634
_RULER = (540, 814, 277)
_BLOCK, _BLOCK_WIDTH = 836, 250
_VALVES = {"reference_isolator": 1.0, "drum_isolator": 1.0, "equaliser": 0.0,
           "reference_drain": 0.0, "drum_drain": 0.0}
_WORDS = {"isolator": ValveWords("OPEN", "choked", "SHUT"),
          "drain": ValveWords("OPEN", "leaks", "SHUT"),
          "equaliser": ValveWords("OPEN", "passing", "SHUT")}


@dataclass(frozen=True, slots=True)
class DrumAndTransmitter:
    """What stands still in the picture, heights above the lower connection.

    Attributes
    ----------
    name : str
        Name of the boiler.
    inside_diameter : float [m]
        Of the drum.
    centre_height : float [m]
        Centre line of the drum.
    weir_height : float [m]
        Rest level of the constant-head chamber.
    normal_level, low_alarm, high_alarm : float [m]
        Set levels.
    """

    name: str
    inside_diameter: float
    centre_height: float
    weir_height: float
    normal_level: float
    low_alarm: float
    high_alarm: float


@dataclass(frozen=True, slots=True)
class TransmitterView:
    """What moves in the picture.

    Attributes
    ----------
    state : TransmitterState
        The transmitter as it stands.
    result : TransmitterResult
        What it measures, sends and shows.
    range_in_use : TransmitterRange [Pa, m]
        Range that its signal follows: as entered, or as the compensation makes it.
    leg_temperature : str
        Temperature of the reference leg, as a text.
    leg_is_warm : bool
        Draw the leg with the marks of hot water.
    steaming : bool
        Steam above the water, or air.
    rows : tuple of (str, str)
        Names and numbers of the block, already with units.
    show_truth : bool
        False draws a cover over the drum.
    """

    state: TransmitterState
    result: TransmitterResult
    range_in_use: TransmitterRange
    leg_temperature: str
    leg_is_warm: bool
    steaming: bool
    rows: tuple
    show_truth: bool = True


def _per_metre(still):
    return (_DATUM - _WEIR) / still.weir_height


def _edge(still, height):
    """Horizontal position of the inside of the drum wall, right of the centre line.

    A large shell curves away so far that it is drawn narrower than it is high.
    """
    def away(z):
        return radius - sqrt(max(radius ** 2 - (z - still.centre_height) ** 2, 0.0))

    radius = still.inside_diameter / 2
    across = min(_per_metre(still), (_WALL - _NARROWEST) / away(still.weir_height))
    return _WALL - across * away(height)


def _wall(still, points=40):
    """The drum's inside as far as the sheet shows it, from below upwards."""
    per_metre, radius = _per_metre(still), still.inside_diameter / 2
    low = max((_DATUM - _BOTTOM) / per_metre, still.centre_height - radius)
    high = min((_DATUM - _TOP) / per_metre, still.centre_height + radius)
    heights = [low + (high - low) * i / points for i in range(points + 1)]
    return [(_edge(still, z), _DATUM - z * per_metre) for z in heights]


def _places(still):
    return LegPlaces(_DRUM_LEG, _REFERENCE, _edge(still, still.weir_height) + 10,
                     _edge(still, 0.0) + 10, _WEIR, _DATUM, _FOOT, _per_metre(still))


@lru_cache(maxsize=32)
def _still_part(still, look):
    """Everything that nothing moves, drawn once."""
    canvas, inside = Canvas(look, HEIGHT), _wall(still)
    canvas.polygon(inside + [(x + 10, y) for x, y in reversed(inside)], "metal", "outline")
    break_line(canvas, _LEFT, _TOP, _BOTTOM)
    for x in (_DRUM_LEG, _REFERENCE):
        pipe_break(canvas, x, _FOOT - 6)
    draw_meter_scale(canvas, _METER, _DATUM, _WEIR)
    if look.detail:
        font = look.font
        canvas.text(_REFERENCE + 15, _DATUM - 8 - 1.2 * font, "reference leg", scale=0.9)
        canvas.text(_REFERENCE - 38, _WEIR - 11, "chamber", "end", 0.9)
    return canvas.fragment()


def draw_transmitter(still, view, look):
    """Return the picture of a drum with its DP transmitter and the same in words.

    Parameters
    ----------
    still : DrumAndTransmitter [m]
        What stands still.
    view : TransmitterView [Pa, m]
        What moves.
    look : Look
        Screen, projector or print.

    Returns
    -------
    Drawing
        SVG text, words, and the boxes of the lettering.
    """
    canvas = Canvas(look, HEIGHT)
    _draw_drum(canvas, still, view)
    _draw_legs(canvas, still, view)
    canvas.stamp(_still_part(still, look))
    y_true = _DATUM - view.state.drum.level * _per_metre(still)
    if view.show_truth:
        for start, end in ((_edge(still, view.state.drum.level) + 14, _METER - 10),
                           (_METER + END + 4, _BRACKET + 10)):
            canvas.line(start, y_true, end, y_true, "true-thin")
    y_shown = draw_pointer(canvas, _METER, _DATUM, _WEIR, view.result.shown_fraction)
    canvas.line(_METER + END + 4, y_shown, _BRACKET + 10, y_shown, "indicated")
    _draw_labels(canvas, still, view, y_true, y_shown)
    _draw_instrument(canvas, view)
    draw_range_ruler(canvas, *_RULER, view.range_in_use, view.result.differential)
    below = number_block(canvas, _BLOCK, _TOP, _BLOCK_WIDTH,
                         [(name, value, "outline") for name, value in view.rows], still.name)
    _draw_verdict(canvas, view, below)
    return canvas.drawing(f"{still.name}: drum and DP transmitter",
                          describe_transmitter(still, view))


def _draw_drum(canvas, still, view):
    inside = _wall(still)
    outline = [*inside, (_LEFT, _TOP), (_LEFT, _BOTTOM)]
    canvas.clip("drum", outline)
    space = "steam" if view.steaming else "air"
    if not view.show_truth:
        canvas.clipped_rect("drum", 0, 0, 240, HEIGHT, "hidden")
        canvas.text((_LEFT + _WALL) / 2, (_TOP + _BOTTOM) / 2, "true level hidden", "middle",
                    bold=True, scale=0.95)
        return
    level = view.state.drum.level
    y = _DATUM - level * _per_metre(still)
    canvas.clipped_rect("drum", 0, 0, 240, y, space)
    canvas.clipped_rect("drum", 0, y, 240, HEIGHT - y, "water")
    level_line(canvas, _LEFT, _edge(still, level) - 10, y, "true")
    font = canvas.look.font
    if y - _TOP > 2 * font:
        canvas.text(28, (y + _TOP) / 2 + 0.3 * font, space)
    if _BOTTOM - y > 2 * font:
        canvas.text(28, (y + _BOTTOM) / 2 + 0.3 * font, "water")


def _draw_legs(canvas, still, view):
    legs, water = view.state.legs, "hot water" if view.leg_is_warm else "glass water"
    run = ("hot water" if legs.reference_run_density < legs.drum_run_density else "glass water")
    places = _places(still)
    draw_water_legs(canvas, legs, places,
                    LegFills("steam" if view.steaming else "air", water, run))
    draw_loss(canvas, legs, places)
    _letter_legs(canvas, view)


def _letter_legs(canvas, view):
    legs, font, detail = view.state.legs, canvas.look.font, canvas.look.detail
    canvas.text(_REFERENCE + 15, _DATUM - 8, view.leg_temperature)
    no_make_up = legs.chamber.make_up == 0.0
    if no_make_up or legs.chamber.isolated_pressure is not None:
        canvas.text(_REFERENCE + 26, _WEIR - 1.4 * font,  # room for a short loss above the weir
                    "no make-up" if no_make_up else "isolated", bold=True, pen="error")
    foot = (_CAPSULE_TOP + _CAPSULE_BOTTOM) / 2
    for y in (_DATUM, foot):
        canvas.line(_DEPTH - 6, y, _DEPTH + 6, y, "thin")
    dimension(canvas, _DEPTH, _DATUM, foot, "")
    canvas.text(_DEPTH - 8, foot - (2.1 if detail else 1.0) * font, f"{legs.depth:.1f} m", "end",
                bold=True)
    if detail:
        canvas.text(_DEPTH - 8, foot - 1.0 * font, "not to scale", "end", 0.85)


def _draw_instrument(canvas, view):
    """Draw manifold and capsule, and name every valve that is not as in service."""
    valves, result, font = view.state.legs.manifold, view.result, canvas.look.font
    places = draw_manifold(canvas, valves, _DRUM_LEG, _REFERENCE, _FOOT, _CAPSULE_TOP)
    for valve, in_service in _VALVES.items():
        kind, left = valve.split("_")[-1], valve.startswith("drum")
        word = valve_word(getattr(valves, valve), in_service, _WORDS[kind])
        if word or (canvas.look.detail and not left):
            canvas.text(_DRUM_LEG - 40 if left else _REFERENCE + 40,
                        places[valve][1] + 0.3 * font, f"{kind} {word}".strip(),
                        "end" if left else "start", scale=0.85, bold=bool(word),
                        pen="error" if word else "thin")
    above = (result.drum_side_pressure - view.state.drum.pressure,
             result.reference_pressure - view.state.drum.pressure)
    draw_capsule(canvas, _DRUM_LEG, _REFERENCE, _CAPSULE_TOP, _CAPSULE_BOTTOM, above,
                 (view.state.connection == DIRECT) == view.state.ports_crossed)
    if canvas.look.detail:
        y = (_CAPSULE_TOP + _CAPSULE_BOTTOM) / 2 + 0.35 * font
        canvas.text(_DEPTH - 8, y, above_drum(above[0]), "end")
        canvas.text(_REFERENCE + 44, y, above_drum(above[1]))


def _draw_labels(canvas, still, view, y_true, y_shown):
    """Write the levels beside the meter, apart from each other, with the error between."""
    result, per_metre = view.result, _per_metre(still)
    labels = [(y_shown, shown_in_words(result), "error", True)]
    if canvas.look.detail:
        labels += [(_DATUM - height * per_metre, name, "thin", False) for height, name in (
            (still.weir_height, "weir of the chamber"), (0.0, "lower connection = 0"),
            (still.high_alarm, "high alarm"), (still.low_alarm, "low alarm"))]
        for y, *_ in labels[1:]:
            canvas.line(_BRACKET - 6, y, _BRACKET + 10, y, "limit")
    if view.show_truth:
        labels.append((y_true, f"drum {1000 * view.state.drum.level:.1f} mm", "true", True))
        if abs(y_true - y_shown) > 1.0:
            error_bracket(canvas, _BRACKET + 4, y_true, y_shown, 5)
    side_labels(canvas, _BRACKET + 10, _LABELS, labels, _TOP + 10, 228)


def _draw_verdict(canvas, view, below):
    """Write the error in large letters under the block of numbers."""
    result = view.result
    size = f"{1000 * abs(result.error):.1f} mm"
    if is_failure(result):
        lines = ("failure signal:", "no level to read")
    elif not view.show_truth:
        lines = ("indicator shows", f"{100 * result.shown_fraction:.1f} %")
    elif abs(result.error) < 5e-5:
        lines = ("indicator agrees", "with the drum")
    else:
        lines = (size, "reads LOW" if result.error < 0 else "reads HIGH")
    for index, line in enumerate(lines):
        canvas.text(_BLOCK + _BLOCK_WIDTH / 2, below + (1.9 + 1.65 * index) * canvas.look.font,
                    line, anchor="middle", scale=1.4, bold=True, pen="error")
