"""Rows of data/check_values_dynamics.csv for the tests: expected value, tolerance, inputs."""

import csv
import json
from pathlib import Path

import pytest

FILE = Path(__file__).resolve().parent.parent / "data" / "check_values_dynamics.csv"


def _rows():
    with open(FILE, encoding="utf-8", newline="") as file:
        return {row["id"]: row for row in csv.DictReader(file)}


def compared(prefix, *others):
    """Parametrize a test over the rows whose id starts so; row and source stand in the test id."""
    rows = [row for name, row in _rows().items() if name.startswith((prefix, *others))]
    assert rows, f"no row of {FILE.name} starts with {prefix}"
    return pytest.mark.parametrize(
        "row", rows, ids=[f"{row['id']} [{row['source']}]" for row in rows])


def inputs(row):
    return json.loads(row["inputs"])


def near(row):
    """The expected value with the row's own tolerance, for ==."""
    kind, size = row["tolerance"].split()[:2]
    expected = float(row["expected"])
    if kind == "rel":
        return pytest.approx(expected, rel=float(size), abs=0)
    return pytest.approx(expected, rel=0, abs=float(size))
