"""Every public function of units, properties, physics, faults and diagnosis against bad values.

The arguments of a good call come from the function's own doctest; one number or text anywhere
in them, however deep in a state, is replaced by something unusable. Allowed is a sentence of
ours or a finite result. Documented exceptions: an argument that is an object (a state, a
function) has to be one, an array is only taken where the docstring says array, and what levelkit
itself has made (MADE) is not taken apart. The long run is `LEVELKIT_FUZZ=1`.
"""

import functools
import inspect
import os
import re

import conventions
import numpy as np
import outcome
import pytest
from baseline import called, documented_call, leaves, with_leaf
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

LONG = os.environ.get("LEVELKIT_FUZZ", "") not in ("", "0")
FUZZED = ("levelkit.units", "levelkit.properties", "levelkit.physics", "levelkit.faults")
MADE = {"SteamTable", "InclinedSurface", "BoilerEquilibrium", "SteadyDrum", "SaturationLine",
        "PortPressures", "BlowDrill", "DrillEntry", "GaugeCondition", "GlassInside", "Fault",
        "GlassRun"}
UNCHECKED = "not checked here"
"""What a docstring says that is called at every step of an integration, behind a checked one."""

FIRST = 3  # of these every place gets the first ones in every run
NUMBERS = [float("nan"), 10**400, "text", float("inf"), float("-inf"), 1e300, -1e300, -10**400,
           -1.0, 0.0, -0.0, 5e-324, 1e-12, 1e12, 2**63]
OTHERS = ["", "7 bar", "0,25", b"7", None, 3 + 0j, [], [[1.0], [1.0, 2.0]], {},
          [float("nan")], ["a"]]
ARRAYS = [np.array([]), np.array(["a"]), np.array([None]), np.array([1.0, np.nan]),
          np.full((2, 3), np.inf), np.full((2, 2), 1e300)]
TEXTS = ["", "no such thing", "TEXT\0", "..", None, 7.0, float("nan"), b"x"]


def _functions():
    return [function for function in conventions.public_functions(FUZZED)
            if inspect.signature(function).parameters
            and UNCHECKED not in (inspect.getdoc(function) or "")]


FUNCTIONS = _functions()


def _takes_arrays(owner, function, name):
    text = inspect.getdoc(owner if owner is not None else function) or ""
    line = re.search(rf"^\s*(?:\w+, )*{name}(?:, \w+)* : .*$", text, re.M)
    return bool(line) and "array" in line.group(0)


@functools.cache
def _prepared(function):
    """Arguments of a good call, its infinite places, and the leaves that can be spoilt."""
    arguments = documented_call(function)
    if not arguments:
        return {}, frozenset(), ()
    usual = frozenset(outcome.wild(called(function, arguments)))
    found = []
    for name, value in arguments.items():
        for path, leaf, owner in leaves(value):
            places = [value]
            for step in path[:-1]:
                places.append(places[-1][step] if isinstance(step, int)
                              else getattr(places[-1], step))
            if {type(place).__name__ for place in places} & MADE or isinstance(leaf, bool):
                continue
            if isinstance(leaf, str):
                if owner is None:  # a name that a person gives; in a state it is a label
                    found.append((name, path, TEXTS))
                continue
            field = path[-1] if path else name
            arrays = ARRAYS if _takes_arrays(owner, function, field) else []
            found.append((name, path, [*NUMBERS, *OTHERS, *arrays]))
    return arguments, usual, tuple(found)


def _tried(function, name, path, bad):
    arguments, usual, _ = _prepared(function)
    outcome.count("values given to functions")
    said = outcome.complaint(
        function, lambda: called(function, arguments | {
            name: with_leaf(arguments[name], path, bad)}), usual)
    place = ".".join(map(str, (name, *path)))
    return said and f"{function.__name__}({place}={bad!r}): {said}"


def test_nearly_every_function_has_a_documented_call():
    without = [function.__name__ for function in FUNCTIONS if not documented_call(function)]
    assert len(without) <= 2, without
    assert len(FUNCTIONS) > 200


@pytest.mark.parametrize("function", FUNCTIONS, ids=lambda f: f"{f.__module__[9:]}.{f.__name__}")
def test_a_bad_value_is_refused_or_harmless(function):
    places = _prepared(function)[2]
    if not places:
        pytest.skip("takes objects only")
    said = [_tried(function, name, path, bad) for name, path, values in places
            for bad in (values if LONG else values[:FIRST])]
    assert not list(filter(None, said))

    @settings(max_examples=50 if LONG else 6, deadline=None, database=None,
              derandomize=not LONG, suppress_health_check=list(HealthCheck))
    @given(st.data())
    def spoilt(data):
        name, path, values = data.draw(st.sampled_from(places))
        bad = data.draw(st.sampled_from(values) if values is TEXTS else st.one_of(
            st.sampled_from(range(len(values))).map(lambda i: values[i]),
            st.floats(), st.integers(), st.text(max_size=8)))
        said = _tried(function, name, path, bad)
        assert not said, said

    spoilt()


def test_a_planted_careless_function_is_caught():
    def careless(height):
        return 1.0 / height

    assert "ZeroDivisionError" in outcome.complaint(careless, lambda: careless(0.0))
    assert "not finite" in outcome.complaint(careless, lambda: careless(0.0) if False
                                             else float("nan"))
    assert outcome.complaint(careless, lambda: careless(2.0)) is None
