"""Drawing of a manifold drill: every valve with its name and state, what it does, the log."""

from dataclasses import dataclass

from ..physics.manifold_drill import WRONG
from ..physics.transmitter import TransmitterResult
from ..physics.transmitter_range import DIRECT
from ..physics.transmitter_state import TransmitterState
from ..units import format_number
from .canvas import Canvas
from .parts import error_bracket, number_block
from .signal_meter import END, draw_meter_scale, draw_pointer
from .transmitter_words import above_drum, is_failure, shown_in_words
from .valves import draw_capsule, draw_manifold
from .water_legs import LegFills, LegPlaces, draw_loss, draw_water_legs

HEIGHT = 322
_PIPES_FROM, _DRUM, _REFERENCE = 60, 196, 356
_WEIR, _WATER_Y, _FOOT = 36, 98, 132
_STEAM_VALVE = 191
_CAPSULE_TOP, _CAPSULE_BOTTOM, _PITCH = 262, 302, 38
_METER, _ZERO_Y, _FULL_Y = 556, 193, 43
_BLOCK, _BLOCK_WIDTH = 740, 346
_SHOWN_MOVES = 6


@dataclass(frozen=True, slots=True)
class ManifoldView:
    """What the picture shows.

    Attributes
    ----------
    state : TransmitterState
        The transmitter as its valves stand.
    result : TransmitterResult
        What it shows.
    goal : str
        What the task is.
    moves : tuple of (str, str)
        What was done so far, and how each move was judged.
    reached : bool
        Whether the goal is reached.
    show_truth : bool
        False hides what the drum holds.
    """

    state: TransmitterState
    result: TransmitterResult
    goal: str
    moves: tuple
    reached: bool
    show_truth: bool = True


def draw_manifold_drill(view, look):
    """Return the picture of a manifold in a drill and the same in words.

    Parameters
    ----------
    view : ManifoldView [m, Pa, A]
        Valves, reading, log.
    look : Look
        Screen, projector or print.

    Returns
    -------
    Drawing
        SVG text, words, and the boxes of the lettering.
    """
    canvas = Canvas(look, HEIGHT)
    _draw_legs(canvas, view)
    _draw_valves(canvas, view)
    _draw_meter(canvas, view)
    _draw_log(canvas, view)
    return canvas.drawing("A manifold and its transmitter", describe_drill(view))


def _draw_legs(canvas, view):
    legs, font = view.state.legs, canvas.look.font
    places = LegPlaces(_DRUM, _REFERENCE, _PIPES_FROM, _PIPES_FROM, _WEIR, _WATER_Y, _FOOT,
                       (_WATER_Y - _WEIR) / legs.weir_height)
    draw_water_legs(canvas, legs, places, LegFills("steam"))
    draw_loss(canvas, legs, places)
    open_steam = legs.chamber.isolated_pressure is None
    canvas.text(_STEAM_VALVE, _WEIR + 13 + 0.8 * font, _stated("steam valve", open_steam),
                "middle", 0.9, bold=not open_steam)
    for y in (_WEIR, _WATER_Y):
        canvas.text(_PIPES_FROM - 6, y + 0.35 * font, "drum", "end")


def _draw_valves(canvas, view):
    state, result, font = view.state, view.result, canvas.look.font
    places = draw_manifold(canvas, state.legs.manifold, _DRUM, _REFERENCE, _FOOT, _CAPSULE_TOP,
                           _PITCH, 10, vents=True)
    for valve, (x, y) in places.items():
        opening, kind = getattr(state.legs.manifold, valve), valve.split("_")[-1]
        text, bold = _stated(kind, opening > 0), bool(opening) != (kind == "isolator")
        if valve == "equaliser":
            canvas.text(x, y - 14, text, "middle", 0.9, bold=bold)
        else:
            left, away = valve.startswith("drum"), 20 if kind == "isolator" else 6
            canvas.text(x + (-away if left else away), y + 0.35 * font, text,
                        "end" if left else "start", 0.9, bold=bold)
    above = (result.drum_side_pressure - state.drum.pressure,
             result.reference_pressure - state.drum.pressure)
    if canvas.look.detail:
        y = (_CAPSULE_TOP + _CAPSULE_BOTTOM) / 2 + 0.35 * font
        canvas.text(_DRUM - 44, y, above_drum(above[0]), "end")
        canvas.text(_REFERENCE + 44, y, above_drum(above[1]))
    lowest = min(0.0, *above)  # vented or drained ports lie far below the drum: count from them
    draw_capsule(canvas, _DRUM, _REFERENCE, _CAPSULE_TOP, _CAPSULE_BOTTOM,
                 (above[0] - lowest, above[1] - lowest),
                 (state.connection == DIRECT) == state.ports_crossed)


def _draw_meter(canvas, view):
    result, level, font = view.result, view.state.drum.level, canvas.look.font
    draw_meter_scale(canvas, _METER, _ZERO_Y, _FULL_Y)
    y_shown = draw_pointer(canvas, _METER, _ZERO_Y, _FULL_Y, result.shown_fraction)
    x, y = _METER + END / 2, 256
    canvas.text(x, y + 0.2 * font, shown_in_words(result), "middle", bold=True, pen="error")
    canvas.text(x, y + 1.5 * font, f"{1e3 * result.current:.2f} mA", "middle", bold=True,
                pen="error")
    if view.show_truth:
        y_true = _ZERO_Y + level / view.state.legs.weir_height * (_FULL_Y - _ZERO_Y)
        canvas.mark([(_METER - 1, y_true), (_METER - 10, y_true - 6), (_METER - 10, y_true + 6)],
                    "true", filled=True)
        if abs(y_true - y_shown) > 1.0:
            error_bracket(canvas, _METER + END + 14, y_true, y_shown, 5)
    text = f"drum {1000 * level:.1f} mm" if view.show_truth else "drum hidden"
    canvas.text(x, y + 2.8 * font, text, "middle", bold=True)


def _draw_log(canvas, view):
    """The task, the last moves and how they were judged, and the last verdict in large."""
    first = max(0, len(view.moves) - _SHOWN_MOVES)
    rows = [(f"{number + 1}  {text}", verdict, "error" if verdict == WRONG else "outline")
            for number, (text, verdict) in enumerate(view.moves) if number >= first]
    rows += [("", "", "outline")] * (_SHOWN_MOVES - len(rows))
    below = number_block(canvas, _BLOCK, 8, _BLOCK_WIDTH, rows, view.goal)
    verdict = view.moves[-1][1] if view.moves else ""
    lines = [f"last move: {verdict.upper()}" if verdict else "",
             "GOAL REACHED" if view.reached else ""]
    for index, (line, pen) in enumerate(zip(lines, ("error" if verdict == WRONG else "outline",
                                                    "outline"), strict=True)):
        if line:
            canvas.text(_BLOCK + _BLOCK_WIDTH / 2,
                        below + (1.9 + 1.65 * index) * canvas.look.font, line, "middle", 1.3,
                        bold=True, pen=pen)


def _stated(name, is_open):
    return f"{name} {'open' if is_open else 'SHUT'}"


def describe_drill(view):
    """Return what the picture shows, in a few sentences."""
    result, valves = view.result, view.state.legs.manifold
    states = [_stated(name, getattr(valves, valve) > 0) for valve, name in (
        ("drum_isolator", "drum isolator"), ("reference_isolator", "reference isolator"),
        ("equaliser", "equaliser"))]
    states.append(_stated("steam valve of the chamber",
                          view.state.legs.chamber.isolated_pressure is None))
    blowing = [valve.replace("_", " ") for valve in (
        "drum_drain", "reference_drain", "drum_vent", "reference_vent") if getattr(valves, valve)]
    sentences = [f"Valves: {', '.join(states + [f'{name} open' for name in blowing])}.",
                 f"The indicator: {shown_in_words(result)} ({1e3 * result.current:.2f} mA)."]
    if view.show_truth:
        sentences.append(f"The drum holds {format_number(1000 * view.state.drum.level, 1)} mm.")
        if not is_failure(result) and abs(result.error) >= 5e-5:
            sentences.append(f"It reads {1000 * abs(result.error):.1f} mm "
                             f"{'LOW' if result.error < 0 else 'HIGH'}.")
    if view.state.legs.reference_loss > 5e-4:
        sentences.append(f"The reference leg lacks {1000 * view.state.legs.reference_loss:.0f} "
                         "mm.")
    return " ".join(sentences)
