"""The picture of joined vessels: its words say the numbers, its lettering never collides."""

import re
from itertools import product

import pytest
from overlaps import off_the_sheet, overlapping

from levelkit.errors import InputError
from levelkit.panels.vessels_panel import BOILING, COLD, HOT, TYPED, VesselsPanel
from levelkit.scene.look import LOOKS, PRINT, SCREEN
from levelkit.scene.vessels import HEIGHT

FLUIDS = ((COLD, COLD), (BOILING, COLD), (TYPED, HOT), (TYPED, TYPED))
BORES = ((20, 20), (200, 200), (20, 200), (80, 60))
FILLS = ((50, 50), (450, 450), (450, 50), (300, 299), (301, 340))
DIFFERENCES = (-40, -0.5, 0, 1.5, 20)


@pytest.fixture(scope="module")
def panel():
    return VesselsPanel(101_325.0)


def case(panel, **values):
    return panel.evaluate(panel._start | values)


def test_words_and_lettering_carry_the_numbers_of_the_result(panel):
    result = case(panel, fluid_a=TYPED, density_a=1200)
    drawing = panel.draw(result, SCREEN, True)
    lettering = [box.text for box in drawing.text_boxes]
    for height in (*result.levels, abs(result.difference)):
        text = f"{1000 * height:.1f} mm"
        assert text in drawing.words and text in lettering
    assert "B is" in drawing.words and "HIGHER" in drawing.words


def test_every_broken_condition_is_marked_and_said(panel):
    drawing = panel.draw(case(panel, fluid_a=HOT, difference=10, valve=False), SCREEN, True)
    assert [box.text for box in drawing.text_boxes].count("NO") == 3
    assert all(part in drawing.words for part in ("density", "pressure above", "valve is shut"))


def test_equal_levels_are_said_and_nothing_is_marked(panel):
    drawing = panel.draw(case(panel, bore_a=200, bore_b=20, fill_b=100), SCREEN, True)
    lettering = [box.text for box in drawing.text_boxes]
    assert "the levels are equal" in drawing.words and "NO" not in lettering
    assert lettering.count("yes") == 3


def test_hidden_levels_are_neither_drawn_nor_said_nor_given_away(panel):
    result = case(panel, difference=17.5)
    drawing = panel.draw(result, SCREEN, False)
    for number in (*(1000 * level for level in result.levels),
                   *(foot / 100 for foot in result.feet_above)):
        assert f"{number:.1f}" not in drawing.svg and f"{number:.1f}" not in drawing.words
    assert [box.text for box in drawing.text_boxes].count("?") == 3


@pytest.mark.parametrize("look", LOOKS.values(), ids=LOOKS)
def test_lettering_neither_collides_nor_leaves_the_sheet(panel, look):
    drawn = 0
    for fluids, bores, fills, difference, valve in product(FLUIDS, BORES, FILLS, DIFFERENCES,
                                                           (True, False)):
        values = {f"{name}_{key}": value
                  for name, pair in (("fluid", fluids), ("bore", bores), ("fill", fills))
                  for key, value in zip("ab", pair, strict=True)}
        try:
            result = case(panel, difference=difference, valve=valve, density_a=1300,
                          density_b=700, **values)
        except InputError:  # runs over or blows through: the panel says so and draws nothing
            continue
        drawn += 1
        for truth in (True, False) if difference == 20 else (True,):
            drawing = panel.draw(result, look, truth)
            where = f"{values}, {difference} mbar, valve {valve}, truth {truth}"
            assert overlapping(drawing) == [], where
            assert off_the_sheet(drawing, look.width, HEIGHT) == [], where
    assert drawn > 600


@pytest.mark.parametrize("density", [700, 950, 1000, 1300])
def test_two_fluids_never_share_a_filling(panel, density):
    for other in (699.9, density + 0.1, 999.9, 1299.9):
        result = case(panel, fluid_a=TYPED, density_a=density, fluid_b=TYPED, density_b=other,
                      valve=False)
        svg = panel.draw(result, PRINT, True).svg
        filled = set(re.findall(r"url\(#lk\d+-(light-fluid|hot-water|water|brine)\)", svg))
        assert len(filled) == 2, f"{density} and {other} kg/m3"
