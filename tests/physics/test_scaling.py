"""The same instrument built larger, or filled with heavier fluids, has to read to scale.

Nothing here is computed with a second formula: both sides come from levelkit, once at the given
sizes and once with lengths, densities or times in another unit. A number that was typed into a
formula without its unit breaks these laws.
"""

from math import sqrt

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from levelkit.physics import motion, relief_formulas
from levelkit.physics.ball_check import ball_lift_velocity
from levelkit.physics.circulation import CirculationState, circulating_glass
from levelkit.physics.cock_times import (
    choked_height,
    narrow_water_way_time,
    pocket_time_constant,
)
from levelkit.physics.columns import Column, path_difference
from levelkit.physics.differential import level_of_differential, reference_differential
from levelkit.physics.drum_geometry import Drum, surface_area, water_volume
from levelkit.physics.fluid_balance import fluid_difference
from levelkit.physics.glass import drum_level, glass_column_height
from levelkit.physics.heat_loss import stem_heat_rate, stream_temperature
from levelkit.physics.meniscus import bore_meniscus, capillary_length, wall_rise
from levelkit.physics.optics import critical_angle, reflectance
from levelkit.physics.passages import passage_drop, passage_flow
from levelkit.physics.protection import time_to_level
from levelkit.physics.swell_estimates import bubble_expansion_rise
from levelkit.physics.two_fluid_design import fluid_density_for_scale
from levelkit.physics.u_tube import UTube, fluid_surfaces
from levelkit.physics.voting import ARCHITECTURES, failure_on_demand, spurious_trip_rate

longer = st.floats(0.5, 2.0)      # factor of every length
heavier = st.floats(0.7, 1.05)    # factor of every density
fuller = st.floats(0.05, 0.95)    # level over the height that can be seen
DENSITIES = (756.1, 31.4, 950.0)  # drum water, steam, cold column


def near(value, rel=1e-9):
    return pytest.approx(value, rel=rel, abs=1e-12)


def times(factor, densities):
    return tuple(factor * density for density in densities)


@given(longer, heavier, st.lists(st.tuples(st.floats(1, 1500), st.floats(-1, 1), st.floats(-1, 1)),
                                 min_size=1, max_size=5))
def test_pressure_of_columns_goes_with_length_and_density(k, c, columns):
    def head(k, c):
        return path_difference([Column(c * rho, k * low, k * high) for rho, low, high in columns],
                               [])

    assert head(k, c) == near(k * c * head(1.0, 1.0))


@given(longer, heavier, fuller)
def test_glass_reads_to_scale_whatever_the_unit_of_density(k, c, level):
    shown = glass_column_height(level, *DENSITIES)
    assert glass_column_height(k * level, *times(c, DENSITIES)) == near(k * shown)
    assert drum_level(k * shown, *times(c, DENSITIES)) == near(k * level)


@settings(max_examples=40, deadline=None)
@given(st.floats(0.7, 1.4), fuller)
def test_circulating_glass_reads_to_scale(k, share):
    """Twice the glass condenses twice as much: warmth and error stay the same share of it."""
    def shown(k):
        return circulating_glass(
            CirculationState(k * share * 0.5, 756.1, 31.4, 549.8, 313.15, 1564e3, 5226.0, k * 0.5,
                             k * 0.1), lambda t: 1010.0 - 0.8 * (t - 273.15))

    assert shown(k).indicated_level == near(k * shown(1.0).indicated_level, 1e-6)
    assert shown(k).mean_temperature == near(shown(1.0).mean_temperature, 1e-7)


@given(longer, heavier, fuller)
def test_differential_and_its_level(k, c, level):
    weir = 0.8
    pressure = reference_differential(level * weir, weir, *DENSITIES)
    assert reference_differential(k * level * weir, k * weir, *times(c, DENSITIES)) == near(
        k * c * pressure)
    assert level_of_differential(k * c * pressure, k * weir, *times(c, DENSITIES)) == near(
        k * level * weir)


@given(longer, heavier, fuller)
def test_two_fluid_difference_knows_only_ratios_of_density(k, c, level):
    difference = fluid_difference(level * 0.8, 0.8, *DENSITIES, 1400.0)
    assert fluid_difference(k * level * 0.8, k * 0.8, *times(c, DENSITIES), c * 1400.0) == near(
        k * difference)


@given(heavier, st.floats(0.3, 1.0), st.floats(0.1, 0.9))
def test_fluid_for_a_scale_goes_with_the_densities(c, ratio, share):
    assert fluid_density_for_scale(ratio, *times(c, DENSITIES), share) == near(
        c * fluid_density_for_scale(ratio, *DENSITIES, share))


@given(longer, st.floats(-0.5, 0.5))
def test_surfaces_in_a_u_tube_of_another_size(k, difference):
    """Bores and lengths by one factor, the fluid by its cube."""
    one, other = (fluid_surfaces(s * difference, s**3 * 7e-5,
                                 UTube(s * 0.012, s * 0.008, s * 5.0, s * 1.6)) for s in (1.0, k))
    assert other.reference == near(k * one.reference)
    assert other.drum_side == near(k * one.drum_side)


@given(longer, st.floats(-0.9, 0.9), st.sampled_from(["flat", "torispherical"]))
def test_drum_holds_by_the_cube_and_shows_by_the_square(k, level, head):
    small, large = Drum(0.65, 4.0, 0.0, head), Drum(k * 0.65, k * 4.0, 0.0, head)
    assert water_volume(large, k * 0.65 * level) == near(k**3 * water_volume(small, 0.65 * level))
    assert surface_area(large, k * 0.65 * level) == near(k**2 * surface_area(small, 0.65 * level))


@given(longer, heavier)
def test_time_to_a_level(k, c):
    small, large = Drum(0.65, 4.0), Drum(k * 0.65, k * 4.0)
    assert time_to_level(large, 0.0, -k * 0.3, c * 756.1, c * 31.4, 5.0) == near(
        c * k**3 * time_to_level(small, 0.0, -0.3, 756.1, 31.4, 5.0))


@given(longer)
def test_slosh_is_slower_by_the_root_of_the_size(k):
    assert motion.slosh_period(k * 5.4, k * 0.6) == near(sqrt(k) * motion.slosh_period(5.4, 0.6))
    assert motion.slosh_period(5.4, 0.6, 9.8 * k) == near(
        motion.slosh_period(5.4, 0.6, 9.8) / sqrt(k))


@given(longer, st.floats(-0.3, 0.3))
def test_roll_counts_height_against_the_square_of_the_period(k, roll):
    assert motion.apparent_list(roll, sqrt(k) * 9.0, k * 6.0) == near(
        motion.apparent_list(roll, 9.0, 6.0))


@given(heavier, longer, st.floats(1e3, 5e6))
def test_orifices(c, k, fall):
    flux = relief_formulas.orifice_flux(900.0, fall)
    assert relief_formulas.orifice_flux(c * 900.0, k * fall) == near(sqrt(c * k) * flux)
    assert passage_flow(k * 28e-6, c * 900.0, fall) == near(
        k * sqrt(c) * passage_flow(28e-6, 900.0, fall))
    assert passage_drop(k * 0.01, k * 28e-6, 900.0) == near(passage_drop(0.01, 28e-6, 900.0))


@given(longer, heavier)
def test_ball_and_cock_times(k, c):
    assert ball_lift_velocity(k * 0.012, c * 897.0, c * 7800.0) == near(
        sqrt(k) * ball_lift_velocity(0.012, 897.0, 7800.0))
    assert narrow_water_way_time(k**2 * 1e-4, k**2 * 3e-6, k * 0.1) == near(
        sqrt(k) * narrow_water_way_time(1e-4, 3e-6, 0.1))
    assert pocket_time_constant(k * 1e-4, 2e6, c * 4.2, k * 0.9, 100.0) == near(
        c * pocket_time_constant(1e-4, 2e6, 4.2, 0.9, 100.0))


@given(longer, st.floats(0.1, 600.0))
def test_choked_glass_knows_only_time_over_its_constant(k, time):
    assert choked_height(k * time, 0.2, 0.4, k * 90.0) == near(choked_height(time, 0.2, 0.4, 90.0))


@settings(max_examples=20, deadline=None)
@given(longer, heavier)
def test_capillary_heights(k, c):
    assert capillary_length(k * k * c * 0.02, c * 900.0) == near(k * capillary_length(0.02, 900.0))
    assert wall_rise(k * k * c * 0.02, c * 900.0, 0.3) == near(k * wall_rise(0.02, 900.0, 0.3))
    assert bore_meniscus(k * 0.004, k * k * c * 0.02, c * 900.0).middle_rise == near(
        k * bore_meniscus(0.004, 0.02, 900.0).middle_rise, 1e-5)


@given(st.floats(0.8, 1.2), st.floats(0.0, 1.5))
def test_light_knows_only_the_ratio_of_indices(k, angle):
    assert critical_angle(k * 1.8, k * 1.3) == near(critical_angle(1.8, 1.3))
    assert reflectance(angle, k * 1.3, k * 1.8).unpolarised == near(
        reflectance(angle, 1.3, 1.8).unpolarised)


@given(longer, heavier)
def test_heat_of_stems_and_streams(k, c):
    """A stem k times the size in a film k times thinner: the heat goes with the size."""
    assert stem_heat_rate(k * 0.2, 10.0 / k, k * 0.01, 50.0, 80.0) == near(
        k * stem_heat_rate(0.2, 10.0, 0.01, 50.0, 80.0))
    assert stream_temperature(k * 1.0, 450.0, 310.0, c * 0.6 / k, c * 5e-4, 4400.0) == near(
        stream_temperature(1.0, 450.0, 310.0, 0.6, 5e-4, 4400.0))
    assert bubble_expansion_rise(k**3 * 0.4, c * 31.4, c * 29.2, k**2 * 7.3) == near(
        k * bubble_expansion_rise(0.4, 31.4, 29.2, 7.3))


@given(longer, st.sampled_from(list(ARCHITECTURES)))
def test_failures_know_only_rate_times_time(k, architecture):
    rate, year = 1e-9, 3e7
    assert failure_on_demand(architecture, k * rate, year / k, 0.05) == near(
        failure_on_demand(architecture, rate, year, 0.05))
    assert spurious_trip_rate(architecture, k * rate, 9e4 / k) == near(
        k * spurious_trip_rate(architecture, rate, 9e4))


def test_a_number_without_its_unit_would_be_found():
    """A formula with 31.4 kg/m3 typed into it passes no change of the unit of density."""
    def careless(level, water, glass):
        return level * (water - 31.4) / (glass - 31.4)

    assert careless(0.2, 0.8 * 756.1, 0.8 * 950.0) != near(careless(0.2, 756.1, 950.0))
