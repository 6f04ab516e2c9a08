"""The bolt drill: tighten the cover of a plate gauge in any order, see what the gasket is left."""

import re
from dataclasses import dataclass

import ipywidgets as widgets

from ..constants import CAUTION
from ..errors import InputError
from ..physics.bolts import (
    LEFT,
    RIGHT,
    BoltStep,
    GaugeCover,
    TighteningResult,
    end_first_order,
    tightening_order,
    tightening_result,
)
from ..scene.bolts import BoltsView, draw_bolts
from .panel import Panel
from .readings import format_plain

STAGES = (0.3, 0.6, 1.0)
BY_STAGES, AT_ONCE = "30 %, then 60 %, then 100 %", "100 % at once"
_SIDES = {"L": LEFT, "R": RIGHT}


@dataclass(frozen=True, slots=True)
class BoltsCase:
    """An order of tightening, owner of every number the panel shows.

    Attributes
    ----------
    order : tuple of BoltStep [1]
        The pulls so far.
    result : TighteningResult or None [N/m, N, 1, N m]
        What they leave; None before the first.
    shares : dict of (int, str) to float [1]
        Last share of each bolt.
    """

    order: tuple
    result: TighteningResult | None
    shares: dict


class BoltsPanel(Panel):
    """Sixteen bolts of an invented plate gauge; every button is a spanner."""

    title = "Tightening the cover of a plate gauge (teaching model, invented gauge)"

    def __init__(self):
        self.cover = GaugeCover()
        pairs = self.cover.pairs
        self._best = tightening_result(self.cover, tightening_order(pairs, STAGES))
        self.presets = {
            "from the middle outwards": {"order": order_text(tightening_order(pairs, STAGES)),
                                         "pull": BY_STAGES},
            "end first": {"order": order_text(end_first_order(pairs)), "pull": AT_ONCE},
        }
        super().__init__()
        self.truth.layout.display = "none"

    def make_controls(self):
        return {
            "order": widgets.Text(description="Order", continuous_update=False,
                                  placeholder="press bolts above, or type: 4L 5R 5L 4R",
                                  style={"description_width": "initial"},
                                  layout={"width": "auto"}),
            "pull": widgets.Dropdown(options=[BY_STAGES, AT_ONCE], description="Each pull goes to",
                                     style={"description_width": "initial"}),
        }

    def _control_grid(self):
        nuts = []
        for letter in _SIDES:
            for pair in range(1, self.cover.pairs + 1):
                nut = widgets.Button(description=f"{pair}{letter}")
                nut.on_click(lambda _, name=nut.description: self.pull(name))
                nuts.append(nut)
        rows = widgets.Box(nuts)
        rows.add_class("lk-nuts")
        note = widgets.HTML(f'<div class="lk-caution">The maker\'s order and torque come first. '
                            f"{CAUTION}</div>")
        return widgets.VBox([rows, super()._control_grid(), note])

    def pull(self, name):
        """Pull one bolt, such as "4L"."""
        order = self.controls["order"]
        order.value = f"{order.value} {name}".strip()

    def evaluate(self, values):
        order = parsed_order(values["order"], self.cover.pairs,
                             STAGES if values["pull"] == BY_STAGES else (1.0,))
        shares = {(pair, side): 0.0 for side in _SIDES.values()
                  for pair in range(1, self.cover.pairs + 1)}
        shares |= {(step.pair, step.side): step.share for step in order}
        return BoltsCase(order, tightening_result(self.cover, order) if order else None, shares)

    def draw(self, result, look, show_truth):
        last = (result.order[-1].pair, result.order[-1].side) if result.order else None
        return draw_bolts(BoltsView(self.cover, result.shares, last, result.result,
                                    self._rows(result), self._verdict(result)), look)

    def _rows(self, case):
        full = sum(share >= 1 for share in case.shares.values())
        best, bolts = self._best, len(case.shares)
        least = bend = "\u2013"
        if case.result is not None:
            least = f"{case.result.evenness[-1]:.2f}"
            bend = f"{case.result.bending_moment.max():.0f}"
        return (("pulls", (f"{len(case.order)}", f"{len(STAGES) * bolts}")),
                ("bolts full", (f"{full}", f"{bolts}")),
                ("least / mean load", (least, f"{best.evenness[-1]:.2f}")),
                ("bending, N m", (bend, f"{best.bending_moment.max():.0f}")))

    def _verdict(self, case):
        if case.result is None or min(case.shares.values()) < 1:
            return ("not finished",)
        if case.result.evenness[-1] >= 0.95 * self._best.evenness[-1]:
            return ("as even as from", "the middle outwards")
        return ("one place is left", "with too little load")

    def reading(self, result, values):
        worked = result.result
        return {
            "order": values["order"],
            "pulled to": values["pull"],
            "least over mean load [1]": format_plain(worked.evenness[-1], 3) if worked else "",
            "largest bending [N m]":
                format_plain(worked.bending_moment.max(), 1) if worked else "",
        }


def order_text(order):
    """Return an order of pulls as a person types it."""
    return " ".join(f"{step.pair}{step.side[0].upper()}" for step in order)


def parsed_order(text, pairs, stages):
    """Return the pulls of a typed order; each further pull of a bolt goes to its next stage."""
    done, steps = {}, []
    for word in re.split(r"[\s,;]+", text.strip().upper()) if text.strip() else ():
        match = re.fullmatch(r"(\d+)([LR])", word)
        if not match or not 1 <= int(match[1]) <= pairs:
            raise InputError(f"The order holds {word!r}; the allowed range is 1L to {pairs}R. "
                             "Type pair and side, such as 4L 5R.")
        bolt = (int(match[1]), _SIDES[match[2]])
        stage = done.get(bolt, 0)
        done[bolt] = min(stage + 1, len(stages) - 1)
        steps.append(BoltStep(*bolt, stages[stage]))
    return tuple(steps)
