"""The hidden condition of a drill as openings and faults of the time-resolved model."""

from .blow_glass import CHOKED, CLEAR, NARROWED
from .cock_state import CockFaults, Cocks

LEAST_SHARE = 0.06
"""Free share of a narrowed way, or of a shut cock that passes, for the time-resolved model:
teaching choice."""


def model_cocks(condition, inside):
    """Return openings and faults with which the time-resolved model shows this condition.

    Parameters
    ----------
    condition : GaugeCondition [-]
        The hidden truth.
    inside : GlassInside [-]
        Handles and ball.

    Returns
    -------
    tuple of Cocks and CockFaults [1]
        For :class:`levelkit.physics.cock_state.CockState`; a seated ball counts as a choke.

    References
    ----------
    [COCK-MODEL].

    Examples
    --------
    >>> from levelkit.physics.blow_glass import GaugeCondition, GlassInside
    >>> cocks, faults = model_cocks(GaugeCondition(water_way=CHOKED), GlassInside())
    >>> cocks.water, faults.water_choke
    (1.0, 1.0)
    """
    cocks = Cocks(float(inside.steam_handle == condition.steam_plug),
                  float(inside.water_handle == condition.water_plug), float(inside.drain_handle))
    choke = {CLEAR: 0.0, NARROWED: 1 - LEAST_SHARE, CHOKED: 1.0}
    water_way = CHOKED if inside.ball_seated else condition.water_way

    def passing(holds, way):
        return LEAST_SHARE if way != CHOKED and not holds else 0.0

    return cocks, CockFaults(
        choke[condition.steam_way], choke[water_way], choke[condition.drain_way],
        passing(condition.steam_holds, condition.steam_way),
        passing(condition.water_holds, water_way),
        passing(condition.drain_holds, condition.drain_way))
