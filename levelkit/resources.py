"""Where the lessons and the published values lie: in a checkout, or inside an installed wheel."""

from pathlib import Path

from .errors import LevelkitError

_PACKAGE = Path(__file__).resolve().parent


def shipped_folder(name, package=_PACKAGE):
    """Return a folder that levelkit ships: "lessons" or "data".

    Parameters
    ----------
    name : str
        Name of the folder.
    package : path [folder]
        Folder of the package; another one only in tests.

    Returns
    -------
    pathlib.Path [folder]
        The folder inside an installed package, or beside the package in a checkout.

    Raises
    ------
    LevelkitError
        It is in neither place.

    References
    ----------
    None: a place on the disk.

    Examples
    --------
    >>> (shipped_folder("data") / "sources.csv").is_file()
    True
    """
    installed = package / "_shipped" / name
    checkout = package.parent
    if installed.is_dir():
        return installed
    # Without pyproject.toml the neighbour is a stranger's folder in site-packages.
    if (checkout / "pyproject.toml").is_file() and (checkout / name).is_dir():
        return checkout / name
    raise LevelkitError(
        f"The folder {name} of levelkit is neither in {installed.parent} nor in {checkout}. "
        "Install levelkit again."
    )
