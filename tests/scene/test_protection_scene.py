"""The voting picture: lamps and legs follow the result, nothing collides."""

from itertools import product

import pytest
from overlaps import off_the_sheet, overlapping

from levelkit.panels.vote_case import FROZEN, LEG_LOST, OWN_LEGS, SHARED_LEG, STATES
from levelkit.panels.voting_panel import VotingPanel
from levelkit.physics.voting import ARCHITECTURES, BAD_INPUT
from levelkit.scenario import load_ship
from levelkit.scene.look import LOOKS, SCREEN
from levelkit.scene.protection import HEIGHT

SHIP = load_ship()


@pytest.fixture(scope="module")
def panels():
    return {name: VotingPanel(boiler, SHIP.barometer) for name, boiler in SHIP.boilers.items()}


def drawn(panel, look=SCREEN, truth=True, **values):
    return panel.draw(panel.evaluate(panel._start | values), look, truth)


def lettering(drawing):
    return [box.text for box in drawing.text_boxes]


def test_a_lamp_says_how_each_transmitter_votes(panels):
    texts = lettering(drawn(panels["water_tube"], level=100, A=FROZEN))
    assert texts.count("TRIP") == 2 and texts.count("stay") == 1
    assert "2oo3: 2 of 3 needed, 2 for a trip" in texts and "TRIPS: fuel shut off" in texts
    assert "A: frozen" in texts


def test_the_chosen_arrangement_is_marked_in_the_table(panels):
    texts = lettering(drawn(panels["water_tube"], vote="2oo2"))
    assert "\u25b8 2oo2" in texts and "1oo2" in texts and "not used" in texts


def test_one_leg_or_three_are_drawn_and_said(panels):
    own = drawn(panels["water_tube"], A=LEG_LOST, legs=OWN_LEGS)
    shared = drawn(panels["water_tube"], A=LEG_LOST, legs=SHARED_LEG)
    assert lettering(own).count("FULL") == 1 and lettering(shared).count("FULL") == 3
    assert "one reference leg for all" in lettering(shared)
    assert lettering(own).count("empty") == lettering(shared).count("empty") == 1


@pytest.mark.parametrize("look", LOOKS.values(), ids=LOOKS)
def test_lettering_neither_collides_nor_leaves_the_sheet(panels, look):
    states = list(product(STATES, STATES[1:3], STATES))
    cases = list(product(panels, ARCHITECTURES, (0, 90, 128, 250, 400), (OWN_LEGS, SHARED_LEG),
                         BAD_INPUT))
    for index, (name, vote, level, legs, rule) in enumerate(cases):
        a, b, c = states[index % len(states)]
        panel = panels[name]
        panel._counted = None
        values = {"vote": vote, "level": level, "legs": legs, "bad": rule, "A": a, "B": b, "C": c,
                  "leg_losses": index % 2, "loss": 0.1 if index % 3 else 30}
        drawing = drawn(panel, look, index % 4 != 3, **values)
        assert overlapping(drawing) == [], values
        assert off_the_sheet(drawing, look.width, HEIGHT) == [], values


@pytest.mark.parametrize("look", LOOKS.values(), ids=LOOKS)
def test_a_drawn_result_has_its_room(panels, look):
    panel = panels["water_tube"]
    for values in ({}, {"vote": "1oo1", "failures": 5, "test": 36}, {"vote": "2oo3", "common": 0}):
        panel.set(**panel._start | values)
        panel.draw_at_random(seed=1234)
        drawing = panel.draw(panel.result, look, True)
        assert overlapping(drawing) == [] and off_the_sheet(drawing, look.width, HEIGHT) == []
        assert any("seed 1234" in text for text in lettering(drawing))
