"""The swell panel: a drum that looks fuller while it empties, and who opens the feed valve."""

import ipywidgets as widgets

from ..physics.transient_presets import PRESETS
from ..physics.transients import TO_THE_END
from ..scene.swell import SwellCurves, SwellView, signed, swell_film
from .boiler_run import (
    BY_HAND,
    ELEMENTS,
    LARGE,
    ONE_ELEMENT,
    SMALL,
    THREE_ELEMENTS,
    RunSetting,
    boiler_run,
)
from .control import Control
from .moving_panel import MovingPanel
from .readings import format_plain

_NAMES = {LARGE: "power-station boiler, published", SMALL: "small boiler, lumped"}
_START = {"boiler": LARGE, "event": "load step up", "feed": BY_HAND, "drum_metal": 100,
          "share": 0, "signal_error": 0, "duration": 200}
PLAYING_TIME = 20.0  # s: so long a run takes to watch


class SwellPanel(MovingPanel):
    """A drum boiler that something happens to, played as a film."""

    title = "Swell and shrink: a drum boiler through time"
    presets = {
        "load up": _START,
        "load down": _START | {"event": "load step down"},
        "safety valve sticks": _START | {"event": "safety valve sticking open"},
        "cold feed": _START | {"event": "cold feed"},
        "feed loss": _START | {"event": "feed loss"},
        "one element": _START | {"feed": ONE_ELEMENT},
        "three elements": _START | {"feed": THREE_ELEMENTS},
    }

    def __init__(self, barometer):
        self.barometer = barometer
        super().__init__()
        self.truth.description = "Show surface and mass"

    def make_controls(self):
        style = {"description_width": "initial"}
        return {
            "event": widgets.Dropdown(options=list(PRESETS), description="Event", style=style),
            "feed": widgets.Dropdown(options=[BY_HAND, ONE_ELEMENT, THREE_ELEMENTS],
                                     description="Feed", style=style),
            "boiler": widgets.Dropdown(options=[LARGE, SMALL], description="Boiler", style=style),
            "drum_metal": Control("Drum metal", "t", 0, 140, 1, _START["drum_metal"], 0),
            "share": Control("Bubbles seen", "%", 0, 100, 5, 0, 0),
            "signal_error": Control("Signal too high", "mm", 0, 200, 5, 0, 0),
            "duration": Control("Run length", "s", 60, 600, 10, _START["duration"], 0),
        }

    def _control_grid(self):
        grid = super()._control_grid()
        grid.add_class("lk-three")
        return grid

    def evaluate(self, values):
        small = values["boiler"] == SMALL
        self.controls["drum_metal"].disabled = small
        self.controls["feed"].disabled = small
        self.controls["signal_error"].disabled = small or values["feed"] not in ELEMENTS
        return boiler_run(RunSetting(
            values["boiler"], values["event"], BY_HAND if small else values["feed"],
            1000 * values["drum_metal"], values["share"] / 100, values["signal_error"] / 1000,
            values["duration"]), self.barometer)

    def pace(self, result):
        return max(1.0, round(float(result.time[-1]) / PLAYING_TIME))

    def film(self, result, look, show_truth):
        curves = SwellCurves(result.time, result.surface, result.shown, result.mass,
                             result.pressure, result.steam, result.feed)
        records = result.records
        return swell_film(SwellView(
            _NAMES[result.setting.boiler], result.setting.event, curves, records,
            tuple(_rows(result, i, look, show_truth) for i in records),
            tuple(_verdict(result, i) if show_truth else ("what it holds", "is hidden")
                  for i in records), self._notes(result, show_truth)), look, show_truth)

    def _notes(self, result, show_truth):
        """What the whole run came to."""
        notes = []
        if show_truth:
            notes.append(f"surface {_span(result.surface)}")
        notes.append(f"glass {_span(result.shown)}")
        if result.setting.feed in ELEMENTS:
            notes.append(f"feed by {result.setting.feed}: {result.feed.min():.0f} to "
                         f"{result.feed.max():.0f} kg/s")
        if result.ended != TO_THE_END:
            notes.append(f"stops: {result.ended}")
        return tuple(notes)

    def reading(self, result, values):
        i = result.records[min(self.player.frame, len(result.records) - 1)]
        return {
            "boiler": values["boiler"], "event": values["event"], "feed": result.setting.feed,
            "time [s]": format_plain(result.time[i], 1),
            "surface [mm]": format_plain(result.surface[i], 1),
            "glass [mm]": format_plain(result.shown[i], 1),
            "mass [kg]": format_plain(result.mass[i], 0),
            "pressure [bar g]": format_plain(result.pressure[i], 2),
            "bubbles [m3]": format_plain(result.bubbles[i], 3),
            "steam [kg/s]": format_plain(result.steam[i], 2),
            "feed [kg/s]": format_plain(result.feed[i], 2),
        }


def _rows(run, i, look, show_truth):
    surface = ("Bubbly surface", signed(run.surface[i], "mm") if show_truth else "hidden")
    shown = ("Glass shows", signed(run.shown[i], "mm"))
    mass = ("Water and steam", signed(run.mass[i], "kg") if show_truth else "hidden")
    if not look.detail:
        return surface, shown, mass
    bubbles = f"{run.bubbles[i]:.2f} m\u00b3" if show_truth else "hidden"
    return (surface, shown, mass, ("Bubbles in the drum", bubbles),
            ("Pressure", f"{run.pressure[i]:.1f} bar g"),
            ("Steam leaves", f"{run.steam[i]:.1f} kg/s"),
            ("Feed enters", f"{run.feed[i]:.1f} kg/s"))


def _verdict(run, i):
    """What the glass suggests, and what is so."""
    looks = _compared(run.shown[i], 0.5, ("looks fuller", "looks emptier", "looks as before"))
    holds = _compared(run.mass[i], 1.0, ("holds more", "holds less", "holds as much"))
    return looks, holds


def _span(changes):
    return f"{signed(changes.min(), 'mm')} to {signed(changes.max(), 'mm')}"


def _compared(change, hardly, words):
    more, less, same = words
    if abs(change) < hardly:
        return same
    return more if change > 0 else less
