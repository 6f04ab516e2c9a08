"""Pieces of the remote instruments: chamber, water legs, manifold, and a level scale's frame."""

from dataclasses import dataclass

from ..physics.leg_state import LegsState
from .parts import cock, dimension

_HALF_PIPE, _CHAMBER_HALF = 8, 20
_CHAMBER_UP, _CHAMBER_DOWN = 22, 15
_NEARLY = 0.02  # an opening below it is drawn shut: what passes is said in words


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
    reference: str
    reference_run: str
    drum_run: str


def draw_legs(canvas, legs: LegsState, places: LegPlaces, fills: LegFills):
    """Draw the chamber with its steam pipe and valve, and both legs down to their feet."""
    x, weir = places.reference_x, places.weir_y
    surface = weir + legs.reference_loss * places.per_metre
    below_gas = surface + legs.reference_gas * places.per_metre
    _draw_chamber(canvas, legs, places, fills, surface)
    top = weir + _CHAMBER_DOWN
    for start, end, fill in ((top, max(top, surface), fills.space),
                             (max(top, surface), max(top, below_gas), "air"),
                             (max(top, below_gas), places.datum_y, fills.reference),
                             (places.datum_y, places.foot_y, fills.reference_run)):
        canvas.rect(x - _HALF_PIPE, start, 2 * _HALF_PIPE, end - start, fill)
    for edge in (x - _HALF_PIPE, x + _HALF_PIPE):
        canvas.line(edge, top, edge, places.foot_y)
    _draw_drum_leg(canvas, legs, places, fills)
    _draw_missing(canvas, legs, places, surface, below_gas)


def _draw_chamber(canvas, legs, places, fills, surface):
    x, weir = places.reference_x, places.weir_y
    top, bottom = weir - _CHAMBER_UP, weir + _CHAMBER_DOWN
    canvas.rect(places.upper_edge, weir - 10, x - _CHAMBER_HALF - places.upper_edge, 10,
                fills.space, "outline")
    canvas.rect(x - _CHAMBER_HALF, top, 2 * _CHAMBER_HALF, bottom - top, fills.space, "outline")
    water = min(max(surface, top), bottom)
    canvas.rect(x - _CHAMBER_HALF, water, 2 * _CHAMBER_HALF, bottom - water, fills.reference)
    canvas.line(x - _CHAMBER_HALF, water, x + _CHAMBER_HALF, water)
    canvas.rect(x - _CHAMBER_HALF, top, 2 * _CHAMBER_HALF, bottom - top, None, "outline")
    cock(canvas, (places.upper_edge + x - _CHAMBER_HALF) / 2, weir - 5,
         legs.chamber.isolated_pressure is None)


def _draw_drum_leg(canvas, legs, places, fills):
    x, y = places.drum_x, places.datum_y
    canvas.rect(places.lower_edge, y - _HALF_PIPE, x + _HALF_PIPE - places.lower_edge,
                2 * _HALF_PIPE, fills.drum_run, "outline")
    foot = places.foot_y
    gas = min(legs.drum_gas * places.per_metre, foot - y - 2 * _HALF_PIPE)
    canvas.rect(x - _HALF_PIPE, y + _HALF_PIPE, 2 * _HALF_PIPE, gas, "air")
    canvas.rect(x - _HALF_PIPE, y + _HALF_PIPE + gas, 2 * _HALF_PIPE,
                foot - y - _HALF_PIPE - gas, fills.drum_run)
    for edge in (x - _HALF_PIPE, x + _HALF_PIPE):
        canvas.line(edge, y + _HALF_PIPE, edge, foot)
    if gas:
        end = y + _HALF_PIPE + gas
        canvas.line(x - _HALF_PIPE, end, x + _HALF_PIPE, end)
        canvas.text(x - _HALF_PIPE - 5, end, "gas", "end", pen="error", bold=True)


def _draw_missing(canvas, legs, places, surface, below_gas):
    """Say beside the reference leg what is not water in it."""
    x, font = places.reference_x + _HALF_PIPE, canvas.look.font
    for y, there in ((surface, legs.reference_loss), (below_gas, legs.reference_gas)):
        if there and y > places.weir_y + _CHAMBER_DOWN:
            canvas.line(x - 2 * _HALF_PIPE, y, x, y)
    if legs.reference_loss > 5e-4:
        for y in (places.weir_y, surface):
            canvas.line(x + 2 if y > places.weir_y + _CHAMBER_DOWN else x + 16, y, x + 27, y,
                        "thin")
        dimension(canvas, x + 22, places.weir_y, surface,
                  f"{1000 * legs.reference_loss:.0f} mm lost", "right")
    if legs.reference_gas:
        canvas.text(x + 8, (surface + below_gas) / 2 + 0.35 * font, "gas", pen="error", bold=True)


def break_mark(canvas, x, y):
    """Cut a leg with two jagged edges: it goes on further down than the sheet can show."""
    upper = [(x - 13, y), (x - 4, y - 5), (x + 4, y + 3), (x + 13, y - 2)]
    lower = [(px, py + 6) for px, py in upper]
    canvas.polygon([*upper, *reversed(lower)], "paper")
    canvas.polyline(upper)
    canvas.polyline(lower)


@dataclass(frozen=True, slots=True)
class ValveWords:
    """What is written beside a valve that does not stand as in service."""

    wide_open: str = "OPEN"
    a_little: str = "passing"
    shut: str = "SHUT"


def valve_word(opening, in_service, words=ValveWords()):
    """Return the word for a valve, empty where it stands as it does in service."""
    if opening == in_service:
        return ""
    if opening == 0.0:
        return words.shut
    return words.wide_open if opening == 1.0 else words.a_little


def draw_manifold(canvas, valves, drum_x, reference_x, top, bottom, pitch=18, size=7.5,
                  vents=False):
    """Draw drains, isolators and equaliser between the feet of the legs and the capsule.

    The rows of valves stand `pitch` apart. Returns the places of the valves by name, for
    lettering.
    """
    drains, isolators, equaliser = top + 4, top + 4 + pitch, top + 4 + 2 * pitch
    rows = [("drain", drains)] + [("vent", (equaliser + bottom) / 2 + 4)] * vents
    places, reach = {}, 36
    for side, x, out in (("drum", drum_x, -1), ("reference", reference_x, 1)):
        canvas.line(x, top, x, bottom)
        for kind, y in rows:
            valve, at = f"{side}_{kind}", x + out * 22
            canvas.line(x, y, x + out * reach, y)
            cock(canvas, at, y, getattr(valves, valve) > _NEARLY, size - 1)
            places[valve] = (x + out * reach, y)
        valve = f"{side}_isolator"
        cock(canvas, x, isolators, getattr(valves, valve) > _NEARLY, size, vertical=True)
        places[valve] = (x, isolators)
    canvas.line(drum_x, equaliser, reference_x, equaliser)
    places["equaliser"] = ((drum_x + reference_x) / 2, equaliser)
    cock(canvas, *places["equaliser"], valves.equaliser > _NEARLY, size)
    return places


def draw_capsule(canvas, drum_x, reference_x, top, bottom, pressures, high_on_reference):
    """Draw the sensing capsule: a diaphragm that yields, and an arrow for each pressure.

    `pressures` are those of the drum-side and the reference port above the drum pressure
    [Pa]; the longer arrow has a fixed length and the other is in proportion.
    """
    left, right, middle = drum_x - 22, reference_x + 22, (drum_x + reference_x) / 2
    centre = (top + bottom) / 2
    canvas.rect(left, top, right - left, bottom - top, "paper", "outline")
    drum, reference = pressures
    greatest = max(drum, reference, 1e-9)
    bulge = 7.0 * max(-1.0, min(1.0, (drum - reference) / 5e3))
    canvas.polyline([(middle + bulge * (1 - (2 * i / 8 - 1) ** 2), top + (bottom - top) * i / 8)
                     for i in range(9)], "true")
    longest = (right - left) / 2 - 14
    for pressure, sign in ((drum, -1), (reference, 1)):
        length = longest * pressure / greatest
        if pressure > 0 and length > 3:
            tip = middle + 4 * sign + bulge
            canvas.arrow(tip + sign * length, centre, tip, centre, "true", size=min(8, length))
    font = canvas.look.font
    for x, letter in ((left - 5, "L" if high_on_reference else "H"),
                      (right + 5, "H" if high_on_reference else "L")):
        canvas.text(x, centre + 0.35 * font, letter, "end" if x < middle else "start", bold=True)
