"""The exceptions of levelkit and the one check that turns a bad value into a sentence."""

import math
from numbers import Real


class LevelkitError(Exception):
    """Base of every exception that levelkit raises on purpose."""


class InputError(LevelkitError, ValueError):
    """A value that cannot be used. Its text says value, allowed range, unit and what to do."""


class ScenarioError(InputError):
    """A scenario file that cannot be used. Its text names the file, the place and the cure."""


def checked(name, value, low, high, unit, remedy=""):
    """Return `value` as float or float array once it is known to be usable.

    Parameters
    ----------
    name : str
        What the value is, in the words of the trade, for the sentence.
    value : float or array [as `unit`]
        The value to look at; any shape.
    low, high : float [as `unit`]
        The allowed range, both ends included.
    unit : str
        Unit written after the numbers; "" for a pure number.
    remedy : str
        A sentence that says what to do about it.

    Returns
    -------
    float or numpy.ndarray [as `unit`]
        A float for a scalar, a float array of the same shape otherwise.

    Raises
    ------
    InputError
        Text, None, a truth value, NaN, an infinity, an empty array, or a value
        outside the range.

    References
    ----------
    None: a check, not a formula.

    Examples
    --------
    >>> checked("drum level", 0.25, 0.0, 1.0, "m")
    0.25
    >>> checked("drum level", 250, 0.0, 1.0, "m", "Give metres: 250 mm is 0.25.")
    Traceback (most recent call last):
        ...
    levelkit.errors.InputError: drum level is 250 m; the allowed range is 0 to 1 m. \
Give metres: 250 mm is 0.25.
    """
    if isinstance(value, Real) and not isinstance(value, bool):
        try:
            number = float(value)
        except OverflowError:  # an integer of hundreds of digits, which no formula can take
            number = math.nan
        if low <= number <= high:
            return number
        raise InputError(_sentence(name, value, low, high, unit, remedy))
    return _checked_array(name, value, low, high, unit, remedy)


def _checked_array(name, value, low, high, unit, remedy):
    import numpy as np  # only arrays pay for numpy

    usable = not isinstance(value, (str, bytes, bool)) and value is not None
    if usable:
        try:
            array = np.asarray(value)
            usable = array.dtype.kind in "iuf"
        except (ValueError, TypeError):
            usable = False
    if not usable:
        raise InputError(
            f"{name} is {value!r}, which is not a number; "
            f"the allowed range is {_span(low, high, unit)}. {remedy}".rstrip()
        )
    if array.size == 0:
        raise InputError(
            f"{name} is an empty list; give at least one value in {unit or 'numbers'}.")
    array = array.astype(float)
    bad = ~((array >= low) & (array <= high))
    if bad.any():
        first = array[bad][0] if array.ndim else array
        count = int(bad.sum())
        more = f" ({count} of {array.size} values are outside)" if array.size > 1 else ""
        raise InputError(_sentence(name, float(first), low, high, unit, remedy) + more)
    return array if array.ndim else float(array)


def _span(low, high, unit):
    return f"{low:g} to {high:g} {unit}".rstrip()


def _sentence(name, value, low, high, unit, remedy):
    shown = f"{value:.6g}" if isinstance(value, float) else f"{value}"
    if len(shown) > 24:
        shown = shown[:20] + "..."
    shown = f"{shown} {unit}".rstrip()
    return f"{name} is {shown}; the allowed range is {_span(low, high, unit)}. {remedy}".rstrip()
