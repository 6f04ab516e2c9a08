"""No state of physics takes a number that cannot be: not a number, or beyond all bounds."""

import dataclasses
import doctest
import importlib
import inspect
import math
import pkgutil
from functools import cache, wraps

import pytest

import levelkit.physics
from levelkit.errors import InputError

MODULES = [module.name for module in pkgutil.iter_modules(levelkit.physics.__path__)]

LOOKED_AT_LATER = {
    # looked at by the function that needs them, together with other values
    "TwoFluidState.fluid_temperature", "TwoFluidState.filling",
    # computed by levelkit itself, from values that were looked at
    "GlassContents.time", "GaugeFitting.ball_lift_flow",
}
WITHOUT_END = {"LoopState.leakage_resistance", "Receiver.shunt"}  # no leak: no end


@cache
def _states(module_name):
    """One state of each class of a module, as the docstring examples of all physics make them."""
    return {type(one): one for one in _made() if type(one).__module__.endswith("." + module_name)}


@cache
def _made():
    made = []

    def keep(value):
        if dataclasses.is_dataclass(value) and not isinstance(value, type):
            made.append(value)
            for field in dataclasses.fields(value):
                keep(getattr(value, field.name))
        elif isinstance(value, (list, tuple)):
            for one in value:
                keep(one)

    def kept(function):
        @wraps(function)
        def call(*values, **named):
            result = function(*values, **named)
            keep([*values, *named.values(), result])
            return result
        return call

    for name in MODULES:
        module = importlib.import_module(f"levelkit.physics.{name}")
        for word, function in list(vars(module).items()):
            if inspect.isfunction(function) and function.__module__ == module.__name__ and (
                    ">>>" in (function.__doc__ or "")):
                example = doctest.DocTestParser().get_doctest(
                    function.__doc__, {**vars(module), word: kept(function)}, word, None, None)
                doctest.DocTestRunner().run(example, out=lambda text: None)
    return made


def _is_number(value):
    return isinstance(value, (int, float)) and not isinstance(value, bool)


@pytest.mark.parametrize("module", MODULES)
def test_a_state_refuses_what_is_no_number_or_beyond_all_bounds(module):
    for kind, state in _states(module).items():
        if not hasattr(kind, "__post_init__"):
            continue
        for field in dataclasses.fields(kind):
            place = f"{kind.__name__}.{field.name}"
            if not _is_number(getattr(state, field.name)) or place in LOOKED_AT_LATER:
                continue
            for bad in (math.nan, -1e300) + (() if place in WITHOUT_END else (1e300,)):
                with pytest.raises(InputError):
                    dataclasses.replace(state, **{field.name: bad})
                    pytest.fail(f"{place} takes {bad}", pytrace=False)


def test_the_examples_make_most_states():
    checked = {type(one) for one in _made() if hasattr(type(one), "__post_init__")}
    assert len(checked) >= 30
