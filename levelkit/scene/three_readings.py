"""Six indicators of one drum side by side, on one scale of height, and the same in words."""

from dataclasses import dataclass

from ..diagnosis.readings import EMPTY, FAILED, FULL
from ..diagnosis.setting import GLASSES, NAMES, U_TUBE
from ..units import format_number, gauge_pressure_bar
from .canvas import Canvas
from .lettering import spread, text_width
from .parts import level_line, number_block, scale_bar

LEFT, PITCH, BLOCK, BLOCK_WIDTH = 64, 103, 788, 302
NAMES_AT = LEFT + 6 * PITCH + 4
LOWEST = -0.05
GLASS_HALF, METER_HALF = 11, 5
"""Half widths: a glass or limb holds what it shows, a meter fills up to it."""
_STATES = {FULL: "full, no number", EMPTY: "empty, no number", FAILED: "out of order"}
_TREND = {-1: "falling", 0: "steady", 1: "rising"}


@dataclass(frozen=True, slots=True)
class BenchView:
    """What is to be drawn.

    Attributes
    ----------
    result : BenchResult
        Readings, alarms, pressure.
    corrected : mapping of str to Corrected, or None [m]
        Readings reduced to drum level, once that was done.
    minutes : float [min]
        On the clock.
    show_truth : bool
        Whether the true level is drawn.
    """

    result: object
    corrected: object
    minutes: float
    show_truth: bool


def draw_three_readings(view, look):
    """Return the picture of six indicators, marks for what they show and what it stands for."""
    height = 276 if look.detail else 262
    canvas = Canvas(look, height)
    result, font = view.result, look.font
    boiler = result.setting.boiler
    highest = boiler.legs.chamber_height
    top, bottom = 1.9 * font, height - (4.0 if look.detail else 2.9) * font

    def y_of(level):
        return bottom - (level - LOWEST) / (highest - LOWEST) * (bottom - top)

    scale_bar(canvas, LEFT - 8, [0.05 * i for i in range(int(highest / 0.05 + 1e-6) + 1)], y_of,
              4 if look.detail else 5, side="left")
    _level_names(canvas, boiler.levels, y_of, top, bottom)
    if view.show_truth:  # behind the instruments: what they show must not be struck through
        y = y_of(min(max(result.true_level, LOWEST), highest))
        level_line(canvas, LEFT, NAMES_AT - 12, y, "true")
    for place, name in enumerate(NAMES):
        _column(canvas, view, name, LEFT + place * PITCH, y_of, (top, bottom))
    number_block(canvas, BLOCK, 0.5 * font, BLOCK_WIDTH, _rows(view, look.detail))
    return canvas.drawing("Six indicators of one drum", in_words(view))


def _level_names(canvas, levels, y_of, top, bottom):
    font = canvas.look.font
    named = [("high alarm", levels.high_alarm), ("normal", levels.normal),
             ("low alarm", levels.low_alarm), ("low trip", levels.low_trip)]
    places = spread([y_of(level) for _, level in named], 1.2 * font, top, bottom)
    room = BLOCK - NAMES_AT - 12
    for (name, level), place in zip(named, places, strict=True):
        canvas.line(LEFT, y_of(level), NAMES_AT - 6, y_of(level), "limit")
        canvas.line(NAMES_AT - 6, y_of(level), NAMES_AT + 4, place, "thin")
        canvas.text(NAMES_AT + 6, place + 0.3 * font, name,
                    scale=min(1.0, room / text_width(name, font)))


def _column(canvas, view, name, x, y_of, ends):
    """One indicator: its own picture, its mark, its name above and its numbers below."""
    reading, font = view.result.readings[name], canvas.look.font
    boiler, bottom = view.result.setting.boiler, ends[1]
    dial = name not in GLASSES and name != U_TUBE
    middle, half = x + 0.42 * PITCH, METER_HALF if dial else GLASS_HALF
    lower, upper = 0.0, boiler.legs.chamber_height
    if name in GLASSES:
        lower, upper = boiler.glass.mounting.visible_bottom, boiler.glass.mounting.visible_top
    shown = min(max(reading.shown, lower), upper)
    canvas.rect(middle - half, y_of(upper), 2 * half, y_of(lower) - y_of(upper),
                "steam" if name in GLASSES else "paper", "outline")
    if dial:
        for quarter in range(5):
            y = y_of(lower + 0.25 * quarter * (upper - lower))
            canvas.line(middle + half, y, middle + half + 6, y, "thin")
    if reading.status == FAILED:
        canvas.line(middle - half, y_of(upper), middle + half, y_of(lower), "error")
        canvas.line(middle - half, y_of(lower), middle + half, y_of(upper), "error")
    else:
        fill = "glass water" if name in GLASSES else "metal" if dial else "fluid"
        canvas.rect(middle - half, y_of(shown), 2 * half, y_of(lower) - y_of(shown), fill,
                    "outline")
    if reading.status != FAILED:
        level_line(canvas, middle - half - 9, middle + half + 4, y_of(shown), "indicated")
    item = view.corrected[name] if view.corrected else None
    if item is not None and item.level is not None:
        _corrected_mark(canvas, middle + half + 24, item, y_of, ends)
    _fitted(canvas, middle, 1.1 * font, name.replace("transmitter", "transm."), bold=True)
    _fitted(canvas, middle, bottom + 1.35 * font, reading.text, bold=True, pen="indicated")
    if view.corrected:
        text = ("no number" if item.level is None else
                f"{1000 * item.level:.0f} \u00b1 {1000 * item.uncertainty:.0f}".replace(
                    "-", "\u2212"))
        _fitted(canvas, middle, bottom + 2.6 * font, text)
        if canvas.look.detail and item.largest:
            cause = item.largest.removesuffix(" density")
            _fitted(canvas, middle, bottom + 3.5 * font, f"by {cause}", largest=0.85)


def _corrected_mark(canvas, x, item, y_of, ends):
    """Drum level behind a reading, with its uncertainty as an upright bar."""
    low, high = (min(max(y_of(item.level + by), ends[0]), ends[1])
                 for by in (-item.uncertainty, item.uncertainty))
    canvas.line(x, low, x, high, "outline")
    for y in (low, high):
        canvas.line(x - 4, y, x + 4, y, "outline")
    canvas.dot(x, min(max(y_of(item.level), ends[0]), ends[1]), 4, "outline")


def _fitted(canvas, x, y, text, bold=False, pen="outline", largest=1.0):
    wide = text_width(text, canvas.look.font, bold)
    canvas.text(x, y, text, "middle", min(largest, (PITCH - 6) / wide), bold, pen)


def _rows(view, detail):
    result, alarms = view.result, view.result.alarms
    gauge = format_number(gauge_pressure_bar(result.pressure, result.setting.barometer), 1)
    calls = [name for name, on in (("TRIP", alarms.trip), ("LOW", alarms.low),
                                   ("HIGH", alarms.high), ("FAULT", alarms.bad_input)) if on]
    feed = "shut in" if alarms.feed_share == 0 else "opening" if alarms.feed_share > 1 else (
        "held" if alarms.bad_input else "balanced")
    true = (f"{1000 * result.true_level:.0f} mm".replace("-", "\u2212") if view.show_truth
            else "hidden")
    rows = [("Pressure", f"{gauge} bar g, {_TREND[result.pressure_trend]}", "outline"),
            ("Alarms", ", ".join(calls) or "none", "error" if calls else "outline"),
            ("Feed on automatic", feed, "outline"), ("True level", true, "true"),
            ("Clock", f"{view.minutes:.1f} min", "outline")]
    if detail:
        rows.insert(3, ("Remote instruments on", result.setting.arrangement, "outline"))
        rows.append(("Corrected", "\u25cf with \u00b1 (k = 2)" if view.corrected else "not yet",
                     "outline"))
    return rows


def in_words(view):
    """Return the readings, what they stand for once corrected, and the alarms, in words."""
    result = view.result
    parts = []
    for name, reading in result.readings.items():
        words = f"{name} {_STATES.get(reading.status, reading.text)}"
        item = view.corrected[name] if view.corrected else None
        if item is not None and item.level is not None:
            words += f" (drum {1000 * item.level:.0f} \u00b1 {1000 * item.uncertainty:.0f} mm)"
        parts.append(words)
    truth = (f" True level {1000 * result.true_level:.0f} mm." if view.show_truth
             else " The true level is hidden.")
    rows = {name: value for name, value, _ in _rows(view, False)}
    text = (f"{'; '.join(parts)}.{_doubt_in_words(view)} Pressure {rows['Pressure']}; "
            f"alarms: {rows['Alarms']}; feed {rows['Feed on automatic']}.{truth}")
    return text.replace(" -", " \u2212")


def _doubt_in_words(view):
    """Say what the uncertainties mostly come from, each cause once."""
    causes = {}
    for name, item in (view.corrected or {}).items():
        if item.largest:
            causes.setdefault(item.largest, []).append(name)
    if not causes:
        return ""
    told = ", ".join(f"{cause} ({', '.join(names)})" for cause, names in causes.items())
    return f" Most of the \u00b1 comes from {told}."
