"""Numbers as people write and read them: bar gauge, degrees Celsius, millimetres, commas."""

import re

from .constants import BAR, STANDARD_BAROMETER, ZERO_CELSIUS
from .errors import InputError, checked

_MINUS = str.maketrans({"\u2212": "-", "\u2013": "-", "\u2012": "-"})
_SPACES = re.compile(r"[\s\u00a0\u2009\u202f]+")
_NUMBER = re.compile(r"[+-]?(\d+([.,]\d*)?|[.,]\d+)([eE][+-]?\d+)?")


def absolute_pressure(gauge_pressure_bar, barometer=STANDARD_BAROMETER):
    """Return the absolute pressure of a space from a ship's gauge.

    ``p = p_gauge + p_barometer``

    Parameters
    ----------
    gauge_pressure_bar : float or array [bar]
        What the gauge reads; any shape.
    barometer : float [Pa]
        Pressure of the air outside.

    Returns
    -------
    float or array [Pa]
        Absolute pressure, same shape.

    Raises
    ------
    InputError
        A value outside its range.

    References
    ----------
    [SI-BROCHURE] bar and pascal.

    Examples
    --------
    >>> absolute_pressure(7.0, barometer=100_000.0)
    800000.0
    """
    gauge = checked("gauge pressure", gauge_pressure_bar, -10.0, 1e4, "bar", "Give bar gauge.")
    return gauge * BAR + _checked_barometer(barometer)


def gauge_pressure_bar(pressure, barometer=STANDARD_BAROMETER):
    """Return what a ship's gauge reads at an absolute pressure.

    ``p_gauge = p - p_barometer``

    Parameters
    ----------
    pressure : float or array [Pa]
        Absolute pressure; any shape.
    barometer : float [Pa]
        Pressure of the air outside.

    Returns
    -------
    float or array [bar]
        Gauge pressure, same shape.

    Raises
    ------
    InputError
        A value outside its range.

    References
    ----------
    [SI-BROCHURE] bar and pascal.

    Examples
    --------
    >>> gauge_pressure_bar(800_000.0, barometer=100_000.0)
    7.0
    """
    absolute = checked("absolute pressure", pressure, -1e6, 1e9, "Pa", "Give pascal: 7 bar is 7e5.")
    return (absolute - _checked_barometer(barometer)) / BAR


def kelvin(celsius):
    """Return a temperature in kelvin.

    ``T = t + 273.15``

    Parameters
    ----------
    celsius : float or array [degC]
        Temperature on the Celsius scale; any shape.

    Returns
    -------
    float or array [K]
        Thermodynamic temperature, same shape.

    Raises
    ------
    InputError
        A value outside its range.

    References
    ----------
    [SI-BROCHURE] definition of the Celsius scale.

    Examples
    --------
    >>> kelvin(100.0)
    373.15
    """
    return checked("temperature", celsius, -ZERO_CELSIUS, 1e4, "degC") + ZERO_CELSIUS


def celsius(kelvin):
    """Return a temperature in degrees Celsius.

    ``t = T - 273.15``

    Parameters
    ----------
    kelvin : float or array [K]
        Thermodynamic temperature; any shape.

    Returns
    -------
    float or array [degC]
        Temperature on the Celsius scale, same shape.

    Raises
    ------
    InputError
        A value outside its range.

    References
    ----------
    [SI-BROCHURE] definition of the Celsius scale.

    Examples
    --------
    >>> celsius(373.15)
    100.0
    """
    return checked("temperature", kelvin, 0.0, 1e4, "K") - ZERO_CELSIUS


def parse_number(text, name="the value"):
    """Return the number that a person typed, with decimal point or comma.

    Parameters
    ----------
    text : str
        What was typed. Spaces, a plus sign and any kind of minus are accepted.
    name : str
        What the number is, for the sentence.

    Returns
    -------
    float [as typed]
        The number.

    Raises
    ------
    InputError
        Nothing typed, more than one number, a thousands separator, or a number
        too large to hold.

    References
    ----------
    None: reading of a number, not a formula.

    Examples
    --------
    >>> parse_number(" 0,25 ")
    0.25
    >>> parse_number("\u221213.6")
    -13.6
    """
    compact = _SPACES.sub("", str(text).translate(_MINUS))
    if not compact:
        raise InputError(f"Nothing is typed for {name}. Type a number such as 0.25 or 0,25.")
    if not _NUMBER.fullmatch(compact):
        raise InputError(
            f"\u201c{_short(text)}\u201d for {name} is not one number. Type digits with one "
            "decimal point or comma, such as 0.25 or 0,25, and no thousands separator."
        )
    number = float(compact.replace(",", "."))
    if abs(number) == float("inf"):
        raise InputError(
            f"\u201c{_short(text)}\u201d for {name} is too large. Type a smaller number.")
    return number


def format_number(number, decimals=1, decimal_mark="."):
    """Return a number as text with fixed decimals and a proper minus sign.

    Parameters
    ----------
    number : float [any]
        The number.
    decimals : int
        Digits after the decimal mark.
    decimal_mark : str
        "." or ",".

    Returns
    -------
    str
        Text; a value that rounds to zero has no sign.

    Raises
    ------
    InputError
        A value outside its range.

    References
    ----------
    None: writing of a number, not a formula.

    Examples
    --------
    >>> format_number(-13.62)
    '\u221213.6'
    >>> format_number(0.25, 2, ",")
    '0,25'
    """
    decimals = int(checked("number of decimals", decimals, 0, 15, ""))
    if decimal_mark not in (".", ","):
        raise InputError(f"The decimal mark is {decimal_mark!r}; give '.' or ','.")
    number = checked("the number to show", number, -1e15, 1e15, "")
    text = f"{number:.{decimals}f}"
    if float(text) == 0:
        text = text.lstrip("-")
    return text.replace("-", "\u2212").replace(".", decimal_mark)


def _checked_barometer(barometer):
    return checked("barometer", barometer, 0.0, 2e5, "Pa", "Give pascal: 1013 mbar is 101 300.")


def _short(text):
    text = str(text).strip()
    return text if len(text) <= 24 else text[:20] + "..."
