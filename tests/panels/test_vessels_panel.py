"""The vessels panel without a browser: one redraw, honest numbers, sentences for mistakes."""

import csv
import io
import re

import pytest
from handling import nothing_swallowed, press, redraws, type_in

from levelkit.lesson import vessels_panel
from levelkit.panels.twin import StaticTwin
from levelkit.panels.vessels_panel import BOILING, COLD, HOT, TYPED
from levelkit.physics.vessels import Layer, Vessel, broken_conditions, joined_vessels
from levelkit.properties import compressed_water_density, saturation_at_pressure


@pytest.fixture()
def panel(caplog):
    """A panel; an exception swallowed by a callback fails the test."""
    with nothing_swallowed(caplog):
        yield vessels_panel()


@pytest.mark.parametrize("label", ["hot and cold", "brine and fresh", "pressure on one side",
                                   "wide and narrow", "valve shut"])
def test_a_preset_redraws_once_and_reset_returns(panel, label):
    start = panel._picture.value
    seen = redraws(panel)
    press(panel, label)
    assert len(seen) == 1 and panel._problem.value == ""
    press(panel, "Reset")
    assert len(seen) == 2
    assert re.sub(r"lk\d+-", "", panel._picture.value) == re.sub(r"lk\d+-", "", start)


def test_the_result_is_that_of_the_physics_function(panel):
    panel.set(fluid_a=TYPED, density_a=1180, bore_a=150, fill_a=220, fluid_b=HOT, bore_b=60,
              fill_b=310, difference=7)
    hot = compressed_water_density(101_325.0, 363.15)
    before = (Vessel(3.141592653589793 / 4 * 0.150 ** 2, 101_325.0 + 700.0,
                     (Layer("brine", 1180.0, 0.220),)),
              Vessel(3.141592653589793 / 4 * 0.060 ** 2, 101_325.0, (Layer("hot", hot, 0.310),)))
    expected = joined_vessels(before)
    assert panel.result.levels == pytest.approx(expected.levels, abs=1e-9)
    assert panel.result.foot_pressures == pytest.approx([expected.foot_pressure] * 2, abs=1e-6)
    assert len(panel.result.broken) == len(broken_conditions(expected.vessels)) == 2


def test_brine_and_fresh_by_hand(panel):
    """Equal bores, 300 mm each: x mm of brine pass, (300-x) 1200 = 300 rho + x 1200."""
    panel.set(**panel.presets["brine and fresh"])
    fresh = compressed_water_density(101_325.0, 293.15)
    passed = 300 * (1200 - fresh) / (2 * 1200)
    assert [1000 * level for level in panel.result.levels] == pytest.approx(
        [300 - passed, 300 + passed])


def test_pressure_on_one_side_by_hand(panel):
    """20 mbar on A: the levels part by dp / (rho g)."""
    panel.set(**panel.presets["pressure on one side"])
    rho = compressed_water_density(101_325.0, 293.15)
    assert -panel.result.difference == pytest.approx(2000 / (rho * 9.80665), rel=1e-9)
    assert panel.result.foot_pressures[0] == pytest.approx(panel.result.foot_pressures[1])


def test_bore_alone_never_parts_the_levels(panel):
    for bore_a, bore_b in ((20, 200), (200, 20), (33, 77)):
        panel.set(bore_a=bore_a, bore_b=bore_b, fill_a=310, fill_b=90)
        assert panel.result.difference == pytest.approx(0.0, abs=1e-12)
        assert panel.result.broken == () and all(holds for _, holds in panel.result.conditions)


def test_boiling_water_puts_its_pressure_above_both(panel):
    panel.set(**panel.presets["hot and cold"])
    above = 101_325.0 + 60e5
    boiling, cold = (vessel.layers[0].density for vessel in panel.result.before)
    assert boiling == saturation_at_pressure(above).water_density
    assert cold == compressed_water_density(above, 293.15)
    assert panel.result.now[1].pressure_above == above and panel.result.steam_above


def test_behind_a_shut_valve_nothing_moves_and_the_direction_is_foretold(panel):
    panel.set(**panel.presets["valve shut"])
    assert panel.result.now == panel.result.before
    assert panel.result.levels == (0.4, 0.2)
    assert panel.result.foot_pressures[0] > panel.result.foot_pressures[1]
    assert panel.result.broken == (
        "The valve is shut: the vessels are not joined. Open it: fluid runs from A to B.",)
    panel.controls["valve"].value = True
    assert panel.result.difference == pytest.approx(0.0, abs=1e-12) and panel.result.broken == ()


def test_a_typed_comma_is_taken_and_only_a_typed_fluid_has_a_typed_density(panel):
    assert panel.controls["density_a"].disabled
    panel.set(fluid_a=TYPED)
    assert not panel.controls["density_a"].disabled and panel.controls["density_b"].disabled
    type_in(panel.controls["density_a"], "1030,5")
    assert panel.result.before[0].layers[0].density == 1030.5


def test_a_typed_number_outside_the_range_is_refused_in_a_sentence(panel):
    seen = redraws(panel)
    type_in(panel.controls["bore_a"], "500")
    assert "outside 20 to 200 mm" in panel.controls["bore_a"].message
    assert panel.controls["bore_a"].value == 80 and seen == []


@pytest.mark.parametrize("values, part", [
    ({"difference": 40, "fill_a": 100, "fill_b": 100}, "blow through the feet"),
    ({"fluid_a": TYPED, "density_a": 1300, "fluid_b": TYPED, "density_b": 700, "bore_a": 200,
      "bore_b": 20, "fill_a": 450, "fill_b": 450}, "run over")])
def test_an_impossible_state_is_a_sentence_and_the_picture_stays(panel, values, part):
    before = panel._picture.value
    panel.set(**values)
    assert part in panel._problem.value and "last state" in panel._problem.value
    assert panel._picture.value == before
    press(panel, "Reset")
    assert panel._problem.value == ""


def test_readings_carry_units_and_the_shown_numbers(panel, tmp_path):
    panel.readings.record()
    panel.set(**panel.presets["hot and cold"])
    panel.readings.record()
    rows = list(csv.DictReader(io.StringIO(panel.readings.save(tmp_path).read_text("utf-8"))))
    assert [row["fluid in A"] for row in rows] == [COLD, BOILING]
    assert float(rows[1]["level A less level B [mm]"]) == pytest.approx(
        1000 * panel.result.difference, abs=0.051)
    assert all("[" in head for head in rows[0] if head not in ("valve", "fluid in A",
                                                               "fluid in B"))


def test_a_twin_on_paper_can_show_what_the_panel_still_hides(panel):
    panel.truth.value = False
    panel.set(difference=17.5)
    level = f"{1000 * panel.result.levels[0]:.1f} mm"
    follows, always = StaticTwin(panel), StaticTwin(panel, show_truth=True)
    assert level in always.output().data
    assert level not in follows.output().data and level not in panel._picture.value
