"""The gauge glass with cocks: what a slider move and a frame of an animation cost.

Aim: a settled glass in less than 200 microseconds, a frame of 40 ms of glass time in less
than 10 milliseconds. Every time is the best of several runs.
Run: python tests/bench/bench_cocks.py
"""

import sys
import time
from dataclasses import replace

from levelkit.check.cocks import tubular_state
from levelkit.physics.cock_state import CockFaults
from levelkit.physics.cocks import glass_after, glass_history, with_cocks
from levelkit.physics.settled_glass import settled_glass

AIM_SETTLED, AIM_FRAME = 200e-6, 10e-3
FRAME, FRAMES = 0.04, 50


def best_time(function, repeats, inner):
    """Shortest time of one call, in seconds."""
    function()
    times = []
    for _ in range(repeats):
        start = time.perf_counter()
        for _ in range(inner):
            function()
        times.append((time.perf_counter() - start) / inner)
    return min(times)


def frames(state):
    """Mean and longest time of a frame while the glass runs on."""
    times = []
    for _ in range(FRAMES):
        start = time.perf_counter()
        state = glass_after(state, FRAME)
        times.append(time.perf_counter() - start)
    return sum(times) / FRAMES, max(times)


def main():
    glass = tubular_state()
    missed = 0
    for name, faults in (("steam cock nearly choked", CockFaults(steam_choke=0.97)),
                         ("drain leaking", CockFaults(drain_passing=0.05))):
        state = replace(glass, faults=faults)
        taken = best_time(lambda state=state: settled_glass(state), 20, 50)
        missed += taken > AIM_SETTLED
        print(f"settled glass, {name}: {1e6 * taken:.0f} us")
    for name, openings in (("in service", {}), ("steam cock shut", {"steam": 0.0}),
                           ("water blow", {"steam": 0.0, "drain": 1.0}),
                           ("steam blow", {"water": 0.0, "drain": 1.0}),
                           ("draining", {"steam": 0.0, "water": 0.0, "drain": 1.0})):
        mean, longest = frames(with_cocks(glass, **openings))
        missed += mean > AIM_FRAME
        print(f"frame of {1e3 * FRAME:.0f} ms, {name}: mean {1e3 * mean:.1f} ms, "
              f"longest {1e3 * longest:.1f} ms")
    taken = best_time(lambda: glass_history(with_cocks(glass, steam=0.0), 60.0, 61), 5, 1)
    print(f"a minute of a choked steam cock: {1e3 * taken:.1f} ms")
    return 1 if missed else 0


if __name__ == "__main__":
    sys.exit(main())
