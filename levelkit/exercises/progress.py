"""What a learner has done: a plain JSON file beside the notebook, and what to try next."""

import csv
import io
from dataclasses import asdict, dataclass, fields

from ..errors import InputError
from .bank import families
from .misconceptions import misconception
from .storage import read_json, write_json

VERSION = 1
NO_HELP, HINT, FORMULA, WORKING, PARTLY_WORKED = "", "hint", "formula", "working", "partly worked"
OWN_WORK = {NO_HELP, HINT, FORMULA}
CURED_AFTER = 2  # right answers in a row to questions in which the slip could have been made


@dataclass(frozen=True, slots=True)
class Attempt:
    """One marked question.

    Attributes
    ----------
    when : str
        Date and time as the caller gives them, ISO 8601.
    family, code : str
        Question family and code of the variant.
    marks, maximum : int
        Marks earned and to be had.
    misconceptions : tuple of str
        Codes of the slips that were made.
    entries : dict of str to str
        What was typed, by step.
    help : str
        The most help that was open: "", "hint", "formula", "working" or "partly worked".
    """

    when: str
    family: str
    code: str
    marks: int
    maximum: int
    misconceptions: tuple
    entries: dict
    help: str = NO_HELP


@dataclass(frozen=True, slots=True)
class Progress:
    """All attempts of a learner, oldest first.

    Attributes
    ----------
    attempts : tuple of Attempt
        Oldest first.
    note : str
        A sentence where the file had to be recovered, else empty.
    """

    attempts: tuple = ()
    note: str = ""

    def with_attempt(self, variant, result, entries, when, help=NO_HELP):
        """Return the progress with one more marked question."""
        attempt = Attempt(str(when), variant.family.id, variant.code, result.marks,
                          result.maximum, result.misconceptions,
                          {step: str(text) for step, text in entries.items()}, help)
        return Progress((*self.attempts, attempt), self.note)

    def joined(self, own):
        """Return this progress with the attempts of another one that it does not hold.

        Two notebooks of one learner write one file: neither takes the other's work away.
        """
        more = (attempt for attempt in own.attempts if attempt not in self.attempts)
        return Progress((*self.attempts, *more), self.note)

    def codes(self, family_id):
        """Return the codes of the variants of a family that were tried."""
        return {attempt.code for attempt in self.attempts if attempt.family == family_id}


@dataclass(frozen=True, slots=True)
class NextQuestion:
    """What to try next.

    Attributes
    ----------
    family_id, reason : str
        Question family; a sentence for the learner.
    """

    family_id: str
    reason: str


def load_progress(path):
    """Return the progress kept in a file; an absent file is an empty progress.

    Parameters
    ----------
    path : str or pathlib.Path
        The JSON file.

    Returns
    -------
    Progress
        With a note where the file was not whole and the backup was taken.
    """
    found = read_json(path)
    document, note = found.document, found.note
    rows = document.get("attempts") if isinstance(document, dict) else None
    rows = rows if isinstance(rows, list) else []
    attempts, dropped = [], 0
    for row in rows:
        try:
            attempts.append(Attempt(**{**row, "misconceptions": tuple(row["misconceptions"])}))
        except (TypeError, KeyError):
            dropped += 1
    if dropped:
        note = f"{note} {dropped} entries of the file could not be read.".strip()
    return Progress(tuple(attempts), note)


def save_progress(path, progress):
    """Write the progress to its file; the state before it stays as a backup.

    Parameters
    ----------
    path : str or pathlib.Path
        The JSON file.
    progress : Progress
        What to keep.
    """
    write_json(path, {"version": VERSION,
                      "attempts": [asdict(attempt) for attempt in progress.attempts]})


def progress_csv(progress):
    """Return the attempts as CSV text, one line each, to hand in or to keep.

    Parameters
    ----------
    progress : Progress
        What to write.

    Returns
    -------
    str
        With a header line.
    """
    text = io.StringIO()
    writer = csv.writer(text, lineterminator="\n")
    writer.writerow([field.name for field in fields(Attempt)])
    for attempt in progress.attempts:
        writer.writerow([attempt.when, attempt.family, attempt.code, attempt.marks,
                         attempt.maximum, " ".join(attempt.misconceptions),
                         "; ".join(f"{step}: {entry}" for step, entry in attempt.entries.items()),
                         attempt.help])
    return text.getvalue()


def weak_misconceptions(progress):
    """Return the misunderstandings that a learner still has, the weakest first.

    A slip counts until two questions in a row in which it could have been made were answered
    without it, at the first try and without reading the working; the more often and the later
    it was made, the weaker.

    Parameters
    ----------
    progress : Progress
        The attempts.

    Returns
    -------
    tuple of str
        Codes.
    """
    bank = families()
    made, clean, last, seen = {}, {}, {}, set()
    for index, attempt in enumerate(progress.attempts):
        for code in attempt.misconceptions:
            made[code] = made.get(code, 0) + 1
            clean[code], last[code] = 0, index
        question = (attempt.family, attempt.code)
        own = question not in seen and attempt.help in OWN_WORK
        seen.add(question)
        if own and attempt.family in bank and attempt.marks == attempt.maximum:
            for code in bank[attempt.family].misconceptions:
                clean[code] = clean.get(code, 0) + 1
    weak = [code for code in made if clean[code] < CURED_AFTER]
    return tuple(sorted(weak, key=lambda code: (-made[code], -last[code], code)))


def next_family(progress, topic=""):
    """Return the question family to try next, and why.

    Parameters
    ----------
    progress : Progress
        The attempts so far.
    topic : str
        Keep to this topic; empty for all.

    Returns
    -------
    NextQuestion
        The family, and a sentence for the learner.

    Raises
    ------
    InputError
        A topic that the bank does not have.
    """
    choice = [one for one in families().values() if topic in ("", one.topic)]
    if not choice:
        raise InputError(f"There is no topic “{topic}”; topics are "
                         f"{', '.join(dict.fromkeys(one.topic for one in families().values()))}.")
    tried = {}
    for index, attempt in enumerate(progress.attempts):
        tried[attempt.family] = index + 1
    for code in weak_misconceptions(progress):
        can_cure = [one for one in choice if code in one.misconceptions]
        if can_cure:
            best = min(can_cure, key=lambda one: (tried.get(one.id, 0), one.difficulty, one.id))
            known = misconception(code)
            return NextQuestion(best.id, f"It tries again what went wrong before: “{known.title}” "
                                         f"({code}). Lesson {known.lesson} shows why not.")
    untried = [one for one in choice if one.id not in tried]
    if untried:
        return NextQuestion(untried[0].id,
                            "It is the next question that you have not tried.")
    oldest = min(choice, key=lambda one: (tried[one.id], one.id))
    return NextQuestion(oldest.id,
                        "You have tried all; this is the one that you saw longest ago.")
