"""What was asked and reached at the table: pairs, times, points, and the outcome."""

from dataclasses import dataclass, replace

from ..errors import InputError
from .oral import oral_questions

PASSED, FAILED, REFERRED = "passed", "not yet", "referred"
PASS_SHARE = 0.6


@dataclass(frozen=True, slots=True)
class OralRecord:
    """One question put to one candidate.

    Attributes
    ----------
    question, candidate, examiner : str
        Id of the question; who answered; who asked.
    started, elapsed : float or None [s]
        Clock at the start and time taken, as the caller measured them.
    reached : frozenset of int
        Numbers of the model points that were reached, from 0.
    dangerous : frozenset of int
        Numbers of the critical points that were contradicted.
    prompts : int
        How often the examiner had to help.
    """

    question: str
    candidate: str
    examiner: str = ""
    started: object = None
    elapsed: object = None
    reached: frozenset = frozenset()
    dangerous: frozenset = frozenset()
    prompts: int = 0


@dataclass(frozen=True, slots=True)
class OralResult:
    """What a run of questions comes to.

    Attributes
    ----------
    outcome : str
        "passed", "not yet" or "referred".
    score, maximum : int
        Points reached, points to be reached.
    referred_for : tuple of str
        The critical points that were missed or contradicted.
    missed : tuple of str
        Every other point not reached.
    seconds : float [s]
        Sum of the times taken.
    """

    outcome: str
    score: int
    maximum: int
    referred_for: tuple
    missed: tuple
    seconds: float


def pair_turns(questions, first, second):
    """Return who asks and who answers, taking turns, as records to be filled in.

    Parameters
    ----------
    questions : sequence of OralQuestion
        What is drawn.
    first, second : str
        The pair; the first one answers first.

    Returns
    -------
    tuple of OralRecord
        One for each question.
    """
    return tuple(OralRecord(question.id, *((first, second) if turn % 2 == 0 else (second, first)))
                 for turn, question in enumerate(questions))


def begun(record, clock):
    """Return the record with the time at which the question was put, from the caller's clock."""
    return replace(record, started=float(clock))


def finished(record, clock, reached, dangerous=(), prompts=0):
    """Return the record of an answered question.

    Parameters
    ----------
    record : OralRecord
        As begun.
    clock : float [s]
        The caller's clock now.
    reached : iterable of int
        Numbers of the points that were reached.
    dangerous : iterable of int
        Numbers of the critical points that were contradicted: "would feed a boiler whose
        level is out of sight".
    prompts : int
        How often the examiner had to help.

    Returns
    -------
    OralRecord
        With the time taken.

    Raises
    ------
    InputError
        A number that the question does not have.
    """
    count = len(oral_questions()[record.question].points)
    reached, dangerous = frozenset(reached), frozenset(dangerous)
    wrong = [index for index in reached | dangerous if not 0 <= index < count]
    if wrong:
        raise InputError(f"Point {wrong[0]} does not exist; this question has the points 0 to "
                         f"{count - 1}.")
    elapsed = None if record.started is None else float(clock) - record.started
    return replace(record, elapsed=elapsed, reached=reached - dangerous, dangerous=dangerous,
                   prompts=prompts)


def oral_result(records, candidate):
    """Return what a candidate's answers come to.

    A critical point missed or contradicted refers, whatever the score.

    Parameters
    ----------
    records : iterable of OralRecord
        Of one or both of a pair.
    candidate : str
        Whose result is wanted.

    Returns
    -------
    OralResult
        With the points not reached.

    Raises
    ------
    InputError
        No record of that candidate.
    """
    score = maximum = 0
    referred, missed, seconds = [], [], 0.0
    own = [record for record in records if record.candidate == candidate]
    if not own:
        raise InputError(f"There is no oral record of {candidate}.")
    for record in own:
        points = oral_questions()[record.question].points
        score, maximum = score + len(record.reached), maximum + len(points)
        seconds += record.elapsed or 0.0
        for index, point in enumerate(points):
            if index not in record.reached:
                (referred if point.critical else missed).append(point.text)
    outcome = REFERRED if referred else PASSED if score >= PASS_SHARE * maximum else FAILED
    return OralResult(outcome, score, maximum, tuple(referred), tuple(missed), seconds)


def record_rows(records):
    """Return records as plain rows, for a CSV or JSON file that opens without this tool."""
    return [{"question": record.question, "candidate": record.candidate,
             "examiner": record.examiner, "started_s": record.started,
             "elapsed_s": record.elapsed, "reached": sorted(record.reached),
             "dangerous": sorted(record.dangerous), "prompts": record.prompts}
            for record in records]
