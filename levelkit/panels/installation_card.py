"""The installation check: is the level indication of a boiler complete, line by line?"""

from html import escape

import ipywidgets as widgets

from ..constants import BAR, CAUTION
from ..physics.glass_choice import TYPES, GlassInstallation, installation_findings
from .heading import Heading

_NOTE = ("Gauge glass and one chamber with legs are two independent means; a second instrument on "
         "the same legs adds none. The lines marked US flag bind US ships only.")
_NOT_MET = "<b>NOT\u00a0MET</b>"  # stays on one line, as do a number and its unit


class InstallationCard(widgets.VBox):
    """Choose a boiler, change what is fitted, and see which requirement breaks."""

    def __init__(self, boilers):
        self._boilers = boilers
        style = {"description_width": "initial"}
        self.boiler = widgets.Dropdown(
            options=[(boiler.title, name) for name, boiler in boilers.items()],
            description="Boiler", style=style)
        self.glass = widgets.Dropdown(options=list(TYPES), description="Glass fitted", style=style)
        self.means = widgets.Dropdown(options=[1, 2, 3], value=2, style=style,
                                      description="Independent means")
        self.lamp = widgets.Checkbox(value=True, indent=False,
                                     description="Lamp on the emergency supply")
        self._table = widgets.HTML()
        row = widgets.Box([self.boiler, self.glass, self.means, self.lamp])
        row.add_class("lk-buttons")
        super().__init__([Heading(text="Is the level indication of this boiler complete?"), row,
                          self._table])
        self.add_class("lk-panel")
        self.boiler.observe(lambda _: self._as_built(), "value")
        for control in (self.glass, self.means, self.lamp):
            control.observe(lambda _: self._show(), "value")
        self._as_built()

    def _as_built(self):
        """Put every choice back to what the scenario file says of this boiler."""
        kind = self._boilers[self.boiler.value].glass.kind
        self.glass.value = next(name for name in TYPES if name.startswith(kind))
        self.means.value, self.lamp.value = 2, True
        self._show()

    @property
    def findings(self):
        """The lines of the check as the choices stand."""
        boiler = self._boilers[self.boiler.value]
        return installation_findings(GlassInstallation(
            self.glass.value, boiler.working_pressure_bar * BAR, boiler.glass.mounting,
            boiler.drum.topmost_tube, boiler.levels.normal, boiler.levels.low_alarm,
            boiler.levels.high_alarm, self.means.value,
            lit_by_emergency_supply=self.lamp.value))

    def _show(self):
        lines = "".join(
            f"<tr><td>{escape(line.requirement)}</td><td>{found_in_words(line)}</td>"
            f"<td>{escape(line.limit.replace('1 for yes', 'yes'))}</td>"
            f"<td>{'met' if line.met else _NOT_MET}</td><td>{escape(line.source)}</td></tr>"
            for line in self.findings)
        heads = "".join(f"<th scope='col'>{head}</th>"
                        for head in ("asked for", "found", "limit", "verdict", "source"))
        broken = sum(not line.met for line in self.findings)
        verdict = ("every line is met" if not broken else
                   "1 line is NOT met" if broken == 1 else f"{broken} lines are NOT met")
        self._table.value = (
            f'<table class="lk-table lk-text"><tr>{heads}</tr>{lines}</table>'
            f'<div role="status">{escape(self._boilers[self.boiler.value].title)}: {verdict}. '
            f'{_NOTE}</div><div class="lk-caution">{CAUTION}</div>')


def found_in_words(line):
    """Return what a line of the check found, with the unit of its limit."""
    if "yes" in line.limit:
        return "yes" if line.value else "no"
    if "bar" in line.limit or "practice" in line.limit:
        return f"{line.value:.1f}\u00a0bar\u00a0g"
    if line.limit.endswith(" m") or " m " in line.limit:
        return f"{line.value:.3f}\u00a0m".replace("-", "\u2212")
    return f"{line.value:.0f}"
