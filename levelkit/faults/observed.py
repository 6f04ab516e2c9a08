"""What a fault does, found by computing: no direction is looked up here."""

from ..errors import InputError
from ..physics.signal import damped
from .fault import (
    EMPTY,
    FAILED,
    FROZEN,
    FULL,
    HIGH,
    LOW,
    REVERSED,
    SLUGGISH,
    UNAFFECTED,
    Effect,
)
from .instruments import instrument_of

NOTICE = 0.01
"""Change of reading that counts, as a share of the instrument's height."""

END_OF_SCALE = 0.005
"""A glass cannot show more than full or less than empty; a share this near an end is there."""

LEVEL_STEP = 0.05
PRESSURE_STEP = 1000.0
SLOW = 5.0
"""Response time [s] from which a reading that also became five times slower is sluggish."""

LOW_SHARE, USUAL_SHARE = 0.25, 0.5
WATCH = 60.0


def observed_effect(fault, state):
    """Return what a fault does to the reading of one instrument.

    Compared are the healthy and the faulty state at this level, a little above and below
    it, after the fault's time of watching, and after a small change of drum pressure. Where
    the fault moves the level itself, only the two readings are compared.

    Parameters
    ----------
    fault : Fault [-]
        The fault.
    state : any [-]
        Healthy state of an instrument, best near mid-range.

    Returns
    -------
    Effect [-]
        Computed: now, later, on a rise and on a fall of pressure.

    Raises
    ------
    InputError
        The instrument is unknown, or the faulty state is impossible.

    References
    ----------
    None: a comparison of readings, not a formula.

    Examples
    --------
    >>> from levelkit.faults import fault_named
    >>> from levelkit.physics.transmitter_state import calibrated_transmitter
    >>> from levelkit.physics.leg_state import DrumContents, LegsState
    >>> state = calibrated_transmitter(DrumContents(0.4, 6.1e6, 756.1, 31.4),
    ...                                LegsState(0.8, 2.0, 990.6, 990.6, 990.6))
    >>> observed_effect(fault_named("equaliser-open"), state).now
    'full at every level'
    """
    faulty = fault.apply(state)
    if faulty is state:
        return Effect()
    look = instrument_of(state)
    shown = look.shown(faulty)
    if shown.failed:
        return Effect(FAILED)
    if fault.moves_level:
        return Effect(_off_scale(shown.share) or _moved(look.shown(state), shown))
    later = rise = fall = UNAFFECTED
    if fault.watch:
        later = _moved(shown, look.shown(look.after(faulty, fault.watch)))
    rise = _moved(shown, look.shown(look.at_pressure(faulty, PRESSURE_STEP)))
    fall = _moved(shown, look.shown(look.at_pressure(faulty, -PRESSURE_STEP)))
    return Effect(_now(look, state, faulty), later, rise, fall)


def _now(look, healthy_state, faulty_state):
    healthy, faulty = look.shown(healthy_state), look.shown(faulty_state)
    usual = _follows(look, healthy_state)
    if usual == 0.0:
        raise InputError(
            f"Without the fault the instrument shows a share of {healthy.share:.4g} and does not "
            "follow the level: there is nothing to compare with. The allowed range is its scale, "
            "0 to 1; give a level and a range that it can show.")
    follows = _follows(look, faulty_state) / usual
    error = faulty.share - faulty.true_share
    usual_error = healthy.share - healthy.true_share
    if follows < -0.5:
        return REVERSED
    if abs(follows) < 0.01:
        if off_scale := _off_scale(faulty.share):
            return off_scale
        if abs(faulty.share - healthy.share) < NOTICE:
            return FROZEN
    if error > max(usual_error, 0.0) + NOTICE:
        return HIGH
    if error < min(usual_error, 0.0) - NOTICE:
        return LOW
    if faulty.response_time > max(SLOW, 5.0 * healthy.response_time):
        return SLUGGISH
    return UNAFFECTED


def _off_scale(share):
    """FULL or EMPTY for a reading at or beyond an end of the scale, else nothing."""
    if share > 1.0 - END_OF_SCALE:
        return FULL
    return EMPTY if share < END_OF_SCALE else ""


def _follows(look, state):
    """Change of the shown share over change of the true share, with everything else held."""
    share = look.shown(state).true_share
    up, down = (look.shown(look.at_share(state, share + step)).share
                for step in (LEVEL_STEP, -LEVEL_STEP))
    return (up - down) / (2.0 * LEVEL_STEP)


def _moved(before, after):
    change = after.share - before.share
    if abs(change) < NOTICE:
        return UNAFFECTED
    return HIGH if change > 0.0 else LOW


def hides_low_water(fault, state):
    """Return whether an instrument shows more than there is while the level runs low.

    The fault comes at mid-range; the level then falls to a quarter, and a minute passes.
    Looked at are that reading, the reading after the fault's time of watching, and what
    a small change of drum pressure does to it.

    Parameters
    ----------
    fault : Fault [-]
        The fault.
    state : any [-]
        Healthy state of an instrument.

    Returns
    -------
    bool
        True where it reads high at low water without saying that it failed.

    Raises
    ------
    InputError
        The instrument is unknown, or the faulty state is impossible.

    References
    ----------
    None: a comparison of readings, not a formula.

    Examples
    --------
    >>> from levelkit.faults import fault_named
    >>> from levelkit.physics.transmitter_state import calibrated_transmitter
    >>> from levelkit.physics.leg_state import DrumContents, LegsState
    >>> state = calibrated_transmitter(DrumContents(0.4, 6.1e6, 756.1, 31.4),
    ...                                LegsState(0.8, 2.0, 990.6, 990.6, 990.6))
    >>> hides_low_water(fault_named("reference-leg-lost"), state)
    True
    """
    look = instrument_of(state)
    usual = look.at_share(state, USUAL_SHARE)
    faulty = fault.apply(usual)
    if faulty is usual:
        return False
    before = look.shown(faulty)
    low = look.at_share(faulty, LOW_SHARE)
    moments = [low, *(look.at_pressure(low, step) for step in (PRESSURE_STEP, -PRESSURE_STEP))]
    if fault.watch:
        moments.append(look.after(low, fault.watch))
    for moment in moments:
        shown = look.shown(moment)
        slow = min(shown.response_time, 1e6)
        seen = damped(before.share, shown.share, max(WATCH, fault.watch), slow)
        if not shown.failed and seen > LOW_SHARE + NOTICE:
            return True
    return False
