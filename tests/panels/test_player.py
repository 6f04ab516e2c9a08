"""The player keeps what the browser needs, and its frame stays inside the film."""

import json

import pytest
import traitlets

from levelkit.panels.player import Player
from levelkit.scene.canvas import Canvas
from levelkit.scene.film import film
from levelkit.scene.look import SCREEN


def short_film(count):
    canvases = []
    for height in range(count):
        canvas = Canvas(SCREEN, 100)
        canvas.line(0, height, 10, height)
        canvases.append(canvas)
    return film(canvases, [0.5 * i for i in range(count)], "a film",
                [f"height {i}" for i in range(count)])


@pytest.fixture()
def player():
    made = Player()
    made.load(short_film(10), pace=2.0, repeats=True)
    return made


def test_the_table_is_plain_data_with_one_value_per_frame(player):
    table = json.loads(json.dumps(player.film))
    assert len(table["times"]) == len(table["words"]) == 10
    assert {attribute for _, attribute, _ in table["tracks"]} == {"y1", "y2"}
    assert all(len(values) == 10 for _, _, values in table["tracks"])
    assert (player.pace, player.repeats) == (2.0, True)


def test_a_frame_outside_the_film_is_refused_in_a_sentence(player):
    player.frame = 9
    for frame in (-1, 10):
        with pytest.raises(traitlets.TraitError, match="outside 0 to 9"):
            player.frame = frame
    assert player.frame == 9


def test_another_film_keeps_the_frame_if_it_has_one(player):
    player.frame = 7
    player.load(short_film(8))
    assert player.frame == 7
    player.load(short_film(3))
    assert player.frame == 2
    player.load(short_film(1))
    assert player.frame == 0 and player.film["tracks"] == []


def test_a_frame_of_a_film_that_was_replaced_meanwhile_is_no_news(player):
    """The page may rest at a frame of the old film while the kernel already has a shorter one."""
    player.set_state({"frame": 7})
    assert player.frame == 7
    player.load(short_film(3))
    player.set_state({"frame": 9, "pace": 5.0})
    assert (player.frame, player.pace) == (2, 5.0)
