"""Oral practice at the table: question, clock, ticks, what refers, and a record that is kept."""

from datetime import date
from html import escape

import ipywidgets as widgets

from ..exercises.oral import ENTRY, MANAGEMENT, draw_questions, oral_questions
from ..exercises.oral_record import OralRecord, begun, finished, oral_result
from ..scene.schematics import schematic
from .exercise_panel import button_row
from .heading import Heading
from .oral_file import OralFile
from .oral_points import OralPoints
from .timer import Timer
from .twin import still_image

ALONE, PAIR = "alone", "in a pair, taking turns"
_TIMES = [(f"{minutes} min", 60.0 * minutes) for minutes in (1, 2, 3, 5, 8)]
_INITIAL = {"style": {"description_width": "initial"}}


class OralPanel(widgets.VBox):
    """Puts questions by topic and rank; the model points stay hidden until they are asked for.

    Every recorded answer is written to a CSV file in `folder` at once.
    """

    def __init__(self, folder=".", day=None, clock=None):
        self._day = date.today().isoformat() if day is None else day
        self.question, self.record, self.records, self._put = None, None, [], []
        self.file = OralFile(folder)
        self.timer = Timer(120.0, **({"clock": clock} if clock else {}))
        self.points = OralPoints()
        topics = dict.fromkeys(one.topic for one in oral_questions().values())
        self.topic = widgets.Dropdown(options=[("all topics", ""), *((t, t) for t in topics)],
                                      description="Topic", **_INITIAL)
        self.rank = widgets.Dropdown(options=[ENTRY, MANAGEMENT], description="Rank", **_INITIAL)
        self.minutes = widgets.Dropdown(options=_TIMES, value=120.0, description="Time",
                                        **_INITIAL)
        self.mode = widgets.Dropdown(options=[ALONE, PAIR], description="Practise", **_INITIAL)
        self.asks = widgets.Text(value="", description="Asks", continuous_update=False, **_INITIAL)
        self.answers = widgets.Text(value="your name", description="Answers",
                                    continuous_update=False, **_INITIAL)
        self.swap = widgets.Button(description="Swap")
        self.next = widgets.Button(description="Put the next question")
        self.go_on = widgets.Button(description="Continue this scene")
        self.show = widgets.Button(description="Show the model points")
        self.keep = widgets.Button(description="Record this answer")
        self.projector = widgets.ToggleButton(value=False, description="Projector size")
        self._asked, self._sketch = widgets.HTML(), widgets.HTML()
        self._said, self._table = widgets.HTML(), widgets.HTML()
        aside = widgets.VBox([self._sketch])
        aside.add_class("lk-aside")
        body = widgets.Box([widgets.VBox([self._asked, self.points]), aside])
        body.add_class("lk-question")
        self._aside = aside
        super().__init__([
            Heading(text="At the table: oral practice"),
            button_row(self.mode, self.asks, self.answers, self.swap, self.projector),
            button_row(self.topic, self.rank, self.minutes),
            button_row(self.next, self.go_on, self.show, self.timer),
            body, button_row(self.keep), self._said, self._table])
        self.add_class("lk-panel")
        self.next.on_click(lambda _: self.put_next())
        self.go_on.on_click(lambda _: self.continue_scene())
        self.show.on_click(lambda _: self.show_points())
        self.keep.on_click(lambda _: self.keep_record())
        self.swap.on_click(lambda _: self.swap_roles())
        self.mode.observe(self._pairing, "value")
        self.minutes.observe(self._time_changed, "value")
        self.projector.observe(self._resized, "value")
        self._pairing()
        self._show_sketch("")
        self._asked.value = ("<div>Press <b>Put the next question</b>: the clock starts when the "
                             "question appears.</div>")

    def _pairing(self, _=None):
        for widget in (self.asks, self.swap):
            widget.layout.display = None if self.mode.value == PAIR else "none"

    def _time_changed(self, change):
        self.timer.limit = change["new"]

    def _resized(self, _):
        (self.add_class if self.projector.value else self.remove_class)("lk-projector")

    def swap_roles(self):
        """Let the one who answers ask, and the other way round."""
        self.asks.value, self.answers.value = self.answers.value, self.asks.value

    def put_next(self):
        """Put a question that was not put yet; an answer whose points are open is recorded."""
        self._leave()
        if not self._names_fit():
            return
        wish = {"topic": self.topic.value, "rank": self.rank.value}
        seed = (self._day, self.answers.value.strip().lower())
        fitting = [one.id for one in oral_questions().values()
                   if wish["topic"] in ("", one.topic)
                   and not (wish["rank"] == ENTRY and one.rank == MANAGEMENT)]
        if not fitting:
            self._say(f"The topic \u201c{self.topic.value}\u201d has questions for the rank "
                      f"{MANAGEMENT} only: choose that rank, or another topic.")
            return
        if set(fitting) <= set(self._put):
            self._put = [one for one in self._put if one not in fitting]
            self._say(f"All {len(fitting)} questions of this choice were put; they begin again.")
        self._begin(draw_questions(1, *seed, **wish, without=self._put)[0])

    def continue_scene(self):
        """Put the question that goes on where this one ends."""
        if self.question is None or not self.question.then:
            self._say("This question has no continuation: put the next one.")
            return
        then = oral_questions()[self.question.then]
        self._leave()
        if self._names_fit():
            self._begin(then)

    def _names_fit(self):
        """Whether it can be recorded who asks and who answers; say so where not."""
        names = {widget.value.strip() for widget in (self.asks, self.answers)} - {""}
        if self.mode.value == PAIR and len(names) < 2:
            self._say("A pair has two different names: type who asks and who answers.")
            return False
        return True

    def _leave(self):
        """Clear what was said, and record an answer whose points are open."""
        self._say("")
        if self.points.shown and self.record is not None:
            self.keep_record()

    def _begin(self, question):
        self.question = question
        self._put.append(question.id)
        self.points.hide()
        sketch = " Take paper: the blank drawing is your start." if question.sketch else ""
        self._asked.value = (f'<div class="lk-asked" role="status">{escape(question.ask)}'
                             f"{sketch}</div>")
        self._show_sketch(question.sketch, labelled=False)
        asks = self.asks.value.strip() if self.mode.value == PAIR else ""
        record = OralRecord(question.id, self.answers.value.strip(), asks)
        self.record = begun(record, self.timer.start())

    def show_points(self):
        """Stop the clock and show what a good answer holds."""
        if self.record is None:
            self._say("Put a question first.")
            return
        if not self.points.shown:
            self._stopped = self.timer.stop()
            self.points.show(self.question)
            self._show_sketch(self.question.sketch)

    def keep_record(self):
        """Record the answer with the points ticked, write it to the file and say the outcome."""
        if self.record is None:
            self._say("There is no open answer: put a question first.")
            return
        if not self.points.shown:
            self._say("Show the model points and tick what was said; then record it.")
            return
        record = finished(self.record, self._stopped, self.points.reached, self.points.dangerous,
                          self.points.prompts)
        self.record = None
        self.records.append(record)
        kept = self.file.add(record)
        self._say(f"{outcome_text(self.records, record.candidate)} {kept}")
        self._table.value = _table(self.records)
        if self.mode.value == PAIR:
            self.swap_roles()

    def _show_sketch(self, name, labelled=True):
        markup = f'<div class="lk-figure">{schematic(name, labelled).svg}</div>' if name else ""
        self._sketch.value = markup
        self._aside.layout.display = None if name else "none"

    def _say(self, sentence):
        self._said.value = f'<div role="status">{escape(sentence)}</div>' if sentence else ""

    def twin(self):
        """Show the sketch questions with their blank drawings: paper practice, no kernel."""
        from IPython.display import HTML, display

        parts = [f"<h4>{escape(one.ask)}</h4>{still_image(schematic(one.sketch, labelled=False))}"
                 for one in oral_questions().values() if one.sketch]
        display(HTML("".join(parts)))


def outcome_text(records, candidate):
    """Return what the answers of a candidate come to, in sentences."""
    result = oral_result(records, candidate)
    count = sum(record.candidate == candidate for record in records)
    text = (f"{candidate or 'No name'}, {count} {'question' if count == 1 else 'questions'}: "
            f"{result.score} of {result.maximum} points: {result.outcome}.")
    if result.referred_for:
        points = "; ".join(f"\u201c{point}\u201d" for point in result.referred_for)
        text += f" Missed or contradicted, which refers at any score: {points}."
    if result.missed:
        count = len(result.missed)
        text += (f" Not reached: {count} {'point' if count == 1 else 'points'}, such as "
                 f"\u201c{result.missed[-1]}\u201d.")
    return text


def _table(records):
    rows = ""
    for record in records[-3:]:
        question = oral_questions()[record.question]
        refers = any(index not in record.reached for index in question.critical)
        cells = (record.candidate, record.examiner, question.ask, f"{record.elapsed:.0f}",
                 f"{len(record.reached)} of {len(question.points)}", record.prompts,
                 "refers" if refers else "")
        rows += f"<tr>{''.join(f'<td>{escape(str(cell))}</td>' for cell in cells)}</tr>"
    heads = ("answered", "asked", "question", "time [s]", "points", "prompts", "safety")
    return ("<table class='lk-table lk-text'><tr>"
            + "".join(f"<th scope='col'>{head}</th>" for head in heads) + f"</tr>{rows}</table>")
