"""Reading the words of the catalogue and joining each with its function."""

import tomllib
from importlib.resources import files

from ..errors import ScenarioError
from .fault import KINDS, Effect, Fault


def read_faults(file_name, changes):
    """Return the faults of a file, each joined with the function of its key.

    Parameters
    ----------
    file_name : str
        Name of a file in this package.
    changes : mapping of str to callable [-]
        Key to the function from healthy to faulty state.

    Returns
    -------
    tuple of Fault [-]
        In the order of the file.

    Raises
    ------
    ScenarioError
        A key without function or a function without key, or an effect that does not exist.

    References
    ----------
    None: reading of a file, not a formula.

    Examples
    --------
    >>> from levelkit.faults.remote_changes import CHANGES
    >>> read_faults("remote_faults.toml", CHANGES)[0].key
    'cold-drum'
    """
    try:
        text = files(__package__).joinpath(file_name).read_text(encoding="utf-8")
    except (OSError, TypeError, ValueError) as fault:
        raise ScenarioError(f"{file_name!r} is no file of faults of this package. "
                            "Give the name of one, such as remote_faults.toml.") from fault
    rows = tomllib.loads(text)["fault"]
    written, programmed = {row["key"] for row in rows}, set(changes)
    if written != programmed:
        raise ScenarioError(f"{file_name}: only in one of file and program: "
                            f"{', '.join(sorted(written ^ programmed))}. Give each key both.")
    return tuple(_fault(file_name, row, changes[row["key"]]) for row in rows)


def _fault(file_name, row, change):
    effects = {}
    for instrument, words in row["effects"].items():
        unknown = set(words.values()) - set(KINDS)
        if unknown:
            raise ScenarioError(f"{file_name}: {row['key']}: no effect is called "
                                f"{', '.join(sorted(unknown))}. Choose from: {', '.join(KINDS)}.")
        effects[instrument] = Effect(**words)
    return Fault(row["number"], row["key"], row["name"], row["cause"], effects, row["alarms"],
                 row["safe_action"], tuple(row["hides_low_water"]), change,
                 row.get("watch", 0.0), row.get("moves_level", False))
