"""The record that an answer function fills: every step, every known slip, in order."""


class Solution:
    """Values of the steps and slips of one question, in SI.

    An answer function hands every step over as it goes and carries on with what it
    gets back: its own value, or the one that a candidate found. So the same function
    gives the key and, with a candidate's earlier values, what his later steps should be.
    """

    __slots__ = ("_own", "slips", "steps", "unfair")

    def __init__(self, own=None):
        self._own = own or {}
        self.steps = {}
        self.slips = {}
        self.unfair = ""

    def step(self, name, value):
        """Record the value of a step; return the value to carry on with."""
        self.steps[name] = value
        return self._own.get(name, value)

    def slip(self, name, value):
        """Record what a known slip gives."""
        self.slips[name] = value

    def refuse(self, too_close, reason):
        """Record that the data make no fair question, such as a choice on a knife's edge."""
        if too_close:
            self.unfair = reason


def solved(answer, data, own=None):
    """Return the solution of a question.

    Parameters
    ----------
    answer : callable
        Function of :mod:`answers`.
    data : dict of str to float
        Given quantities in SI.
    own : dict of str to float, optional
        A candidate's values of steps, in SI: later steps follow from them.

    Returns
    -------
    Solution
        With every step and slip.

    Raises
    ------
    InputError
        From physics: a state that cannot exist.

    Examples
    --------
    >>> def twice(work, length):
    ...     double = work.step("double", 2 * length)
    ...     work.step("fourfold", 2 * double)
    >>> solved(twice, {"length": 3.0}).steps
    {'double': 6.0, 'fourfold': 12.0}
    >>> solved(twice, {"length": 3.0}, {"double": 5.0}).steps
    {'double': 6.0, 'fourfold': 10.0}
    """
    work = Solution(own)
    answer(work, **data)
    return work


def solved_family(family, data, own=None):
    """Return the solution of a family's question, fixed choices included.

    Parameters
    ----------
    family : Family
        The question family.
    data : dict of str to float
        Given quantities in SI.
    own : dict of str to float, optional
        A candidate's values of steps, in SI.

    Returns
    -------
    Solution
        With every step of the family.

    Raises
    ------
    InputError
        From physics: a state that cannot exist.
    """
    work = solved(family.answer, data, own)
    for step in family.steps:
        if step.right:
            work.steps[step.id] = step.right
    return work
