"""What learners most often misunderstand, and the demonstration that cures each."""

import tomllib
from dataclasses import dataclass
from functools import cache
from pathlib import Path

from ..errors import InputError

_FILE = Path(__file__).with_name("misconceptions.toml")


@dataclass(frozen=True, slots=True)
class Misconception:
    """A misunderstanding that slips are tied to.

    Attributes
    ----------
    code, title, belief : str
        Code such as "MC01"; the misunderstanding in words; why it is believed.
    demonstration, bench : str
        What cures it on the screen, and with real water or paper.
    lesson : str
        Lesson that holds the demonstration.
    rank : int
        Place among those that can hide low water, 1 the worst; 0 for the others.
    """

    code: str
    title: str
    belief: str
    demonstration: str
    bench: str
    lesson: str
    rank: int = 0


@cache
def misconceptions():
    """Return every misconception by its code.

    Returns
    -------
    dict of str to Misconception
        In the order of the codes.

    Examples
    --------
    >>> misconceptions()["MC14"].lesson
    '10'
    """
    tables = tomllib.loads(_FILE.read_text(encoding="utf-8"))
    return {code: Misconception(code, **entry) for code, entry in tables.items()}


def misconception(code):
    """Return one misconception.

    Parameters
    ----------
    code : str
        Its code.

    Returns
    -------
    Misconception
        As listed.

    Raises
    ------
    InputError
        No such code.
    """
    try:
        return misconceptions()[code]
    except KeyError:
        raise InputError(f"There is no misconception “{code}”; the codes run from MC01 to "
                         f"MC{len(misconceptions()):02}.") from None


def safety_critical():
    """Return those that make a low boiler look full, the worst first.

    Examples
    --------
    >>> [one.code for one in safety_critical()]
    ['MC14', 'MC15', 'MC16', 'MC20', 'MC01', 'MC22']
    """
    return tuple(sorted((one for one in misconceptions().values() if one.rank),
                        key=lambda one: one.rank))
