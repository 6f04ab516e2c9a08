"""A gauge glass with its three cocks and their levers, and what blows out of its drain."""

from dataclasses import dataclass
from math import cos, pi, sin

_PIPE, _HALF = 7, 11
_LEVER = 30


@dataclass(frozen=True, slots=True)
class GaugePlace:
    """Where a gauge with cocks lies on the sheet.

    Attributes
    ----------
    wall, glass : float [viewBox units]
        Inside of the drum wall, and centre line of the glass.
    steam, water : float [viewBox units]
        Heights of the two connections, counted downwards.
    left : float [viewBox units]
        Where the drum is cut off.
    """

    wall: float
    glass: float
    steam: float
    water: float
    left: float

    def to_y(self, height, steam_connection):
        """Where a height above the water connection lies."""
        return self.water - height / steam_connection * (self.water - self.steam)

    @property
    def drain(self):
        """Height of the drain cock."""
        return self.water + 39

    @property
    def outlet(self):
        """The mouth of the drain pipe."""
        return self.glass + 22, self.water + 68


def draw_drum(canvas, place, level, steam_connection, shown=True, foot=70):
    """Draw the drum's side with its level, or covered."""
    top, bottom = place.steam - 26, place.water + foot
    width = place.wall - place.left
    if shown:
        y = min(max(place.to_y(level, steam_connection), top), bottom)
        canvas.rect(place.left, top, width, y - top, "steam")
        canvas.rect(place.left, y, width, bottom - y, "water")
    else:
        canvas.rect(place.left, top, width, bottom - top, "hidden")
    canvas.rect(place.wall, top, 9, bottom - top, "metal", "outline")


def draw_pipes(canvas, place, covered=None, lip=0.0):
    """Draw both ways and the drain pipe, without their cocks.

    `covered` says whether the drum fills the water way with water; None where nobody knows.
    """
    left, right = place.wall + 9, place.glass - 16
    steam = "paper" if covered is None else "steam"
    below = "paper" if covered is None else "water" if covered else "steam"
    canvas.rect(left, place.steam - _PIPE, right - left, 2 * _PIPE, steam, "outline")
    if lip:
        middle = left + 26
        canvas.polygon([(left, place.water + _PIPE), (left, place.water - _PIPE),
                        (middle, place.water - _PIPE - lip), (right, place.water - _PIPE - lip),
                        (right, place.water + _PIPE - lip), (middle, place.water + _PIPE - lip)],
                       below, "outline")
    else:
        canvas.rect(left, place.water - _PIPE, right - left, 2 * _PIPE, below, "outline")
    x, (mouth, y) = place.glass, place.outlet
    canvas.polygon([(x - 6, place.water + 15), (x + 6, place.water + 15), (x + 6, y - 6),
                    (mouth, y - 6), (mouth, y + 6), (x - 6, y + 6)], "paper", "outline")


def draw_fittings(canvas, place):
    """Draw the two heads that hold the glass."""
    for y in (place.steam, place.water):
        canvas.rect(place.glass - 16, y - 15, 32, 30, "metal", "outline")


def draw_scale(canvas, x, y, choke, upright=False):
    """Draw the scale in a pipe: from both walls, with what is left between; none for 0."""
    if choke <= 0:
        return
    reach = _PIPE if choke >= 1 else 0.7 * _PIPE
    for side in (-1, 1):
        edge, tip = side * _PIPE, side * (_PIPE - reach)
        bump = [(-11, edge), (-6, tip), (6, tip), (11, edge)]
        canvas.mark([(x + across, y + along) if upright else (x + along, y + across)
                     for along, across in bump], "error", filled=True)


def draw_leak(canvas, x, y, leaks):
    """Draw steam or water spitting out of a joint."""
    if leaks:
        for aside in (-9, 0, 9):
            canvas.arrow(x, y + aside / 3, x + 22, y + aside, "error", 6)


def draw_cock(canvas, x, y, opening, vertical=False):
    """Draw a cock: white wings when open, solid when shut; the lever hangs down in service.

    A steam or water cock is in service when it is open, a drain (`vertical`) when it is shut.
    """
    for side in (-1, 1):
        wing = ([(x, y), (x - 9, y + side * 10), (x + 9, y + side * 10)] if vertical else
                [(x, y), (x + side * 10, y - 9), (x + side * 10, y + 9)])
        canvas.mark(wing, "outline", filled=opening <= 0 or (opening < 1 and side > 0))
    turn = (opening if vertical else 1 - opening) * pi / 2
    ux, uy = sin(turn), cos(turn)  # 0 turn: straight down
    tip = (x + _LEVER * ux, y + _LEVER * uy)
    canvas.polygon([(x + 3 * uy, y - 3 * ux), (tip[0] + 2.5 * uy, tip[1] - 2.5 * ux),
                    (tip[0] - 2.5 * uy, tip[1] + 2.5 * ux), (x - 3 * uy, y + 3 * ux)],
                   "paper", "outline")
    canvas.circle(*tip, 4.5, "metal", "outline")
    canvas.circle(x, y, 4, "paper", "outline")


def draw_column(canvas, place, height, steam_connection, foam=0.0):
    """Draw what stands in the glass: steam, water, and froth up to a share of its length."""
    top, bottom = place.steam + 15, place.water - 15
    full = place.to_y(min(max(height, 0.0), steam_connection), steam_connection)
    y = min(max(full, top), bottom)
    canvas.rect(place.glass - _HALF, top, 2 * _HALF, bottom - top, "steam", "outline")
    canvas.rect(place.glass - _HALF, y, 2 * _HALF, bottom - y, "glass water", "outline")
    for step in range(7):
        reach = foam * (bottom - top) * (0.3 + 0.1 * step)
        x = place.glass - _HALF + 4 + (2 * _HALF - 8) * ((3 * step) % 7) / 6
        canvas.circle(x, bottom - 4 - reach, 3.2 * bool(foam), None, "thin")


def draw_plume(canvas, place, wet, dry, ghost=0.0):
    """Draw the blow out of the drain: `wet` and `dry` from 0 to 1, `ghost` for one that dies away.

    Wet: water right from the mouth, steam round it. Dry: a clear gap, then cloud. The same
    elements are drawn whatever blows, so that a film can move them.
    """
    x, y = place.outlet
    cloud = max(wet, dry)
    start = x + (26 * min(dry, 1.0) if dry > wet else 0.0)
    mouth, length, spread = 3 * bool(cloud), 150 * cloud, (7 + 16 * cloud) * bool(cloud)
    canvas.polygon([(start + along * length, y + aside * spread + edge * mouth)
                    for along, aside, edge in (
                        (0, 0, -1), (0.45, -1, 0), (0.8, -0.8, 0), (1, -0.2, 0), (0.9, 0.5, 0),
                        (0.6, 0.85, 0), (0.3, 0.7, 0), (0, 0, 1))], "steam", "thin")
    jet, width = 105 * wet, 9 * bool(wet)
    canvas.polygon([(x, y - 0.5 * width), (x + jet, y - width), (x + 1.1 * jet, y),
                    (x + jet, y + width), (x, y + 0.5 * width)], "brine", "thin")
    for step in range(3):
        canvas.circle(x + 20 + 22 * step, y - 4 * step, (9 - 2 * step) * ghost, None, "limit")
