"""The one thing that a lesson imports."""

from .constants import CAUTION
from .panels.asking import Prediction, SelfCheck
from .panels.exercise_panel import ExercisePanel
from .panels.gauge_glass_panel import GaugeGlassPanel
from .scenario import load_ship

__all__ = ["CAUTION", "Prediction", "SelfCheck", "exercise", "gauge_glass_panel", "ship"]

ship = load_ship()


def gauge_glass_panel(boiler="water_tube"):
    """Return the gauge glass panel of one of the ship's boilers."""
    return GaugeGlassPanel(ship.boilers[boiler], ship.barometer)


def exercise(family_id, candidate="your name"):
    """Return a question of a family with the candidate's own numbers."""
    return ExercisePanel(family_id, candidate)
