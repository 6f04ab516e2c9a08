"""Is a gauge glass mounted where it can warn? Each line with its limit and its source."""

from dataclasses import dataclass

from ..errors import checked

LEAST_HEIGHT_ABOVE_TUBES = 0.150


@dataclass(frozen=True, slots=True)
class MountingFinding:
    """One line of a mounting check.

    Attributes
    ----------
    requirement : str
        What is asked for, in words.
    met : bool
        Whether it holds.
    value : float [unit of the limit]
        What was found.
    limit : str
        The limit, with its unit.
    source : str
        Where the requirement comes from.
    """

    requirement: str
    met: bool
    value: float
    limit: str
    source: str


def mounting_findings(mounting, topmost_tube, normal_level, low_alarm, high_alarm):
    """Return the lines of the mounting check of one gauge glass.

    Parameters
    ----------
    mounting : GlassMounting [m]
        Connections and visible part.
    topmost_tube : float [m]
        Height of the topmost heated tube above the water connection (negative below).
    normal_level : float [m]
        Normal water level above the water connection.
    low_alarm, high_alarm : float [m]
        Alarm levels above the water connection.

    Returns
    -------
    tuple of MountingFinding [m]
        Four lines, met or not; values in metres.

    Raises
    ------
    InputError
        A value outside its range.

    Notes
    -----
    Teaching model; class and flag rules decide.

    References
    ----------
    [PRACTICE-MOUNTING] common practice, no source.

    Examples
    --------
    >>> from levelkit.physics.glass import GlassMounting
    >>> glass = GlassMounting(0.5, 0.07, 0.43)
    >>> [finding.met for finding in mounting_findings(glass, -0.12, 0.25, 0.17, 0.33)]
    [True, True, True, True]
    """
    topmost_tube, normal_level, low_alarm, high_alarm = (
        checked(name, value, -20.0, 20.0, "m", "Give metres: 250 mm is 0.25.")
        for name, value in (("topmost tube", topmost_tube), ("normal level", normal_level),
                            ("low alarm", low_alarm), ("high alarm", high_alarm)))
    clearance = mounting.visible_bottom - topmost_tube
    visible = mounting.visible_top - mounting.visible_bottom
    share = (normal_level - mounting.visible_bottom) / visible
    practice = "common practice, no source"
    return (
        MountingFinding("lower visible end above the topmost tube",
                        clearance >= LEAST_HEIGHT_ABOVE_TUBES, clearance,
                        "at least 0.150 m (six inches)", practice),
        MountingFinding("normal level in the middle third of the visible part",
                        1 / 3 <= share <= 2 / 3, normal_level,
                        f"{mounting.visible_bottom + visible / 3:.3f} to "
                        f"{mounting.visible_bottom + 2 * visible / 3:.3f} m", practice),
        MountingFinding("low alarm level inside the visible part",
                        mounting.visible_bottom <= low_alarm <= mounting.visible_top, low_alarm,
                        f"{mounting.visible_bottom:.3f} to {mounting.visible_top:.3f} m", practice),
        MountingFinding("high alarm level inside the visible part",
                        mounting.visible_bottom <= high_alarm <= mounting.visible_top, high_alarm,
                        f"{mounting.visible_bottom:.3f} to {mounting.visible_top:.3f} m", practice),
    )
