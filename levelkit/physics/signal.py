"""What a transmitter says: 4-20 mA, 0.2-1.0 bar, 1-5 V, and which currents mean trouble.

One range of level is 0 to 1 (``fraction``) everywhere. Currents in ampere, signal
pressures in pascal above the air.
"""

from dataclasses import dataclass

import numpy as np

from ..errors import checked

LIVE_ZERO, FULL_CURRENT = 0.004, 0.020
LOW_SIGNAL_PRESSURE, HIGH_SIGNAL_PRESSURE = 20e3, 100e3
RECEIVER_RESISTANCE = 250.0

LOW_FAILURE, LOW_LIMIT, HIGH_LIMIT, HIGH_FAILURE = 0.0036, 0.0038, 0.0205, 0.021

MEASURING, FAILURE_LOW, FAILURE_HIGH, NOT_USED = (
    "measuring", "failure, low", "failure, high", "between the bands")


@dataclass(frozen=True, slots=True)
class SignalCurrent:
    """The current that a healthy transmitter sends.

    Attributes
    ----------
    current : float or array [A]
        Current, 3.8 to 20.5 mA.
    saturated : bool or array of bool
        True where the level is beyond what the current can say.
    """

    current: object
    saturated: object


def signal_current(fraction):
    """Return the current for a fraction of the range.

    ``I = 4 mA + 16 mA x``

    Parameters
    ----------
    fraction : float or array [1]
        0 at the lower range value, 1 at the upper; any shape.

    Returns
    -------
    float or array [A]
        Current, not yet limited.

    Raises
    ------
    InputError
        A value outside its range.

    References
    ----------
    [IEC-60381-1] 4 to 20 mA, linear.

    Examples
    --------
    >>> f"{1e3 * signal_current(0.375):.2f} mA"
    '10.00 mA'
    """
    return LIVE_ZERO + (FULL_CURRENT - LIVE_ZERO) * _checked_fraction(fraction)


def fraction_of_current(current):
    """Return the fraction of the range that a current means.

    ``x = (I - 4 mA) / 16 mA``

    Parameters
    ----------
    current : float or array [A]
        Current; any shape.

    Returns
    -------
    float or array [1]
        0 at 4 mA, 1 at 20 mA.

    Raises
    ------
    InputError
        A value outside its range.

    References
    ----------
    [IEC-60381-1] 4 to 20 mA, linear.

    Examples
    --------
    >>> round(fraction_of_current(0.0096), 3)
    0.35
    """
    return (_checked_current(current) - LIVE_ZERO) / (FULL_CURRENT - LIVE_ZERO)


def signal_pressure(fraction):
    """Return the pneumatic signal for a fraction of the range.

    ``P = 0.2 bar + 0.8 bar x``

    Parameters
    ----------
    fraction : float or array [1]
        0 at the lower range value, 1 at the upper; any shape.

    Returns
    -------
    float or array [Pa]
        Signal pressure above that of the air, not yet limited.

    Raises
    ------
    InputError
        A value outside its range.

    References
    ----------
    [IEC-60382] 20 to 100 kPa, linear.

    Examples
    --------
    >>> f"{signal_pressure(0.375) / 1e5:.3f} bar"
    '0.500 bar'
    """
    span = HIGH_SIGNAL_PRESSURE - LOW_SIGNAL_PRESSURE
    return LOW_SIGNAL_PRESSURE + span * _checked_fraction(fraction)


def fraction_of_pressure(pressure):
    """Return the fraction of the range that a pneumatic signal means.

    ``x = (P - 0.2 bar) / 0.8 bar``

    Parameters
    ----------
    pressure : float or array [Pa]
        Signal pressure above that of the air; any shape.

    Returns
    -------
    float or array [1]
        0 at 0.2 bar, 1 at 1.0 bar; -0.25 where the air has failed.

    Raises
    ------
    InputError
        A value outside its range.

    References
    ----------
    [IEC-60382] 20 to 100 kPa, linear.

    Examples
    --------
    >>> round(fraction_of_pressure(0.74e5), 3), round(fraction_of_pressure(0.0), 2)
    (0.675, -0.25)
    """
    pressure = checked("signal pressure", pressure, -1e6, 1e7, "Pa", "Give pascal: 60 kPa is 6e4.")
    return (pressure - LOW_SIGNAL_PRESSURE) / (HIGH_SIGNAL_PRESSURE - LOW_SIGNAL_PRESSURE)


def receiver_voltage(current, resistance=RECEIVER_RESISTANCE):
    """Return the voltage that a current makes across a receiver.

    ``V = I R``: 1 to 5 V across 250 ohm

    Parameters
    ----------
    current : float or array [A]
        Current through the receiver.
    resistance : float [ohm]
        Its resistance.

    Returns
    -------
    float or array [V]
        Voltage.

    Raises
    ------
    InputError
        A resistance outside 0 to 1e6 ohm.

    References
    ----------
    [CIRCUIT-LAWS] voltage, current and resistance.

    Examples
    --------
    >>> receiver_voltage(0.010)
    2.5
    """
    return _checked_current(current) * checked("receiver resistance", resistance, 0.0, 1e6, "ohm")


def limited_current(fraction):
    """Return the current that a healthy transmitter sends, with its limits.

    ``I = 4 mA + 16 mA x``, held between 3.8 and 20.5 mA

    Parameters
    ----------
    fraction : float or array [1]
        Fraction of the range, however far outside it.

    Returns
    -------
    SignalCurrent
        Current [A] and whether it is at a limit.

    Raises
    ------
    InputError
        A value outside its range.

    Notes
    -----
    A transmitter at its limit is healthy and out of range: that is not a failure signal.

    References
    ----------
    [NAMUR-NE-43] measuring band 3.8 to 20.5 mA.

    Examples
    --------
    >>> sent = limited_current(1.32)
    >>> f"{1e3 * sent.current:.1f} mA, saturated: {sent.saturated}"
    '20.5 mA, saturated: True'
    """
    wanted = signal_current(fraction)
    if np.ndim(wanted):
        current = np.clip(wanted, LOW_LIMIT, HIGH_LIMIT)
        return SignalCurrent(current, current != wanted)
    current = min(max(wanted, LOW_LIMIT), HIGH_LIMIT)
    return SignalCurrent(current, bool(current != wanted))


def current_band(current):
    """Return what a current means by the bands of NE 43.

    Parameters
    ----------
    current : float or array [A]
        Current that a receiver sees, 0 to 1 A.

    Returns
    -------
    str or array of str
        "measuring" (3.8 to 20.5 mA), "failure, low" (3.6 mA and less: also a broken
        wire), "failure, high" (21 mA and more), or "between the bands".

    Raises
    ------
    InputError
        A negative current, more than 1 A, text.

    References
    ----------
    [NAMUR-NE-43] values from secondary texts.

    Examples
    --------
    >>> [current_band(1e-3 * i) for i in (3.5, 3.7, 12.0, 20.5, 21.5)]
    ['failure, low', 'between the bands', 'measuring', 'measuring', 'failure, high']
    """
    current = checked("loop current", current, 0.0, 1.0, "A", "Give ampere: 12 mA is 0.012.")
    tiny = 1e-12  # 3.8 mA written as 3.8e-3 must not fall out of its band by rounding
    low, high = current <= LOW_FAILURE + tiny, current >= HIGH_FAILURE - tiny
    inside = (current >= LOW_LIMIT - tiny) & (current <= HIGH_LIMIT + tiny)
    if np.ndim(current):
        return np.select([low, high, inside], [FAILURE_LOW, FAILURE_HIGH, MEASURING], NOT_USED)
    return FAILURE_LOW if low else FAILURE_HIGH if high else MEASURING if inside else NOT_USED


def damped(before, after, seconds, time_constant):
    """Return what a damped signal shows some time after a sudden change.

    ``y = y1 + (y0 - y1) exp(-t / tau)``

    Parameters
    ----------
    before, after : float or array [any]
        Value before the change, and the value that it changed to.
    seconds : float or array [s]
        Time since the change, 0 or more.
    time_constant : float [s]
        Time constant; 0 for no damping.

    Returns
    -------
    float or array [any]
        What is shown, in the unit of the values.

    Raises
    ------
    InputError
        A negative time or time constant.

    Notes
    -----
    Behind a steady ramp the same damping lags by rate times time constant.

    References
    ----------
    [FIRST-ORDER-LAG] lag of first order.

    Examples
    --------
    >>> round(damped(0.0, 1.0, 5.0, 5.0), 3)
    0.632
    """
    before, after = (checked(name, value, -1e12, 1e12, "")
                     for name, value in (("value before", before), ("value after", after)))
    seconds = checked("time", seconds, 0.0, 1e7, "s")
    time_constant = checked("time constant", time_constant, 0.0, 1e6, "s")
    if time_constant == 0.0:
        left = np.where(np.equal(seconds, 0.0), 1.0, 0.0)
    else:
        with np.errstate(over="ignore"):  # endlessly many time constants: nothing is left
            left = np.exp(-np.divide(seconds, time_constant))
    shown = after + (before - after) * left
    return shown if np.ndim(shown) else float(shown)


def _checked_fraction(fraction):
    return checked("fraction", fraction, -1e9, 1e9, "", "Give a share of one: 40 per cent is 0.4.")


def _checked_current(current):
    return checked("current", current, -1.0, 1.0, "A", "Give ampere: 12 mA is 0.012.")
