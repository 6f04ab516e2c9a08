"""The blow-through drill: the gauge as it is seen, the run so far, the ledger of proofs."""

from dataclasses import dataclass, replace

from ..physics.blow_glass import (
    ABOVE,
    BELOW,
    BETWEEN,
    CHOKED,
    DIES_AWAY,
    DRY,
    EMPTY,
    FOAMING,
    FULL,
    IN_SIGHT,
    LEVEL,
    NARROWED,
    NEARLY_FULL,
    NO_BLOW,
    OPEN_GENTLY,
    SHUT,
    STRONG,
    WET,
)
from .canvas import Canvas
from .cock_gauge import (
    GaugePlace,
    draw_cock,
    draw_column,
    draw_drum,
    draw_fittings,
    draw_pipes,
    draw_plume,
    draw_scale,
)
from .parts import cock

WIDTH, HEIGHT = 700, 340
_PLACE = GaugePlace(wall=62, glass=186, steam=44, water=224, left=12)
_COCK_X, _TOP = 122, 0.4
_SHOWN = {EMPTY: 0.0, LEVEL: 0.19, NEARLY_FULL: 0.345, FULL: 0.4, FOAMING: 0.03}
_LEVELS = {BELOW: -0.10, BETWEEN: 0.02, IN_SIGHT: 0.20, ABOVE: 0.43}
_LEDGER, _EDGE, _STRIP_FOOT = 418, 692, 334
SHORT_NAMES = {
    "nothing passes the shut steam cock": "steam cock holds",
    "nothing passes the shut water cock": "water cock holds",
    "drain clear": "drain clear",
    "water way clear": "water way clear",
    "steam way clear": "steam way clear",
    "nothing passes the shut drain": "drain cock holds",
    "level at or above the water connection": "connection covered",
    "level in the visible glass": "level in the glass",
}
"""Short names of the statements of the ledger, for boxes and drawings."""


@dataclass(frozen=True, slots=True)
class BlowView:
    """What the picture shows.

    Attributes
    ----------
    entries : tuple of DrillEntry
        The run so far; the last one is looked at.
    ledger : tuple of (str, str, int or None)
        Statement, verdict or "?", and the move that settled it.
    condition : GaugeCondition or None
        The hidden truth once it may be seen.
    heading : str
        Which drill this is.
    """

    entries: tuple
    ledger: tuple
    condition: object
    heading: str


def draw_blow_through(view, look):
    """Return the picture of a blow-through drill and the same in words.

    Parameters
    ----------
    view : BlowView
        What is shown.
    look : Look
        Screen, projector or print.

    Returns
    -------
    Drawing
        SVG text, words, and the boxes of the lettering.
    """
    canvas = Canvas(replace(look, width=WIDTH), HEIGHT)
    entry = view.entries[-1]
    _draw_gauge(canvas, view, entry)
    _draw_sight(canvas, entry.sight)
    below = _draw_ledger(canvas, view)
    _draw_run(canvas, view.entries, below + 8)
    return canvas.drawing("Blowing through a gauge glass", describe_blow_through(view))


def _draw_gauge(canvas, view, entry):
    inside, condition, font = entry.inside, view.condition, canvas.look.font
    known = condition is not None
    draw_drum(canvas, _PLACE, _LEVELS[condition.zone] if known else 0.0, _TOP, known, foot=60)
    draw_pipes(canvas, _PLACE, condition.zone != BELOW if known else None)
    draw_column(canvas, _PLACE, _SHOWN[entry.sight.glass], _TOP,
                0.8 if entry.sight.glass == FOAMING else 0.0)
    draw_fittings(canvas, _PLACE)
    if known:
        for way, x, y, upright in ((condition.steam_way, 154, _PLACE.steam, False),
                                   (condition.water_way, 154, _PLACE.water, False),
                                   (condition.drain_way, _PLACE.glass, _PLACE.drain - 18, True)):
            draw_scale(canvas, x, y, {CHOKED: 1.0, NARROWED: 0.6}.get(way, 0.0), upright)
    for name, y, is_open in (("S", _PLACE.steam, inside.steam_handle),
                             ("W", _PLACE.water, inside.water_handle)):
        draw_cock(canvas, _COCK_X, y, float(is_open))
        canvas.text(_COCK_X, y - 17, f"{name} {_stand(is_open)}", "middle", bold=True)
    draw_cock(canvas, _PLACE.glass, _PLACE.drain, float(inside.drain_handle), vertical=True)
    canvas.text(_PLACE.glass - 18, _PLACE.drain + 12 + 0.35 * font,
                f"D {_stand(inside.drain_handle)}", "end", bold=True)
    canvas.text(_PLACE.glass + 22, (_PLACE.steam + _PLACE.water) / 2, "glass:", "start", 0.9)
    canvas.text(_PLACE.glass + 22, (_PLACE.steam + _PLACE.water) / 2 + 1.2 * font,
                entry.sight.glass, bold=True)


def _stand(is_open):
    return "open" if is_open else "shut"


def _draw_sight(canvas, sight):
    share = {STRONG: 1.0, "weak": 0.3}.get(sight.blow, 0.0)
    draw_plume(canvas, _PLACE, share * (sight.nature == WET), share * (sight.nature == DRY),
               float(sight.blow == DIES_AWAY))
    text = blow_words(sight)
    if canvas.look.detail:
        text += {WET: ": heavy, white, low pitch", DRY: ": clear at the mouth, high pitch",
                 "": ""}[sight.nature]
    canvas.text(_PLACE.left, HEIGHT - 8, text, bold=True, pen="error")


def blow_words(sight):
    """Return what is seen at the drain, in three words."""
    if sight.blow == NO_BLOW:
        return "no blow"
    if sight.blow == DIES_AWAY:
        return "the blow dies away"
    return f"{sight.blow} {sight.nature.upper()} blow"


def _draw_ledger(canvas, view):
    font = canvas.look.font
    pitch, scale = (1.42, 0.95) if canvas.look.detail else (1.1, 0.84)
    pitch *= font
    canvas.rect(_LEDGER, 6, _EDGE - _LEDGER, pitch * (len(view.ledger) + 1), "paper", "outline")
    canvas.text(_LEDGER + 8, 6 + 0.74 * pitch, view.heading, bold=True, scale=scale)
    for row, (statement, verdict, move) in enumerate(view.ledger, 1):
        y = 6 + row * pitch
        canvas.line(_LEDGER, y, _EDGE, y, "outline" if row == 1 else "thin")
        canvas.text(_LEDGER + 8, y + 0.74 * pitch, SHORT_NAMES[statement], scale=scale)
        said = f"{verdict}, {move}" if move is not None else verdict
        canvas.text(_EDGE - 8, y + 0.74 * pitch, said, "end", scale, bold=True,
                    pen="error" if verdict == "NO" else "outline")
    return 6 + pitch * (len(view.ledger) + 1)


def _draw_run(canvas, entries, top):
    """Draw the last moves as small glasses in a row: what was turned, what was seen."""
    font = canvas.look.font
    pitch = 2.85 * font
    shown = entries[-int((_EDGE - _LEDGER) / pitch):]
    glass_top, foot = top + 2.5 * font + 4, _STRIP_FOOT - 1.3 * font
    for place, entry in enumerate(shown):
        x = _LEDGER + (place + 0.5) * pitch
        if entry.move is None:
            canvas.text(x, top + font, "found", "middle", 0.85)
        else:
            canvas.text(x, top + font, f"{entry.number} {entry.move.cock[0].upper()}", "middle",
                        0.9, bold=True)
            cock(canvas, x, top + 1.75 * font, entry.move.action != SHUT, 0.42 * font)
            if entry.move.action == OPEN_GENTLY:  # a cracked cock is not thrown wide open
                canvas.line(x - 0.6 * font, top + 1.75 * font, x + 0.6 * font, top + 1.75 * font)
        _draw_small_glass(canvas, x, glass_top, foot, entry.sight)
        canvas.text(x, _STRIP_FOOT, _short(entry.sight), "middle", 0.85, bold=True)


def _draw_small_glass(canvas, x, top, foot, sight):
    canvas.rect(x - 6, top, 12, foot - top, "steam", "thin")
    height = (foot - top) * min(1.0, _SHOWN[sight.glass] / _TOP)
    canvas.rect(x - 6, foot - height, 12, height, "glass water", "thin")
    if sight.glass == FOAMING:
        for step in range(4):
            y = foot - 6 - (foot - top - 12) * step / 4
            canvas.circle(x - 2 + 4 * (step % 2), y, 2.5, None, "thin")


def _short(sight):
    """The blow in one short word: capitals for a strong one."""
    word = sight.nature or {DIES_AWAY: "fades"}.get(sight.blow, "\u2013")
    return word.upper() if sight.blow == STRONG else word


def describe_blow_through(view):
    """Return what the picture shows, in a sentence or two."""
    entry = view.entries[-1]
    inside = entry.inside
    turned = "As found" if entry.move is None else (
        f"Move {entry.number}, {entry.move.cock} cock {entry.move.action}")
    stand = ", ".join(f"{name} {_stand(is_open)}" for name, is_open in (
        ("S", inside.steam_handle), ("W", inside.water_handle), ("D", inside.drain_handle)))
    return f"{turned} ({stand}): {sight_words(entry.sight)}."


def sight_words(sight):
    """Return drain and glass in one line."""
    return f"{blow_words(sight)}, glass {sight.glass}"
