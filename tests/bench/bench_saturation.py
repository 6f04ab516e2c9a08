"""100,000 saturation states: levelkit beside CoolProp's vectorised call and a loop over iapws.

One process, one set of pressures, three results each (temperature and both densities).
The loop is timed on a sample and scaled, because the whole of it takes seconds to minutes.
Every time is the best of several runs, for all alike.
Run: python tests/bench/bench_saturation.py
"""

import time

import CoolProp.CoolProp as coolprop
import numpy as np
from iapws import IAPWS97, iapws97

from levelkit.properties import saturation_at_pressure

COUNT, SAMPLE, PUBLIC_SAMPLE, REPEATS = 100_000, 1_000, 200, 5
PROMISED_ERROR, AIM_COOLPROP, AIM_LOOP = 1e-6, 10.0, 1_000.0
LOWEST, HIGHEST = 1e5, 1.2e7  # Pa: what a ship's boiler sees


def best_time(function, repeats):
    """Shortest run time in seconds: the run that other work on the machine disturbed least."""
    function()
    times = []
    for _ in range(repeats):
        start = time.perf_counter()
        function()
        times.append(time.perf_counter() - start)
    return min(times)


def low_level_state(pressure):
    """Temperature and densities by the fastest functions that iapws has (pressure in MPa)."""
    temperature = iapws97._TSat_P(pressure)
    return (temperature, 1 / iapws97._Region1(temperature, pressure)["v"],
            1 / iapws97._Region2(temperature, pressure)["v"])


def public_state(pressure):
    """The same by the class that a user of iapws would call."""
    water, steam = IAPWS97(P=pressure, x=0), IAPWS97(P=pressure, x=1)
    return water.T, water.rho, steam.rho


def by_coolprop(pressure, water, steam, fluid):
    """The same by CoolProp's vectorised call, with its default IAPWS-95 or its IF97 backend."""
    return (coolprop.PropsSI("T", "P", pressure, "Q", water, fluid),
            coolprop.PropsSI("Dmass", "P", pressure, "Q", water, fluid),
            coolprop.PropsSI("Dmass", "P", pressure, "Q", steam, fluid))


def main():
    """Print times, ratios and the largest error; return 0 if every aim is met."""
    pressure = np.exp(np.random.default_rng(0).uniform(np.log(LOWEST), np.log(HIGHEST), COUNT))
    sample = (pressure[:SAMPLE] / 1e6).tolist()
    water, steam = np.zeros(COUNT), np.ones(COUNT)

    start = time.perf_counter()
    saturation_at_pressure(1e6)
    first = time.perf_counter() - start

    own = best_time(lambda: saturation_at_pressure(pressure), 3 * REPEATS)
    other = best_time(lambda: by_coolprop(pressure, water, steam, "Water"), REPEATS)
    if97 = best_time(lambda: by_coolprop(pressure, water, steam, "IF97::Water"), REPEATS)
    loop = best_time(lambda: [low_level_state(p) for p in sample], REPEATS) * COUNT / SAMPLE
    public = (best_time(lambda: [public_state(p) for p in sample[:PUBLIC_SAMPLE]], REPEATS)
              * COUNT / PUBLIC_SAMPLE)

    state = saturation_at_pressure(pressure[:SAMPLE])
    exact = np.array([low_level_state(p) for p in sample]).T
    found = np.array([state.temperature, state.water_density, state.steam_density])
    error = float(np.max(np.abs(found / exact - 1)))

    print(f"{COUNT:,} saturation states, {LOWEST / 1e5:g} to {HIGHEST / 1e5:g} bar absolute: "
          "temperature and both densities")
    print(f"levelkit                        {1e3 * own:12.1f} ms  (building the spline once: "
          f"{1e3 * first:.0f} ms)")
    print(f"CoolProp, vectorised call       {1e3 * other:12.1f} ms  {other / own:10.1f} x")
    print(f"CoolProp, its IF97 backend      {1e3 * if97:12.1f} ms  {if97 / own:10.1f} x")
    print(f"loop over iapws, low level      {1e3 * loop:12.1f} ms  {loop / own:10.0f} x  "
          f"(timed on {SAMPLE:,}, scaled)")
    print(f"loop over iapws, public class   {1e3 * public:12.1f} ms  {public / own:10.0f} x  "
          f"(timed on {PUBLIC_SAMPLE:,}, scaled)")
    print(f"largest relative error against iapws, {SAMPLE:,} points: {error:.1e}")
    aims = {f"at least {AIM_COOLPROP:g} x CoolProp": other / own >= AIM_COOLPROP,
            f"at least {AIM_LOOP:g} x the low-level loop": loop / own >= AIM_LOOP,
            f"error at most {PROMISED_ERROR:g}": error <= PROMISED_ERROR}
    for aim, met in aims.items():
        print(f"{'met   ' if met else 'MISSED'} {aim}")
    return 0 if all(aims.values()) else 1


if __name__ == "__main__":
    raise SystemExit(main())
