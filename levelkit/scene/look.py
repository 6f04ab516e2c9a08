"""How our drawings look: an engineering drawing that moves. One table of tints, pens and sizes.

Every fluid and every kind of line differs by pattern as well as by tint, so that the
picture reads in grey and on a photocopy.
"""

from dataclasses import dataclass

FONT = "'DejaVu Sans', 'Segoe UI', 'Noto Sans', Verdana, sans-serif"


@dataclass(frozen=True, slots=True)
class Pen:
    """A kind of line: colour, width and dashes (empty for a solid line)."""

    colour: str
    width: float
    dashes: str = ""


@dataclass(frozen=True, slots=True)
class Fill:
    """A kind of filling: ground tint, and the colour of its pattern of marks."""

    ground: str
    marks: str


@dataclass(frozen=True, slots=True)
class Look:
    """One size of drawing.

    Attributes
    ----------
    name : str
        "screen", "projector" or "print".
    width : int [viewBox units]
        Width of the picture.
    font : float [viewBox units]
        Size of ordinary text.
    detail : bool
        Whether the minor labels are drawn; a projector shows fewer and larger ones.
    monochrome : bool
        Grey and black only, for paper.
    """

    name: str
    width: int
    font: float
    detail: bool
    monochrome: bool

    def pen(self, name):
        """Return the pen of that name."""
        return (_PRINT_PENS if self.monochrome else _PENS)[name]

    def fill(self, name):
        """Return the filling of that name."""
        return (_PRINT_FILLS if self.monochrome else _FILLS)[name]


INK, GREY, RUST, PLUM, PALE = "#17212b", "#56626d", "#8a3b12", "#54397f", "#d5dbe0"

_PENS = {
    "outline": Pen(INK, 1.6),
    "thin": Pen(GREY, 0.9),
    "hair": Pen(PALE, 0.8),
    "centre": Pen(GREY, 0.8, "12 3 2 3"),
    "dimension": Pen(INK, 0.9),
    "true": Pen(INK, 2.4),
    "true-thin": Pen(INK, 1.1, "2 3"),
    "indicated": Pen(RUST, 2.4, "8 4"),
    "error": Pen(RUST, 1.8),
    "dry": Pen(RUST, 5.0),
    "limit": Pen(GREY, 1.1, "3 3"),
    "fluid": Pen(PLUM, 2.0),
}
_FILLS = {
    "water": Fill("#cfdde6", "#55768c"),
    "bubbly water": Fill("#cfdde6", "#55768c"),
    "glass water": Fill("#dfe9ef", "#55768c"),
    "brine": Fill("#b7cbd8", "#3f5f75"),
    "hot water": Fill("#e2eaef", "#55768c"),
    "light fluid": Fill("#eff3f6", "#55768c"),
    "steam": Fill("#ffffff", "#a3aeb7"),
    "air": Fill("#ffffff", "#ffffff"),
    "metal": Fill("#eef0f1", "#7d8891"),
    "fluid": Fill("#dccfee", "#54397f"),
    "hidden": Fill("#f3f0ea", "#8d8474"),
    "paper": Fill("#ffffff", "#ffffff"),
}
_PRINT_PENS = {name: Pen("#000000", pen.width, pen.dashes) for name, pen in _PENS.items()}
_PRINT_PENS["hair"] = Pen("#b3b3b3", 0.8)  # a black grid would stand before its curves
_PRINT_FILLS = {name: Fill("#ffffff", "#000000" if name != "air" else "#ffffff")
                for name in _FILLS}

SCREEN = Look("screen", 1100, 14.0, True, False)
PROJECTOR = Look("projector", 1100, 20.0, False, False)
PRINT = Look("print", 1100, 14.0, True, True)
LOOKS = {look.name: look for look in (SCREEN, PROJECTOR, PRINT)}
