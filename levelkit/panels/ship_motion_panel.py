"""The ship motion panel: a drum listed, trimmed or rolling, and what its end glasses show."""

from math import atan, degrees, isnan, radians

import ipywidgets as widgets
import numpy as np

from ..errors import InputError
from ..physics.glass import IN_SIGHT
from ..physics.level_filter import delay_against_roll, filter_against_roll
from ..physics.motion import swing_amplification
from ..scene.motion_view import DrumAtSea, MotionChart, MotionFrame
from ..scene.ship_motion import motion_film, shown_text
from ..scene.strip_chart import round_range
from .control import Control
from .moving_panel import MovingPanel
from .readings import format_plain
from .sea_state import (
    ATHWARTSHIPS,
    FORE_AND_AFT,
    PITCHES,
    ROLLS,
    STILL,
    SeaSetting,
    in_words,
    inclination_sweep,
    sea_case,
)

_SWEEP = np.linspace(-20.0, 20.0, 81)
_LEVEL = ("upright", "even keel")
_LEAST_SPAN = 200.0  # mm: a glass that hardly moves does not fill the chart


class ShipMotionPanel(MovingPanel):
    """A drum in a ship that moves, with a gauge glass at each end."""

    def __init__(self, boiler, barometer):
        self.boiler, self.barometer = boiler, barometer
        self.title = f"A drum at sea: {boiler.title} (invented)"
        upright = {"lies": ATHWARTSHIPS, "motion": STILL, "level": 1000 * boiler.levels.normal,
                   "list": 0, "trim": 0, "amplitude": 10, "period": 9, "height": 6,
                   "lag": 0, "offset": 0, "distance": 0.96 * boiler.drum.length}
        rolling = upright | {"motion": ROLLS}
        self.presets = {
            "upright": upright,
            "list 4\u00b0": upright | {"list": 4},
            "list 15\u00b0": upright | {"list": 15},
            "fore and aft, list 15\u00b0": upright | {"lies": FORE_AND_AFT, "list": 15},
            "rolling": rolling | {"amplitude": 3},
            "rolling, throttled": rolling | {"amplitude": 3, "lag": 10},
            "heavy roll": rolling | {"amplitude": 10},
        }
        super().__init__()
        self.truth.description = "Show what the drum holds"

    def make_controls(self):
        style, start = {"description_width": "initial"}, self.presets["upright"]
        top = 1000 * self.boiler.legs.chamber_height
        longest = round(0.96 * self.boiler.drum.length, 2)
        return {
            "lies": widgets.Dropdown(options=[ATHWARTSHIPS, FORE_AND_AFT], description="Drum",
                                     style=style),
            "motion": widgets.Dropdown(options=[STILL, ROLLS, PITCHES], description="The ship",
                                       style=style),
            "level": Control("Upright level", "mm", 0, top, 1, start["level"], 0),
            "list": Control("List to port", "\u00b0", -20, 20, 0.1, 0, 1),
            "trim": Control("Trim by stern", "\u00b0", -10, 10, 0.1, 0, 1),
            "distance": Control("Glasses apart", "m", 0.5, longest, 0.05, longest, 2),
            "amplitude": Control("Swings \u00b1", "\u00b0", 0, 22.5, 0.5, start["amplitude"], 1),
            "period": Control("Period", "s", 5, 30, 0.1, start["period"], 1),
            "height": Control("Above the axis", "m", -10, 20, 0.5, start["height"], 1),
            "lag": Control("Lag of glasses", "s", 0, 30, 0.5, 0, 1),
            "offset": Control("Chamber off", "mm", -500, 500, 10, 0, 0),
        }

    def _control_grid(self):
        grid = super()._control_grid()
        grid.add_class("lk-three")
        return grid

    def evaluate(self, values):
        still = values["motion"] == STILL
        for key in ("amplitude", "period", "height", "lag"):
            self.controls[key].disabled = still
        self.controls["offset"].disabled = not still
        return sea_case(self.boiler, self.barometer, SeaSetting(
            values["lies"], values["motion"], values["level"] / 1000, radians(values["list"]),
            radians(values["trim"]), radians(values["amplitude"]), values["period"],
            values["height"], values["distance"], values["lag"], values["offset"] / 1000))

    def repeats(self, result):
        return True

    def film(self, result, look, show_truth):
        boiler, setting = self.boiler, result.setting
        still = DrumAtSea(boiler.title, boiler.drum.shape, setting.lies, setting.distance,
                          boiler.glass.mounting, boiler.drum.topmost_tube, setting.level)
        if setting.motion == STILL:
            frames = [self._frame(result, 0, self._still_rows(result, look, show_truth))]
        else:
            first, last = self._swing_rows(result, look, show_truth)
            frames = [
                self._frame(result, i, (*first, _tilt(result, i), *last) if look.detail else first)
                for i in range(len(result.times))]
        return motion_film(still, self._chart(result), frames, result.times, look, show_truth)

    def _chart(self, result):
        setting = result.setting
        if setting.motion != STILL:
            shown = 1000 * result.glasses.indicated_level
            names = ("port", "starboard") if setting.lies == ATHWARTSHIPS else ("aft", "forward")
            top = 1000 * self.boiler.legs.chamber_height
            return MotionChart(
                "s", (0.0, setting.period), round_range(min(0.0, shown.min()),
                                                        max(top, shown.max()), 5, _LEAST_SPAN),
                result.times, _curves(names, shown, setting, result.times))
        list_counts = setting.lies == ATHWARTSHIPS
        across = "\u00b0 list to port" if list_counts else "\u00b0 trim by the stern"
        names = ("port", "starboard") if list_counts else ("aft", "forward")
        levels = 1000 * inclination_sweep(self.boiler, setting, np.radians(_SWEEP))
        return MotionChart(across, (_SWEEP[0], _SWEEP[-1]), (-100.0, 600.0), _SWEEP,
                           _curves(names, levels, setting, _SWEEP))

    def _glasses(self, case, i):
        return tuple(type(case.glasses)(
            float(case.glasses.indicated_level[end, i]), 0.0,
            float(case.glasses.reading[end, i]), str(case.glasses.visibility[end, i]))
            for end in (0, 1))

    def _frame(self, case, i, rows):
        list_counts = case.setting.lies == ATHWARTSHIPS
        angle = float((case.ship_list if list_counts else case.ship_trim)[i])
        cursor = degrees(angle) if case.setting.motion == STILL else float(case.times[i])
        return MotionFrame(
            float(case.surface.mid_level[i]), _slope(case, i), self._glasses(case, i), angle,
            float(case.dry_tubes[i]), cursor, rows, *self._attitude(case, i))

    def _attitude(self, case, i):
        """How the ship lies: in the plane of the picture, and altogether."""
        list_text = in_words(float(case.ship_list[i]), True)
        trim_text = in_words(float(case.ship_trim[i]), False)
        names = {STILL: ("list ", "trim "), ROLLS: ("roll: ", "trim "),
                 PITCHES: ("list ", "pitch: ")}[case.setting.motion]
        both = [text if text in _LEVEL and name.endswith(" ") and ":" not in name else name + text
                for name, text in zip(names, (list_text, trim_text), strict=True)]
        shown = both[0] if case.setting.lies == ATHWARTSHIPS else both[1]
        return shown, ", ".join(both)

    def _still_rows(self, case, look, show_truth):
        glasses, middle = self._glasses(case, 0), float(case.surface.mid_level[0])
        seen = all(glass.visibility == IN_SIGHT for glass in glasses)
        mean = _mm(sum(glass.indicated_level for glass in glasses) / 2)
        rows = (("Upright level", _mm(case.setting.level) if show_truth else "hidden"),
                ("Mid-drum level", _mm(middle) if show_truth else "hidden"),
                ("Mean", mean if seen else "out of sight"))
        if not look.detail:
            return rows
        return (*rows, ("DP indicator", "beyond tappings" if isnan(case.remote_level)
                        else _mm(case.remote_level)), _tilt(case, 0))

    def _swing_rows(self, case, look, show_truth):
        """Rows that hold for the whole swing, above and below what changes in it."""
        swing = f"\u00b1{1000 * case.swing:.0f} mm"
        first = (("Upright level", _mm(case.setting.level) if show_truth else "hidden"),
                 ("Level at a glass", swing if show_truth else "hidden"),
                 ("Glass swings", f"\u00b1{1000 * case.shown_swing:.0f} mm"))
        if not look.detail:
            return first, ()
        return first, (("Slosh period", self._slosh(case)), *self._alarm(case))

    def _slosh(self, case):
        """Period of the water's own swing, and what it would make of the motion undamped."""
        if not case.setting.along:
            return "not along drum"
        try:
            factor = f"\u00d7{swing_amplification(case.setting.period, case.slosh):.2f}"
        except InputError:
            factor = "resonance"
        return f"{case.slosh:.1f} s, {factor}"

    def _alarm(self, case):
        """Filter or delay that keeps the low alarm quiet in this swing."""
        margin = case.setting.level - self.boiler.levels.low_alarm
        if margin < 0.001 or case.swing <= margin:
            said = "is in" if margin < 0.001 else "not touched"
            return (("Low alarm", said), ("", ""))
        swing = case.swing, margin, case.setting.period
        return (("Filter to spare alarm", f"{filter_against_roll(*swing):.1f} s"),
                ("or delay", f"{delay_against_roll(*swing):.1f} s"))

    def reading(self, result, values):
        frame = min(self.player.frame, len(result.times) - 1)
        glasses = self._glasses(result, frame)
        names = ("port", "starboard") if values["lies"] == ATHWARTSHIPS else ("aft", "forward")
        return {
            "drum": values["lies"], "ship": values["motion"],
            "time [s]": format_plain(float(result.times[frame]), 2),
            "list to port [deg]": format_plain(degrees(float(result.ship_list[frame])), 2),
            "trim by stern [deg]": format_plain(degrees(float(result.ship_trim[frame])), 2),
            "upright level [mm]": format_plain(1000 * result.setting.level, 1),
            **{f"end {n} [mm]": f"{name}: {shown_text(glass)}"
               for n, (name, glass) in enumerate(zip(names, glasses, strict=True), 1)},
            "mid-drum level [mm]": format_plain(
                1000 * float(result.surface.mid_level[frame]), 1),
            "tubes dry [m]": format_plain(float(result.dry_tubes[frame]), 2),
        }


def _curves(names, levels, setting, xs):
    """Both glasses, mid-drum (their mean), and an upright ship's level, with their pens."""
    return ((names[0], levels[0], "indicated"), (names[1], levels[1], "error"),
            ("mid-drum", levels.mean(axis=0), "true"),
            ("upright level", np.full(len(xs), 1000 * setting.level), "true-thin"))


def _slope(case, i):
    """Rise of the water towards the left end [m/m]; one number where nothing tilts it."""
    return float(np.broadcast_to(case.surface.slope_along, case.times.shape)[i])


def _tilt(case, i):
    return "Water tilts", f"{abs(degrees(atan(_slope(case, i)))):.1f}\u00b0"


def _mm(height):
    return f"{1000 * height:.1f} mm"
