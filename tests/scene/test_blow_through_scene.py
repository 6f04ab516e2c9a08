"""The drill's picture: it shows what is seen and nothing of what is hidden."""

import random
import re
from dataclasses import replace
from functools import cache
from itertools import product

import pytest
from overlaps import off_the_sheet, overlapping

from levelkit.physics.blow_glass import (
    DRY,
    OPEN,
    OPEN_GENTLY,
    SHUT,
    STRONG,
    WEAK,
    WET,
    DrillMove,
)
from levelkit.physics.blow_ledger import STATEMENTS, ledger
from levelkit.physics.blow_replay import replayed
from levelkit.physics.blow_through import new_drill
from levelkit.scene.blow_through import (
    HEIGHT,
    SHORT_NAMES,
    WIDTH,
    BlowView,
    blow_words,
    draw_blow_through,
)
from levelkit.scene.look import LOOKS, SCREEN


def picture(drill, look=SCREEN, show=False):
    words = {"proved": "yes", "disproved": "NO", "open": "not yet"}
    lines = tuple((line.statement, words[line.verdict], line.move) for line in ledger(drill))
    return draw_blow_through(BlowView(drill.entries, lines, drill.condition if show else None,
                                      f"Drill {drill.seed}: proved?"), look)


def random_run(seed, length):
    draw = random.Random(seed)
    return replayed(seed, [DrillMove(draw.choice(("steam", "water", "drain")),
                                     draw.choice((SHUT, OPEN_GENTLY, OPEN)))
                           for _ in range(length)])


@cache
def runs():
    """Twenty runs of twelve moves, made once for all sizes."""
    return tuple(random_run(seed, 12) for seed in range(1, 21))


def test_what_cannot_be_told_apart_looks_alike():
    """Water way choked, found with a level: the same picture wherever the drum level is."""
    drawn = {re.sub(r"lk\d+-", "", picture(new_drill(5, fault="both ways choked", zone=zone)).svg)
             for zone in ("in the visible glass", "below the water connection",
                          "above the visible glass")}
    assert len(drawn) == 1


def test_the_truth_is_drawn_when_it_may_be_seen():
    drill = new_drill(5, fault="steam way choked", zone="above the visible glass")
    hidden, shown = picture(drill), picture(drill, show=True)
    cover = re.compile(r"url\(#lk\d+-hidden\)")
    assert cover.search(hidden.svg.split("</defs>")[1])
    assert not cover.search(shown.svg.split("</defs>")[1])
    scale = '<polygon points="143.0,'
    assert scale in shown.svg and scale not in hidden.svg


def test_every_statement_of_the_ledger_has_a_short_name():
    assert set(SHORT_NAMES) == set(STATEMENTS)
    assert len(set(SHORT_NAMES.values())) == len(STATEMENTS)


def test_blows_are_told_by_words_and_strength_by_length():
    seen = {}
    for drill in runs():
        for entry in drill.entries:
            seen[entry.sight.blow, entry.sight.nature] = entry.sight
    assert {(STRONG, WET), (STRONG, DRY), (WEAK, WET), (WEAK, DRY)} <= set(seen)
    assert len({blow_words(sight) for sight in seen.values()}) == len(seen)


@pytest.mark.parametrize("look", LOOKS.values(), ids=LOOKS)
def test_lettering_neither_collides_nor_leaves_the_sheet(look):
    for drill, length in product(runs(), (0, 1, 5, 12)):
        part = replace(drill, entries=drill.entries[:length + 1])
        for show in (False, True):
            drawing = picture(part, look, show)
            where = f"drill {drill.seed}, {length} moves, truth {show}"
            assert overlapping(drawing) == [], where
            assert off_the_sheet(drawing, WIDTH, HEIGHT) == [], where
