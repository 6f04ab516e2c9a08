"""A small black-and-white sheet with symbols: letters with a lowered index, upright dimensions."""

import re

from ..canvas import Canvas
from ..lettering import text_width
from ..look import Look

WIDTH = 560
LOOK = Look("schematic", WIDTH, 15.0, True, True)
_SYMBOL = re.compile(r"(?P<base>[^_]+)_(?P<index>.+)")
_INDEX_SIZE, _INDEX_DROP = 0.72, 0.28


class Sheet(Canvas):
    """A canvas that leaves out its lettering where a blank drawing is wanted."""

    def __init__(self, height, labelled, look=LOOK):
        super().__init__(look, height)
        self._labelled = labelled

    def text(self, x, y, text, *arguments, **options):
        """Write a line, unless the drawing is a blank one."""
        if self._labelled:
            super().text(x, y, text, *arguments, **options)

    def symbol(self, x, y, symbol, anchor="start"):
        """Write a symbol such as “ρ_f” with its index lowered."""
        font, match = self.look.font, _SYMBOL.fullmatch(symbol)
        base, index = (match["base"], match["index"]) if match else (symbol, "")
        base_width = text_width(base, font, bold=True)
        width = base_width + text_width(index, _INDEX_SIZE * font, bold=True)
        left = x - {"start": 0.0, "middle": width / 2, "end": width}[anchor]
        self.text(left, y, base, bold=True)
        if index:
            self.text(left + base_width, y + _INDEX_DROP * font, index, scale=_INDEX_SIZE,
                      bold=True)

    def height_of(self, x, low, high, symbol, side="left"):
        """Draw an upright dimension line with its symbol beside it."""
        self.arrow(x, low, x, high)
        self.arrow(x, high, x, low)
        self.symbol(x + (-6 if side == "left" else 6), (low + high) / 2 + 0.35 * self.look.font,
                    symbol, "end" if side == "left" else "start")

    def datum(self, x1, x2, y, words):
        """Draw the line from which heights are counted, with its name at the right end."""
        self.line(x1, y, x2, y, "centre")
        self.text(x2 + 5, y + 0.32 * self.look.font, words, scale=0.85)

    def pipe(self, points, width=8):
        """Draw a pipe along points that run upright or level."""
        half = width / 2
        for (x1, y1), (x2, y2) in zip(points, points[1:], strict=False):
            left, right = min(x1, x2) - half, max(x1, x2) + half
            top, bottom = min(y1, y2) - half, max(y1, y2) + half
            self.rect(left, top, right - left, bottom - top, "paper", "outline")
        for (x1, y1), (x2, y2) in zip(points, points[1:], strict=False):
            inner = half - 0.8
            left, right = min(x1, x2) - inner, max(x1, x2) + inner
            top, bottom = min(y1, y2) - inner, max(y1, y2) + inner
            self.rect(left, top, right - left, bottom - top, "paper")
