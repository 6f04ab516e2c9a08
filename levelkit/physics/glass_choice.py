"""Which gauge glass for which pressure, its parts, and whether an installation is complete.

Limits marked "common practice, no source" are just that: class and flag rules override.
"""

from dataclasses import dataclass

from ..constants import BAR
from ..errors import InputError, checked
from .mounting import MountingFinding, mounting_findings

TUBULAR, REFLEX, PLATE = "tubular glass", "reflex glass", "plate glass with mica"
PRACTICE = "common practice, no source; class rules override"
SOLAS = "SOLAS II-1/32.6"
US_FLAG = "46 CFR 52.01-110 (US flag)"
US_FLAT_GLASS_ABOVE = 1.724e6


@dataclass(frozen=True, slots=True)
class GlassPart:
    """One part of a gauge glass.

    Attributes
    ----------
    name : str
        What it is called.
    purpose : str
        What it is there for.
    """

    name: str
    purpose: str


@dataclass(frozen=True, slots=True)
class GlassType:
    """One type of direct gauge glass.

    Attributes
    ----------
    name : str
        "tubular glass", "reflex glass" or "plate glass with mica".
    highest_pressure : float [Pa]
        Highest working pressure, gauge; infinite where practice sets none.
    parts : tuple of GlassPart
        Its parts, from the steam end down.
    reason : str
        What sets the limit.
    source : str
        Where the limit comes from.
    """

    name: str
    highest_pressure: float
    parts: tuple
    reason: str
    source: str


_COCKS = (
    GlassPart("steam cock", "joins the top of the glass to the steam space"),
    GlassPart("water cock", "joins the foot of the glass to the water space"),
    GlassPart("drain cock", "empties the glass and shows what blows"),
    GlassPart("ball check", "after the water cock; closes on a rush when the glass breaks"),
    GlassPart("cleaning plugs", "opposite the cocks, so that the ways can be rodded"),
    GlassPart("remote shut-off gear", "shuts water and steam cock from a distance"),
)

TYPES = {
    TUBULAR: GlassType(
        TUBULAR, 17.5 * BAR, (
            *_COCKS,
            GlassPart("glass tube", "shows the level; bends light like a lens when full"),
            GlassPart("packing and gland nuts", "seal the tube and let it expand"),
            GlassPart("guard", "toughened glass round the front, open at the back, stays on under "
                      "pressure"),
            GlassPart("striped backing plate", "its stripes lean the other way behind water"),
            GlassPart("lamp", "lights the glass")),
        "a plain tube in bending and thermal stress", PRACTICE),
    REFLEX: GlassType(
        REFLEX, 20.6 * BAR, (
            *_COCKS,
            GlassPart("grooved glass", "right-angled grooves: bright before steam, dark before "
                      "water"),
            GlassPart("frame and chamber", "hold the glass and the water behind it"),
            GlassPart("gasket", "seals the glass to the chamber"),
            GlassPart("cover and bolts", "press the glass evenly on its gasket"),
            GlassPart("front light", "is thrown back by the steam part")),
        "the grooves must touch the water, so no mica can shield them from hot alkaline water",
        PRACTICE),
    PLATE: GlassType(
        PLATE, float("inf"), (
            *_COCKS,
            GlassPart("centre piece", "the body with the water channel"),
            GlassPart("gaskets", "seal centre piece, mica and glass"),
            GlassPart("mica sheets", "on the water side; shield the glass from hot alkaline water"),
            GlassPart("glass plates", "flat, front and back"),
            GlassPart("clamp plates and bolts", "press evenly; tightened from the middle outwards"),
            GlassPart("louvre or light slope", "throws the back light up so that the surface "
                      "shines"),
            GlassPart("back light", "lights the channel from behind")),
        "thick flat glasses shielded by mica", PRACTICE),
}
"""The three types of direct glass by name."""


@dataclass(frozen=True, slots=True)
class GlassInstallation:
    """The level indication of one boiler, as it is checked.

    Attributes
    ----------
    glass : str
        Name of the glass type.
    working_pressure : float [Pa]
        Gauge working pressure of the boiler.
    mounting : GlassMounting [m]
        Connections and visible part of the glass.
    topmost_tube, normal_level, low_alarm, high_alarm : float [m]
        Heights above the water connection.
    independent_means : int
        How many means of indicating level share no connection with each other.
    direct_glasses : int
        How many of them are direct gauge glasses.
    lit, lit_by_emergency_supply : bool
        Whether the glass has a lamp, and whether that lamp is on the emergency supply.
    """

    glass: str
    working_pressure: float
    mounting: object
    topmost_tube: float
    normal_level: float
    low_alarm: float
    high_alarm: float
    independent_means: int = 2
    direct_glasses: int = 1
    lit: bool = True
    lit_by_emergency_supply: bool = True


def chosen_glass(working_pressure):
    """Return the type of direct glass that practice chooses for a working pressure.

    Parameters
    ----------
    working_pressure : float [Pa]
        Gauge working pressure, 0 to 200 bar.

    Returns
    -------
    GlassType [Pa]
        Tubular up to 17.5 bar, reflex up to 20.6 bar, plate with mica above.

    Raises
    ------
    InputError
        A pressure outside its range.

    Notes
    -----
    Common practice, no source; class rules override. A type with a higher limit may
    always be used lower down.

    References
    ----------
    [PRACTICE-GLASS] pressure limits.

    Examples
    --------
    >>> [chosen_glass(bar * 1e5).name for bar in (7, 19, 60)]
    ['tubular glass', 'reflex glass', 'plate glass with mica']
    """
    pressure = checked("working pressure", working_pressure, 0.0, 200 * BAR, "Pa",
                       "Give the gauge pressure in pascal: 7 bar is 700 000 Pa.")
    return next(kind for kind in TYPES.values() if pressure <= kind.highest_pressure)


def installation_findings(installation):
    """Return the lines of the check of a boiler's level indication.

    Parameters
    ----------
    installation : GlassInstallation [Pa, m, 1]
        What is fitted.

    Returns
    -------
    tuple of MountingFinding [unit of each limit]
        Met or not, what was found, the limit, its source; the mounting lines come last.

    Raises
    ------
    InputError
        An unknown glass type, or a number outside its range.

    Notes
    -----
    Teaching model; class and flag rules decide. The US lines bind US ships only and are
    shown because they are the ones with a published number.

    References
    ----------
    [SOLAS-II-1-32]; [CFR-46-52]; [PRACTICE-GLASS]; [PRACTICE-MOUNTING].

    Examples
    --------
    >>> from levelkit.physics.glass import GlassMounting
    >>> fitted = GlassInstallation("tubular glass", 1.9e6, GlassMounting(0.5, 0.07, 0.43),
    ...                            -0.12, 0.25, 0.17, 0.33)
    >>> [line.requirement for line in installation_findings(fitted) if not line.met]
    ['glass type suits the working pressure', 'flat glass, not a tube, at this pressure']
    """
    if installation.glass not in TYPES:
        raise InputError(f"The glass type {installation.glass!r} is not known; give one of "
                         f"{', '.join(TYPES)}.")
    pressure = checked("working pressure", installation.working_pressure, 0.0, 200 * BAR, "Pa",
                       "Give the gauge pressure in pascal: 7 bar is 700 000 Pa.")
    means = checked("number of independent means", installation.independent_means, 0, 20, "")
    direct = checked("number of direct glasses", installation.direct_glasses, 0, 20, "")
    kind = TYPES[installation.glass]
    bar = pressure / BAR
    limit = ("no limit from practice" if kind.highest_pressure == float("inf")
             else f"at most {kind.highest_pressure / BAR:.1f} bar gauge")
    return (
        MountingFinding("two means of indicating level", means >= 2, means,
                        "at least 2", SOLAS),
        MountingFinding("one of them a direct gauge glass", direct >= 1, direct, "at least 1",
                        SOLAS),
        MountingFinding("glass type suits the working pressure", pressure <= kind.highest_pressure,
                        bar, limit, kind.source),
        MountingFinding("flat glass, not a tube, at this pressure",
                        installation.glass != TUBULAR or pressure <= US_FLAT_GLASS_ABOVE, bar,
                        "tubes up to 17.24 bar gauge (250 psi)", US_FLAG),
        MountingFinding("glass lit", bool(installation.lit), float(installation.lit), "1 for yes",
                        PRACTICE),
        MountingFinding("lamp on the emergency supply", bool(installation.lit_by_emergency_supply),
                        float(installation.lit_by_emergency_supply), "1 for yes", US_FLAG),
        *mounting_findings(installation.mounting, installation.topmost_tube,
                           installation.normal_level, installation.low_alarm,
                           installation.high_alarm),
    )
