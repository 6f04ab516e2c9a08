"""The valves between legs and instrument, their words, and the sensing capsule below them."""

from dataclasses import dataclass

from .parts import cock

_NEARLY = 0.02  # an opening below it is drawn shut: what passes is said in words


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
