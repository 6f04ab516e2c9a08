"""Two scales of one pressure side by side, gauge and absolute, sliding behind one pointer."""

from math import ceil, floor

PER_BAR = 54.0  # so long that one barometer is a clear step
_REACH = 132
_TICKS = 5  # to the bar


def pressure_ruler(canvas, x, middle, gauge, absolute, slip=False):
    """Draw the stretch of both scales round the pointer; with `slip`, the mistaken pointer too.

    `gauge` and `absolute` are one pressure [bar]. Below absolute zero there is no scale.
    """
    font = canvas.look.font
    top, bottom = middle - _REACH, middle + min(_REACH, absolute * PER_BAR)
    slip_y = middle + (absolute - gauge) * PER_BAR if slip else None
    canvas.rect(x - 9, top, 18, bottom - top, "paper")
    for edge in (x - 9, x, x + 9):
        canvas.line(edge, top, edge, bottom, "thin" if edge != x else "outline")
    for pressure, sign, name, unit in ((gauge, -1, "gauge", "bar g"),
                                       (absolute, 1, "absolute", "bar")):
        anchor = "end" if sign < 0 else "start"
        canvas.text(x + 14 * sign, 20, name, anchor, bold=True)
        if canvas.look.detail:
            canvas.text(x + 14 * sign, 20 + 1.2 * font, unit, anchor)
        _ticks(canvas, x, sign, top, bottom, lambda value, p=pressure: middle - (value - p)
               * PER_BAR, [middle] if sign < 0 or not slip else [middle, slip_y])
        canvas.text(x + 30 * sign, middle + 0.45 * font,
                    f"{pressure:.2f}" if sign > 0 else f"{pressure:.1f}", anchor, 1.3, bold=True)
    canvas.line(x - 24, middle, x + 24, middle, "true")
    canvas.line(x - 14, top, x + 14, top, "limit")
    if bottom < middle + _REACH:
        canvas.line(x - 12, bottom, x + 12, bottom, "true")
        canvas.text(x, bottom + 1.6 * font, "perfect vacuum", "middle")
    else:
        canvas.line(x - 14, bottom, x + 14, bottom, "limit")
    if slip:
        canvas.line(x, slip_y, x + 24, slip_y, "indicated")
        canvas.text(x + 30, slip_y + 0.4 * font, f"slip: {gauge:.1f}", bold=True, pen="error")


def _ticks(canvas, x, sign, top, bottom, to_y, taken):
    """Draw ticks and whole numbers on one side, leaving room round the places taken."""
    font = canvas.look.font
    lowest, highest = ((to_y(0.0) - y) / PER_BAR for y in (bottom, top))
    for step in range(ceil(_TICKS * lowest - 1e-6), floor(_TICKS * highest + 1e-6) + 1):
        y, whole = to_y(step / _TICKS), step % _TICKS == 0
        canvas.line(x, y, x + sign * (9 if whole else 5), y, "thin")
        if (whole and top + 0.5 * font < y
                and all(abs(y - other) > 1.35 * font for other in taken)):
            canvas.text(x + 16 * sign, y + 0.3 * font,
                        f"{step // _TICKS}".replace("-", "\u2212"),
                        "end" if sign < 0 else "start", 0.85)
