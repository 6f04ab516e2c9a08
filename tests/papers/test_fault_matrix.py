"""The fault matrix as a printed sheet: one page of matrix, one of differences, A4 and Letter."""

import io
import re

import pytest
from pypdf import PdfReader

from levelkit.cli import main
from levelkit.constants import CAUTION
from levelkit.diagnosis.alarm_column import alarm_words
from levelkit.diagnosis.matrix import COLUMNS, Cell, Row
from levelkit.errors import InputError
from levelkit.faults import FAULTS
from levelkit.faults.fault import HIGH, UNAFFECTED
from levelkit.papers.fault_matrix import matrix_pdf
from levelkit.scenario import load_ship

SHIP = load_ship()
BOILER = SHIP.boilers["water_tube"]
SIZES = {"A4": (842, 595), "Letter": (792, 612)}


@pytest.fixture(scope="module")
def rows():
    """All 45 rows with the longest words of alarms; the cells as if nothing but one were high."""
    cell, high = (Cell(word, UNAFFECTED, 0.0, 0.0) for word in (UNAFFECTED, HIGH))
    return tuple(Row(fault.number, fault.key, fault.name,
                     {column: (cell,) * 5 + (high,) for column in COLUMNS}, (COLUMNS[0],),
                     alarm_words(BOILER, SHIP.barometer, fault.key)) for fault in FAULTS)


@pytest.mark.parametrize("page", SIZES)
def test_the_sheet_is_two_pages_and_holds_every_row_and_reason(rows, page):
    pdf = PdfReader(io.BytesIO(matrix_pdf(BOILER, SHIP.barometer, page, rows)))
    assert len(pdf.pages) == 2
    box = pdf.pages[0].mediabox
    assert (round(box.width), round(box.height)) == SIZES[page]
    first, second = (re.sub(r"\s+", " ", one.extract_text()) for one in pdf.pages)
    assert all(fault.name in first for fault in FAULTS)
    assert "trip blind" in first and "invented" in first
    assert "half the current is low water" in second
    assert CAUTION in first and CAUTION in second


def test_the_sheet_is_black_grey_and_white(rows):
    pdf = PdfReader(io.BytesIO(matrix_pdf(BOILER, SHIP.barometer, "A4", rows)))
    for page in pdf.pages:
        colours = re.findall(rb"([\d.]+) ([\d.]+) ([\d.]+) (?:rg|RG|sc|SC|scn|SCN)\b",
                             page.get_contents().get_data())
        assert all(len(set(colour)) == 1 for colour in colours)


def test_one_command_prints_it(monkeypatch, tmp_path, capsys, rows):
    monkeypatch.setattr("levelkit.papers.fault_matrix.fault_matrix", lambda *_: rows)
    target = tmp_path / "matrix.pdf"
    assert main(["matrix", "--page", "Letter", "--output", str(target)]) in (0, None)
    assert target.read_bytes().startswith(b"%PDF") and str(target) in capsys.readouterr().out


def test_another_page_is_refused(rows):
    with pytest.raises(InputError, match="allowed are A4 and Letter"):
        matrix_pdf(BOILER, SHIP.barometer, "A3", rows)
