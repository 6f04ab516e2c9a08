"""Constant-head chamber and the two water legs, as every remote instrument has them."""

from dataclasses import dataclass

from ..physics.leg_state import LegsState
from .parts import cock, dimension

_HALF_PIPE, _STEAM_PIPE = 6, 6
_CHAMBER_LEFT, _CHAMBER_RIGHT, _CHAMBER_UP, _CHAMBER_DOWN = 34, 20, 19, 18
_WEIR_LEFT, _WEIR_WIDTH = 18, 4


@dataclass(frozen=True, slots=True)
class LegPlaces:
    """Where the legs stand on the sheet [viewBox units].

    Attributes
    ----------
    drum_x, reference_x : float
        Centre lines of the two legs.
    upper_edge, lower_edge : float
        Outside of the drum wall at the two connections.
    weir_y, datum_y, foot_y : float
        Rest level of the chamber, lower connection, and end of the legs.
    per_metre : float [1/m]
        Scale of heights above the lower connection.
    """

    drum_x: float
    reference_x: float
    upper_edge: float
    lower_edge: float
    weir_y: float
    datum_y: float
    foot_y: float
    per_metre: float


@dataclass(frozen=True, slots=True)
class LegFills:
    """Fillings of the legs by name: what stands above the water, and the water of each leg."""

    space: str
    reference: str = "glass water"
    reference_run: str = "glass water"
    drum_run: str = "glass water"


def draw_water_legs(canvas, legs: LegsState, places: LegPlaces, fills: LegFills):
    """Draw the chamber with its steam pipe and valve, and both legs down to their feet.

    Gas in a full leg is drawn below the chamber: where in the leg it stands does not matter.
    """
    x, top = places.reference_x, places.weir_y + _CHAMBER_DOWN
    surface = places.weir_y + legs.reference_loss * places.per_metre
    _draw_chamber(canvas, legs, places, fills, surface)
    gas_top = min(max(top, surface), places.datum_y)
    gas_foot = min(gas_top + legs.reference_gas * places.per_metre, places.datum_y)
    _draw_leg(canvas, x, ((top, gas_top, fills.space), (gas_top, gas_foot, "air"),
                          (gas_foot, places.datum_y, fills.reference),
                          (places.datum_y, places.foot_y, fills.reference_run)))
    x, y = places.drum_x, places.datum_y
    canvas.rect(places.lower_edge, y - _HALF_PIPE, x + _HALF_PIPE - places.lower_edge,
                2 * _HALF_PIPE, fills.drum_run, "outline")
    start = y + _HALF_PIPE
    gas_foot = min(start + legs.drum_gas * places.per_metre, places.foot_y - 2 * _HALF_PIPE)
    _draw_leg(canvas, x, ((start, gas_foot, "air"),
                          (gas_foot, places.foot_y, fills.drum_run)))


def _draw_leg(canvas, x, stretches):
    """Draw one leg from its top down: (start, end, filling) of every stretch."""
    for start, end, fill in stretches:
        if end <= start:
            continue
        canvas.rect(x - _HALF_PIPE, start, 2 * _HALF_PIPE, end - start, fill)
        if start > stretches[0][0]:
            canvas.line(x - _HALF_PIPE, start, x + _HALF_PIPE, start, "thin")
        if fill == "air" and end - start > 2:
            canvas.text(x - _HALF_PIPE - 5, (start + end) / 2 + 5, "gas", "end", pen="error",
                        bold=True)
    for edge in (x - _HALF_PIPE, x + _HALF_PIPE):
        canvas.line(edge, stretches[0][0], edge, stretches[-1][1])


def _draw_chamber(canvas, legs, places, fills, surface):
    """Draw the chamber, its weir, and the pipe that brings steam and takes the surplus back."""
    x, weir = places.reference_x, places.weir_y
    left, right, inside = x - _CHAMBER_LEFT, x + _CHAMBER_RIGHT, x - _WEIR_LEFT
    top, foot = weir - _CHAMBER_UP, weir + _CHAMBER_DOWN
    canvas.rect(places.upper_edge, weir - _STEAM_PIPE, left - places.upper_edge, 2 * _STEAM_PIPE,
                fills.space, "outline")
    cock(canvas, (places.upper_edge + left) / 2, weir, legs.chamber.isolated_pressure is None)
    canvas.rect(left, top, right - left, foot - top, fills.space, "outline")
    canvas.rect(left, weir + _STEAM_PIPE, inside - left, foot - weir - _STEAM_PIPE, "metal",
                "outline")
    water = min(max(surface, weir), foot)
    canvas.rect(inside, water, right - inside, foot - water, fills.reference)
    if water < foot - 1:
        canvas.line(inside, water, right, water, "thin")
    canvas.rect(inside - _WEIR_WIDTH + 1, weir, _WEIR_WIDTH, foot - weir, "metal", "outline")
    canvas.rect(left - 2, weir - _STEAM_PIPE + 1, 4, 2 * _STEAM_PIPE - 2, fills.space)
    canvas.polyline([(left, foot), (right, foot), (right, top)])


def draw_loss(canvas, legs, places):
    """Draw beside the reference leg how much of it is lost."""
    if legs.reference_loss <= 5e-4:
        return
    weir, x = places.weir_y, places.reference_x
    surface = weir + legs.reference_loss * places.per_metre
    for y in (weir, surface):
        inside = y <= weir + _CHAMBER_DOWN
        canvas.line(x + (_CHAMBER_RIGHT if inside else _HALF_PIPE) + 2, y, x + 35, y, "thin")
    lost = f"{1000 * legs.reference_loss:.0f} mm{' lost' if canvas.look.detail else ''}"
    dimension(canvas, x + 30, weir, surface, lost, "right")


def pipe_break(canvas, x, y):
    """Draw the two strokes of a pipe that goes on elsewhere."""
    for shift in (-2.5, 2.5):
        canvas.line(x - 10, y + 4 + shift, x + 10, y - 4 + shift, "outline")


def leg_tag(canvas, x, y, tag):
    """Draw the ringed number of a leg."""
    canvas.circle(x, y, 10.5, "paper", "outline")
    canvas.text(x, y + 4.8, tag, "middle", 13.0 / canvas.look.font, bold=True)
