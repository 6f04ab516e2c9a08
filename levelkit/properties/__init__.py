"""Properties of water and steam (IAPWS-IF97), the only part of levelkit that knows iapws.

Pascal, kelvin, kg/m3, J/kg. Scalar in, scalar out; array in, same shape out.
"""

from .drum_fluids import DrumFluids, cold_drum_fluids, steaming_drum_fluids
from .saturated_fluid import SaturatedFluid, saturated_fluid
from .saturation import (
    SaturationHeat,
    SaturationState,
    saturation_at_pressure,
    saturation_at_temperature,
    saturation_heat,
    saturation_pressure,
    saturation_slopes,
    saturation_temperature,
)
from .saturation_line import SaturationLine, saturation_line
from .single_phase import (
    compressed_water_density,
    compressed_water_enthalpy,
    compressed_water_entropy,
    compressed_water_heat_capacity,
    steam_density,
    steam_enthalpy,
)
from .surface import refractive_index, surface_tension

__all__ = [
    "DrumFluids",
    "SaturatedFluid",
    "SaturationHeat",
    "SaturationLine",
    "SaturationState",
    "cold_drum_fluids",
    "compressed_water_density",
    "compressed_water_enthalpy",
    "compressed_water_entropy",
    "compressed_water_heat_capacity",
    "refractive_index",
    "saturated_fluid",
    "saturation_at_pressure",
    "saturation_at_temperature",
    "saturation_heat",
    "saturation_line",
    "saturation_pressure",
    "saturation_slopes",
    "saturation_temperature",
    "steam_density",
    "steam_enthalpy",
    "steaming_drum_fluids",
    "surface_tension",
]
