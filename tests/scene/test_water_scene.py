"""The picture of one kilogram: its words say the result's numbers, its lettering never collides."""

import re
from itertools import product

import pytest
from overlaps import off_the_sheet, overlapping

from levelkit.panels.water_panel import WaterPanel
from levelkit.scene.look import LOOKS, SCREEN
from levelkit.scene.water_and_steam import HEIGHT


@pytest.fixture(scope="module")
def panel():
    return WaterPanel(101_325.0)


def drawn(panel, look=SCREEN, truth=True, **values):
    """Result and picture of a state; the slip is a control that the picture looks at."""
    panel.controls["slip"].value = values.get("slip", False)
    result = panel.evaluate(panel._start | values)
    return result, panel.draw(result, look, truth)


def test_words_and_lettering_carry_the_numbers_of_the_result(panel):
    result, drawing = drawn(panel, pressure=60, slip=True)
    numbers = [float(text.replace("\u2212", "-"))
               for text in re.findall(r"[\u2212+]?\d+\.\d+", drawing.words)]
    right, slip = result.right, result.slip
    assert numbers == pytest.approx([
        60.0, right.pressure / 1e5, right.temperature - 273.15, right.water_density,
        100 * (1 - right.water_density / result.cold_density), right.steam_density,
        100 * (slip.water_density / right.water_density - 1),
        100 * (slip.steam_density / right.steam_density - 1)], abs=0.051)
    lettering = [box.text for box in drawing.text_boxes]
    assert {f"{right.water_density:.1f}", f"{slip.water_density:.1f}",
            f"{1000 / right.steam_density:.4g} litres"} <= set(lettering)


def test_the_pointer_stands_on_one_pressure_on_both_scales(panel):
    _, drawing = drawn(panel, pressure=7, barometer=1000)
    left, right = ({box.text: box.bottom for box in drawing.text_boxes if low < box.left < high}
                   for low, high in ((0, 118), (118, 250)))  # the two sides of the ruler
    assert left["7.0"] == right["8.00"]
    assert left["9"] == pytest.approx(right["10"]) and left["6"] == pytest.approx(right["7"])


def test_below_a_perfect_vacuum_there_is_no_scale(panel):
    _, drawing = drawn(panel, pressure=0)
    lettering = [box.text for box in drawing.text_boxes]
    assert "perfect vacuum" in lettering and "\u22122" not in lettering


def test_the_slip_at_no_gauge_pressure_is_said_to_have_no_line(panel):
    result, drawing = drawn(panel, pressure=0, slip=True)
    assert result.slip is None and "no such line" in drawing.words
    assert "none" in [box.text for box in drawing.text_boxes]


def test_a_hidden_truth_is_neither_drawn_nor_said(panel):
    result, drawing = drawn(panel, truth=False, pressure=43.5, slip=True)
    for number in (f"{result.right.water_density:.1f}", f"{result.right.steam_density:.2f}",
                   f"{result.slip.water_density:.1f}",
                   f"{1000 / result.right.steam_density:.4g}"):
        assert number not in drawing.svg and number not in drawing.words


@pytest.mark.parametrize("look", LOOKS.values(), ids=LOOKS)
def test_lettering_neither_collides_nor_leaves_the_sheet(panel, look):
    pressures = [0.07 * i for i in range(43)] + [3 + 1.7 * i for i in range(58)]
    for pressure, slip, truth in product(pressures, (False, True), (True, False)):
        _, drawing = drawn(panel, look, truth, pressure=pressure, slip=slip,
                           barometer=940 if slip else 1060)
        where = f"{pressure:.2f} bar, slip {slip}, truth {truth}"
        assert overlapping(drawing) == [], where
        assert off_the_sheet(drawing, look.width, HEIGHT) == [], where
