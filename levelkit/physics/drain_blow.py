"""What a drain blow looks and sounds like."""

from dataclasses import dataclass

from ..errors import checked
from .steam_lookup import steam_at

STRONG, WEAK, NO_BLOW = "strong", "weak", "none"
WET, DRY, NOTHING = "wet", "dry", ""
_STRONG_SHARE, _LEAST_SHARE = 0.35, 0.004


@dataclass(frozen=True, slots=True)
class DrainBlow:
    """What comes out of the drain.

    Attributes
    ----------
    strength : str
        "strong", "weak" or "none".
    nature : str
        "wet" (heavy, white, lower pitched), "dry" (nearly clear at the outlet, higher
        pitched) or "".
    share : float [1]
        Flow over what a clear drain passes at drum pressure.
    """

    strength: str
    nature: str
    share: float


def drain_blow(state, drain_water, drain_steam):
    """Return what a drain blow looks and sounds like.

    Parameters
    ----------
    state : CockState [Pa, m2]
        For the flow that a clear drain would pass at drum pressure.
    drain_water, drain_steam : float [kg/s]
        Flows out of the drain.

    Returns
    -------
    DrainBlow [1]
        Strength, nature, share of a full blow.

    Raises
    ------
    InputError
        A value outside its range.

    References
    ----------
    [PRACTICE-BLOWING] judged by wetness, pitch and force.

    Examples
    --------
    >>> from levelkit.physics.cock_state import CockState, DrumSide
    >>> from levelkit.physics.glass_contents import GlassContents
    >>> from levelkit.physics.steam_lookup import steam_table
    >>> from levelkit.properties import saturated_fluid
    >>> drum = DrumSide(8e5, 0.2, 897.03, 4.161, 4371.0)
    >>> state = CockState(drum, steam_table(8e5, saturated_fluid), GlassContents(0.186, 8e5))
    >>> drain_blow(state, 0.0, 0.018).nature
    'dry'
    """
    at_drum = steam_at(state.steam, state.drum.pressure)
    full = state.fitting.discharge_coefficient * state.fitting.drain_way_area
    drain_water = checked("water to the drain", drain_water, 0.0, 1e4, "kg/s")
    drain_steam = checked("steam to the drain", drain_steam, 0.0, 1e4, "kg/s")
    water, steam = full * at_drum.water_flux, full * at_drum.steam_flux
    share = drain_water / water + drain_steam / steam
    if share < _LEAST_SHARE:
        return DrainBlow(NO_BLOW, NOTHING, share)
    nature = WET if drain_water / water > 0.1 * share else DRY
    return DrainBlow(STRONG if share >= _STRONG_SHARE else WEAK, nature, share)
