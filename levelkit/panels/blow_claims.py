"""The candidate's side of a blow-through drill: what he holds proved, and what he declares."""

from html import escape

import ipywidgets as widgets

from ..constants import CAUTION
from ..physics.blow_decision import (
    CONTINUE,
    FEED_CAUTIOUSLY,
    NOT_PROVED,
    PROVE_ANOTHER,
    STOP_FEED,
    STOP_FIRING,
    Declaration,
)
from ..physics.blow_glass import ABOVE, BELOW, BETWEEN, IN_SIGHT
from ..physics.blow_ledger import DISPROVED, PROVED, STATEMENTS, ledger
from ..scene.blow_through import SHORT_NAMES

_ZONES = (("where is the level?", ""), ("not proved", NOT_PROVED),
          ("below the water connection", BELOW), ("between connection and glass", BETWEEN),
          ("in the visible glass", IN_SIGHT), ("above the visible glass", ABOVE))
_ACTIONS = (("what do you do?", ""), ("carry on steaming", CONTINUE),
            ("stop firing; feed only if allowed", FEED_CAUTIOUSLY),
            ("stop feed, ease firing and steam", STOP_FEED),
            ("stop firing, do NOT feed, report", STOP_FIRING),
            ("assume low water, prove another", PROVE_ANOTHER))


class BlowClaims(widgets.VBox):
    """Ticks for the statements, and a declaration of level and action."""

    def __init__(self):
        self.ticks = {statement: widgets.Checkbox(value=False, indent=False,
                                                  description=SHORT_NAMES[statement])
                      for statement in STATEMENTS}
        self.compare = widgets.Button(description="Compare with the ledger")
        self.zone = widgets.Dropdown(options=_ZONES, description="Level",
                                     style={"description_width": "initial"})
        self.action = widgets.Dropdown(options=_ACTIONS, description="Action",
                                       style={"description_width": "initial"})
        self.declare = widgets.Button(description="Declare and end the drill")
        boxes = widgets.Box(list(self.ticks.values()))
        boxes.add_class("lk-ticks")
        super().__init__([
            widgets.HTML("<b>What do you hold proved now?</b>"), boxes, self.compare,
            widgets.HTML("<b>Your decision</b>"), self.zone, self.action, self.declare,
            widgets.HTML(f'<div class="lk-caution">{CAUTION}</div>'),
        ])
        self.add_class("lk-claims")

    def clear(self):
        """Take every tick and choice back."""
        for tick in self.ticks.values():
            tick.value = False
        self.zone.value = self.action.value = ""
        self.enable(True)

    def enable(self, is_open):
        """Open or close the candidate's side."""
        for part in (*self.ticks.values(), self.compare, self.zone, self.action, self.declare):
            part.disabled = not is_open

    @property
    def claimed(self):
        """Statements that are ticked."""
        return tuple(statement for statement, tick in self.ticks.items() if tick.value)

    @property
    def declaration(self):
        """Level, action and claims; None while one of the two is not chosen."""
        if not self.zone.value or not self.action.value:
            return None
        return Declaration(self.zone.value, self.action.value, self.claimed)


def compared(drill, claimed):
    """Return what the ledger says to the ticks, as markup."""
    verdicts = {line.statement: line.verdict for line in ledger(drill)}
    wrong = [SHORT_NAMES[name] for name in claimed if verdicts[name] != PROVED]
    missed = [SHORT_NAMES[name] for name, verdict in verdicts.items()
              if verdict == PROVED and name not in claimed]
    against = [SHORT_NAMES[name] for name, verdict in verdicts.items() if verdict == DISPROVED]
    right = len(claimed) - len(wrong)
    parts = [f"{right} of {len(claimed)} ticks are borne out." if claimed else "Nothing ticked."]
    for opening, names in (("Nothing seen so far proves:", wrong), ("Proved too:", missed),
                           ("Disproved:", against)):
        if names:
            parts.append(f"{opening} {', '.join(names)}.")
    return escape(" ".join(parts))
