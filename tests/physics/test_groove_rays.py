"""A ray through one ridge, by vectors, against the angles and shares worked out without it."""

from math import acos, degrees, pi

import pytest
from hypothesis import given
from hypothesis import strategies as st

from levelkit.errors import InputError
from levelkit.physics.groove_rays import FLUID, GLASS, groove_ray
from levelkit.physics.optics import critical_angle
from levelkit.physics.reflex_glass import groove_view

STEAM, WATER, SODALIME = 1.0013, 1.297, 1.523


def direction(piece):
    (x1, y1), (x2, y2) = piece.start, piece.end
    length = ((x2 - x1) ** 2 + (y2 - y1) ** 2) ** 0.5
    return (x2 - x1) / length, (y2 - y1) / length


@given(st.floats(1.45, 1.6), st.floats(1.0, 1.35), st.floats(0.0, 0.15))
def test_what_comes_back_is_the_brightness_found_from_the_angles(glass, fluid, side):
    view = groove_view(glass, STEAM, fluid, side)
    assert groove_ray(glass, fluid, 0.5, side)[-1].share == pytest.approx(
        view.water_brightness, rel=1e-6, abs=1e-12)


@given(st.floats(1.45, 1.6), st.floats(1.0, 1.35), st.floats(0.0, 0.15))
def test_light_goes_home_the_way_it_came(glass, fluid, side):
    pieces = groove_ray(glass, fluid, 0.5, side)
    there, back = direction(pieces[0]), direction(pieces[-1])
    assert back == pytest.approx((-there[0], -there[1]), abs=1e-9)


@given(st.floats(1.45, 1.6), st.floats(1.0, 1.35), st.floats(0.0, 1.2), st.floats(0.05, 0.95))
def test_no_light_is_lost_or_made(glass, fluid, side, entry):
    pieces = groove_ray(glass, fluid, entry, side)
    left = sum(piece.share for piece in pieces if piece.place == FLUID)
    assert left + pieces[-1].share == pytest.approx(1.0, abs=1e-12)


def test_steam_reflects_all_and_nothing_leaves():
    pieces = groove_ray(SODALIME, STEAM)
    assert all(piece.share == 1.0 and piece.place != FLUID for piece in pieces)
    inside = [piece for piece in pieces if piece.place == GLASS]
    assert [degrees(piece.incidence) for piece in inside[:2]] == pytest.approx([45.0, 45.0])
    assert pi / 4 > critical_angle(SODALIME, STEAM)


def test_water_takes_the_light_at_56_degrees():
    """sin = 1.523 sin 45 / 1.297 = 0.8303, so cos = 0.5573, by pocket calculator."""
    passed = next(p for p in groove_ray(SODALIME, WATER) if p.place == FLUID)
    x, y = direction(passed)
    square = (-2**-0.5, 2**-0.5)
    cosine = x * square[0] + y * square[1]
    assert cosine == pytest.approx(0.5573, abs=1e-4)
    assert passed.share > 0.95



@pytest.mark.parametrize("values", [{"entry": 1.0}, {"side_angle": 1.3}, {"depth": 0.9},
                                    {"glass_index": 0.9}])
def test_a_value_outside_is_a_sentence(values):
    with pytest.raises(InputError, match="allowed range"):
        groove_ray(**{"glass_index": SODALIME, "fluid_index": STEAM} | values)


@given(st.floats(1.45, 1.6), st.floats(1.1, 1.35), st.floats(0.0, 0.6), st.floats(0.05, 0.95))
def test_what_leaves_a_face_obeys_the_law_of_refraction_there(glass, fluid, side, entry):
    pieces = groove_ray(glass, fluid, entry, side)
    faces = iter(((-1, 1), (1, 1)))  # outward square directions, not of unit length
    for piece, after in zip(pieces[1:], pieces[2:], strict=False):
        if piece.place == GLASS and piece.incidence == piece.incidence:
            square = next(faces)
            inside = direction(piece)
            cosine = (inside[0] * square[0] + inside[1] * square[1]) / 2**0.5
            assert piece.incidence == pytest.approx(acos(min(max(cosine, -1.0), 1.0)), abs=1e-6)
            if after.place == FLUID:
                out = direction(after)
                along = [(ray[0] * square[1] - ray[1] * square[0]) / 2**0.5
                         for ray in (inside, out)]
                assert glass * along[0] == pytest.approx(fluid * along[1], abs=1e-9)
                assert out[0] * square[0] + out[1] * square[1] > 0


def test_light_flatter_than_the_faces_is_refused():
    """Law of refraction by hand: sin 1.2 / sin 45 degrees = 1.318, the least index for 1.2 rad."""
    with pytest.raises(InputError, match="45.* degrees off .* range is 0 to 45 degrees"):
        groove_ray(1.317, 1.0, side_angle=1.2)
    assert len(groove_ray(1.319, 1.0, side_angle=1.2)) >= 5
