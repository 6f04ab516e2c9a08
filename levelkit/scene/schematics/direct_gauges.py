"""Line drawings of the three direct gauges, their parts lettered: to learn, or name by hand."""

from functools import partial

from ...physics.glass_choice import PLATE, REFLEX, TUBULAR
from ..balloons import draw_balloons
from ..glass_elevation import draw_elevation
from ..glass_sections import draw_section
from ..look import Look
from .sheet import Sheet

_LOOK = Look("schematic", 740, 15.0, True, True)
_HEIGHT, _LIST_LEFT, _LIST_TOP, _COLUMN, _PITCH = 420, 384, 312, 172, 17


def _draw_gauge(kind, labelled):
    """Return the drawing: from the side, and cut across as seen from above."""
    sheet = Sheet(_HEIGHT, labelled, _LOOK)
    balloons = draw_elevation(sheet, kind) + draw_section(sheet, kind)
    letters = dict(zip((one.part for one in balloons), "ABCDEFGHIJKLMNOP", strict=False))
    draw_balloons(sheet, balloons, letters)
    sheet.text(384, 22, "cut across, from above", scale=0.85)
    rows = (len(letters) + 1) // 2
    for index, (part, letter) in enumerate(letters.items()):
        x, y = _LIST_LEFT + _COLUMN * (index // rows), _LIST_TOP + _PITCH * (index % rows)
        sheet.text(x, y, letter, scale=0.85, bold=True)
        sheet.text(x + 17, y, part, scale=0.85)
    return sheet.drawing(f"{kind[:1].upper()}{kind[1:]} gauge", (
        f"A {kind} gauge glass from the side and cut across. Its parts are pointed at: "
        f"{', '.join(letters)}."))


draw_tubular_gauge = partial(_draw_gauge, TUBULAR)
draw_reflex_gauge = partial(_draw_gauge, REFLEX)
draw_plate_gauge = partial(_draw_gauge, PLATE)
