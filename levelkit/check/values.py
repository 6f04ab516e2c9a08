"""Published and hand-worked values, and known discrepancies, read from the files in `data/`."""

import csv
import json
from dataclasses import dataclass

from ..resources import shipped_folder

PUBLISHED, WORKED, DISCREPANCIES = (
    "check_values.csv", "worked_examples.csv", "discrepancies.csv")


@dataclass(frozen=True, slots=True)
class CheckValue:
    """One row of a file of check values; `data/README.md` explains the columns."""

    id: str
    topic: str
    quantity: str
    inputs: dict
    expected: float
    unit: str
    tolerance: str
    source: str
    where_in_source: str
    seen_or_memory: str
    recomputed: str

    @property
    def allowed(self):
        """How far a computed value may be off, in the unit of the row."""
        kind, number = self.tolerance.split()[:2]
        return {"rel": abs(self.expected), "abs": 1.0}[kind] * float(number)

    @property
    def known(self):
        """How the expected value is known: "seen", "from memory" or "computed" elsewhere."""
        first = self.seen_or_memory.split()[0].strip(":;")
        return "from memory" if first == "from" else first

    @property
    def evidence(self):
        """What an independent script found, in one word: "REPRODUCED", "SELF-CONSISTENT", ..."""
        first = self.recomputed.split()[0].strip(":;,")
        return first if first.isupper() else "-"

    def agrees(self, computed):
        """True if a computed value is within the tolerance; never for NaN."""
        return abs(computed - self.expected) <= self.allowed


@dataclass(frozen=True, slots=True)
class Discrepancy:
    """A published value that differs from ours, and why."""

    value: CheckValue
    at_most: float
    explanation: str

    def stands(self, computed):
        """True while ours differs by more than the rounding and by no more than is explained."""
        return self.value.allowed < abs(computed - self.value.expected) <= self.at_most


def check_values():
    """Return the published and the worked values, by id."""
    rows = [*_rows(PUBLISHED), *_rows(WORKED)]
    return {row["id"]: _value(row) for row in rows}


def discrepancies():
    """Return the known discrepancies between us and a source, by id."""
    return {row["id"]: Discrepancy(_value(row), float(row["at_most"]), row["explanation"])
            for row in _rows(DISCREPANCIES)}


def documents():
    """Return the title of every source document, by id."""
    return {row["id"]: row["document"] for row in _rows("sources.csv")}


def _rows(file_name):
    with open(shipped_folder("data") / file_name, encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def _value(row):
    row = row | {"inputs": json.loads(row["inputs"]), "expected": float(row["expected"])}
    return CheckValue(**{name: row[name] for name in CheckValue.__slots__})
