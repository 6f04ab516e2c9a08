"""The cocks panel: turn steam, water and drain cock, choke a way, and watch the glass in time."""

from dataclasses import dataclass, replace
from html import escape

import ipywidgets as widgets

from ..constants import BAR, CAUTION
from ..faults import fault_named
from ..physics.cock_flows import free_areas
from ..physics.cock_state import CockState
from ..physics.cock_times import choked_height, pocket_time_constant
from ..physics.cocks import GlassHistory, glass_history
from ..physics.glass import glass_column_height
from ..physics.steam_lookup import steam_at
from ..scene.cocks import CocksView, cocks_film
from .cocks_setting import DRAINED, FAULTS, IN_SERVICE, KEPT, CockSetting, cock_state
from .control import Control
from .moving_panel import MovingPanel
from .readings import format_plain

POINTS = 61
_ADVICE = {"steam way choked": "steam-way-choked", "water way choked": "water-way-choked",
           "both ways choked": "both-ways-choked", "drain passes, 3 mm\u00b2":
           "glass-drain-leaking", "top joint leaks, 1 mm\u00b2": "top-joint-leaking"}
_COMBINATIONS = {f"S {s}, W {w}, D {d}": (100 * (s == "open"), 100 * (w == "open"),
                                         100 * (d == "open"))
                 for s in ("open", "shut") for w in ("open", "shut") for d in ("shut", "open")}
_COCKS = ("steam", "water", "drain")
_DURATIONS = (("10 s", 10.0), ("30 s", 30.0), ("2 min", 120.0), ("10 min", 600.0),
              ("1 hour", 3600.0))


@dataclass(frozen=True, slots=True)
class CocksCase:
    """A worked-out run, owner of every number the panel shows.

    Attributes
    ----------
    state : CockState [Pa, m, 1]
        At its start.
    history : GlassHistory [s, m, Pa, kg/s]
        The run.
    true_height : float [m]
        What a healthy glass would show.
    steam_constant, water_constant : float [s]
        Time constants with the steam and with the water way choked.
    fault : str
        What is wrong, in words.
    """

    state: CockState
    history: GlassHistory
    true_height: float
    steam_constant: float
    water_constant: float
    fault: str


class CocksPanel(MovingPanel):
    """The auxiliary boiler's tubular gauge, or another boiler's, with its three cocks."""

    def __init__(self, boiler, barometer):
        self.boiler, self.barometer = boiler, barometer
        self.title = f"Gauge glass and its cocks: {boiler.title} (invented)"
        normal = boiler.presets["normal"]
        start = {"pressure": normal.gauge_pressure_bar, "level": normal.level_mm, "steam": 100,
                 "water": 100, "drain": 0, "fault": "none", "begin": IN_SERVICE, "seconds": 30.0}
        self._normal = start
        self.presets = {
            "steam choked": start | {"fault": "steam way choked"},
            "water choked": start | {"fault": "water way choked", "seconds": 3600.0},
            "both choked": start | {"fault": "both ways choked", "seconds": 600.0},
            "drain passes": start | {"fault": "drain passes, 3 mm\u00b2"},
            "after a blow: W only": start | {"begin": DRAINED, "steam": 0},
            "level below": start | {"level": -40, "begin": DRAINED, "steam": 0},
        }
        self._kept = None
        self.keep = widgets.Button(description="Go on from here")
        self.keep.on_click(lambda _: self.go_on())
        self.advice = widgets.HTML()
        self.advice.add_class("lk-wide")
        super().__init__()
        self.truth.description = "Show what happens"

    def make_controls(self):
        def choice(name, options, value=None):
            return widgets.Dropdown(options=options, description=name, value=value or options[0],
                                    style={"description_width": "initial"})
        start = self._normal
        self._combination = widgets.Dropdown(
            options=[("partly open", ""), *((name, name) for name in _COMBINATIONS)],
            description="All eight", style={"description_width": "initial"})
        self._combination.observe(self._combine, "value")
        return {
            "steam": Control("Steam cock S", "%", 0, 100, 1, 100, 0),
            "water": Control("Water cock W", "%", 0, 100, 1, 100, 0),
            "drain": Control("Drain cock D", "%", 0, 100, 1, 0, 0),
            "level": Control("Drum level", "mm", -80, 480, 1, start["level"], 0),
            "pressure": Control("Pressure", "bar g", 0.5, 100, 0.5, start["pressure"], 1),
            "fault": choice("Fault", list(FAULTS)),
            "begin": choice("Begins", [IN_SERVICE, DRAINED, KEPT]),
            "seconds": widgets.Dropdown(options=_DURATIONS, value=30.0, description="Lasts",
                                        style={"description_width": "initial"}),
        }

    def _combine(self, change):
        wanted = _COMBINATIONS.get(change["new"])
        if wanted is not None and wanted != self._openings():
            self.set(**dict(zip(_COCKS, wanted, strict=True)))

    def _openings(self):
        return tuple(self.controls[key].value for key in _COCKS)

    def _control_grid(self):
        grid = super()._control_grid()
        grid.children = (*grid.children, self._combination, self.advice)
        grid.add_class("lk-three")
        return grid

    def _button_row(self):
        row = super()._button_row()
        row.children = (self.keep, *row.children)
        return row

    def go_on(self):
        """Keep what the glass holds in the picture at rest as the beginning of the next run."""
        time = float(self.result.history.time[self.player.frame])
        contents = self.result.state.contents if time == 0 else glass_history(
            self.result.state, time, 2).end.contents
        self._kept = replace(contents, time=0.0)
        if self.controls["begin"].value == KEPT:
            self._changed()
        else:
            self.controls["begin"].value = KEPT

    def evaluate(self, values):
        self._combination.value = next((name for name, openings in _COMBINATIONS.items()
                                        if openings == self._openings()), "")
        state = cock_state(self.boiler, self.barometer, CockSetting(
            values["pressure"], values["level"] / 1000,
            *(values[key] / 100 for key in _COCKS), values["fault"], values["begin"], self._kept))
        self.advice.value = _advice(values["fault"])
        drum, fitting = state.drum, state.fitting
        here = steam_at(state.steam, drum.pressure)
        constants = [pocket_time_constant(
            fitting.bore_area, here.latent_heat, density, fitting.dry_heat_loss,
            here.temperature - fitting.ambient_temperature)
            for density in (drum.steam_density, fitting.water_density)]
        return CocksCase(
            state, glass_history(state, values["seconds"], POINTS),
            glass_column_height(drum.level, drum.water_density, drum.steam_density,
                                fitting.water_density), *constants,
            "all ways clear" if values["fault"] == "none" else values["fault"])

    def pace(self, result):
        return max(1.0, float(result.history.time[-1]) / 30.0)

    def draw(self, result, look, show_truth):
        """Return the frame at rest; the end of a run that the panel itself still hides."""
        drawing = super().draw(result, look, show_truth)
        return self._drawn.drawing(-1) if show_truth and not self.truth.value else drawing

    def film(self, result, look, show_truth):
        rows = tuple(self._rows(result, frame, look) for frame in range(POINTS))
        return cocks_film(CocksView(result.state, result.history, result.true_height,
                                    _expected(result), result.fault, rows), look, show_truth)

    def _rows(self, case, frame, look):
        history = case.history
        height = ("In the glass", f"{1000 * history.height[frame]:.1f} mm")
        times = (("\u03c4, steam choked", _seconds(case.steam_constant)),
                 ("\u03c4, water choked", _seconds(case.water_constant)))
        if not look.detail:
            return (height, *times)
        return (
            ("Time", f"{history.time[frame]:.1f} s"), height,
            ("All clear it would be", f"{1000 * case.true_height:.1f} mm".replace("-", "\u2212")),
            ("Pocket, absolute", f"{history.pocket_pressure[frame] / BAR:.2f} bar"),
            ("Into the glass by W", _grams(history.water_flow[frame])),
            ("by S", _grams(history.steam_flow[frame])),
            ("Condensing", _grams(history.condensation[frame])), *times)

    def reading(self, result, values):
        history, frame = result.history, min(self.player.frame, POINTS - 1)
        return {
            "time [s]": format_plain(history.time[frame], 1),
            "in the glass [mm]": format_plain(1000 * history.height[frame], 1),
            "true level [mm]": format_plain(values["level"], 0),
            "pressure [bar g]": format_plain(values["pressure"], 1),
            "S [%]": format_plain(values["steam"], 0),
            "W [%]": format_plain(values["water"], 0),
            "D [%]": format_plain(values["drain"], 0),
            "fault": values["fault"],
            "drain": f"{history.blow[frame].strength} {history.blow[frame].nature}".strip(),
        }


def _expected(case):
    """The closed form that belongs to the run, where there is one."""
    state, history = case.state, case.history
    steam, water, drain = free_areas(state)
    leaks = drain or state.faults.top_leak_area or state.faults.bottom_leak_area
    if leaks or state.contents.gas_amount or (steam > 0) == (water > 0):
        return None
    if not steam and state.drum.level <= state.fitting.pipe_lip:
        return None
    constant = case.water_constant if steam else case.steam_constant
    heights = choked_height(history.time, state.contents.height, state.fitting.steam_connection,
                            constant)
    return f"exp, \u03c4 = {_seconds(constant)}", heights


def _advice(fault):
    """What to do about a fault, with the caution beside it."""
    if fault not in _ADVICE:
        return ""
    known = fault_named(_ADVICE[fault])
    hides = "<b>May hide low water.</b> " if known.hides_low_water else ""
    return f'<div class="lk-caution">{hides}{escape(known.safe_action)} {CAUTION}</div>'


def _seconds(time):
    return f"{time:.1f} s" if time < 100 else f"{time / 60:.1f} min"


def _grams(flow):
    return f"{1000 * flow:+.2f} g/s".replace("-", "\u2212")
