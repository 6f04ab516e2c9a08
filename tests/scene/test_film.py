"""A film is its frames: what changes is found, nothing else, and wrong films are refused."""

import xml.etree.ElementTree as ET

import pytest

from levelkit.scene.canvas import Canvas
from levelkit.scene.film import TEXT, film
from levelkit.scene.look import SCREEN


def canvases(*heights, extra=lambda canvas, height: None):
    made = []
    for height in heights:
        canvas = Canvas(SCREEN, 100)
        canvas.rect(0, 0, 50, 90, "metal", "outline")
        canvas.polygon([(0, 90), (50, 90), (50, height), (0, height + 1)], "water")
        canvas.text(60, 50, f"{height:.0f}")
        extra(canvas, height)
        made.append(canvas)
    return made


def made(*heights, **more):
    return film(canvases(*heights, **more), range(len(heights)), "a film",
                [f"height {height}" for height in heights])


def test_only_what_changes_becomes_a_track():
    found = made(10, 20, 30)
    assert [track.attribute for track in found.tracks] == ["points", TEXT]
    points, text = found.tracks
    assert points.values[1] == (0.0, 90.0, 50.0, 90.0, 50.0, 20.0, 0.0, 21.0)
    assert text.values == ("10", "20", "30")
    marked = [e for e in ET.fromstring(found.svg).iter() if e.get("data-part")]
    assert [e.tag.split("}")[1] for e in marked] == ["polygon", "text"]
    assert [e.get("data-part") for e in marked] == [points.part, text.part]


def test_a_frame_is_the_picture_that_was_drawn():
    found = made(10, 20)
    drawing = found.drawing(1)
    assert ">20</text>" in drawing.svg and drawing.words == "height 20"
    assert [box.text for box in drawing.text_boxes] == ["20"]


def test_one_frame_is_a_film_without_tracks():
    assert made(10).tracks == ()


@pytest.mark.parametrize("extra, complaint", [
    (lambda c, h: c.circle(1, 1, 1) if h > 10 else None, "same elements"),
    (lambda c, h: c.circle(1, 1, 1) if h > 10 else c.line(0, 0, 1, 1), "another element"),
    (lambda c, h: c.rect(1, 1, 2, 2, "water" if h > 10 else "steam"), "keeps its filling"),
])
def test_frames_that_do_not_belong_together_are_refused(extra, complaint):
    with pytest.raises(ValueError, match=complaint):
        made(10, 20, extra=extra)


def test_times_rise_and_every_frame_has_its_words():
    with pytest.raises(ValueError, match="rise"):
        film(canvases(10, 20), [0.0, 0.0], "a film", ["a", "b"])
    with pytest.raises(ValueError, match="its time and its words"):
        film(canvases(10, 20), [0.0, 1.0], "a film", ["a"])


def test_lettering_keeps_its_marks_and_quotes():
    texts = ('"half" & <full>', '"full" > half')
    found = made(10, 20, extra=lambda c, h: c.text(5, 5, texts[h > 10]))
    assert found.tracks[-1].values == texts


def test_what_differs_beside_a_still_neighbour_is_told_by_its_attribute():
    found = made(10, 20, extra=lambda c, h: c.line(h, 3, 7, 3))
    track = found.tracks[-1]
    assert (track.attribute, track.values) == ("x1", (10.0, 20.0))
