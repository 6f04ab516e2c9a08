"""Gauge glasses and a gauge cover as drawn: every part once, no lettering collides."""

from itertools import product

import pytest
from overlaps import off_the_sheet, overlapping

from levelkit.panels.bolts_panel import BoltsPanel
from levelkit.physics.glass_choice import TYPES, chosen_glass
from levelkit.scene import bolts, glass_types
from levelkit.scene.canvas import Canvas
from levelkit.scene.glass_elevation import draw_elevation
from levelkit.scene.glass_sections import draw_section
from levelkit.scene.glass_types import GlassTypesView, draw_glass_types, part_numbers
from levelkit.scene.look import LOOKS, SCREEN

KINDS = list(TYPES.values())


def names(kind):
    return tuple(part.name for part in kind.parts)


def drawn(kind, bar=7.0, named=None, asked=None, choice=True, look=SCREEN):
    return draw_glass_types(GlassTypesView(
        kind, bar * 1e5, chosen_glass(bar * 1e5), names(kind) if named is None else named, asked,
        choice), look)


@pytest.mark.parametrize("kind", KINDS, ids=TYPES)
def test_every_part_of_the_catalogue_has_one_balloon(kind):
    canvas = Canvas(SCREEN, 400)
    balloons = draw_elevation(canvas, kind.name) + draw_section(canvas, kind.name)
    assert sorted(balloon.part for balloon in balloons) == sorted(names(kind))
    lettering = [box.text for box in drawn(kind).text_boxes]
    for name, number in part_numbers(kind).items():
        assert lettering.count(str(number)) == 2, "once on the drawing, once in the list"
        assert lettering.count(name) == 1


def test_a_part_not_yet_named_is_not_written():
    kind = KINDS[0]
    picture = drawn(kind, named=("guard",), asked="ball check", choice=False)
    lettering = [box.text for box in picture.text_boxes]
    assert "guard" in lettering and "which part is this?" in lettering
    for hidden in set(names(kind)) - {"guard"}:
        assert hidden not in lettering and hidden not in picture.words


@pytest.mark.parametrize("bar, said", [(7, "suits (up to 17.5)"), (19, "NOT for 19.0 bar g"),
                                       (60, "a plate glass with mica is wanted")])
def test_the_words_judge_a_tube_by_its_pressure(bar, said):
    assert said in drawn(KINDS[0], bar).words


@pytest.mark.parametrize("look", LOOKS.values(), ids=LOOKS)
def test_lettering_neither_collides_nor_leaves_the_sheet(look):
    for kind, bar, choice in product(KINDS, (0.5, 7, 17.5, 20.6, 60, 100), (True, False)):
        for asked in (None, *names(kind)):
            named = names(kind) if asked is None else ()
            picture = drawn(kind, bar, named, asked, choice, look)
            where = f"{kind.name}, {bar} bar, {asked}"
            assert overlapping(picture) == [], where
            assert off_the_sheet(picture, look.width, glass_types.HEIGHT) == [], where


@pytest.mark.parametrize("look", LOOKS.values(), ids=LOOKS)
@pytest.mark.parametrize("order", ["", "1L", "4L 5R", "end first", "from the middle outwards"])
def test_the_cover_in_every_state(look, order):
    panel = BoltsPanel()
    panel.set(**panel.presets.get(order, {"order": order}))
    picture = panel.draw(panel.result, look, True)
    assert overlapping(picture) == []
    assert off_the_sheet(picture, look.width, bolts.HEIGHT) == []
