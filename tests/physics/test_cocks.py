"""The glass in time: closed forms, conservation, all eight cock positions, and the settled form."""

from dataclasses import replace
from math import exp, log, pi

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from levelkit.check.cocks import tubular_state
from levelkit.errors import InputError
from levelkit.physics.ball_check import ball_lift_flow, ball_lift_velocity
from levelkit.physics.cock_flows import flows_at, free_areas, glass_flows
from levelkit.physics.cock_state import CockFaults, Cocks, GaugeFitting
from levelkit.physics.cock_times import (
    choked_height,
    cooling_time_constant,
    narrow_water_way_time,
    pocket_time_constant,
    residual_gas_share,
    shut_in_height,
)
from levelkit.physics.cocks import glass_after, glass_history, with_cocks
from levelkit.physics.glass_contents import drained_contents, working_contents
from levelkit.physics.passages import (
    glass_height_with_drops,
    passage_drop,
    passage_flow,
    weeping_drain_height,
)
from levelkit.physics.settled_glass import (
    BETWEEN,
    EMPTY,
    FALSE_COLUMN,
    FULL,
    HELD,
    settled_glass,
)
from levelkit.physics.steam_lookup import steam_at, steam_table
from levelkit.properties import (
    compressed_water_density,
    saturated_fluid,
    saturation_at_pressure,
    saturation_heat,
)

P7 = 8e5
STEAM7, HEAT7 = saturation_at_pressure(P7), saturation_heat(P7)


def tau(density, area=113e-6, loss=0.95, air=308.15):
    return pocket_time_constant(area, HEAT7.latent_heat, density, loss, STEAM7.temperature - air)


def faulty(state, **faults):
    return replace(state, faults=CockFaults(**faults))


def test_a_choked_steam_cock_fills_the_glass_on_the_closed_curve():
    """Wall and top fitting hold no heat and no steam here: what the closed form assumes."""
    state = tubular_state(height=0.186, wall_heat_capacity=0.0, top_volume=0.0)
    run = glass_history(faulty(state, steam_choke=1.0), 30.0, points=61)
    exact = choked_height(run.time, 0.186, 0.4, tau(STEAM7.steam_density))
    assert np.abs(run.height - exact).max() < 0.5e-3


def test_a_choked_water_cock_creeps_up_at_7_mm_per_minute():
    state = tubular_state(height=0.186)
    run = glass_history(faulty(state, water_choke=1.0), 600.0, points=11)
    exact = choked_height(run.time, 0.186, 0.4, tau(state.fitting.water_density))
    assert np.abs(run.height - exact).max() < 0.5e-3
    assert (run.height[1] - run.height[0]) * 1e3 == pytest.approx(7.4, rel=0.03)
    assert run.height[-1] > run.height[0]


def test_the_two_chokes_differ_by_the_ratio_of_the_densities():
    """Times to the same height, both from the full model."""
    state = tubular_state(height=0.186, wall_heat_capacity=0.0, top_volume=0.0)
    times = []
    for fault, span in (("steam_choke", 10.0), ("water_choke", 2500.0)):
        run = glass_history(faulty(state, **{fault: 1.0}), span, points=801)
        times.append(np.interp(0.25, run.height, run.time))
    ratio = state.fitting.water_density / STEAM7.steam_density
    assert times[1] / times[0] == pytest.approx(ratio, rel=0.02)
    assert ratio == pytest.approx(232, rel=0.01)


def water_and_steam(state):
    """Mass in the glass [kg], from contents alone."""
    contents, fitting = state.contents, state.fitting
    density = steam_at(state.steam, contents.steam_pressure).density
    room = fitting.bore_area * (fitting.steam_connection - contents.height) + fitting.top_volume
    return fitting.water_density * fitting.bore_area * contents.height + density * room


@pytest.mark.parametrize("height", [0.05, 0.186, 0.35])
def test_a_shut_glass_keeps_its_mass_and_its_believable_level(height):
    state = with_cocks(tubular_state(height=height), steam=0.0, water=0.0)
    run = glass_history(state, 3600.0, points=40)
    assert water_and_steam(run.end) == pytest.approx(water_and_steam(state), rel=1e-5)
    # all steam turned to water adds rho_g/rho_w of its length: 0.9 mm for 0.2 m
    assert 0 <= run.height[-1] - height < 1.1 * (0.4 - height + 0.02) * 4.16 / 965
    assert run.pocket_pressure[-1] < 101_325 / 2  # a vacuum once it has cooled
    assert np.all(np.diff(run.pocket_pressure) <= 1.0)


def test_a_shut_glass_cools_with_the_time_constant_of_its_wall():
    state = with_cocks(tubular_state(height=0.186, top_volume=0.0), steam=0.0, water=0.0)
    run = glass_history(state, 300.0, points=2)
    constant = cooling_time_constant(280.0, 0.95)
    cooled = 308.15 + (STEAM7.temperature - 308.15) * exp(-300.0 / constant)
    found = steam_at(state.steam, run.end.contents.steam_pressure).temperature
    assert found == pytest.approx(cooled, abs=3.0)  # condensing steam gives back a little
    assert 200 < constant < 350


def test_the_water_of_a_shut_glass_shrinks_more_than_its_steam_adds():
    hot, cold = 965.3, 994.0
    found = shut_in_height(0.186, 0.4, hot, 4.16, cold, 0.04)
    assert -0.007 < found - 0.186 < -0.003
    assert shut_in_height(0.186, 0.4, hot, 4.16, hot, 0.0) - 0.186 == pytest.approx(
        0.214 * 4.16 / hot, rel=1e-6)  # steam alone: 0.9 mm


def test_vapour_left_in_a_cooled_glass_counts():
    """Mass by hand: 0.1 m of water and 0.3 m of dense steam become water and thin steam."""
    found = shut_in_height(0.1, 0.4, 900.0, 30.0, 950.0, 5.0)
    assert 950.0 * found + 5.0 * (0.4 - found) == pytest.approx(900.0 * 0.1 + 30.0 * 0.3)


def test_steam_beside_the_gas_keeps_more_room_free():
    """Partial pressures by hand: gas alone carries 8 less 2 bar."""
    assert residual_gas_share(1e5, 300.0, 8e5, 300.0, 2e5) == pytest.approx(1 / 6)


def test_a_full_glass_takes_the_pressure_of_the_steam_space():
    state = tubular_state(level=0.5, height=0.399)
    run = glass_history(state, 20.0, points=21)
    assert run.height[-1] == pytest.approx(0.4, abs=1e-4)
    assert run.pocket_pressure[-1] == pytest.approx(P7, rel=1e-4)
    # a step of drum pressure reaches the last of the steam within a second
    higher = replace(run.end, drum=replace(run.end.drum, pressure=P7 + 2e4))
    after = glass_history(higher, 1.0, points=2)
    assert after.pocket_pressure[-1] == pytest.approx(P7 + 2e4, rel=1e-3)


def test_a_blow_sweeps_trapped_air_out_and_a_top_leak_does_too():
    state = tubular_state()
    aired = replace(state, contents=replace(state.contents, gas_amount=5e-4))
    left = {name: glass_history(case, 3.0, points=2).end.contents.gas_amount for name, case in (
        ("shut", with_cocks(aired, steam=0.0, water=0.0)),
        ("steam blow", with_cocks(aired, water=0.0, drain=1.0)),
        ("leak", faulty(with_cocks(aired, steam=0.0), top_leak_area=1e-6)))}
    assert left["shut"] == pytest.approx(5e-4)
    assert left["steam blow"] < 1e-6 and left["leak"] < 3e-4


def test_a_drain_under_vacuum_lets_the_water_out_past_the_air():
    """Pocket below the barometer: half of the outlet for water by its own head, half for air."""
    cold = replace(tubular_state(height=0.3), contents=replace(
        tubular_state(height=0.3).contents, steam_pressure=2e4))
    flows = glass_flows(with_cocks(cold, steam=0.0, water=0.0, drain=1.0))
    head = 965.3 * 9.80665 * 0.3
    assert flows.drain_water == pytest.approx(passage_flow(0.5 * 28.3e-6, 965.3, head), rel=1e-2)
    assert flows.gas_rate > 0


def test_free_areas_multiply_opening_and_clearance_and_passing_is_the_least():
    state = replace(tubular_state(), cocks=Cocks(0.5, 0.0, 1.0), faults=CockFaults(
        steam_choke=0.2, water_passing=0.05, drain_choke=0.9))
    full = 28.3e-6
    assert free_areas(state) == pytest.approx((0.4 * full, 0.05 * full, 0.1 * full))


def combination(steam, water, drain, start="working", seconds=60.0, **fitting):
    state = tubular_state(**fitting)
    if start == "drained":
        state = replace(state, contents=drained_contents(state.fitting, state.steam, 365.0))
    return state, glass_history(with_cocks(state, steam=steam, water=water, drain=drain), seconds,
                                points=31)


def test_000_stays():
    state, run = combination(0.0, 0.0, 0.0)
    assert run.height == pytest.approx(np.full(31, state.contents.height), abs=0.001)


def test_001_empties_and_the_blow_dies_away():
    _, run = combination(0.0, 0.0, 1.0)
    assert run.emptied_at < 1.0 and run.height[-1] < 0.001
    assert run.blow[0].strength == "strong" and run.blow[-1].strength == "none"
    assert run.pocket_pressure[-1] == pytest.approx(101_325, rel=0.01)


def test_010_fills_and_trapped_air_keeps_the_top_free():
    _, run = combination(0.0, 1.0, 0.0, start="drained", top_volume=0.0)
    assert 0.80 < run.height[3] / 0.4 < 1.0 and run.height[-1] < 0.4
    # the free room is the gas law with the pressures and temperatures of the model itself
    end = run.end
    warm = steam_at(end.steam, end.contents.steam_pressure).temperature
    gas = run.pocket_pressure[-1] - end.contents.steam_pressure
    free = residual_gas_share(101_325 - 75.7e3, 365.0, gas, warm)  # 75.7 kPa: steam at 92 degC
    assert 1 - end.contents.height / 0.4 == pytest.approx(free, rel=0.02)


def test_010_with_the_level_below_the_connection_brings_no_water():
    state = tubular_state(level=-0.05)
    state = replace(state, contents=drained_contents(state.fitting, state.steam, 365.0))
    run = glass_history(with_cocks(state, steam=0.0), 60.0, points=5)
    assert run.height.max() < 0.005 and run.pocket_pressure[-1] > 7.9e5


def test_011_blows_wet_and_101_blows_dry():
    wet, dry = combination(0.0, 1.0, 1.0)[1], combination(1.0, 0.0, 1.0)[1]
    assert (wet.blow[-1].strength, wet.blow[-1].nature) == ("strong", "wet")
    assert (dry.blow[-1].strength, dry.blow[-1].nature) == ("strong", "dry")
    # water, though it flashes, leaves three to five times the mass
    assert 3 < wet.drain_water[-1] / dry.drain_steam[-1] < 7


def test_100_holds_and_creeps():
    state, run = combination(1.0, 0.0, 0.0)
    minute = (run.height[-1] - run.height[0]) * 1e3
    assert minute == pytest.approx(1e3 * (0.4 - run.height[0]) / (tau(965.3) / 60), rel=0.03)


def test_110_comes_to_the_level_of_the_column_list_from_anywhere():
    for start in ("working", "drained"):
        state, run = combination(1.0, 1.0, 0.0, start, seconds=120.0)
        drum = state.drum
        balance = glass_height_with_drops(drum.level, drum.water_density, drum.steam_density,
                                          state.fitting.water_density, 0.0, 0.0)
        assert run.height[-1] == pytest.approx(balance, abs=3e-4)
        assert run.end.contents.gas_amount < 1e-5  # the air has gone to the drum


def test_111_shows_a_low_froth_and_blows_hard():
    _, run = combination(1.0, 1.0, 1.0)
    assert 0.0 < run.height[-1] < 0.02 and run.blow[-1].strength == "strong"


def test_a_glass_follows_the_drum_in_a_second_and_a_choked_one_does_not():
    state = tubular_state()
    higher = replace(state, drum=replace(state.drum, level=0.25))
    run = glass_history(higher, 2.0, points=41)
    assert run.height[-1] - run.height[0] == pytest.approx(0.05 * 893 / 961, rel=0.01)
    still = glass_history(faulty(higher, water_choke=1.0), 2.0, points=2)
    assert still.height[-1] - still.height[0] < 0.001


def narrowed_water_way(loss):
    state = faulty(tubular_state(level=0.15, dry_heat_loss=loss),
                   water_choke=1 - 0.1e-6 / 28.3e-6)
    return state, settled_glass(faulty(state)).height


def test_a_narrow_water_way_takes_the_time_of_an_emptying_vessel():
    """Hardly any condensate here: the closed form knows none."""
    state, target = narrowed_water_way(1e-3)
    run = glass_history(replace(state, contents=replace(state.contents, height=target + 0.05)),
                        300.0, points=301)
    reached = np.interp(-(target + 0.002), -run.height, run.time)
    # a root-law fall is 80 % over at 4 % of its height
    exact = narrow_water_way_time(113e-6, 0.1e-6, 0.05) * (1 - (0.002 / 0.05) ** 0.5)
    assert reached == pytest.approx(exact, rel=0.02)


def test_through_a_narrow_water_way_condensate_holds_the_glass_a_little_high():
    state, target = narrowed_water_way(0.95)
    settled = settled_glass(state)
    assert 0.002 < settled.height - target < 0.006
    assert glass_history(state, 2000.0, points=2).height[-1] == pytest.approx(settled.height,
                                                                              abs=2e-4)


@pytest.mark.parametrize("faults", [
    {"steam_choke": 0.97}, {"steam_choke": 0.99}, {"drain_passing": 0.05},
    {"top_leak_area": 3e-7}, {"bottom_leak_area": 1e-6},
    {"steam_choke": 0.95, "drain_passing": 0.05}])
def test_the_settled_glass_is_where_the_full_model_ends(faults):
    state = faulty(tubular_state(), **faults)
    settled = settled_glass(state)
    run = glass_history(state, 400.0, points=2)
    assert settled.place == BETWEEN
    assert settled.height == pytest.approx(run.height[-1], abs=2e-4)


def test_leaks_go_the_way_they_should():
    healthy = settled_glass(tubular_state()).height
    for fault, size, sign in (("drain_passing", 0.05, -1), ("bottom_leak_area", 1e-6, -1),
                              ("top_leak_area", 3e-7, 1), ("steam_choke", 0.97, 1)):
        small, large = (settled_glass(faulty(tubular_state(), **{fault: share})).height
                        for share in (0.98 * size, size))
        assert sign * (large - healthy) > 1e-3
        assert sign * (large - small) > 0


def test_the_settled_glass_condenses_what_its_dry_length_and_fitting_lose():
    """Heat balance by hand, extra length included; a full glass keeps only its fitting."""
    state = faulty(tubular_state(extra_condensing_length=0.1), steam_choke=0.95)
    settled = settled_glass(state)
    per_metre = 0.95 * (STEAM7.temperature - 308.15) / HEAT7.latent_heat
    assert settled.condensation == pytest.approx(per_metre * (0.5 - settled.height), rel=1e-3)
    hole = 0.05 * 28.3e-6
    assert settled.steam_way_drop == pytest.approx(
        (settled.condensation / (0.6 * hole)) ** 2 / (2 * STEAM7.steam_density), rel=1e-3)
    assert settled.height == pytest.approx(glass_history(state, 400.0, points=2).height[-1],
                                           abs=2e-4)
    full = settled_glass(faulty(state, steam_choke=1.0))
    assert full.condensation == pytest.approx(per_metre * 0.1, rel=1e-3)


def test_places_a_glass_can_settle():
    state = tubular_state()
    assert settled_glass(faulty(state, steam_choke=1.0)).place == FULL
    assert settled_glass(faulty(state, water_choke=1.0)).place == FULL
    assert settled_glass(faulty(state, water_choke=1.0, drain_passing=0.1)).place == EMPTY
    both = settled_glass(faulty(state, water_choke=1.0, steam_choke=1.0))
    assert both.place == HELD and both.height == state.contents.height
    assert settled_glass(faulty(state, drain_passing=0.5)).place == EMPTY
    assert settled_glass(tubular_state(level=0.5, height=0.1)).place == FULL
    assert settled_glass(tubular_state(level=-0.05, height=0.1)).place == EMPTY
    drained = settled_glass(faulty(state, water_choke=1.0, steam_choke=1.0, drain_passing=0.1))
    assert drained.place == EMPTY and drained.height == 0.0
    lip = settled_glass(tubular_state(level=-0.05, height=0.1, pipe_lip=0.03))
    assert lip.place == FALSE_COLUMN and lip.height == 0.03


def test_below_the_connection_a_false_short_column_does_not_follow_the_drum():
    ends = [glass_history(tubular_state(level=level, height=0.2, pipe_lip=0.03), 60.0,
                          points=2).height[-1] for level in (-0.02, -0.3)]
    assert ends == pytest.approx([0.03, 0.03], abs=1e-3)
    level_pipe = glass_history(tubular_state(level=-0.05, height=0.2), 60.0, points=2)
    assert level_pipe.height[-1] < 0.002


def test_a_small_weep_reads_higher_at_first_a_large_one_low():
    heights = [weeping_drain_height(leak, 0.2, 897.03, 4.161, 28.3e-6, 443.56, 308.15, 4371.0, 0.95,
                                    lambda t: compressed_water_density(P7, t), 364.0)
               for leak in (0.0, 1e-4, 1e-3, 0.006, 0.012, 0.02)]
    assert heights[0] < heights[1] < heights[2] > heights[3] > heights[4] > heights[5]
    assert heights[2] < 0.2  # it only takes away the cold error
    assert heights[4] < heights[0] - 0.015


def test_a_weep_without_a_steady_height_is_refused():
    """Water that thins with a jump: at either height the heat balance asks for the other."""
    gain, loss = 0.2 * 1e-4 * 4371.0, 0.95 * 0.19
    jump = (gain * 443.56 + loss * 364.0) / (gain + loss)  # as warm as 190 mm of water gets
    with pytest.raises(InputError, match=r"No steady height found for a leak of 0\.0001 kg/s"):
        weeping_drain_height(1e-4, 0.2, 897.03, 4.161, 28.3e-6, 443.56, 308.15, 4371.0, 0.95,
                             lambda t: 990.0 if t < jump else 900.0, 364.0)


def test_a_snatched_drain_seats_the_ball_and_shutting_the_water_cock_drops_it():
    lift = ball_lift_flow(ball_lift_velocity(0.00635, 897.0), 897.0, 0.008)
    state = tubular_state(ball_lift_flow=lift)
    blowing = glass_history(with_cocks(state, steam=0.0, drain=1.0), 3.0, points=31)
    assert blowing.ball_seated_at is not None and blowing.end.contents.ball_seated
    assert blowing.blow[-1].strength == "none"  # looks like a choked water way
    gently = glass_history(with_cocks(state, steam=0.0, drain=0.2), 3.0, points=31)
    assert gently.ball_seated_at is None
    dropped = with_cocks(blowing.end, water=0.0)
    assert not dropped.contents.ball_seated
    again = glass_history(with_cocks(dropped, water=0.2), 3.0, points=3)
    assert again.ball_seated_at is None and again.blow[-1].nature == "wet"


def test_small_steps_lead_where_one_run_leads():
    state = with_cocks(tubular_state(), steam=0.0)
    run = glass_history(state, 4.0, points=2)
    for _ in range(40):
        state = glass_after(state, 0.1)
    assert state.contents.height == pytest.approx(run.height[-1], abs=1e-5)
    assert state.contents.time == pytest.approx(4.0)


@settings(max_examples=25, deadline=None)
@given(st.tuples(*[st.sampled_from((0.0, 0.1, 1.0))] * 3), st.sampled_from((-0.05, 0.05, 0.2, 0.5)),
       st.sampled_from((0.0, 0.1, 0.3)), st.sampled_from((1.1e5, 4e5, 17e5, 61e5)))
def test_no_position_of_the_cocks_leaves_the_glass_or_its_senses(opens, level, height, pressure):
    state = replace(tubular_state(pressure, level, height), cocks=Cocks(*opens))
    run = glass_history(state, 5.0, points=6)
    assert np.all((run.height >= 0) & (run.height <= 0.4 + 1e-6))
    assert np.all(np.isfinite(run.pocket_pressure)) and np.all(run.pocket_pressure > 0)
    assert np.all(run.pocket_pressure < pressure * 1.02 + 1e4)  # foot head at most
    assert np.all(run.drain_water >= 0) and np.all(run.drain_steam >= 0)


@given(st.floats(1e-9, 0.05), st.floats(1e-7, 1e-4), st.floats(1.0, 1000.0))
def test_flow_and_fall_of_a_passage_undo_each_other(flow, area, density):
    drop = passage_drop(flow, area, density)
    if drop < 1e8:
        assert passage_flow(area, density, drop) == pytest.approx(flow, rel=1e-9)
        assert passage_flow(area, density, -drop) == pytest.approx(-flow, rel=1e-9)


def test_the_nearly_choked_rise_solves_its_quadratic():
    """K (x0 - d + Le)^2 = d, the second route to the settled glass, 1 mm hole, 0.214 m of steam."""
    state = tubular_state()
    base = settled_glass(state).height
    hole = pi * 0.5e-3**2
    found = settled_glass(faulty(state, steam_choke=1 - hole / 28.3e-6)).height - base
    per_metre = 0.95 * (STEAM7.temperature - 308.15) / HEAT7.latent_heat
    k = (per_metre / (0.6 * hole)) ** 2 / (2 * STEAM7.steam_density) / (
        (965.3 - STEAM7.steam_density) * 9.80665)
    steam = 0.4 - base
    exact = ((2 * k * steam + 1) - ((2 * k * steam + 1) ** 2 - 4 * k**2 * steam**2) ** 0.5) / (
        2 * k)
    assert found == pytest.approx(exact, abs=1e-5)


def test_the_look_up_agrees_with_the_steam_table_between_its_knots():
    table = steam_table(P7, saturated_fluid)
    for pressure in (1.3e4, 2.345e5, 7.77e5):
        fluid, found = saturated_fluid(pressure), steam_at(table, pressure)
        assert found.temperature == pytest.approx(fluid.temperature, abs=0.01)
        assert found.density == pytest.approx(fluid.steam_density, rel=1e-4)
        step = 1e-4 * pressure
        slope = (saturated_fluid(pressure + step).temperature
                 - saturated_fluid(pressure - step).temperature) / (2 * step)
        assert found.temperature_slope == pytest.approx(slope, rel=0.03)
    assert steam_at(table, 0.0) == steam_at(table, 1.0)  # where a solver may wander


def test_flows_of_a_resting_glass_cancel():
    state = tubular_state()
    flows = glass_flows(state)
    assert flows.height_rate == pytest.approx(0.0, abs=1e-3)
    run = glass_history(state, 60.0, points=2)
    assert run.condensation[-1] == pytest.approx(run.steam_flow[-1], rel=1e-2)
    assert run.water_flow[-1] == pytest.approx(-run.condensation[-1], rel=0.02)
    assert log(run.pocket_pressure[-1] / P7) == pytest.approx(0.0, abs=1e-5)


@pytest.mark.parametrize("call, words", [
    (lambda: Cocks(steam=2.0), "0 is shut, 1 is open"),
    (lambda: CockFaults(steam_choke=-0.1), "steam choke"),
    (lambda: GaugeFitting(bore_area=113.0), "bore area"),
    (lambda: with_cocks(tubular_state(), vent=1.0), "give steam, water or drain"),
    (lambda: glass_history(tubular_state(), 0.0), "duration"),
    (lambda: glass_after(tubular_state(), -1.0), "step"),
    (lambda: passage_drop(0.01, 0.0, 900.0), "shut way has no steady flow"),
    (lambda: residual_gas_share(1e5, 330.0, 8e5, 393.0, 8e5), "below the drum pressure"),
])
def test_impossible_states_are_refused(call, words):
    with pytest.raises(InputError, match=words):
        call()


def flows(height=0.1, steam=6e5, gas=0.0, drain=0.0, **drum):
    """Flows of a gauge with both cocks open, at given contents."""
    state = with_cocks(tubular_state(), drain=drain)
    state = replace(state, drum=replace(state.drum, **drum))
    return state, flows_at(state, free_areas(state), height, steam, gas)


def test_entering_drum_water_flashes_as_its_surplus_heat_says():
    """The share is cp dT / h_fg, so steam made is in proportion to the heat capacity."""
    rates = [flows(heat_capacity=c)[1].log_pressure_rate for c in (3500.0, 5000.0, 6500.0)]
    assert rates[1] - rates[0] == pytest.approx(rates[2] - rates[1], rel=1e-6)
    state, found = flows()
    more = 5000.0 - 3500.0
    hot, low = steam_at(state.steam, 8e5), steam_at(state.steam, 6e5)
    share = more * (hot.temperature - low.temperature) / low.latent_heat
    fitting = state.fitting
    length = fitting.steam_connection - 0.1 + fitting.extra_condensing_length
    room = (fitting.bore_area * (fitting.steam_connection - 0.1) + fitting.top_volume)
    thin = low.density / fitting.water_density
    taken_up = fitting.wall_heat_capacity * length * low.temperature_slope / low.latent_heat
    by_hand = (share * found.water_flow * (1 - thin)
               / (room * low.density_slope + taken_up * (1 - thin)) / 6e5)
    assert rates[1] - rates[0] == pytest.approx(by_hand, rel=0.01)


def test_steam_that_leaves_by_its_cock_sweeps_gas_along():
    """In proportion to the share of the pocket's steam that leaves, beside the slow exchange."""
    gas = 1e-6
    state, still = flows(steam=8e5 - 1e-3, gas=0.0)
    exchange = flows(steam=7e5, gas=gas)[1].gas_rate / gas  # steam comes in: exchange alone
    _, leaving = flows(steam=9e5, gas=gas)
    room = (state.fitting.bore_area * (state.fitting.steam_connection - 0.1)
            + state.fitting.top_volume)
    swept = -leaving.steam_flow / (steam_at(state.steam, 9e5).density * room)
    assert leaving.steam_flow < 0 and swept > abs(exchange)
    assert leaving.gas_rate / gas == pytest.approx(exchange - swept, rel=0.01)


def test_a_glass_that_empties_or_fills_settles_at_its_ends():
    empty = settled_glass(faulty(tubular_state(), drain_passing=0.5))
    assert (empty.height, empty.place) == (0.0, EMPTY)
    full = settled_glass(tubular_state(level=0.5, height=0.1))
    assert (full.height, full.place) == (tubular_state().fitting.steam_connection, FULL)


@pytest.mark.parametrize("faults, place", [
    ({"water_choke": 1.0}, FULL), ({"water_choke": 1.0, "drain_passing": 0.1}, EMPTY),
    ({"water_choke": 1.0, "steam_choke": 1.0}, HELD),
    ({"water_choke": 1.0, "steam_choke": 1.0, "drain_passing": 0.1}, EMPTY),
])
def test_nothing_falls_over_a_way_through_which_nothing_runs(faults, place):
    settled = settled_glass(faulty(tubular_state(), **faults))
    assert (settled.place, settled.leak_flow, settled.water_way_drop, settled.steam_way_drop) == (
        place, 0.0, 0.0, 0.0)


def test_working_contents_end_at_the_lip_or_at_the_bottom():
    state = tubular_state(pipe_lip=0.03)
    below, above = (working_contents(replace(state.drum, level=level), state.fitting).height
                    for level in (0.02, 0.031))
    assert below == 0.03  # held back by the pipe end
    assert above == pytest.approx(0.031 * (state.drum.water_density - state.drum.steam_density)
                                  / (state.fitting.water_density - state.drum.steam_density))
    assert working_contents(replace(state.drum, level=-0.1), GaugeFitting()).height == 0.0


def test_a_rush_into_an_empty_glass_seats_the_ball_at_once():
    """The flow is greatest at the very first: 0.09 kg/s, above the 0.05 that lifts the ball."""
    empty = tubular_state(ball_lift_flow=0.05)
    empty = replace(empty, contents=replace(empty.contents, height=0.0, steam_pressure=1.05e5))
    snatched = with_cocks(empty, steam=0.0, water=1.0)
    assert glass_flows(snatched).water_flow > 0.05
    run = glass_history(snatched, 2.0, points=5)
    assert run.ball_seated_at == 0.0 and run.end.contents.ball_seated
    assert run.height.max() < 0.01 and run.water_flow.max() == 0.0
    gently = glass_history(with_cocks(empty, steam=0.0, water=0.3), 2.0, points=5)
    assert gently.ball_seated_at is None and gently.height[-1] > 0.3


def test_a_false_line_is_somewhere_in_the_glass_or_absent():
    assert CockFaults(false_line=0.1).false_line == 0.1 and CockFaults().false_line is None
    for wrong in (-0.1, float("nan"), 6.0):
        with pytest.raises(InputError, match="false line"):
            CockFaults(false_line=wrong)


def test_nothing_flows_where_nothing_drives_it():
    assert passage_flow(2e-5, 897.0, 0.0) == 0.0
    assert passage_flow(2e-5, 897.0, np.array([-100.0, 0.0, 100.0])).tolist() == [
        -passage_flow(2e-5, 897.0, 100.0), 0.0, passage_flow(2e-5, 897.0, 100.0)]


def test_steam_blows_from_an_empty_glass_by_the_root_law_well_below_its_critical_flow():
    """2 kPa above the air: Cd A sqrt(2 rho dp), all by hand but the density."""
    outside = tubular_state().fitting.barometer
    state, found = flows(height=0.0, steam=outside + 2e3, drain=1.0)
    density = steam_at(state.steam, outside + 2e3).density
    area = state.fitting.discharge_coefficient * free_areas(state)[2]
    assert found.drain_steam == pytest.approx(area * (2 * density * 2e3) ** 0.5, rel=0.02)
