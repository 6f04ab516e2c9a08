"""The one thing that a lesson imports."""

from .check import check_page, discrepancy_lines, summary
from .constants import CAUTION
from .exercises import FULL, example
from .exercises.oral_record import OralRecord, finished
from .exercises.printed_text import example_text, marks_text
from .panels.asking import Prediction, SelfCheck
from .panels.blow_through_panel import BlowThroughPanel
from .panels.bolts_panel import BoltsPanel
from .panels.breakage_panel import BreakagePanel
from .panels.cocks_panel import CocksPanel
from .panels.diagnosis_panel import DiagnosisPanel
from .panels.exercise_panel import ExercisePanel
from .panels.gauge_glass_panel import GaugeGlassPanel
from .panels.glass_types_panel import GlassTypesPanel
from .panels.installation_card import InstallationCard
from .panels.loop_panel import LoopPanel
from .panels.manifold_panel import ManifoldPanel
from .panels.optics_panel import OpticsPanel
from .panels.oral_panel import OralPanel, outcome_text
from .panels.order_drill import OrderDrill
from .panels.practice_panel import PracticePanel
from .panels.remote_charts import printed_error_map, printed_sweep
from .panels.ship_motion_panel import ShipMotionPanel
from .panels.sweep_panel import SweepPanel
from .panels.swell_panel import SwellPanel
from .panels.transmitter_panel import TransmitterPanel
from .panels.two_fluid_panel import TwoFluidPanel
from .panels.vessels_panel import VesselsPanel
from .panels.voting_panel import VotingPanel
from .panels.water_panel import WaterPanel
from .physics.breakage import ISOLATION_DRILL, WARMING_DRILL
from .scenario import load_ship

__all__ = ["CAUTION", "Prediction", "SelfCheck", "blow_through_panel", "bolts_panel",
           "breakage_panel", "check_discrepancies", "check_page", "check_summary", "cocks_panel",
           "diagnosis_panel", "error_map", "exercise",
           "gauge_glass_panel", "glass_types_panel", "installation_check", "isolation_drill",
           "marked_example", "optics_panel", "oral_outcome", "oral_panel", "practice_panel", "ship",
           "ship_motion_panel", "sweep_chart", "sweep_panel", "swell_panel", "transmitter_panel",
           "two_fluid_panel", "vessels_panel", "voting_panel", "warming_drill", "water_panel",
           "worked_example"]

ship = load_ship()
check_summary, check_discrepancies = summary, discrepancy_lines


def diagnosis_panel(boiler="water_tube"):
    """Return the diagnosis bench of one of the ship's boilers: six readings that disagree."""
    return DiagnosisPanel(ship.boilers[boiler], ship.barometer)


def gauge_glass_panel(boiler="water_tube"):
    """Return the gauge glass panel of one of the ship's boilers."""
    return GaugeGlassPanel(ship.boilers[boiler], ship.barometer)


def sweep_panel(boiler="water_tube"):
    """Return the panel of indicated against true level of one of the ship's boilers."""
    return SweepPanel(ship.boilers[boiler], ship.barometer)


def sweep_chart(boiler="water_tube", pressures=(5, 30, 60, 75)):
    """Return a printed chart: indicated against true level, cold and at gauge pressures [bar]."""
    return printed_sweep(ship.boilers[boiler], ship.barometer, pressures)


def error_map(boiler="water_tube"):
    """Return a printed map: error of the uncompensated indicator over pressure and level."""
    return printed_error_map(ship.boilers[boiler], ship.barometer)


def ship_motion_panel(boiler="water_tube"):
    """Return the panel of one of the ship's boilers at sea: list, trim and roll."""
    return ShipMotionPanel(ship.boilers[boiler], ship.barometer)


def loop_panel():
    """Return the panel of supply, cable, transmitter and receivers."""
    return LoopPanel()


def manifold_panel(boiler="water_tube"):
    """Return the manifold drill of one of the ship's boilers."""
    return ManifoldPanel(ship.boilers[boiler], ship.barometer)


def swell_panel():
    """Return the panel of a drum boiler that swells and shrinks through time."""
    return SwellPanel(ship.barometer)


def voting_panel(boiler="water_tube"):
    """Return the panel of a boiler's set levels and of transmitters that vote on its trip."""
    return VotingPanel(ship.boilers[boiler], ship.barometer)


def transmitter_panel(boiler="water_tube"):
    """Return the DP transmitter panel of one of the ship's boilers."""
    return TransmitterPanel(ship.boilers[boiler], ship.barometer)


def two_fluid_panel(boiler="water_tube"):
    """Return the two-fluid indicator panel of one of the ship's boilers."""
    return TwoFluidPanel(ship.boilers[boiler], ship.barometer)


def glass_types_panel():
    """Return the panel of the three direct gauge glasses and their parts."""
    return GlassTypesPanel(ship.boilers)


def installation_check():
    """Return the check of the ship's boilers, line by line."""
    return InstallationCard(ship.boilers)


def bolts_panel():
    """Return the drill of tightening a gauge cover."""
    return BoltsPanel()


def optics_panel():
    """Return the panel of what the eye sees in a gauge glass."""
    return OpticsPanel(ship.barometer)


def cocks_panel(boiler="auxiliary"):
    """Return the panel of a gauge glass and its cocks in time."""
    return CocksPanel(ship.boilers[boiler], ship.barometer)


def blow_through_panel():
    """Return the blow-through drill."""
    return BlowThroughPanel()


def breakage_panel(boiler="auxiliary"):
    """Return the panel of a broken gauge glass of one of the ship's boilers."""
    return BreakagePanel(ship.boilers[boiler], ship.barometer)


def isolation_drill():
    """Return the drill on the order of isolating a broken glass."""
    return OrderDrill("A glass bursts beside you: what do you do, in which order?",
                      ISOLATION_DRILL)


def warming_drill():
    """Return the drill on the order of warming a new glass."""
    return OrderDrill("A new glass is in: how do you bring it into service?", WARMING_DRILL)


def vessels_panel():
    """Return the panel of two vessels joined at their feet."""
    return VesselsPanel(ship.barometer)


def water_panel():
    """Return the panel of one kilogram of water and steam at boiler pressure."""
    return WaterPanel(ship.barometer)


def exercise(family_id, candidate="your name"):
    """Return a question of a family with the candidate's own numbers."""
    return ExercisePanel(family_id, candidate)


def practice_panel(family_id="glass-reads-low", candidate="your name"):
    """Return the practice panel: any question, examples that fade, progress beside the notebook."""
    return PracticePanel(family_id, candidate)


def oral_panel():
    """Return the panel for oral practice; records are kept beside the notebook."""
    return OralPanel()


def oral_outcome(said, candidate="the candidate"):
    """Return what answers come to: `said` maps a question to the model points reached, from 1."""
    records = [finished(OralRecord(question, candidate), 0.0, [point - 1 for point in points])
               for question, points in said.items()]
    return outcome_text(records, candidate)


def worked_example(family_id, amount=FULL):
    """Return a bank example as text: "full", "partly" or "blank" worked."""
    return example_text(example(family_id), amount)


def marked_example(family_id, **answers):
    """Return what answers to a bank example earn, step by step: `height="186.4 mm"`."""
    return marks_text(example(family_id), answers)
