"""A sheet to draw on: pens and fillings by name, text that knows its room, one SVG at the end.

The elements are written as text: an SVG-writing library took three times as long, and a
slider move has to repaint in one frame.
"""

from dataclasses import dataclass
from functools import cache
from itertools import count

import numpy as np

from .lettering import text_box
from .look import FONT

_serial = count(1)
OWN_ID = "\u00a4"
"""Stands for the drawing's own id prefix until the drawing is finished."""


@dataclass(frozen=True, slots=True)
class Drawing:
    """A finished picture: SVG text, the same in words, and the boxes of its lettering."""

    svg: str
    words: str
    text_boxes: tuple


@dataclass(frozen=True, slots=True)
class Fragment:
    """A part of a picture drawn once and stamped into many."""

    markup: str
    text_boxes: tuple


class Canvas:
    """Collects elements; x to the right, y downwards, in viewBox units."""

    def __init__(self, look, height):
        self.look, self.height = look, height
        self._parts, self._boxes = [], []

    def line(self, x1, y1, x2, y2, pen="outline"):
        self._parts.append(f'<line x1="{_n(x1)}" y1="{_n(y1)}" x2="{_n(x2)}" y2="{_n(y2)}"'
                           f"{_pen(self.look, pen)}/>")

    def rect(self, x, y, width, height, fill=None, pen=None):
        self._parts.append(f"<rect{_frame(x, y, width, height)}{_fill(fill)}"
                           f"{_pen(self.look, pen)}/>")

    def circle(self, x, y, radius, fill=None, pen="outline"):
        self._parts.append(f'<circle cx="{_n(x)}" cy="{_n(y)}" r="{_n(radius)}"{_fill(fill)}'
                           f"{_pen(self.look, pen)}/>")

    def polygon(self, points, fill=None, pen=None):
        self._parts.append(f'<polygon points="{_flat(points)}"{_fill(fill)}'
                           f"{_pen(self.look, pen)}/>")

    def shade(self, x, y, width, height, brightness):
        """Fill a rectangle as bright as a share of full light looks to the eye."""
        grey = round(255 * min(max(brightness, 0.0), 1.0) ** (1 / 2.2))
        self._parts.append(f'<rect{_frame(x, y, width, height)} '
                           f'fill="#{grey:02x}{grey:02x}{grey:02x}"/>')

    def mark(self, points, pen, filled):
        """Draw a small closed mark in a pen's colour, solid or open."""
        colour = self.look.pen(pen).colour
        self._parts.append(f'<polygon points="{_flat(points)}" '
                           f'fill="{colour if filled else "#ffffff"}" stroke="{colour}" '
                           f'stroke-width="1.4"/>')

    def dot(self, x, y, radius, pen, filled=True):
        """Draw a point in a pen's colour, solid or open."""
        colour = self.look.pen(pen).colour
        self._parts.append(f'<circle cx="{_n(x)}" cy="{_n(y)}" r="{_n(radius)}" '
                           f'fill="{colour if filled else "#ffffff"}" stroke="{colour}" '
                           'stroke-width="1.6"/>')

    def polyline(self, points, pen="outline"):
        self._parts.append(f'<polyline points="{_flat(points)}" fill="none"'
                           f"{_pen(self.look, pen)}/>")

    def text(self, x, y, text, anchor="start", scale=1.0, bold=False, pen="outline"):
        """Write a line with its baseline at `y`; a pale rim keeps it legible on hatching."""
        size = self.look.font * scale
        self._boxes.append(text_box(x, y, text, size, anchor, bold))
        weight = ' font-weight="bold"' if bold else ""
        self._parts.append(
            f'<text x="{_n(x)}" y="{_n(y)}" font-size="{_n(size)}" text-anchor="{anchor}"{weight} '
            f'fill="{self.look.pen(pen).colour}" stroke="#ffffff" stroke-width="3" '
            f'paint-order="stroke">{_escaped(text)}</text>')

    def arrow(self, x1, y1, x2, y2, pen="dimension", size=6.0):
        """Draw a line with a filled head at its second end."""
        length = max(((x2 - x1) ** 2 + (y2 - y1) ** 2) ** 0.5, 1e-9)
        ux, uy = (x2 - x1) / length, (y2 - y1) / length
        self.line(x1, y1, x2, y2, pen)
        self.mark([(x2, y2),
                   (x2 - size * ux + size / 2.6 * uy, y2 - size * uy - size / 2.6 * ux),
                   (x2 - size * ux - size / 2.6 * uy, y2 - size * uy + size / 2.6 * ux)],
                  pen, filled=True)

    def clip(self, name, points):
        """Define a clipping outline; use it with `clipped_rect` and `clipped_polygon`."""
        self._parts.append(f'<clipPath id="{OWN_ID}{name}"><polygon points="{_flat(points)}"/>'
                           "</clipPath>")

    def clipped_rect(self, name, x, y, width, height, fill):
        """Fill a rectangle inside a clipping outline."""
        self._parts.append(f"<rect{_frame(x, y, width, height)}{_fill(fill)} "
                           f'clip-path="url(#{OWN_ID}{name})"/>')

    def clipped_polygon(self, name, points, fill):
        """Fill a polygon inside a clipping outline."""
        self._parts.append(f'<polygon points="{_flat(points)}"{_fill(fill)} '
                           f'clip-path="url(#{OWN_ID}{name})"/>')

    def stamp(self, fragment):
        """Put a part drawn earlier into this picture."""
        self._parts.append(fragment.markup)
        self._boxes.extend(fragment.text_boxes)

    def fragment(self):
        """Return what was drawn so far as a part for other pictures."""
        return Fragment("".join(self._parts), tuple(self._boxes))

    @property
    def elements(self):
        """Markup of what was drawn so far, one text for each call."""
        return tuple(self._parts)

    def drawing(self, title, words):
        """Return the finished picture with its accessible name and description."""
        prefix = f"lk{next(_serial)}-"
        body = "".join(self._parts)
        markup = (
            f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {self.look.width} '
            f'{_n(self.height)}" width="100%" role="img" '
            f'aria-labelledby="{OWN_ID}title {OWN_ID}words" '
            f'font-family="{FONT}" style="background:#ffffff;display:block;'
            f'font-variant-numeric:tabular-nums">'
            f'<title id="{OWN_ID}title">{_escaped(title)}</title>'
            f'<desc id="{OWN_ID}words">{_escaped(words)}</desc>'
            f"{_patterns(self.look)}"
            f'<rect width="100%" height="100%" fill="#ffffff"/>{body}</svg>'
        )
        return Drawing(markup.replace(OWN_ID, prefix), words, tuple(self._boxes))


def _n(number):
    """A coordinate with one decimal: short text, no 10.000000000000002."""
    return round(float(number), 1)


def _flat(points):
    if isinstance(points, np.ndarray):
        points = points.round(1).tolist()
        return " ".join([f"{x},{y}" for x, y in points])
    return " ".join([f"{_n(x)},{_n(y)}" for x, y in points])


def _frame(x, y, width, height):
    return (f' x="{_n(x)}" y="{_n(y)}" width="{_n(max(width, 0))}" '
            f'height="{_n(max(height, 0))}"')


@cache
def _pen(look, name):
    """A pen of a look as attributes; none without a name."""
    if name is None:
        return ""
    pen = look.pen(name)
    dashes = f' stroke-dasharray="{pen.dashes}"' if pen.dashes else ""
    return f' stroke="{pen.colour}" stroke-width="{pen.width}"{dashes}'


@cache
def _fill(name):
    """A filling as an attribute; hollow without a name."""
    return f' fill="url(#{OWN_ID}{name.replace(" ", "-")})"' if name else ' fill="none"'


def _escaped(text):
    return text.replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;")


_MARKS = {
    "water": (18, 12, '<path d="M1 4h8M10 10h7" stroke="{m}" stroke-width="1"/>'),
    "glass water": (14, 10, '<path d="M1 3h6M8 8h5" stroke="{m}" stroke-width="1"/>'),
    "bubbly water": (26, 22, '<path d="M1 6h7M15 17h7" stroke="{m}" stroke-width="1"/>'
                             '<circle cx="17" cy="6" r="2.6" fill="#ffffff" stroke="{m}"/>'
                             '<circle cx="6" cy="16" r="3.4" fill="#ffffff" stroke="{m}"/>'),
    "brine": (10, 7, '<path d="M0 2h6M5 5.5h5" stroke="{m}" stroke-width="1.1"/>'),
    "hot water": (22, 18, '<path d="M1 5h8M12 14h8" stroke="{m}" stroke-width="1"/>'),
    "light fluid": (26, 20, '<path d="M2 5h6" stroke="{m}" stroke-width="1"/>'
                            '<circle cx="18" cy="14" r="2" fill="none" stroke="{m}"/>'),
    "steam": (14, 14, '<circle cx="3" cy="3" r="0.9" fill="{m}"/>'
                      '<circle cx="10" cy="10" r="0.9" fill="{m}"/>'),
    "air": (14, 14, ""),
    "metal": (7, 7, '<path d="M0 7L7 0" stroke="{m}" stroke-width="0.9"/>'),
    "fluid": (8, 8, '<path d="M0 8L8 0M0 0L8 8" stroke="{m}" stroke-width="0.8"/>'),
    "hidden": (22, 22, '<path d="M0 22L22 0" stroke="{m}" stroke-width="0.7"/>'),
    "paper": (10, 10, ""),
}


@cache
def _patterns(look):
    """The fillings as SVG patterns, made once for each look."""
    parts = []
    for name, (width, height, marks) in _MARKS.items():
        fill = look.fill(name)
        parts.append(
            f'<pattern id="{OWN_ID}{name.replace(" ", "-")}" width="{width}" height="{height}" '
            f'patternUnits="userSpaceOnUse"><rect width="{width}" height="{height}" '
            f'fill="{fill.ground}"/>{marks.format(m=fill.marks)}</pattern>')
    return f"<defs>{''.join(parts)}</defs>"
