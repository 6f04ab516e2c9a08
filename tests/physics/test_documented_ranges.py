"""A range that a docstring promises is the range that the function takes, to its very ends."""

import inspect
import re
from functools import cache

import pytest
from example_calls import example_calls, is_number

from levelkit.errors import InputError

NUMBER = r"-?\d[\d ]*(?:\.\d+)?(?:e-?\d+)?"
RANGE = re.compile(rf"({NUMBER}) to ({NUMBER})( bar|)(?=[.,;])")
ALSO_HELD_BY_OTHERS = {("bore_meniscus", "bore_radius")}  # at most 12 capillary lengths as well


@cache
def promised():
    """(function, argument, low, high) for each range under Parameters, and a call to start from."""
    found = {}
    for function, bound, _ in example_calls():
        text = inspect.getdoc(function).split("Parameters\n----------\n")[-1]
        text = re.split(r"\n\n(?:Returns|Raises|Notes)\n", text)[0]
        for names, words in re.findall(r"^(\w[\w, ]*) : [^\n]*\n((?:    [^\n]*\n?)+)", text, re.M):
            span = RANGE.search(words)
            for name in names.split(", ") if span else ():
                if is_number(bound.arguments.get(name)):
                    unit = 1e5 if span[3] else 1.0
                    low, high = (unit * float(end.replace(" ", "")) for end in span.groups()[:2])
                    found.setdefault((function, name), (bound, low, high))
    return found


def called_with(bound, name, value):
    changed = bound.signature.bind(*bound.args, **bound.kwargs)
    whole = isinstance(bound.arguments[name], int) and float(value).is_integer()
    changed.arguments[name] = int(value) if whole else value
    return changed


@pytest.mark.parametrize("function, name", promised(),
                         ids=[f"{function.__name__}-{name}" for function, name in promised()])
def test_promised_range(function, name):
    bound, low, high = promised()[function, name]
    for end, outwards in ((low, -1), (high, 1)):
        beyond = called_with(bound, name, end + outwards * (1e-3 * abs(end) or 1e-9))
        with pytest.raises(InputError, match="allowed range"):
            function(*beyond.args, **beyond.kwargs)
        if (function.__name__, name) in ALSO_HELD_BY_OTHERS and end == high:
            continue
        on_it = called_with(bound, name, end)
        try:
            function(*on_it.args, **on_it.kwargs)
        except InputError as refusal:  # allowed by itself, impossible beside the other values
            assert not re.search(rf" is {re.escape(f'{end:.6g}')}\b[^;]*; the allowed range",
                                 str(refusal)), str(refusal)
