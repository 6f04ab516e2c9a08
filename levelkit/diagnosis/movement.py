"""Whether a reading lives: what it shows of a small, quick movement of the level."""

from dataclasses import replace

from ..faults import instrument_of
from ..physics.cock_state import CockState
from ..physics.glass import GaugeGlassState
from ..physics.signal import FAILURE_HIGH, FAILURE_LOW, damped
from ..physics.transmitter import transmitter_reading
from ..physics.transmitter_state import PNEUMATIC, TransmitterState
from .readings import NUDGE_TIME, read, seen_level

LIVELY, STILL, SLUGGISH, REVERSED = "lively", "still", "sluggish", "moves the wrong way"
NUDGE = 0.010
"""Small rise and fall of the level [m] in service, by which a reading shows that it lives."""


def movement(name, state, setting):
    """Return which share of a small, quick movement of the level an instrument shows [1].

    1 is lively, 0 still, negative the wrong way; what follows late shows only a part of it.

    Parameters
    ----------
    name : str
        The instrument.
    state : any [-]
        Of the instrument.
    setting : BenchSetting [m, bar, s]
        The boiler state.

    Returns
    -------
    float [1]
        Movement shown over movement of the level.

    References
    ----------
    [PRACTICE-DIAGNOSIS] a nudge of 10 mm in five seconds.

    Examples
    --------
    >>> from levelkit.diagnosis.example import example_setting
    >>> from levelkit.diagnosis.faulty import faulty_instruments
    >>> setting = example_setting()
    >>> state = faulty_instruments(setting)["transmitter 2"]
    >>> round(movement("transmitter 2", state, setting), 2)
    1.0
    """
    if isinstance(state, GaugeGlassState):
        return 1.0
    if isinstance(state, TransmitterState) and state.receiver != PNEUMATIC and (
            transmitter_reading(state).band in (FAILURE_LOW, FAILURE_HIGH)):
        return 0.0
    look, seen = instrument_of(state), seen_level(state)
    if seen is None:
        return 0.0
    height = (state.fitting.steam_connection if isinstance(state, CockState)
              else state.legs.weir_height)
    level = seen.true_share * height
    ends = []
    for step in (NUDGE, -NUDGE):
        share = min(level + step, height) / height
        ends.append(read(name, look.at_share(state, share), replace(setting, seconds=1e7)).shown)
    shift = (ends[0] - ends[1]) / (min(level + NUDGE, height) - (level - NUDGE))
    return float(shift * damped(0.0, 1.0, NUDGE_TIME, min(seen.response_time, 1e6)
                                if seen.response_time > NUDGE_TIME else 0.0))


def movement_word(share):
    """Return "lively", "sluggish", "still" or "moves the wrong way".

    Parameters
    ----------
    share : float [1]
        Movement shown over movement of the level.

    Returns
    -------
    str
        What a person would call it.

    References
    ----------
    [PRACTICE-DIAGNOSIS] words.

    Examples
    --------
    >>> movement_word(0.9)
    'lively'
    """
    if share < -0.3:
        return REVERSED
    return LIVELY if share > 0.5 else SLUGGISH if share > 0.15 else STILL
