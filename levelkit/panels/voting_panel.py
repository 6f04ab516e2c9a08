"""The voting panel: set levels, the time that is left, and transmitters that vote on a trip."""

from math import floor, log10

import ipywidgets as widgets

from ..physics.voting import ARCHITECTURES, BAD_INPUT
from ..scene.protection import Channel, ProtectionView, SetLevel, draw_protection
from .control import Control
from .panel import Panel
from .readings import format_plain
from .vote_case import (
    COMPARED,
    FALSE_LOW,
    FROZEN,
    GOOD,
    KNOWN_BAD,
    LEG_LOST,
    MONTH,
    OWN_LEGS,
    PER_MILLION_HOURS,
    SHARED_LEG,
    STATES,
    YEAR,
    VoteSetting,
    drawn_at_random,
    vote_case,
)

_SUPERSCRIPT = str.maketrans("-0123456789", "\u207b\u2070\u00b9\u00b2\u00b3\u2074\u2075\u2076"
                             "\u2077\u2078\u2079")
_VERDICTS = {(True, True): ("trips", "as it should"), (False, False): ("stays on",
                                                                       "as it should"),
             (True, False): ("FALSE TRIP", "the level is sound"),
             (False, True): ("DOES NOT TRIP", "low water, fires on")}


_SHORT = {GOOD: "", FROZEN: "frozen", FALSE_LOW: "false low", LEG_LOST: "leg lost",
          KNOWN_BAD: "known bad"}


class VotingPanel(Panel):
    """A drum with its set levels, and up to three transmitters on its low-low trip."""

    draws_ahead = True

    def __init__(self, boiler, barometer):
        self.boiler, self.barometer = boiler, barometer
        self.title = f"Alarms, trips and voting: {boiler.title} (invented)"
        normal, low = 1000 * boiler.levels.normal, 1000 * boiler.levels.low_trip - 20
        good = {"level": normal, "loss": 9.5, "shrink": 0, "vote": "2oo3", "bad": "trip",
                "legs": OWN_LEGS, "A": GOOD, "B": GOOD, "C": GOOD, "failures": 2,
                "test": 12, "common": 5, "leg_losses": 0, "false_lows": 10, "repair": 24}
        self.presets = {
            "all good": good,
            "one falsely low": good | {"A": FALSE_LOW},
            "low water, one frozen": good | {"level": low, "A": FROZEN},
            "low water, two of two": good | {"level": low, "A": FROZEN, "vote": "2oo2"},
            "low water, shared leg lost": good | {"level": low, "A": LEG_LOST, "legs": SHARED_LEG,
                                                  "leg_losses": 1},
            "two known bad": good | {"A": KNOWN_BAD, "B": KNOWN_BAD},
        }
        self._counted, self._seed = None, 0
        super().__init__()

    def make_controls(self):
        style, start = {"description_width": "initial"}, self.presets["all good"]

        def choice(name, options):
            return widgets.Dropdown(options=options, description=name, style=style)

        top = 1000 * self.boiler.legs.chamber_height
        controls = {
            "level": Control("True level", "mm", 0, top, 1, start["level"], 0),
            "loss": Control("Steam less feed", "kg/s", 0.1, 30, 0.1, start["loss"], 1),
            "shrink": Control("Shrink", "mm", 0, 100, 1, 0, 0),
            "vote": choice("Vote", list(ARCHITECTURES)),
            "bad": choice("Bad signal", list(BAD_INPUT)),
            "legs": choice("Reference leg", [OWN_LEGS, SHARED_LEG]),
            **{name: choice(f"Transmitter {name}", STATES) for name in "ABC"},
            "failures": Control("Failures", "/10\u2076 h", 0.1, 5, 0.1, start["failures"], 1),
            "test": Control("Tested every", "mth", 1, 36, 1, start["test"], 0),
            "common": Control("Common cause", "%", 0, 20, 1, start["common"], 0),
            "leg_losses": Control("Leg losses", "/10\u2076 h", 0, 5, 0.1, 0, 1),
            "false_lows": Control("False lows", "/10\u2076 h", 1, 50, 1, start["false_lows"], 0),
            "repair": Control("Repaired in", "h", 1, 168, 1, start["repair"], 0),
        }
        controls["vote"].value = start["vote"]
        return controls

    def _control_grid(self):
        grid = super()._control_grid()
        grid.add_class("lk-three")
        return grid

    def _button_row(self):
        row = super()._button_row()
        draw = widgets.Button(description="Draw failures at random")
        draw.on_click(lambda _: self.draw_at_random())
        row.children = (*row.children, draw)
        return row

    def draw_at_random(self, seed=None):
        """Count failures drawn at random; one seed, one result, and the next seed every time."""
        self._seed = self._seed + 1 if seed is None else seed
        self._counted = (self.result.setting, self._seed,
                         *drawn_at_random(self.result.setting, self._seed))
        self._changed()

    @property
    def counted(self):
        """Seed and the two estimates that belong to the present setting, or None."""
        if self._counted and _odds(self._counted[0]) == _odds(self.result.setting):
            return self._counted[1:]
        return None

    def evaluate(self, values):
        count = ARCHITECTURES[values["vote"]][1]
        for index, name in enumerate("ABC"):
            self.controls[name].disabled = index >= count
        return vote_case(self.boiler, self.barometer, VoteSetting(
            values["level"] / 1000, values["loss"], values["shrink"] / 1000, values["vote"],
            values["bad"], values["legs"], tuple(values[name] for name in "ABC"),
            values["failures"] * PER_MILLION_HOURS, values["leg_losses"] * PER_MILLION_HOURS,
            values["false_lows"] * PER_MILLION_HOURS, values["test"] * MONTH,
            values["repair"] * 3600.0, values["common"] / 100))

    def draw(self, result, look, show_truth):
        boiler, setting = self.boiler, result.setting
        count = ARCHITECTURES[setting.architecture][1]
        levels = boiler.levels
        set_levels = (
            SetLevel("high alarm", levels.high_alarm, ""),
            SetLevel("normal", levels.normal, ""),
            *(SetLevel(name, height, _time(result, name, look) if show_truth else "")
              for name, height in (("low alarm", levels.low_alarm),
                                   ("low-low trip", levels.low_trip),
                                   ("topmost tubes", boiler.drum.topmost_tube))))
        channels = tuple(
            Channel(name, index < count, self._shown_text(result, index),
                    self._vote_text(result, index), result.states[index] == LEG_LOST,
                    _SHORT[result.states[index]])
            for index, name in enumerate("ABC"))
        table = tuple((name, (_grouped(1 / result.on_demand[name]),
                              f"{_grouped(1 / (result.spurious[name] * YEAR))} y"))
                      for name in self._compared(setting))
        verdict = _VERDICTS[result.result.trips, result.should_trip] if show_truth else (
            "trips" if result.result.trips else "stays on", "is that right?")
        return draw_protection(ProtectionView(
            boiler.title, boiler.drum.shape.radius, boiler.drum.axis_height, setting.level,
            set_levels, channels, setting.legs == SHARED_LEG, _vote_line(result),
            result.result.trips, ("fails 1 in", "false trip in"), table, setting.architecture,
            self._rows(result, look), verdict,
            show_truth and result.result.trips != result.should_trip, show_truth), look)

    def _compared(self, setting):
        return COMPARED[:-1] + ("median",) if setting.architecture == "median" else COMPARED

    def _shown_text(self, case, index):
        if case.states[index] == KNOWN_BAD:
            return "bad"
        shown = case.shown[index]
        if shown > self.boiler.legs.chamber_height:
            return "FULL"
        return f"{1000 * shown:.0f} mm"

    def _vote_text(self, case, index):
        state = case.states[index]
        if state == KNOWN_BAD:
            return {"trip": "TRIP", "healthy": "stay", "removed": "out"}[case.setting.bad_input]
        return "TRIP" if case.shown[index] <= self.boiler.levels.low_trip else "stay"

    def _rows(self, case, look):
        rows = [("summed exactly", _power(case.on_demand[case.setting.architecture]))]
        simple = case.simplified
        rows.append(("simple form", _power(simple) if simple is not None else "none"))
        counted, within = self.counted, "95 % within" if look.detail else "95 %"
        if counted is None:
            return (*rows, ("drawn at random", "not yet"), (within, "\u2013"))
        found = counted[1]
        name = f"drawn, seed {counted[0]}" if look.detail else f"seed {counted[0]}"
        return (*rows, (name, _power(found.value)),
                (within, _interval(found)))

    def reading(self, result, values):
        setting, counted = result.setting, self.counted
        row = {"vote": setting.architecture, "reference leg": setting.legs,
               "true level [mm]": format_plain(1000 * setting.level, 1)}
        for index, name in enumerate("ABC"):
            row[f"{name}"] = f"{result.states[index]}: {self._shown_text(result, index)}"
        return row | {
            "trips": "yes" if result.result.trips else "no",
            "time to trip level [s]": format_plain(result.times["low-low trip"], 1),
            "fails on demand [1]": f"{result.on_demand[setting.architecture]:.3e}",
            "drawn [1]": f"{counted[1].value:.3e}" if counted else "",
            "seed": counted[0] if counted else "",
            "false trips [1/year]": f"{result.spurious[setting.architecture] * YEAR:.3e}",
        }


def _odds(setting):
    """What the odds depend on."""
    return setting.channels(), setting.spurious_rate, setting.repair_time


def _vote_line(case):
    result = case.result
    if result.inputs == 0:
        return f"{case.setting.architecture}: no signal left"
    return (f"{case.setting.architecture}: {result.needed} of {result.inputs} needed, "
            f"{result.votes} for a trip")


def _time(case, name, look):
    """Time until the water is at a level and, on a roomy picture, the delay of its contact."""
    seconds = case.times[name]
    if seconds == 0:
        return "passed"
    if look.detail and name in case.delays:
        return f"{seconds:.0f} + {case.delays[name]:.0f} s"
    return f"{seconds:.0f} s"


def _grouped(number):
    """Three figures of a number, thousands apart."""
    digits = max(0, 2 - floor(log10(number)))
    return f"{float(f'{number:.2e}'):,.{digits}f}".replace(",", "\u2009")


def _power(number):
    """A small probability as people write it."""
    if number == 0:
        return "0"
    mantissa, exponent = f"{number:.2e}".split("e")
    return f"{mantissa}\u00d710{str(int(exponent)).translate(_SUPERSCRIPT)}"


def _interval(found):
    """Both ends of an interval with one power of ten."""
    exponent = floor(log10(found.high))
    low, high = (end / 10.0 ** exponent for end in (found.low, found.high))
    return f"{low:.1f} to {high:.1f}\u00d710{str(exponent).translate(_SUPERSCRIPT)}"
