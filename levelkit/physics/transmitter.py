"""The DP transmitter on a constant-head leg: from drum level to current, air and pointer.

The instrument sees the pressures that legs and manifold pass on, knows only the range it
was given, and sends one signal; supply, wire and receiver decide what is shown.
"""

from dataclasses import dataclass

import numpy as np

from ..constants import STANDARD_GRAVITY
from .differential import level_of_differential
from .leg_water import filling_time, gas_compliance
from .loop_power import loop_reading
from .signal import (
    current_band,
    fraction_of_current,
    fraction_of_pressure,
    limited_current,
    receiver_voltage,
    signal_pressure,
)
from .transmitter_range import connection_sign
from .transmitter_state import CAPSULE_COMPLIANCE, ELECTRIC, FAILURE_CURRENTS, HEALTHY
from .trapped_water import shut_in
from .wet_legs import instrument_ports


@dataclass(frozen=True, slots=True)
class TransmitterResult:
    """What a DP transmitter measures, sends and shows.

    Attributes
    ----------
    reference_pressure, drum_side_pressure : float or array [Pa]
        Absolute pressures at the ports.
    differential : float or array [Pa]
        High port less low port, as piped.
    fraction : float or array [1]
        Fraction of the level range that the transmitter makes of it, without limits.
    sent_current : float or array [A]
        Current that it wants to send: limited to 3.8 to 20.5 mA, or a failure signal.
    saturated : bool or array of bool
        True where a healthy transmitter is at one of these limits.
    current : float or array [A]
        Current that flows through the receiver.
    starved : bool or array of bool
        True where the supply cannot drive `sent_current`.
    band : str or array of str
        What the current means by NE 43.
    voltage : float or array [V]
        Voltage across the receiver.
    air_signal : float or array [Pa]
        Pneumatic signal at the receiver.
    shown_fraction : float or array [1]
        What the indicator shows, by `receiver`.
    indicated_level : float or array [m]
        The level that this stands for.
    error : float or array [m]
        Indicated minus true level: negative reads LOW.
    shut_in : tuple of str
        Sides behind a shut isolator: the reading no longer follows the drum.
    below_connection : bool or array of bool
        True where the drum level is below what the instrument can see.
    response_time : float [s]
        Time constant of the reading: damping, and filling the capsule and squeezing any gas in
        the legs through the lines.
    """

    reference_pressure: object
    drum_side_pressure: object
    differential: object
    fraction: object
    sent_current: object
    saturated: object
    current: object
    starved: object
    band: object
    voltage: object
    air_signal: object
    shown_fraction: object
    indicated_level: object
    error: object
    shut_in: tuple
    below_connection: object
    response_time: float


def transmitter_reading(state, gravity=STANDARD_GRAVITY):
    """Return what a DP transmitter measures, sends and shows.

    ``x = (dp - LRV)/(URV - LRV)``, or with compensation ``x`` from the level that the
    measured differential means at the measured drum pressure; ``I = 4 mA + 16 mA x``

    Parameters
    ----------
    state : TransmitterState [m, Pa, kg/m3]
        The transmitter; drum contents and leg densities may be arrays.
    gravity : float [m/s2]
        Acceleration of gravity.

    Returns
    -------
    TransmitterResult
        Pressures [Pa], currents [A], level [m] and what goes with them.

    Raises
    ------
    InputError
        A value outside its range, a level above the weir, or a shut isolator without a
        record of the pressure behind it.

    Notes
    -----
    A level below the lower connection is not seen: the reading stays at that of level 0.
    The pneumatic signal ends at 0 and at the supply pressure, the current at 3.8 and
    20.5 mA.

    References
    ----------
    [HYDROSTATICS] legs; [MANIFOLD-MODEL] valves; [IEC-60381-1], [IEC-60382] signals;
    [NAMUR-NE-43] limits.

    Examples
    --------
    >>> from levelkit.physics.leg_state import DrumContents, LegsState
    >>> from levelkit.physics.transmitter_state import calibrated_transmitter
    >>> from dataclasses import replace
    >>> drum = DrumContents(0.4, 6.1e6, 756.1, 31.4)
    >>> state = calibrated_transmitter(drum, LegsState(0.8, 2.0, 990.6, 990.6, 990.6))
    >>> cold = replace(state, drum=DrumContents(0.4, 101_325.0, 998.2, 1.2),
    ...                legs=LegsState(0.8, 2.0, 998.2, 998.2, 998.2))
    >>> f"{100 * transmitter_reading(cold).shown_fraction:.1f} %"
    '63.6 %'
    """
    calibration, legs = state.calibration, state.legs
    ports = instrument_ports(state.drum, legs, state.capsule_give, gravity)
    compliance = CAPSULE_COMPLIANCE + gas_compliance(state.drum.pressure, legs)
    sign = connection_sign(state.connection)
    differential = sign * (ports.reference - ports.drum_side)
    if state.ports_crossed:
        differential = -differential
    fraction = _fraction(state, differential, sign, gravity)
    if state.health == HEALTHY:
        sent = limited_current(fraction)
        sent_current, saturated = sent.current, sent.saturated
    else:
        sent_current, saturated = FAILURE_CURRENTS[state.health] + 0.0 * fraction, False
    loop = loop_reading(state.loop, sent_current)
    air_signal = _air_signal(state, fraction)
    shown = (fraction_of_current(loop.receiver_current) if state.receiver == ELECTRIC
             else fraction_of_pressure(air_signal))
    height = calibration.top_level - calibration.bottom_level
    indicated = calibration.bottom_level + shown * height
    return TransmitterResult(
        ports.reference, ports.drum_side, differential, fraction, sent_current, saturated,
        loop.receiver_current, loop.starved, current_band(loop.receiver_current),
        receiver_voltage(loop.receiver_current, state.loop.receivers[0].resistance), air_signal,
        shown, indicated, indicated - state.drum.level, shut_in(legs.manifold),
        state.drum.level < 0.0,
        state.damping + filling_time(legs, compliance, ports.line_resistance))


def _fraction(state, differential, sign, gravity):
    calibration, compensation = state.calibration, state.compensation
    if compensation is None:
        return (differential - calibration.lower_value) / (
            calibration.upper_value - calibration.lower_value)
    level = level_of_differential(sign * differential, state.legs.weir_height,
                                  compensation.water_density, compensation.steam_density,
                                  compensation.leg_density, gravity)
    return (level - calibration.bottom_level) / (
        calibration.top_level - calibration.bottom_level)


def _air_signal(state, fraction):
    wanted = signal_pressure(fraction)
    if state.health != HEALTHY:
        wanted = signal_pressure(fraction_of_current(FAILURE_CURRENTS[state.health])
                                 + 0.0 * fraction)
    supply = state.air.supply_pressure
    sent = np.clip(wanted, 0.0, supply) if np.ndim(wanted) else min(max(wanted, 0.0), supply)
    return sent * (1.0 - state.air.leak)
