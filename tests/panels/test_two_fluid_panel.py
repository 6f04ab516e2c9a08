"""The two-fluid panel without a browser: physics' numbers, one redraw, frozen stays frozen."""

import csv
import io
import re
from html import unescape

import pytest
from handling import nothing_swallowed, press, redraws, type_in

from levelkit.constants import CAUTION
from levelkit.faults import FAULTS, TWO_FLUID, fault_named
from levelkit.lesson import ship, two_fluid_panel
from levelkit.panels.two_fluid_setting import COLD
from levelkit.physics.differential import indicated_level
from levelkit.physics.fluid_balance import fluid_difference
from levelkit.physics.two_fluid_design import filling_shift
from levelkit.physics.u_tube import DRUM_LIMB
from levelkit.properties import compressed_water_density, steaming_drum_fluids
from levelkit.units import absolute_pressure, kelvin


@pytest.fixture()
def panel(caplog):
    """A panel; an exception swallowed by a callback fails the test."""
    with nothing_swallowed(caplog):
        yield two_fluid_panel("water_tube")


def error_mm(panel):
    return 1000 * panel.result.reading.error


@pytest.mark.parametrize("label", ["cold, open to the air", "raising steam", "half pressure",
                                   "low water", "overfilled", "leg partly lost",
                                   "warm reference leg"])
def test_a_preset_redraws_once_and_reset_returns(panel, label):
    start = panel._picture.value
    seen = redraws(panel)
    press(panel, label)
    assert len(seen) == 1 and panel._problem.value == ""
    press(panel, "Reset")
    assert re.sub(r"lk\d+-", "", panel._picture.value) == re.sub(r"lk\d+-", "", start)


@pytest.mark.parametrize("boiler", list(ship.boilers))
def test_in_service_it_agrees_with_the_drum_at_every_level(boiler):
    panel = two_fluid_panel(boiler)
    for level in range(0, int(panel.controls["level"].maximum) + 1, 50):
        panel.set(level=level)
        assert panel._problem.value == "" and abs(error_mm(panel)) < 1e-6
    low, high = (height for _, height in panel.result.scale_ends)
    assert (high - low) / panel.boiler.legs.chamber_height == pytest.approx(1.0, abs=0.01), (
        "the ship's fluids are chosen for a full-size scale")


def test_with_warm_legs_it_has_the_pressure_error_of_a_transmitter(panel):
    """Below the calibration pressure, legs kept at the density of the scale: both alike."""
    panel.set(scale_pressure=60, pressure=10, level=300)
    drawn = steaming_drum_fluids(absolute_pressure(60.0))
    now = steaming_drum_fluids(absolute_pressure(10.0))
    legs = [compressed_water_density(fluids.pressure, kelvin(50.0)) for fluids in (now, drawn)]
    transmitter = indicated_level(0.300, 0.5, now.water_density, now.steam_density, legs[0],
                                  drawn.water_density, drawn.steam_density, legs[1])
    # water of 50 degC is 0.2 % lighter at 10 bar: that much the two differ
    assert panel.result.reading.indicated_level == pytest.approx(transmitter, abs=0.002)
    assert error_mm(panel) > 30


def test_cold_boiler_by_hand(panel):
    """R = 997.0 x 0.25 / 702.8; read with 959.3, 724.7 and 710.4 kg/m3 of the scale at 60 bar."""
    panel.set(state=COLD, reference_leg=20, drum_leg=20, level=250)
    assert 1000 * panel.result.reading.difference == pytest.approx(997.0 * 250 / 702.8, abs=0.1)
    assert 1000 * panel.result.reading.indicated_level == pytest.approx(
        (959.26 * 500 - 997.0 * 250 / 702.8 * 710.36) / 724.75, abs=0.1)
    assert panel.controls["pressure"].disabled


def test_the_result_is_that_of_the_design_function(panel):
    panel.set(pressure=42.5, level=333, reference_leg=61, drum_leg=61)
    fluids = steaming_drum_fluids(absolute_pressure(42.5))
    leg = compressed_water_density(fluids.pressure, kelvin(61.0))
    expected = fluid_difference(0.333, 0.5, fluids.water_density, fluids.steam_density, leg, 1701.0)
    assert panel.result.reading.difference == pytest.approx(expected, abs=1e-9)
    assert f"{1000 * expected:.1f} mm" in panel._picture.value


def test_filling_lifts_both_surfaces_and_lies_the_other_way_on_the_other_limb(panel):
    before = panel.result.reading
    panel.set(extra_fill=120)
    after, tube = panel.result.reading, panel.result.state.tube
    rise = filling_shift(120e-6, tube.reference_area, tube.drum_area)
    assert after.difference == pytest.approx(before.difference, abs=1e-12)
    assert after.reference_surface - before.reference_surface == pytest.approx(rise)
    high = error_mm(panel)
    panel.set(visible_limb=DRUM_LIMB)
    assert high == pytest.approx(1000 * rise, rel=0.01)
    assert error_mm(panel) == pytest.approx(-high, rel=1e-6)


def test_a_warm_leg_costs_more_the_deeper_the_tube_hangs(panel):
    """Error = drho (H + a) / (rho_f - rho_g), a the depth of the lower surface."""
    panel.set(reference_leg=60)
    for depth in (1, 8, 16):
        panel.set(depth=depth)
        state, reading = panel.result.state, panel.result.reading
        lighter = state.legs.drum_run_density - state.legs.reference_density
        by_hand = lighter * (500 - 1000 * reading.reference_surface) / (
            state.drum.water_density - state.drum.steam_density)
        assert error_mm(panel) == pytest.approx(by_hand, abs=0.01)


def test_a_lost_leg_reads_high_by_more_than_was_lost(panel):
    panel.set(leg_lost=60)
    assert error_mm(panel) == pytest.approx(60 * 959.26 / 724.75, abs=0.05)


def test_a_scale_drawn_for_another_pressure_is_right_there(panel):
    panel.set(scale_pressure=30, pressure=30)
    assert error_mm(panel) == pytest.approx(0.0, abs=1e-6)
    panel.set(pressure=60)
    assert error_mm(panel) < -10


def test_every_fault_of_the_catalogue_that_touches_it_can_be_set_with_caution(panel):
    keys = [key for _, key in panel.controls["fault"].options if key]
    assert keys == [fault.key for fault in FAULTS if TWO_FLUID in fault.effects]
    assert len(keys) >= 19
    for key in keys:
        press(panel, "normal steaming")
        panel.set(fault=key)
        assert panel._problem.value == "", key
        said = unescape(panel._advice.value)
        assert fault_named(key).safe_action in said and CAUTION in said
        assert f"Fault set: {fault_named(key).name}." in panel.drawing.words
    press(panel, "normal steaming")
    assert panel._advice.value == ""


@pytest.mark.parametrize("key, direction", [
    ("equaliser-open", 1), ("reference-leg-warm", 1), ("reference-leg-lost", 1),
    ("drum-drain-leaking", -1), ("drum-leg-gas", -1), ("fluid-lost", -1), ("legs-unequal", 1)])
def test_a_fault_lies_in_its_direction(panel, key, direction):
    panel.set(fault=key)
    assert direction * panel.result.reading.error > 0.01


@pytest.mark.parametrize("key", ["drum-isolator-shut", "reference-isolator-shut"])
def test_behind_a_shut_valve_the_reading_stays_where_the_fault_found_it(panel, key):
    panel.set(level=300)
    panel.set(fault=key)
    for level in (200, 80):
        panel.set(level=level)
        assert 1000 * panel.result.reading.indicated_level == pytest.approx(300, abs=0.5)
    panel.set(fault="")
    assert abs(error_mm(panel)) < 1e-6
    panel.set(fault=key)
    assert 1000 * panel.result.reading.indicated_level == pytest.approx(80, abs=0.5)


def test_behind_a_choked_line_the_reading_lags(panel):
    panel.set(fault="line-choked")
    panel.set(level=100)
    shown = []
    for seconds in (0.0, 600.0, 3600.0):
        panel.set(since=seconds)
        shown.append(1000 * panel.result.reading.indicated_level)
        assert shown[-1] - 100 == pytest.approx(error_mm(panel), abs=1e-9)
    assert shown[0] == pytest.approx(250, abs=1e-6) and 250 > shown[1] > shown[2] > 100


def test_a_leak_without_make_up_creeps_up_with_time(panel):
    panel.set(fault="chamber-gas")
    errors = []
    for _, seconds in panel.controls["since"].options:
        panel.set(since=seconds)
        errors.append(error_mm(panel))
    assert errors == sorted(errors) and abs(errors[0]) < 0.01 and errors[-1] > 50


def test_a_control_that_a_fault_overrules_is_switched_off(panel):
    assert panel.controls["since"].disabled
    panel.set(fault="cold-drum")
    assert all(panel.controls[key].disabled for key in ("pressure", "reference_leg", "drum_leg"))
    assert not panel.controls["since"].disabled
    panel.set(fault="reference-leg-lost")
    assert panel.controls["leg_lost"].disabled and not panel.controls["pressure"].disabled


@pytest.mark.parametrize("values, part", [
    ({"extra_fill": -500, "level": 0}, "blown over"),
    ({"fault": "chamber-isolated", "since": 3600.0}, "blown over"),
    ({"reference_leg": 140, "pressure": 1}, "boils"),
    ({"fluid": "dimethyl phthalate", "depth": 1, "visible_limb": DRUM_LIMB}, "hang it lower")])
def test_an_impossible_state_is_a_sentence_and_the_picture_stays(panel, values, part):
    before = panel._picture.value
    panel.set(**values)
    assert part in panel._problem.value and "last state" in panel._problem.value
    assert panel._picture.value == before
    press(panel, "Reset")
    assert panel._problem.value == ""


def test_a_level_above_the_tapping_is_refused_in_a_sentence(panel):
    seen = redraws(panel)
    type_in(panel.controls["level"], "520")
    assert "outside \u221250 to 500 mm" in panel.controls["level"].message and seen == []
    type_in(panel.controls["pressure"], "12,5")
    assert panel.result.state.drum.pressure == pytest.approx(12.5e5 + 101_325)


def test_a_foreign_fluid_brings_its_safety_line(panel):
    panel.set(fluid="tetrachloroethylene")
    assert "suspected of causing cancer" in panel._advice.value
    assert abs(error_mm(panel)) < 1e-6, "the scale is drawn for the fluid that is filled in"


def test_only_one_page_of_controls_is_shown(panel):
    first, second = panel._pages
    assert second.layout.display == "none" and first.layout.display is None
    panel.design.value = True
    assert first.layout.display == "none" and second.layout.display is None
    assert len(first.children) == 8
    assert [*first.children, *second.children] == list(panel.controls.values())


def test_readings_carry_units_and_the_shown_numbers(panel, tmp_path):
    for label in ("normal steaming", "leg partly lost"):
        press(panel, label)
        panel.readings.record()
    rows = list(csv.DictReader(io.StringIO(panel.readings.save(tmp_path).read_text("utf-8"))))
    assert [row["error [mm]"].lstrip("-") for row in rows] == ["0.0", "79.4"]
    assert rows[1]["leg 1 lost [mm]"] == "60" and rows[0]["drum pressure [bar g]"] == "60.0"
    assert all("[" in head for head in rows[0] if head not in ("status", "fault"))


def test_a_corrected_reading_is_known_to_some_millimetres_and_the_largest_part_is_named(panel):
    """2 mm of R, 3 mm of weir, 10 K of leg, 2 kg/m3 of fluid, at 60 bar, by partial slopes."""
    rho = 756.12 - 31.38
    leg = 10 * (compressed_water_density(6.1e6, kelvin(49.5))
                - compressed_water_density(6.1e6, kelvin(50.5)))
    effects = {"fluid difference": 710.4 * 0.002 / rho, "weir height": 959.3 * 0.003 / rho,
               "leg density": leg * (0.5 + 0.4201) / rho,
               "fluid density": 0.4201 * 2.0 / rho}
    panel.set(level=250)
    budget = panel.result.budget
    assert budget.uncertainty == pytest.approx(
        sum(effect ** 2 for effect in effects.values()) ** 0.5, rel=0.01)
    assert budget.largest == max(effects, key=effects.get) == "leg density"
    assert "\u00b1 7.3 mm" in " ".join(box.text for box in panel.drawing.text_boxes)
    for without in ({"fault": "reference-leg-warm"}, {"leg_lost": 60}, {"state": COLD},
                    {"level": -20}):
        panel.reset()
        panel.set(**without)
        assert panel.result.budget is None, without
