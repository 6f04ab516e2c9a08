"""What a learner hands in from the practice panel, and the question that belongs to it again."""

import re

from ..errors import InputError
from .progress import OWN_WORK
from .variants import variant

VERSION = 1
SHEET = "practice"
"""Sheet part of the seed of everything that is asked in the lessons."""
_NUMBER = re.compile(r"[A-Za-z]{0,3}-?\d{1,10}")


def is_candidate_number(text):
    """Return whether a text is a candidate number: a name must not become part of a file name.

    Parameters
    ----------
    text : str
        As typed.

    Returns
    -------
    bool
        True for up to ten digits with up to three letters before them.

    Examples
    --------
    >>> is_candidate_number("E-1003"), is_candidate_number("Cadet Seven")
    (True, False)
    """
    return bool(_NUMBER.fullmatch(text))


def hand_in_document(candidate, progress):
    """Return what is handed in: the last answer to each question that was the learner's own work.

    Parameters
    ----------
    candidate : str
        Candidate number.
    progress : Progress
        All attempts.

    Returns
    -------
    dict
        What JSON can hold; answers and codes, no marks, for those are given anew.

    Raises
    ------
    InputError
        Not a candidate number, or no own work yet.

    Examples
    --------
    >>> from levelkit.exercises.progress import Attempt, Progress
    >>> one = Attempt("2026-03-12", "glass-reads-low", "1a2b-3c4d.0", 7, 7, (), {"height": "1 mm"})
    >>> hand_in_document("1003", Progress((one,)))["attempts"][0]["entries"]
    {'height': '1 mm'}
    """
    if not is_candidate_number(candidate):
        raise InputError(f"“{candidate[:24]}” is no candidate number. Type your number instead of "
                         "your name and fetch your question: a hand-in carries no name.")
    last = {one.family: one for one in progress.attempts if one.help in OWN_WORK}
    if not last:
        raise InputError("Nothing of your own is checked yet, so there is nothing to hand in. "
                         "Answer a question without the working and press Check.")
    return {"version": VERSION, "candidate": candidate, "attempts": [
        {"family": one.family, "code": one.code, "when": one.when, "help": one.help,
         "entries": dict(one.entries)} for one in last.values()]}


def practised_variant(family_id, code, candidate):
    """Return the question that a learner was asked in practice, made anew from its code.

    Parameters
    ----------
    family_id, code : str
        As handed in.
    candidate : str
        Candidate number.

    Returns
    -------
    Variant or None
        None where no question of this candidate has that code.

    Examples
    --------
    >>> code = variant("glass-reads-low", SHEET, "1003", place=2).code
    >>> practised_variant("glass-reads-low", code, "1003").place
    2
    >>> practised_variant("glass-reads-low", code, "1004") is None
    True
    """
    place = str(code).rpartition(".")[2]
    if not (place.isascii() and place.isdigit() and len(place) < 4):
        return None
    try:
        found = variant(family_id, SHEET, candidate.lower(), place=int(place))
    except InputError:
        return None
    return found if found.code == code else None
