"""What the eye sees: total reflection, the tube as a lens, the curved edge of the water."""

from math import asin, atan2, cos, pi, radians, sin, sqrt, tan

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from levelkit.errors import InputError
from levelkit.physics import optics
from levelkit.physics.meniscus import bore_meniscus, capillary_length, wall_rise
from levelkit.physics.optics import BOROSILICATE, SODALIME
from levelkit.physics.reflex_glass import groove_view
from levelkit.physics.tubular_lens import TubularGlass, lens_rays, lens_view
from levelkit.properties import refractive_index, saturation_at_pressure, surface_tension

indices = st.floats(1.0, 2.0)
angles = st.floats(0.0, pi / 2)


def drum_indices(bar):
    """Indices of saturated steam and water at an absolute pressure."""
    state = saturation_at_pressure(np.asarray(bar) * 1e5)
    return (refractive_index(state.steam_density, state.temperature),
            refractive_index(state.water_density, state.temperature))


@pytest.mark.parametrize("glass", [SODALIME, BOROSILICATE])
def test_steam_reflects_all_and_water_next_to_nothing_from_1_to_100_bar(glass):
    steam, water = drum_indices(np.linspace(1.0, 101.0, 41))
    view = groove_view(optics.glass_refractive_index(glass), steam, water)
    assert np.all(view.critical_angle_steam < pi / 4)
    assert np.all(view.critical_angle_water > pi / 4 + radians(5))
    assert np.all(view.steam_brightness == 1.0)
    assert np.all(view.water_brightness < 0.005)
    assert np.all(view.contrast == "clear") and np.all(view.ratio > 20)


def test_the_groove_loses_steam_where_glass_bends_less_than_root_two_times_steam():
    """Borosilicate glass near 180 bar: computed pressure against the plain condition."""
    glass = optics.glass_refractive_index(BOROSILICATE)
    bars = np.arange(100.0, 199.0, 1.0)
    steam, water = drum_indices(bars)
    view = groove_view(glass, steam, water)
    dims = bars[view.steam_brightness < 1.0][0]
    assert dims == bars[glass < sqrt(2) * steam][0] > 160
    assert dims < bars[view.contrast != "clear"][0] < dims + 10  # and is soon too dark to use
    assert groove_view(glass, *drum_indices(195.0)).contrast == (
        "fails: steam part no longer reflects")


def test_contrast_fails_behind_dirt_and_before_a_fluid_thin_as_steam():
    steam, water = drum_indices(8.0)
    ratios = [groove_view(1.523, steam, water, veil=veil).ratio for veil in (0, 0.1, 0.3, 0.5, 1)]
    assert ratios == sorted(ratios, reverse=True) and ratios[-1] == pytest.approx(1.0)
    assert groove_view(1.523, steam, water, veil=0.5).contrast == (
        "fails: glare hides the difference")
    assert groove_view(1.523, steam, 1.01).contrast == "fails: water reflects as steam does"


def test_ratio_of_two_known_reflectances_behind_a_veil():
    """No total reflection in this one: every number differs from 1 and counts."""
    view = groove_view(1.5, 1.2, 1.4, veil=0.2)
    bright, dark = (optics.reflectance(pi / 4, 1.5, n) for n in (1.2, 1.4))
    shares = [(r.crosswise ** 2 + r.in_plane ** 2) / 2 for r in (bright, dark)]
    glare = ((1.5 - 1) / (1.5 + 1)) ** 2 + 0.2
    assert view.ratio == pytest.approx((0.8 * shares[0] + glare) / (0.8 * shares[1] + glare))


def share_back(incidence, near, far):
    """Both reflectances by the sine and tangent formulas, which need no cosines of indices."""
    beyond = asin(near / far * sin(incidence))
    less, more = incidence - beyond, incidence + beyond
    return (sin(less) / sin(more)) ** 2, (tan(less) / tan(more)) ** 2


@pytest.mark.parametrize("side", [0.2, 0.4])
def test_seen_from_the_side_the_front_glares_as_air_on_glass(side):
    view = groove_view(1.5, 1.4, 1.3, side_angle=side)
    inside = asin(sin(side) / 1.5)
    glare = sum(share_back(side, 1.0, 1.5)) / 2
    bright, dark = (
        sum(one * two for one, two in zip(share_back(pi / 4 + inside, 1.5, fluid),
                                          share_back(pi / 4 - inside, 1.5, fluid),
                                          strict=True)) / 2 for fluid in (1.4, 1.3))
    assert view.ratio == pytest.approx((bright + glare) / (dark + glare), rel=1e-9)


@pytest.mark.parametrize("glass", [SODALIME, BOROSILICATE])
def test_the_side_view_limit_is_where_total_reflection_ends(glass):
    index = optics.glass_refractive_index(glass)
    steam, water = drum_indices(8.0)
    limit = groove_view(index, steam, water).side_view_limit
    inside, outside = (groove_view(index, steam, water, limit + step).steam_brightness
                       for step in (-1e-4, 0.02))
    assert inside == 1.0 and outside < 0.9
    # second route: a ray traced from the eye meets the near face at the critical angle
    assert sin(limit) == pytest.approx(index * sin(pi / 4 - asin(steam / index)), rel=1e-9)


@given(angles, indices, indices)
def test_reflectance_is_a_share_and_the_same_from_both_sides(angle, near, far):
    found = optics.reflectance(angle, near, far)
    for share in (found.crosswise, found.in_plane, found.unpolarised):
        assert 0.0 <= share <= 1.0
    beyond = optics.refraction_angle(angle, near, far)
    if not np.isnan(beyond) and beyond < pi / 2 - 1e-3 and angle < pi / 2 - 1e-3:
        back = optics.reflectance(beyond, far, near)
        assert back.unpolarised == pytest.approx(found.unpolarised, abs=1e-9)
        assert optics.refraction_angle(beyond, far, near) == pytest.approx(angle, abs=1e-6)


@given(indices, indices)
def test_at_45_degrees_one_reflectance_is_the_square_of_the_other(near, far):
    found = optics.reflectance(pi / 4, near, far)
    assert found.in_plane == pytest.approx(found.crosswise ** 2, abs=1e-9)


def test_a_boundary_of_equal_indices_is_not_there_and_grazing_light_is_all_reflected():
    assert optics.reflectance(0.7, 1.4, 1.4).unpolarised == pytest.approx(0.0, abs=1e-15)
    assert optics.reflectance(pi / 2, 1.0, 1.5).unpolarised == pytest.approx(1.0)
    assert np.isnan(optics.critical_angle(1.0, 1.5))


TUBE = TubularGlass(0.006, 0.009, 1.473, 0.030)


def traced(offset, fill):
    """Plate offset of a ray by plain vectors: meet each circle, bend, go on."""
    x, y, dx, dy = 1.0, offset, -1.0, 0.0
    for radius, before, behind, inwards in ((0.009, 1.0, 1.473, True), (0.006, 1.473, fill, True),
                                            (0.006, fill, 1.473, False),
                                            (0.009, 1.473, 1.0, False)):
        along = -(x * dx + y * dy)
        reach = sqrt(radius**2 - (x + along * dx) ** 2 - (y + along * dy) ** 2)
        run = along - reach if inwards else along + reach
        x, y = x + run * dx, y + run * dy
        outward = atan2(y, x)
        normal = outward + pi if inwards else outward
        incidence = atan2(dy, dx) - normal
        incidence = atan2(sin(incidence), cos(incidence))
        direction = normal + asin(before / behind * sin(incidence))
        dx, dy = cos(direction), sin(direction)
    return y + (-0.030 - x) * dy / dx


@pytest.mark.parametrize("fill", [1.0016, 1.294, 1.333])
@pytest.mark.parametrize("offset", [-0.003, 0.0007, 0.0025])
def test_a_ray_lands_where_plain_vectors_put_it(fill, offset):
    assert lens_rays(TUBE, fill, offset).plate_offset[0] == pytest.approx(traced(offset, fill),
                                                                          abs=1e-9)


def test_near_the_middle_rays_follow_the_magnification():
    for fill in (1.0, 1.294):
        near = lens_rays(TUBE, fill, 1e-6).plate_offset[0] / 1e-6
        assert near == pytest.approx(lens_view(TUBE, fill).magnification, rel=1e-5)


def test_stripes_lean_the_other_way_behind_water_only():
    for bar in (1.0, 8.0, 18.0):
        steam, water = drum_indices(bar)
        assert lens_view(TUBE, water).reversed and not lens_view(TUBE, steam).reversed


def test_a_plate_close_to_the_tube_does_not_reverse_and_hot_water_asks_for_more_room():
    steam, cold = drum_indices(8.0)[0], 1.333
    close = TubularGlass(0.006, 0.009, 1.473, 0.012)
    assert not lens_view(close, cold).reversed
    assert lens_view(TUBE, drum_indices(18.0)[1]).focal_length > lens_view(TUBE, cold).focal_length
    assert lens_view(TUBE, steam).focal_length < 0  # an empty tube spreads light


def test_a_solid_rod_of_water_has_the_focal_length_of_a_ball_lens():
    """A wall of the index of air: f = n R / (2 (n - 1))."""
    rod = TubularGlass(0.006, 0.0060061, 1.3, 0.03)
    assert lens_view(rod, 1.333).focal_length == pytest.approx(1.333 * 0.006 / (2 * 0.333),
                                                               rel=2e-3)


def test_rays_go_through_wall_or_bore_and_their_points_make_a_drawing():
    rays = lens_rays(TUBE, 1.0016, np.linspace(-0.0089, 0.0089, 9))
    assert rays.points.shape == (9, 6, 2)
    assert set(rays.path) == {"through the bore", "through the wall", "thrown back by the bore"}
    radius = np.hypot(rays.points[:, 1, 0], rays.points[:, 1, 1])
    assert radius == pytest.approx(np.full(9, 0.009))
    inner = np.hypot(rays.points[:, 2, 0], rays.points[:, 2, 1])[rays.path == "through the bore"]
    assert inner == pytest.approx(np.full(inner.size, 0.006))
    assert rays.plate_offset == pytest.approx(-rays.plate_offset[::-1])  # left is right


@pytest.mark.parametrize("fill", [1.0016, 1.333, 1.9])
def test_a_ray_that_misses_the_bore_sees_a_solid_rod_whatever_fills_it(fill):
    """A rod turns the ray by i - r at each face: to the plate by plain angles."""
    offset = 0.0089  # within the glass it passes the axis at 6.04 mm, the bore ends at 6 mm
    incidence, refracted = asin(offset / 0.009), asin(offset / 0.009 / 1.473)
    leaves = incidence + pi - 2 * refracted
    fall = (0.030 + 0.009 * cos(leaves)) * tan(2 * (incidence - refracted))
    rays = lens_rays(TUBE, fill, offset)
    assert list(rays.path) == ["through the wall"]
    assert rays.plate_offset[0] == pytest.approx(0.009 * sin(leaves) - fall, rel=1e-9)


def test_a_narrow_bore_lifts_by_the_closed_form_and_a_wide_one_like_a_flat_wall():
    tension, density, radius = 0.0728, 997.0, 1e-4
    narrow = bore_meniscus(radius, tension, density)
    # rise plus a third of the radius carries the weight of the curved edge
    assert narrow.middle_rise + radius / 3 == pytest.approx(
        2 * tension / (density * 9.80665 * radius), rel=1e-5)
    assert narrow.depth == pytest.approx(radius, rel=1e-3)
    wide = bore_meniscus(11.9 * capillary_length(tension, density), tension, density)
    assert wide.middle_rise < 1e-6 and wide.edge_rise == pytest.approx(
        wall_rise(tension, density), rel=0.05)


@given(st.floats(1e-4, 0.012), st.floats(0.0, 1.4))
def test_the_edge_pull_carries_the_lifted_water(radius, contact):
    """Weight of all water above the flat level equals the pull along the wall: not the solver."""
    tension, density = 0.06, 950.0
    found = bore_meniscus(radius, tension, density, contact)
    assert 0 < found.middle_rise < found.edge_rise
    pull = 2 * pi * radius * tension * cos(contact)
    least = density * 9.80665 * pi * radius**2 * found.middle_rise
    most = density * 9.80665 * pi * radius**2 * found.edge_rise
    assert least < pull < most


def test_the_meniscus_of_hot_water_is_flatter():
    cold, hot = (bore_meniscus(0.006, surface_tension(t), rho).depth
                 for t, rho in ((293.15, 998.2), (443.0, 893.0)))
    assert 0.002 < hot < cold < 0.004


def test_angles_in_degrees_are_refused():
    with pytest.raises(InputError, match="45 degrees is 0.785"):
        optics.reflectance(45.0, 1.0, 1.5)
    with pytest.raises(InputError, match="give 'soda-lime glass'"):
        optics.glass_refractive_index("window glass")
    with pytest.raises(InputError, match="6 mm is 0.006"):
        TubularGlass(6.0, 9.0, 1.473, 30.0)
