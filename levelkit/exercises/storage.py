"""Plain files that a crash cannot lose: written aside, then put in place at one stroke."""

import json
import os
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path


@dataclass(frozen=True, slots=True)
class ReadResult:
    """What a file held.

    Attributes
    ----------
    document : dict, list or None
        None where neither file nor backup can be read.
    note : str
        Empty where all is well, else a sentence for the person.
    """

    document: object
    note: str = ""


def backup_of(path):
    """Return where the last but one state of a file is kept."""
    path = Path(path)
    return path.with_name(path.name + ".bak")


def write_json(path, document):
    """Write a document as readable JSON; the old state stays beside it as a backup.

    At every moment the file is there and whole, old or new; the backup is for what others do
    to the file: a synchroniser that cuts it off, a disk that fails.

    Parameters
    ----------
    path : str or pathlib.Path
        The file.
    document : dict or list
        What JSON can hold.
    """
    path = Path(path)
    text = json.dumps(document, ensure_ascii=False, indent=1, allow_nan=False) + "\n"
    path.parent.mkdir(parents=True, exist_ok=True)
    if _read_or_none(path) is not None:
        write_text(backup_of(path), path.read_text(encoding="utf-8"))
    write_text(path, text)


def write_text(path, text):
    """Write a text so that at every moment the old or the new one is there, whole.

    Parameters
    ----------
    path : str or pathlib.Path
        The file, in a folder that exists.
    text : str
        What it is to hold; line ends are kept as they are.
    """
    path = Path(path)
    aside = path.with_name(f"{path.name}.{os.getpid()}.new")
    try:
        with open(aside, "w", encoding="utf-8", newline="") as file:
            file.write(text)
            file.flush()
            os.fsync(file.fileno())
        os.replace(aside, path)
    except BaseException:
        with suppress(OSError):
            os.unlink(aside)
        raise


def read_json(path):
    """Return a document, from the backup where the file is not whole.

    A file that cannot be read is kept beside the new one, never deleted.

    Parameters
    ----------
    path : str or pathlib.Path
        The file.

    Returns
    -------
    ReadResult
        The document, and a note where all was not well.
    """
    path = Path(path)
    document = _read_or_none(path)
    if document is not None:
        return ReadResult(document)
    broken = path.exists()
    kept = _keep_aside(path) if broken else None
    document = _read_or_none(backup_of(path))
    if document is not None:
        what = f"was not whole (kept as {kept.name})" if broken else "was missing"
        return ReadResult(document, f"{path.name} {what}; the state before the last entry was "
                                    f"taken from {backup_of(path).name}.")
    if broken:
        return ReadResult(None, f"{path.name} cannot be read (kept as {kept.name}) and there is "
                                "no backup; a new file is begun.")
    return ReadResult(None)


def _read_or_none(path):
    try:
        return json.loads(Path(path).read_text(encoding="utf-8"))
    except (OSError, ValueError, RecursionError):  # missing, not text, not JSON, half-written
        return None


def _keep_aside(path):
    """Move a file that cannot be read to the first free name beside it."""
    number = 1
    while (aside := path.with_name(f"{path.name}.unreadable-{number}")).exists():
        number += 1
    os.replace(path, aside)
    return aside
