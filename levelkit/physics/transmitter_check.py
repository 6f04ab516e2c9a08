"""Checking a DP transmitter: what it must show at a known differential pressure."""

from ..errors import checked
from .signal import fraction_of_current, limited_current, signal_current


def differential_at(calibration, fraction):
    """Return the differential pressure to apply for a fraction of the range.

    ``dp = LRV + x (URV - LRV)``

    Parameters
    ----------
    calibration : TransmitterRange [Pa]
        The range.
    fraction : float or array [1]
        0 for 4 mA to 1 for 20 mA.

    Returns
    -------
    float or array [Pa]
        High port less low port.

    Raises
    ------
    InputError
        A value outside its range.

    References
    ----------
    [ISA-51-1] LRV and URV.

    Examples
    --------
    >>> from levelkit.physics.transmitter_range import TransmitterRange
    >>> differential_at(TransmitterRange(7528.0, 1840.0, 0.0, 0.8), 0.25)
    6106.0
    """
    fraction = checked("fraction", fraction, -1e9, 1e9, "", "Give a share of one.")
    return calibration.lower_value + fraction * (calibration.upper_value - calibration.lower_value)


def current_at_no_differential(calibration):
    """Return the current that a healthy transmitter must show with the equaliser open.

    ``x = LRV / (LRV - URV)``

    Parameters
    ----------
    calibration : TransmitterRange [Pa]
        The range.

    Returns
    -------
    SignalCurrent
        Current [A] and whether it is at a limit.

    Notes
    -----
    On a wet leg this is 20.5 mA, not 4 mA: (rho_r - rho_g)/(rho_f - rho_g) of the range.

    References
    ----------
    [NAMUR-NE-43] limits of the signal.

    Examples
    --------
    >>> from levelkit.physics.transmitter_range import TransmitterRange
    >>> current_at_no_differential(TransmitterRange(7528.0, 1840.0, 0.0, 0.8)).current
    0.0205
    """
    fraction = calibration.lower_value / (calibration.lower_value - calibration.upper_value)
    return limited_current(fraction)


def loop_error(current, fraction):
    """Return the error of a loop as a share of its span.

    ``e = (I - I_right) / 16 mA``

    Parameters
    ----------
    current : float or array [A]
        Current that was read.
    fraction : float or array [1]
        Fraction of the range that was applied.

    Returns
    -------
    float or array [1]
        Error over span, not over reading: negative reads LOW.

    Raises
    ------
    InputError
        A value outside its range.

    References
    ----------
    [IEC-60381-1] span of 16 mA.

    Examples
    --------
    >>> round(100 * loop_error(0.0111, 0.5675), 1)
    -12.4
    """
    return fraction_of_current(current) - fraction_of_current(signal_current(fraction))
