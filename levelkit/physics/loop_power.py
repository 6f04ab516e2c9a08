"""The current loop of a two-wire transmitter: will the supply drive the load?

The transmitter lets through the current it wants to say, as long as enough voltage is
left across its own terminals.
"""

from dataclasses import dataclass, field
from math import inf

import numpy as np

from ..errors import checked
from .signal import RECEIVER_RESISTANCE

COPPER_RESISTIVITY = 1.75e-8
"""Resistivity of copper wire [ohm m], common practice (source PRACTICE-REMOTE)."""

GREATEST_SIGNAL = 0.022
"""Largest current to allow for, a failure signal [A], common practice (PRACTICE-REMOTE)."""


@dataclass(frozen=True, slots=True)
class Receiver:
    """One receiver in the loop.

    Attributes
    ----------
    name : str
        What it is.
    resistance : float [ohm]
        Its resistance.
    shunt : float [ohm]
        Whatever lies in parallel with it, such as a second receiver wired wrongly; infinite
        when nothing does.
    """

    name: str = "receiver"
    resistance: float = RECEIVER_RESISTANCE
    shunt: float = inf

    def __post_init__(self):
        checked(f"resistance of the {self.name}", self.resistance, 0.01, 1e6, "ohm")
        checked(f"shunt of the {self.name}", self.shunt, 0.01, inf, "ohm")

    @property
    def share(self):
        """Share of the loop current that goes through the receiver itself."""
        return 1.0 if self.shunt == inf else self.shunt / (self.shunt + self.resistance)


@dataclass(frozen=True, slots=True)
class LoopState:
    """Supply, wires and receivers of one current loop.

    Attributes
    ----------
    supply_voltage : float [V]
        Voltage of the supply.
    receivers : tuple of Receiver [ohm]
        Receivers in series; the first is the level indicator.
    cable_resistance : float [ohm]
        Both cores together.
    minimum_terminal_voltage : float [V]
        What the transmitter needs to work.
    wire_broken : bool
        True where no current can flow.
    leakage_resistance : float [ohm]
        Leakage across the pair of wires, in parallel with the transmitter.
    """

    supply_voltage: float = 24.0
    receivers: tuple[Receiver, ...] = field(default=(Receiver(),))
    cable_resistance: float = 7.5
    minimum_terminal_voltage: float = 10.5
    wire_broken: bool = False
    leakage_resistance: float = inf

    def __post_init__(self):
        checked("supply voltage", self.supply_voltage, 0.0, 100.0, "V")
        checked("cable resistance", self.cable_resistance, 0.0, 1e5, "ohm")
        checked("minimum terminal voltage", self.minimum_terminal_voltage, 0.0, 100.0, "V")
        checked("leakage resistance", self.leakage_resistance, 1.0, inf, "ohm")
        checked("number of receivers", len(self.receivers), 1, 20, "",
                "Give a tuple with at least one receiver.")

    @property
    def load(self):
        """Resistance of cable and receivers together [ohm]."""
        return self.cable_resistance + sum(r.resistance * r.share for r in self.receivers)


@dataclass(frozen=True, slots=True)
class LoopResult:
    """What flows in a loop.

    Attributes
    ----------
    current : float or array [A]
        Current through the transmitter.
    receiver_current : float or array [A]
        Current through the first receiver: what the indicator shows.
    terminal_voltage : float or array [V]
        Voltage across the transmitter.
    starved : bool or array of bool
        True where the supply cannot drive the wanted current: the signal sticks near
        `current`, or the transmitter drops out and starts again.
    """

    current: object
    receiver_current: object
    terminal_voltage: object
    starved: object


def cable_resistance(length, conductor_area, resistivity=COPPER_RESISTIVITY):
    """Return the resistance of a two-core cable.

    ``R = 2 L rho / A``: out and back

    Parameters
    ----------
    length : float [m]
        Length of the run, one way.
    conductor_area : float [m2]
        Area of one core.
    resistivity : float [ohm m]
        Resistivity of the metal.

    Returns
    -------
    float [ohm]
        Resistance of both cores.

    Raises
    ------
    InputError
        A value outside its range.

    References
    ----------
    [CIRCUIT-LAWS] resistance of a wire.

    Examples
    --------
    >>> round(cable_resistance(320.0, 1.5e-6), 2)
    7.47
    """
    length = checked("length of the cable", length, 0.0, 1e5, "m")
    area = checked("area of a core", conductor_area, 1e-9, 1e-2, "m2",
                   "Give square metres: 1.5 mm2 is 1.5e-6.")
    return 2.0 * length * checked("resistivity", resistivity, 1e-9, 1e-4, "ohm m") / area


def greatest_load(supply_voltage, minimum_terminal_voltage, current=GREATEST_SIGNAL):
    """Return the largest load with which a loop still carries a current.

    ``R_max = (V_s - V_min) / I``

    Parameters
    ----------
    supply_voltage, minimum_terminal_voltage : float or array [V]
        Supply, and what the transmitter needs.
    current : float or array [A]
        Largest current to be carried: the failure signal, not 20 mA.

    Returns
    -------
    float or array [ohm]
        Load; 0 or less where the supply is too low for any.

    Raises
    ------
    InputError
        A value outside its range.

    References
    ----------
    [CIRCUIT-LAWS] voltages round the loop.

    Examples
    --------
    >>> round(greatest_load(24.0, 10.5)), round(greatest_load(12.0, 10.5))
    (614, 68)
    """
    supply = checked("supply voltage", supply_voltage, 0.0, 100.0, "V")
    minimum = checked("minimum terminal voltage", minimum_terminal_voltage, 0.0, 100.0, "V")
    current = checked("current", current, 1e-3, 1.0, "A", "Give ampere: 22 mA is 0.022.")
    return (supply - minimum) / current


def greatest_current(loop):
    """Return the largest current that a loop can carry.

    ``I = (V_s - V_min) / R``, plus what leaks past the transmitter

    Parameters
    ----------
    loop : LoopState [V, ohm]
        The loop.

    Returns
    -------
    float [A]
        Current through the transmitter at its minimum terminal voltage; 0 where the supply
        is below that, or the wire is broken.

    Raises
    ------
    InputError
        A value outside its range.

    References
    ----------
    [CIRCUIT-LAWS] voltages round the loop.

    Examples
    --------
    >>> loop = LoopState(supply_voltage=12.0, cable_resistance=7.47)
    >>> f"{1e3 * greatest_current(loop):.2f} mA"
    '5.83 mA'
    """
    if loop.wire_broken:
        return 0.0
    spare = loop.supply_voltage - loop.minimum_terminal_voltage
    leaking = loop.minimum_terminal_voltage / loop.leakage_resistance
    return max(spare / loop.load - leaking, 0.0)


def loop_reading(loop, wanted_current):
    """Return what flows when the transmitter wants to send a current.

    ``V_T = (V_s - I R) / (1 + R / R_leak)``, ``I_receiver = (I + V_T / R_leak) share``

    Parameters
    ----------
    loop : LoopState [V, ohm]
        The loop.
    wanted_current : float or array [A]
        What the transmitter wants to send, 0 to 0.1.

    Returns
    -------
    LoopResult
        Currents [A], terminal voltage [V], whether the transmitter starves.

    Raises
    ------
    InputError
        A current outside its range.

    Notes
    -----
    Receivers in series share the voltage and see one current. Receivers in parallel share
    the current: each reads low. Leakage adds to the receiver's current and reads high.

    References
    ----------
    [CIRCUIT-LAWS] voltages round the loop, currents at a junction.

    Examples
    --------
    >>> result = loop_reading(LoopState(cable_resistance=127.5), 0.022)
    >>> round(result.terminal_voltage, 1), result.starved
    (15.7, False)
    """
    wanted = checked("wanted current", wanted_current, 0.0, 0.1, "A",
                     "Give ampere: 12 mA is 0.012.")
    ceiling = greatest_current(loop)
    many = bool(np.ndim(wanted))
    current = np.minimum(wanted, ceiling) if many else min(wanted, ceiling)
    starved = current < wanted
    if loop.wire_broken:
        voltage, through = 0.0 * current, 0.0 * current
        starved = starved & False if many else False
    else:
        voltage = (loop.supply_voltage - current * loop.load) / (
            1.0 + loop.load / loop.leakage_resistance)
        through = current + voltage / loop.leakage_resistance
    return LoopResult(current, through * loop.receivers[0].share, voltage, starved)
