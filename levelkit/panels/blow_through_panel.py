"""The blow-through drill: cocks in any order, a ledger of proofs, a decision that is judged."""

from dataclasses import dataclass
from html import escape

import ipywidgets as widgets

from ..physics.blow_decision import Judgement, judged
from ..physics.blow_glass import (
    DIES_AWAY,
    DRAIN,
    DRY,
    EMPTY,
    FOAMING,
    FULL,
    LEVEL,
    NEARLY_FULL,
    NO_BLOW,
    OPEN,
    OPEN_GENTLY,
    SHUT,
    STEAM,
    STRONG,
    WATER,
    WEAK,
    WET,
    DrillMove,
)
from ..physics.blow_ledger import DISPROVED, PROVED, ledger
from ..physics.blow_replay import record_rows
from ..physics.blow_through import PLATE_DRILL, TUBULAR_DRILL, BlowDrill, moved, new_drill
from ..scene.blow_through import BlowView, draw_blow_through, sight_words
from .blow_claims import BlowClaims, compared
from .control import Control
from .panel import Panel

_BLOWS = (("no answer", ()), ("no blow", (NO_BLOW, "")), ("a blow that dies away",
          (DIES_AWAY, "")), ("weak wet blow", (WEAK, WET)), ("weak dry blow", (WEAK, DRY)),
          ("strong wet blow", (STRONG, WET)), ("strong dry blow", (STRONG, DRY)))
_GLASSES = (("no answer", ()), ("empty", (EMPTY,)), ("a level", (LEVEL,)),
            ("full, or nearly", (FULL, NEARLY_FULL)), ("foaming", (FOAMING,)))
_MOVES = (("Shut", SHUT), ("Ease open", OPEN_GENTLY), ("Throw open", OPEN))


@dataclass(frozen=True, slots=True)
class BlowCase:
    """A drill as it stands, and which of its moves is looked at.

    Attributes
    ----------
    drill : BlowDrill
        The run so far.
    looked_at : int
        Number of the entry that the picture shows.
    compared_at : int
        Number of the last entry whose proofs the candidate has compared.
    judgement : Judgement or None
        How the drill ended.
    """

    drill: BlowDrill
    looked_at: int
    compared_at: int
    judgement: Judgement | None


class BlowThroughPanel(Panel):
    """One drill after another, each behind its number."""

    title = "Blowing through: what does each move prove?"

    def __init__(self):
        self._key = self.drill = self.judgement = None
        self.claims = BlowClaims()
        self.claims.compare.on_click(lambda _: self.compare())
        self.claims.declare.on_click(lambda _: self.declare())
        self.said = widgets.HTML()
        self.moves = self._move_rows()
        super().__init__()
        heading, picture, grid, problem, buttons, *rest = self.children
        body = widgets.Box([picture, self.claims])
        body.add_class("lk-drill")
        self.children = [heading, body, self.moves, self.said, grid, problem, buttons, *rest]
        self.truth.description = "Show what is hidden (lecturer)"
        self.truth.value = False

    def make_controls(self):
        return {
            "seed": Control("Drill number", "", 1, 9999, 1, 1, 0),
            "variant": widgets.Dropdown(options=[TUBULAR_DRILL, PLATE_DRILL],
                                        description="Gauge",
                                        style={"description_width": "initial"}),
        }

    def _move_rows(self):
        def choice(name, options):
            return widgets.Dropdown(options=options, description=name,
                                    style={"description_width": "initial"})
        self.expected_blow = choice("Before you turn it: I expect at the drain", _BLOWS)
        self.expected_glass = choice("and the glass", _GLASSES)
        self.turns = {}
        for cock in (STEAM, WATER, DRAIN):
            for label, action in _MOVES:
                button = widgets.Button(description=f"{label} {cock[0].upper()}")
                button.on_click(lambda _, cock=cock, action=action: self.turn(
                    DrillMove(cock, action)))
                self.turns[cock, action] = button
        rows = []
        for children in ((self.expected_blow, self.expected_glass), self.turns.values()):
            row = widgets.Box(list(children))
            row.add_class("lk-buttons")
            rows.append(row)
        return widgets.VBox(rows)

    def _button_row(self):
        def button(label, action):
            made = widgets.Button(description=label)
            made.on_click(lambda _: action())
            return made
        self.earlier = button("\u25c2 earlier move", lambda: self._look(-1))
        self.later = button("later move \u25b8", lambda: self._look(1))
        row = widgets.Box([
            button("New drill", self.next_drill), button("Begin again", self.begin), self.earlier,
            self.later, self.projector, button("Save CSV", self.save), self.truth])
        row.add_class("lk-buttons")
        return row

    def begin(self):
        """Begin this drill again from the glass as found."""
        self._key = None
        self._changed()

    def reset(self):
        super().reset()
        self.begin()

    def next_drill(self):
        """Go on to the drill of the next number."""
        seed = self.controls["seed"]
        seed.value = seed.value % seed.maximum + 1

    def _start_drill(self, key):
        self._key, self.drill = key, new_drill(*key)
        self.judgement, self._compared_at, self._looked_at = None, -1, 0
        self._expected, self._claimed = {}, {}
        self.claims.clear()
        self._open(True)
        self._tell("Both cocks are open, the drain is shut. Say what you expect, then turn a cock: "
                   "any order. A cock can be eased open or thrown open.")

    def _open(self, is_open):
        """Open or close the candidate's side; a drill that is over takes no more moves."""
        self.claims.enable(is_open)
        self.moves.layout.display = "" if is_open else "none"

    def evaluate(self, values):
        key = (int(values["seed"]), values["variant"])
        if key != self._key:
            self._start_drill(key)
        return BlowCase(self.drill, self._looked_at, self._compared_at, self.judgement)

    def turn(self, move):
        """Turn a cock, and answer what was expected with what was seen."""
        if self.judgement is not None:
            self._tell("This drill is over. Begin again, or take a new one.")
            return
        self.drill = moved(self.drill, move)
        entry = self.drill.entries[-1]
        blow, glass = self.expected_blow.value, self.expected_glass.value
        if blow or glass:
            as_expected = ((not blow or blow == (entry.sight.blow, entry.sight.nature))
                           and (not glass or entry.sight.glass in glass))
            self._expected[entry.number] = (blow, glass, as_expected)
            answer = "As you expected." if as_expected else (
                f"You expected {self._said_before()}: so what does it tell you?")
        else:
            answer = "You did not say what you expected."
        self._tell(f"Move {entry.number}: {sight_words(entry.sight)}. {answer} What is proved now?")
        self.expected_blow.value = self.expected_glass.value = ()
        self._looked_at = entry.number
        self._changed()

    def _said_before(self):
        parts = [part.label for part in (self.expected_blow, self.expected_glass)
                 if part.value]
        return ", ".join(parts)

    def compare(self):
        """Hold the ticks against the ledger, and open the ledger up to this move."""
        self._compared_at = self.drill.entries[-1].number
        self._claimed[self._compared_at] = self.claims.claimed
        self._tell_markup(compared(self.drill, self.claims.claimed))
        self._changed()

    def declare(self):
        """End the drill: judge level, action and claims by what was seen."""
        declaration = self.claims.declaration
        if declaration is None:
            self._tell("Say where the level is and what you do, then declare.")
            return
        self.judgement = judged(self.drill, declaration)
        self._compared_at = self.drill.entries[-1].number
        self._claimed[self._compared_at] = declaration.claims
        self._open(False)
        self._tell_markup(self._ended())
        self._changed()

    def _ended(self):
        verdict, drill = self.judgement, self.drill
        right = sum(as_expected for _, _, as_expected in self._expected.values())
        decision = verdict.decision
        told = [] if verdict.reasons else [f"{decision.action.capitalize()}. {decision.caution}"]
        told += [*verdict.reasons, *verdict.remarks]
        opening = "BORNE OUT" if verdict.passed else "NOT BORNE OUT"
        hidden = "no fault" if drill.fault == "none" else drill.fault
        made = len(drill.entries) - 1
        return (f"<b>{opening}</b> by what was seen. {escape(' '.join(told))} Why: "
                f"{escape(decision.reason)} ({escape(decision.source)}). Hidden was: "
                f"<b>{escape(hidden)}, level {drill.condition.zone}</b>. {made} "
                f"move{'' if made == 1 else 's'}; {right} of {len(self._expected)} "
                "expectations right.")

    def _tell(self, sentence):
        self._tell_markup(escape(sentence))

    def _tell_markup(self, markup):
        self.said.value = f'<div class="lk-said" role="status">{markup}</div>'

    def _look(self, step):
        """Replay: look at another move of the run."""
        self._looked_at = min(max(self._looked_at + step, 0), len(self.drill.entries) - 1)
        self._changed()

    def draw(self, result, look, show_truth):
        self.earlier.disabled = result.looked_at == 0
        self.later.disabled = result.looked_at == len(result.drill.entries) - 1
        over = result.judgement is not None
        condition = result.drill.condition if over or show_truth else None
        return draw_blow_through(
            BlowView(result.drill.entries[:result.looked_at + 1], _ledger(result, show_truth),
                     condition, f"Drill {result.drill.seed}: proved?"), look)

    def record(self):
        """Return the run as rows for a spreadsheet, with what the candidate said."""
        rows = []
        for row in record_rows(self.drill):
            blow, glass, as_expected = self._expected.get(row["move"], ((), (), None))
            rows.append(row | {
                "expected blow": " ".join(blow).strip() if blow else "",
                "expected glass": " or ".join(glass) if glass else "",
                "as expected": {None: "", True: "yes", False: "no"}[as_expected],
                "claimed": "; ".join(self._claimed.get(row["move"], ())),
                "declared": self._declared() if row["move"] == len(self.drill.entries) - 1 else "",
            })
        return rows

    def _declared(self):
        if self.judgement is None:
            return ""
        verdict = "borne out" if self.judgement.passed else "not borne out"
        return f"{self.claims.zone.value}; {self.claims.action.value}; {verdict}"

    def save(self, folder="."):
        """Write the run to a new file."""
        self.readings.rows = self.record()
        return self.readings.save(folder)


def _ledger(case, show_all):
    """The ledger as far as the candidate may see it, at the move that is looked at."""
    words = {PROVED: "yes", DISPROVED: "NO"}
    lines = []
    for line in ledger(case.drill):
        settled = line.move is not None and line.move <= case.looked_at
        if settled and (show_all or line.move <= case.compared_at):
            lines.append((line.statement, words[line.verdict], line.move))
        else:
            known = show_all or case.looked_at <= case.compared_at
            lines.append((line.statement, "not yet" if known else "?", None))
    return tuple(lines)
