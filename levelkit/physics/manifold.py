"""The valves between two water legs and a level instrument, and the pressures behind them.

Two impulse lines, each with a drain at its foot, an isolator, and a vent at the
instrument; an equaliser joins the two ports. Flow is taken in proportion to pressure
difference: then lines and valves are resistances, counted in units of one open impulse
line. A valve of opening ``o`` has the resistance ``(1 - o)/o``: none when open, without
limit when shut. A drain of opening ``o`` passes to the air the share ``o`` of what its
line can bring.
"""

from dataclasses import dataclass
from math import inf

from ..constants import STANDARD_BAROMETER
from ..errors import InputError, checked

VALVES = ("reference_isolator", "drum_isolator", "equaliser", "reference_drain", "drum_drain",
          "reference_vent", "drum_vent")


LEAST_OPENING = 1e-6
"""A valve that opens less [1] passes nothing that could be seen: it counts as shut."""


@dataclass(frozen=True, slots=True)
class TrappedWater:
    """Water shut in on one side of an instrument.

    Attributes
    ----------
    pressure : float [Pa]
        Absolute pressure when it was shut in.
    other_pressure : float [Pa]
        Absolute pressure on the other side of the instrument at that moment.
    """

    pressure: float
    other_pressure: float


@dataclass(frozen=True, slots=True)
class ManifoldState:
    """How the valves of one instrument stand, each from 0 (shut) to 1 (open).

    Attributes
    ----------
    reference_isolator, drum_isolator : float [1]
        Isolators of the reference leg and of the drum-side leg. A choked line is an
        isolator that is nearly shut.
    equaliser : float [1]
        Valve between the two ports; a little above 0 where it passes.
    reference_drain, drum_drain : float [1]
        Drains at the foot of each leg; a little above 0 where they leak.
    reference_vent, drum_vent : float [1]
        Vents at the instrument.
    reference_trapped, drum_trapped : TrappedWater or None [Pa]
        Water shut in at a port; kept by :func:`moved_valve`.
    """

    reference_isolator: float = 1.0
    drum_isolator: float = 1.0
    equaliser: float = 0.0
    reference_drain: float = 0.0
    drum_drain: float = 0.0
    reference_vent: float = 0.0
    drum_vent: float = 0.0
    reference_trapped: TrappedWater | None = None
    drum_trapped: TrappedWater | None = None

    def __post_init__(self):
        for valve in VALVES:
            checked(valve.replace("_", " "), getattr(self, valve), 0.0, 1.0, "",
                    "0 is shut, 1 is open.")


@dataclass(frozen=True, slots=True)
class PortPressures:
    """Pressures at the two ports of an instrument.

    Attributes
    ----------
    reference, drum_side : float or array [Pa]
        Absolute pressures.
    reference_flow : float or array [Pa]
        Flow out of the reference leg, as the pressure it would take to drive it through
        one open impulse line; negative where the leg is being filled.
    line_resistance : float [1]
        Resistance of the lines that are not shut, in open impulse lines: 2 when all is well.
    """

    reference: object
    drum_side: object
    reference_flow: object
    line_resistance: float


def valve_resistance(opening):
    """Return the resistance of a valve, counted in open impulse lines.

    ``R = (1 - o)/o``

    Parameters
    ----------
    opening : float [1]
        0 shut to 1 open.

    Returns
    -------
    float [1]
        Resistance over that of one open impulse line; infinite when shut.

    Raises
    ------
    InputError
        An opening outside 0 to 1.

    References
    ----------
    [MANIFOLD-MODEL] own model: flow in proportion to pressure difference.

    Examples
    --------
    >>> valve_resistance(0.5)
    1.0
    """
    opening = checked("valve opening", opening, 0.0, 1.0, "", "0 is shut, 1 is open.")
    return inf if opening < LEAST_OPENING else (1.0 - opening) / opening


def port_pressures(reference_foot, drum_foot, manifold, capsule_give=0.0,
                   barometer=STANDARD_BAROMETER):
    """Return the pressures that a manifold passes on to an instrument.

    With both isolators open and only the equaliser passing:
    ``dp = dp_legs R_E / (R_E + 2 R_L)``

    Parameters
    ----------
    reference_foot, drum_foot : float or array [Pa]
        Absolute pressures at the feet of the two legs at rest.
    manifold : ManifoldState [1]
        How the valves stand.
    capsule_give : float [1]
        Share of a pressure change on the other side that the instrument hands on to
        trapped water. 0: the trapped pressure stays what it was, as the worked examples
        take it. 1: the instrument yields freely, as a liquid column does.
    barometer : float [Pa]
        Pressure of the air outside.

    Returns
    -------
    PortPressures
        Pressures [Pa], flow out of the reference leg [Pa], resistance [1].

    Raises
    ------
    InputError
        A port is shut in without a record of the pressure behind it.

    Notes
    -----
    Limit cases: all as in service, the foot pressures; equaliser wide open, equal
    pressures.

    References
    ----------
    [MANIFOLD-MODEL] own model: flow in proportion to pressure difference.

    Examples
    --------
    >>> ports = port_pressures(6_107_500.0, 6_102_800.0, ManifoldState(equaliser=1.0))
    >>> ports.reference - ports.drum_side
    0.0
    """
    reference_foot, drum_foot = (
        checked(name, foot, -1e9, 1e9, "Pa", "Give the absolute pressure in pascal.")
        for name, foot in (("pressure at the foot of the reference leg", reference_foot),
                           ("pressure at the foot of the drum side", drum_foot)))
    air = checked("barometer", barometer, 0.0, 2e5, "Pa")
    reference = _side(reference_foot, air, manifold.reference_drain,
                      manifold.reference_isolator, manifold.reference_vent)
    drum = _side(drum_foot, air, manifold.drum_drain, manifold.drum_isolator, manifold.drum_vent)
    if reference is None and drum is None:
        first, second = _kept(manifold.reference_trapped), _kept(manifold.drum_trapped)
        reference_pressure, drum_pressure, total = first.pressure, second.pressure, 0.0
    elif reference is None:
        drum_pressure, total = drum.pressure, drum.resistance
        reference_pressure = drum_pressure if manifold.equaliser else _handed_on(
            manifold.reference_trapped, drum_pressure, capsule_give)
    elif drum is None:
        reference_pressure, total = reference.pressure, reference.resistance
        drum_pressure = reference_pressure if manifold.equaliser else _handed_on(
            manifold.drum_trapped, reference_pressure, capsule_give)
    else:
        reference_pressure, drum_pressure = reference.pressure, drum.pressure
        total = reference.resistance + drum.resistance
        through = total + valve_resistance(manifold.equaliser)
        if manifold.equaliser and through > 0.0:
            flow = (reference_pressure - drum_pressure) / through
            reference_pressure = reference_pressure - flow * reference.resistance
            drum_pressure = (reference_pressure if manifold.equaliser == 1.0
                             else drum_pressure + flow * drum.resistance)
    return PortPressures(reference_pressure, drum_pressure,
                         _flow_out(reference_foot, reference_pressure, manifold, air), total)


@dataclass(frozen=True, slots=True)
class _Side:
    pressure: object
    resistance: float


def _side(foot, air, drain, isolator, vent):
    """One side as seen from its port: open-ended pressure, and resistance behind it.

    None where the port is shut in.
    """
    open_pressure = foot + drain * (air - foot) if drain else foot
    if isolator < LEAST_OPENING:
        return _Side(air + 0.0 * foot, valve_resistance(vent)) if vent else None
    resistance = (1.0 - drain) + valve_resistance(isolator)
    if not vent or resistance == 0.0:  # a drain and its isolator wide open: air at the port
        return _Side(open_pressure, resistance)
    shared = (1.0 - vent) + vent * resistance
    return _Side((open_pressure * (1.0 - vent) + air * vent * resistance) / shared,
                 resistance * (1.0 - vent) / shared)


def _flow_out(foot, port, manifold, air):
    """Flow out of a leg towards port and drain, in pascal of one open line."""
    drain, isolator = manifold.reference_drain, manifold.reference_isolator
    open_pressure = foot + drain * (air - foot) if drain else foot
    if isolator < LEAST_OPENING or drain == 1.0:  # a wide open drain takes all that the line brings
        return foot - open_pressure
    towards_port = (open_pressure - port) / ((1.0 - drain) + valve_resistance(isolator))
    return foot - open_pressure + towards_port * (1.0 - drain)


def _kept(trapped):
    if trapped is None:
        raise InputError("An isolator is at 0 (shut) but no pressure in Pa is recorded behind it. "
                         "Shut it with moved_valve, which keeps the trapped pressure.")
    return trapped


def _handed_on(trapped, other, capsule_give):
    trapped = _kept(trapped)
    return trapped.pressure + capsule_give * (other - trapped.other_pressure)


