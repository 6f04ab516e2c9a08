"""How little it takes to blow the indicating fluid out of its U-tube."""

from dataclasses import dataclass
from math import cos

import numpy as np

from ..constants import STANDARD_GRAVITY
from .two_fluid import two_fluid_reading
from .u_tube import pressure_across


@dataclass(frozen=True, slots=True)
class BlowOverMargins:
    """Pressure changes that the fluid in a U-tube can still take.

    Attributes
    ----------
    reference_side : float or array [Pa]
        Rise on the constant-head side alone (or fall on the drum side) that pushes the fluid
        out of the constant-head limb, or over the top of the drum-side limb.
    drum_side : float or array [Pa]
        The same the other way round.
    """

    reference_side: object
    drum_side: object


def blow_over_margins(state, gravity=STANDARD_GRAVITY):
    """Return how much one-sided pressure blows over the fluid of a two-fluid indicator.

    The surfaces reach an end of the limbs at ``R + z_1 (A_1 + A_2)/A_2`` (bend) or
    ``R + (L - z_2)(A_1 + A_2)/A_1`` (top), heights z above the bend; margin is the pressure
    between there and here

    Parameters
    ----------
    state : TwoFluidState [m, Pa, kg/m3, K, m3]
        The indicator in service.
    gravity : float [m/s2]
        Acceleration of gravity.

    Returns
    -------
    BlowOverMargins
        Both margins [Pa].

    Raises
    ------
    InputError
        The state is impossible already.

    Notes
    -----
    A few kilopascal against a boiler pressure of megapascal: both legs are isolated
    together, and neither is blown down alone.

    References
    ----------
    [HYDROSTATICS] pressure for a difference; [VOLUME-BALANCE] where the surfaces then are.

    Examples
    --------
    >>> from levelkit.physics.indicating_fluids import IndicatingFluid
    >>> from levelkit.physics.two_fluid_state import drawn_two_fluid
    >>> from levelkit.physics.u_tube import UTube
    >>> from levelkit.physics.leg_state import DrumContents, LegsState
    >>> state = drawn_two_fluid(DrumContents(0.3, 4.6e6, 785.5, 23.2),
    ...                         LegsState(0.5, 3.0, 992.2, 992.2, 992.2),
    ...                         UTube(0.008, 0.008, 5.0, 1.6),
    ...                         IndicatingFluid("exercise", 1400.0), 293.15, 7e-5)
    >>> margins = blow_over_margins(state)
    >>> f"{margins.reference_side / 1e5:.3f} bar, {margins.drum_side / 1e5:.3f} bar"
    '0.031 bar, 0.081 bar'
    """
    result, tube, legs = two_fluid_reading(state, gravity), state.tube, state.legs
    reference, drum = tube.reference_area, tube.drum_area
    low, high = (result.reference_surface + tube.bend_depth,
                 result.drum_surface + tube.bend_depth)
    volume = reference * low + drum * high
    total = reference + drum
    most = result.difference + np.minimum(low * total / drum,
                                          (tube.limb_length - high) * total / reference)
    least = result.difference - np.minimum(high * total / reference,
                                           (tube.limb_length - low) * total / drum)

    def across(difference):
        pressure = cos(legs.list_angle) * pressure_across(
            difference, volume, tube, -legs.depth, result.fluid_density,
            legs.reference_run_density, legs.drum_run_density, gravity)
        return pressure if np.ndim(pressure) else float(pressure)

    here = across(result.difference)
    return BlowOverMargins(across(most) - here, here - across(least))
