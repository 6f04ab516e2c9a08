"""The current loop panel: will the supply drive the load, and what does the indicator get?"""

from dataclasses import dataclass, replace
from math import inf

import ipywidgets as widgets
import numpy as np

from ..charts.frame import Axes, chart_frame
from ..errors import checked
from ..physics.loop_power import (
    GREATEST_SIGNAL,
    LoopResult,
    LoopState,
    Receiver,
    cable_resistance,
    greatest_load,
    loop_reading,
)
from ..physics.signal import current_band, fraction_of_current, limited_current, receiver_voltage
from ..physics.transmitter_check import loop_error
from ..physics.transmitter_state import FAILS_HIGH, FAILS_LOW, FAILURE_CURRENTS, HEALTHY
from ..scene.loop import CHART, PARALLEL, SERIES, LoopView, draw_loop
from ..units import format_number
from .control import Control
from .panel import Panel
from .readings import format_plain

SOUND, BROKEN, LEAK = "sound", "one wire broken", "leak across the pair"
LEAKAGE = 5e3  # ohm: damp in a junction box
ONE, IN_SERIES, IN_PARALLEL = "one: the indicator", "two in series", "two in parallel (wrong)"
_NORMAL = {"level": 50, "sends": HEALTHY, "supply": 24, "length": 320, "area": 1.5, "needs": 10.5,
           "indicator": 250, "receivers": ONE, "second": 120, "wiring": SOUND}


@dataclass(frozen=True, slots=True)
class LoopCase:
    """A worked-out loop, owner of every number the panel shows.

    Attributes
    ----------
    loop : LoopState [V, ohm]
        The loop.
    result : LoopResult [A, V]
        What flows in it.
    wanted : float [A]
        What the transmitter wants to send.
    greatest_load : float [ohm]
        Load that still lets the failure signal through.
    load_line : tuple of (float, float) [V, A]
        Terminal voltage against current.
    band : str
        What the receiver's current means.
    error : float [1]
        Share of the span by which the indicator is wrong.
    """

    loop: LoopState
    result: LoopResult
    wanted: float
    greatest_load: float
    load_line: tuple
    band: str
    error: float


class LoopPanel(Panel):
    """Supply, cable, two-wire transmitter and receivers."""

    draws_ahead = True

    title = "Current loop of a two-wire transmitter"
    presets = {
        "24 V, one receiver": _NORMAL,
        "two in series": _NORMAL | {"receivers": IN_SERIES},
        "12 V battery": _NORMAL | {"supply": 12, "level": 80},
        "second in parallel": _NORMAL | {"receivers": IN_PARALLEL, "second": 250},
        "long thin cable": _NORMAL | {"length": 2000, "area": 0.5, "level": 100},
        "wire broken": _NORMAL | {"wiring": BROKEN},
        "leak": _NORMAL | {"wiring": LEAK, "level": 10},
    }

    def __init__(self):
        super().__init__()
        self.truth.description = "Show what the transmitter wants to send"

    def make_controls(self):
        def choice(name, options, key):
            return widgets.Dropdown(options=options, description=name, value=_NORMAL[key],
                                    style={"description_width": "initial"})

        return {
            "level": Control("Level measured", "%", 0, 100, 0.5, 50, 1),
            "supply": Control("Supply", "V", 6, 40, 0.5, 24, 1),
            "indicator": Control("Indicator", "\u03a9", 10, 600, 10, 250, 0),
            "sends": choice("It sends", [("the level", HEALTHY),
                                         ("failure, low: 3.5 mA", FAILS_LOW),
                                         ("failure, high: 21.5 mA", FAILS_HIGH)], "sends"),
            "needs": Control("It needs", "V", 5, 20, 0.5, 10.5, 1),
            "second": Control("Second receiver", "\u03a9", 10, 600, 10, 120, 0),
            "length": Control("Cable, one way", "m", 0, 3000, 10, 320, 0),
            "area": choice("Core", [(f"{area:g} mm\u00b2", area)
                                    for area in (0.5, 0.75, 1.0, 1.5, 2.5)], "area"),
            "receivers": choice("Receivers", [ONE, IN_SERIES, IN_PARALLEL], "receivers"),
            "wiring": choice("Wiring", [SOUND, BROKEN, LEAK], "wiring"),
        }

    def _control_grid(self):
        grid = super()._control_grid()
        grid.add_class("lk-three")
        return grid

    def evaluate(self, values):
        self.controls["second"].disabled = values["receivers"] == ONE
        self.controls["level"].disabled = values["sends"] != HEALTHY
        loop = _loop(values)
        right = values["level"] / 100
        wanted = (limited_current(right).current if values["sends"] == HEALTHY
                  else FAILURE_CURRENTS[values["sends"]])
        result = loop_reading(loop, wanted)
        band = current_band(checked("The indicator's current", result.receiver_current, 0, 0.1,
                                    "A", "Lower the supply or raise the load."))
        return LoopCase(loop, result, wanted,
                        greatest_load(loop.supply_voltage, loop.minimum_terminal_voltage),
                        _load_line(loop), band, loop_error(result.receiver_current, right))

    def draw(self, result, look, show_truth):
        arrangement = (PARALLEL if self.controls["receivers"].value == IN_PARALLEL else SERIES)
        view = LoopView(result.loop, result.result, result.wanted, result.load_line, arrangement,
                        result.band, result.error, self._rows(result, look, show_truth),
                        show_truth)
        axes = Axes("voltage across the transmitter, V", "current, mA", (0.0, 40.0), (0.0, 25.0),
                    (0.0, 10.0, 20.0, 30.0, 40.0), (0.0, 4.0, 8.0, 12.0, 16.0, 20.0))
        return draw_loop(view, chart_frame(axes, look, *CHART), look)

    def _rows(self, case, look, show_truth):
        loop, result = case.loop, case.result
        wants = ("It wants to send",
                 f"{1e3 * case.wanted:.2f} mA" if show_truth else "hidden")
        gets = ("Indicator gets", f"{1e3 * result.receiver_current:.2f} mA")
        shows = ("It shows", f"{_percent(result.receiver_current)} %")
        load = ("Load", f"{loop.load:.0f} \u03a9")
        greatest = (f"Most at {1e3 * GREATEST_SIGNAL:.0f} mA",
                    f"{format_number(case.greatest_load, 0)} \u03a9")
        if not look.detail:
            return (load, greatest, wants, gets, shows)
        volts = receiver_voltage(result.receiver_current, loop.receivers[0].resistance)
        return (("Supply", f"{loop.supply_voltage:.1f} V"), load, greatest, wants, gets, shows,
                ("Across the indicator", f"{volts:.2f} V"), ("NE 43", case.band))

    def reading(self, result, values):
        loop, flows = result.loop, result.result
        return {
            "level measured [%]": format_plain(values["level"], 1),
            "supply [V]": format_plain(loop.supply_voltage, 1),
            "cable [ohm]": format_plain(loop.cable_resistance, 2),
            "load [ohm]": format_plain(loop.load, 1),
            "most at 22 mA [ohm]": format_plain(result.greatest_load, 1),
            "wanted [mA]": format_plain(1e3 * result.wanted, 2),
            "indicator [mA]": format_plain(1e3 * flows.receiver_current, 2),
            "across transmitter [V]": format_plain(flows.terminal_voltage, 2),
            "shown [%]": format_plain(100 * fraction_of_current(flows.receiver_current), 1),
            "starved": "yes" if flows.starved else "no",
            "NE 43": result.band,
            "receivers": values["receivers"],
            "wiring": values["wiring"],
        }


def _loop(values):
    first = Receiver("indicator", values["indicator"])
    receivers = (first,)
    if values["receivers"] == IN_SERIES:
        receivers = (first, Receiver("second receiver", values["second"]))
    elif values["receivers"] == IN_PARALLEL:
        receivers = (replace(first, shunt=values["second"]),)
    return LoopState(
        values["supply"], receivers, cable_resistance(values["length"], values["area"] * 1e-6),
        values["needs"], values["wiring"] == BROKEN,
        LEAKAGE if values["wiring"] == LEAK else inf)


def _load_line(loop):
    """Terminal voltage for every current that the supply could drive down to no voltage."""
    if loop.wire_broken:
        return ()
    currents = np.linspace(0.0, 0.024, 25)
    free = loop_reading(replace(loop, minimum_terminal_voltage=0.0), currents)
    line = [(float(volts), float(amperes)) for volts, amperes in
            zip(free.terminal_voltage, free.current, strict=True)]
    return tuple(dict.fromkeys(line))


def _percent(current):
    return format_number(100 * fraction_of_current(current), 1)
