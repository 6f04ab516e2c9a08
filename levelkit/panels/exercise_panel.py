"""An exercise with one's own numbers: answer, see which slip it was, help piece by piece."""

from html import escape

import ipywidgets as widgets

from ..exercises import mark, variant, worked_steps
from ..exercises.family import CHOICE
from .heading import Heading

HELP = (("hint", "Hint"), ("formula", "Formula"), ("working", "Working"))


class ExercisePanel(widgets.VBox):
    """One question of a family for one candidate. What was typed is never lost."""

    def __init__(self, family_id, candidate="your name", sheet="practice"):
        self._family_id, self._sheet = family_id, sheet
        self.candidate = widgets.Text(value=candidate, description="Name or number",
                                      style={"description_width": "initial"})
        self.fetch = widgets.Button(description="Give me my question")
        self.fetch.on_click(lambda _: self.ask())
        self.check = widgets.Button(description="Check my answers")
        self.check.on_click(lambda _: self._check())
        self.help = {}
        for name, label in HELP:
            self.help[name] = widgets.Button(description=label)
            self.help[name].on_click(lambda _, name=name: self._help(name))
        self._heading, self._text = Heading(), widgets.HTML()
        self._steps, self._said, self._helped = widgets.VBox(), widgets.HTML(), widgets.HTML()
        super().__init__([self._heading, _row(self.candidate, self.fetch), self._text, self._steps,
                          _row(self.check, *self.help.values()), self._said, self._helped])
        self.add_class("lk-panel")
        self.ask()

    def ask(self):
        """Fetch the question that belongs to the candidate."""
        self.question = variant(self._family_id, self._sheet, self.candidate.value.strip().lower())
        self.entries, self._verdicts, rows = {}, {}, []
        for step in self.question.steps:
            entry, verdict = _entry(step), widgets.HTML()
            self.entries[step.id], self._verdicts[step.id] = entry, verdict
            rows += [widgets.HTML(f"<b>{escape(step.ask)}</b> ({_marks(step.marks)})"), entry,
                     verdict]
        self._heading.text = self.question.family.title
        self._text.value = f"<div>{escape(self.question.text)}</div>"
        self._steps.children = rows
        self._said.value = self._helped.value = ""
        self.result = None
        self._unlock_help("hint")

    def _check(self):
        answers = {step: entry.value or "" for step, entry in self.entries.items()}
        self.result = mark(self.question, answers)
        for step in self.result.steps:
            if step.step in self._verdicts:
                sign = "\u2713" if step.marks == step.of else "\u2717"
                self._verdicts[step.step].value = (
                    f'<div role="status">{sign} {step.marks} of {step.of}: '
                    f"{escape(step.message)}</div>")
        self._said.value = (f'<div role="status"><b>{self.result.marks} of {self.result.maximum} '
                            "marks.</b></div>")

    def _help(self, name):
        """Show this much of every step, and unlock the next piece of help."""
        order = [key for key, _ in HELP]
        shown = order[:order.index(name) + 1]
        lines = []
        for step in worked_steps(self.question):
            pieces = [escape(getattr(step, key)) for key in shown if getattr(step, key)]
            if step.formula == step.working:
                pieces = list(dict.fromkeys(pieces))
            lines.append("<li>" + "<br>".join(pieces) + "</li>")
        self._helped.value = f"<ol>{''.join(lines)}</ol>"
        if name != order[-1]:
            self._unlock_help(order[order.index(name) + 1])

    def _unlock_help(self, name):
        """Help is opened in order: hint, then formula, then working."""
        order = [key for key, _ in HELP]
        for key, button in self.help.items():
            button.disabled = order.index(key) > order.index(name)


def _entry(step):
    """The field for one answer, named after what is asked."""
    if step.kind == CHOICE:
        return widgets.RadioButtons(options=[(text, key) for key, text in step.options],
                                    value=None, layout={"width": "auto"})
    unit = f" [{step.unit}]" if step.unit else ""
    words = f", and {' or '.join(step.direction)}" if step.direction else ""
    return widgets.Text(placeholder="number and unit", description=f"Answer{unit}{words}",
                        style={"description_width": "initial"}, layout={"width": "auto"})


def _marks(number):
    return f"{number} mark" if number == 1 else f"{number} marks"


def _row(*children):
    row = widgets.Box(list(children))
    row.add_class("lk-buttons")
    return row
