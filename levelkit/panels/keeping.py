"""Files beside the notebook: new ones only, with names made of what a person typed."""

from pathlib import Path


def new_path(stem, folder="."):
    """Return the first free path among stem-1.csv, stem-2.csv, ...: nothing is overwritten."""
    number = 1
    while (path := Path(folder) / f"{stem}-{number}.csv").exists():
        number += 1
    return path


def file_stem(name):
    """Return a name as it may stand in the name of a file on every system.

    >>> file_stem(" Cadet 7/b ")
    'cadet-7-b'
    """
    words = "".join(sign if sign.isalnum() else " " for sign in name.lower()).split()
    return "-".join(words)[:60] or "no-name"


def write_refused(path, fault, kept):
    """Return the sentence for a file that could not be written; `kept` is what is still here."""
    return (f"{path} could not be written ({fault.strerror}); {kept} still here. Choose a folder "
            "that you may write to.")
