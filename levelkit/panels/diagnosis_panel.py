"""The diagnosis bench: six readings that disagree, what is the level, and what to do first."""

from dataclasses import dataclass
from html import escape

import ipywidgets as widgets

from ..constants import CAUTION
from ..diagnosis.cases import bench_case, seeded_bench
from ..diagnosis.checks import CHECKS
from ..diagnosis.correction import corrected_readings
from ..diagnosis.decisions import DECISIONS
from ..diagnosis.faulty import NO_FAULT
from ..diagnosis.game import BenchGame
from ..diagnosis.setting import NAMES, SEPARATE, BenchSetting
from ..diagnosis.watch_game import WatchGame
from ..diagnosis.watches import watches
from ..scene.three_readings import BenchView, draw_three_readings
from ..units import gauge_pressure_bar
from .bench_controls import (
    BY_LECTURER,
    BY_SEED,
    BY_WATCH,
    bench_controls,
    fault_options,
    reoffer,
)
from .bench_hands import Hands
from .panel import Panel
from .readings import format_plain

_SHORT = {"assume low": "Assume low water", "by glass": "Feed by glass", "carry on": "Carry on",
          "mean": "Feed by mean", "raise feed": "Raise feed", "cut feed": "Stop feed",
          "stop firing": "Stop firing"}


@dataclass(frozen=True, slots=True)
class DiagnosisCase:
    """A play as it stands, owner of every number the panel shows.

    Attributes
    ----------
    game : BenchGame
        The play.
    corrected : mapping of str to Corrected, or None [m]
        Readings reduced to drum level, once that was done.
    """

    game: BenchGame
    corrected: object


class DiagnosisPanel(Panel):
    """Six instruments on one drum, with a hidden fault or two."""

    def __init__(self, boiler, barometer):
        self.boiler, self.barometer = boiler, barometer
        self.title = f"Diagnosis bench: {boiler.title} (invented)"
        self._key, self._game, self._corrected = None, None, None
        self.hands = Hands()
        self.said = widgets.HTML()
        self.said.add_class("lk-wide")
        super().__init__()
        self.add_class("lk-own-words")

    def make_controls(self):
        return bench_controls(self.boiler, self.barometer)

    def _faults(self, arrangement):
        return fault_options(self.boiler, self.barometer, arrangement)

    def _control_grid(self):
        controls = self.controls
        self.suspect, self.second_suspect = (widgets.Dropdown(
            options=self._faults(SEPARATE), description=name,
            style={"description_width": "initial"}) for name in ("I diagnose", "and"))
        self._lecturer = [controls[key] for key in ("arrangement", "pressure", "level", "first",
                                                    "since", "second")]
        for key in ("first", "second", "watch"):  # long names
            controls[key].add_class("lk-two")
        self.looking = widgets.Dropdown(
            options=[(f"{check.name}: {check.minutes:g} min", key)
                     for key, check in CHECKS.items() if key != "readings"],
            description="Check", style={"description_width": "initial"})
        self.decision_buttons = {key: self._button(_SHORT[key], lambda key=key: self.decide(key))
                                 for key in DECISIONS}
        self.counting = widgets.ToggleButton(value=False, description="Count hands")
        self.counting.observe(self._counted, "value")
        correct = self._button("Reduce to drum level", self.correct)
        compare = self._button("Compare", self.compare)
        diagnose = self._button("Name the fault", self.diagnose)
        look = self._button("Do this check", lambda: self.check(self.looking.value))
        self.waiting = self._button("Wait a minute", self.wait)
        rows = [widgets.Box([correct, compare, self.looking, look, self.waiting]),
                widgets.Box([*self.decision_buttons.values(), self.counting]),
                widgets.Box([self.suspect, self.second_suspect, diagnose])]
        self._while_playing = rows
        for chooser in (self.suspect, self.second_suspect):
            chooser.layout.flex, chooser.layout.max_width = "1 1 30%", "41%"
        for row in rows:
            row.add_class("lk-buttons")
            row.add_class("lk-wide")
        grid = widgets.Box([controls["source"], controls["seed"], controls["watch"],
                            *self._lecturer, self.said, *rows])
        grid.add_class("lk-grid")
        grid.add_class("lk-three")
        return grid

    @staticmethod
    def _button(label, pressed):
        button = widgets.Button(description=label)
        button.on_click(lambda _: pressed())
        return button

    def _button_row(self):
        again = self._button("Start again", self.start_again)
        following = self._button("Next case", self.next_case)
        row = widgets.Box([again, following, self.projector, *self.readings.buttons, self.truth])
        row.add_class("lk-buttons")
        return row

    def start_again(self):
        """Play the same case from its beginning."""
        self._key = None
        self._changed()

    def next_case(self):
        """Go on to the case of the next number, or to the next watch."""
        if self.controls["source"].value == BY_WATCH:
            names = list(watches())
            following = names.index(self.controls["watch"].value) + 1
            self.set(watch=names[following % len(names)])
            return
        self.set(source=BY_SEED, seed=(self.controls["seed"].value + 1) % 10_000)

    def fault(self, key, place):
        """Return a fault at a place as the lecturer's controls take it."""
        return next(item for _, item in self.controls["first"].options
                    if (item.key, item.place) == (key, place))

    def check(self, key):
        """Do a check."""
        self._play(lambda: self._game.check(key))

    def wait(self):
        """Let a minute of the watch go by."""
        self._play(self._game.wait)

    def correct(self):
        """Reduce every reading to drum level."""
        def work():
            self._corrected = self._game.correct()
        self._play(work)

    def compare(self):
        """Compare the readings."""
        self._play(self._game.compare)

    def decide(self, key):
        """Take a decision, or count a hand for it."""
        if self.counting.value:
            self.hands.add(key)
            self._tell()
        else:
            self._play(lambda: self._game.decide(key))

    def diagnose(self):
        """Name what is wrong, and see what came of it."""
        named = [item for item in (self.suspect.value, self.second_suspect.value)
                 if item != NO_FAULT]
        self._play(lambda: self._game.diagnose(*(named or [NO_FAULT])))
        self.truth.value = True

    def _play(self, work):
        work()
        if self._corrected is not None:  # on a watch the readings have moved
            self._corrected = corrected_readings(self._game.case.result)
        self._changed()

    def _counted(self, _):
        if self.counting.value:
            self.hands.clear()
        self._tell()

    def evaluate(self, values):
        source = values["source"]
        self._show(source)
        if source == BY_LECTURER:
            self._offer(values["arrangement"])
            values = self.values()
        key = {BY_SEED: (BY_SEED, values["seed"]), BY_WATCH: (BY_WATCH, values["watch"]),
               BY_LECTURER: tuple(values.items())}[source]
        if key != self._key:
            self._game, self._corrected, self._key = self._begun(source, values), None, key
            self._offer_suspects(self._game.case.result.setting.arrangement)
            self.truth.value = False
        self._tell()
        return DiagnosisCase(self._game, self._corrected)

    def _show(self, source):
        """Show the controls that belong to a source of cases."""
        shown = {BY_SEED: [self.controls["seed"]], BY_LECTURER: self._lecturer,
                 BY_WATCH: [self.controls["watch"], self.waiting]}
        for owner, controls in shown.items():
            for control in controls:
                control.layout.display = None if owner == source else "none"

    def _begun(self, source, values):
        """A new play of the case that the controls tell."""
        if source == BY_WATCH:
            return WatchGame(watches()[values["watch"]], self.boiler, self.barometer)
        if source == BY_LECTURER:
            return BenchGame(self._case(values))
        return BenchGame(seeded_bench(self.boiler, self.barometer, int(values["seed"])))

    def _offer(self, arrangement):
        """Faults that this arrangement of legs can have; a chosen one stays if it can."""
        options = self._faults(arrangement)
        for key in ("first", "second"):
            reoffer(self.controls[key], options)

    def _offer_suspects(self, arrangement):
        for chooser in (self.suspect, self.second_suspect):
            reoffer(chooser, self._faults(arrangement))
            chooser.value = NO_FAULT

    def _case(self, values):
        setting = BenchSetting(self.boiler, self.barometer, values["pressure"],
                               self.boiler.levels.normal, values["level"] / 1000,
                               values["since"], values["arrangement"])
        faults = [values[key] for key in ("first", "second") if values[key] != NO_FAULT]
        return bench_case(setting, tuple(dict.fromkeys(faults)))

    def _tell(self):
        game = self._game
        if self.counting.value:
            text = f"{self.hands.sentence()} Count hands again to go on. {CAUTION}"
        elif game.diagnosed:
            text = _ending(game)
        elif len(game.entries) > 1:
            last = game.entries[-1]
            text = f"{last.minutes:.1f} min. {last.what}. {last.said}"
        else:
            text = " ".join(game.case.log)
        advice, _, rest = text.partition(CAUTION)
        for row in self._while_playing:  # over: the room is for what came of it
            row.layout.display = "none" if game.diagnosed and not self.counting.value else None
        self.said.value = (f'<div role="status">{escape(advice.strip())} '
                           f'<span class="lk-caution">{escape(CAUTION + rest)}</span></div>')

    def draw(self, result, look, show_truth):
        return draw_three_readings(
            BenchView(result.game.case.result, result.corrected, result.game.minutes, show_truth),
            look)

    def reading(self, result, values):
        bench, game = result.game.case.result, result.game
        case = values["watch"] if values["source"] == BY_WATCH else str(game.case.seed)
        row = {"case": case, "minutes [min]": format_plain(game.minutes, 1),
               "drum pressure [bar g]": format_plain(
                   gauge_pressure_bar(bench.pressure, self.barometer), 1)}
        for name in NAMES:
            row[f"{name} [mm]"] = format_plain(1000 * bench.readings[name].shown, 1)
            item = result.corrected[name] if result.corrected else None
            row[f"{name}, drum level [mm]"] = ("" if item is None or item.level is None
                                               else format_plain(1000 * item.level, 1))
        return row


def _ending(game):
    """What was wrong, what came of the decision, and the points."""
    score, run = game.score(), game.replay()
    parts = "; ".join(f"{what} {got} of {most}" for what, got, most in score.parts)
    points = (f"0 points: a boiler with its level out of sight low was fed or kept on fire "
              f"({parts})." if score.unsafe else f"{score.points} of 100: {parts}.")
    course = " ".join(f"{moment:.0f} s: {text}" for moment, text in run.events)
    return f"{game.entries[-1].said} Replay. {course} {points} {CAUTION}"
