"""The manifold panel: a drill in which every move of a valve is made, judged and shown."""

from dataclasses import dataclass, replace
from html import escape

import ipywidgets as widgets

from ..constants import CAUTION
from ..errors import InputError
from ..physics.leg_water import legs_after
from ..physics.manifold_drill import STEAM_VALVE, WRONG, Move, made_move, zero_check
from ..physics.transmitter import TransmitterResult, transmitter_reading
from ..physics.transmitter_state import TransmitterState
from ..scene.manifold import ManifoldView, draw_manifold_drill
from ..units import kelvin
from .control import Control
from .manifold_tasks import TASKS, Task
from .panel import Panel
from .readings import format_plain
from .remote_setting import RemoteSetting, healthy_transmitter

_NAMES = {"drum_isolator": "drum isolator", "reference_isolator": "reference isolator",
          "equaliser": "equaliser", "drum_drain": "drum drain",
          "reference_drain": "reference drain", "drum_vent": "drum vent",
          "reference_vent": "reference vent", STEAM_VALVE: "steam valve"}
NOT_ASKED = "not asked"
_ZERO_CHECKS = ((NOT_ASKED, NOT_ASKED), ("4.00 mA", 0.004), ("12.00 mA", 0.012),
                ("20.50 mA", 0.0205))


@dataclass(frozen=True, slots=True)
class Entry:
    """One line of the log.

    Attributes
    ----------
    text : str
        What was done.
    verdict : str
        "sound", "careful", "wrong"; empty for waiting.
    said : str
        Why, with the caution.
    at_once, later : TransmitterResult
        What the indicator showed just after it, and after the wait.
    seconds : float [s]
        The wait.
    lost : float [m]
        Length missing in the reference leg after it.
    """

    text: str
    verdict: str
    said: str
    at_once: TransmitterResult
    later: TransmitterResult
    seconds: float
    lost: float


@dataclass(frozen=True, slots=True)
class DrillCase:
    """A drill as it stands, owner of every number the panel shows.

    Attributes
    ----------
    state : TransmitterState
        The transmitter, drum as set, valves and legs as moved.
    reading : TransmitterResult
        What it shows.
    task : Task
        What is to be done.
    entries : tuple of Entry
        What was done so far.
    reached : bool
        Whether the goal is reached.
    """

    state: TransmitterState
    reading: TransmitterResult
    task: Task
    entries: tuple
    reached: bool


class ManifoldPanel(Panel):
    """A button for every valve between two water legs and their transmitter."""

    draws_ahead = True

    def __init__(self, boiler, barometer):
        self.boiler, self.barometer = boiler, barometer
        self.title = f"Manifold drill: {boiler.title} (invented)"
        self._moves, self._entries, self._task, self._state = [], [], "", None
        self.said = widgets.HTML()
        self.said.add_class("lk-wide")
        self.valves = {}
        super().__init__()
        self.add_class("lk-own-words")

    def make_controls(self):
        normal = self.boiler.presets["normal"]
        top, style = 1000 * self.boiler.legs.chamber_height, {"description_width": "initial"}
        return {
            "task": widgets.Dropdown(options=list(TASKS), description="Task", style=style),
            "pressure": Control("Drum pressure", "bar g", 0, 100, 0.01,
                                normal.gauge_pressure_bar, 2),
            "level": Control("True drum level", "mm", -50, top, 1, normal.level_mm, 0),
            "seconds": Control("Wait afterwards", "s", 0, 3600, 5, 10, 0),
            "zero": widgets.Dropdown(options=_ZERO_CHECKS, description="Zero check:",
                                     style=style),
        }

    def _control_grid(self):
        self.wait = self._button("Wait", lambda _: self._let_pass())
        self.hint = self._button("Show a sound move", lambda _: self._show_way())
        helps = widgets.Box([self.wait, self.hint])
        helps.add_class("lk-buttons")
        grid = widgets.Box([*self.controls.values(), helps, self.said])
        grid.add_class("lk-grid")
        grid.add_class("lk-three")
        return grid

    def _valve_button(self, valve):
        self.valves[valve] = self._button("", lambda _: self.move(valve))
        return self.valves[valve]

    @staticmethod
    def _button(label, pressed):
        button = widgets.Button(description=label)
        button.on_click(pressed)
        return button

    def _button_row(self):
        valves = [self._valve_button(valve) for valve in _NAMES]
        reset = self._button("Start again", lambda _: self.reset())
        save = self.readings.buttons[1]
        row = widgets.Box([*valves, reset, self.projector, save, self.truth])
        row.add_class("lk-buttons")
        return row

    def reset(self):
        """Begin the first task anew, every control as at the beginning."""
        self._task = ""
        super().reset()

    def move(self, valve):
        """Move one valve to its other position, wait, and judge what came of it."""
        state, seconds = self.result.state, self.controls["seconds"].value
        opening = 0.0 if self._is_open(state, valve) else 1.0
        try:
            step = made_move(state, Move(valve, opening, seconds))
        except InputError as refusal:
            self._say(str(refusal))
            return
        self._moves.append((valve, opening))
        self._log(Entry(f"{_NAMES[valve]} {'open' if opening else 'SHUT'}", step.verdict,
                        step.advice, step.at_once, step.reading, seconds,
                        step.state.legs.reference_loss), step.state)

    def _let_pass(self):
        """Let the time pass and move nothing."""
        state, seconds = self.result.state, self.controls["seconds"].value
        later = replace(state, legs=legs_after(state.drum, state.legs, seconds))
        self._log(Entry(f"waited {seconds:.0f} s", "", f"{seconds:.0f} s have passed.",
                        self.result.reading, transmitter_reading(later), seconds,
                        later.legs.reference_loss), later)

    def _log(self, entry, state):
        self._state = state
        self._entries.append(entry)
        self.readings.rows.append(self._row(len(self._entries), entry))
        with self._one_redraw():
            self.controls["zero"].value = NOT_ASKED

    def _show_way(self):
        """Say the next move of the worked way, as long as the learner is on it."""
        way, done = TASKS[self._task].way, len(self._moves)
        on_it = [(move.valve, move.opening) for move in way[:done]] == self._moves
        if not on_it:
            text = ("You are on a way of your own: judge it by what each move does. "
                    "Start again to be led.")
        elif done == len(way):
            text = "That was the last move of this way. Wait, and compare with a proved glass."
        else:
            move = way[done]
            text = (f"Next on this way: {'open' if move.opening else 'shut'} the "
                    f"{_NAMES[move.valve]}, and wait {move.seconds:.0f} s.")
        self._tell(f"{text} {CAUTION}")

    def evaluate(self, values):
        task = TASKS[values["task"]]
        setting = RemoteSetting(
            values["pressure"], values["level"] / 1000, self.boiler.working_pressure_bar,
            kelvin(self.boiler.presets["normal"].leg_celsius),
            depth=self.boiler.transmitter.depth)
        healthy = healthy_transmitter(self.boiler, self.barometer, setting)
        if task.name != self._task:
            self._task, self._state = task.name, task.begin(healthy)
            self._moves, self._entries = [], []
            self.readings.rows.clear()
        state = replace(self._state, drum=healthy.drum)
        return DrillCase(state, transmitter_reading(state), task, tuple(self._entries),
                         task.reached(state))

    def accompany(self, result, values):
        self._name_valves(result.state)
        self._tell(self._sentence(values, result.state))

    def _sentence(self, values, state):
        """The zero check if one is asked for, or what the last move did."""
        if values["zero"] != NOT_ASKED:
            try:
                return zero_check(state, values["zero"])
            except InputError as refusal:
                return str(refusal)
        if not self._entries:
            return ("Move a valve: the buttons say what they will do. Every move is judged by what "
                    "it does to legs, capsule and people.")
        last = self._entries[-1]
        shown = (f"{1e3 * last.at_once.current:.2f} mA at once, "
                 f"{1e3 * last.later.current:.2f} mA after {last.seconds:.0f} s.")
        return f"{last.text[0].upper()}{last.text[1:]}: {shown} {last.said}"

    def _tell(self, sentence):
        advice, _, rest = sentence.partition(CAUTION)
        caution = f'<span class="lk-caution">{escape(CAUTION)}</span>' if rest or (
            CAUTION in sentence) else ""
        self.said.value = f'<div role="status">{escape(advice)}{caution}</div>'

    def _name_valves(self, state):
        for valve, button in self.valves.items():
            verb = "Shut" if self._is_open(state, valve) else "Open"
            button.description = f"{verb} {_NAMES[valve]}"

    @staticmethod
    def _is_open(state, valve):
        if valve == STEAM_VALVE:
            return state.legs.chamber.isolated_pressure is None
        return getattr(state.legs.manifold, valve) > 0

    def draw(self, result, look, show_truth):
        moves = tuple((entry.text, entry.verdict) for entry in result.entries)
        return draw_manifold_drill(
            ManifoldView(result.state, result.reading, f"Task: {result.task.name}", moves,
                         result.reached, show_truth), look)

    def _row(self, number, entry):
        """One line of the log for a CSV file."""
        return {
            "move": number, "what": entry.text, "verdict": entry.verdict,
            "wait [s]": format_plain(entry.seconds, 0),
            "at once [mA]": format_plain(1e3 * entry.at_once.current, 2),
            "after the wait [mA]": format_plain(1e3 * entry.later.current, 2),
            "true level [mm]": format_plain(1000 * self.result.state.drum.level, 1),
            "shown [mm]": format_plain(1000 * entry.later.indicated_level, 1),
            "H - L [kPa]": format_plain(entry.later.differential / 1e3, 3),
            "lost from leg [mm]": format_plain(1000 * entry.lost, 1),
            "task": self._task, "why": entry.said,
        }

    def wrong_moves(self):
        """Return how many moves of this task were judged wrong."""
        return sum(entry.verdict == WRONG for entry in self._entries)
