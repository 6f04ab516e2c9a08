"""Cards that ask: predict before reveal, and self-checks that answer per option."""

from html import escape

import ipywidgets as widgets

from .heading import Heading
from .lectern import lectern

CONFIDENCE = ("guessing", "fairly sure", "certain")


class _Card(widgets.VBox):
    """A question with its options and a line for what is said about it."""

    def __init__(self, question, options, children):
        self.options = widgets.RadioButtons(options=list(options), value=None,
                                            layout={"width": "auto"})
        self._said = widgets.HTML()
        super().__init__([
            Heading(text=question),
            self.options, *children, self._said, lectern(),
        ])
        self.add_class("lk-panel")

    def _say(self, sentence):
        self._said.value = f'<div role="status">{escape(sentence)}</div>' if sentence else ""

    @property
    def said(self):
        """The line last said, as markup."""
        return self._said.value


class Prediction(_Card):
    """Predict before reveal: choose, say how sure you are, lock; only then see.

    A panel handed over keeps its true level hidden until the prediction is locked.
    """

    def __init__(self, question, options, answer, why, panel=None):
        if answer not in options:
            raise ValueError(f"The answer {answer!r} is not among the options {list(options)}.")
        self._answer, self._why, self._panel = answer, why, panel
        self.confidence = widgets.Dropdown(options=CONFIDENCE, description="How sure are you?",
                                           style={"description_width": "initial"})
        self.lock = widgets.Button(description="Lock my prediction")
        self.reveal = widgets.Button(description="Reveal", disabled=True)
        self.lock.on_click(self._lock)
        self.reveal.on_click(self._reveal)
        row = widgets.Box([self.confidence, self.lock, self.reveal])
        row.add_class("lk-buttons")
        super().__init__(question, options, [row])
        if panel is not None:
            panel.truth.value = False
            panel.truth.disabled = True

    def _lock(self, _):
        if self.options.value is None:
            self._say("Choose one of the answers first, then lock it.")
            return
        for part in (self.options, self.confidence, self.lock):
            part.disabled = True
        self.reveal.disabled = False
        if self._panel is not None:
            self._panel.truth.disabled = False
        self._say(f"Locked: \u201c{self.options.value}\u201d, {self.confidence.value}. Now try it "
                  "in the panel, then press Reveal.")

    def _reveal(self, _):
        if self._panel is not None:
            self._panel.truth.value = True
        right = self.options.value == self._answer
        opening = "As you predicted" if right else f"Not so: \u201c{self._answer}\u201d"
        self._say(f"{opening}. {self._why}")


class SelfCheck(_Card):
    """A question whose every option has its own answer; try as often as you like."""

    def __init__(self, question, feedback, right):
        if right not in feedback:
            raise ValueError(f"The right option {right!r} is not among {list(feedback)}.")
        self._feedback, self._right = feedback, right
        self.check = widgets.Button(description="Check")
        self.check.on_click(self._check)
        row = widgets.Box([self.check])
        row.add_class("lk-buttons")
        super().__init__(question, feedback, [row])

    def _check(self, _):
        chosen = self.options.value
        if chosen is None:
            self._say("Choose one of the answers first.")
        else:
            opening = "Right." if chosen == self._right else "Not yet."
            self._say(f"{opening} {self._feedback[chosen]}")
