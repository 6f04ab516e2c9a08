"""The parts of a boiler, each read from its table with the allowed range of every key."""

from itertools import pairwise

from ..constants import MILLIMETRE
from ..errors import InputError
from ..physics.glass import GlassMounting
from ..properties import saturation_temperature
from ..units import absolute_pressure, celsius, kelvin
from .model import Drum, Glass, Legs, Levels, Preset, Transmitter, TwoFluid

HIGHEST_PRESSURE_BAR = 120.0
OVERPRESSURE = 1.1  # a preset may show a drum at a lifting safety valve, not beyond
_CELSIUS = "Give degrees Celsius."


def read_drum(table):
    drum = Drum(
        inside_diameter=table.number("inside_diameter_m", 0.3, 6.0, "m", "Give metres."),
        length=table.number("length_m", 0.3, 15.0, "m", "Give metres."),
        ends=table.choice("ends", ("flat", "elliptical", "hemispherical")),
        axis_height=table.number("axis_height_m", -3.0, 3.0, "m",
                                 "Give metres above the water connection, negative below."),
        topmost_tube=table.number("topmost_tube_m", -3.0, 3.0, "m",
                                  "Give metres above the water connection, negative below."),
    )
    table.finish()
    return drum


def read_glass(table):
    kind = table.choice("kind", ("tubular", "reflex", "plate"))
    heights = [table.number(key, 0.0, 5.0, "m", "Give metres above the water connection.")
               for key in ("steam_connection_m", "visible_bottom_m", "visible_top_m")]
    try:
        mounting = GlassMounting(*heights)
    except InputError as fault:
        raise table.fault(str(fault)) from None
    glass = Glass(
        kind, mounting,
        bore_area=table.number("bore_area_mm2", 10.0, 5000.0, "mm2",
                               "Give square millimetres.") * MILLIMETRE ** 2,
        extra_condensing_length=table.number("extra_condensing_length_m", 0.0, 2.0, "m",
                                             "Give metres."),
        heat_loss=table.number("heat_loss_w_per_m_k", 0.05, 50.0, "W/(m K)"),
    )
    table.finish()
    return glass


def read_legs(table):
    legs = Legs(
        chamber_height=table.number("chamber_height_m", 0.05, 5.0, "m",
                                    "Give metres above the water connection."),
        reference_leg_temperature=kelvin(
            table.number("reference_leg_c", 0.0, 95.0, "degC", _CELSIUS)),
        drum_leg_temperature=kelvin(table.number("drum_leg_c", 0.0, 95.0, "degC", _CELSIUS)),
    )
    table.finish()
    return legs


def read_two_fluid(table):
    two_fluid = TwoFluid(
        fluid_density=table.number(
            "fluid_density_kg_per_m3", 1050.0, 14_000.0, "kg/m3",
            "The indicating fluid lies below water, so it is denser."),
        visible_bore=table.number("visible_bore_mm", 3.0, 300.0, "mm") * MILLIMETRE,
        other_bore=table.number("other_bore_mm", 3.0, 300.0, "mm") * MILLIMETRE,
        upper_surface_depth=table.number("upper_surface_depth_m", 0.0, 30.0, "m",
                                         "Give metres below the water connection."),
    )
    table.finish()
    return two_fluid


def read_transmitter(table):
    transmitter = Transmitter(
        depth=table.number("depth_m", 0.0, 30.0, "m", "Give metres below the water connection."),
        calibration_pressure_bar=table.number("calibration_pressure_bar", 0.0,
                                              HIGHEST_PRESSURE_BAR, "bar gauge"),
        calibration_leg_temperature=kelvin(
            table.number("calibration_leg_c", 0.0, 95.0, "degC", _CELSIUS)),
    )
    table.finish()
    return transmitter


def read_levels(table):
    keys = ("low_trip_m", "low_alarm_m", "normal_m", "high_alarm_m")
    values = [table.number(key, -1.0, 5.0, "m", "Give metres above the water connection.")
              for key in keys]
    for (low_key, low), (high_key, high) in pairwise(zip(keys, values, strict=True)):
        if low >= high:
            raise table.fault(f"{high_key} is {high:g} m; the allowed range begins above "
                              f"{low_key} at {low:g} m. Put the levels in order.")
    table.finish()
    return Levels(*values)


def read_preset(table, working, drum, barometer):
    title, steaming = table.text("title"), table.flag("steaming")
    if steaming:
        pressure = table.number("gauge_pressure_bar", 0.0, OVERPRESSURE * working, "bar gauge",
                                "A steaming boiler stands between 0 and a little over its "
                                "working pressure.")
        hottest = celsius(saturation_temperature(absolute_pressure(pressure, barometer)))
    else:
        pressure = table.number("gauge_pressure_bar", 0.0, 0.0, "bar gauge",
                                "Without steam the drum is open to the air.")
        hottest = 95.0
    preset = Preset(
        title, steaming, pressure,
        level_mm=table.number("level_mm", 1000 * drum.bottom, 1000 * drum.crown, "mm",
                              "The surface lies in the drum."),
        ambient_celsius=table.number("ambient_c", -10.0, 60.0, "degC", _CELSIUS),
        glass_celsius=table.number("glass_c", 0.0, hottest, "degC",
                                   "The water in the glass is no hotter than the steam."),
        leg_celsius=table.number("leg_c", 0.0, min(hottest, 95.0), "degC", _CELSIUS),
    )
    table.finish()
    return preset
