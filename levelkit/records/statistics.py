"""Numbers about a marked paper: facility, discrimination, share of each slip, misconceptions."""

from dataclasses import dataclass

from ..exercises.misconceptions import misconception, safety_critical

LOW_FACILITY = 0.2
SIGNIFICANT = 3  # with fewer candidates a correlation says nothing


@dataclass(frozen=True, slots=True)
class ItemStatistics:
    """One question.

    Attributes
    ----------
    question : int
        Its number.
    facility : float [1]
        Mean mark over marks to be had.
    discrimination : float or None [1]
        Correlation of its mark with the rest of the paper; None where one of the two does not
        vary, or where there are too few candidates.
    slips : tuple of SlipShare
        The commonest first.
    """

    question: int
    facility: float
    discrimination: object
    slips: tuple

    @property
    def review(self):
        """Why the question is to be looked at before results go out; empty if it is not."""
        reasons = []
        if self.facility < LOW_FACILITY:
            reasons.append(f"facility under {LOW_FACILITY}")
        if self.discrimination is not None and self.discrimination < 0:
            reasons.append("discrimination negative")
        return ", ".join(reasons)


@dataclass(frozen=True, slots=True)
class SlipShare:
    """How common a slip is.

    Attributes
    ----------
    question : int
        Number of the question.
    step, slip, misconception : str
        Where, which, and the code behind it, which may be empty.
    count : int
        Candidates who made it.
    share : float [1]
        Of those who handed something in.
    """

    question: int
    step: str
    slip: str
    misconception: str
    count: int
    share: float


def item_statistics(marks):
    """Return the statistics of every question.

    Parameters
    ----------
    marks : ClassMarks
        A marked class.

    Returns
    -------
    tuple of ItemStatistics
        Empty where nobody handed anything in.
    """
    present = marks.present
    if not present:
        return ()
    found = []
    for number, family in enumerate(marks.paper.families, 1):
        own = [one.of_question(number) for one in present]
        rest = [one.total - mark for one, mark in zip(present, own, strict=True)]
        found.append(ItemStatistics(number, sum(own) / len(own) / family.marks,
                                    correlation(own, rest), slip_shares(marks, number)))
    return tuple(found)


def correlation(first, second):
    """Return the product-moment correlation of two lists, or None where it has no meaning.

    Examples
    --------
    >>> round(correlation([1, 2, 3, 4], [2, 4, 6, 9]), 3)
    0.994
    >>> correlation([1, 1, 1], [1, 2, 3]) is None
    True
    """
    count = len(first)
    if count < SIGNIFICANT:
        return None
    means = sum(first) / count, sum(second) / count
    apart = [(a - means[0], b - means[1]) for a, b in zip(first, second, strict=True)]
    squares = sum(a * a for a, _ in apart) * sum(b * b for _, b in apart)
    return sum(a * b for a, b in apart) / squares ** 0.5 if squares > 0 else None


def slip_shares(marks, question):
    """Return how common each slip of one question is, the commonest first."""
    counts, present = {}, len(marks.present)
    for one in marks.present:
        for step in one.slips:
            if step.question == question:
                key = (step.mark.step, step.mark.slip, step.mark.misconception)
                counts[key] = counts.get(key, 0) + 1
    ordered = sorted(counts.items(), key=lambda item: (-item[1], item[0]))
    return tuple(SlipShare(question, *key, count, count / present) for key, count in ordered)


def misconception_counts(marks):
    """Return how many candidates showed each misunderstanding, the most pressing first.

    Those that can hide low water weigh half as much again.

    Parameters
    ----------
    marks : ClassMarks
        A marked class.

    Returns
    -------
    dict of str to int
        Candidates by code.
    """
    counts = {}
    for one in marks.present:
        for code in one.misconceptions:
            counts[code] = counts.get(code, 0) + 1
    critical = {one.code for one in safety_critical()}

    def pressing(code):
        return (-counts[code] * (1.5 if code in critical else 1.0),
                misconception(code).rank or 99, code)
    return {code: counts[code] for code in sorted(counts, key=pressing)}


def misconception_map(marks):
    """Return who showed what: codes, candidates, and a row of 0 and 1 for each code.

    Returns
    -------
    codes, numbers : tuple of str
        Rows, the most pressing first, and columns in the order of the register.
    cells : tuple of tuple of int
        1 where the candidate showed it.
    """
    codes = tuple(misconception_counts(marks))
    present = marks.present
    return codes, tuple(one.number for one in present), tuple(
        tuple(int(code in one.misconceptions) for one in present) for code in codes)
