"""The fourth-order boiler: published equilibrium, an independent integration, its balances.

The step responses here were integrated outside levelkit from the published equations.
They check our implementation; the figures of the paper itself could not be read.
"""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from outside import outside_values

from levelkit.check.computed import computed_value
from levelkit.errors import InputError
from levelkit.physics.natural_circulation import (
    BoilerPlant,
    boiler_equilibrium,
    boiler_transient,
)
from levelkit.physics.riser_void import riser_void
from levelkit.physics.transient_presets import PRESETS, preset_steps
from levelkit.physics.transients import single_step
from levelkit.properties import compressed_water_enthalpy, saturation_line

LINE = saturation_line(8.5e6)
NO_DRUM_METAL = BoilerPlant(drum_metal=0.0)
PUBLISHED_NAMES = {
    "V_d": "drum_volume", "V_r": "riser_volume", "V_dc": "downcomer_volume",
    "m_t": "total_metal", "m_r": "riser_metal", "k": "loop_friction", "beta": "carried_steam",
    "T_d": "bubble_time", "C_p": "metal_heat_capacity", "A_dc": "downcomer_area",
}


def step_run(plant=None, duration=200.0, points=201, **changes):
    rest = boiler_equilibrium(saturation_line, plant)
    changed = {name: getattr(rest.inputs, name) + extra for name, extra in changes.items()}
    return boiler_transient(rest, single_step(rest.inputs, 0.0, **changed), duration,
                            saturation_line, points)


@pytest.mark.parametrize("row", outside_values("drum dynamics"))
def test_outside_value(row):
    assert computed_value(row) == pytest.approx(row.expected, rel=0, abs=row.allowed)


def test_feed_temperature_at_equilibrium_is_241_9_degrees():
    """241.9 C in the material; compressed water at drum pressure: IAPWS R7-97 region 1."""
    feed = boiler_equilibrium(saturation_line).inputs.feed_enthalpy
    assert compressed_water_enthalpy(8.5e6, 273.15 + 241.9) == pytest.approx(feed, rel=1e-4)


def test_swell_peak_grows_with_the_metal_of_the_drum():
    """Public sources give 0, 100 t and 140 t; levelkit takes 100 t, see BoilerPlant."""
    peaks = [step_run(BoilerPlant(drum_metal=metal), 60.0, 601, steam_flow=10.0)
             .surface_change.max() for metal in (0.0, 100_000.0, 140_000.0)]
    assert peaks == sorted(peaks)


def test_swell_peak_does_not_depend_on_the_disputed_downcomer_area():
    peaks = [1000 * step_run(BoilerPlant(downcomer_area=area), 60.0, 601,
                             steam_flow=10.0).surface_change.max() for area in (0.38, 0.38128173)]
    assert abs(peaks[0] - peaks[1]) < 0.1


@settings(max_examples=20, deadline=None)
@given(st.floats(0.002, 0.3), st.floats(20e5, 140e5))
def test_slopes_of_the_void_are_its_derivatives(quality, pressure):
    found = riser_void(quality, saturation_line(pressure))
    dx, dp = 1e-5 * quality, 1e-5 * pressure
    by_quality = (riser_void(quality + dx, saturation_line(pressure)).void
                  - riser_void(quality - dx, saturation_line(pressure)).void) / (2 * dx)
    by_pressure = (riser_void(quality, saturation_line(pressure + dp)).void
                   - riser_void(quality, saturation_line(pressure - dp)).void) / (2 * dp)
    assert found.by_quality == pytest.approx(by_quality, rel=1e-5)
    assert found.by_pressure == pytest.approx(by_pressure, rel=1e-4)


def test_mean_void_is_the_mean_of_the_void_along_the_riser():
    share = (np.arange(4000) + 0.5) / 4000 * 0.051  # steam quality, rising evenly
    steam, water = LINE.steam_density, LINE.water_density
    local = share / steam / (share / steam + (1 - share) / water)
    assert riser_void(0.051, LINE).void == pytest.approx(local.mean(), rel=1e-6)


@settings(max_examples=10, deadline=None)
@given(st.floats(-8.0, 8.0), st.floats(-8.0, 8.0), st.floats(-8e6, 8e6))
def test_mass_and_energy_are_what_went_in_less_what_went_out(steam, feed, heat):
    run = step_run(duration=60.0, points=601, steam_flow=steam, feed_flow=feed, heat=heat)
    rest = boiler_equilibrium(saturation_line)
    assert run.ended == "ran to the end"
    assert run.mass - run.mass[0] == pytest.approx((feed - steam) * run.time, abs=0.05)
    line, plant = saturation_line(run.pressure), BoilerPlant()
    steam_volume = plant.volume - run.water_volume
    stored = (line.water_density * run.water_volume * line.water_enthalpy
              + line.steam_density * steam_volume * line.steam_enthalpy
              - plant.volume * run.pressure + 300_000.0 * 550.0 * line.temperature)
    u = rest.inputs
    entered = (u.heat + heat + (u.feed_flow + feed) * u.feed_enthalpy) * run.time
    mean = 0.5 * (line.steam_enthalpy[1:] + line.steam_enthalpy[:-1])
    left = np.concatenate([[0.0], np.cumsum(mean * np.diff(run.time))]) * (u.steam_flow + steam)
    assert stored - stored[0] == pytest.approx(entered - left, abs=1e-6 * stored[0])


def test_riser_energy_balance_holds_along_a_run():
    """Heat to the risers = rise of what they store + what the mixture carries off, numerically."""
    run = step_run(duration=40.0, points=4001, steam_flow=10.0)
    plant, line = BoilerPlant(), saturation_line(run.pressure)
    void = riser_void(run.riser_quality, line).void
    volume, rho_w, rho_s = plant.riser_volume, line.water_density, line.steam_density
    stored = (rho_s * line.steam_enthalpy * void + rho_w * line.water_enthalpy * (1 - void)
              ) * volume - volume * run.pressure + 160_000.0 * 550.0 * line.temperature
    content = (rho_s * void + rho_w * (1 - void)) * volume
    out = run.circulation_flow - np.gradient(content, run.time)  # riser outlet flow
    mixture = line.water_enthalpy + run.riser_quality * line.latent_heat
    heat = (np.gradient(stored, run.time) + out * mixture
            - run.circulation_flow * line.water_enthalpy)
    expected = boiler_equilibrium(saturation_line).inputs.heat
    assert heat[5:-5] == pytest.approx(expected, rel=2e-4)


def test_instruments_see_less_swell_than_the_surface_has():
    run = step_run(duration=60.0, points=601, steam_flow=10.0)
    assert 0 < run.collapsed_change.max() < 0.3 * run.surface_change.max()
    below = step_run(BoilerPlant(bubbles_below_connection=1.0), 60.0, 601, steam_flow=10.0)
    assert below.collapsed_change == pytest.approx(below.surface_change)
    assert np.all(np.diff(run.mass) < 0)


@pytest.mark.parametrize("name, first, mass, pressure", [
    ("load step up", 1, -1, -1),
    ("load step down", -1, 1, 1),
    ("safety valve sticking open", 1, -1, None),
    ("cold feed", -1, None, -1),
    ("feed loss", 1, -1, 1),
])
def test_presets(name, first, mass, pressure):
    rest = boiler_equilibrium(saturation_line)
    run = boiler_transient(rest, preset_steps(name, rest.inputs, rest.pressure), 300.0,
                           saturation_line, 601)
    early = (run.time > 10.5) & (run.time < 16.0)
    assert np.all(np.sign(run.surface_change[early]) == first)
    if mass:
        assert np.sign(run.mass[-1] - run.mass[0]) == mass
    if pressure:
        assert np.sign(run.pressure[-1] - run.pressure[0]) == pressure
    if name == "safety valve sticking open":
        reseated = run.time > 130.0
        assert run.surface_change[~reseated].max() > 0.1
        after = run.surface_change[reseated]
        assert after[0] - after.min() > 0.1  # the sudden low


def test_cold_feed_lowers_the_surface_while_the_instruments_rise():
    """Bubbles collapse in the drum; falling pressure swells the risers, which push water up."""
    rest = boiler_equilibrium(saturation_line)
    run = boiler_transient(rest, preset_steps("cold feed", rest.inputs, rest.pressure), 30.0,
                           saturation_line)
    assert run.surface_change[-1] < -0.02 < 0.005 < run.collapsed_change[-1]
    assert run.mass == pytest.approx(run.mass[0], abs=0.5)


def test_every_preset_has_its_words():
    assert set(PRESETS) == {"load step up", "load step down", "safety valve sticking open",
                            "cold feed", "feed loss"}
    assert all(words.endswith(".") for words in PRESETS.values())
    with pytest.raises(InputError, match="load step up"):
        preset_steps("flood", boiler_equilibrium(saturation_line).inputs, 8.5e6)


def test_feed_loss_ends_where_the_drum_is_empty():
    rest = boiler_equilibrium(saturation_line)
    run = boiler_transient(rest, preset_steps("feed loss", rest.inputs, rest.pressure), 900.0,
                           saturation_line, 901)
    assert run.ended == "no water is left in the drum"
    assert run.collapsed_change[-1] == pytest.approx(-rest.collapsed_height, abs=1e-3)


@pytest.mark.parametrize("changes, sentence", [
    ({"feed_flow": 15.0}, "full of water"),
    ({"feed_flow": 150.0}, "no bubbles"),
    ({"heat": 30e6}, "rose to 180 bar"),
    ({"heat": -85.9e6, "steam_flow": -50.4, "feed_flow": -50.4}, "no longer boil"),
])
def test_other_limits_are_named(changes, sentence):
    run = step_run(duration=10_000.0, **changes)
    assert sentence in run.ended and run.time[-1] < 10_000.0


def test_the_published_equilibrium_is_at_rest():
    run = step_run(duration=300.0)
    assert np.abs(run.surface_change).max() < 1e-6 and np.ptp(run.pressure) < 10.0


@pytest.mark.parametrize("call, words", [
    (lambda: BoilerPlant(riser_metal=400_000.0), "part of the whole"),
    (lambda: BoilerPlant(drum_metal=200_000.0), "more than the whole"),
    (lambda: boiler_equilibrium(saturation_line, water_volume=90.0), "fit into the drum"),
    (lambda: boiler_equilibrium(saturation_line, pressure=85.0), "10 to 150 bar"),
    (lambda: boiler_equilibrium(saturation_line, condensation_flow=80.0), "risers make"),
])
def test_unusable_values_say_what_to_do(call, words):
    with pytest.raises(InputError, match=words):
        call()


@pytest.mark.parametrize("pressure, changes, at_the_end", [
    (8.5e6, {"feed_flow": 15.0}, lambda rest, run: run.surface_change[-1] + rest.surface_height
     - rest.plant.drum_volume / rest.plant.drum_area),
    (8.5e6, {"feed_flow": 150.0}, lambda rest, run: run.bubble_volume[-1]),
    (8.5e6, {"heat": 30e6}, lambda rest, run: run.pressure[-1] / 180e5 - 1),
    (1e6, {"heat": -10e6}, lambda rest, run: run.pressure[-1] / 5e5 - 1),
    (8.5e6, {"heat": -85.9e6, "steam_flow": -50.4, "feed_flow": -50.4},
     lambda rest, run: run.riser_quality[-1] - 0.001),
])
def test_a_run_ends_on_the_limit_that_it_names(pressure, changes, at_the_end):
    """Drum full: water and bubbles fill it; else what is named has the value that is named."""
    rest = boiler_equilibrium(saturation_line, pressure=pressure,
                              water_volume=57.2 if pressure > 5e6 else 35.0)
    changed = {name: getattr(rest.inputs, name) + extra for name, extra in changes.items()}
    run = boiler_transient(rest, single_step(rest.inputs, 0.0, **changed), 10_000.0,
                           saturation_line, 201)
    assert at_the_end(rest, run) == pytest.approx(0.0, abs=1e-5)
