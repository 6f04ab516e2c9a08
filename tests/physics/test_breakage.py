"""Breakage, ball, thermal shock, flashing, the choice of a glass and its installation."""

from dataclasses import replace
from math import inf, pi

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from levelkit.constants import CAUTION
from levelkit.errors import InputError
from levelkit.physics.ball_check import ball_holding_pressure, ball_lift_flow, ball_lift_velocity
from levelkit.physics.breakage import (
    DRILL_CAUTION,
    ISOLATION_DRILL,
    WARMING_DRILL,
    broken_glass,
    time_to_lose_level,
)
from levelkit.physics.critical_flow import critical_flow
from levelkit.physics.flashing import flash_share, flash_volume_ratio
from levelkit.physics.glass import GlassMounting
from levelkit.physics.glass_choice import (
    PLATE,
    REFLEX,
    TUBULAR,
    TYPES,
    GlassInstallation,
    chosen_glass,
    installation_findings,
)
from levelkit.physics.heat_loss import stem_decay_rate, stem_heat_rate, stream_temperature
from levelkit.physics.optics import BOROSILICATE, SODALIME
from levelkit.physics.relief_formulas import (
    omega_critical_ratio,
    omega_subcooled_flux,
    omega_two_phase_flux,
    orifice_flux,
    steam_rule_flux,
)
from levelkit.physics.thermal_shock import thermal_shock_stress
from levelkit.properties import saturated_fluid


@pytest.mark.parametrize("pressure", [8e5, 17e5, 61e5, 100e5])
def test_the_water_end_loses_more_so_its_cock_is_shut_first(pressure):
    fluxes = [critical_flow(pressure, start, saturated_fluid).mass_flux
              for start in ("water", "steam")]
    broken = broken_glass(0.012, *fluxes, ball_lift_flow=0.3)
    assert 2.0 < broken.flow_ratio < 5.0
    assert broken.water_flow == pytest.approx(fluxes[0] * pi * 0.006**2)
    assert broken.steam_flow == pytest.approx(fluxes[1] * pi * 0.006**2)
    actions = [step.action for step in ISOLATION_DRILL]
    shut = [next(i for i, text in enumerate(actions) if text.startswith(f"shut the {cock}"))
            for cock in ("water", "steam")]
    assert shut[0] < shut[1]
    assert "other glass" in actions[shut[1] + 1]


def test_both_drills_have_reasons_sources_and_the_caution():
    for step in (*ISOLATION_DRILL, *WARMING_DRILL):
        assert step.reason and step.source == "common practice, no source"
    assert DRILL_CAUTION == CAUTION


def ideal_steam_flux(pressure, density):
    """Critical flux of a perfect gas with the exponent of wet steam, a second route."""
    n = 1.135
    return (n * pressure * density * (2 / (n + 1)) ** ((n + 1) / (n - 1))) ** 0.5


@pytest.mark.parametrize("pressure", [2e5, 8e5, 20e5, 61e5])
def test_critical_steam_flow_agrees_with_gas_theory_and_with_the_handbook_rule(pressure):
    flow = critical_flow(pressure, "steam", saturated_fluid)
    gas = ideal_steam_flux(pressure, saturated_fluid(pressure).steam_density)
    assert flow.mass_flux == pytest.approx(gas, rel=0.02)
    assert flow.mass_flux == pytest.approx(steam_rule_flux(pressure), rel=0.06)
    assert flow.throat_pressure / pressure == pytest.approx(0.577, abs=0.02)


def test_critical_flow_takes_arrays_and_heeds_the_back_pressure():
    pressures = np.array([2e5, 8e5, 61e5])
    many = critical_flow(pressures, "water", saturated_fluid).mass_flux
    one = [critical_flow(p, "water", saturated_fluid).mass_flux for p in pressures]
    assert many == pytest.approx(one, rel=1e-9)
    held = critical_flow(8e5, "water", saturated_fluid, back_pressure=7.9e5)
    assert held.throat_pressure == pytest.approx(7.9e5) and held.mass_flux < one[1]
    low = critical_flow(8e5, "water", saturated_fluid, back_pressure=101_325.0)
    assert low.mass_flux == pytest.approx(one[1], rel=1e-6)  # choked: the air does not matter


def test_the_mixture_formula_gives_one_flux_at_its_critical_ratio():
    ratio = omega_critical_ratio(2.0)
    choked = omega_two_phase_flux(1e6, 500.0, 2.0, 0.0)
    at_it = omega_two_phase_flux(1e6, 500.0, 2.0, 1e6 * ratio * (1 + 1e-9))
    assert choked == pytest.approx(at_it, rel=1e-6)
    assert omega_two_phase_flux(1e6, 500.0, 2.0, 0.95e6) < choked
    assert omega_two_phase_flux(1e6, 500.0, 2.0, 1e6) == pytest.approx(0.0, abs=1e-6)


def test_a_cold_liquid_does_not_flash_before_the_throat():
    assert omega_subcooled_flux(2e6, 1e5, 900.0, 9.0, 5e5) == pytest.approx(
        orifice_flux(900.0, 1.5e6))
    with pytest.raises(InputError, match="Use the two-phase form"):
        omega_subcooled_flux(2e6, 1.99e6, 900.0, 9.0, 5e5)


@given(st.floats(0.002, 0.05), st.floats(0.5, 950.0))
def test_the_lift_velocity_balances_drag_and_weight(diameter, fluid):
    velocity = ball_lift_velocity(diameter, fluid)
    drag = 0.45 * fluid * velocity**2 / 2 * pi * diameter**2 / 4
    weight = (7800.0 - fluid) * 9.80665 * pi * diameter**3 / 6
    assert drag == pytest.approx(weight, rel=1e-9)
    # a seated ball needs the same force, spread over its seat
    assert ball_holding_pressure(diameter, fluid, diameter) * pi * diameter**2 / 4 == (
        pytest.approx(weight, rel=1e-9))


def test_a_full_bore_break_seats_the_ball_and_a_weep_does_not():
    lift = ball_lift_flow(ball_lift_velocity(0.0127, 897.0), 897.0, 0.016)
    flux = critical_flow(8e5, "water", saturated_fluid).mass_flux
    assert broken_glass(0.012, flux, 1162.0, lift).ball_lifts
    assert not broken_glass(0.001, flux, 1162.0, lift).ball_lifts
    with pytest.raises(InputError, match="floats"):
        ball_lift_velocity(0.0127, 897.0, ball_density=800.0)


def test_time_to_lose_the_level_by_adding_up_seconds():
    height, lost = 0.1, 0
    while height > 0:
        height -= (0.74 - 0.2) / (897.0 * 2.0)
        lost += 1
    assert time_to_lose_level(0.1, 2.0, 897.0, 0.74, 0.2) == pytest.approx(lost, abs=1)
    assert time_to_lose_level(0.1, 2.0, 897.0, 0.74, 0.8) == inf
    several = time_to_lose_level(np.array([0.05, 0.1]), 2.0, 897.0, 0.74)
    assert several[1] == 2 * several[0]


def test_thermal_shock_grows_with_expansion():
    """THERMAL-STRESS by hand: 64e9 x 3.3e-6 x 135 / 0.8 = 35.6 MPa."""
    assert thermal_shock_stress(BOROSILICATE, 135.0) == pytest.approx(35.6e6, rel=2e-3)
    ratio = thermal_shock_stress(SODALIME, 135.0) / thermal_shock_stress(BOROSILICATE, 135.0)
    assert ratio == pytest.approx(70 * 9.0 / (64 * 3.3))
    assert thermal_shock_stress(SODALIME, -50.0) < 0  # a heated surface is pressed


def test_water_too_cool_to_boil_does_not_flash_and_too_hot_a_feed_is_refused():
    assert flash_share(300e3, 419e3, 2256.5e3) == 0.0
    assert flash_volume_ratio(0.0, 960.0, 960.0, 0.6) == 1.0
    # half a kilogram of each, volumes added by hand
    assert flash_volume_ratio(0.5, 800.0, 950.0, 0.5) == pytest.approx(
        800.0 * (0.5 / 0.5 + 0.5 / 950.0))
    with pytest.raises(InputError, match="all of it steam"):
        flash_share(3e6, 419e3, 2256.5e3)


def test_a_stem_loses_all_its_heat_through_its_side():
    """Energy: heat in at the base equals the loss along the side and tip, added up."""
    d, k, h, length, excess = 0.01, 50.0, 15.0, 0.15, 120.0
    rate = stem_decay_rate(h, pi * d, k, pi * d * d / 4)
    tip = h / (rate * k)
    x = np.linspace(0, length, 20_001)
    theta = excess * (np.cosh(rate * (length - x)) + tip * np.sinh(rate * (length - x))) / (
        np.cosh(rate * length) + tip * np.sinh(rate * length))
    side = h * pi * d * np.trapezoid(theta, x)
    assert stem_heat_rate(length, h, d, k, excess) == pytest.approx(
        side + h * pi * d * d / 4 * theta[-1], rel=1e-6)


def test_a_stream_that_loses_nothing_keeps_its_temperature():
    assert stream_temperature(10.0, 400.0, 300.0, 0.0, 1e-3, 4400.0) == 400.0
    assert stream_temperature(1e3, 400.0, 300.0, 10.0, 1e-3, 4400.0) == pytest.approx(300.0)


GOOD = GlassInstallation(TUBULAR, 7e5, GlassMounting(0.5, 0.07, 0.43), -0.12, 0.25, 0.17, 0.33)


def test_the_choice_by_pressure_at_its_edges():
    assert [chosen_glass(bar * 1e5).name for bar in (0, 17.5, 17.6, 20.6, 20.7, 100)] == [
        TUBULAR, TUBULAR, REFLEX, REFLEX, PLATE, PLATE]
    assert all("common practice, no source" in kind.source for kind in TYPES.values())


def test_a_sound_installation_meets_every_line_and_each_lack_fails_its_own():
    assert all(line.met for line in installation_findings(GOOD))
    for change, words in (
            ({"independent_means": 1}, "two means"),
            ({"direct_glasses": 0}, "one of them a direct"),
            ({"lit": False}, "glass lit"), ({"lit_by_emergency_supply": False}, "emergency"),
            ({"glass": REFLEX, "working_pressure": 25e5}, "glass type suits"),
            ({"topmost_tube": 0.0}, "above the topmost tube"),
            ({"normal_level": 0.40}, "middle third")):
        failed = [line for line in installation_findings(replace(GOOD, **change)) if not line.met]
        assert [words in line.requirement for line in failed] == [True]
        assert failed[0].source
    assert {line.source for line in installation_findings(GOOD)} >= {"SOLAS II-1/32.6"}


def test_parts_are_named_once_and_only_the_plate_has_mica():
    for kind in TYPES.values():
        names = [part.name for part in kind.parts]
        assert len(names) == len(set(names)) and all(part.purpose for part in kind.parts)
        assert any("mica" in name for name in names) == (kind.name == PLATE)
        assert {"steam cock", "water cock", "drain cock", "ball check"} <= set(names)


def test_unknown_glass_is_refused():
    with pytest.raises(InputError, match="give one of tubular glass"):
        installation_findings(replace(GOOD, glass="bottle"))
    with pytest.raises(InputError, match="7 bar is 700 000 Pa"):
        chosen_glass(-1.0)


def test_many_shocks_at_once_are_the_same_as_one_by_one():
    many = thermal_shock_stress(BOROSILICATE, np.array([-20.0, 50.0]))
    assert many.tolist() == [thermal_shock_stress(BOROSILICATE, -20.0),
                             thermal_shock_stress(BOROSILICATE, 50.0)]


def test_a_ball_that_neither_sinks_nor_floats_is_refused():
    with pytest.raises(InputError, match="floats in the fluid"):
        ball_lift_velocity(0.0127, 897.0, 897.0)


def test_unknown_words_are_refused_with_those_that_are_known():
    with pytest.raises(InputError, match="give one of .*borosilicate"):
        thermal_shock_stress("window glass", 10.0)
    with pytest.raises(InputError, match="fluid at rest is 'ice'; give"):
        critical_flow(8e5, "ice", saturated_fluid)


@pytest.mark.parametrize("bar", [110.0, 150.0, 200.0])
def test_the_steam_rule_bends_upwards_as_in_its_form_for_pounds_and_inches(bar):
    """(0.1906 p - 1000) / (0.2292 p - 1061) above 1500 psi absolute (from memory)."""
    pounds = bar * 1e5 / 6894.757
    correction = (0.1906 * pounds - 1000) / (0.2292 * pounds - 1061)
    straight = steam_rule_flux(50e5) * bar / 50.0
    assert steam_rule_flux(bar * 1e5) / straight == pytest.approx(correction, rel=1e-3)
    assert steam_rule_flux(100e5) == pytest.approx(2 * steam_rule_flux(50e5))


def test_each_line_shows_what_was_found_beside_its_limit():
    lines = {line.requirement: line for line in installation_findings(
        replace(GOOD, glass=REFLEX, working_pressure=25e5, independent_means=3))}
    suits = lines["glass type suits the working pressure"]
    assert suits.value == pytest.approx(25.0) and "20.6 bar gauge" in suits.limit
    assert lines["two means of indicating level"].value == 3
    assert lines["low alarm level inside the visible part"].value == GOOD.low_alarm
    assert lines["high alarm level inside the visible part"].value == GOOD.high_alarm
    assert lines["normal level in the middle third of the visible part"].value == GOOD.normal_level
