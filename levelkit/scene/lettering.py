"""How much room a line of text takes, and how labels make room for each other."""

from dataclasses import dataclass
from functools import lru_cache

_WIDTHS = {  # advance in thousandths of the font size, widest font of our font list
    275: "'", 278: "ijl", 295: "IJ", 318: " ,.·’", 337: "/:;|\\", 352: "f", 361: "-",
    390: "()[]", 392: "t", 401: "!²³", 411: "r", 460: "\"", 500: "*^_°–`", 521: "s", 525: "z",
    531: "?", 550: "c", 557: "L", 575: "F", 579: "k", 592: "vxyλ", 603: "Pτ", 612: "aeoTYθ",
    636: "0123456789bdghnpquEρ#$§{}", 656: "KS", 684: "ABVXZΔ", 698: "CR", 732: "U", 752: "HND",
    787: "GOQ", 818: "w", 838: "+=<>~×−≤≥→", 863: "M", 974: "m@%W",
}
_ADVANCE = {character: width for width, group in _WIDTHS.items() for character in group}
_BOLD = 1.13  # a bold line is that much wider
ASCENT, DESCENT = 0.76, 0.24


@dataclass(frozen=True, slots=True)
class TextBox:
    """The room one line of text takes in a drawing [viewBox units]."""

    left: float
    top: float
    right: float
    bottom: float
    text: str

    def overlaps(self, other):
        """Return whether two boxes share more than a hair's breadth."""
        return (min(self.right, other.right) - max(self.left, other.left) > 0.5
                and min(self.bottom, other.bottom) - max(self.top, other.top) > 0.5)


def text_width(text, size, bold=False):
    """Return the width of a line of text [units of `size`]; unknown letters count as wide."""
    width = _thousandths(text) * size / 1000
    return width * _BOLD if bold else width


@lru_cache(maxsize=4096)
def _thousandths(text):
    return sum([_ADVANCE.get(character, 800) for character in text])


def text_box(x, y, text, size, anchor="start", bold=False):
    """Return the box of a line of text with its baseline at `y`."""
    width = text_width(text, size, bold)
    left = x - {"start": 0.0, "middle": width / 2, "end": width}[anchor]
    return TextBox(left, y - ASCENT * size, left + width, y + DESCENT * size, text)


def spread(wanted, gap, low, high):
    """Return positions near the wanted ones, at least `gap` apart, inside `low` to `high`.

    Labels keep their order. If they cannot all fit they are spaced evenly.
    """
    if not wanted:
        return []
    order = sorted(range(len(wanted)), key=lambda i: wanted[i])
    room = high - low
    gap = min(gap, room / max(1, len(wanted) - 1)) if len(wanted) > 1 else gap
    groups = []  # [positions' members, mean of (wanted - own offset)]
    for index in order:
        groups.append(([index], wanted[index]))
        while len(groups) > 1:
            (left, a), (right, b) = groups[-2], groups[-1]
            if a + gap * len(left) <= b:
                break
            members = left + right
            offsets = [wanted[i] - gap * k for k, i in enumerate(members)]
            groups[-2:] = [(members, sum(offsets) / len(offsets))]
    placed = [0.0] * len(wanted)
    cursor = low
    for members, start in groups:
        start = max(start, cursor)
        for k, i in enumerate(members):
            placed[i] = start + gap * k
        cursor = start + gap * len(members)
    limit = high
    for i in reversed(order):
        placed[i] = min(placed[i], limit)
        limit = placed[i] - gap
    return placed
