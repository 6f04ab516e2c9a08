"""The glass types panel: three direct gauge glasses, their parts, and which pressure each bears."""

from dataclasses import dataclass

import ipywidgets as widgets

from ..constants import BAR, CAUTION
from ..physics.glass_choice import TYPES, GlassType, chosen_glass
from ..scene.glass_types import HIGHEST_BAR, GlassTypesView, draw_glass_types
from .control import Control
from .panel import Panel
from .parts_quiz import PartsQuiz
from .readings import format_plain


@dataclass(frozen=True, slots=True)
class GlassTypesCase:
    """A gauge and a boiler pressure, owner of what the panel says.

    Attributes
    ----------
    kind : GlassType [Pa]
        The gauge that is drawn.
    working_pressure : float [Pa]
        Gauge pressure.
    chosen : GlassType [Pa]
        What practice chooses.
    """

    kind: GlassType
    working_pressure: float
    chosen: GlassType


class GlassTypesPanel(Panel):
    """Tubular, reflex and plate glass; hide the names and the quiz begins."""

    draws_ahead = True

    title = "Three direct gauge glasses: parts and working pressure"

    def __init__(self, boilers):
        kinds = {kind.name.split()[0]: kind.name for kind in TYPES.values()}
        self.presets = {
            name.replace("_", "-"): {"kind": kinds[boiler.glass.kind],
                           "pressure": boiler.working_pressure_bar}
            for name, boiler in boilers.items()}
        self.quiz = PartsQuiz(self._changed)
        self._drawn = None
        self.caution = widgets.HTML(f'<div class="lk-caution">{CAUTION}</div>')
        self.caution.add_class("lk-wide")
        super().__init__()
        self.truth.description = "Show the names (off: quiz)"

    def make_controls(self):
        return {
            "kind": widgets.Dropdown(options=list(TYPES), description="Gauge glass",
                                     style={"description_width": "initial"}),
            "pressure": Control("Working pressure", "bar g", 0, HIGHEST_BAR, 0.5, 7, 1),
        }

    def _control_grid(self):
        grid = super()._control_grid()
        grid.children = (*grid.children, self.caution)
        return widgets.VBox([grid, self.quiz])

    def evaluate(self, values):
        pressure = values["pressure"] * BAR
        self._follow(TYPES[values["kind"]])
        return GlassTypesCase(TYPES[values["kind"]], pressure, chosen_glass(pressure))

    def _follow(self, kind):
        """Start the quiz anew when the names go out or another gauge is drawn."""
        state = (kind.name, self.truth.value)
        if state != self._drawn:
            self._drawn = state
            self.quiz.layout.display = "none" if self.truth.value else ""
            self.caution.layout.display = "" if self.truth.value else "none"
            if not self.truth.value:
                self.quiz.start(kind)

    def draw(self, result, look, show_truth):
        named = tuple(part.name for part in result.kind.parts) if show_truth else self.quiz.named
        return draw_glass_types(
            GlassTypesView(result.kind, result.working_pressure, result.chosen, named,
                           None if show_truth else self.quiz.asked, show_truth), look)

    def reading(self, result, values):
        return {
            "working pressure [bar g]": format_plain(values["pressure"], 1),
            "gauge drawn": result.kind.name,
            "practice fits": result.chosen.name,
            "source": result.chosen.source,
        }
