"""A quiz on the numbered parts of a drawing: name the part by its number."""

import random
from html import escape

import ipywidgets as widgets


class PartsQuiz(widgets.VBox):
    """Asks for one part after the other in a mixed order; every wrong answer has its own reply.

    `changed` is called whenever the drawing has to follow.
    """

    def __init__(self, changed):
        self._changed = changed
        self.answer = widgets.Dropdown(description="Name of the part",
                                       style={"description_width": "initial"})
        self.check = widgets.Button(description="Check the name")
        self.check.on_click(lambda _: self._check())
        self._said = widgets.HTML()
        row = widgets.Box([self.answer, self.check])
        row.add_class("lk-buttons")
        super().__init__([row, self._said])
        self.parts, self.named, self.slips, self._order = (), (), 0, ()

    def start(self, kind):
        """Begin with the parts of one type of gauge, none named yet."""
        self.parts = {part.name: part for part in kind.parts}
        self._numbers = {name: number for number, name in enumerate(self.parts, 1)}
        self._order = random.Random(kind.name).sample(sorted(self.parts), len(self.parts))
        self.named, self.slips = (), 0
        self.answer.options = [("choose a name", ""), *((name, name)
                                                          for name in sorted(self.parts))]
        self.answer.value = ""
        self._ask("")

    @property
    def asked(self):
        """Name of the part asked for; None when all are named."""
        return next((name for name in self._order if name not in self.named), None)

    @property
    def said(self):
        """The reply last given, as markup."""
        return self._said.value

    def _ask(self, reply):
        asked = self.asked
        self.check.disabled = self.answer.disabled = asked is None
        if asked is None:
            tail = f"All {len(self.parts)} parts are named, {_slips(self.slips)}."
        else:
            self.answer.description = f"Number {self._numbers[asked]} is the"
            tail = f"{len(self.named)} of {len(self.parts)} named, {_slips(self.slips)}."
        self._said.value = f'<div role="status">{escape(reply)} {tail}</div>'

    def _check(self):
        chosen, asked = self.answer.value, self.asked
        if not chosen:
            self._ask("Choose a name first.")
        elif chosen == asked:
            self.named = (*self.named, asked)
            self._ask(f"Right: {self._numbers[asked]} is the {asked}: "
                      f"{self.parts[asked].purpose}.")
            self.answer.value = ""
            self._changed()
        else:
            self.slips += 1
            self._ask(f"Not the {chosen}: that is number {self._numbers[chosen]} "
                      f"({self.parts[chosen].purpose}). Number {self._numbers[asked]} has another "
                      f"task: {self.parts[asked].purpose}.")


def _slips(count):
    return f"{count} slip" if count == 1 else f"{count} slips"
