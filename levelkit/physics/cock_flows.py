"""What flows through each way of a gauge glass at one moment, and how its contents change.

The balance, stated once: water ``rho_w A dy/dt = water in + condensate - drain - leaks``;
steam ``d(rho_g V)/dt = steam in + flashed - condensate - drain - leaks``; heat: the
condensate covers the loss of the dry wall and whatever the wall takes up or gives back.
"""

from dataclasses import dataclass
from math import sqrt

from ..constants import GAS_CONSTANT, MOLAR_MASS_DRY_AIR, STANDARD_GRAVITY
from .steam_lookup import steam_at

FOAM_DEPTH = 0.010
"""Water shallower than this leaves the drain as a mixture with steam [m]: teaching choice."""

GAS_EXCHANGE_SPEED = 0.05
"""Speed with which steam and trapped gas change places through an open steam way [m/s]:
own estimate from the buoyancy of air in steam."""

_SMOOTH = 0.5  # Pa: the root law becomes a straight line below this, so that a solver can step
_SMOOTH_HEIGHT = 1e-6  # m
_SMOOTH_AIR = 50.0  # Pa: the same for gas to and from the air, where nobody sees so little
_AIR_DENSITY, _AIR_FLUX = 1.2, 240.0  # kg/m3, and kg/(s m2) at the speed of sound
_NO_LIMIT = 1e5  # kg/(s m2)
_TOP_MARGIN = 0.001  # m below the top in which a filling glass comes to rest
_LEAST_ROOM = 1e-8  # m3 that a full glass leaves its steam: a hundredth of a cubic centimetre
_INTAKE = 200.0  # Pa of vacuum at which air takes half of an outlet on its way in


@dataclass(frozen=True, slots=True)
class GlassFlows:
    """Flows of one moment; into the glass positive unless said otherwise.

    Attributes
    ----------
    pocket_pressure : float [Pa]
        Steam and gas together.
    pocket_temperature : float [K]
        Of steam, gas and dry wall.
    water_flow : float [kg/s]
        Water through the water way.
    steam_by_water_way : float [kg/s]
        Steam through the water way: the level is below the connection.
    steam_flow : float [kg/s]
        Through the steam way.
    condensation : float [kg/s]
        Steam to water in the glass.
    drain_water, drain_steam : float [kg/s]
        Out of the drain.
    height_rate : float [m/s]
        dy/dt.
    log_pressure_rate : float [1/s]
        d(ln p_steam)/dt.
    gas_rate : float [mol/s]
        dn/dt.
    """

    pocket_pressure: float
    pocket_temperature: float
    water_flow: float
    steam_by_water_way: float
    steam_flow: float
    condensation: float
    drain_water: float
    drain_steam: float
    height_rate: float
    log_pressure_rate: float
    gas_rate: float


def free_areas(state):
    """Return the free area of steam, water and drain way.

    Open share times what is not choked; a cock that passes never shuts below its share;
    a seated ball shuts the water way.

    Parameters
    ----------
    state : CockState [m2, 1]
        Gauge, openings and faults.

    Returns
    -------
    tuple of float [m2]
        Steam, water and drain way.

    References
    ----------
    [COCK-MODEL].

    Examples
    --------
    >>> from levelkit.physics.cock_state import CockState, DrumSide
    >>> from levelkit.physics.glass_contents import GlassContents
    >>> from levelkit.physics.steam_lookup import steam_table
    >>> from levelkit.properties import saturated_fluid
    >>> drum = DrumSide(8e5, 0.2, 897.03, 4.161, 4371.0)
    >>> state = CockState(drum, steam_table(8e5, saturated_fluid), GlassContents(0.186, 8e5))
    >>> free_areas(state)
    (2.83e-05, 2.83e-05, 0.0)
    """
    fitting, cocks, faults = state.fitting, state.cocks, state.faults
    steam = fitting.steam_way_area * max(cocks.steam * (1 - faults.steam_choke),
                                         faults.steam_passing)
    water = fitting.water_way_area * max(cocks.water * (1 - faults.water_choke),
                                         faults.water_passing)
    drain = fitting.drain_way_area * max(cocks.drain * (1 - faults.drain_choke),
                                         faults.drain_passing)
    return steam, 0.0 if state.contents.ball_seated else water, drain


def glass_flows(state):
    """Return every flow of a gauge glass at its present contents.

    Parameters
    ----------
    state : CockState [Pa, m, kg/m3, K, m2]
        Everything.

    Returns
    -------
    GlassFlows [Pa, K, kg/s, m/s, 1/s, mol/s]
        Flows and rates of change.

    Notes
    -----
    Jets follow the root law until the critical flux of the fluid holds them. A level
    below the water connection lets steam in through the water way while water runs back
    beside it, each in half of it. An outlet under vacuum lets air in the same way.
    The glass water has one density; entering drum water keeps its mass, not its volume.

    References
    ----------
    [COCK-MODEL]; [ORIFICE-FLOW]; [CRITICAL-FLOW].

    Examples
    --------
    >>> from levelkit.physics.cock_state import CockState, DrumSide
    >>> from levelkit.physics.glass_contents import GlassContents
    >>> from levelkit.physics.steam_lookup import steam_table
    >>> from levelkit.properties import saturated_fluid
    >>> drum = DrumSide(8e5, 0.2, 897.03, 4.161, 4371.0)
    >>> state = CockState(drum, steam_table(8e5, saturated_fluid), GlassContents(0.2, 8e5))
    >>> glass_flows(state).water_flow < 0  # stands too high: runs back
    True
    """
    contents = state.contents
    return flows_at(state, free_areas(state), contents.height, contents.steam_pressure,
                    contents.gas_amount)


def flows_at(state, areas, height, steam_pressure, gas_amount):
    """Return every flow of a gauge glass at given contents: the solver's inner call.

    Parameters
    ----------
    state : CockState [Pa, m, kg/m3, K, m2]
        Drum, gauge, faults; its contents are not looked at.
    areas : tuple of float [m2]
        From :func:`free_areas`.
    height : float [m]
        Water in the glass.
    steam_pressure : float [Pa]
        Partial pressure of the steam.
    gas_amount : float [mol]
        Trapped gas.

    Returns
    -------
    GlassFlows [Pa, K, kg/s, m/s, 1/s, mol/s]
        Flows and rates of change.

    Notes
    -----
    Values are not checked here, for a solver calls it thousands of times:
    :func:`glass_flows` checks them.

    References
    ----------
    [COCK-MODEL].

    Examples
    --------
    >>> from levelkit.physics.cock_state import CockState, DrumSide
    >>> from levelkit.physics.glass_contents import GlassContents
    >>> from levelkit.physics.steam_lookup import steam_table
    >>> from levelkit.properties import saturated_fluid
    >>> drum = DrumSide(8e5, 0.2, 897.03, 4.161, 4371.0)
    >>> state = CockState(drum, steam_table(8e5, saturated_fluid), GlassContents(0.2, 8e5))
    >>> flows_at(state, free_areas(state), 0.1, 8e5, 0.0).water_flow > 0  # too low: runs in
    True
    """
    drum, fitting, faults, table = state.drum, state.fitting, state.faults, state.steam
    steam_area, water_area, drain_area = (fitting.discharge_coefficient * area for area in areas)
    top, gravity, water_density = fitting.steam_connection, STANDARD_GRAVITY, fitting.water_density
    level, drum_pressure, outside = drum.level, drum.pressure, fitting.barometer

    here = steam_at(table, steam_pressure)
    pocket_t, density, latent = here.temperature, here.density, here.latent_heat
    dry_length = max(top - height, 0.0)
    volume = fitting.bore_area * dry_length + fitting.top_volume + _LEAST_ROOM
    gas_pressure = gas_amount * GAS_CONSTANT * pocket_t / volume
    pocket = steam_pressure + gas_pressure
    wet = min(max(height / FOAM_DEPTH, 0.0), 1.0)
    foot = pocket + gravity * (water_density * height + density * dry_length)
    at_drum = steam_at(table, drum_pressure)
    at_foot = steam_at(table, foot)

    # steam way
    fall = drum_pressure - pocket
    steam_in = steam_area * (_flux(drum.steam_density, fall, at_drum.steam_flux) if fall > 0
                             else _flux(density, fall, at_foot.steam_flux))

    # water way
    lip = fitting.pipe_lip
    if level > lip:
        below = drum_pressure + gravity * (drum.water_density * level
                                           + drum.steam_density * (top - level))
        fall = below - foot
        # trapped gas is a hard spring: what a micrometre of water does to it is no flow
        soft = _SMOOTH + gas_pressure * fitting.bore_area / volume * _SMOOTH_HEIGHT
        if fall > 0:
            water_in = water_area * _flux(drum.water_density, fall, at_drum.water_flux, soft)
            steam_below = 0.0
        else:
            water_in = water_area * wet * _flux(water_density, fall, at_foot.water_flux, soft)
            steam_below = water_area * (1 - wet) * _flux(density, fall, at_foot.steam_flux)
    else:
        above_lip = max(height - lip, 0.0)
        push = water_density * gravity * above_lip + max(pocket - drum_pressure, 0.0)
        water_in = -0.5 * water_area * min(above_lip / FOAM_DEPTH, 1.0) * _flux(
            water_density, push, at_foot.water_flux)
        steam_below = 0.5 * water_area * _flux(drum.steam_density, drum_pressure - pocket,
                                               at_drum.steam_flux)
    # drum water boils where the foot is below its pressure
    flashed = 0.0
    if water_in > 0 and foot < drum_pressure:
        share = (drum.heat_capacity * (at_drum.temperature - at_foot.temperature)
                 / at_foot.latent_heat)
        flashed = water_in * min(max(share, 0.0), 1.0)

    # drain and leaks
    drain_water = drain_steam = air_in = 0.0
    bottom_area = fitting.discharge_coefficient * faults.bottom_leak_area
    for area in (drain_area, bottom_area):
        if not area:
            continue
        intake = 0.5 * min(max((outside - pocket) / _INTAKE, 0.0), 1.0)
        push = max(foot - outside, 2 * intake * water_density * gravity * height)
        # water that leaves a vacuum for the air cannot flash: nothing limits it but its head
        limit = at_foot.water_flux + 2 * intake * _NO_LIMIT
        drain_water += area * (1 - intake) * wet * _flux(water_density, push, limit)
        drain_steam += area * (1 - wet) * _one_way_flux(density, pocket - outside,
                                                        at_foot.steam_flux)
        air_in += area * (intake * wet + (1 - wet)) * _one_way_flux(
            _AIR_DENSITY, outside - pocket, _AIR_FLUX)
    top_area = fitting.discharge_coefficient * faults.top_leak_area
    top_steam = top_area * _one_way_flux(density, pocket - outside, at_foot.steam_flux)
    air_in += top_area * _one_way_flux(_AIR_DENSITY, outside - pocket, _AIR_FLUX)

    # balance
    loss_length = dry_length + fitting.extra_condensing_length
    loss = fitting.dry_heat_loss * loss_length * (pocket_t - fitting.ambient_temperature) / latent
    taken_up = fitting.wall_heat_capacity * loss_length * here.temperature_slope / latent
    steam_give = volume * here.density_slope
    steam_sum = steam_in + steam_below + flashed - drain_steam - top_steam
    water_sum = water_in - flashed - drain_water
    pressure_rate, condensation, bore_rate = _rates(
        steam_give, density, water_density, taken_up, loss, steam_sum, water_sum)
    if condensation < 0 and wet < 1:  # a dry wall has no film to boil off
        taken_up, loss = wet * taken_up, wet * loss
        pressure_rate, condensation, bore_rate = _rates(
            steam_give, density, water_density, taken_up, loss, steam_sum, water_sum)
    room = top - height
    if bore_rate > 0 and room < _TOP_MARGIN:  # full: the surplus goes over to the steam way
        bore_rate *= room / _TOP_MARGIN
        pressure_rate = ((steam_sum - loss + density * bore_rate)
                         / (steam_give + taken_up + 1e-18))

    swept = (drain_steam + top_steam + max(-steam_in, 0.0)) / (density * volume)
    exchanged = GAS_EXCHANGE_SPEED * steam_area / fitting.discharge_coefficient / volume
    gas_rate = air_in / MOLAR_MASS_DRY_AIR - gas_amount * (swept + exchanged)
    return GlassFlows(pocket, pocket_t, water_in, steam_below, steam_in, condensation,
                      drain_water, drain_steam, bore_rate / fitting.bore_area,
                      pressure_rate / max(steam_pressure, 1.0), gas_rate)


def _rates(steam_give, steam_density, water_density, taken_up, loss, steam_sum, water_sum):
    """Pressure rate, condensation and volume rate of the water, from both balances at once.

    ``(D + E) p' = S - q + rho_g B`` and ``rho_w B = W + q + E p'``, B the volume rate.
    """
    thin = steam_density / water_density
    pressure_rate = ((steam_sum - loss + thin * (water_sum + loss))
                     / (steam_give + taken_up * (1 - thin) + 1e-18))
    condensation = loss + taken_up * pressure_rate
    return pressure_rate, condensation, (water_sum + condensation) / water_density


def _flux(density, fall, limit, smooth=_SMOOTH):
    """Mass flux by the root law, held smoothly below the critical flux, signed by the fall."""
    free = sqrt(2 * density) * fall / (fall * fall + smooth * smooth) ** 0.25
    return free / (1 + (free / limit) ** 4) ** 0.25


def _one_way_flux(density, fall, limit):
    """Mass flux of a gas to or from the air, nothing the other way, without a kink at rest.

    A glass open to the air rests where the two streams meet: a kink there stalls a solver.
    """
    if fall <= 0:
        return 0.0
    free = sqrt(2 * density) * fall * fall / (fall * fall + _SMOOTH_AIR**2) ** 0.75
    return free / (1 + (free / limit) ** 4) ** 0.25
