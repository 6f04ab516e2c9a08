"""The transmitter picture: its words say the result's numbers, its lettering never collides."""

import re
import xml.etree.ElementTree as ET
from itertools import product

import pytest
from overlaps import off_the_sheet, overlapping

from levelkit.errors import InputError
from levelkit.panels.transmitter_panel import TransmitterPanel
from levelkit.physics.transmitter_range import DIRECT, REVERSED
from levelkit.scenario import load_ship
from levelkit.scene.look import LOOKS, PRINT, SCREEN
from levelkit.scene.transmitter import HEIGHT

SHIP = load_ship()
PANELS = {name: TransmitterPanel(boiler, SHIP.barometer) for name, boiler in SHIP.boilers.items()}
FAULTS = [key for _, key in PANELS["water_tube"].controls["fault"].options]

BY_HAND = ((0, 3.55), (-0.5, 0.5), (29, 30), (-29.9, -30), (30, -30), (1.15, 1.16), (0.01, 0),
           (0.02, 30), (30, 15))


def case(name="water_tube", **values):
    panel = PANELS[name]
    panel._picked = None  # what is shut in is taken at this very state
    return panel.evaluate(panel._start | values)


def drawn(name="water_tube", look=SCREEN, truth=True, **values):
    result = case(name, **values)
    return result, PANELS[name].draw(result, look, truth)


def lettering(drawing):
    return [box.text for box in drawing.text_boxes]


def test_words_and_lettering_carry_the_numbers_of_the_result():
    result, drawing = drawn(level=212, pressure=23, loss=40)
    shown, true = 1000 * result.reading.indicated_level, 1000 * result.state.drum.level
    assert f"shows {shown:.1f} mm" in lettering(drawing)
    assert f"drum {true:.1f} mm" in lettering(drawing)
    numbers = [float(text) for text in re.findall(r"\d+\.\d+", drawing.words)]
    assert numbers == pytest.approx([shown, 100 * shown / 500, 1e3 * result.reading.current, true,
                                     shown - true], abs=0.051)
    assert "HIGH" in drawing.words and "40 mm lost" in lettering(drawing)
    assert f"{shown - true:.1f} mm" in lettering(drawing)


def test_the_range_ruler_has_zero_and_both_ends_on_one_line_with_their_signs():
    result, drawing = drawn(connection=DIRECT, level=100)
    places = {box.text: (box.left + box.right) / 2 for box in drawing.text_boxes}
    lower, upper = result.range_in_use.lower_value, result.range_in_use.upper_value
    assert lower < upper < 0
    assert places["LRV"] < places["URV"] < places["0"]
    for value in (lower, upper, result.reading.differential):
        assert any(f"\u2212{-value / 1e3:.2f}" in text for text in places)
    _, mirrored = drawn(connection=REVERSED, level=100)
    places = {box.text: (box.left + box.right) / 2 for box in mirrored.text_boxes}
    assert places["0"] < places["URV"] < places["LRV"]


@pytest.mark.parametrize("lrv, urv", BY_HAND)
def test_both_ends_of_a_range_by_hand_stand_in_their_order(lrv, urv):
    _, drawing = drawn(by_hand=True, lrv=lrv, urv=urv)
    places = {box.text: (box.left + box.right) / 2 for box in drawing.text_boxes}
    assert (places["LRV"] < places["URV"]) is (lrv < urv)


def test_crossed_ports_throw_the_mark_to_the_other_side_of_zero():
    right, wrong = case(level=150), case(level=150, fault="ports-crossed")
    assert wrong.reading.differential == -right.reading.differential
    _, drawing = drawn(level=150, fault="ports-crossed")
    now, zero = (next(box for box in drawing.text_boxes if pattern in box.text)
                 for pattern in ("H \u2212 L = \u2212", "0"))
    assert "shows FULL" in lettering(drawing)
    zero = next(box for box in drawing.text_boxes if box.text == "0" and box.top > 260)
    assert (now.left + now.right) / 2 < (zero.left + zero.right) / 2


@pytest.mark.parametrize("fault, words", [
    ("equaliser-open", ("equaliser OPEN",)), ("equaliser-passing", ("equaliser passing",)),
    ("drum-isolator-shut", ("isolator SHUT",)), ("line-choked", ("isolator choked",)),
    ("reference-drain-leaking", ("drain leaks",)), ("chamber-gas", ("no make-up",)),
    ("chamber-isolated", ("isolated",)), ("reference-leg-gas", ("gas",)),
    ("drum-leg-gas", ("gas",)), ("wire-broken", ("no level", "failure signal:"))])
def test_what_is_wrong_is_lettered_where_it_is(fault, words):
    _, drawing = drawn(fault=fault)
    assert set(words) <= set(lettering(drawing))


def test_an_end_of_scale_is_not_called_a_failure_and_a_failure_is():
    _, full = drawn(fault="equaliser-open", level=150)
    assert "healthy transmitter off scale FULL" in full.words and "SILENT" in full.words
    _, failed = drawn(fault="transmitter-failed")
    assert "failure, high" in failed.words and "The signal is no level" in failed.words


def test_no_air_is_below_the_live_zero_and_not_an_empty_drum():
    result, drawing = drawn(fault="air-failed")
    assert result.reading.shown_fraction == -0.25
    assert "below live zero" in lettering(drawing) and "no air" in drawing.words


def test_a_hidden_truth_is_neither_drawn_nor_said():
    result, drawing = drawn(truth=False, level=217, pressure=31)
    for number in ("217.0", f"{1000 * abs(result.reading.error):.1f} mm"):
        assert number not in drawing.svg and number not in drawing.words
    assert "SILENT" not in drawing.words


@pytest.mark.parametrize("look", LOOKS.values(), ids=LOOKS)
@pytest.mark.parametrize("name", PANELS)
def test_lettering_neither_collides_nor_leaves_the_sheet(name, look):
    top = int(PANELS[name].controls["level"].maximum)
    levels = [-50, 0, *range(9, top, 71), top]
    cases = [dict(level=level, fault=fault) for fault in FAULTS for level in levels[::3]]
    cases += [dict(level=level, pressure=pressure, connection=connection)
              for level, pressure, connection in product(levels, (0, 7, 60), (DIRECT, REVERSED))]
    cases += [dict(loss=loss, depth=depth, calibrated=calibrated) for loss, depth, calibrated in
              product((0, 1, 9, 40, 200, top), (0, 10), (0, 100))]
    cases += [dict(by_hand=True, lrv=lrv, urv=urv) for lrv, urv in BY_HAND]
    drawn_cases = 0
    for values in cases:
        try:
            result = case(name, **values)
        except InputError:  # said in the panel, not drawn
            continue
        for truth in (True, False) if values.get("fault") else (True,):
            drawing = PANELS[name].draw(result, look, truth)
            assert overlapping(drawing) == [], f"{values}, truth {truth}"
            assert off_the_sheet(drawing, look.width, HEIGHT) == [], values
        drawn_cases += 1
    assert drawn_cases > 100


def test_print_uses_black_and_white_only():
    _, drawing = drawn(look=PRINT, fault="reference-leg-warm")
    colours = {c.lower() for e in ET.fromstring(drawing.svg).iter()
               for c in (e.get("fill"), e.get("stroke")) if c and c.startswith("#")}
    assert colours <= {"#000000", "#ffffff"}


def test_a_warm_leg_has_another_pattern_than_a_cool_one():
    def filling(**values):
        return set(re.findall(r"url\(#lk\d+-([a-z-]+)\)", drawn(look=PRINT, **values)[1].svg))

    assert "hot-water" in filling(leg_temperature=95) and "hot-water" not in filling()
