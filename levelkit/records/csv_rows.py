"""CSV files as people hand them over: read line by line, so that one broken line costs one line."""

import csv
import io

from .faults import Fault

_SAVE_AS = "Save it again as CSV in UTF-8, separated by commas or semicolons."
LARGEST = 5_000_000


def read_rows(path):
    """Return heading and rows of a CSV file, and a fault for every line that cannot be read.

    Parameters
    ----------
    path : pathlib.Path
        The file: UTF-8, or as an older spreadsheet writes it; commas, semicolons or tabs.

    Returns
    -------
    head : list of str
        Cells of the first line; empty where there is none.
    rows : list of (int, str, dict of str to str)
        Line number, the line as it stands, and cells by heading.
    faults : list of Fault
        Everything else.
    """
    lines, fault = _lines(path)
    if fault:
        return [], [], [fault]
    head, rows, faults, delimiter = [], [], [], ","
    for number, line in enumerate(lines, 1):
        if not line.strip():
            continue
        if not head:
            delimiter = max(",;\t", key=line.count)
        cells, problem = _cells(line, delimiter)
        if problem:
            faults.append(Fault(path.name, number, problem, "Correct this line.", line))
        elif not head:
            head = [cell.strip() for cell in cells]
            twice = next((cell for cell in head if cell and head.count(cell) > 1), None)
            if twice is not None:
                return [], [], [Fault(path.name, number, f"The heading “{twice}” stands twice.",
                                      "Rename one of the columns.", line)]
        elif not any(cell.strip() for cell in cells):
            continue
        elif len(cells) != len(head):
            faults.append(Fault(path.name, number, _count(cells, head), _comma(delimiter), line))
        else:
            rows.append((number, line, dict(zip(head, (cell.strip() for cell in cells),
                                                strict=True))))
    return head, rows, faults


def _lines(path):
    try:
        if path.stat().st_size > LARGEST:
            return [], Fault(path.name, 0, "The file is larger than 5 MB.",
                             "Hand over the answers only.")
        raw = path.read_bytes()
    except OSError as problem:
        return [], Fault(path.name, 0, f"It cannot be read ({problem.strerror}).",
                         "Check the name, and close it in other programs.")
    if raw.startswith((b"PK\x03\x04", b"\xd0\xcf\x11\xe0", b"%PDF")):
        return [], Fault(path.name, 0, "This is no CSV file.", _SAVE_AS)
    if raw.startswith((b"\xff\xfe", b"\xfe\xff")):
        raw = raw.decode("utf-16", errors="replace").encode()
    raw = raw.removeprefix(b"\xef\xbb\xbf").replace(b"\r\n", b"\n").replace(b"\r", b"\n")
    return [_text(line) for line in raw.split(b"\n")], None


def _text(line):
    """A line as text: UTF-8, or else the usual code page of older spreadsheets."""
    try:
        return line.decode("utf-8")
    except UnicodeDecodeError:
        return line.decode("cp1252", errors="replace")


def _cells(line, delimiter):
    """The cells of one line, or what is wrong with it."""
    if "\0" in line or "\ufffd" in line:
        return [], "The line holds characters that are no text."
    try:
        return next(csv.reader([line], delimiter=delimiter, strict=True)), ""
    except (csv.Error, StopIteration):
        return [], "A quotation mark is opened and not closed."


def _count(cells, head):
    return f"The line has {len(cells)} cells; the heading has {len(head)}."


def _comma(delimiter):
    if delimiter == ",":
        return ("A decimal comma splits a number here: write a decimal point, or put the answer in "
                "quotation marks. Fill up missing cells.")
    return "Take out the extra separators or fill up the missing cells."


def csv_text(head, rows):
    """Return CSV text; a cell that a spreadsheet would run as a formula is made plain text.

    Parameters
    ----------
    head : sequence of str
        Headings, with units.
    rows : iterable of sequence
        Cells.

    Returns
    -------
    str
        UTF-8 text with a line feed at every end.

    Examples
    --------
    >>> print(csv_text(["answer"], [["=1+1"], ["-13.6 mm"]]), end="")
    answer
    '=1+1
    -13.6 mm
    """
    text = io.StringIO()
    writer = csv.writer(text, lineterminator="\n")
    writer.writerow(head)
    for row in rows:
        writer.writerow([_plain(cell) for cell in row])
    return text.getvalue()


def _plain(cell):
    text = "" if cell is None else str(cell)
    if text[:1] in ("=", "@", "\t", "\r") or (
            text[:1] in ("+", "-") and not text[1:].lstrip()[:1].isdigit()):
        return f"'{text}"
    return text
