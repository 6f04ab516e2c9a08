"""How well each indicator knows the level: its own formula in an uncertainty budget."""

from ..constants import STANDARD_GRAVITY
from .differential import level_of_differential
from .fluid_balance import level_of_fluid_difference
from .glass import drum_level
from .uncertainty import uncertainty_budget


def transmitter_budget(differential, weir_height, leg_density, pressure, saturation,
                       gravity=STANDARD_GRAVITY):
    """Return how well the level of a DP instrument is known.

    ``h = [(rho_r - rho_g) H - dp_r/g] / (rho_f - rho_g)``

    Parameters
    ----------
    differential : Measured [Pa]
        p_reference - p_drum-side.
    weir_height : Measured [m]
        Height of the weir.
    leg_density : Measured [kg/m3]
        Reference leg.
    pressure : Measured [Pa]
        Absolute drum pressure.
    saturation : callable [Pa -> kg/m3]
        Gives an object with `water_density` and `steam_density` at a pressure.
    gravity : float [m/s2]
        Acceleration of gravity.

    Returns
    -------
    UncertaintyBudget
        Level and uncertainty [m], contributions, the largest by name.

    Raises
    ------
    InputError
        A value outside its range.

    References
    ----------
    [GUM] combined uncertainty; [HYDROSTATICS] level.

    Examples
    --------
    >>> from levelkit.physics.uncertainty import Measured
    >>> from levelkit.properties import saturation_at_pressure
    >>> budget = transmitter_budget(Measured(4684.0, 10.0), Measured(0.8, 0.003),
    ...                             Measured(990.6, 4.8), Measured(6.1e6, 1e5),
    ...                             saturation_at_pressure)
    >>> f"+/- {1e3 * budget.uncertainty:.1f} mm, mostly {budget.largest}"
    '+/- 6.8 mm, mostly leg density'
    """
    def formula(differential, weir, leg, pressure):
        steam = saturation(pressure)
        return level_of_differential(differential, weir, steam.water_density,
                                     steam.steam_density, leg, gravity)

    return uncertainty_budget(formula, {
        "differential pressure": differential, "weir height": weir_height,
        "leg density": leg_density, "drum pressure": pressure})


def two_fluid_budget(difference, weir_height, leg_density, fluid_density, pressure, saturation):
    """Return how well the level of a two-fluid indicator is known.

    ``h = [(rho_w - rho_g) H - (rho_m - rho_w) R] / (rho_f - rho_g)``

    Parameters
    ----------
    difference : Measured [m]
        R, difference of the two fluid surfaces.
    weir_height : Measured [m]
        Height of the weir.
    leg_density, fluid_density : Measured [kg/m3]
        Leg water and indicating fluid.
    pressure : Measured [Pa]
        Absolute drum pressure.
    saturation : callable [Pa -> kg/m3]
        Gives an object with `water_density` and `steam_density` at a pressure.

    Returns
    -------
    UncertaintyBudget
        Level and uncertainty [m], contributions, the largest by name.

    Raises
    ------
    InputError
        A value outside its range.

    References
    ----------
    [GUM] combined uncertainty; [HYDROSTATICS] level.

    Examples
    --------
    >>> from levelkit.physics.uncertainty import Measured
    >>> from levelkit.properties import saturation_at_pressure
    >>> budget = two_fluid_budget(Measured(0.6273, 0.002), Measured(0.5, 0.003),
    ...                           Measured(992.2, 4.8), Measured(1400.0, 8.0),
    ...                           Measured(4.6e6, 1e5), saturation_at_pressure)
    >>> f"+/- {1e3 * budget.uncertainty:.1f} mm, mostly {budget.largest}"
    '+/- 10.5 mm, mostly leg density'
    """
    def formula(difference, weir, leg, fluid, pressure):
        steam = saturation(pressure)
        return level_of_fluid_difference(difference, weir, steam.water_density,
                                         steam.steam_density, leg, fluid)

    return uncertainty_budget(formula, {
        "fluid difference": difference, "weir height": weir_height, "leg density": leg_density,
        "fluid density": fluid_density, "drum pressure": pressure})


def glass_budget(reading, glass_density, water_density, steam_density):
    """Return how well the drum level behind a gauge glass is known.

    ``h = h_g (rho_w - rho_g) / (rho_f - rho_g)``

    Parameters
    ----------
    reading : Measured [m]
        Height of the glass water above the water connection.
    glass_density : Measured [kg/m3]
        Mean density of the glass water: its temperature is a guess.
    water_density, steam_density : float [kg/m3]
        Drum.

    Returns
    -------
    UncertaintyBudget
        Level and uncertainty [m], contributions, the largest by name.

    Raises
    ------
    InputError
        A value outside its range.

    References
    ----------
    [GUM] combined uncertainty; [HYDROSTATICS] level.

    Examples
    --------
    >>> from levelkit.physics.uncertainty import Measured
    >>> budget = glass_budget(Measured(0.26, 0.002), Measured(929.2, 17.0), 756.1, 31.4)
    >>> f"+/- {1e3 * budget.uncertainty:.1f} mm, mostly {budget.largest}"
    '+/- 6.6 mm, mostly glass water density'
    """
    return uncertainty_budget(
        lambda height, glass: drum_level(height, water_density, steam_density, glass),
        {"glass reading": reading, "glass water density": glass_density})
