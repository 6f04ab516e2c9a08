"""What a call with an unusable value may do: refuse with a sentence, or give a finite result."""

import dataclasses
import inspect
import warnings

import numpy as np

from levelkit.errors import LevelkitError

counted = {}
"""How many cases have been tried, by kind; the terminal summary prints it."""


def count(kind, cases=1):
    counted[kind] = counted.get(kind, 0) + cases


def wild(value, path=()):
    """Yield the place of every number that is infinite or not a number."""
    if isinstance(value, (float, np.ndarray, np.generic)):
        array = np.asarray(value)
        if array.dtype.kind in "fc" and not np.isfinite(array).all():
            yield path
    elif dataclasses.is_dataclass(value):
        for field in dataclasses.fields(value):
            yield from wild(getattr(value, field.name), (*path, field.name))
    elif isinstance(value, dict):
        for key, item in value.items():
            yield from wild(item, (*path, key))
    elif isinstance(value, (list, tuple)):
        for item in value:
            yield from wild(item, (*path, "each"))


def _documentation(function, result, seen=None):
    seen = seen if seen is not None else set()
    text = inspect.getdoc(function) or ""
    stack = [result]
    while stack:
        value = stack.pop()
        if dataclasses.is_dataclass(value) and type(value) not in seen:
            seen.add(type(value))
            text += type(value).__doc__ or ""
            stack += [getattr(value, field.name) for field in dataclasses.fields(value)]
        elif isinstance(value, (list, tuple)):
            stack += value[:1]
    return text.lower()


def complaint(function, call, usual=frozenset()):
    """Return what is wrong with the outcome of a call, or nothing.

    `usual` are the places that hold an infinite number in a call with good values, such as
    the infinite resistance of a wire without leakage.
    """
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("error")
            result = call()
    except LevelkitError as refused:
        sentence = str(refused)
        return None if len(sentence) > 15 and "\n" not in sentence else f"says only {sentence!r}"
    except Exception as fault:
        return f"{type(fault).__name__}: {fault}"
    places = set(wild(result)) - usual
    if places:
        documented = _documentation(function, result)
        if not any(word in documented for word in ("nan", "not a number", "infinit", "unlimited")):
            return f"gives a number that is not finite at {sorted(map(str, places))[:3]}"
    return None
