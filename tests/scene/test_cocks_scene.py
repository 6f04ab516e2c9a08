"""The gauge glass in time: the water stands at the record's height in every frame."""

import re
from itertools import product

import pytest
from overlaps import off_the_sheet, overlapping

from levelkit.lesson import ship
from levelkit.panels.cocks_panel import POINTS, CocksPanel
from levelkit.panels.cocks_setting import DRAINED, FAULTS, IN_SERVICE
from levelkit.scene.cocks import HEIGHT
from levelkit.scene.look import LOOKS, SCREEN


@pytest.fixture(scope="module")
def panel():
    return CocksPanel(ship.boilers["auxiliary"], ship.barometer)


def made(panel, look=SCREEN, truth=True, **values):
    case = panel.evaluate(panel._start | values)
    return case, panel.film(case, look, truth)


def water_edge(film, frame):
    """Upper edge of the glass water in a frame."""
    return float(re.search(r'<rect x="239.0" y="([\d.]+)"[^>]*glass-water',
                           "".join(film.frames[frame].elements))[1])


def test_the_water_and_the_pen_stand_at_the_height_of_the_record(panel):
    case, film = made(panel, fault="steam way choked")
    for frame in (0, 4, 10, 20):
        y = 236 - (236 - 40) * case.history.height[frame] / 0.4
        assert water_edge(film, frame) == pytest.approx(max(y, 55), abs=0.06)
        assert f'cy="{round(y, 1)}"' in "".join(film.frames[frame].elements)


def test_what_is_to_come_is_covered(panel):
    _, film = made(panel, fault="steam way choked")
    cover = next(track for track in film.tracks
                 if track.attribute == "width" and track.values[-1] == 0.0)
    assert list(cover.values) == sorted(cover.values, reverse=True)


def test_a_run_to_be_predicted_shows_its_start_only(panel):
    _, film = made(panel, truth=False, fault="steam way choked")
    assert len(film.times) == 1 and "396" not in film.svg and "exp" not in film.svg


@pytest.mark.parametrize("values, strong", [({"drain": 100}, "WET"),
                                            ({"drain": 100, "water": 0}, "DRY")])
def test_wet_and_dry_blows_differ_in_words_and_in_pattern(panel, values, strong):
    _, film = made(panel, **values)
    last = "".join(film.frames[-1].elements)
    jet = re.findall(r'<polygon points="272.0,[^"]*"[^>]*brine', last)
    width = {len(set(re.findall(r"[\d.]+", polygon))) for polygon in jet}
    assert f"strong {strong} blow" in film.words[-1]
    assert (max(width) > 3) == (strong == "WET"), "water in the jet only when it is wet"


def test_a_choke_is_seen_in_its_own_way(panel):
    for fault, height in (("steam way choked", "33.0"), ("water way choked", "229.0")):
        _, film = made(panel, fault=fault)
        marks = re.findall(r'<polygon points="201.0,([\d.]+)', film.svg)
        assert height in marks, fault
    assert "201.0,33.0" not in made(panel)[1].svg


@pytest.mark.parametrize("look", LOOKS.values(), ids=LOOKS)
def test_lettering_neither_collides_nor_leaves_the_sheet(panel, look):
    stands = [{"steam": s, "water": w, "drain": d} for s, w, d in product((0, 100), repeat=3)]
    runs = [(stand, "none", IN_SERVICE, 200, 30.0) for stand in stands]
    runs += [({}, fault, IN_SERVICE, 200, 3600.0) for fault in FAULTS]
    runs += [({"steam": 55, "drain": 45}, "none", DRAINED, level, 10.0)
             for level in (-80, 0, 20, 390, 480)]
    for stand, fault, begin, level, seconds in runs:
        _, film = made(panel, look, fault=fault, begin=begin, level=level, seconds=seconds, **stand)
        for frame in (0, 1, 12, POINTS - 1):
            where = f"{stand}, {fault}, {begin}, level {level}, frame {frame}"
            drawing = film.drawing(frame)
            assert overlapping(drawing) == [], where
            assert off_the_sheet(drawing, look.width, HEIGHT) == [], where
