"""From a seed to numbers: hashes pick from value lists, the same in every Python and numpy."""

import json
from functools import cache
from hashlib import sha256
from math import gcd, prod


def seed_number(*parts):
    """Return a whole number of 256 bits that depends on every part of a seed.

    Parameters
    ----------
    *parts : str or int
        Class secret, sheet, candidate and whatever else tells two draws apart.

    Returns
    -------
    int
        The same on every machine.

    Examples
    --------
    >>> seed_number("ab", "c") == seed_number("a", "bc")
    False
    """
    text = json.dumps([str(part) for part in parts], ensure_ascii=True)
    return int.from_bytes(sha256(text.encode("ascii")).digest(), "big")


def seed_code(*parts):
    """Return a short code for print that tells a seed without giving the class secret away."""
    digits = f"{seed_number('code', *parts):064x}"
    return f"{digits[:4]}-{digits[4:8]}"


def shuffled(items, *parts):
    """Return items as a tuple in an order that depends on a seed."""
    order = sorted(range(len(items)), key=lambda index: seed_number("order", *parts, index))
    return tuple(items[index] for index in order)


@cache
def _varied(family):
    return tuple(given for given in family.givens if given.values)


def space_size(family):
    """Return how many combinations of given values a family has, good and bad."""
    return prod(len(given.values) for given in _varied(family))


def walk(family, *parts):
    """Yield every combination of given values once, in an order that depends on a seed.

    A start and a stride that shares no factor with the number of combinations: so a
    search for a good or a new one ends, and says truly when there is none left.

    Parameters
    ----------
    family : Family
        Whose given quantities are wanted.
    *parts : str or int
        The seed.

    Yields
    ------
    dict of str to float
        Printed numbers of the quantities that do not depend on others.
    """
    varied, size = _varied(family), space_size(family)
    start = seed_number("start", family.id, *parts) % size
    stride = seed_number("stride", family.id, *parts) % size or 1
    while gcd(stride, size) != 1:
        stride += 1
    for attempt in range(size):
        index, chosen = (start + attempt * stride) % size, {}
        for given in varied:
            index, digit = divmod(index, len(given.values))
            chosen[given.name] = given.values[digit]
        yield chosen
