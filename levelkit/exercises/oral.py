"""Oral practice: questions by topic and rank, model points, and what refers whatever the score."""

import tomllib
from dataclasses import dataclass
from functools import cache
from pathlib import Path

from ..constants import CAUTION
from ..errors import InputError
from .selection import shuffled

_FILE = Path(__file__).with_name("bank") / "oral.toml"
ENTRY, MANAGEMENT = "entry", "management"


@dataclass(frozen=True, slots=True)
class ModelPoint:
    """One thing that a good answer holds.

    Attributes
    ----------
    text : str
        The point.
    critical : bool
        Missing or contradicting it refers the candidate, whatever else was said.
    """

    text: str
    critical: bool = False


@dataclass(frozen=True, slots=True)
class OralQuestion:
    """A question at the table.

    Attributes
    ----------
    id, topic, rank : str
        Id; topic; "entry" or "management".
    ask : str
        The question as the examiner puts it.
    points : tuple of ModelPoint
        Hidden until asked for.
    follow_ups : tuple of str
        What the examiner asks next.
    sketch : str
        What to draw, or empty.
    then : str
        Id of the question that continues the scene, or empty.
    lesson : str
        Where to read it up.
    advises_action : bool
        The caution stands beside the model points.
    """

    id: str
    topic: str
    rank: str
    ask: str
    points: tuple
    follow_ups: tuple
    sketch: str
    then: str
    lesson: str
    advises_action: bool

    @property
    def critical(self):
        """Numbers of the points that refer if missed, from 0."""
        return tuple(index for index, point in enumerate(self.points) if point.critical)

    @property
    def caution(self):
        """The line that stands beside advice to act; empty where none is given."""
        return CAUTION if self.advises_action else ""


@cache
def oral_questions():
    """Return every oral question by its id, in teaching order.

    Returns
    -------
    dict of str to OralQuestion
        As in the bank.

    Examples
    --------
    >>> oral_questions()["reference-leg-loss"].critical
    (0,)
    """
    tables = tomllib.loads(_FILE.read_text(encoding="utf-8"))["question"]
    return {table["id"]: OralQuestion(
        table["id"], table["topic"], table["rank"], table["ask"],
        tuple(ModelPoint(point.removeprefix("! "), point.startswith("! "))
              for point in table["points"]),
        tuple(table.get("follow_ups", ())), table.get("sketch", ""), table.get("then", ""),
        table["lesson"], table.get("advises_action", False)) for table in tables}


def draw_questions(count, *seed_parts, topic="", rank="", without=()):
    """Return questions for one candidate, unlike those named, the same for the same seed.

    Parameters
    ----------
    count : int
        How many.
    *seed_parts : str or int
        Class secret, day, candidate.
    topic, rank : str
        Keep to one topic or rank; empty for all. Management rank is asked the entry
        questions too.
    without : iterable of str
        Ids not to draw, such as those of the candidate before.

    Returns
    -------
    tuple of OralQuestion
        In the order of asking.

    Raises
    ------
    InputError
        Fewer questions than asked for.
    """
    if rank not in ("", ENTRY, MANAGEMENT):
        raise InputError(f"There is no rank “{rank}”; ranks are {ENTRY} and {MANAGEMENT}.")
    pool = [question for question in oral_questions().values()
            if topic in ("", question.topic) and question.id not in set(without)
            and not (rank == ENTRY and question.rank == MANAGEMENT)]
    if count > len(pool):
        raise InputError(f"Only {len(pool)} oral questions fit that wish and {count} are asked "
                         "for. Ask for fewer, or leave topic or rank open.")
    return shuffled(pool, "oral", *seed_parts)[:count]
