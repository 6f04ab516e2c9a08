"""How levelkit computes the check values of list, roll, slosh, time to the trip, votes, rules."""

from dataclasses import replace
from math import degrees, radians, tan

import numpy as np

from ..constants import STANDARD_GRAVITY
from ..physics import glass_choice, motion, mounting
from ..physics.columns import Column, path_difference
from ..physics.drum_geometry import Drum, water_volume
from ..physics.glass import GlassMounting
from ..physics.inclination import InclinedSurface, level_at, list_between_glasses
from ..physics.protection import time_to_level
from ..physics.voting import HOUR, failure_on_demand

UNITS = {"psi": 0.45359237 * STANDARD_GRAVITY / 0.0254**2, "kPa": 1e3, "bar gauge": 1e5}


def computed_value(row):
    """Return what levelkit makes of a row's inputs, in the row's unit."""
    return QUANTITIES[row.quantity](row.inputs, row.unit)


def _list(inputs):
    port, starboard = inputs["port_mm"] / 1000, inputs["starboard_mm"] / 1000
    return list_between_glasses(port, starboard, inputs["distance_m"])


def _mid(inputs):
    """What the port glass shows less the shift at its place."""
    return inputs["port_mm"] - 1000 * motion.level_shift(inputs["distance_m"] / 2, _list(inputs))


def _end_glass(inputs, side):
    shift = motion.level_shift(side * inputs["distance_m"] / 2, radians(inputs["list_deg"]))
    return _mid(inputs) + 1000 * shift


def _apparent(inputs):
    return motion.apparent_list(radians(inputs["roll_deg"]), inputs["period_s"],
                                inputs["height_m"], inputs["g"])


def _slosh(inputs, depth_share=1.0):
    return motion.slosh_period(inputs["length_m"], inputs["depth_m"] * depth_share, inputs["g"])


def _shallow(inputs, unit):
    """The limit of a hundredth of the depth, scaled back."""
    return _slosh(inputs, 0.01) / 10


def _head_under_list(inputs):
    weir, level = (motion.vertical_height(inputs[key], list_angle=radians(inputs["list_deg"]))
                   for key in ("H_m", "level_m"))
    return path_difference(
        [Column(inputs["rho_r"], 0.0, weir)],
        [Column(inputs["rho_g"], level, weir), Column(inputs["rho_f"], 0.0, level)], inputs["g"])


def _reading_under_list(inputs, unit):
    span = (inputs["rho_f"] - inputs["rho_g"]) * inputs["g"]
    return 1000 * (inputs["lrv_Pa"] - _head_under_list(inputs)) / span


def _level_shift(inputs, unit):
    return motion.level_shift(inputs["b_m"], radians(inputs["theta_deg"]))


def _mean_of_two(inputs, unit):
    slope = tan(radians(inputs["theta_deg"]))
    surface = InclinedSurface(Drum(0.65, 5.6), inputs["level_m"], slope, 0.0, 0.0, 0.0)
    return float(level_at(surface, np.array([1, -1]) * inputs["b_m"]).mean())


def _drum(inputs):
    return Drum(inputs["diameter_m"] / 2, inputs["length_m"])


def _volume_above(inputs, level):
    drum = _drum(inputs)
    return water_volume(drum, 0.0) - water_volume(drum, inputs[level] / 1000)


def _time(inputs, begin, end):
    return time_to_level(_drum(inputs), begin / 1000, end / 1000, inputs["rho_f"], 0.0,
                         inputs["steam_kg_s"])


def _on_demand(inputs, unit):
    return failure_on_demand(inputs["architecture"], inputs["rate_per_h"] / HOUR,
                             inputs["interval_h"] * HOUR, inputs["beta"])


_FITTED = glass_choice.GlassInstallation(
    glass_choice.TUBULAR, 7e5, GlassMounting(0.5, 0.07, 0.43), -0.12, 0.25, 0.17, 0.33)


def _met(requirement, **changes):
    findings = glass_choice.installation_findings(replace(_FITTED, **changes))
    return next(line.met for line in findings if line.requirement == requirement)


def _least(requirement, name):
    """Smallest number that meets a requirement, found by asking."""
    return next(count for count in range(20) if _met(requirement, **{name: count}))


def _highest_for_a_tube(requirement, unit):
    """Highest pressure that meets a requirement, found by halving."""
    low, high = 0.0, 100e5
    for _ in range(60):
        middle = (low + high) / 2
        fits = _met(requirement, working_pressure=middle)
        low, high = (middle, high) if fits else (low, middle)
    return low / UNITS[unit]


QUANTITIES = {
    "list shown by two end glasses": lambda i, u: degrees(_list(i)),
    "level at mid-drum": lambda i, u: _mid(i),
    "port reading at 4 degrees to port": lambda i, u: _end_glass(i, 1),
    "starboard reading at 4 degrees to port, out of sight": lambda i, u: _end_glass(i, -1),
    "apparent list of the surface": lambda i, u: degrees(_apparent(i)),
    "amplitude of the level at the gauge":
        lambda i, u: 1000 * motion.level_shift(i["distance_m"], _apparent(i)),
    "level shift at the same angle of still list":
        lambda i, u: 1000 * motion.level_shift(i["distance_m"], radians(i["roll_deg"])),
    "lowest slosh period": lambda i, u: _slosh(i),
    "undamped amplification at the roll period":
        lambda i, u: motion.swing_amplification(i["period_s"], _slosh(i)),
    "shallow-water period 2L/sqrt(g d)": _shallow,
    "pressure difference of a constant-head instrument at 12 degrees":
        lambda i, u: _head_under_list(i),
    "its reading": _reading_under_list,
    "level shift at a distance": _level_shift,
    "mean of two gauges under list": _mean_of_two,
    "rolling period": lambda i, u: motion.roll_period(i["B"], i["GM"]),
    "static list that machinery must bear": lambda i, u: degrees(motion.STATIC_LIST),
    "roll that machinery must bear": lambda i, u: degrees(motion.ROLL),
    "trim that machinery must bear": lambda i, u: degrees(motion.STATIC_TRIM),
    "pitch that machinery must bear": lambda i, u: degrees(motion.PITCH),
    "water between normal level and alarm": lambda i, u: _volume_above(i, "alarm_mm"),
    "water between normal level and trip": lambda i, u: _volume_above(i, "trip_mm"),
    "time from normal level to alarm": lambda i, u: _time(i, 0.0, i["alarm_mm"]),
    "time from normal level to trip": lambda i, u: _time(i, 0.0, i["trip_mm"]),
    "time from alarm to trip": lambda i, u: _time(i, i["alarm_mm"], i["trip_mm"]),
    "probability of failure on demand": _on_demand,
    "least number of independent means":
        lambda i, u: _least("two means of indicating level", "independent_means"),
    "least number of direct glasses":
        lambda i, u: _least("one of them a direct gauge glass", "direct_glasses"),
    "working pressure above which a tube is not allowed":
        lambda i, u: _highest_for_a_tube("flat glass, not a tube, at this pressure", u),
    "highest pressure of a tubular glass by practice":
        lambda i, u: _highest_for_a_tube("glass type suits the working pressure", u),
    "least height of the visible end above the tubes":
        lambda i, u: 1000 * mounting.LEAST_HEIGHT_ABOVE_TUBES,
}
