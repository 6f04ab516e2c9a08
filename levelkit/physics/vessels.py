"""Communicating vessels: what stands where when vessels are joined at their feet.

Heights from the feet, which lie at one height. Vessels level out only if the fluid
has one density throughout, the pressure above is the same, and nothing flows.
"""

from dataclasses import dataclass, replace
from math import inf, sqrt

from ..constants import STANDARD_GRAVITY
from ..errors import InputError
from .vessel import Layer, Vessel, foot_pressure, vessel_columns

__all__ = ["Layer", "Vessel", "VesselsResult", "broken_conditions", "foot_pressure",
           "joined_vessels", "vessel_columns"]

_SAME = 1e-9  # relative: two numbers this close are one number to a reader


@dataclass(frozen=True, slots=True)
class VesselsResult:
    """Joined vessels at rest.

    Attributes
    ----------
    vessels : tuple of Vessel
        The vessels as they stand now.
    levels : tuple of float [m]
        Height of each free surface above the feet.
    foot_pressure : float [Pa]
        The one absolute pressure at the feet.
    moved_volumes : tuple of float [m3]
        What each vessel has gained; negative for a loss.
    """

    vessels: tuple
    levels: tuple
    foot_pressure: float
    moved_volumes: tuple


def joined_vessels(vessels, gravity=STANDARD_GRAVITY):
    """Return what stands in vessels once the valves between their feet are open.

    Fluid runs from every vessel whose foot pressure is above the common one to those
    below it, until the foot pressures agree. Where the pressures above are held, mass
    conservation alone gives the common pressure:
    ``p_foot = sum(A_i p_i) / sum(A_i)``, with p_i the foot pressures before.

    Parameters
    ----------
    vessels : sequence of Vessel [m2, Pa, m, kg/m3]
        At least two vessels, valves shut.
    gravity : float [m/s2]
        Acceleration of gravity.

    Returns
    -------
    VesselsResult
        The vessels at rest, their levels [m], foot pressure [Pa], moved volumes [m3].

    Raises
    ------
    InputError
        Fewer than two vessels, or one that would run empty so that its gas blows through.

    Notes
    -----
    The volume of every fluid is conserved. A vessel gives from its foot; what arrives
    goes to its place by density, which does not change the foot pressure. Where more
    than one vessel receives, all receive the same mixture. The connecting pipe holds
    nothing and is too narrow for two fluids to pass each other in it: a heavy fluid
    stays in the vessel into which it has not been pushed out. Trapped gas keeps its
    temperature: ``p V`` is constant.

    References
    ----------
    [HYDROSTATICS] fluid at rest.

    Examples
    --------
    >>> oil = Vessel(1e-3, 1e5, (Layer("water", 1000.0, 0.2), Layer("oil", 800.0, 0.1)))
    >>> plain = Vessel(1e-3, 1e5, (Layer("water", 1000.0, 0.2),))
    >>> [round(level, 3) for level in joined_vessels([oil, plain]).levels]
    [0.26, 0.24]
    """
    vessels = tuple(vessels)
    if len(vessels) < 2:
        raise InputError(f"{len(vessels)} vessel is given; the allowed number is 2 or more. "
                         "Give every vessel that is joined.")
    feet = [foot_pressure(vessel, gravity) for vessel in vessels]
    common = _common_pressure(vessels, feet, gravity)
    losses = [_lost(v, p, common, gravity) for v, p in zip(vessels, feet, strict=True)]
    pool = _pooled(losses)
    gains = [_gained(v, p, common, _mean_density(pool), gravity)
             for v, p in zip(vessels, feet, strict=True)]
    arrived = sum(gains)
    shares = [gain / arrived if arrived else 0.0 for gain in gains]
    after = tuple(_after(vessel, lost, pool, share, gravity)
                  for vessel, lost, share in zip(vessels, losses, shares, strict=True))
    moved = tuple((new.level - old.level) * old.bore_area
                  for old, new in zip(vessels, after, strict=True))
    return VesselsResult(after, tuple(vessel.level for vessel in after), common, moved)


def broken_conditions(vessels, gravity=STANDARD_GRAVITY):
    """Return in words which of the three conditions for equal levels are broken.

    Parameters
    ----------
    vessels : sequence of Vessel [m2, Pa, m, kg/m3]
        Vessels as they stand, joined at their feet.
    gravity : float [m/s2]
        Acceleration of gravity.

    Returns
    -------
    tuple of str
        One sentence for each broken condition; empty where the vessels stand level.

    References
    ----------
    [HYDROSTATICS] fluid at rest.

    Examples
    --------
    >>> hot = Vessel(1e-3, 1e5, (Layer("hot water", 950.0, 0.4),))
    >>> cold = Vessel(1e-3, 1e5, (Layer("cold water", 1000.0, 0.38),))
    >>> broken_conditions([hot, cold])
    ('The density is not the same throughout: 950 to 1000 kg/m3.',)
    """
    broken = []
    densities = [layer.density for vessel in vessels for layer in vessel.layers if layer.height]
    if densities and max(densities) - min(densities) > _SAME * max(densities):
        broken.append(f"The density is not the same throughout: {min(densities):.4g} to "
                      f"{max(densities):.4g} kg/m3.")
    above = [vessel.pressure_above for vessel in vessels]
    if max(above) - min(above) > _SAME * max(above):
        broken.append(f"The pressure above is not the same: it differs by "
                      f"{max(above) - min(above):.4g} Pa.")
    feet = [foot_pressure(vessel, gravity) for vessel in vessels]
    if max(feet) - min(feet) > _SAME * max(feet):
        broken.append(f"Fluid flows: the pressures at the feet differ by "
                      f"{max(feet) - min(feet):.4g} Pa.")
    return tuple(broken)


def _common_pressure(vessels, feet, gravity):
    if all(vessel.closed_top is None for vessel in vessels):
        area = sum(vessel.bore_area for vessel in vessels)
        return sum(v.bore_area * p for v, p in zip(vessels, feet, strict=True)) / area
    if max(feet) == min(feet):
        return feet[0]
    from scipy.optimize import brentq

    def surplus(pressure):
        losses = [_lost(v, p, pressure, gravity, to_the_last=True)
                  for v, p in zip(vessels, feet, strict=True)]
        pool = _pooled(losses)
        given = sum(density * volume for (_, density), volume in pool.items())
        return given - sum(_gained(v, p, pressure, _mean_density(pool), gravity)
                           for v, p in zip(vessels, feet, strict=True))

    return brentq(surplus, min(feet), max(feet), xtol=1e-9, rtol=1e-14)


def _gas_volume(vessel):
    return inf if vessel.closed_top is None else (
        (vessel.closed_top - vessel.level) * vessel.bore_area)


def _volume_to_reach(target, foot, gas_pressure, gas_volume, bore_area, density, gravity):
    """Volume of one fluid that brings a foot pressure to a target; negative to lower it.

    The foot carries ``p0 V0/(V0 - x) + (fluid already there) + rho g x/A``: a quadratic
    in x, written so that held pressure (infinite gas volume) is its plain limit.
    """
    slope = density * gravity / bore_area
    rise = target - foot
    if gas_volume == inf:
        return rise / slope
    b = slope * gas_volume + rise + gas_pressure
    return 2 * rise * gas_volume / (b + sqrt(b * b - 4 * slope * rise * gas_volume))


def _lost(vessel, foot, target, gravity, to_the_last=False):
    """Pieces (layer, volume) that leave a vessel, foot first, until its foot is at a target."""
    pieces, gas, gas_pressure = [], _gas_volume(vessel), vessel.pressure_above
    for layer in vessel.layers:
        if foot <= target:
            return pieces
        needed = -_volume_to_reach(target, foot, gas_pressure, gas, vessel.bore_area,
                                   layer.density, gravity)
        whole = layer.height * vessel.bore_area
        if needed <= whole:
            return [*pieces, (layer, needed)]
        pieces.append((layer, whole))
        expanded = gas_pressure if gas == inf else gas_pressure * gas / (gas + whole)
        foot += expanded - gas_pressure - layer.density * gravity * layer.height
        gas, gas_pressure = gas + whole, expanded
    if foot - target > _SAME * target and not to_the_last:
        raise InputError(
            f"The pressure of {vessel.pressure_above:.6g} Pa above one vessel would drive all its "
            f"fluid out and blow through the feet; the allowed pressure above it is at most about "
            f"{target:.6g} Pa. Lower it, or give the vessel more fluid."
        )
    return pieces


def _pooled(losses):
    """Volumes on their way, by fluid."""
    pool = {}
    for layer, volume in (piece for pieces in losses for piece in pieces):
        key = (layer.name, layer.density)
        pool[key] = pool.get(key, 0.0) + volume
    return pool


def _mean_density(pool):
    volume = sum(pool.values())
    return sum(density * part for (_, density), part in pool.items()) / volume if volume else 1.0


def _gained(vessel, foot, target, density, gravity):
    """Mass that a vessel takes up until its foot is at a target."""
    if foot >= target:
        return 0.0
    return density * _volume_to_reach(target, foot, vessel.pressure_above, _gas_volume(vessel),
                                      vessel.bore_area, density, gravity)


def _after(vessel, lost, pool, share, gravity):
    """A vessel after it gave what it lost or took its share of the pool."""
    heights = {(layer.name, layer.density): 0.0 for layer in vessel.layers}
    for layer in vessel.layers:
        heights[layer.name, layer.density] += layer.height
    for layer, volume in lost:
        heights[layer.name, layer.density] -= volume / vessel.bore_area
    if share:
        for fluid, volume in pool.items():
            heights[fluid] = heights.get(fluid, 0.0) + share * volume / vessel.bore_area
    stack = sorted(heights.items(), key=lambda item: -item[0][1])
    layers = tuple(Layer(name, density, height) for (name, density), height in stack
                   if height > 1e-12)
    level = sum(layer.height for layer in layers)
    pressure = vessel.pressure_above
    if vessel.closed_top is not None:
        pressure *= (vessel.closed_top - vessel.level) / (vessel.closed_top - level)
    return replace(vessel, layers=layers, pressure_above=pressure)
