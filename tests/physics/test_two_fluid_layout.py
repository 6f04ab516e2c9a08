"""A laid-out U-tube: by hand, and right over its whole range whatever the design."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from levelkit.errors import InputError
from levelkit.physics.indicating_fluids import IndicatingFluid
from levelkit.physics.leg_state import DrumContents, LegsState
from levelkit.physics.two_fluid import two_fluid_reading
from levelkit.physics.two_fluid_layout import (
    FLUID_LEFT,
    LEG_ENDS,
    ROOM_ABOVE,
    two_fluid_layout,
)
from levelkit.physics.two_fluid_state import drawn_two_fluid
from levelkit.physics.u_tube import DRUM_LIMB, REFERENCE_LIMB

FLUID = IndicatingFluid("exercise", 1373.0)


def laid_out(fluid=FLUID, level=0.25, bores=(0.008, 0.008), depth=8.0, limb=REFERENCE_LIMB):
    return two_fluid_layout(DrumContents(level, 4.6e6, 785.5, 23.2), 0.5, 992.2, fluid, 293.15,
                            *bores, depth, limb)


def test_limbs_and_mark_by_hand():
    """Hand calculation: R_max = 969.0 x 0.5 / 380.8 = 1272.3 mm, area 50.27 mm2 each."""
    layout = laid_out()
    assert layout.tube.limb_length == pytest.approx(0.12 + 1.2723 + 0.12, abs=1e-4)
    assert 1e6 * layout.fluid_volume == pytest.approx(50.265 * (0.12 + 0.12 + 1.2723), abs=0.02)
    assert layout.manifold_depth == pytest.approx(
        layout.tube.bend_depth - layout.tube.limb_length - LEG_ENDS)


@given(st.floats(1200.0, 3000.0), st.floats(0.004, 0.04), st.floats(0.004, 0.08),
       st.floats(0.0, 0.5), st.sampled_from([REFERENCE_LIMB, DRUM_LIMB]))
@settings(max_examples=60)
def test_the_whole_range_stays_in_the_limbs_and_reads_right(density, first, second, level, limb):
    fluid = IndicatingFluid("exercise", density)
    layout = laid_out(fluid, 0.25, (first, second), 20.0, limb)
    legs = LegsState(0.5, layout.manifold_depth, 992.2, 992.2, 992.2)
    at = {height: two_fluid_reading(drawn_two_fluid(
        DrumContents(height, 4.6e6, 785.5, 23.2), legs, layout.tube, fluid, 293.15,
        layout.fluid_volume)) for height in (0.0, level, 0.25)}
    assert at[level].error == pytest.approx(0.0, abs=1e-9)
    assert at[0.25].drum_surface == pytest.approx(-20.0, abs=1e-9)
    bend, top = -layout.tube.bend_depth, layout.tube.limb_length - layout.tube.bend_depth
    assert at[0.0].reference_surface - bend == pytest.approx(FLUID_LEFT, abs=1e-9)
    assert top - at[0.0].drum_surface == pytest.approx(ROOM_ABOVE, abs=1e-9)


def test_limbs_that_would_reach_the_connection_are_refused_with_the_way_out():
    light = IndicatingFluid("exercise", 1193.0)
    with pytest.raises(InputError, match=r"begins at (\d\.\d+) m: hang it lower") as refusal:
        laid_out(light, depth=0.5)
    least = float(str(refusal.value).split("begins at ")[1].split(" m")[0])
    laid_out(light, depth=least + 0.001)


def test_the_bores_go_to_their_own_limbs_and_into_the_volume():
    """Hand calculation: 120 mm of 10 mm bore and 120 + 1272.3 mm of 6 mm bore."""
    layout = laid_out(bores=(0.010, 0.006))
    assert (layout.tube.reference_bore, layout.tube.drum_bore) == (0.010, 0.006)
    assert 1e6 * layout.fluid_volume == pytest.approx(78.540 * 0.12 + 28.274 * 1.3923, abs=0.02)


@pytest.mark.parametrize("limb", [REFERENCE_LIMB, DRUM_LIMB])
def test_the_limb_to_be_seen_is_the_one_asked_for(limb):
    assert laid_out(limb=limb).tube.visible_limb == limb
