"""Practice through the bank: worked examples that fade, the next question, progress on file."""

from dataclasses import replace
from datetime import datetime
from html import escape
from pathlib import Path

import ipywidgets as widgets

from ..errors import InputError
from ..exercises import BLANK, FULL, PARTLY, example, faded, families, mark, variant
from ..exercises.family import VALUE
from ..exercises.misconceptions import misconception
from ..exercises.progress import (
    PARTLY_WORKED,
    Progress,
    load_progress,
    next_family,
    progress_csv,
    save_progress,
    weak_misconceptions,
)
from .exercise_panel import HELP, ExercisePanel, button_row
from .hand_in import save_hand_in
from .keeping import file_stem, new_path, write_refused
from .worked_page import show_worked_page

FADING = (("all of it", FULL), ("the first half", PARTLY), ("nothing", BLANK))
_ALL = "all topics"
_INITIAL = {"description_width": "initial"}
_LEAST = [name for name, _ in HELP]


class PracticePanel(ExercisePanel):
    """Any question of the bank, more or less of it worked, with the progress of one learner.

    The progress is a JSON file in `folder`, named after the learner; it is written at every check.
    """

    def __init__(self, family_id="glass-reads-low", candidate="your name", folder="."):
        self._folder, self._progress_owner, self.progress = Path(folder), None, Progress()
        self._opened, self._held = "", False
        super().__init__(family_id, candidate)
        self.children = (*self.children, self._progress_line)

    def make_top(self):
        """Return the choices: whose question, which one, how much of it is worked."""
        topics = dict.fromkeys((one.topic, one.lesson) for one in families().values())
        self.topic = widgets.Dropdown(
            options=[(_ALL, ""), *((f"{lesson} {topic}", topic) for topic, lesson in topics)],
            description="Topic", style=_INITIAL)
        self.family = widgets.Dropdown(description="Question", style=_INITIAL)
        self.worked = widgets.ToggleButtons(options=FADING, value=BLANK,
                                            description="Worked for me",
                                            style=_INITIAL | {"button_width": "auto"})
        self.next = widgets.Button(description="Next question")
        self.save = widgets.Button(description="Save CSV")
        self.hand_in = widgets.Button(description="Save hand-in")
        self.projector = widgets.ToggleButton(value=False, description="Projector size")
        self._why, self._progress_line = widgets.HTML(), widgets.HTML()
        self._fill(self.family_id)
        self.topic.observe(lambda _: self._fill(), "value")
        self.family.observe(self._chosen, "value")
        self.worked.observe(lambda _: self.ask(), "value")
        self.next.on_click(lambda _: self.ask_next())
        self.save.on_click(lambda _: self.save_csv())
        self.hand_in.on_click(lambda _: self.save_hand_in())
        self.projector.observe(self._resized, "value")
        return [button_row(self.candidate, self.fetch, self.save, self.hand_in,
                           self.projector),
                button_row(self.topic, self.family),
                button_row(self.worked, self.next), self._why]

    def _fill(self, family_id=None):
        """Offer the questions of the topic; keep the present one where it belongs to it."""
        offered = [one for one in families().values() if self.topic.value in ("", one.topic)]
        ids = [one.id for one in offered]
        keep = family_id or self.family_id
        self._held = True
        self.family.options = [(f"{one.title} ({one.marks} marks)", one.id) for one in offered]
        self.family.value = keep if keep in ids else ids[0]
        self._held = False
        self._chosen()

    def _chosen(self, _=None):
        if not self._held and self.family.value != self.family_id:
            self.family_id = self.family.value
            self._why.value = ""
            self.ask()

    def _resized(self, _):
        (self.add_class if self.projector.value else self.remove_class)("lk-projector")

    @property
    def path(self):
        """Where the progress of this learner is kept."""
        return self._folder / f"progress-{file_stem(self._progress_owner or self.owner)}.json"

    def ask(self):
        """Put the chosen question; a learner who was here before finds his progress again."""
        note = ""
        if self._progress_owner != self.owner:
            self._progress_owner = self.owner
            self.progress = load_progress(self.path)
            note = self.progress.note
        self._opened = ""
        super().ask()
        if self.worked.value != BLANK:
            items = "".join(f"<li>{escape(line)}</li>"
                            for line in faded(self.question, self.worked.value))
            worked = widgets.HTML(f'<ol class="lk-worked">{items}</ol>')
            self._steps.children = (worked, *self._steps.children)
        self._say_progress(note)

    def make_question(self):
        """Return the bank's own example where all is worked, else new numbers at every try."""
        if self.worked.value == FULL:
            return example(self.family_id)
        place = len(self.progress.codes(self.family_id))
        try:
            return variant(self.family_id, self.sheet, self.owner, place=place)
        except InputError:  # every good set of numbers of this seed was tried: from the start
            return variant(self.family_id, self.sheet, self.owner)

    def asked(self):
        """Return the steps that are not worked."""
        left = self._left()
        return tuple(step for step in self.question.steps if step.id in left)

    def _left(self):
        """Ids of the steps, relations among them, that are left to the learner."""
        steps = self.question.family.steps
        worked = {FULL: len(steps), PARTLY: len(steps) // 2, BLANK: 0}[self.worked.value]
        return {step.id for step in steps[worked:]}

    def marked(self):
        """Return the marks of the steps that were left to the learner."""
        result = mark(self.question, self._given() | self.typed())
        kept = tuple(step for step in result.steps if step.step in self._left())
        return replace(result, steps=kept, marks=sum(step.marks for step in kept),
                       maximum=sum(step.of for step in kept))

    def _given(self):
        """The answers of the worked steps, as a person would type them."""
        return {step.id: _typeable(self.question, step.id) for step in self.question.steps
                if step.id not in self._left()}

    def _check(self):
        if self.worked.value == FULL:
            self._said.value = ('<div role="status">All of this example is worked: read it, then '
                                "choose \u201cthe first half\u201d or \u201cnothing\u201d and do "
                                "the rest yourself.</div>")
            return
        super()._check()
        helped = PARTLY_WORKED if self.worked.value == PARTLY else self._opened
        last = self.progress.attempts[-1:]
        attempted = self.progress.with_attempt(
            self.question, self.result, self.typed(),
            datetime.now().isoformat(timespec="seconds"), helped)
        if last and replace(attempted.attempts[-1], when=last[0].when) == last[0]:
            return  # pressed twice
        self.progress = attempted
        self._say_progress(self._keep())

    def _keep(self):
        """Write the progress file; return what there is to say of it."""
        try:
            self.progress = load_progress(self.path).joined(self.progress)
            save_progress(self.path, self.progress)
        except OSError as fault:
            return write_refused(self.path, fault, "your progress is")
        return self.progress.note

    def _help(self, name):
        super()._help(name)
        if self._opened not in _LEAST or _LEAST.index(name) > _LEAST.index(self._opened):
            self._opened = name

    def ask_next(self):
        """Put the question that the progress so far calls for, and say why it is this one."""
        found = next_family(self.progress, self.topic.value)
        again = found.family_id == self.family_id
        self._held = True
        self.family.value = self.family_id = found.family_id
        self._held = False
        self._why.value = (f'<div role="status"><b>Why this one:</b> {escape(found.reason)}'
                           f'{" With new numbers." if again else ""}</div>')
        self.ask()

    def save_csv(self):
        """Write every attempt to a new CSV file and say where it is; return its path."""
        if not self.progress.attempts:
            self._say_progress("Nothing is checked yet, so there is nothing to save.")
            return None
        path = new_path(f"progress-{file_stem(self._progress_owner)}", self._folder)
        try:
            path.write_text(progress_csv(self.progress), encoding="utf-8", newline="")
        except OSError as fault:
            self._say_progress(write_refused(path, fault, "your progress is"))
            return None
        self._say_progress(f"All that was checked is in {path}.")
        return path

    def save_hand_in(self):
        """Write the learner's own answers for the lecturer, and say where they are."""
        self._say_progress(save_hand_in(self._progress_owner, self.progress, self._folder))

    def _say_progress(self, note=""):
        """Say how far the learner is, what is weak, and what had to be said besides."""
        attempts = self.progress.attempts
        parts = [escape(note)] if note else []
        if attempts:
            questions = {(one.family, one.code) for one in attempts}
            parts.append(f"Checked {_times(len(attempts))}, {_different(len(questions))}; kept in "
                         f"{escape(self.path.name)}.")
        weak = [misconception(code) for code in weak_misconceptions(self.progress)]
        if weak:
            names = "; ".join(f"\u201c{one.title}\u201d (lesson {one.lesson})" for one in weak[:2])
            parts.append(f"To be cleared: {escape(names)}"
                         + (f" and {len(weak) - 2} more." if len(weak) > 2 else "."))
        self._progress_line.value = (
            f'<div class="lk-caution" role="status">{" ".join(parts)}</div>' if parts else "")

    def twin(self):
        """Show the worked example on paper: it stays without a kernel."""
        show_worked_page(example(self.family_id))


def _times(number):
    return "once" if number == 1 else f"{number} times"


def _different(number):
    return "on one question" if number == 1 else f"on {number} different questions"


def _typeable(question, step_id):
    """The right answer of a step as a person types it; the option's id for a choice."""
    step = question.family.step(step_id)
    if step.kind == VALUE:
        return question.answer(step_id).replace(",", " ")
    return question.solution.steps[step_id]
