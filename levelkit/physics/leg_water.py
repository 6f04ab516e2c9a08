"""How leg water moves: leaks against make-up, and how fast an instrument fills."""

from dataclasses import replace
from math import exp, inf

from ..constants import STANDARD_GRAVITY
from ..errors import InputError, checked
from ._scalar import mean_value
from .wet_legs import instrument_ports, leg_pressures

_PROBE = 1e-3  # m; the flow is linear in the length lost, any probe gives the slope


def legs_after(drum, legs, seconds, gravity=STANDARD_GRAVITY):
    """Return the legs after a time in which drum and valves do not change.

    ``rho_r A dl/dt = flow out + weep - make-up``, flow out linear in the length l lost:
    l approaches its limit exponentially

    Parameters
    ----------
    drum : DrumContents [m, Pa, kg/m3]
        Level, pressure, densities; scalars.
    legs : LegsState [m, kg/m3]
        The legs at the beginning; scalars.
    seconds : float [s]
        Time that passes, 0 to 1e6.
    gravity : float [m/s2]
        Acceleration of gravity.

    Returns
    -------
    LegsState [m, kg/m3]
        The legs at the end: length lost, pressure of an isolated chamber.

    Raises
    ------
    InputError
        A value outside its range, or an array.

    Notes
    -----
    The leg is never fuller than to its weir, and the loss stops at the lower connection.
    An isolated chamber makes nothing up and its pressure falls towards that of the air;
    once the leg under it is full it counts as full itself, and takes the pressure that
    stops the flow. The leg keeps its density.

    References
    ----------
    [MANIFOLD-MODEL] own model; [HEAT-BALANCE] make-up.

    Examples
    --------
    >>> from levelkit.physics.leg_state import DrumContents, LegsState
    >>> from levelkit.physics.manifold import ManifoldState
    >>> legs = LegsState(0.8, 2.0, 990.6, 990.6, 990.6, manifold=ManifoldState(equaliser=1.0))
    >>> later = legs_after(DrumContents(0.4, 6.1e6, 756.1, 31.4), legs, 600.0)
    >>> f"{1000 * later.reference_loss:.0f} mm gone"
    '497 mm gone'
    """
    seconds = checked("time", seconds, 0.0, 1e6, "s")
    for name, value in (("drum level", drum.level), ("length lost", legs.reference_loss),
                        ("leg density", legs.reference_density)):
        if getattr(value, "ndim", 0):
            raise InputError(f"{name} is an array of {value.size} values; the run of time takes "
                             "one leg at a time: give one value.")
    legs = _cooled_chamber(legs, seconds)
    mass_per_metre = legs.reference_density * legs.leg_area
    make_up = 0.0 if legs.chamber.isolated_pressure is not None else legs.chamber.make_up

    def net_loss(lost):
        trial = replace(legs, reference_loss=lost)
        flow = instrument_ports(drum, trial, gravity=gravity).reference_flow
        return (flow * legs.line_conductance + legs.weep - make_up) / mass_per_metre

    longest = legs.weir_height - legs.reference_gas
    start = min(legs.reference_loss, longest)
    probe = start + _PROBE if start + _PROBE <= longest else start - _PROBE
    rate = net_loss(start)
    slope = (net_loss(probe) - rate) / (probe - start)
    if slope < -1e-12:
        end = start - rate / slope * (1.0 - exp(max(slope * seconds, -700.0)))
    else:
        end = start + rate * seconds
    end = min(max(end, 0.0), longest)
    after = replace(legs, reference_loss=end)
    if legs.chamber.isolated_pressure is not None and end == 0.0 and rate < 0.0:
        return _filled_chamber(drum, after, gravity)
    return after


def filling_time(legs, compliance, line_resistance):
    """Return the time constant with which an instrument fills through its lines.

    ``tau = C rho R / G`` with R in open lines and G the conductance of one

    Parameters
    ----------
    legs : LegsState [m, kg/m3]
        Legs: density of the water that has to move, conductance of one line.
    compliance : float [m3/Pa]
        Volume that the instrument takes up for each pascal.
    line_resistance : float [1]
        Resistance of the lines in open impulse lines.

    Returns
    -------
    float [s]
        Time constant; infinite where the lines are shut.

    Raises
    ------
    InputError
        A value outside its range.

    References
    ----------
    [MANIFOLD-MODEL] own model: flow in proportion to pressure difference.

    Examples
    --------
    >>> from levelkit.physics.leg_state import LegsState
    >>> legs = LegsState(0.8, 2.0, 990.6, 990.6, 990.6)
    >>> round(filling_time(legs, 6.7e-9, 2.0), 1)
    1.2
    """
    give = checked("compliance", compliance, 0.0, 1.0, "m3/Pa")
    resistance = checked("line resistance", line_resistance, 0.0, inf, "", "Infinite: shut in.")
    return give * mean_value(legs.reference_run_density) * resistance / legs.line_conductance


def gas_compliance(pressure, legs):
    """Return the volume that gas in the legs gives up for each pascal.

    ``C = V / p`` at constant temperature

    Parameters
    ----------
    pressure : float or array [Pa]
        Absolute pressure of the drum; of an array the mean.
    legs : LegsState [m, m2]
        Legs with the gas left in them and their bore area.

    Returns
    -------
    float [m3/Pa]
        To be added to that of the instrument: gas has to be squeezed through a choked line
        just as the capsule has to be filled.

    Raises
    ------
    InputError
        A pressure outside its range.

    Notes
    -----
    Taken as if all gas lay behind the choke, which is the slower case.

    References
    ----------
    [IDEAL-GAS].

    Examples
    --------
    >>> from levelkit.physics.leg_state import LegsState
    >>> legs = LegsState(0.8, 2.0, 990.6, 990.6, 990.6, drum_gas=0.1)
    >>> f"{gas_compliance(6.1e6, legs):.2g} m3/Pa"
    '3.3e-12 m3/Pa'
    """
    pressure = checked("absolute pressure", pressure, 1e3, 2.2e7, "Pa",
                       "Add the barometer to a gauge pressure.")
    volume = mean_value(legs.reference_gas + legs.drum_gas) * legs.leg_area
    return volume / mean_value(pressure)


def _cooled_chamber(legs, seconds):
    chamber = legs.chamber
    if chamber.isolated_pressure is None:
        return legs
    excess = (chamber.isolated_pressure - legs.barometer) * exp(-seconds / chamber.cooling_time)
    return replace(legs, chamber=replace(chamber, isolated_pressure=legs.barometer + excess))


def _filled_chamber(drum, legs, gravity):
    """The chamber full of water: no flow, so its pressure is that of the port less the leg."""
    feet = leg_pressures(drum, legs, gravity)
    leg_head = feet.reference - legs.chamber.isolated_pressure
    return replace(legs, chamber=replace(legs.chamber,
                                         isolated_pressure=feet.drum_side - leg_head))
