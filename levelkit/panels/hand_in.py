"""The hand-in of a learner, written for the lecturer beside the notebook."""

from pathlib import Path

from ..errors import InputError
from ..exercises.hand_in import hand_in_document
from ..exercises.storage import write_json
from .keeping import write_refused


def save_hand_in(candidate, progress, folder):
    """Write the hand-in at one stroke and return the sentence about it."""
    try:
        document = hand_in_document(candidate, progress)
    except InputError as fault:
        return str(fault)
    path = Path(folder) / f"hand-in-{candidate}.json"
    try:
        write_json(path, document)
    except OSError as fault:
        return write_refused(path, fault, "your progress is")
    count = len(document["attempts"])
    return (f"Your last own answer to {count} question{'s' if count != 1 else ''} is in {path}. "
            "Hand this file to your lecturer.")
