"""The swell picture: marks stand at their numbers, nothing collides in any frame."""

import re
from itertools import product

import pytest
from overlaps import off_the_sheet, overlapping

from levelkit.panels.boiler_run import BY_HAND, LARGE, ONE_ELEMENT, SMALL, THREE_ELEMENTS
from levelkit.panels.swell_panel import SwellPanel, _rows
from levelkit.physics.transient_presets import PRESETS
from levelkit.scene.look import LOOKS, SCREEN
from levelkit.scene.parts import widest_rows
from levelkit.scene.swell import HEIGHT, signed


@pytest.fixture(scope="module")
def panel():
    return SwellPanel(101_325.0)


def made(panel, look=SCREEN, truth=True, **values):
    run = panel.evaluate(panel._start | values)
    return run, panel.film(run, look, truth)


def heights(film, frame, pen):
    """Vertical places of the level lines of that width and dash in a frame."""
    return [float(y) for y in re.findall(
        rf'<line x1="[\d.]+" y1="([\d.]+)"[^>]*stroke-width="{pen}/>',
        "".join(film.frames[frame].elements))]


def test_surface_and_glass_stand_where_the_chart_says(panel):
    run, film = made(panel)
    true, shown = '2.4"', '2.4" stroke-dasharray="8 4"'
    start = heights(film, 0, true)[-1], heights(film, 0, shown)[-1]
    assert start[0] == start[1], "both count from one mark"
    frame = 20
    i = run.records[frame]
    rise = start[0] - heights(film, frame, true)[-1]
    seen = start[1] - heights(film, frame, shown)[-1]
    assert rise / seen == pytest.approx(run.surface[i] / run.shown[i], rel=0.1) or seen == 0
    assert rise > 30
    assert signed(run.surface[i], "mm") in film.words[frame]


def test_the_cursor_runs_with_the_time(panel):
    _, film = made(panel)
    cursor = next(track for track in film.tracks if track.attribute == "x1")
    assert list(cursor.values) == sorted(cursor.values)
    assert cursor.values[0] == 356.0 and cursor.values[-1] == 806.0


@pytest.mark.parametrize("look", LOOKS.values(), ids=LOOKS)
def test_lettering_neither_collides_nor_leaves_the_sheet(panel, look):
    cases = [(LARGE, event, BY_HAND, 200) for event in PRESETS]
    cases += [(SMALL, event, BY_HAND, 600) for event in PRESETS]
    cases += [(LARGE, event, feed, 600) for event, feed in product(
        ("load step up", "safety valve sticking open"), (ONE_ELEMENT, THREE_ELEMENTS))]
    for boiler, event, feed, duration in cases:
        run, film = made(panel, look, event != "load step down", boiler=boiler, event=event,
                         feed=feed, duration=duration)
        for frame in (0, 14, len(run.records) // 2, len(run.records) - 1):
            drawing = film.drawing(frame)
            where = f"{boiler}, {event}, {feed}, frame {frame}"
            assert overlapping(drawing) == [], where
            assert off_the_sheet(drawing, look.width, HEIGHT) == [], where


def test_a_change_is_written_with_its_sign():
    assert [signed(x, "mm") for x in (48.4, -0.6, 0.4, -0.4)] == [
        "+48 mm", "\u22121 mm", "0 mm", "0 mm"]


@pytest.mark.parametrize("look", LOOKS.values(), ids=LOOKS)
def test_names_stand_still_while_their_numbers_move(panel, look):
    """A name whose size followed its number would twitch all through the film."""
    run, film = made(panel, look, event="feed loss")
    names = [name for name, _ in _rows(run, 0, look, True)]
    marked = re.findall(r"<text data-part[^>]*>([^<]*)<", film.svg)
    still = re.findall(r"<text x[^>]*>([^<]*)<", film.svg)
    assert set(names) <= set(still) and not set(names) & set(marked)
    assert signed(run.surface[0], "mm") in marked


def test_the_widest_value_makes_the_room_for_its_name():
    assert widest_rows([[("a", "1 mm"), ("b", "0")], [("a", "\u22121000 mm"), ("b", "0")]]) == [
        ("a", "\u22121000 mm"), ("b", "0")]
