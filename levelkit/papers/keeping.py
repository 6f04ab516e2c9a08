"""Writing files so that nothing is lost: what stood there before goes to a dated copy."""

import os
from pathlib import Path
from tempfile import mkstemp

from ..errors import InputError

EARLIER = "earlier"


def write_kept(path, content, when):
    """Write a file; a different one that stood there is kept as a dated copy.

    Parameters
    ----------
    path : pathlib.Path
        The file; its folder is made if it is not there.
    content : str or bytes
        Text is written as UTF-8.
    when : datetime.datetime
        Date and time for the name of the copy.

    Returns
    -------
    str
        A sentence where something was kept, else empty.

    Raises
    ------
    InputError
        A folder that cannot be written.
    """
    path = Path(path)
    new = content.encode("utf-8") if isinstance(content, str) else content
    try:
        if path.exists():
            if path.read_bytes() == new:
                return ""
            copy = _copy_name(path, when)
            copy.parent.mkdir(exist_ok=True)
            _write(copy, path.read_bytes())
            _write(path, new)
            return f"{path.name} is renewed; the one before is kept as {EARLIER}/{copy.name}."
        path.parent.mkdir(parents=True, exist_ok=True)
        _write(path, new)
    except OSError as fault:
        raise InputError(f"{path} cannot be written ({fault.strerror}). Close it in other "
                         "programs, or choose a folder that you may write to.") from None
    return ""


def _copy_name(path, when):
    """The first free name for a dated copy."""
    stem, number = f"{path.stem} {when:%Y-%m-%d %H-%M-%S}", 1
    copy = path.parent / EARLIER / f"{stem}{path.suffix}"
    while copy.exists():
        number += 1
        copy = copy.with_name(f"{stem} ({number}){path.suffix}")
    return copy


def _write(path, content):
    """Write aside and put in place at one stroke: a full disk must not leave half a file."""
    handle, aside = mkstemp(prefix=f"{path.name}.", suffix=".part", dir=path.parent)
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(content)
        os.replace(aside, path)
    except BaseException:
        Path(aside).unlink(missing_ok=True)
        raise
