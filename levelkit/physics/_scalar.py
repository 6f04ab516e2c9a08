"""Two questions asked of a number or an array; for plain numbers numpy would cost the most."""


def anywhere(condition):
    """Whether a condition, one truth value or an array of them, holds somewhere."""
    return bool(condition.any()) if hasattr(condition, "any") else condition


def mean_value(value):
    """Mean of a number or an array."""
    return float(value.mean()) if hasattr(value, "mean") else value
