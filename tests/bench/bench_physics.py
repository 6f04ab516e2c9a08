"""What the physics costs: one reading beside a sweep of them, and runs that are to be played.

Run: python tests/bench/bench_physics.py
"""

import sys
from dataclasses import replace
from pathlib import Path
from timeit import repeat

import numpy as np

sys.path.insert(0, str(Path(__file__).parents[1]))
from remote_states import transmitter, two_fluid

from levelkit.physics.feed_control import FeedController, controlled_transient
from levelkit.physics.natural_circulation import boiler_equilibrium, boiler_transient
from levelkit.physics.swell import SwellDrum, drum_transient, steady_drum
from levelkit.physics.transients import single_step
from levelkit.physics.transmitter import transmitter_reading
from levelkit.physics.two_fluid import two_fluid_reading
from levelkit.properties import saturation_line

LEVELS, FRAME = 200, 1 / 60


def best(function, number):
    """Shortest time of one call [s]."""
    return min(repeat(function, number=number, repeat=5)) / number


def readings():
    """One reading, a loop over levels (the baseline) and the same levels as an array."""
    for name, read, state in (("transmitter", transmitter_reading, transmitter()),
                              ("two-fluid", two_fluid_reading, two_fluid())):
        levels = np.linspace(0.05, 0.45, LEVELS)
        at = [replace(state, drum=replace(state.drum, level=level)) for level in levels]
        swept = replace(state, drum=replace(state.drum, level=levels))
        loop = best(lambda at=at, read=read: [read(one) for one in at], 1)
        array = best(lambda swept=swept, read=read: read(swept), 20)
        print(f"{name:12} one {1e6 * loop / LEVELS:6.0f} us   {LEVELS} levels in a loop "
              f"{1e3 * loop:6.1f} ms, as an array {1e3 * array:6.2f} ms, ratio {loop / array:.0f}")


def runs():
    """300 seconds of each boiler, in milliseconds and beside one frame."""
    small = steady_drum(SwellDrum(), 61e5, 7.0, 5.56, 0.48e6, saturation_line)
    rest = boiler_equilibrium(saturation_line)
    for name, run in (
        ("three-state drum", lambda: drum_transient(
            small, single_step(small.inputs, 0.0, steam_flow=6.7), 300.0, saturation_line, 601)),
        ("circulating boiler", lambda: boiler_transient(
            rest, single_step(rest.inputs, 0.0, steam_flow=60.0), 300.0, saturation_line, 601)),
        ("one-element control", lambda: controlled_transient(
            rest, FeedController(1), single_step(rest.inputs, 10.0, steam_flow=60.0), 300.0,
            saturation_line, points=601)),
    ):
        taken = best(run, 1)
        print(f"{name:20} 300 s in {1e3 * taken:6.1f} ms = {taken / FRAME:.1f} frames")


if __name__ == "__main__":
    readings()
    runs()
