"""The drill's picture: every valve says how it stands, lettering never collides."""

from itertools import product

import pytest
from overlaps import off_the_sheet, overlapping

from levelkit.lesson import manifold_panel
from levelkit.panels.manifold_tasks import TASKS
from levelkit.scene.look import LOOKS, SCREEN
from levelkit.scene.manifold import HEIGHT

VALVES = ("drum_isolator", "reference_isolator", "equaliser", "drum_drain", "reference_drain",
          "drum_vent", "reference_vent", "chamber_steam_valve")


def lettering(drawing):
    return [box.text for box in drawing.text_boxes]


def test_every_valve_is_lettered_with_its_state_and_the_words_agree():
    panel = manifold_panel()
    texts = lettering(panel.drawing)
    assert texts.count("isolator open") == 2 and "equaliser SHUT" in texts
    assert texts.count("drain SHUT") == texts.count("vent SHUT") == 2
    panel.move("drum_isolator")
    panel.move("equaliser")
    texts = lettering(panel.drawing)
    assert texts.count("isolator open") == 1 and "equaliser open" in texts
    assert "drum isolator SHUT" in panel.drawing.words
    assert "equaliser open" in panel.drawing.words


def test_the_reading_and_the_lost_leg_are_lettered():
    panel = manifold_panel()
    panel.set(task="fill leg and chamber", level=180)
    texts = lettering(panel.drawing)
    assert "300 mm lost" in texts and "20.50 mA" in texts and "drum 180.0 mm" in texts
    assert "shows FULL" in texts and "lacks 300 mm" in panel.drawing.words


def test_a_hidden_truth_is_neither_drawn_nor_said():
    panel = manifold_panel()
    panel.set(level=217, task="put into service")
    drawing = panel.draw(panel.result, SCREEN, False)
    assert "217" not in drawing.words and "217.0" not in drawing.svg
    assert "drum hidden" in lettering(drawing)


@pytest.mark.parametrize("look", LOOKS.values(), ids=LOOKS)
def test_lettering_neither_collides_nor_leaves_the_sheet(look):
    for boiler, task in product(("auxiliary", "water_tube"), TASKS):
        panel = manifold_panel(boiler)
        panel.set(task=task)
        for number, valve in enumerate((*VALVES, *VALVES[::-1], *VALVES[::2])):
            panel.move(valve)
            if number % 5 == 0:
                panel.set(level=40 * (number % 7), pressure=60 - number)
            for truth in (True, False):
                drawing = panel.draw(panel.result, look, truth)
                where = f"{boiler}, {task}, move {number + 1}, truth {truth}"
                assert overlapping(drawing) == [], where
                assert off_the_sheet(drawing, look.width, HEIGHT) == [], where
