"""A sheet of questions by topic and marks, no two of which test the same trap."""

from dataclasses import dataclass

from ..errors import InputError
from .bank import families
from .selection import seed_number
from .variants import variant

LONGEST_SEARCH = 200_000


@dataclass(frozen=True, slots=True)
class Sheet:
    """The questions of a sheet; the numbers come with a candidate.

    Attributes
    ----------
    secret, name : str
        Class secret and name of the sheet: the seed.
    family_ids : tuple of str
        In the order of the sheet.
    marks : int
        Their sum.
    """

    secret: str
    name: str
    family_ids: tuple
    marks: int

    def variants(self, candidate):
        """Return the questions of this sheet with a candidate's own numbers."""
        return tuple(variant(family_id, self.secret, self.name, candidate)
                     for family_id in self.family_ids)


def make_sheet(secret, name, questions, marks, topics=(), difficulty=(1, 3)):
    """Return a sheet of a number of questions and a sum of marks, balanced over topics.

    Parameters
    ----------
    secret, name : str
        Class secret and name of the sheet: the same give the same sheet.
    questions : int
        How many.
    marks : int
        Sum of marks.
    topics : sequence of str
        Topics to balance over; empty for all of the bank. The numbers of questions of
        two topics differ by at most one.
    difficulty : tuple of int
        Lowest and highest difficulty, 1 to 3.

    Returns
    -------
    Sheet
        In teaching order.

    Raises
    ------
    InputError
        A topic that does not exist, or a wish that the bank cannot meet.

    Examples
    --------
    >>> sheet = make_sheet("secret", "sheet 1", 2, 13, ["gauge glass"])
    >>> len(sheet.family_ids), sheet.marks
    (2, 13)
    """
    known = list(dict.fromkeys(one.topic for one in families().values()))
    topics = list(topics) or known
    unknown = [topic for topic in topics if topic not in known]
    if unknown:
        raise InputError(f"There is no topic “{unknown[0]}”; topics are {', '.join(known)}.")
    low, high = difficulty
    pool = [one for one in families().values()
            if one.topic in topics and low <= one.difficulty <= high]
    pool.sort(key=lambda one: seed_number("sheet", secret, name, one.id))
    balance = _Balance(topics, questions)
    picked = _picked(pool, questions, marks, balance, [LONGEST_SEARCH])
    if picked is None:
        raise InputError(
            f"The bank has no {questions} questions of {marks} marks over {', '.join(topics)} "
            f"without a repeated trap. Ask for about {6.5 * questions:.0f} marks, fewer questions "
            "or more topics.")
    order = list(families())
    picked.sort(key=lambda one: order.index(one.id))
    return Sheet(str(secret), str(name), tuple(one.id for one in picked), marks)


class _Balance:
    """How many questions each topic may still have, so that no two differ by more than one."""

    def __init__(self, topics, questions):
        self._least, self._spare = divmod(questions, len(topics))
        self._count = dict.fromkeys(topics, 0)

    def takes(self, topic):
        """Count one question of a topic; False where it would tip the balance."""
        beyond = self._count[topic] >= self._least
        if self._count[topic] > self._least or (beyond and not self._spare):
            return False
        self._count[topic] += 1
        self._spare -= beyond
        return True

    def gives_back(self, topic):
        """Take the last question of a topic back."""
        self._count[topic] -= 1
        self._spare += self._count[topic] >= self._least


def _picked(pool, questions, marks, balance, budget, start=0, traps=frozenset()):
    """Depth-first search in seeded order, bounded by a budget of looks."""
    if questions == 0:
        return [] if marks == 0 else None
    for index in range(start, len(pool)):
        budget[0] -= 1
        if budget[0] < 0:
            return None
        one = pool[index]
        if one.trap in traps or one.marks > marks or not balance.takes(one.topic):
            continue
        rest = _picked(pool, questions - 1, marks - one.marks, balance, budget, index + 1,
                       traps | {one.trap})
        if rest is not None:
            return [one, *rest]
        balance.gives_back(one.topic)
    return None
