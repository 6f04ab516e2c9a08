"""The one thing that a lesson imports."""

from .constants import CAUTION
from .panels.asking import Prediction, SelfCheck
from .panels.exercise_panel import ExercisePanel
from .panels.gauge_glass_panel import GaugeGlassPanel
from .panels.transmitter_panel import TransmitterPanel
from .panels.two_fluid_panel import TwoFluidPanel
from .panels.vessels_panel import VesselsPanel
from .panels.water_panel import WaterPanel
from .scenario import load_ship

__all__ = ["CAUTION", "Prediction", "SelfCheck", "exercise", "gauge_glass_panel", "ship",
           "transmitter_panel", "two_fluid_panel", "vessels_panel", "water_panel"]

ship = load_ship()


def gauge_glass_panel(boiler="water_tube"):
    """Return the gauge glass panel of one of the ship's boilers."""
    return GaugeGlassPanel(ship.boilers[boiler], ship.barometer)


def transmitter_panel(boiler="water_tube"):
    """Return the DP transmitter panel of one of the ship's boilers."""
    return TransmitterPanel(ship.boilers[boiler], ship.barometer)


def two_fluid_panel(boiler="water_tube"):
    """Return the two-fluid indicator panel of one of the ship's boilers."""
    return TwoFluidPanel(ship.boilers[boiler], ship.barometer)


def vessels_panel():
    """Return the panel of two vessels joined at their feet."""
    return VesselsPanel(ship.barometer)


def water_panel():
    """Return the panel of one kilogram of water and steam at boiler pressure."""
    return WaterPanel(ship.barometer)


def exercise(family_id, candidate="your name"):
    """Return a question of a family with the candidate's own numbers."""
    return ExercisePanel(family_id, candidate)
