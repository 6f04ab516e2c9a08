"""The matrix of faults as a sheet for the wall or the folder: computed, then printed."""

from .. import __version__
from ..constants import CAUTION
from ..diagnosis.matrix import fault_matrix
from ..diagnosis.printed_matrix import sheet_data
from ..errors import InputError
from .sheet_file import PAGES
from .typesetting import compile_pdf


def matrix_pdf(boiler, barometer, page="A4", rows=None):
    """Return the fault matrix of a boiler as a PDF file.

    Parameters
    ----------
    boiler : Boiler [m, K]
        One of the ship's boilers.
    barometer : float [Pa]
        Pressure of the air.
    page : str
        "A4" or "Letter".
    rows : sequence of Row, optional [-]
        The matrix, if it has been computed already.

    Returns
    -------
    bytes
        The file, black on white.

    Raises
    ------
    InputError
        Another page.
    """
    if page not in PAGES:
        raise InputError(f"Page {page!r}; allowed are {' and '.join(PAGES)}. Choose one.")
    computed = fault_matrix(boiler, barometer) if rows is None else rows
    return compile_pdf("fault_matrix", sheet_data(computed) | {
        "page": PAGES[page], "boiler": f"{boiler.title} (invented)", "caution": CAUTION,
        "stamp": f"levelkit {__version__}"}, tagged=False)
