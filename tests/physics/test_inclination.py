"""A listed drum keeps its water; what two glasses at its ends show."""

from dataclasses import replace
from math import atan, cos, degrees, radians, sqrt, tan

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from levelkit.errors import InputError
from levelkit.physics.drum_geometry import Drum, level_from_volume, water_volume
from levelkit.physics.drum_outline import HEADS, section_radius
from levelkit.physics.inclination import (
    InclinedDrumState,
    InclinedSurface,
    exposed_length,
    inclined_surface,
    level_at,
    list_between_glasses,
)

DRUM = Drum(0.65, 5.6, axis_height=0.1)


def end_radius(drum, x):
    """Radius of the section at x, from the definition of the heads; not the package's pieces."""
    beyond = abs(x) - drum.length / 2
    if beyond <= 0:
        return drum.radius
    if drum.head in ("ellipsoidal", "hemispherical"):
        flatness = 2 if drum.head == "ellipsoidal" else 1
        return drum.radius * sqrt(max(0.0, 1 - (flatness * beyond / drum.radius) ** 2))
    crown, knuckle = 2 * drum.radius, 0.2 * drum.radius
    centre = -sqrt((crown - knuckle) ** 2 - (drum.radius - knuckle) ** 2)
    if beyond < -knuckle * centre / (crown - knuckle):
        return drum.radius - knuckle + sqrt(knuckle ** 2 - beyond ** 2)
    return sqrt(max(0.0, crown ** 2 - (beyond - centre) ** 2))


def volume_by_adding_up(surface, points=40_001):
    """Water under a surface, sections added by the trapezium rule; corners make it the coarser."""
    drum = surface.drum
    x = np.linspace(-drum.half_length, drum.half_length, points)
    radius = np.array([end_radius(drum, value) for value in x])
    tilt = sqrt(1 + surface.slope_across ** 2)
    height = (surface.mid_level - drum.axis_height + surface.slope_along * x) / tilt
    line = np.clip(np.divide(height, radius, out=np.sign(height), where=radius > 0), -1, 1)
    area = radius ** 2 * (np.arccos(-line) + line * np.sqrt(1 - line ** 2))
    return float(np.trapezoid(area, x))


@pytest.mark.parametrize("head", HEADS)
def test_the_outline_that_is_drawn_is_that_of_the_definition(head):
    drum = replace(DRUM, head=head)
    places = np.linspace(-drum.half_length, drum.half_length, 201)
    assert section_radius(drum, places) == pytest.approx(
        np.array([end_radius(drum, x) for x in places]), abs=1e-7)
    assert section_radius(drum, 0.0) == 0.65
    with pytest.raises(InputError, match="from mid-length"):
        section_radius(drum, drum.half_length + 0.01)


def test_many_lists_at_once_are_the_same_as_one_by_one():
    volume = water_volume(DRUM, -0.1)
    lists = np.radians([-20.0, -3.0, 0.0, 8.0, 15.0])
    together = inclined_surface(InclinedDrumState(DRUM, volume, lists, 0.02))
    for i, angle in enumerate(lists):
        alone = inclined_surface(InclinedDrumState(DRUM, volume, float(angle), 0.02))
        for name in ("mid_level", "exposed_bottom", "flooded_crown"):
            assert getattr(together, name)[i] == pytest.approx(getattr(alone, name), abs=1e-9)
    assert exposed_length(together, -0.2)[3] == pytest.approx(
        2.8 - (together.mid_level[3] + 0.2) / tan(lists[3]), abs=1e-9)


angles = st.floats(radians(-80), radians(80))


@settings(deadline=None)
@given(st.sampled_from(HEADS), st.floats(0.001, 0.999),
       angles, angles, st.sampled_from(["athwartships", "fore and aft"]))
def test_volume_is_kept_under_any_list_and_trim(head, share, list_angle, trim_angle, lies):
    drum = replace(DRUM, head=head)
    volume = share * drum.volume
    surface = inclined_surface(InclinedDrumState(drum, volume, list_angle, trim_angle, lies))
    found = water_volume(drum, surface.mid_level, surface.slope_along, surface.slope_across)
    assert found == pytest.approx(volume, rel=1e-9)


@settings(max_examples=15, deadline=None)
@given(st.sampled_from(HEADS[1:]), st.floats(0.05, 0.95), angles, angles)
def test_the_kept_volume_is_the_right_one(head, share, list_angle, trim_angle):
    drum = replace(DRUM, head=head)
    volume = share * drum.volume
    surface = inclined_surface(InclinedDrumState(drum, volume, list_angle, trim_angle))
    assert volume_by_adding_up(surface) == pytest.approx(volume, rel=2e-5)


@settings(deadline=None)
@given(st.floats(-0.5, 0.7), st.floats(radians(-60), radians(60)))
def test_mean_of_two_end_glasses_is_the_level_at_mid_drum(level, list_angle):
    surface = inclined_surface(InclinedDrumState(DRUM, water_volume(DRUM, level), list_angle))
    ends = level_at(surface, np.array([2.6, -2.6]))
    assert ends.mean() == pytest.approx(surface.mid_level, abs=1e-12)
    assert list_between_glasses(*np.clip(ends, -5, 5), 5.2) == pytest.approx(
        list_angle, abs=1e-12) or np.any(np.abs(ends) > 5)


@settings(deadline=None)
@given(st.floats(radians(-85), radians(85)))
def test_on_the_centre_line_mid_level_is_the_upright_level_at_any_list(list_angle):
    half_full = InclinedDrumState(DRUM, DRUM.volume / 2, list_angle)
    assert inclined_surface(half_full).mid_level == pytest.approx(0.1, abs=1e-9)


@pytest.mark.parametrize("degrees_of_list, exposed", [(2.0, False), (5.0, False), (12.0, True)])
def test_off_the_centre_line_mid_level_moves_little_until_an_end_is_exposed(
        degrees_of_list, exposed):
    upright, offset = -0.15, -0.25  # 250 mm below the centre line
    slope = tan(radians(degrees_of_list))
    surface = inclined_surface(InclinedDrumState(
        DRUM, water_volume(DRUM, upright), radians(degrees_of_list)))
    moved = surface.mid_level - upright
    # second order of the chord's taper: V(c, s) = A(c) L + A''(c) s^2 L^3 / 24
    expected = offset * slope ** 2 * 5.6 ** 2 / 24 / (0.65 ** 2 - offset ** 2)
    assert (surface.exposed_bottom > 0) == exposed
    if exposed:
        assert moved < 1.5 * expected < 0
    else:
        assert moved == pytest.approx(expected, rel=0.15)
        assert abs(moved) < 0.009


def test_a_listed_fore_and_aft_drum_is_a_cylinder_turned_about_its_axis():
    level = -0.15
    surface = inclined_surface(InclinedDrumState(
        DRUM, water_volume(DRUM, level), radians(15.0), 0.0, "fore and aft"))
    assert surface.slope_along == 0.0
    assert surface.mid_level - 0.1 == pytest.approx((level - 0.1) / cos(radians(15.0)), abs=1e-9)


def test_a_nearly_upended_drum_holds_its_water_at_one_end():
    surface = inclined_surface(InclinedDrumState(DRUM, DRUM.volume / 4, radians(88.0)))
    dry_to = exposed_length(surface, 0.1)  # along the axis
    assert dry_to == pytest.approx(5.6 * 3 / 4, abs=1e-6)


def test_signs_list_to_port_raises_the_port_end_and_stern_trim_the_after_side():
    volume = water_volume(DRUM, 0.15)
    surface = inclined_surface(InclinedDrumState(DRUM, volume, radians(5.0), radians(1.0)))
    assert level_at(surface, 2.0) > level_at(surface, -2.0)
    assert level_at(surface, 0.0, 0.5) > level_at(surface, 0.0, -0.5)
    turned = inclined_surface(InclinedDrumState(
        DRUM, volume, radians(5.0), radians(1.0), "fore and aft"))
    assert turned.slope_along == surface.slope_across


def test_tube_row_uncovers_before_the_bottom():
    surface = inclined_surface(InclinedDrumState(
        DRUM, water_volume(DRUM, -0.2), radians(10.0)))
    assert exposed_length(surface, -0.35) > exposed_length(surface, -0.55)
    assert exposed_length(surface, -0.55) == pytest.approx(surface.exposed_bottom)
    by_hand = 2.8 - (surface.mid_level + 0.35) / tan(radians(10.0))
    assert exposed_length(surface, -0.35) == pytest.approx(by_hand, abs=1e-9)
    flooded = inclined_surface(InclinedDrumState(DRUM, 0.9 * DRUM.volume, radians(20.0)))
    assert flooded.flooded_crown > 0 and flooded.exposed_bottom == 0


def test_upright_is_the_limit_of_no_list():
    volume = water_volume(DRUM, 0.33)
    upright = inclined_surface(InclinedDrumState(DRUM, volume))
    assert upright.mid_level == pytest.approx(level_from_volume(DRUM, volume), abs=1e-9)
    hardly = inclined_surface(InclinedDrumState(DRUM, volume, 1e-12, -1e-12))
    assert hardly.mid_level == pytest.approx(upright.mid_level, abs=1e-9)


def test_list_between_glasses_takes_the_whole_distance():
    assert degrees(list_between_glasses(0.25, 0.15, 1.0)) == pytest.approx(degrees(atan(0.1)))


@pytest.mark.parametrize("call, words", [
    (lambda: inclined_surface(InclinedDrumState(DRUM, 3.0, 15.0)), "15 degrees is 0.2618"),
    (lambda: inclined_surface(InclinedDrumState(DRUM, 30.0)), "cannot hold more"),
    (lambda: inclined_surface(InclinedDrumState(DRUM, 3.0, lies="across")), "athwartships"),
    (lambda: list_between_glasses(214.0, 146.0, 5.2), "214 mm is 0.214"),
])
def test_unusable_values_say_what_to_do(call, words):
    with pytest.raises(InputError, match=words):
        call()


def test_along_a_level_drum_a_row_of_tubes_is_wet_or_dry_as_a_whole():
    even = InclinedSurface(Drum(0.65, 5.6), 0.1, 0.0, 0.0, 0.0, 0.0)
    assert exposed_length(even, 0.2) == 5.6
    assert exposed_length(even, 0.05) == 0.0
    assert exposed_length(even, 0.1) == 0.0  # just awash is wet
    trimmed = InclinedSurface(Drum(0.65, 5.6), 0.1, 0.1, 0.0, 0.0, 0.0)
    assert exposed_length(trimmed, 0.1) == pytest.approx(2.8)  # the plane crosses at mid-drum
    assert exposed_length(trimmed, 0.3) == pytest.approx(2.8 + 2.0)
    assert exposed_length(trimmed, 5.0) == 5.6 and exposed_length(trimmed, -5.0) == 0.0


@pytest.mark.parametrize("across, level, dry", [(0.5, 0.15, 3.55), (-0.5, 0.05, 4.05)])
def test_a_row_beside_the_middle_meets_the_level_on_its_own_side(across, level, dry):
    """By hand: 2.8 m to mid-drum, then (0.3 - level) / 0.2 beyond it."""
    surface = InclinedSurface(Drum(0.65, 5.6), 0.1, 0.2, 0.1, 0.0, 0.0)
    assert level_at(surface, 0.0, across) == pytest.approx(level)
    assert exposed_length(surface, 0.3, across) == pytest.approx(dry)
