"""Published and hand-worked values, read from the files of check values in `data/`."""

import csv
import json
from dataclasses import dataclass

from ..resources import shipped_folder


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

    def agrees(self, computed):
        """True if a computed value is within the tolerance; never for NaN."""
        return abs(computed - self.expected) <= self.allowed


def check_values(file_name):
    """Return the rows of a file of check values, by id."""
    path = shipped_folder("data") / file_name
    with open(path, encoding="utf-8", newline="") as file:
        rows = [{**row, "inputs": json.loads(row["inputs"]), "expected": float(row["expected"])}
                for row in csv.DictReader(file)]
    return {row["id"]: CheckValue(**row) for row in rows}


def documents():
    """Return the title of every source document, by id."""
    with open(shipped_folder("data") / "sources.csv", encoding="utf-8", newline="") as file:
        return {row["id"]: row["document"] for row in csv.DictReader(file)}
