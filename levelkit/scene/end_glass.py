"""An enlarged gauge glass beside a drum: its window, its scale, what stands in it."""

from .parts import scale_bar

HALF_BORE = 10
_STEP = 0.1


def to_y(mounting, top, bottom):
    """Return the function from heights above the water connection to places on the sheet."""
    per_metre = (bottom - top) / mounting.steam_connection
    return lambda height: bottom - height * per_metre


def draw_still_glass(canvas, mounting, x, top, bottom, side):
    """Draw the body of a glass and its scale on the side away from the drum."""
    place, half = to_y(mounting, top, bottom), HALF_BORE + 6
    for upper, lower in ((top - 9, place(mounting.visible_top)),
                         (place(mounting.visible_bottom), bottom + 9)):
        canvas.rect(x - half, upper, 2 * half, lower - upper, "metal", "outline")
    canvas.rect(x - half, place(mounting.visible_top), 2 * half,
                place(mounting.visible_bottom) - place(mounting.visible_top), None, "outline")
    steps = round(mounting.steam_connection / _STEP - 1e-9)
    out = 1 if side == "right" else -1
    scale_bar(canvas, x + out * (half + 4), [_STEP * i for i in range(steps + 1)], place,
              1 if canvas.look.detail else 2, side=side)


def draw_glass_water(canvas, mounting, x, top, bottom, height):
    """Draw what stands in a glass; beyond its ends it is empty or full."""
    place = to_y(mounting, top, bottom)
    inside = min(max(height, 0.0), mounting.steam_connection)
    canvas.rect(x - HALF_BORE, top, 2 * HALF_BORE, bottom - top, "steam")
    canvas.rect(x - HALF_BORE, place(inside), 2 * HALF_BORE, bottom - place(inside),
                "glass water")
    seen = mounting.visible_bottom <= height <= mounting.visible_top
    reach = HALF_BORE + 12 if seen else 0
    canvas.line(x - reach, place(inside), x + reach, place(inside), "indicated")
