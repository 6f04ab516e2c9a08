"""Units as they are printed and typed: to SI and back, through pint, once per unit."""

import re
from dataclasses import dataclass
from functools import cache

from ..errors import InputError

_SPELLING = {
    "Ω": "ohm", "ohms": "ohm", "°C": "degC", "degc": "degC", "°": "deg", "degrees": "deg",
    "µ": "u", "\u03bc": "u", "·": "*", "⋅": "*", "²": "**2", "³": "**3", "⁻¹": "**-1",
}
_TRADE = ("mm", "cm", "m", "Pa", "hPa", "mbar", "kPa", "bar", "MPa", "mA", "A", "mV", "V", "kohm",
          "ohm", "s", "min", "h", "g", "kg", "ml", "l", "kg/s", "kg/h", "K", "degC", "kg/m3",
          "m/s", "mm/s", "mm/min", "kJ", "J", "kJ/kg", "J/kg", "W", "kW")
_BY_LOWER_CASE = {spelling.lower(): spelling for spelling in _TRADE} | {
    "sec": "s", "secs": "s", "mins": "min", "hr": "h", "hrs": "h", "amps": "A", "volts": "V",
    "milliamps": "mA", "percent": "%"}
_POWER = re.compile(r"(?<=[a-zA-Z])(\d)")
_ALLOWED = re.compile(r"[A-Za-zΩ°µ\u03bc%/*·⋅²³⁻¹()^. \d-]{1,24}")
_SHOWN = {"degC": "°C", "deg": "°", "1/h": "/h", "1/K": "/K"}
_RAISED = re.compile(r"(?<=m)[23]")
ANGLE = "angle"


@dataclass(frozen=True, slots=True)
class Unit:
    """A unit with the way to SI: ``si = number * factor + offset``.

    Attributes
    ----------
    text : str
        As written in the bank or by a person.
    factor, offset : float
        The way to the SI base unit.
    dimension : str
        Dimension; "angle" for degrees and radians, "dimensionless" for a share.
    """

    text: str
    factor: float
    offset: float
    dimension: str

    def to_si(self, number):
        """Return a number of this unit in SI."""
        return number * self.factor + self.offset

    def from_si(self, value):
        """Return an SI value in this unit."""
        return (value - self.offset) / self.factor

    @property
    def shown(self):
        """The unit as it is printed."""
        if self.text == "1":
            return ""
        text = _SHOWN.get(self.text, self.text).replace("ohm", "Ω")
        return _RAISED.sub(lambda power: {"2": "²", "3": "³"}[power.group()], text)

    def after(self, number_text):
        """A number with this unit behind it, as it is printed."""
        return f"{number_text}{'' if self.text == 'deg' else ' '}{self.shown}".rstrip()


@cache
def _registry():
    import pint  # a third of a second: only who reads or writes units pays for it

    return pint.UnitRegistry(cache_folder=None)


@cache
def unit(text):
    """Return a unit by its text, "1" or "" for a pure number.

    Parameters
    ----------
    text : str
        Such as "mm", "kg/m3", "W/(m K)", "°C", "%".

    Returns
    -------
    Unit
        With its factor to SI.

    Raises
    ------
    InputError
        A text that is no unit.

    Examples
    --------
    >>> unit("mm").to_si(186.4)
    0.1864
    >>> round(unit("degC").from_si(368.15), 2), unit("kg/m3").shown
    (95.0, 'kg/m³')
    """
    if text in ("", "1"):
        return Unit("1", 1.0, 0.0, "dimensionless")
    if not _ALLOWED.fullmatch(text):
        raise InputError(_unknown(text))
    written = text if text in _TRADE else _BY_LOWER_CASE.get(text.lower(), text)
    for trade, plain in _SPELLING.items():
        written = written.replace(trade, plain)
    written = _POWER.sub(r"**\1", written)
    try:
        parsed = _registry().parse_units(written)
        zero = _registry().Quantity(0.0, parsed).to_base_units()
        one = _registry().Quantity(1.0, parsed).to_base_units()
        dimension = str(parsed.dimensionality)
    except Exception as unreadable:  # pint answers odd text with a dozen kinds of exception
        raise InputError(_unknown(text)) from unreadable
    if written in ("deg", "rad", "degree", "radian"):
        dimension = ANGLE
    return Unit(text, float((one - zero).magnitude), float(zero.magnitude), dimension)


def _unknown(text):
    return (f"“{text[:24]}” is no unit that can be read here. Write a unit such as mm, m, mbar, "
            "kPa, bar, mA, s or %.")


def sister_units(asked):
    """Return the trade's other units of the same dimension: what a person may mix up.

    Parameters
    ----------
    asked : Unit
        The unit that a step asks for.

    Returns
    -------
    tuple of Unit
        Without those that differ from `asked` by nothing.

    Examples
    --------
    >>> [other.text for other in sister_units(unit("kPa"))]
    ['Pa', 'mbar', 'bar', 'MPa']
    """
    return _sisters(asked)


@cache
def _sisters(asked):
    if asked.dimension == ANGLE:
        candidates = ("deg", "rad")
    elif asked.dimension == "dimensionless":
        candidates = ("%", "1")
    else:
        candidates = ("mm", "cm", "m", "Pa", "mbar", "kPa", "bar", "MPa", "mA", "A", "mV", "V",
                      "ohm", "kohm", "s", "min", "h", "g", "kg", "ml", "l", "kg/s", "kg/h",
                      "m/s", "mm/s", "mm/min", "m3", "J/kg", "kJ/kg")
    found = {}
    for text in candidates:
        other = unit(text)
        if other.dimension == asked.dimension and other.factor != asked.factor:
            found.setdefault(other.factor, other)
    return tuple(found.values())
