"""The class register: a CSV file, in whose order papers are printed and marks are listed."""

import csv
from dataclasses import dataclass

from ..errors import InputError
from ..exercises.hand_in import is_candidate_number

COLUMNS = ("number", "name", "large print", "extra time [%]")
_YES, _NO = ("yes", "y", "x", "1"), ("", "no", "n", "0")


@dataclass(frozen=True, slots=True)
class Candidate:
    """One line of the register.

    Attributes
    ----------
    number : str
        Candidate number: on every page, in every record, in file names.
    name : str
        Printed on the cover of the question paper only; may be empty.
    large_print : bool
        Wants the paper in larger type.
    extra_time : int [%]
        Time allowed beyond that of the class.
    """

    number: str
    name: str = ""
    large_print: bool = False
    extra_time: int = 0


def read_register(path):
    """Return the candidates of a register, in its order.

    Parameters
    ----------
    path : pathlib.Path
        CSV file with the column `number`, and `name`, `large print` (yes or no) and
        `extra time [%]` where wanted. Separated by commas or semicolons.

    Returns
    -------
    tuple of Candidate
        At least one.

    Raises
    ------
    InputError
        File, line and what to do.
    """
    rows = _Rows(path)
    header = [cell.strip().lower() for cell in next(rows, [])]
    if "number" not in header:
        raise InputError(f"{path.name}, line 1: there is no column “number”. The first line names "
                         f"the columns: {', '.join(COLUMNS)}; only the first is needed.")
    unknown = [cell for cell in header if cell and cell not in COLUMNS]
    if unknown:
        raise InputError(f"{path.name}, line 1: the column “{unknown[0]}” is unknown; columns are "
                         f"{', '.join(COLUMNS)}. Take it out or rename it.")
    found = {}
    for row in rows:
        if not any(cell.strip() for cell in row):
            continue
        place = f"{path.name}, line {rows.line_num}"
        cells = dict(zip(header, (cell.strip() for cell in row), strict=False))
        one = _candidate(cells, place)
        if one.number in found:
            raise InputError(f"{place}: candidate {one.number} stands twice. Give each candidate "
                             "a number of his or her own.")
        found[one.number] = one
    if not found:
        raise InputError(f"{path.name} holds no candidate. Add one line for each.")
    return tuple(found.values())


class _Rows:
    """Rows of a CSV file, with the line they end on; a cell without end is a sentence of ours."""

    def __init__(self, path):
        self.path = path
        self.reader = csv.reader(_text(path).splitlines(), delimiter=_delimiter(path))

    def __iter__(self):
        return self

    def __next__(self):
        try:
            return next(self.reader)
        except csv.Error as fault:
            raise InputError(f"{self.path.name}, line {self.line_num}: {fault}. A quotation mark "
                             "may be missing; correct that line.") from None

    @property
    def line_num(self):
        """The line read last."""
        return self.reader.line_num


def _text(path):
    try:
        return path.read_text(encoding="utf-8-sig")
    except OSError as fault:
        raise InputError(f"The register {path} cannot be read ({fault.strerror}). Name the class "
                         "list in the sheet file as register = \"file.csv\".") from None
    except UnicodeDecodeError:
        raise InputError(f"{path.name} is not UTF-8 text. Save the class list as CSV in "
                         "UTF-8.") from None


def _delimiter(path):
    first = _text(path).partition("\n")[0]
    return max(",;\t", key=first.count)


def _candidate(cells, place):
    number = cells.get("number", "")
    if not is_candidate_number(number):
        raise InputError(f"{place}: the candidate number is “{number[:24]}”; it has to be a number "
                         "of up to ten digits, with up to three letters before it. It becomes part "
                         "of file names, so a name must not stand there.")
    wish = cells.get("large print", "").lower()
    if wish not in _YES + _NO:
        raise InputError(f"{place}: large print is “{wish[:24]}”; write yes or leave it empty.")
    extra = cells.get("extra time [%]", "") or "0"
    if not (extra.isascii() and extra.isdigit() and int(extra) <= 200):
        raise InputError(f"{place}: extra time is “{extra[:24]}”; the allowed range is 0 to "
                         "200 %. Write a whole number.")
    return Candidate(number, cells.get("name", ""), wish in _YES, int(extra))
