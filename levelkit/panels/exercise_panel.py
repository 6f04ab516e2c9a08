"""An exercise with one's own numbers: answer, see which slip it was, help piece by piece."""

from html import escape

import ipywidgets as widgets

from ..exercises import mark, variant, worked_steps
from ..exercises.family import CHOICE
from ..scene.schematics import schematic
from .heading import Heading

SHORT = 30  # letters: options that short stand side by side
HELP = (("hint", "Hint"), ("formula", "Formula"), ("working", "Working"))


class ExercisePanel(widgets.VBox):
    """One question of a family for one candidate. What was typed is never lost.

    Fields tell the kernel of a whole entry, not of every key: while the kernel is busy the page
    holds back what is typed, and a button that is pressed then would overtake the last letters.
    """

    def __init__(self, family_id, candidate="your name", sheet="practice"):
        self.family_id, self.sheet = family_id, sheet
        self.question, self.entries, self._typed = None, {}, {}
        self.candidate = widgets.Text(value=candidate, description="Name or number",
                                      continuous_update=False,
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
        self._figure = widgets.HTML()
        self._reading = widgets.VBox([self._text, self._figure, self._helped])
        self._reading.add_class("lk-reading")
        answering = widgets.VBox([self._steps, button_row(self.check, *self.help.values()),
                                  self._said])
        body = widgets.Box([self._reading, answering])
        body.add_class("lk-question")
        super().__init__([self._heading, *self.make_top(), body])
        self.add_class("lk-panel")
        self.ask()

    def make_top(self):
        """Return the widgets between heading and question."""
        return [button_row(self.candidate, self.fetch)]

    @property
    def owner(self):
        """Whose question it is: the name as it stands in the seed."""
        return self.candidate.value.strip().lower()

    def make_question(self):
        """Return the question to be put."""
        return variant(self.family_id, self.sheet, self.owner)

    def asked(self):
        """Return the steps that are left to the learner."""
        return self.question.steps

    def ask(self):
        """Put the question that belongs to the candidate; what he typed before stands in it."""
        for step, entry in self.entries.items():
            self._typed[self._place_of(step)] = entry.value
        self.question = self.make_question()
        self.entries, self._verdicts, rows = {}, {}, []
        for step in self.asked():
            entry, verdict = _entry(step), widgets.HTML()
            entry.value = self._typed.get(self._place_of(step.id), entry.value)
            self.entries[step.id], self._verdicts[step.id] = entry, verdict
            rows += [widgets.HTML(f"<b>{escape(step.ask)}</b> ({_marks(step.marks)})"), entry,
                     verdict]
        self._steps.children = rows
        figure = self.question.family.figure
        self._figure.value = (f'<div class="lk-figure">{schematic(figure).svg}</div>' if figure
                              else "")
        (self._reading.remove_class if figure else self._reading.add_class)("lk-narrow")
        self._heading.text = self.question.family.title
        caution = self.question.caution
        self._text.value = f"<div>{escape(self.question.text)}</div>" + (
            f'<div class="lk-caution">{caution}</div>' if caution else "")
        self._said.value = ""
        self._helped.value = ""
        self.result = None
        self._unlock_help("hint")

    def _place_of(self, step):
        return self.question.family.id, self.question.code, step

    def marked(self):
        """Return the marks of what was typed."""
        return mark(self.question, self.typed())

    def typed(self):
        """Return what was typed, by step."""
        return {step: entry.value or "" for step, entry in self.entries.items()}

    def _check(self):
        self.result = self.marked()
        for step in self.result.steps:
            if step.step in self._verdicts:
                sign = "\u2713" if step.marks == step.of else "\u2717"
                self._verdicts[step.step].value = (
                    f'<div role="status">{sign} {step.marks} of {step.of}: '
                    f"{escape(step.message)}</div>")
        self._said.value = (f'<div role="status"><b>{self.result.marks} of {self.result.maximum} '
                            "marks.</b></div>")

    def _help(self, name):
        """Show this piece of help to every step, and unlock the next one."""
        order = [key for key, _ in HELP]
        lines = "".join(f"<li>{escape(_piece(step, order[:order.index(name) + 1]))}</li>"
                        for step in worked_steps(self.question))
        self._helped.value = f"<b>{dict(HELP)[name]}</b><ol>{lines}</ol>"
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
        choice = widgets.RadioButtons(options=[(text, key) for key, text in step.options],
                                      value=None, layout={"width": "auto"})
        if max(len(text) for _, text in step.options) <= SHORT:
            choice.add_class("lk-short")
        return choice
    unit = f" [{step.unit}]" if step.unit else ""
    words = f", and {' or '.join(step.direction)}" if step.direction else ""
    return widgets.Text(placeholder="number and unit", description=f"Answer{unit}{words}",
                        continuous_update=False, style={"description_width": "initial"},
                        layout={"width": "auto"})


def _piece(step, shown):
    """The last of the shown pieces that a step has: a choice has no formula, so its hint stays."""
    piece = next(getattr(step, key) for key in reversed(shown) if getattr(step, key))
    return f"{step.ask} {piece}" if step.kind == CHOICE and piece == step.working else piece


def _marks(number):
    return f"{number}\u00a0{'mark' if number == 1 else 'marks'}"


def button_row(*children):
    """Return widgets side by side, wrapped where the panel is narrow."""
    row = widgets.Box(list(children))
    row.add_class("lk-buttons")
    return row
