"""The drum's volume against closed forms that the package does not use."""

from dataclasses import replace
from math import acos, pi, sqrt

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from levelkit.errors import InputError
from levelkit.physics.drum_geometry import (
    Drum,
    level_for,
    level_from_volume,
    surface_area,
    water_volume,
)
from levelkit.physics.drum_outline import sum_over_sections

FLAT = Drum(0.65, 5.6)
HEADS = ("flat", "ellipsoidal", "hemispherical", "torispherical")


def wedge(drum, level, slope):
    """Water in a flat-ended cylinder below a tilted plane: the primitive of the segment area."""
    def primitive(line):
        inside = np.clip(line, -1, 1)
        value = (inside * np.arccos(-inside) + np.sqrt(1 - inside ** 2)
                 - (1 - inside ** 2) ** 1.5 / 3)
        return np.where(line > 1, pi * line, value)

    height, half = level - drum.axis_height, drum.length / 2
    ends = (height + slope * half) / drum.radius, (height - slope * half) / drum.radius
    return drum.radius ** 3 * float(primitive(ends[0]) - primitive(ends[1])) / slope


@settings(deadline=None)
@given(st.floats(-0.64, 0.64), st.floats(0.01, 30.0))
def test_tilted_cylinder_equals_the_closed_form_of_a_wedge(level, slope):
    assert water_volume(FLAT, level, slope) == pytest.approx(wedge(FLAT, level, slope), rel=1e-9,
                                                            abs=1e-12)


@settings(deadline=None)
@given(st.floats(-0.6, 0.6), st.floats(-5.0, 5.0))
def test_tilting_across_the_axis_only_turns_the_cylinder(level, slope):
    upright = water_volume(FLAT, level)
    turned = level * sqrt(1 + slope ** 2)
    assert water_volume(FLAT, turned, 0.0, slope) == pytest.approx(upright, rel=1e-12)


@pytest.mark.parametrize("level", [-0.6, -0.3, 0.0, 0.2, 0.64])
def test_ellipsoidal_ends_equal_the_segment_of_a_spheroid(level):
    drum = replace(FLAT, head="ellipsoidal")
    depth = level + drum.radius
    spheroid = 0.5 * pi * depth ** 2 * (3 * drum.radius - depth) / 3
    ends = water_volume(drum, level) - water_volume(FLAT, level)
    assert ends == pytest.approx(spheroid, rel=1e-9)


def test_ellipsoidal_end_holds_pi_over_24_of_the_cubed_diameter():
    drum = replace(FLAT, head="ellipsoidal")
    assert (drum.volume - FLAT.volume) / 2 == pytest.approx(pi / 24 * 1.3 ** 3, rel=1e-12)
    assert drum.half_length == pytest.approx(2.8 + 1.3 / 4)


@pytest.mark.parametrize("level", [-0.6, -0.1, 0.0, 0.35])
def test_two_hemispherical_ends_are_a_sphere(level):
    drum, depth = replace(FLAT, head="hemispherical"), level + 0.65
    ends = water_volume(drum, level) - water_volume(FLAT, level)
    assert ends == pytest.approx(pi * depth ** 2 * (3 * 0.65 - depth) / 3, rel=1e-9)
    assert drum.half_length == pytest.approx(2.8 + 0.65)


def test_torispherical_end_from_DIN_28011_as_remembered():
    drum = replace(FLAT, head="torispherical")
    assert (drum.half_length - 2.8) / 1.3 == pytest.approx(0.1935, abs=5e-4)
    assert (drum.volume - FLAT.volume) / 2 / 1.3 ** 3 == pytest.approx(0.1, rel=0.015)


@pytest.mark.parametrize("head", HEADS)
@pytest.mark.parametrize("level", [-0.5, 0.05, 0.5])
def test_surface_is_the_slope_of_the_volume(head, level):
    drum = Drum(0.65, 5.6, 0.1, head)
    step = 1e-5
    slope = (water_volume(drum, level + step) - water_volume(drum, level - step)) / (2 * step)
    assert surface_area(drum, level) == pytest.approx(slope, rel=1e-7)


@settings(deadline=None)
@given(st.sampled_from(HEADS), st.floats(0.0, 1.0), st.floats(-0.6, 0.6))
def test_level_from_volume_undoes_the_volume(head, share, axis_height):
    drum = Drum(0.65, 5.6, axis_height, head)
    level = axis_height + (2 * share - 1) * drum.radius
    volume = water_volume(drum, level)
    assert water_volume(drum, level_from_volume(drum, volume)) == pytest.approx(
        volume, rel=1e-9, abs=1e-12)
    if 0.02 < share < 0.98:
        assert level_from_volume(drum, volume) == pytest.approx(level, abs=1e-9)


@settings(deadline=None)
@given(st.floats(0.1, 2.0), st.floats(0.1, 20.0), st.sampled_from(HEADS), st.floats(-2.0, 2.0))
def test_a_full_and_an_empty_drum_have_a_level_too(radius, length, head, slope):
    drum = Drum(radius, length, 0.0, head)
    for volume in (0.0, drum.volume):
        level = level_for(drum, volume, slope)
        assert water_volume(drum, level, slope) == pytest.approx(volume, rel=1e-9, abs=1e-12)


def test_arrays_keep_their_shape_and_agree_with_numbers():
    levels = np.array([[-0.7, -0.2], [0.3, 0.7]])
    volumes = water_volume(FLAT, levels)
    assert volumes.shape == (2, 2)
    assert volumes[0, 0] == 0.0 and volumes[1, 1] == pytest.approx(FLAT.volume)
    assert volumes[0, 1] == water_volume(FLAT, -0.2)
    middle = np.array([0.1, 0.2])
    assert level_from_volume(FLAT, water_volume(FLAT, middle)) == pytest.approx(middle)


def test_several_quantities_of_a_section_are_summed_at_once():
    def area(radius, line):
        return np.pi * radius ** 2 + line

    def width(radius, line):
        return radius * line

    heights = np.array([-0.3, 0.0, 0.2])
    both = sum_over_sections(FLAT, heights, 0.1, lambda *at: np.stack([area(*at), width(*at)]))
    for found, alone in zip(both, (area, width), strict=True):
        assert found == pytest.approx(sum_over_sections(FLAT, heights, 0.1, alone), rel=1e-12)


@pytest.mark.parametrize("head", HEADS)
def test_planes_of_an_array_are_found_together_as_one_by_one(head):
    drum = Drum(0.65, 5.6, 0.1, head)
    slopes = np.linspace(-0.6, 0.6, 25)
    volumes = np.array([[0.3], [0.5], [0.9]]) * drum.volume
    found = level_for(drum, volumes, slopes, 0.2)
    assert found.shape == (3, 25)
    assert water_volume(drum, found, slopes, 0.2) == pytest.approx(
        np.broadcast_to(volumes, found.shape), rel=1e-9)
    assert found[1, 3] == pytest.approx(level_for(drum, drum.volume / 2, slopes[3], 0.2))


def test_equal_millimetres_are_not_equal_volumes():
    hand = 0.65 ** 2 * acos(0.5 / 0.65) - 0.5 * sqrt(0.65 ** 2 - 0.5 ** 2)  # segment below -0.5
    assert water_volume(FLAT, -0.5) == pytest.approx(5.6 * hand, rel=1e-12)
    middle = water_volume(FLAT, 0.075) - water_volume(FLAT, -0.075)
    assert middle > 2 * water_volume(FLAT, -0.5)


@pytest.mark.parametrize("call, words", [
    (lambda: Drum(650.0, 5.6), "0.05 to 5 m"),
    (lambda: Drum(0.65, 5.6, 0.7), "within one radius"),
    (lambda: Drum(0.65, 5.6, 0.0, "round"), "flat, ellipsoidal, hemispherical, torispherical"),
    (lambda: water_volume(FLAT, 250.0), "250 mm is 0.25"),
    (lambda: water_volume(FLAT, float("nan")), "nan"),
    (lambda: surface_area(FLAT, 0.66), "-0.65 to 0.65 m"),
    (lambda: level_from_volume(FLAT, 8.0), "cannot hold more"),
    (lambda: level_for(FLAT, 3.0, slope_along=90.0), "-60 to 60"),
])
def test_unusable_values_say_what_to_do(call, words):
    with pytest.raises(InputError, match=words):
        call()
