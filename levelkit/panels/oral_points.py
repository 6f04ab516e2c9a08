"""The model points of an oral question: hidden, then ticked as reached or contradicted."""

from html import escape

import ipywidgets as widgets

STAR = "\u2605"


class OralPoints(widgets.VBox):
    """One tick for every point reached, and one for every critical point that was contradicted."""

    def __init__(self):
        super().__init__()
        self.add_class("lk-points")
        self.prompt = widgets.Button()
        self.prompt.on_click(lambda _: self._count(self.prompts + 1))
        self.hide()

    def hide(self):
        """Take points, ticks and prompts away."""
        self.shown, self.ticks, self.contradicted = False, [], {}
        self.children = ()
        self._count(0)

    def _count(self, prompts):
        self.prompts = prompts
        self.prompt.description = f"Prompted ({prompts})"

    def show(self, question):
        """Show the points of a question, with nothing ticked."""
        rows = []
        for number, point in enumerate(question.points):
            star = f"{STAR} " if point.critical else ""
            tick = _tick(f"{star}{point.text}")
            self.ticks.append(tick)
            rows.append(tick)
            if point.critical:
                contrary = _tick(f"the contrary was said (point {number + 1})")
                contrary.add_class("lk-contrary")
                self.contradicted[number] = contrary
                rows.append(contrary)
        notes = []
        if question.critical:
            notes.append(f"{STAR} refers if it is missed or contradicted, whatever the score.")
        if question.follow_ups:
            notes.append(f"<b>Ask on:</b> {escape(' '.join(question.follow_ups))}")
        notes.append(f"Lesson {escape(question.lesson)}.")
        caution = (f'<div class="lk-caution">{question.caution}</div>' if question.caution
                   else "")
        self.children = (*rows, self.prompt, widgets.HTML(f"<div>{' '.join(notes)}</div>{caution}"))
        self.shown = True

    @property
    def reached(self):
        """Numbers of the points ticked, from 0."""
        return [number for number, tick in enumerate(self.ticks) if tick.value]

    @property
    def dangerous(self):
        """Numbers of the critical points that were contradicted, from 0."""
        return [number for number, tick in self.contradicted.items() if tick.value]


def _tick(text):
    return widgets.Checkbox(value=False, indent=False, description=text)
