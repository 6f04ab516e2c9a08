"""The indicator with one pointer on three scales: mA, per cent and bar; and the range ruler."""

from ..physics.signal import (
    HIGH_FAILURE,
    LOW_FAILURE,
    fraction_of_current,
    signal_current,
    signal_pressure,
)
from .lettering import text_width

LOWEST, HIGHEST = -0.25, 1.125
"""The scale runs from 0 mA to 22 mA."""
_WIDTH = 10
_COLUMNS = (("mA", 52), ("%", 92), ("bar", 134))
END = _COLUMNS[-1][1]
"""Width of the meter [viewBox units]."""


def draw_meter_scale(canvas, x, bottom_y, top_y):
    """Draw the column and its three scales, with 0 % at `bottom_y` and 100 % at `top_y`."""
    def to_y(fraction):
        return bottom_y + fraction * (top_y - bottom_y)

    font = canvas.look.font
    canvas.rect(x, to_y(HIGHEST), _WIDTH, to_y(LOWEST) - to_y(HIGHEST), "paper", "outline")
    for low, high in ((LOWEST, fraction_of_current(LOW_FAILURE)),
                      (fraction_of_current(HIGH_FAILURE), HIGHEST)):
        canvas.rect(x, to_y(high), _WIDTH, to_y(low) - to_y(high), "metal", "outline")
    for name, edge in _COLUMNS:
        canvas.text(x + edge, to_y(HIGHEST) - 0.35 * font, name, "end", 0.9, bold=True)
    for step in range(-1, 5):
        fraction = step / 4
        y = to_y(fraction)
        canvas.line(x, y, x + _WIDTH + 5, y, "thin")
        texts = (f"{1e3 * signal_current(fraction):.0f}", f"{100 * fraction:.0f}",
                 f"{signal_pressure(fraction) / 1e5:.1f}")
        for text, (_, edge) in zip(texts, _COLUMNS, strict=True):
            canvas.text(x + edge, y + 0.3 * font, text.replace("-", "\u2212"), "end", 0.85)


def draw_pointer(canvas, x, bottom_y, top_y, shown_fraction):
    """Draw the pointer of a meter, at its stop where the scale ends; return its y."""
    y = bottom_y + min(max(shown_fraction, LOWEST), HIGHEST) * (top_y - bottom_y)
    canvas.line(x - 8, y, x + _WIDTH, y, "indicated")
    canvas.mark([(x + _WIDTH, y), (x + _WIDTH + 9, y - 6), (x + _WIDTH + 9, y + 6)], "indicated",
                filled=False)
    return y


def draw_range_ruler(canvas, left, right, y, calibration, differential):
    """Draw LRV, zero and URV on one line with the present differential pressure marked.

    The line reaches as far below zero as above it: a wet-leg range lies on one side only.
    """
    font = canvas.look.font
    reach = 1.15 * max(abs(calibration.lower_value), abs(calibration.upper_value))
    middle, scale = (left + right) / 2, (right - left) / 2 / reach
    ends = {"LRV": middle + calibration.lower_value * scale,
            "URV": middle + calibration.upper_value * scale}
    canvas.line(left, y, right, y)
    canvas.rect(min(ends.values()), y - 5, abs(ends["LRV"] - ends["URV"]), 10, "metal", "outline")
    canvas.line(middle, y - 11, middle, y + 11)
    canvas.text(middle, y + 11 + 0.8 * font, "0", "middle", bold=True)
    _draw_ends(canvas, y, calibration, ends, middle)
    x = min(max(middle + differential * scale, left), right)
    off = abs(differential) > 1.001 * reach
    text = f"{'off the line: ' if off else ''}H \u2212 L = {kilopascal(differential)} kPa"
    canvas.mark([(x, y - 6), (x - 6, y - 17), (x + 6, y - 17)], "error", filled=True)
    half = text_width(text, font, bold=True) / 2
    canvas.text(min(max(x, left + half), right - half), y - 21, text, "middle", bold=True,
                pen="error")


def _draw_ends(canvas, y, calibration, ends, middle):
    """Write name, value and current under both ends of the range, clear of zero and each other."""
    font = canvas.look.font
    lines = {name: [name, kilopascal(value)] + [current] * canvas.look.detail
             for name, value, current in (("LRV", calibration.lower_value, "4 mA"),
                                          ("URV", calibration.upper_value, "20 mA"))}
    half = {name: max(text_width(line, font) for line in texts) / 2 + 0.35 * font
            for name, texts in lines.items()}
    near, far = sorted(ends, key=lambda name: abs(ends[name] - middle))
    sides = {name: 1 if ends[name] >= middle else -1 for name in ends}
    away = {name: max(abs(ends[name] - middle), half[name] + 0.35 * font) for name in ends}
    if sides[near] == sides[far]:  # the nearer one gives way towards zero, then the other outwards
        apart = half[near] + half[far]
        away[near] = max(min(away[near], away[far] - apart), half[near] + 0.35 * font)
        away[far] = max(away[far], away[near] + apart)
    for name, texts in lines.items():
        x = middle + sides[name] * away[name]
        canvas.line(ends[name], y - 9, ends[name], y + 9)
        for index, line in enumerate(texts):
            canvas.text(x, y + 11 + (0.8 + 1.2 * index) * font, line, "middle")


def kilopascal(pressure):
    """Return a differential pressure [Pa] as text in kPa, with a proper minus sign."""
    decimals = 2 if abs(pressure) < 99.995e3 else 0
    text = f"{pressure / 1e3:.{decimals}f}"
    return (text.lstrip("-") if float(text) == 0 else text).replace("-", "\u2212")
