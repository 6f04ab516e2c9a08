"""The lecturer's switch: a whole lesson in large type, step by step, with clock and notes apart.

It comes with the first panel or card of a lesson, so no notebook holds a line for it. The steps
are the page's own work; the kernel makes the drawings large and reads the notes.
"""

import re
from functools import cache
from pathlib import Path

import anywidget
import traitlets

from ..resources import shipped_folder

_HERE = Path(__file__).parent
_PLANNED = re.compile(r"^(\d+) minutes", re.M)


class Lectern(anywidget.AnyWidget):
    """Presentation of the notebook that shows it.

    Attributes
    ----------
    presenting : bool
        Whether the lesson is being presented; panels follow with their projector size.
    notes : dict
        "lesson" (its two digits), "page" (the lecturer's notes as HTML) and "minutes" planned.
    """

    _esm = _HERE / "lectern.js"
    _css = _HERE / "lectern.css"

    presenting = traitlets.Bool(False).tag(sync=True)
    notes = traitlets.Dict().tag(sync=True)

    def __init__(self):
        super().__init__()
        self.on_msg(self._asked)

    def _asked(self, _, content, __):
        """Answer the page, which knows from its title what lesson it is."""
        number = str(content.get("lesson", ""))
        if re.fullmatch(r"\d\d", number):
            self.notes = notes_of(number)


@cache
def lectern():
    """Return the one lectern of this kernel."""
    return Lectern()


def notes_of(number, folder="."):
    """Return the notes of a lesson: the lecturer's own copy beside the notebook, or as shipped."""
    found = _notes_file(number, Path(folder))
    if found is None:
        return {"lesson": number, "minutes": 0,
                "page": "<p>There are no notes for this lesson.</p>"}
    import mistune

    text = found.read_text(encoding="utf-8")
    planned = _PLANNED.search(text)
    return {"lesson": number, "minutes": int(planned[1]) if planned else 0,
            "page": mistune.create_markdown(escape=True, plugins=["table"])(text)}


def _notes_file(number, folder):
    places = folder / "notes", shipped_folder("lessons") / "notes"
    return next((file for place in places for file in sorted(place.glob(f"{number}_*.md"))), None)
