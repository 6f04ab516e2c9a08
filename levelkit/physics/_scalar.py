"""Questions asked of a number or an array; for plain numbers numpy would cost the most."""

from ..errors import checked


def anywhere(condition):
    """Whether a condition, one truth value or an array of them, holds somewhere."""
    return bool(condition.any()) if hasattr(condition, "any") else condition


def mean_value(value):
    """Mean of a number or an array."""
    return float(value.mean()) if hasattr(value, "mean") else value


def checked_gravity(gravity):
    """Acceleration of gravity [m/s2] once it is known to be one."""
    return checked("gravity", gravity, 0.1, 100.0, "m/s2", "The earth's is 9.806 65.")
