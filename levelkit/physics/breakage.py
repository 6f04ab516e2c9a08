"""A gauge glass breaks: what each end passes, how long the level lasts, what is done."""

from dataclasses import dataclass

import numpy as np

from ..constants import CAUTION
from ..errors import checked

PRACTICE = "common practice, no source"


@dataclass(frozen=True, slots=True)
class BrokenGlass:
    """What the two ends of a broken glass pass.

    Attributes
    ----------
    water_flow, steam_flow : float [kg/s]
        Mass flow out of the water end and of the steam end.
    flow_ratio : float [1]
        Water end over steam end: why the water cock is shut first.
    ball_lifts : bool
        Whether the flow in the ball passage lifts the ball off its rest to its seat.
    """

    water_flow: float
    steam_flow: float
    flow_ratio: float
    ball_lifts: bool


@dataclass(frozen=True, slots=True)
class DrillStep:
    """One step of a drill.

    Attributes
    ----------
    action : str
        What is done.
    reason : str
        Why.
    source : str
        Where it comes from.
    """

    action: str
    reason: str
    source: str


ISOLATION_DRILL = (
    DrillStep("get clear and protect the face", "glass and scalding water fly", PRACTICE),
    DrillStep("shut the water cock from a distance, by chain or extended spindle",
              "the water end passes about three to five times the mass, and it flashes", PRACTICE),
    DrillStep("shut the steam cock from a distance", "the steam end feeds the rest", PRACTICE),
    DrillStep("read the level on the other glass at once",
              "both ends drained the boiler while they blew", PRACTICE),
    DrillStep("keep people away", "a ball may not have seated, or may let go", PRACTICE),
    DrillStep("open the drain of the isolated gauge", "nothing may be left under pressure",
              PRACTICE),
)
"""Order of isolation, advised only beside :data:`levelkit.constants.CAUTION`."""

WARMING_DRILL = (
    DrillStep("open the drain", "condensate must run off", PRACTICE),
    DrillStep("crack the steam cock and wait", "steam warms the glass evenly from within",
              PRACTICE),
    DrillStep("open the water cock slowly", "hot water now meets warm glass", PRACTICE),
    DrillStep("shut the drain, open both cocks fully", "the glass fills to the level", PRACTICE),
    DrillStep("prove it by blowing through", "a new glass is an unproved witness", PRACTICE),
)
"""Warming a new glass, advised only beside :data:`levelkit.constants.CAUTION`."""

DRILL_CAUTION = CAUTION


def broken_glass(bore_diameter, water_flux, steam_flux, ball_lift_flow, discharge_coefficient=1.0):
    """Return what the two ends of a broken glass pass.

    ``m = C_d G pi d^2 / 4`` at each end

    Parameters
    ----------
    bore_diameter : float [m]
        Narrowest bore on the way out, at each end.
    water_flux, steam_flux : float [kg/(s m2)]
        Critical mass flux of saturated water and steam at drum pressure.
    ball_lift_flow : float [kg/s]
        Mass flow that lifts the ball on the water side.
    discharge_coefficient : float [1]
        Share of the ideal flow that a real passage lets through, 0.1 to 1.

    Returns
    -------
    BrokenGlass [kg/s, 1]
        Both flows, their ratio, whether the ball lifts.

    Raises
    ------
    InputError
        A value outside its range.

    Notes
    -----
    With homogeneous equilibrium fluxes and coefficient 1 the water flow is a lower bound
    for a clear bore; a narrower cock in the way lowers both ends alike.

    References
    ----------
    [CRITICAL-FLOW]; [PRACTICE-BREAKAGE] the ball is never relied on.

    Examples
    --------
    >>> broken = broken_glass(0.012, 5420.0, 1162.0, 0.304)
    >>> f"{broken.water_flow:.2f} and {broken.steam_flow:.2f} kg/s, ball lifts {broken.ball_lifts}"
    '0.61 and 0.13 kg/s, ball lifts True'
    """
    bore = checked("bore diameter", bore_diameter, 1e-4, 0.2, "m", "Give metres: 12 mm is 0.012.")
    water = checked("water flux", water_flux, 0.0, 1e6, "kg/(s m2)")
    steam = checked("steam flux", steam_flux, 1e-9, 1e6, "kg/(s m2)")
    lift = checked("ball lift flow", ball_lift_flow, 0.0, 1e4, "kg/s")
    area = checked("discharge coefficient", discharge_coefficient, 0.1, 1.0, "") * (
        np.pi * bore**2 / 4)
    return BrokenGlass(water * area, steam * area, water / steam, water * area > lift)


def time_to_lose_level(height, surface_area, water_density, loss, surplus_feed=0.0):
    """Return how long the level stays in sight while a broken glass blows.

    ``t = rho_f A h / (m_lost - m_surplus)``

    Parameters
    ----------
    height : float or array [m]
        Level above the lower end of sight, at least 0.
    surface_area : float or array [m2]
        Water surface of the drum, taken as constant over that height.
    water_density : float or array [kg/m3]
        Water in the drum.
    loss : float or array [kg/s]
        Mass lost through both ends.
    surplus_feed : float or array [kg/s]
        Feed beyond the steam drawn.

    Returns
    -------
    float or array [s]
        Time; infinite where the feed makes up the loss.

    Raises
    ------
    InputError
        A value outside its range.

    References
    ----------
    [CRITICAL-FLOW] for the loss; here a mass balance.

    Examples
    --------
    >>> round(time_to_lose_level(0.10, 2.0, 897.0, 0.74))
    242
    """
    height = checked("height in sight", height, 0.0, 10.0, "m", "Give metres.")
    area = checked("surface area", surface_area, 1e-3, 1e3, "m2")
    density = checked("water density", water_density, 1.0, 1100.0, "kg/m3")
    net = (checked("loss", loss, 0.0, 1e4, "kg/s")
           - checked("surplus feed", surplus_feed, 0.0, 1e4, "kg/s"))
    with np.errstate(divide="ignore", invalid="ignore", over="ignore"):
        time = np.where(np.asarray(net) > 0, density * area * height / np.asarray(net, float),
                        np.inf)
    return time if time.ndim else float(time)
