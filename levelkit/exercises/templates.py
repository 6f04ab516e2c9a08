"""Text with places for quantities: one template gives the formula and the line of numbers."""

import re
from functools import cache

_PLACE = re.compile(r"\{(\w+)\}")
_NUMBERS_ONLY = re.compile(r"\[\[(.*?)\]\]")
_UP = str.maketrans("-0123456789", "⁻⁰¹²³⁴⁵⁶⁷⁸⁹")


@cache
def placeholders(template):
    """Return the names that stand in braces in a template.

    Examples
    --------
    >>> sorted(placeholders("{level} × {steam}"))
    ['level', 'steam']
    """
    return frozenset(_PLACE.findall(template))


def number_text(number, decimals, power=False):
    """Return a number as it is printed: fixed decimals, proper minus, or with a power of ten.

    Examples
    --------
    >>> number_text(-13.62, 1), number_text(8.76e-3, 2, power=True)
    ('−13.6', '8.76 × 10⁻³')
    """
    if not power:
        text = f"{number:.{decimals}f}"
        if float(text) == 0.0:
            text = text.lstrip("-")
        return text.replace("-", "−")
    mantissa, exponent = f"{number:.{decimals}e}".split("e")
    return f"{mantissa.replace('-', '−')} × 10{str(int(exponent)).translate(_UP)}"


def printed(number, decimals, power=False):
    """Return a number rounded as it is printed."""
    return float(f"{number:.{decimals}e}") if power else float(f"{number:.{decimals}f}")


def filled(template, texts):
    """Return a template with every place filled from a mapping of name to text."""
    return _PLACE.sub(lambda place: texts[place.group(1)], template)


def formula_text(template, symbols):
    """Return a formula in symbols: what stands in [[ ]] is left out.

    Examples
    --------
    >>> formula_text("{a} / {b}[[ × 1000]]", {"a": "ρ_f", "b": "ρ_g"})
    'ρ_f / ρ_g'
    """
    return filled(_NUMBERS_ONLY.sub("", template), symbols)


def working_text(template, numbers):
    """Return a formula in numbers, negative ones in brackets.

    Examples
    --------
    >>> working_text("{a} − {b}[[ × 1000]]", {"a": "7.5", "b": "−1.8"})
    '7.5 − (−1.8) × 1000'
    """
    bracketed = {name: f"({text})" if text.startswith("−") or "×" in text else text
                 for name, text in numbers.items()}
    return filled(_NUMBERS_ONLY.sub(r"\1", template), bracketed)
