"""The fault catalogue: data, and for each fault one function from healthy to faulty state.

Panels, exercises and diagnosis use the same functions. Whether an indicator then reads
high, low or frozen is not stored here as truth: tests compute it from the states.
"""

from .catalogue import FAULTS, fault_named
from .fault import (
    EMPTY,
    FAILED,
    FROZEN,
    FULL,
    GLASS,
    HIGH,
    LOW,
    REVERSED,
    SLUGGISH,
    TRANSMITTER,
    TWO_FLUID,
    TWO_FLUID_INVERTED,
    UNAFFECTED,
    Effect,
    Fault,
)
from .instruments import INSTRUMENTS, Instrument, Shown, instrument_of
from .observed import hides_low_water, observed_effect

__all__ = ["EMPTY", "FAILED", "FAULTS", "FROZEN", "FULL", "GLASS", "HIGH", "INSTRUMENTS", "LOW",
           "REVERSED", "SLUGGISH", "TRANSMITTER", "TWO_FLUID", "TWO_FLUID_INVERTED",
           "UNAFFECTED", "Effect", "Fault", "Instrument", "Shown", "fault_named",
           "hides_low_water", "instrument_of", "observed_effect"]
