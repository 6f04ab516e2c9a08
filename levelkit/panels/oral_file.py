"""The oral records of one session in one CSV file: whole on the disk after every record."""

import csv
import io
from datetime import datetime

from ..exercises.oral import oral_questions
from ..exercises.oral_record import record_rows
from ..exercises.storage import write_text
from .keeping import new_path, write_refused


class OralFile:
    """Begins a file of its own at the first record; no other file is touched."""

    def __init__(self, folder):
        self._folder, self.path, self._rows = folder, None, []

    def add(self, record):
        """Write one more record; return the sentence that says where, or why not."""
        self._rows.append(_row(record))
        if self.path is None:
            self.path = new_path("oral", self._folder)
        try:
            write_text(self.path, self.text())
        except OSError as fault:
            failed, self.path = self.path, None
            return write_refused(failed, fault, "the records are")
        return f"Recorded in {self.path}."

    def text(self):
        """Return the records as CSV text."""
        file = io.StringIO(newline="")
        writer = csv.DictWriter(file, list(self._rows[0]))
        writer.writeheader()
        writer.writerows(self._rows)
        return file.getvalue()


def _row(record):
    """A record for people: points counted from 1, and those not reached in words."""
    points = oral_questions()[record.question].points
    row = record_rows([record])[0]
    del row["started_s"]
    not_reached = [point.text for index, point in enumerate(points) if index not in record.reached]
    return {
        "when": datetime.fromtimestamp(record.started).isoformat(timespec="seconds"),
        **row,
        "elapsed_s": f"{record.elapsed:.1f}",
        "reached": " ".join(str(index + 1) for index in row["reached"]),
        "dangerous": " ".join(str(index + 1) for index in row["dangerous"]),
        "points": len(points),
        "refers": "yes" if any(points[index].critical and index not in record.reached
                               for index in range(len(points))) else "no",
        "not_reached": "; ".join(not_reached),
    }
