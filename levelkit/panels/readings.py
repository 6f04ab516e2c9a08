"""Recorded readings: a table in the panel, and a CSV file with units in its headings."""

import csv
import io
from html import escape

import ipywidgets as widgets

from .keeping import new_path, write_refused


class Readings:
    """Rows recorded from a panel. Nothing is overwritten: every saving makes a new file."""

    def __init__(self, panel):
        self.rows = []
        self._panel = panel
        self._table = widgets.HTML()
        self.view = self._table
        record = widgets.Button(description="Record reading")
        record.on_click(lambda _: self.record())
        save = widgets.Button(description="Save CSV")
        save.on_click(lambda _: self.save())
        self.buttons = (record, save)

    def record(self):
        """Add the panel's present state as a row."""
        if self._panel.result is not None:
            self.rows.append(self._panel.reading(self._panel.result, self._panel.values()))
            self._show()

    def text(self):
        """Return the rows as CSV text, decimal point, UTF-8."""
        file = io.StringIO(newline="")
        writer = csv.DictWriter(file, list(self.rows[0]))
        writer.writeheader()
        writer.writerows(self.rows)
        return file.getvalue()

    def save(self, folder="."):
        """Write the rows to a new file and say where it is; return its path."""
        if not self.rows:
            self._show("Nothing is recorded yet: press Record reading first.")
            return None
        stem = type(self._panel).__name__.removesuffix("Panel").lower()
        path = new_path(f"readings-{stem}", folder)
        try:
            path.write_text(self.text(), encoding="utf-8", newline="")
        except OSError as fault:
            self._show(write_refused(path, fault, "the readings are"))
            return None
        self._show(f"{len(self.rows)} readings are in {path}.")
        return path

    def _show(self, note=""):
        parts = [f"<div>{escape(note)}</div>"] if note else []
        if self.rows:
            heads = "".join(f"<th scope='col'>{escape(head)}</th>" for head in self.rows[0])
            lines = "".join("<tr>" + "".join(f"<td>{escape(str(cell))}</td>"
                                             for cell in row.values()) + "</tr>"
                            for row in self.rows[-6:])
            parts.append(f"<table class='lk-table'><tr>{heads}</tr>{lines}</table>")
            if len(self.rows) > 6:
                parts.append(f"<div>The last 6 of {len(self.rows)} readings.</div>")
        self._table.value = "".join(parts)


def format_plain(number, decimals):
    """A number for a CSV file: ASCII minus, decimal point."""
    return f"{number:.{decimals}f}"
