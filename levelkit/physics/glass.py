"""The direct gauge glass at rest: what it shows, and what the drum holds.

Heights from the centre of the lower (water) connection, upwards positive. An error
is shown minus true: negative reads LOW.
"""

from dataclasses import dataclass

import numpy as np

from ..errors import InputError, checked
from .columns import Column, balancing_height, path_difference

IN_SIGHT, BELOW_SIGHT, ABOVE_SIGHT = "in sight", "out of sight low", "out of sight high"


@dataclass(frozen=True, slots=True)
class GlassMounting:
    """Where a gauge glass sits, all heights above the water connection.

    Attributes
    ----------
    steam_connection : float [m]
        Height of the steam cock.
    visible_bottom, visible_top : float [m]
        Ends of the part that can be seen.
    """

    steam_connection: float
    visible_bottom: float
    visible_top: float

    def __post_init__(self):
        checked("steam connection", self.steam_connection, 0.05, 5.0, "m",
                "Give the height of the steam cock above the water cock in metres.")
        checked("visible bottom", self.visible_bottom, 0.0, self.steam_connection, "m",
                "It lies between the two connections.")
        checked("visible top", self.visible_top, self.visible_bottom + 0.01,
                self.steam_connection, "m",
                "It lies above the visible bottom, at most at the steam connection.")


@dataclass(frozen=True, slots=True)
class GaugeGlassState:
    """A gauge glass with both cocks clear, and the drum it hangs on.

    Attributes
    ----------
    level : float or array [m]
        True (collapsed) drum level.
    drum_water_density : float or array [kg/m3]
        Density of the water in the drum.
    steam_density : float or array [kg/m3]
        Density of steam (cold drum: of air).
    glass_water_density : float or array [kg/m3]
        Mean density of the water in the glass.
    mounting : GlassMounting [m]
        Connections and visible part.
    """

    level: object
    drum_water_density: object
    steam_density: object
    glass_water_density: object
    mounting: GlassMounting


@dataclass(frozen=True, slots=True)
class GaugeGlassResult:
    """What a gauge glass shows.

    Attributes
    ----------
    indicated_level : float or array [m]
        Height of the glass water above the connection, seen or not.
    error : float or array [m]
        Indicated minus true level: negative reads LOW.
    reading : float or array [m]
        Height above the lower visible end; NaN where nothing can be read.
    visibility : str or array of str
        "in sight", "out of sight low" or "out of sight high".
    """

    indicated_level: object
    error: object
    reading: object
    visibility: object


def _checked_densities(drum_water_density, steam_density, glass_water_density):
    water = checked("drum water density", drum_water_density, 1.0, 1100.0, "kg/m3")
    steam = checked("steam density", steam_density, 0.0, 400.0, "kg/m3")
    glass = checked("glass water density", glass_water_density, 1.0, 1100.0, "kg/m3")
    for name, density in (("drum water", water), ("glass water", glass)):
        if np.any(density <= steam):
            raise InputError(
                f"The {name} ({np.min(density):.4g} kg/m3) is not denser than the steam "
                f"({np.max(steam):.4g} kg/m3); the allowed range begins above the steam density. "
                "Check which density is which."
            )
    return water, steam, glass


def glass_column_height(level, drum_water_density, steam_density, glass_water_density):
    """Return the height of water in the glass for a drum level.

    ``rho_f h + rho_g (L - h) = rho_w h_g + rho_g (L - h_g)``, hence
    ``h_g = h (rho_f - rho_g) / (rho_w - rho_g)``

    Parameters
    ----------
    level : float or array [m]
        True (collapsed) drum level above the water connection, -5 to 5.
    drum_water_density, steam_density, glass_water_density : float or array [kg/m3]
        Densities; all arguments broadcast together.

    Returns
    -------
    float or array [m]
        Height of the glass water above the water connection.

    Raises
    ------
    InputError
        A value outside its range, or water no denser than the steam.

    Notes
    -----
    With one density in drum and glass the two levels agree. A level below the
    connection gives a negative height: nothing to see.

    References
    ----------
    [HYDROSTATICS] applied round the loop drum, water connection, glass, steam connection.

    Examples
    --------
    >>> round(1000 * glass_column_height(0.200, 897.0, 4.16, 962.2), 1)
    186.4
    """
    level = checked("drum level", level, -5.0, 5.0, "m", "Give metres: 250 mm is 0.25.")
    water, steam, glass = _checked_densities(
        drum_water_density, steam_density, glass_water_density)
    return balancing_height(lambda height: _round_the_glass(level, height, water, steam, glass))


def drum_level(glass_height, drum_water_density, steam_density, glass_water_density):
    """Return the drum level for a height of water in the glass.

    ``h = h_g (rho_w - rho_g) / (rho_f - rho_g)``

    Parameters
    ----------
    glass_height : float or array [m]
        Height of the glass water above the water connection, -5 to 5.
    drum_water_density, steam_density, glass_water_density : float or array [kg/m3]
        Densities; all arguments broadcast together.

    Returns
    -------
    float or array [m]
        True (collapsed) drum level above the water connection.

    Raises
    ------
    InputError
        A value outside its range, or water no denser than the steam.

    References
    ----------
    [HYDROSTATICS] applied round the loop drum, water connection, glass, steam connection.

    Examples
    --------
    >>> round(1000 * drum_level(0.260, 756.1, 31.4, 929.2), 1)
    322.1
    """
    height = checked("glass water height", glass_height, -5.0, 5.0, "m",
                     "Give metres above the water connection: 250 mm is 0.25.")
    water, steam, glass = _checked_densities(
        drum_water_density, steam_density, glass_water_density)
    return balancing_height(lambda level: _round_the_glass(level, height, water, steam, glass))


def _round_the_glass(level, height, water_density, steam_density, glass_density):
    """Path difference from the steam space down the drum and up the glass.

    The steam above the higher surface is on both sides, so the walk may begin and
    end at any height above both: here at the steam connection, taken as height 0 of
    the steam columns, which a negative extent makes exact.
    """
    drum = [Column(steam_density, level, 0.0), Column(water_density, 0.0, level)]
    glass = [Column(steam_density, height, 0.0), Column(glass_density, 0.0, height)]
    return path_difference(drum, glass)


def external_column_glass_height(level, drum_water_density, steam_density,
                                 column_water_density, glass_water_density,
                                 lower_tapping=0.0):
    """Return the height of water in a glass that hangs on an external water column.

    ``h_g = z_t + (h_c - z_t)(rho_c - rho_g)/(rho_w - rho_g)`` with
    ``h_c = h (rho_f - rho_g)/(rho_c - rho_g)``

    Parameters
    ----------
    level : float or array [m]
        True drum level above the water connection of the drum, -5 to 5.
    drum_water_density, steam_density : float or array [kg/m3]
        Water and steam of the drum.
    column_water_density, glass_water_density : float or array [kg/m3]
        Water in the external column and in the glass.
    lower_tapping : float [m]
        Height of the glass's lower tapping on the column above the drum's water
        connection, -1 to 2.

    Returns
    -------
    float or array [m]
        Height of the glass water above the drum's water connection.

    Raises
    ------
    InputError
        A value outside its range, or water no denser than the steam.

    Notes
    -----
    With one common datum (`lower_tapping` 0) the density of the column cancels.

    References
    ----------
    [HYDROSTATICS] applied twice, drum to column and column to glass.

    Examples
    --------
    >>> one = external_column_glass_height(0.25, 756.1, 31.4, 850.0, 958.0)
    >>> two = external_column_glass_height(0.25, 756.1, 31.4, 900.0, 958.0)
    >>> abs(one - two) < 1e-12
    True
    """
    tapping = checked("lower tapping", lower_tapping, -1.0, 2.0, "m", "Give metres.")
    column_height = glass_column_height(level, drum_water_density, steam_density,
                                        column_water_density)
    return tapping + glass_column_height(column_height - tapping, column_water_density,
                                         steam_density, glass_water_density)


def gauge_glass_reading(state):
    """Return what a gauge glass with clear cocks shows, and whether it can be seen.

    Parameters
    ----------
    state : GaugeGlassState [m, kg/m3]
        Drum level, densities and mounting; numbers may be arrays.

    Returns
    -------
    GaugeGlassResult
        Indicated level [m], error [m], reading above the visible end [m], visibility.

    Raises
    ------
    InputError
        A value outside its range, or water no denser than the steam.

    Notes
    -----
    A level below the water connection stands in no glass: out of sight low. A glass
    cannot show more than its steam connection: there it is full.

    References
    ----------
    [HYDROSTATICS]

    Examples
    --------
    >>> mounting = GlassMounting(0.5, 0.07, 0.45)
    >>> result = gauge_glass_reading(GaugeGlassState(0.2, 859.6, 8.57, 943.9, mounting))
    >>> f"{1000 * result.reading:.1f} mm, {result.visibility}"
    '112.0 mm, in sight'
    """
    mounting = state.mounting
    height = glass_column_height(state.level, state.drum_water_density, state.steam_density,
                                 state.glass_water_density)
    low, high = height < mounting.visible_bottom, height > mounting.visible_top
    visibility = np.select([low, high], [BELOW_SIGHT, ABOVE_SIGHT], IN_SIGHT)
    reading = np.where(low | high, np.nan, height - mounting.visible_bottom)
    if not np.ndim(height):
        visibility, reading = str(visibility), float(reading)
    return GaugeGlassResult(height, height - state.level, reading, visibility)
