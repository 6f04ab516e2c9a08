"""A question with its own numbers, as it is shown and as it is solved."""

from dataclasses import dataclass, field
from functools import cached_property

from ..constants import CAUTION
from .family import CHOICE, VALUE
from .quantities import unit
from .selection import seed_code, shuffled
from .templates import filled, number_text, placeholders
from .working import result_text, worked_steps


@dataclass(frozen=True, slots=True)
class GivenValue:
    """A quantity of the question as printed.

    Attributes
    ----------
    name, symbol, unit : str
        Name in the bank, symbol in formulas, unit as printed.
    value : float
        The number as printed, in `unit`.
    text : str
        Number and unit.
    """

    name: str
    symbol: str
    unit: str
    value: float
    text: str


@dataclass(frozen=True, slots=True)
class AskedStep:
    """What a person has to answer at one step.

    Attributes
    ----------
    id, kind, ask, unit : str
        Id for the answers; "value" or "choice"; the request; unit asked for.
    marks : int
        Marks to be had.
    options : tuple of tuple of str
        (id, text) in the order of this variant; empty for a value.
    direction : tuple of str
        Words for a negative and a positive value where a direction is asked for.
    """

    id: str
    kind: str
    ask: str
    unit: str
    marks: int
    options: tuple
    direction: tuple


@dataclass(frozen=True)
class Variant:
    """A question of a family with its own numbers.

    Attributes
    ----------
    family : Family
        What it was made from.
    data : dict of str to float
        Given quantities as printed.
    solution : Solution
        Steps and slips in SI, computed from the printed numbers.
    seed : tuple of str
        The seed; empty where the data were given.
    place : int
        Which good variant of this seed it is; 0 unless a class list needed another one.
    """

    family: object
    data: dict
    solution: object = field(repr=False)
    seed: tuple = ()
    place: int = 0

    @property
    def code(self):
        """Short code for print: tells the seed, not the secret."""
        return f"{seed_code(*self.seed)}.{self.place}" if self.seed else "own data"

    @property
    def caution(self):
        """The line that stands beside advice to act; empty where none is given."""
        return CAUTION if self.family.advises_action else ""

    @cached_property
    def texts(self):
        """Given quantities as text with unit, by name."""
        return {given.name: unit(given.unit).after(self.numbers[given.name])
                for given in self.family.givens}

    @cached_property
    def numbers(self):
        """Numbers of givens and value steps as printed, by name."""
        shown = {given.name: number_text(self.data[given.name], given.decimals, given.power)
                 for given in self.family.givens}
        for step in self.family.value_steps:
            shown[step.id] = number_text(step.si.from_si(self.solution.steps[step.id]),
                                         step.decimals, step.power)
        return shown

    @cached_property
    def symbols(self):
        """Symbols of givens and value steps, by name."""
        return ({given.name: given.symbol for given in self.family.givens}
                | {step.id: step.symbol for step in self.family.value_steps})

    @cached_property
    def text(self):
        """The question in words with its numbers."""
        return filled(self.family.text, self.texts)

    @cached_property
    def givens(self):
        """The quantities that the text gives, in the order of the bank."""
        return tuple(GivenValue(given.name, given.symbol, unit(given.unit).shown,
                                self.data[given.name], self.texts[given.name])
                     for given in self.family.givens
                     if given.name in placeholders(self.family.text))

    @cached_property
    def steps(self):
        """What has to be answered, in order."""
        return tuple(AskedStep(
            step.id, step.kind, filled(step.ask, self.texts),
            step.si.shown if step.kind == VALUE else "", step.mark_count,
            self.options(step) if step.kind == CHOICE else (), step.direction)
            for step in self.family.asked_steps)

    def options(self, step):
        """Return the options of a choice step as (id, text), in the order of this variant."""
        ordered = shuffled(step.options, self.family.id, step.id, *self.seed, self.place)
        return tuple((option.id, filled(option.text, self.texts)) for option in ordered)

    def hints(self):
        """Return hint, formula and working of every step, to be shown one after the other."""
        return worked_steps(self)

    def answer(self, step_id):
        """Return the right answer of a step as it is printed."""
        return result_text(self.family.step(step_id), self.solution.steps[step_id])
