"""Pictures drawn ahead of the slider: the same as at the move, and without a trace in the panel."""

import asyncio
import re
from concurrent.futures import ThreadPoolExecutor

import pytest

from levelkit import lesson
from levelkit.panels.picture import REACH, near

AHEAD = [
    lesson.gauge_glass_panel, lesson.vessels_panel, lesson.water_panel, lesson.two_fluid_panel,
    lesson.transmitter_panel, lesson.loop_panel, lesson.sweep_panel, lesson.optics_panel,
    lesson.voting_panel, lesson.breakage_panel, lesson.manifold_panel, lesson.glass_types_panel,
]


def without_ids(markup):
    return re.sub(r"lk\d+-", "", markup)


def sent(panel):
    """Return a list that takes every message to the page from now on."""
    messages = []
    panel._picture.send = messages.append
    return messages


def run(coroutine):
    """Run in a thread of its own: a browser test leaves a loop running in the first one."""
    with ThreadPoolExecutor(1) as pool:
        return pool.submit(asyncio.run, coroutine).result()


def in_hand(panel, name):
    panel._picture._handle_custom_msg({"hand": name}, [])


async def rest():
    for _ in range(3 * REACH):
        await asyncio.sleep(0)


def state_of(panel):
    """Everything that stands beside the picture: controls, buttons, sentences."""
    def below(widget):
        yield widget
        for child in getattr(widget, "children", ()):
            yield from below(child)
    return [repr(sorted(widget.get_state().items())) for widget in below(panel)
            if widget is not panel._picture]


@pytest.mark.parametrize("make", AHEAD, ids=lambda make: make.__name__)
def test_a_picture_drawn_ahead_is_the_picture_of_the_move(make):
    panel = make()
    assert panel.draws_ahead

    async def look():
        for key, slider in panel._sliders().items():
            if slider.disabled:
                continue
            messages, before = sent(panel), state_of(panel)
            in_hand(panel, slider.name)
            await rest()
            pictures = [picture for message in messages for picture in message["pictures"]]
            assert {value for value, _ in pictures} <= set(near(slider)), key
            assert state_of(panel) == before, key
            in_hand(panel, None)
            for value, markup in pictures[:2]:
                slider.value = value
                assert without_ids(panel._picture.value) == without_ids(markup), (key, value)
            panel.reset()
            assert pictures or not near(slider), key

    run(look())


def test_a_move_draws_only_what_is_missing_and_another_control_begins_anew():
    panel = lesson.gauge_glass_panel()

    async def look():
        messages = sent(panel)
        in_hand(panel, "Drum pressure")
        await rest()
        assert sum(len(m["pictures"]) for m in messages) == 2 * REACH
        messages.clear()
        panel.controls["pressure"].value += panel.controls["pressure"].step
        await rest()
        drawn = [value for m in messages for value, _ in m["pictures"]]
        start = panel.controls["pressure"].value - panel.controls["pressure"].step
        assert sorted(drawn) == [start, start + (REACH + 1) * panel.controls["pressure"].step]
        messages.clear()
        panel.controls["level"].value += 1
        await rest()
        assert sum(len(m["pictures"]) for m in messages) == 2 * REACH
        assert len({m["serial"] for m in messages}) == 1

    run(look())


def test_a_refused_position_has_no_picture_ahead_and_no_word_is_said():
    panel = lesson.vessels_panel()
    panel.set(fill_a=450, fill_b=450, bore_b=20)

    async def look():
        messages = sent(panel)
        panel.controls["difference"].value = 12.0
        before = panel._problem.value
        in_hand(panel, "Extra pressure on A")
        await rest()
        drawn = {value for m in messages for value, _ in m["pictures"]}
        assert drawn != set(near(panel.controls["difference"]))
        assert panel._problem.value == before

    run(look())


def test_without_a_loop_nothing_is_drawn_ahead():
    panel = lesson.water_panel()
    messages = sent(panel)
    with ThreadPoolExecutor(1) as pool:
        pool.submit(in_hand, panel, "Gauge pressure").result()
    assert messages == []
