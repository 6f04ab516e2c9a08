"""The two-fluid U-tube: two textbook forms, closed forms, what it shares with the transmitter."""

from dataclasses import replace
from math import pi

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from remote_states import drum_and_legs, transmitter, two_fluid

from levelkit.constants import STANDARD_GRAVITY as G
from levelkit.errors import InputError
from levelkit.physics.blow_over import blow_over_margins
from levelkit.physics.chamber import condensing_rate, isolated_chamber_time, make_up_transient
from levelkit.physics.fluid_balance import fluid_difference, level_of_fluid_difference
from levelkit.physics.indicating_fluids import (
    FLUIDS,
    IndicatingFluid,
    fluid_density,
    nearest_fluid,
)
from levelkit.physics.leg_state import DrumContents, LegsState
from levelkit.physics.transmitter import transmitter_reading
from levelkit.physics.two_fluid import (
    IN_RANGE,
    OFF_SCALE_HIGH,
    OFF_SCALE_LOW,
    scale_status,
    two_fluid_reading,
)
from levelkit.physics.two_fluid_design import (
    filling_shift,
    fluid_density_for_scale,
    scale_ratio,
    surface_share,
    two_fluid_range,
)
from levelkit.physics.u_tube import DRUM_LIMB, REFERENCE_LIMB, UTube
from levelkit.properties import saturation_heat, saturation_slopes

waters = st.floats(600.0, 950.0)
steams = st.floats(0.5, 90.0)
legs_water = st.floats(955.0, 1005.0)
fluids = st.floats(1300.0, 3000.0)
shares = st.floats(0.0, 1.0)
limbs = st.sampled_from([REFERENCE_LIMB, DRUM_LIMB])


@given(shares, waters, steams, legs_water, fluids)
def test_level_to_difference_and_back(share, water, steam, leg, fluid):
    level = 0.8 * share
    difference = fluid_difference(level, 0.8, water, steam, leg, fluid)
    assert difference == pytest.approx(
        ((leg - steam) * 0.8 - (water - steam) * level) / (fluid - leg), abs=1e-12)
    back = level_of_fluid_difference(difference, 0.8, water, steam, leg, fluid)
    assert back == pytest.approx(level, abs=1e-12)


@given(shares, limbs, st.floats(0.006, 0.02), st.floats(0.006, 0.02))
def test_level_to_scale_and_back_on_either_limb(share, visible, bore_1, bore_2):
    result = two_fluid_reading(two_fluid(0.8 * share, visible, bores=(bore_1, bore_2)))
    assert result.indicated_level == pytest.approx(0.8 * share, abs=1e-11)


@given(shares, st.floats(0.8e6, 1e7))
def test_both_textbook_forms_agree(share, pressure):
    """H = h + s x, heights to the lower surface and relative density; and R (rho_m - rho_w)."""
    state = two_fluid(0.8 * share, pressure=pressure)
    drum, legs = state.drum, state.legs
    result = two_fluid_reading(state)
    water = legs.reference_density
    lower, upper = result.reference_surface, result.drum_surface
    head = legs.weir_height - lower                                      # H, in leg water
    drum_side = ((drum.water_density * drum.level
                  + drum.steam_density * (legs.weir_height - drum.level))
                 / water - upper)                                        # h, as leg water
    relative = result.fluid_density / water
    assert head == pytest.approx(drum_side + relative * result.difference, abs=1e-9)
    weight = (water - drum.steam_density) * legs.weir_height - (
        drum.water_density - drum.steam_density) * drum.level
    assert result.difference * (result.fluid_density - water) == pytest.approx(weight, abs=1e-7)
    assert result.interface_pressure == pytest.approx(
        drum.pressure + water * G * head, abs=1e-3)


@given(shares, st.floats(1e6, 1e7), st.floats(1e6, 1e7), limbs)
def test_same_pressure_error_as_a_transmitter_of_the_same_calibration(share, drawn, running,
                                                                      visible):
    """The density of the indicating fluid cancels: both are wrong by the same millimetres, as long
    as the drum changes its pressure and the legs keep their density."""
    drum = drum_and_legs(0.8 * share, pressure=running)[0]
    u_tube = replace(two_fluid(0.4, visible, pressure=drawn), drum=drum)
    capsule = replace(transmitter(0.4, pressure=drawn), drum=drum)
    fraction = transmitter_reading(capsule).fraction
    assert two_fluid_reading(u_tube).indicated_level == pytest.approx(0.8 * fraction, abs=1e-9)


@given(shares, st.floats(285.0, 340.0))
def test_other_leg_density_parts_the_two(share, leg):
    """The fluid stands in the leg water: its factor is (rho_m - rho_w0)/(rho_m - rho_w)."""
    drum, legs = drum_and_legs(0.8 * share, leg=leg)
    u_tube = replace(two_fluid(0.4), drum=drum, legs=legs)
    capsule = replace(transmitter(0.4), drum=drum, legs=legs)
    scale = u_tube.scale
    weight = transmitter_reading(capsule).differential / G
    factor = (scale.fluid_density - scale.leg_density) / (
        scale.fluid_density - legs.reference_density)
    expected = ((scale.leg_density - scale.steam_density) * 0.8 - factor * weight) / (
        scale.water_density - scale.steam_density)
    assert two_fluid_reading(u_tube).indicated_level == pytest.approx(expected, abs=1e-9)


@given(shares, st.floats(-8.0, 8.0), st.floats(0.5, 9.0), st.booleans())
def test_unequal_legs_below_the_connection(share, change, depth, reference_is_off):
    """The error is (change of density) x depth of the surface under the leg that is off: the lower
    surface where the reference leg is off, the upper one where the drum-side leg is."""
    state = two_fluid(0.8 * share, depth=depth)
    name = "reference_run_density" if reference_is_off else "drum_run_density"
    off = replace(state.legs, **{name: state.legs.reference_density + change})
    result = two_fluid_reading(replace(state, legs=off))
    surface = result.reference_surface if reference_is_off else result.drum_surface
    sign = -1.0 if reference_is_off else 1.0
    density = state.drum.water_density - state.drum.steam_density
    assert result.error == pytest.approx(sign * change * -surface / density, abs=1e-9)


def test_run_of_nine_metres_six_kelvin_apart():
    """From the trade: 31 mm where the lower surface lies 9 m down, 28 mm by the upper surface."""
    state = two_fluid(0.25, pressure=4.6e6, weir=0.5, depth=7.5, leg=318.15)
    warmer = drum_and_legs(pressure=4.6e6, leg=324.15)[1].reference_density
    legs = replace(state.legs, reference_run_density=warmer)
    result = two_fluid_reading(replace(state, legs=legs))
    assert 1e3 * result.error * 9.0 / -result.reference_surface == pytest.approx(31, abs=0.6)


@given(st.floats(-8e-6, 8e-6), st.floats(0.006, 0.02), st.floats(0.006, 0.02), limbs)
def test_filling_moves_both_surfaces_and_not_their_difference(extra, bore_1, bore_2, visible):
    state = two_fluid(0.4, visible, 0.0, (bore_1, bore_2))
    other = replace(state, filling=state.filling + extra)
    before, after = two_fluid_reading(state), two_fluid_reading(other)
    shift = filling_shift(extra, state.tube.reference_area, state.tube.drum_area)
    assert after.difference == pytest.approx(before.difference, abs=1e-12)
    assert after.reference_surface - before.reference_surface == pytest.approx(shift, abs=1e-12)
    assert after.drum_surface - before.drum_surface == pytest.approx(shift, abs=1e-12)
    seen, hidden = state.tube.reference_area, state.tube.drum_area
    sign = 1.0
    if visible == DRUM_LIMB:
        seen, hidden, sign = hidden, seen, -1.0
    densities = (state.drum.water_density, state.drum.steam_density,
                 state.legs.reference_density, before.fluid_density)
    ratio = scale_ratio(*densities, surface_share(seen, hidden))
    assert after.error == pytest.approx(sign * shift / ratio, abs=1e-9)


@given(st.floats(0.2, 5.0), waters, steams, legs_water, st.floats(0.01, 4.0))
def test_fluid_for_a_scale_gives_that_scale(ratio, water, steam, leg, bores):
    share = surface_share(bores * 1e-4, 1e-4)
    fluid = fluid_density_for_scale(ratio, water, steam, leg, share)
    assert scale_ratio(water, steam, leg, fluid, share) == pytest.approx(ratio, rel=1e-9)
    assert fluid == pytest.approx(leg + (water - steam) / (ratio * (1 + bores)), rel=1e-12)


def test_visible_surface_moves_as_the_scale_ratio_says():
    high, low = (two_fluid_reading(two_fluid(level)) for level in (0.5, 0.4))
    assert (high.reference_surface - low.reference_surface) / 0.1 == pytest.approx(1.0, abs=1e-9)
    assert high.drum_surface < low.drum_surface  # inverted on the other limb


@given(waters, steams, legs_water, fluids)
def test_range_by_its_closed_form(water, steam, leg, fluid):
    found = two_fluid_range(0.5, water, steam, leg, fluid, 5e-5, 15e-5, 0.06)
    assert found.greatest_difference == pytest.approx((leg - steam) * 0.5 / (fluid - leg))
    assert found.least_difference == pytest.approx((leg - water) * 0.5 / (fluid - leg))
    assert found.least_difference > 0.0
    assert found.reference_travel * 5e-5 == pytest.approx(found.drum_travel * 15e-5)
    assert found.least_limb_height == pytest.approx(found.greatest_difference + 0.06)
    bare = two_fluid_range(0.5, water, steam, leg, fluid, 5e-5, 15e-5)  # nothing left at R_max
    assert bare.least_limb_height == pytest.approx(bare.greatest_difference)


def test_warm_fluid_reads_low_at_mid_range_and_its_swelling_lifts_both_surfaces():
    state = two_fluid(0.4)
    warm = replace(state, fluid_temperature=state.fluid_temperature + 18.0)
    before, after = two_fluid_reading(state), two_fluid_reading(warm)
    assert after.error < -0.01
    factor = (before.fluid_density - state.legs.reference_density) / (
        after.fluid_density - state.legs.reference_density)
    assert after.difference / before.difference == pytest.approx(factor)
    assert factor == pytest.approx(1.07, abs=0.01)  # "7 % for 18 K" of the trade
    volume = 1.0 + state.fluid.expansion * 18.0 / (1.0 + state.fluid.expansion * 25.0)
    fluid = (after.reference_surface + after.drum_surface + 2 * state.tube.bend_depth) * 0.25 * (
        pi * state.tube.reference_bore ** 2) + state.tube.bend_volume
    filled = state.filling * (1.0 + state.fluid.expansion * 25.0)
    assert fluid == pytest.approx(filled * volume, rel=1e-9)


def test_equal_pressures_show_full_on_the_constant_head_limb():
    state = two_fluid(0.1)
    legs = state.legs
    equal = replace(state, legs=replace(legs, manifold=replace(legs.manifold, equaliser=1.0)))
    result = two_fluid_reading(equal)
    assert result.difference == pytest.approx(0.0, abs=1e-12)
    assert result.status == OFF_SCALE_HIGH
    expected = (legs.reference_density - state.drum.steam_density) / (
        state.drum.water_density - state.drum.steam_density)
    assert result.indicated_level / 0.8 == pytest.approx(expected)


def test_level_below_the_connection_is_not_seen():
    bottom, deep = (two_fluid_reading(two_fluid(level)) for level in (0.0, -0.3))
    assert deep.indicated_level == pytest.approx(bottom.indicated_level)
    assert deep.below_connection and not bottom.below_connection


def test_an_array_of_levels_reads_as_its_members():
    levels = np.linspace(-0.1, 0.8, 7)
    state = two_fluid(0.4)
    together = two_fluid_reading(replace(state, drum=replace(state.drum, level=levels)))
    for level, indicated, status in zip(levels, together.indicated_level, together.status,
                                        strict=True):
        one = two_fluid_reading(replace(state, drum=replace(state.drum, level=float(level))))
        assert indicated == pytest.approx(one.indicated_level, abs=1e-12)
        assert status == one.status


def test_list_leans_the_u_tube_with_the_drum():
    state = two_fluid(0.4)
    leaning = replace(state, legs=replace(state.legs, list_angle=0.3))
    assert two_fluid_reading(leaning).difference == pytest.approx(
        two_fluid_reading(state).difference, abs=1e-12)


def one_leg_lost_of_its_pressure(state, change):
    chamber = replace(state.legs.chamber, isolated_pressure=state.drum.pressure + change)
    return replace(state, legs=replace(state.legs, chamber=chamber))


@given(shares, st.floats(0.006, 0.02), st.floats(0.006, 0.02), st.floats(-5.0, 5.0),
       st.floats(0.0, 0.4))
def test_fluid_stays_up_to_the_margin_and_is_blown_over_beyond(share, bore_1, bore_2, unequal,
                                                               angle):
    state = two_fluid(0.8 * share, bores=(bore_1, bore_2))
    legs = replace(state.legs, list_angle=angle,
                   drum_run_density=state.legs.drum_run_density + unequal)
    state = replace(state, legs=legs)
    margins = blow_over_margins(state)
    for change in (margins.reference_side, -margins.drum_side):
        two_fluid_reading(one_leg_lost_of_its_pressure(state, change * (1 - 1e-5)))
        with pytest.raises(InputError, match="blown over"):
            two_fluid_reading(one_leg_lost_of_its_pressure(state, change * (1 + 1e-5)))
    assert 0.0 < margins.drum_side < 0.5e5 and 0.0 < margins.reference_side < 0.5e5


@pytest.mark.parametrize("make, message", [
    (lambda s: one_leg_lost_of_its_pressure(s, -3e4), r"blown over.*above the bend.*0 to 3\.2 m"),
    (lambda s: one_leg_lost_of_its_pressure(s, 3e4), r"blown over.*above the bend.*0 to 3\.2 m"),
    (lambda s: replace(s, filling=0.0), r"above the bend is -2 ml; it must be more than 0 ml"),
    (lambda s: replace(s, filling=-1e-5), r"filling is -1e-05 m3; the allowed range is 0 to 0\.1"),
    (lambda s: replace(s, filling=1e-3), r"blown over.*0 to 3\.2 m"),
    (lambda s: replace(s, drum=replace(s.drum, level=0.81)),
     r"drum level is 0\.81 m; the allowed range is -5 to 0\.8 m"),
    (lambda s: replace(s, fluid=IndicatingFluid("light", 1000.0)),
     r"not denser than the water on it \(990\.\d kg/m3\)|blown over"),
    (lambda s: replace(s, fluid=IndicatingFluid("too light", 1000.0, 1e-3)),
     r"fluid \(97\d\.\d kg/m3\) is not denser than the water on it \(990\.\d kg/m3\)"),
    (lambda s: replace(s, legs=replace(s.legs, depth=9.0)),
     r"length of the limbs is 3\.2 m; the allowed range is 0 to"),
    (lambda s: replace(s, drum=replace(s.drum, level=float("nan"))), r"drum level is nan m"),
])
def test_impossible_indicator_is_refused_with_value_range_and_unit(make, message):
    with pytest.raises(InputError, match=message):
        two_fluid_reading(make(two_fluid()))


@pytest.mark.parametrize("call, message", [
    (lambda: UTube(0.008, 0.008, 2.0, 2.1), r"length of the limbs is 2\.1 m.*0\.01 to 2 m"),
    (lambda: UTube(8.0, 0.008, 2.0, 1.0), r"reference bore is 8 m; the allowed range.*0\.5 m"),
    (lambda: UTube(0.008, 0.008, 2.0, 1.0, visible_limb="left"), "visible limb is 'left'"),
    (lambda: LegsState(0.8, 2.0, 990.0, 990.0, 990.0, reference_loss=0.9),
     r"length lost from the reference leg is 0\.9 m; the allowed range is 0 to 0\.8 m"),
    (lambda: LegsState(0.8, 2.0, 990.0, 990.0, 990.0, reference_loss=0.5, reference_gas=0.5),
     r"together are 1 m.*0 to 0\.8 m"),
    (lambda: LegsState(0.8, 0.05, 990.0, 990.0, 990.0, drum_gas=0.1), r"0\.1 m.*0 to 0\.05 m"),
    (lambda: LegsState(-0.8, 2.0, 990.0, 990.0, 990.0), r"weir height is -0\.8 m"),
    (lambda: fluid_difference(0.3, 0.5, 785.0, 23.0, 992.0, 900.0), r"\(900 kg/m3\) is not denser"),
    (lambda: IndicatingFluid("oil", 850.0), r"850 kg/m3; the allowed range is 1000"),
    (lambda: filling_shift(6.0, 5e-5, 5e-5), r"extra filling is 6 m3"),
    (lambda: nearest_fluid(1400.0, 318.15, ()), "0 fluids to choose from"),
    (lambda: make_up_transient(0.1, 5e-5, 1.8e-3, 992.0, 0.0, 1.6e6), "makes nothing up"),
])
def test_impossible_part_is_refused(call, message):
    with pytest.raises(InputError, match=message):
        call()


def test_chamber_makes_up_as_much_as_it_loses_heat_for():
    latent = saturation_heat(6.1e6).latent_heat
    assert condensing_rate(40.0, latent) * latent == pytest.approx(40.0)
    # the default cooling time of an isolated chamber: 40 W from 5.1 kJ/K at 60 bar gauge
    slope = saturation_slopes(6.1e6).temperature
    assert isolated_chamber_time(6e6, 5.1e3, 40.0, slope) == pytest.approx(8600.0, rel=0.05)


def test_table_of_fluids():
    assert len({fluid.name for fluid in FLUIDS}) == len(FLUIDS) >= 5
    for fluid in FLUIDS:
        assert fluid.safety.endswith(".")
        assert fluid_density(fluid, 318.15) > 1005.0
        assert fluid_density(fluid, 318.15) < fluid_density(fluid, 293.15)
        assert nearest_fluid(fluid_density(fluid, 318.15), 318.15) is fluid


def test_drum_contents_heavier_steam_than_water_are_refused():
    with pytest.raises(InputError, match=r"not denser than the steam"):
        two_fluid_reading(replace(two_fluid(), drum=DrumContents(0.3, 6e6, 30.0, 31.0)))


def test_off_scale_low_is_said():
    state = two_fluid(0.0)
    assert two_fluid_reading(replace(state, filling=state.filling - 5e-6)).status == OFF_SCALE_LOW


def test_response_time_by_hand():
    """C = A1 A2 / (A1 + A2) / (difference of density x g), through two open lines in series."""
    state = two_fluid(bores=(0.008, 0.012))
    first, second = pi * 0.008**2 / 4, pi * 0.012**2 / 4
    result = two_fluid_reading(state)
    leg = state.legs.reference_run_density
    give = first * second / (first + second) / ((result.fluid_density - leg) * G)
    assert result.response_time == pytest.approx(give * leg * 2.0 / state.legs.line_conductance)


def test_the_interface_carries_the_column_above_it():
    state = two_fluid(0.2)
    result = two_fluid_reading(state)
    column = state.legs.reference_run_density * G * (-state.legs.depth - result.reference_surface)
    assert result.interface_pressure == pytest.approx(result.reference_pressure + column, rel=1e-12)
    other = (result.drum_side_pressure
             + state.legs.drum_run_density * G * (-state.legs.depth - result.drum_surface)
             + result.fluid_density * G * result.difference)
    assert result.interface_pressure == pytest.approx(other, rel=1e-9)


def test_a_level_counts_as_on_the_scale_up_to_its_very_ends():
    for level, status in ((-2e-6, OFF_SCALE_LOW), (0.0, IN_RANGE), (0.5, IN_RANGE),
                          (0.5 + 2e-6, OFF_SCALE_HIGH), (-1e-9, IN_RANGE), (0.5 + 1e-9, IN_RANGE)):
        assert scale_status(level, 0.5) == status
    assert scale_status(np.array([-0.1, 0.2, 0.6]), 0.5).tolist() == [
        OFF_SCALE_LOW, IN_RANGE, OFF_SCALE_HIGH]


def test_a_fluid_just_as_dense_as_the_water_on_it_carries_nothing():
    state = two_fluid()
    legs = replace(state.legs, reference_run_density=1050.0, drum_run_density=1050.0)
    alike = replace(state, legs=legs, fluid=IndicatingFluid("test fluid", 1050.0))
    with pytest.raises(InputError, match="not denser than the water on it"):
        two_fluid_reading(alike)
