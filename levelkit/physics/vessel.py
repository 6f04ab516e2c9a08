"""One upright vessel with its stack of fluids, valve shut. Heights from its foot."""

from dataclasses import dataclass

from ..constants import STANDARD_GRAVITY
from ..errors import InputError, checked
from .columns import Column, column_head


@dataclass(frozen=True, slots=True)
class Layer:
    """A layer of one fluid in a vessel.

    Attributes
    ----------
    name : str
        What the fluid is; layers of one name and one density are one fluid.
    density : float [kg/m3]
        Density of the fluid.
    height : float [m]
        How high the layer is.
    """

    name: str
    density: float
    height: float

    def __post_init__(self):
        checked(f"density of {self.name}", self.density, 0.01, 20_000.0, "kg/m3")
        checked(f"height of the layer of {self.name}", self.height, 0.0, 100.0, "m",
                "Give metres: 250 mm is 0.25.")


@dataclass(frozen=True, slots=True)
class Vessel:
    """An upright vessel of one bore with its stack of fluids.

    Attributes
    ----------
    bore_area : float [m2]
        Cross-section.
    pressure_above : float [Pa]
        Absolute pressure above the fluids.
    layers : tuple of Layer [m]
        The fluids, lowest first; the denser below. May be empty.
    closed_top : float or None [m]
        Height of a closed top above the foot: the gas below it is trapped and keeps
        its temperature. None where the pressure above is held, by the air or by steam.
    """

    bore_area: float
    pressure_above: float
    layers: tuple
    closed_top: object = None

    def __post_init__(self):
        checked("bore area", self.bore_area, 1e-8, 1e4, "m2",
                "Give square metres: 113 mm2 is 113e-6.")
        checked("pressure above", self.pressure_above, 0.0, 1e8, "Pa",
                "Give the absolute pressure in pascal (7 bar gauge is 801 325 Pa).")
        for below, above in zip(self.layers, self.layers[1:], strict=False):
            if above.density > below.density:
                raise InputError(
                    f"{above.name} of {above.density:.4g} kg/m3 lies on {below.name} of "
                    f"{below.density:.4g} kg/m3 and would sink; the allowed density there is at "
                    f"most {below.density:.4g} kg/m3. Name the layers from the foot upwards."
                )
        if self.closed_top is not None:
            checked("height of the closed top", self.closed_top,
                    self.level + 1e-6, 1000.0, "m",
                    "It lies above the fluids, with some gas between.")

    @property
    def level(self):
        """Height of the free surface above the foot [m]."""
        return sum(layer.height for layer in self.layers)


def vessel_columns(vessel):
    """Return the fluids of a vessel as columns, lowest first.

    Parameters
    ----------
    vessel : Vessel [m, kg/m3]
        A vessel.

    Returns
    -------
    tuple of Column [kg/m3, m]
        Its layers with their lower and upper heights above the foot.

    References
    ----------
    [HYDROSTATICS] the column list.

    Examples
    --------
    >>> vessel_columns(Vessel(1e-3, 1e5, (Layer("water", 998.0, 0.3),)))[0].upper_height
    0.3
    """
    columns, foot = [], 0.0
    for layer in vessel.layers:
        columns.append(Column(layer.density, foot, foot + layer.height, layer.name))
        foot += layer.height
    return tuple(columns)


def foot_pressure(vessel, gravity=STANDARD_GRAVITY):
    """Return the pressure at the foot of a vessel whose valve is shut.

    ``p_foot = p_above + sum of rho g dz``

    Parameters
    ----------
    vessel : Vessel [Pa, m, kg/m3]
        A vessel.
    gravity : float [m/s2]
        Acceleration of gravity.

    Returns
    -------
    float [Pa]
        Absolute pressure.

    References
    ----------
    [HYDROSTATICS] the column list.

    Examples
    --------
    >>> round(foot_pressure(Vessel(1e-3, 100_000.0, (Layer("water", 1000.0, 1.0),))))
    109807
    """
    return vessel.pressure_above + column_head(vessel_columns(vessel), gravity)
