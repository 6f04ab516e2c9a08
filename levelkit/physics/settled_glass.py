"""Where a gauge glass comes to rest with choked, leaking or shut ways: quick enough for a slider.

No stepping through time: the flows that a faulty glass needs in the long run take their
pressure from the two ways, and the column list gives the height.
"""

from dataclasses import dataclass

from .cock_flows import free_areas
from .passages import glass_height_with_drops, passage_drop
from .steam_lookup import steam_at

BETWEEN, FULL, EMPTY, HELD = "between", "full", "empty", "held"
FALSE_COLUMN = "false column"
_NEARLY_SHUT = 1e-12  # m2


@dataclass(frozen=True, slots=True)
class SettledGlass:
    """A gauge glass at rest.

    Attributes
    ----------
    height : float [m]
        Water above the connection, within the glass.
    place : str
        "between", "full", "empty", "held" (both ways shut: stays where it is) or "false
        column" (held by the water-side pipe while the level is below the connection).
    water_way_drop, steam_way_drop : float [Pa]
        Fall of pressure from the drum into the glass through each way; 0 where the way is
        shut, because nothing flows in it.
    condensation : float [kg/s]
        Steam condensed.
    leak_flow : float [kg/s]
        Out of drain and bottom gland.
    """

    height: float
    place: str
    water_way_drop: float
    steam_way_drop: float
    condensation: float
    leak_flow: float


def settled_glass(state):
    """Return where a gauge glass comes to rest.

    Steam way carries condensate and top leak, water way the drain leak less condensate:
    ``drum - dp_w - glass + dp_s = 0`` round the loop

    Parameters
    ----------
    state : CockState [Pa, m, kg/m3, K, m2]
        Drum, gauge, openings and faults; its contents matter only where both ways are shut.

    Returns
    -------
    SettledGlass [m, Pa, kg/s]
        Height, where that is, the two falls of pressure, condensation and leak.

    Raises
    ------
    InputError
        A value outside its range.

    Notes
    -----
    A shut steam way fills the glass, a shut water way too (slowly), as long as no drain
    leaks; with the drain leaking and the water way shut the glass empties. The leak is
    boiling water at drum pressure. No trapped gas. Blowing drains are for
    :func:`levelkit.physics.cocks.glass_history`.

    References
    ----------
    [COCK-MODEL] at rest; [HYDROSTATICS].

    Examples
    --------
    >>> from dataclasses import replace
    >>> from levelkit.physics.cock_state import CockFaults, CockState, DrumSide
    >>> from levelkit.physics.glass_contents import GlassContents
    >>> from levelkit.physics.steam_lookup import steam_table
    >>> from levelkit.properties import saturated_fluid
    >>> drum = DrumSide(8e5, 0.2, 897.03, 4.161, 4371.0)
    >>> faults = CockFaults(steam_choke=0.97)
    >>> state = CockState(drum, steam_table(8e5, saturated_fluid), GlassContents(0.186, 8e5),
    ...                   faults=faults)
    >>> settled_glass(state).height > settled_glass(replace(state, faults=CockFaults())).height
    True
    """
    from scipy.optimize import brentq

    fitting, drum = state.fitting, state.drum
    steam_area, water_area, drain_area = free_areas(state)
    leak_area = drain_area + state.faults.bottom_leak_area
    steam_shut, water_shut = steam_area <= _NEARLY_SHUT, water_area <= _NEARLY_SHUT
    leaking = leak_area > _NEARLY_SHUT
    top, share = fitting.steam_connection, fitting.discharge_coefficient
    steam = steam_at(state.steam, drum.pressure)
    per_metre = (fitting.dry_heat_loss * (steam.temperature - fitting.ambient_temperature)
                 / steam.latent_heat)
    top_leak = share * state.faults.top_leak_area * steam.steam_flux
    full_leak = share * leak_area * steam.water_flux

    def at(height, place, water_drop=0.0, steam_drop=0.0, leak=0.0):
        condensed = per_metre * (top - height + fitting.extra_condensing_length)
        return SettledGlass(float(height), place, water_drop, steam_drop, condensed, leak)

    covered = drum.level > fitting.pipe_lip
    if steam_shut and water_shut:
        return at(0.0, EMPTY) if leaking else at(state.contents.height, HELD)
    if water_shut:
        return at(0.0, EMPTY) if leaking else at(top, FULL)
    if not covered:
        held = not leaking and fitting.pipe_lip > 0
        return at(fitting.pipe_lip, FALSE_COLUMN) if held else at(0.0, EMPTY)
    if steam_shut:
        return at(top, FULL, leak=full_leak)

    def drops(height):
        """Falls of pressure over water and steam way with the water standing there."""
        condensed = per_metre * (top - height + fitting.extra_condensing_length)
        inwards = full_leak - condensed
        density = drum.water_density if inwards > 0 else fitting.water_density
        return (passage_drop(inwards, water_area, density, share),
                passage_drop(condensed + top_leak, steam_area, drum.steam_density, share))

    # the loop is linear in the drops: two calls of its owner give the line
    level_line = [glass_height_with_drops(
        drum.level, drum.water_density, drum.steam_density, fitting.water_density, 0.0, pascal)
        for pascal in (0.0, 1000.0)]

    def surplus(height):
        """How far the loop would push the water above this height."""
        water_drop, steam_drop = drops(height)
        lift = (steam_drop - water_drop) / 1000.0
        return level_line[0] + (level_line[1] - level_line[0]) * lift - height

    if surplus(top) >= 0:
        return at(top, FULL, *drops(top), full_leak)
    if surplus(0.0) <= 0:
        return at(0.0, EMPTY, *drops(0.0), full_leak)
    height = brentq(surplus, 0.0, top, xtol=1e-7, rtol=1e-9)
    return at(height, BETWEEN, *drops(height), full_leak)
