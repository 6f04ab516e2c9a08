"""Water shut in behind the valves of an instrument: which port, at what pressure, and heated."""

from dataclasses import replace

import numpy as np

from ..errors import InputError, checked
from .manifold import VALVES, TrappedWater


def shut_in(manifold):
    """Return which ports are cut off from their legs and from the air.

    Parameters
    ----------
    manifold : ManifoldState [1]
        How the valves stand.

    Returns
    -------
    tuple of str
        "reference", "drum side", both or none of them.

    References
    ----------
    None: a look at two valves, not a formula.

    Examples
    --------
    >>> from levelkit.physics.manifold import ManifoldState
    >>> shut_in(ManifoldState(drum_isolator=0.0))
    ('drum side',)
    """
    sides = []
    if manifold.reference_isolator == 0.0 and manifold.reference_vent == 0.0:
        sides.append("reference")
    if manifold.drum_isolator == 0.0 and manifold.drum_vent == 0.0:
        sides.append("drum side")
    return tuple(sides)


def moved_valve(manifold, valve, opening, ports):
    """Return the manifold after one valve was moved, with the pressure that it shut in.

    Parameters
    ----------
    manifold : ManifoldState [1]
        How the valves stood.
    valve : str
        One of VALVES.
    opening : float [1]
        New opening, 0 shut to 1 open.
    ports : PortPressures [Pa]
        Port pressures just before the move.

    Returns
    -------
    ManifoldState [1]
        The valves after the move; the trapped pressures are recorded, or cleared where
        the port is joined to its leg again.

    Raises
    ------
    InputError
        No such valve, or an opening outside 0 to 1.

    Notes
    -----
    Two shut-in ports that the equaliser joins meet at the mean of their pressures.

    References
    ----------
    [MANIFOLD-MODEL] own model: trapped water keeps its pressure.

    Examples
    --------
    >>> from levelkit.physics.manifold import ManifoldState, port_pressures
    >>> ports = port_pressures(6_107_500.0, 6_102_800.0, ManifoldState())
    >>> moved_valve(ManifoldState(), "drum_isolator", 0.0, ports).drum_trapped.pressure
    6102800.0
    """
    if valve not in VALVES:
        raise InputError(f"There is no valve {valve!r}. Choose one of: {', '.join(VALVES)}.")
    before = manifold
    moved = replace(manifold, **{valve: opening}, reference_trapped=None, drum_trapped=None)
    cut_off = shut_in(moved)
    if moved.equaliser:
        if len(cut_off) < 2:
            return moved
        mean = TrappedWater(*2 * (0.5 * (ports.reference + ports.drum_side),))
        return replace(moved, reference_trapped=mean, drum_trapped=mean)
    kept = () if before.equaliser else shut_in(before)
    reference = drum = None
    if "reference" in cut_off:
        reference = (before.reference_trapped if "reference" in kept
                     else TrappedWater(ports.reference, ports.drum_side))
    if "drum side" in cut_off:
        drum = (before.drum_trapped if "drum side" in kept
                else TrappedWater(ports.drum_side, ports.reference))
    return replace(moved, reference_trapped=reference, drum_trapped=drum)


def trapped_pressure_slope(expansion, compressibility):
    """Return how fast the pressure of water trapped in a rigid space rises with heat.

    ``(dp/dT)_v = beta / kappa``

    Parameters
    ----------
    expansion : float or array [1/K]
        Thermal expansion of the water.
    compressibility : float or array [1/Pa]
        Isothermal compressibility of the water.

    Returns
    -------
    float or array [Pa/K]
        Rise of pressure per kelvin.

    Raises
    ------
    InputError
        A value outside its range.

    Notes
    -----
    An upper bound: pipe and capsule yield and take most of it away. Even a hundredth is
    more than the span of a level transmitter.

    References
    ----------
    [TRAPPED-WATER] exact relation between the two coefficients.

    Examples
    --------
    >>> round(trapped_pressure_slope(4.58e-4, 4.42e-10) / 1e5, 1)
    10.4
    """
    expansion = checked("thermal expansion", expansion, -1e-4, 0.01, "1/K")
    compressibility = checked("compressibility", compressibility, 1e-11, 1e-6, "1/Pa")
    return np.divide(expansion, compressibility) if np.ndim(expansion) or np.ndim(
        compressibility) else expansion / compressibility
