"""What the docstring examples of physics call and make: valid values to start from."""

import dataclasses
import doctest
import importlib
import inspect
import pkgutil
from functools import cache, wraps

import levelkit.physics

MODULES = [module.name for module in pkgutil.iter_modules(levelkit.physics.__path__)]


def is_number(value):
    return isinstance(value, (int, float)) and not isinstance(value, bool)


@cache
def example_calls():
    """Every call of a public function in its own docstring: function, bound arguments, result."""
    calls = []

    def kept(function):
        @wraps(function)
        def call(*values, **named):
            bound = inspect.signature(function).bind(*values, **named)
            result = function(*values, **named)
            calls.append((function, bound, result))
            return result
        return call

    for name in MODULES:
        module = importlib.import_module(f"levelkit.physics.{name}")
        for word, function in list(vars(module).items()):
            if inspect.isfunction(function) and function.__module__ == module.__name__ and (
                    ">>>" in (function.__doc__ or "")):
                example = doctest.DocTestParser().get_doctest(
                    function.__doc__, {**vars(module), word: kept(function)}, word, None, None)
                doctest.DocTestRunner().run(example, out=lambda text: None, clear_globs=False)
    return calls


@cache
def example_states():
    """One object of every dataclass that the calls took or gave."""
    made = {}

    def keep(value):
        if dataclasses.is_dataclass(value) and not isinstance(value, type):
            made.setdefault(type(value), value)
            for field in dataclasses.fields(value):
                keep(getattr(value, field.name))
        elif isinstance(value, (list, tuple)):
            for one in value:
                keep(one)

    for _, bound, result in example_calls():
        keep([*bound.args, *bound.kwargs.values(), result])
    return made
