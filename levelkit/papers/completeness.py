"""Is every number on the sheet that a candidate needs, and can it be done without a computer?"""

import re
import tomllib
from functools import cache
from pathlib import Path

from ..exercises.family import METHOD
from ..exercises.working import worked_steps
from .tables import lookup

_CONSTANTS = Path(__file__).with_name("constants.toml")
_NUMBER = re.compile(r"\d+(?:\.\d+)?")
_SYMBOL = re.compile(r"[^\W\d]+[′']?_\w+|[^\W\d]\d")
_PURE = frozenset({"1", "2", "3", "4", "6", "18", "36"})
"""Factors that need no source, up to their power of ten: geometry (π/4, π/6, 4/3, 180/π), squares,
60 and 3600 seconds."""


@cache
def constants():
    """Return the facts that a data sheet can supply: (text, its numbers)."""
    tables = tomllib.loads(_CONSTANTS.read_text(encoding="utf-8"))["constant"]
    return tuple((table["text"], frozenset(map(float, table["supplies"]))) for table in tables)


def _digits(number):
    """The significant digits: a change of unit moves the point and nothing else."""
    return number.replace(".", "").strip("0") or "0"


def _all_digits(text):
    return {_digits(found) for found in _NUMBER.findall(text)}


def needed_constants(variants):
    """Return the facts that the workings of some questions use, in the order of the file."""
    missing = {number for variant in variants for _, number, _ in _unprinted(variant)}
    return tuple(text for text, supplies in constants() if supplies & missing)


def missing_numbers(variant):
    """Return a sentence for every number of the working that a candidate cannot find.

    Looked for in the printed question, the results of earlier steps, the facts and tables of the
    data sheet.

    Parameters
    ----------
    variant : Variant
        A question with its numbers.

    Returns
    -------
    tuple of str
        Empty where the question can be solved from the paper alone.

    Examples
    --------
    >>> from levelkit.exercises import example
    >>> missing_numbers(example("glass-reads-low"))
    ()
    """
    supplied = frozenset().union(*(supplies for _, supplies in constants()))
    faults = [f"{variant.family.id}, step {step}: the number {number:g} stands neither in the "
              f"question nor on the data sheet; the working is “{working}”."
              for step, number, working in _unprinted(variant) if number not in supplied]
    for step in variant.family.value_steps:
        if not step.formula and not step.fixed and not lookup(variant.family.id, step.id):
            faults.append(f"{variant.family.id}, step {step.id}: its value has no formula and no "
                          "table; name its table in papers/lookups.toml.")
    return tuple(faults)


def _unprinted(variant):
    """(step, number, working) for every number that neither question nor earlier steps hold."""
    asked = " ".join(step.ask for step in variant.steps)
    have = _all_digits(f"{variant.text} {asked}") | _PURE
    found = []
    for worked in worked_steps(variant):
        if not worked.formula:
            continue
        working = worked.working
        result = variant.numbers.get(worked.step, "")
        if worked.kind != METHOD:
            working = working[:working.rfind(result.lstrip("−"))]
        for number in _NUMBER.findall(_SYMBOL.sub("", working)):
            if _digits(number) not in have and float(number):
                found.append((worked.step, float(number), worked.working))
        have |= _all_digits(result)
    return found
