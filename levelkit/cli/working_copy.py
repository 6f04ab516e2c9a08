"""A copy of the lessons in the user's own folder that never loses what the user wrote.

A small file in the folder remembers what was delivered. A lesson that still equals what
was delivered may be replaced; any other belongs to the user.
"""

import hashlib
import json
from pathlib import Path

from ..errors import LevelkitError

RECORD = ".levelkit.json"


def refresh_working_copy(source, folder, version):
    """Bring a working copy up to date and return one sentence for each thing that happened.

    Parameters
    ----------
    source : pathlib.Path
        The lessons as shipped.
    folder : pathlib.Path
        The user's folder; made if it is not there.
    version : str
        Version of levelkit, for the name of a new lesson laid beside an edited one.

    Returns
    -------
    list of str
        What was copied, renewed, kept or laid beside; nothing for an unchanged file.

    Raises
    ------
    LevelkitError
        The folder or a file in it cannot be read or written.
    """
    try:
        folder.mkdir(parents=True, exist_ok=True)
        delivered = _read_record(folder / RECORD)
        sentences, copied = [], 0
        for path in shipped_files(source):
            name = path.relative_to(source).as_posix()
            sentence = _refresh(path, folder / name, delivered.get(name), version)
            delivered[name] = _digest(path.read_bytes())
            copied += sentence == ""
            sentences += [sentence] if sentence else []
        _write(folder / RECORD, (json.dumps(delivered, indent=1) + "\n").encode())
    except OSError as fault:
        raise LevelkitError(
            f"The folder {folder} cannot be used: {fault.strerror or fault}. Name a folder that "
            "you may write: levelkit open FOLDER."
        ) from None
    return ([f"{copied} new files copied."] if copied else []) + sentences


def shipped_files(source):
    """Return the files to copy, without what editors and kernels leave behind."""
    return sorted(path for path in source.rglob("*") if path.is_file() and not any(
        part.startswith((".", "__")) for part in path.relative_to(source).parts))


def _refresh(shipped, own, last_delivered, version):
    """Copy, renew, keep or lay beside; None if nothing happened, "" for a plain copy."""
    new = shipped.read_bytes()
    if not own.exists():
        _write(own, new)
        return ""
    mine = own.read_bytes()
    if mine == new:
        return None
    if _digest(mine) == last_delivered:
        _write(own, new)
        return f"{own.name} was unchanged by you and is renewed."
    if _digest(new) == last_delivered:
        return None
    beside = _free_name(own, new, version)
    _write(beside, new)
    return f"{own.name} was changed by you and is kept; the new one lies beside it: {beside.name}."


def _free_name(own, new, version):
    """A name beside a file that overwrites nothing of the user's."""
    number = 1
    while True:
        mark = f"levelkit {version}" + (f", {number}" if number > 1 else "")
        beside = own.with_name(f"{own.stem} ({mark}){own.suffix}")
        if not beside.exists() or beside.read_bytes() == new:
            return beside
        number += 1


def _read_record(path):
    """What was delivered last, by name; empty if unknown, so that every file counts as edited."""
    if not path.exists():
        return {}
    try:
        record = json.loads(path.read_text(encoding="utf-8"))
    except (ValueError, RecursionError):
        return {}
    return record if isinstance(record, dict) else {}


def _write(path, content):
    """Write a whole file or nothing: a full disk must not leave half a lesson."""
    path.parent.mkdir(parents=True, exist_ok=True)
    part = Path(f"{path}.part")
    part.write_bytes(content)
    part.replace(path)


def _digest(content):
    return hashlib.sha256(content).hexdigest()
