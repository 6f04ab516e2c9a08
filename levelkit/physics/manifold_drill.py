"""A drill on the manifold: every move is made, judged by what it does, and shown.

Nothing is judged by an order learnt by heart. A move is wrong where the computed state
after it is: the reference leg runs out, hot water leaves under pressure, one side of the
capsule carries the boiler pressure alone.
"""

from dataclasses import dataclass, replace

from ..constants import BAR, CAUTION
from ..errors import InputError, checked
from .leg_water import legs_after
from .manifold import VALVES
from .transmitter import TransmitterResult, transmitter_reading
from .transmitter_check import current_at_no_differential
from .transmitter_state import TransmitterState
from .trapped_water import moved_valve
from .wet_legs import instrument_ports

STEAM_VALVE = "chamber_steam_valve"
SOUND, CAREFUL, WRONG = "sound", "careful", "wrong"

ONE_SIDED_LIMIT = 1.0 * BAR
"""Difference across the capsule that calls for care [Pa], common practice, no source."""

NOTABLE_LOSS = 5e-3
"""Length missing in the reference leg that is worth a word [m]."""

_VENTS = {"reference_vent": "reference_isolator", "drum_vent": "drum_isolator"}


@dataclass(frozen=True, slots=True)
class Move:
    """One move of one valve, and the time that is waited after it.

    Attributes
    ----------
    valve : str
        One of VALVES, or "chamber_steam_valve".
    opening : float [1]
        0 shut to 1 open.
    seconds : float [s]
        Time until the next move.
    """

    valve: str
    opening: float
    seconds: float = 10.0


@dataclass(frozen=True, slots=True)
class DrillStep:
    """What one move did.

    Attributes
    ----------
    move : Move [1]
        The move.
    state : TransmitterState
        The transmitter after the move and the wait [m, Pa, kg/m3].
    at_once, reading : TransmitterResult
        What it shows just after the move, and after the wait.
    verdict : str
        "sound", "careful" or "wrong".
    reasons : tuple of str
        Why; print :attr:`advice`, not these alone.
    """

    move: Move
    state: TransmitterState
    at_once: TransmitterResult
    reading: TransmitterResult
    verdict: str
    reasons: tuple[str, ...]

    @property
    def advice(self):
        """The reasons with the caution that stands beside every advice."""
        return " ".join((*self.reasons, CAUTION))


TAKE_OUT_OF_SERVICE = (Move("drum_isolator", 0.0), Move("reference_isolator", 0.0),
                       Move("equaliser", 1.0))
"""From service to isolated and equalised."""

PUT_INTO_SERVICE = (Move("drum_isolator", 1.0), Move("equaliser", 0.0),
                    Move("reference_isolator", 1.0))
"""From isolated and equalised to service: both ports come up to pressure together."""

FILL_THROUGH_EQUALISER = (Move(STEAM_VALVE, 0.0, 60.0), Move("equaliser", 1.0, 120.0),
                          Move("equaliser", 0.0), Move(STEAM_VALVE, 1.0))
"""Filling leg and chamber from the drum: the isolated chamber cools and draws water up."""


def made_move(state, move):
    """Return what one move does to a transmitter in its manifold.

    Parameters
    ----------
    state : TransmitterState [m, Pa, kg/m3]
        The transmitter before the move; scalars.
    move : Move [1]
        Valve, opening, time waited.

    Returns
    -------
    DrillStep
        State and readings [A, m], verdict, reasons.

    Raises
    ------
    InputError
        No such valve, or a value outside its range.

    References
    ----------
    [MANIFOLD-MODEL] what a move does; [PRACTICE-REMOTE] what to be careful of.

    Examples
    --------
    >>> from levelkit.physics.transmitter_state import calibrated_transmitter
    >>> from levelkit.physics.leg_state import DrumContents, LegsState
    >>> state = calibrated_transmitter(DrumContents(0.4, 6.1e6, 756.1, 31.4),
    ...                                LegsState(0.8, 2.0, 990.6, 990.6, 990.6))
    >>> step = made_move(state, Move("equaliser", 1.0))
    >>> f"{step.verdict}: {1e3 * step.at_once.current:.1f} mA"
    'wrong: 20.5 mA'
    """
    checked("time after the move", move.seconds, 0.0, 1e6, "s")
    legs = _legs_with(state, move)
    moved = replace(state, legs=legs)
    at_once = transmitter_reading(moved)
    verdict, reasons = _judged(state, moved, move, at_once)
    later = replace(moved, legs=legs_after(moved.drum, legs, move.seconds))
    return DrillStep(move, later, at_once, transmitter_reading(later), verdict, reasons)


def made_moves(state, moves):
    """Return what a sequence of moves does, step by step.

    Parameters
    ----------
    state : TransmitterState [m, Pa, kg/m3]
        The transmitter before the first move; scalars.
    moves : sequence of Move [1]
        The moves.

    Returns
    -------
    tuple of DrillStep [A, m]
        One step for each move.

    Raises
    ------
    InputError
        No such valve, or a value outside its range.

    References
    ----------
    [MANIFOLD-MODEL] what a move does.

    Examples
    --------
    >>> from levelkit.physics.transmitter_state import calibrated_transmitter
    >>> from levelkit.physics.leg_state import DrumContents, LegsState
    >>> state = calibrated_transmitter(DrumContents(0.4, 6.1e6, 756.1, 31.4),
    ...                                LegsState(0.8, 2.0, 990.6, 990.6, 990.6))
    >>> steps = made_moves(state, TAKE_OUT_OF_SERVICE + PUT_INTO_SERVICE)
    >>> {"wrong"} & {step.verdict for step in steps}, round(steps[-1].reading.indicated_level, 3)
    (set(), 0.4)
    """
    steps = []
    for move in moves:
        steps.append(made_move(steps[-1].state if steps else state, move))
    return tuple(steps)


def zero_check(state, expected_current):
    """Return whether a current is what an equalised transmitter must show.

    Parameters
    ----------
    state : TransmitterState [Pa]
        The transmitter.
    expected_current : float [A]
        What somebody expects to read with the equaliser open.

    Returns
    -------
    str
        A sentence: right, or the trap, with the caution.

    Raises
    ------
    InputError
        The capsule is not equalised, or a current outside its range.

    Notes
    -----
    The range of a wet leg does not contain zero: no differential is off scale FULL.

    References
    ----------
    [NAMUR-NE-43] limits of the signal; [PRACTICE-REMOTE] the trap.

    Examples
    --------
    >>> from levelkit.physics.manifold import ManifoldState
    >>> from levelkit.physics.transmitter_state import calibrated_transmitter
    >>> from levelkit.physics.leg_state import DrumContents, LegsState
    >>> legs = LegsState(0.8, 2.0, 990.6, 990.6, 990.6)
    >>> state = calibrated_transmitter(DrumContents(0.4, 6.1e6, 756.1, 31.4), legs)
    >>> level = replace(state, legs=replace(legs, manifold=ManifoldState(
    ...     reference_isolator=0.0, equaliser=1.0)))
    >>> zero_check(level, 0.004).split(":")[0]
    'Wrong'
    """
    expected = checked("expected current", expected_current, 0.0, 0.03, "A",
                       "Give ampere: 4 mA is 0.004.")
    reading = transmitter_reading(state)
    if reading.differential != 0.0:
        raise InputError(
            f"The capsule still sees {reading.differential:.4g} Pa; a zero check needs 0 Pa. "
            "Shut at least one isolator and open the equaliser.")
    right = current_at_no_differential(state.calibration)
    shown = f"{1e3 * right.current:.2f} mA" + (" (off scale)" if right.saturated else "")
    if abs(expected - right.current) < 0.0002:
        return f"Right: with no differential it shows {shown}. {CAUTION}"
    return (f"Wrong: with no differential this range gives {shown}, not {1e3 * expected:.2f} mA. "
            "Trimming it now would spoil every reading in service: check at a computed "
            f"differential instead. {CAUTION}")


def _legs_with(state, move):
    legs = state.legs
    if move.valve == STEAM_VALVE:
        opening = checked("chamber steam valve", move.opening, 0.0, 1.0, "",
                          "0 is shut, anything more is open.")
        pressure = None if opening else (legs.chamber.isolated_pressure or state.drum.pressure)
        return replace(legs, chamber=replace(legs.chamber, isolated_pressure=pressure))
    if move.valve not in VALVES:
        raise InputError(f"There is no valve {move.valve!r}. Choose one of: "
                         f"{', '.join((*VALVES, STEAM_VALVE))}.")
    ports = instrument_ports(state.drum, legs, state.capsule_give)
    return replace(legs, manifold=moved_valve(legs.manifold, move.valve, move.opening, ports))


def _judged(before, after, move, reading):
    """Verdict and reasons, from the computed state after a move."""
    legs, valves = after.legs, after.legs.manifold
    wrong, careful = [], []
    under_pressure = after.drum.pressure > legs.barometer + 0.1 * BAR
    joined = bool(valves.equaliser and valves.reference_isolator and valves.drum_isolator)
    flow = instrument_ports(after.drum, legs, after.capsule_give).reference_flow
    if joined and flow * legs.line_conductance > legs.chamber.make_up:
        wrong.append("Both isolators and the equaliser are open: the reference leg runs out "
                     "through the equaliser into the drum, and stays lost after it is shut.")
    elif joined:
        careful.append("Water runs through the equaliser up the reference leg: right only for "
                       "filling, with the chamber's steam valve shut.")
    if under_pressure:
        for side in ("reference", "drum"):
            if getattr(valves, f"{side}_drain"):
                wrong.append(f"The {side} drain blows: hot water under boiler pressure, and the "
                             "leg is lost.")
        for vent, isolator in _VENTS.items():
            if getattr(valves, vent) and getattr(valves, isolator):
                wrong.append(f"The {vent.replace('_', ' ')} blows under boiler pressure: shut "
                             "the isolator first.")
    across = abs(reading.differential)
    if across > ONE_SIDED_LIMIT:
        careful.append(f"One side of the capsule carries {across / BAR:.0f} bar alone: let both "
                       "sides come up together through the equaliser.")
    if reading.shut_in and not valves.equaliser:
        careful.append(f"Shut in: {' and '.join(reading.shut_in)}. What is shown is no longer a "
                       "level: it stands still, or follows the drum pressure.")
    if legs.chamber.isolated_pressure is not None:
        careful.append("The chamber gets no steam: it makes nothing up, and as it cools its "
                       "pressure falls and the reading goes HIGH.")
    elif legs.reference_loss > NOTABLE_LOSS and not valves.equaliser:
        careful.append(f"The reference leg lacks {1e3 * legs.reference_loss:.0f} mm: it reads "
                       "HIGH until condensate has filled it.")
    if valves.equaliser and not before.legs.manifold.equaliser and reading.saturated:
        careful.append("The indicator now shows FULL whatever the drum holds: feed by hand on a "
                       "proved gauge glass before this move.")
    if wrong:
        return WRONG, tuple(wrong + careful)
    return (CAREFUL, tuple(careful)) if careful else (SOUND, ("Nothing is lost by this move.",))
