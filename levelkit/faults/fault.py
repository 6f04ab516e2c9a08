"""What a fault is: data, and one function that turns a healthy state into the faulty one."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from ..constants import CAUTION

GLASS, TWO_FLUID, TRANSMITTER = "gauge glass", "two-fluid indicator", "DP transmitter"
TWO_FLUID_INVERTED = "two-fluid indicator, inverted scale"
"""The two-fluid indicator is read on the constant-head limb; inverted, on the other one."""

UNAFFECTED = "unaffected"
HIGH, LOW = "high", "low"
FULL, EMPTY = "full at every level", "empty at every level"
FROZEN, SLUGGISH, REVERSED = "frozen", "sluggish", "moves the wrong way"
FAILED = "failure signal"
KINDS = (UNAFFECTED, HIGH, LOW, FULL, EMPTY, FROZEN, SLUGGISH, REVERSED, FAILED)


@dataclass(frozen=True, slots=True)
class Effect:
    """What a fault does to the reading of one instrument.

    Attributes
    ----------
    now : str
        One of KINDS: the reading just after the fault, at the level of that moment.
    later : str
        Which way the reading creeps while the fault lasts and the level stands still:
        UNAFFECTED, HIGH or LOW.
    pressure_rise, pressure_fall : str
        Which way a small change of drum pressure then throws the reading.
    """

    now: str = UNAFFECTED
    later: str = UNAFFECTED
    pressure_rise: str = UNAFFECTED
    pressure_fall: str = UNAFFECTED


@dataclass(frozen=True, slots=True)
class Fault:
    """One fault of a level indicator.

    Attributes
    ----------
    number : int
        Number in the catalogue, 1 to 45.
    key : str
        Name in a program, such as "reference-leg-lost".
    name, cause : str
        Name and cause in words of the trade.
    effects : mapping of str to Effect
        What each instrument named in it does; an instrument that is not named shows what
        it would show without the fault.
    alarms : str
        What alarms, trips and feed control do.
    safe_action : str
        What to do; print :attr:`advice`, not this alone.
    hides_low_water : tuple of str
        Instruments on which the fault may make a low boiler look full.
    apply : callable
        Instrument state in, faulty state of the same type out. A state of an instrument
        that the fault does not touch comes back as it is.
    watch : float [s]
        Time after which `later` can be seen.
    moves_level : bool
        True where the level itself moves and the instruments show it: an effect then
        compares readings before and after, not errors.
    """

    number: int
    key: str
    name: str
    cause: str
    effects: Mapping[str, Effect]
    alarms: str
    safe_action: str
    hides_low_water: tuple[str, ...]
    apply: Callable
    watch: float = 0.0
    moves_level: bool = False

    @property
    def advice(self):
        """The safe action with the caution that stands beside every advice."""
        return f"{self.safe_action} {CAUTION}"

    def effect_on(self, instrument):
        """The effect on an instrument, by its name."""
        if instrument == TWO_FLUID_INVERTED and instrument not in self.effects:
            instrument = TWO_FLUID
        return self.effects.get(instrument, Effect())
