"""Our invented ship: three boilers and their presets, in a text file, validated on load."""

from .loading import load_ship
from .model import (
    Boiler,
    Drum,
    Glass,
    Legs,
    Levels,
    Preset,
    Ship,
    Transmitter,
    TwoFluid,
)

__all__ = ["Boiler", "Drum", "Glass", "Legs", "Levels", "Preset", "Ship", "Transmitter",
           "TwoFluid", "load_ship"]
