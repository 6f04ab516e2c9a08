"""A question family as data: what is given, what is asked, which slips are known.

The bank's TOML files are turned into these; nothing here computes an answer.
"""

import re
from dataclasses import dataclass
from functools import cached_property

from ..errors import LevelkitError
from .quantities import unit

VALUE, CHOICE, METHOD = "value", "choice", "method"
_MARK = re.compile(r"([MAB])(\d+)")


class BankError(LevelkitError):
    """A family that cannot be used. Its text names the family, the place and the cure."""


def marks_by_kind(text):
    """Return marks written as in a scheme, by kind: M method, A accuracy, B independent.

    Examples
    --------
    >>> marks_by_kind("M1 A1 B2")
    {'M': 1, 'A': 1, 'B': 2}
    """
    found = _MARK.findall(text)
    if not found or len(found) != len(text.split()):
        raise BankError(f"marks “{text}” are not written like “M1 A1 B1”.")
    kinds = {"M": 0, "A": 0, "B": 0}
    for kind, count in found:
        kinds[kind] += int(count)
    return kinds


@dataclass(frozen=True)
class Given:
    """A quantity that the text gives.

    Attributes
    ----------
    name, symbol : str
        Name in templates and in the answer function; symbol in formulas.
    unit : str
        Unit as printed.
    decimals : int
        Digits printed after the point (of the mantissa where `power`).
    values : tuple of float
        What a variant may take, as printed; empty for a dependent quantity.
    source : str
        Name in :mod:`derived` of the function that gives a dependent quantity.
    of : tuple of str
        Names of the quantities that it depends on.
    power : bool
        Printed as 2.0 × 10⁻⁶.
    """

    name: str
    symbol: str
    unit: str
    decimals: int
    values: tuple = ()
    source: str = ""
    of: tuple = ()
    power: bool = False


@dataclass(frozen=True)
class Option:
    """One answer that a choice step offers; a wrong one carries its cure."""

    id: str
    text: str
    sentence: str = ""
    misconception: str = ""


@dataclass(frozen=True)
class Slip:
    """A known wrong answer to a value step.

    Attributes
    ----------
    id, step : str
        Its own name, and the step at which it is made.
    sentence : str
        What to tell the person, without the right number.
    misconception : str
        Code of the misunderstanding behind it; may be empty.
    keeps_method : bool
        True where the method marks of the step are still earned.
    """

    id: str
    step: str
    sentence: str
    misconception: str = ""
    keeps_method: bool = False


@dataclass(frozen=True)
class Step:
    """One line of a solution, with its marks.

    Attributes
    ----------
    id, kind : str
        Name; "value" (a number), "choice" (one of the options) or "method" (a relation,
        earned by the value step that it leads to).
    marks : str
        Such as "M1 A1"; a B mark of a value step is that for the direction.
    ask, hint : str
        What to find; a nudge without formula.
    symbol, unit, decimals, power
        How the number is printed.
    tolerance, relative_tolerance : float or None
        Allowed deviation, in `unit` or as a share of the value; one of the two.
    formula : str
        Template in names of givens and earlier steps; text in [[ ]] only with numbers.
    direction : tuple of str
        Words for a negative and a positive value, such as ("low", "high"); marked apart.
    direction_sentence, direction_misconception : str
        What to tell whoever takes the wrong direction.
    reference : str
        "gauge" or "absolute" for a pressure, else empty.
    options : tuple of Option
        Of a choice step.
    right : str
        Id of the right option; empty where the answer function decides.
    fixed : bool
        The value is what it is by nature (a limit of a standard, a given with its sign
        turned): luck is not looked for.
    shown_by : str
        Of a method step: the value step that earns it.
    """

    id: str
    kind: str
    marks: str
    ask: str
    hint: str
    symbol: str = ""
    unit: str = ""
    decimals: int = 1
    power: bool = False
    tolerance: object = None
    relative_tolerance: object = None
    formula: str = ""
    direction: tuple = ()
    direction_sentence: str = ""
    direction_misconception: str = ""
    reference: str = ""
    options: tuple = ()
    right: str = ""
    fixed: bool = False
    shown_by: str = ""

    @cached_property
    def mark_kinds(self):
        """Marks by kind."""
        return marks_by_kind(self.marks)

    @property
    def mark_count(self):
        """Marks of this step."""
        return sum(self.mark_kinds.values())

    @cached_property
    def si(self):
        """Unit of the step with its way to SI."""
        return unit(self.unit)

    @property
    def half_last_digit(self):
        """Half of the last digit as printed, in SI: nobody types finer; 0 for powers of ten."""
        return 0.0 if self.power else 0.5 * 10.0 ** -self.decimals * self.si.factor

    def is_nought(self, value):
        """Return whether an SI value is printed as 0."""
        return abs(value) < self.half_last_digit

    def allowed(self, value):
        """Return the allowed deviation from an SI value, in SI.

        A share of nought is no tolerance at all: there the printed digits decide.
        """
        if self.tolerance is None:
            return (self.half_last_digit if self.is_nought(value)
                    else abs(value) * self.relative_tolerance)
        return self.tolerance * self.si.factor

    def slip_window(self, right, slip):
        """Return how near, in SI, an entry must come to the value of a slip to be that slip.

        A slip far larger than the answer is written with digits of its own.
        """
        return max(self.allowed(right), self.allowed(slip))

    def option(self, option_id):
        """Return an option by its id."""
        return next(option for option in self.options if option.id == option_id)


@dataclass(frozen=True, eq=False)
class Family:
    """A question of which many variants can be made.

    Attributes
    ----------
    id, title, topic, lesson, trap, figure : str
        Own name; heading; topic; lesson it belongs to; the one trap that it tests; drawing.
    difficulty, marks : int
        1 easy to 3 hard; sum over the steps.
    outcomes : tuple of str
        Codes of what a person who solves it has shown.
    text : str
        The question, with {name} where a given quantity stands.
    givens, steps, slips : tuple
        Of Given, Step and Slip.
    answer : callable
        Function of :mod:`answers`: calls physics, records steps and slips.
    example : dict of str to float
        Data of the worked example, as printed.
    advises_action : bool
        An option or hint tells what to do: the caution stands beside it.
    """

    id: str
    title: str
    topic: str
    lesson: str
    trap: str
    difficulty: int
    marks: int
    outcomes: tuple
    text: str
    givens: tuple
    steps: tuple
    slips: tuple
    answer: object
    example: dict
    figure: str = ""
    advises_action: bool = False

    def given(self, name):
        """Return a given quantity by its name."""
        return next(given for given in self.givens if given.name == name)

    def step(self, step_id):
        """Return a step by its id."""
        return next(step for step in self.steps if step.id == step_id)

    def slip(self, slip_id):
        """Return a slip by its id."""
        return next(slip for slip in self.slips if slip.id == slip_id)

    @property
    def value_steps(self):
        """The steps that ask for a number."""
        return tuple(step for step in self.steps if step.kind == VALUE)

    @property
    def asked_steps(self):
        """The steps that a person answers: numbers and choices."""
        return tuple(step for step in self.steps if step.kind != METHOD)

    @property
    def misconceptions(self):
        """Codes of every misunderstanding that this family can find, sorted."""
        codes = {slip.misconception for slip in self.slips}
        for step in self.steps:
            codes.add(step.direction_misconception)
            codes |= {option.misconception for option in step.options}
        return tuple(sorted(codes - {""}))
