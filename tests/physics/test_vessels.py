"""Communicating vessels: conservation, equal foot pressures, and a filling by small steps."""

from collections import defaultdict

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from levelkit.constants import STANDARD_GRAVITY as G
from levelkit.errors import InputError
from levelkit.physics.columns import pressure_at
from levelkit.physics.vessels import (
    Layer,
    Vessel,
    broken_conditions,
    foot_pressure,
    joined_vessels,
    vessel_columns,
)

AIR = 101_325.0
FLUIDS = (("heavy fluid", 1700.0), ("brine", 1200.0), ("water", 998.0), ("oil", 850.0))


@st.composite
def some_vessel(draw, closed=False):
    layers = tuple(Layer(name, density, draw(st.floats(0.05, 0.5)))
                   for name, density in FLUIDS if draw(st.booleans()))
    level = sum(layer.height for layer in layers)
    top = level + draw(st.floats(0.2, 2.0)) if closed and draw(st.booleans()) else None
    return Vessel(draw(st.floats(1e-4, 1e-2)), AIR + draw(st.floats(-300.0, 300.0)), layers, top)


held = st.lists(some_vessel(), min_size=2, max_size=5)
mixed = st.lists(some_vessel(closed=True), min_size=2, max_size=5)


def volumes(vessels):
    total = defaultdict(float)
    for vessel in vessels:
        for layer in vessel.layers:
            total[layer.name] += layer.height * vessel.bore_area
    return total


def joined_or_blown(vessels):
    try:
        return joined_vessels(vessels)
    except InputError as fault:
        assert "blow through" in str(fault)
        return None


def check_at_rest(vessels, result):
    for name, volume in volumes(vessels).items():
        assert volumes(result.vessels)[name] == pytest.approx(volume, rel=1e-8, abs=1e-13)
    for vessel in result.vessels:
        assert foot_pressure(vessel) == pytest.approx(result.foot_pressure, rel=1e-9)
        densities = [layer.density for layer in vessel.layers]
        assert densities == sorted(densities, reverse=True)
    assert sum(result.moved_volumes) == pytest.approx(0.0, abs=1e-12)
    assert result.levels == tuple(vessel.level for vessel in result.vessels)


@given(held)
def test_every_fluid_is_conserved_and_the_feet_agree(vessels):
    result = joined_or_blown(vessels)
    if result:
        check_at_rest(vessels, result)
        area = sum(vessel.bore_area for vessel in vessels)
        mean = sum(vessel.bore_area * foot_pressure(vessel) for vessel in vessels) / area
        assert result.foot_pressure == pytest.approx(mean, rel=1e-12)


@settings(deadline=None)
@given(mixed)
def test_the_same_with_trapped_gas(vessels):
    result = joined_or_blown(vessels)
    if result:
        check_at_rest(vessels, result)
        for old, new in zip(vessels, result.vessels, strict=True):
            if old.closed_top is None:
                assert new.pressure_above == old.pressure_above
            else:  # p V is constant
                before = old.pressure_above * (old.closed_top - old.level)
                after = new.pressure_above * (new.closed_top - new.level)
                assert after == pytest.approx(before, rel=1e-9)


@given(held, st.floats(0.1, 10.0))
def test_bore_does_not_enter_the_foot_pressure_and_only_ratios_of_bores_count(vessels, factor):
    wider = [Vessel(factor * v.bore_area, v.pressure_above, v.layers) for v in vessels]
    assert [foot_pressure(v) for v in wider] == [foot_pressure(v) for v in vessels]
    first, second = joined_or_blown(vessels), joined_or_blown(wider)
    if first and second:
        assert second.levels == pytest.approx(first.levels, rel=1e-9, abs=1e-9)


@given(st.lists(st.tuples(st.floats(1e-4, 1e-2), st.floats(0.0, 2.0)), min_size=2, max_size=6))
def test_one_fluid_under_one_pressure_stands_level_whatever_the_bores(bores_and_levels):
    vessels = [Vessel(bore, AIR, (Layer("water", 998.0, level),))
               for bore, level in bores_and_levels]
    result = joined_vessels(vessels)
    share = sum(b * h for b, h in bores_and_levels) / sum(b for b, _ in bores_and_levels)
    assert result.levels == pytest.approx([share] * len(vessels), rel=1e-9, abs=1e-9)
    assert broken_conditions(result.vessels) == ()


@given(held)
def test_opening_a_second_time_changes_nothing(vessels):
    first = joined_or_blown(vessels)
    if first:
        second = joined_or_blown(first.vessels)
        assert second.levels == pytest.approx(first.levels, abs=1e-9)


def by_small_steps(giver, taker, step):
    """Levels of two vessels, let through drop by drop: foot of one into the other."""
    def stack(vessel):
        return [[layer.density, layer.height * vessel.bore_area] for layer in vessel.layers]

    def foot(vessel, fluids):
        gas = vessel.pressure_above
        if vessel.closed_top is not None:
            level = sum(volume for _, volume in fluids) / vessel.bore_area
            gas *= (vessel.closed_top - vessel.level) / (vessel.closed_top - level)
        return gas + G * sum(rho * volume for rho, volume in fluids) / vessel.bore_area

    lower, upper = stack(giver), stack(taker)
    while foot(giver, lower) > foot(taker, upper):
        if lower[0][1] < step:
            lower.pop(0)
        lower[0][1] -= step
        if upper and upper[-1][0] == lower[0][0]:
            upper[-1][1] += step
        else:
            upper.append([lower[0][0], step])
    return [sum(volume for _, volume in fluids) / vessel.bore_area
            for vessel, fluids in ((giver, lower), (taker, upper))]


@pytest.mark.parametrize("giver, taker", [
    (Vessel(1e-3, AIR, (Layer("water", 998.0, 0.4), Layer("oil", 850.0, 0.2))),
     Vessel(2e-3, AIR, (Layer("water", 998.0, 0.3),))),
    (Vessel(1e-3, AIR + 2000.0, (Layer("brine", 1200.0, 0.05), Layer("water", 998.0, 0.4))),
     Vessel(1e-3, AIR, (Layer("oil", 850.0, 0.3),))),  # the brine runs out, water follows
    (Vessel(1e-3, AIR, (Layer("water", 998.0, 0.9),)),
     Vessel(5e-4, AIR, (Layer("oil", 850.0, 0.1),), closed_top=0.3)),
    (Vessel(1e-3, AIR, (Layer("brine", 1200.0, 0.01), Layer("water", 998.0, 0.9)), closed_top=1.2),
     Vessel(5e-4, AIR, ())),
], ids=["oil on one side", "a layer runs out", "gas compressed", "gas expands"])
def test_filling_by_small_steps_ends_at_the_same_levels(giver, taker):
    result = joined_vessels([giver, taker])
    assert result.levels == pytest.approx(by_small_steps(giver, taker, 2e-8), abs=1e-4)


def test_hand_calculations():
    # 100 mm of oil of 800 kg/m3 on water of 1000 balance 80 mm of water: surfaces 20 mm apart.
    oil = Vessel(1e-3, AIR, (Layer("water", 1000.0, 0.3), Layer("oil", 800.0, 0.1)))
    water = Vessel(1e-3, AIR, (Layer("water", 1000.0, 0.3),))
    result = joined_vessels([oil, water])
    assert result.levels == pytest.approx((0.36, 0.34))
    # 1000 Pa more above one of two equal vessels: surfaces 1000/(1000 g) = 101.97 mm apart.
    pressed = Vessel(1e-3, AIR + 1000.0, (Layer("water", 1000.0, 0.3),))
    result = joined_vessels([pressed, water])
    assert result.levels[1] - result.levels[0] == pytest.approx(0.10197, abs=1e-5)
    # A vessel four times as wide: both move, the wide one a quarter as far.
    wide = Vessel(4e-3, AIR, (Layer("water", 1000.0, 0.5),))
    result = joined_vessels([wide, water])
    assert result.levels == pytest.approx((0.46, 0.46))
    assert result.moved_volumes == pytest.approx((-0.16e-3, 0.16e-3))


def test_the_columns_of_a_vessel_carry_its_foot_pressure():
    vessel = Vessel(1e-3, AIR, tuple(Layer(name, rho, 0.1) for name, rho in FLUIDS))
    assert pressure_at(0.0, AIR, vessel_columns(vessel)) == pytest.approx(foot_pressure(vessel))


def test_the_three_conditions_are_told_apart():
    plain = Vessel(1e-3, AIR, (Layer("water", 1000.0, 0.3),))
    hot = Vessel(1e-3, AIR, (Layer("hot water", 900.0, 1 / 3),))
    pressed = Vessel(1e-3, AIR + 1000.0, (Layer("water", 1000.0, 0.3 - 1 / G),))
    fuller = Vessel(1e-3, AIR, (Layer("water", 1000.0, 0.4),))
    assert broken_conditions([plain, plain]) == ()
    evacuated = Vessel(1e-3, 0.0, ())  # nothing in it, nothing above it: nothing to flow
    assert broken_conditions([evacuated, evacuated]) == ()
    assert [s.split()[1] for s in broken_conditions([plain, hot])] == ["density"]
    assert [s.split()[1] for s in broken_conditions([plain, pressed])] == ["pressure"]
    assert [s.split()[1] for s in broken_conditions([plain, fuller])] == ["flows:"]
    everything = Vessel(1e-3, AIR + 1000.0, (Layer("hot water", 900.0, 0.6),))
    assert len(broken_conditions([plain, everything])) == 3


def test_different_levels_always_have_a_broken_condition():
    vessels = [Vessel(1e-3, AIR, (Layer("water", 998.0, 0.2), Layer("oil", 850.0, 0.1))),
               Vessel(3e-3, AIR + 50.0, (Layer("water", 998.0, 0.3),))]
    result = joined_vessels(vessels)
    assert result.levels[0] != result.levels[1]
    assert len(broken_conditions(result.vessels)) == 2  # density and pressure; nothing flows


@pytest.mark.parametrize("make, sentence", [
    (lambda: joined_vessels([Vessel(1e-3, AIR, ())]), "1 vessel is given.*2 or more"),
    (lambda: joined_vessels([Vessel(1e-3, 2e5, (Layer("water", 998.0, 0.1),)),
                             Vessel(1e-3, 1e5, ())]), "2e\\+05|200000 Pa.*blow through"),
    (lambda: Vessel(1e-3, AIR, (Layer("oil", 850.0, 0.1), Layer("water", 998.0, 0.1))),
     "water of 998 kg/m3 lies on oil of 850 kg/m3 and would sink"),
    (lambda: Vessel(113.0e2, AIR, ()), "bore area is 11300 m2"),
    (lambda: Vessel(1e-3, float("nan"), ()), "pressure above is nan Pa"),
    (lambda: Layer("water", 998.0, 250), "height of the layer of water is 250 m.*Give metres"),
    (lambda: Layer("water", 0.0, 0.1), "density of water is 0 kg/m3"),
    (lambda: Vessel(1e-3, AIR, (Layer("water", 998.0, 0.5),), closed_top=0.4),
     "height of the closed top is 0.4 m"),
])
def test_what_cannot_be_is_refused_with_a_sentence(make, sentence):
    with pytest.raises(InputError, match=sentence):
        make()
