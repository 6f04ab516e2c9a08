"""The right-hand end of a drum, cut open: what the instruments of all drawings hang on."""

from math import sqrt

from ..parts import break_line, level_line

LEFT, TOP, BOTTOM = 20, 26, 262
WALL = 150
LEVEL, DATUM = 122, 216
_RADIUS, _CENTRE = 330.0, 144.0
_THICKNESS = 9


def wall(y):
    """Inside of the drum wall at a height of the sheet."""
    return WALL - (_RADIUS - sqrt(_RADIUS ** 2 - (y - _CENTRE) ** 2))


def outside(y):
    """Outside of the drum wall at a height of the sheet."""
    return wall(y) + _THICKNESS


def draw_drum(sheet, symbols=("ρ_g", "ρ_f")):
    """Draw steam over water in the drum, its level, and the densities' symbols."""
    edge = [(wall(TOP + (BOTTOM - TOP) * i / 24), TOP + (BOTTOM - TOP) * i / 24)
            for i in range(25)]
    sheet.clip("drum", [(LEFT, TOP), *edge, (LEFT, BOTTOM)])
    sheet.clipped_rect("drum", LEFT, TOP, WALL, LEVEL - TOP, "steam")
    sheet.clipped_rect("drum", LEFT, LEVEL, WALL, BOTTOM - LEVEL, "water")
    sheet.polygon(edge + [(x + _THICKNESS, y) for x, y in reversed(edge)], "metal", "outline")
    break_line(sheet, LEFT, TOP, BOTTOM)
    level_line(sheet, LEFT, wall(LEVEL) - 12, LEVEL, "true")
    for y, symbol in zip(((TOP + LEVEL) / 2, DATUM + 24), symbols, strict=True):
        sheet.symbol(LEFT + 14, y, symbol)


def draw_level(sheet, x=LEFT + 82):
    """Draw the height of the drum level above the datum."""
    sheet.height_of(x, DATUM, LEVEL, "h", "left")
    sheet.line(LEFT, DATUM, wall(DATUM), DATUM, "centre")


def nozzle(sheet, y, x_end, half=6):
    """Draw a connecting pipe from the drum wall to the right."""
    x = outside(y)
    sheet.rect(x, y - half, x_end - x, 2 * half, "paper", "outline")
