"""A drill on the order of steps: press what comes next; a wrong press is answered with a reason."""

import random
from html import escape

import ipywidgets as widgets

from ..constants import CAUTION
from .heading import Heading


class OrderDrill(widgets.VBox):
    """Steps in a mixed order, to be pressed in the right one. Starts again as often as wanted."""

    def __init__(self, question, steps):
        self._steps, self.slips = tuple(steps), 0
        self._done = 0
        self.buttons = {}
        for step in random.Random(question).sample(self._steps, len(self._steps)):
            button = widgets.Button(description=step.action)
            button.on_click(lambda _, step=step: self.press(step.action))
            self.buttons[step.action] = button
        again = widgets.Button(description="Start again")
        again.on_click(lambda _: self.restart())
        self._said, self._list = widgets.HTML(), widgets.HTML()
        row = widgets.Box([*self.buttons.values(), again])
        row.add_class("lk-buttons")
        super().__init__([Heading(text=question), row, self._said, self._list])
        self.add_class("lk-panel")
        self.restart()

    def restart(self):
        """Begin with no step done."""
        self._done = self.slips = 0
        for button in self.buttons.values():
            button.disabled = False
        self._show("Which step comes first?")

    def press(self, action):
        """Take one step as the next one."""
        if self._done == len(self._steps):
            return
        wanted = self._steps[self._done]
        if action != wanted.action:
            self.slips += 1
            self._show(f"Not yet: {action}. Another step comes before it; think of this: "
                       f"{wanted.reason}.")
            return
        self.buttons[action].disabled = True
        self._done += 1
        if self._done < len(self._steps):
            self._show(f"Yes, because {wanted.reason}. What comes next?")
        else:
            slips = "1 slip" if self.slips == 1 else f"{self.slips} slips"
            self._show(f"Yes, because {wanted.reason}. All {self._done} steps done, {slips}.")

    @property
    def said(self):
        """The line last said, as markup."""
        return self._said.value

    def _show(self, sentence):
        self._said.value = f'<div role="status">{escape(sentence)}</div>'
        rows = "".join(f"<li>{escape(step.action)} <i>({escape(step.source)})</i></li>"
                       for step in self._steps[:self._done])
        self._list.value = (f"<ol>{rows}</ol>" if rows else "") + (
            f'<div class="lk-caution">{CAUTION}</div>')
