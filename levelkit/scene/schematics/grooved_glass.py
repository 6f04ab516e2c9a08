"""Line drawing of the grooves of a reflex glass: one groove, a ray that meets it at 45 degrees."""

from .sheet import Sheet

_LEFT, _RIGHT, _FRONT, _BACK, _DEPTH = 80, 400, 50, 170, 40


def draw_grooved_glass(labelled):
    """Return the drawing; what becomes of the ray is asked for."""
    sheet = Sheet(278, labelled)
    pitch = 2 * _DEPTH
    teeth = []
    for index in range((_RIGHT - _LEFT) // pitch):
        x = _LEFT + index * pitch
        teeth += [(x, _BACK), (x + _DEPTH, _BACK + _DEPTH)]
    teeth.append((_RIGHT, _BACK))
    sheet.polygon([(_LEFT, _FRONT), (_RIGHT, _FRONT), *reversed(teeth)], "metal", "outline")
    hit = (_LEFT + 2.5 * _DEPTH, _BACK + _DEPTH / 2)
    sheet.line(hit[0], 16, hit[0], _FRONT, "true")
    sheet.arrow(hit[0], _FRONT, *hit, pen="true", size=10)
    reach = 34
    sheet.line(hit[0] - reach, hit[1] + reach, hit[0] + reach, hit[1] - reach, "centre")
    sheet.text(hit[0] + 10, 28, "light", scale=0.85)
    sheet.text(hit[0] + reach + 6, hit[1] - reach - 2, "normal", scale=0.85)
    sheet.text(_RIGHT + 14, (_FRONT + _BACK) / 2 + 5, "glass,", scale=0.85)
    sheet.symbol(_RIGHT + 60, (_FRONT + _BACK) / 2 + 5, "n_g")
    sheet.text(_RIGHT + 14, _BACK + _DEPTH, "steam or water,", scale=0.85)
    sheet.text(_RIGHT + 14, _BACK + _DEPTH + 18, "index", scale=0.85)
    sheet.symbol(_RIGHT + 52, _BACK + _DEPTH + 18, "n_s")
    sheet.text(_RIGHT + 76, _BACK + _DEPTH + 18, "or", scale=0.85)
    sheet.symbol(_RIGHT + 98, _BACK + _DEPTH + 18, "n_w")
    return sheet.drawing("Grooves of a reflex glass", (
        "A thick glass with right-angled grooves on its inner side, which touch steam or water. A "
        "ray enters the flat front squarely and meets a groove at 45 degrees to the normal."))
