"""The room check: every line can fail, and says what to do when it does."""

import sys
from importlib import metadata

import pytest

from levelkit import room
from levelkit.cli import main
from levelkit.constants import CAUTION
from levelkit.room import FAILS, LOOK, OK, Line


def told(version):
    """A browser that says so."""
    return room.browser_line(("sh",), lambda path: version)


def missing(name):
    raise metadata.PackageNotFoundError(name)


@pytest.mark.parametrize("line, verdict, words", [
    (room.python_line((3, 11, 2)), OK, "3.11.2"),
    (room.python_line((3, 9, 1)), FAILS, "3.9.1"),
    (room.packages_line(["numpy>=1", 'ruff>=9999; extra == "test"']), OK, "all 1 as needed"),
    (room.packages_line(["numpy>=9999"]), FAILS, "needed >=9999"),
    (room.packages_line(["no-such-thing>=1"], missing), FAILS, "no-such-thing missing"),
    (room.kernel_line(sys.executable), OK, "runs in"),
    (room.kernel_line("/elsewhere/bin/python"), FAILS, "another Python"),
    (told("Browser 156.0.1"), OK, "156"),
    (told("Browser 99.0.1"), FAILS, "older than 100"),
    (told(""), LOOK, "does not tell"),
    (room.browser_line(("no-such-browser",)), LOOK, "none found"),
    (room.font_line(["/a/DejaVuSans.ttf"]), OK, "DejaVu Sans"),
    (room.font_line(["/a/comic.ttf"]), LOOK, "none of the fonts"),
    (room.redraw_line([5.0] * 95 + [90.0] * 3), OK, "median 5.0 ms"),
    (room.redraw_line([5.0] * 80 + [90.0] * 20), LOOK, "95 % within 90.0 ms"),
    (room.redraw_line([5.0] * 80 + [300.0] * 20), FAILS, "300.0 ms"),
    (room.screen_line((1920, 1080)), OK, "1920x1080"),
    (room.screen_line((1024, 768)), LOOK, "1024x768"),
    (room.screen_line(None), LOOK, "not told"),
])
def test_a_line_is_judged_and_whatever_is_not_well_is_advised_on(line, verdict, words):
    assert line.verdict == verdict and words in line.found
    assert line.advice or verdict == OK


def test_a_folder_that_cannot_be_written_fails(tmp_path):
    assert room.folder_line(tmp_path).verdict == OK
    assert room.folder_line(tmp_path / "not there").verdict == FAILS


def test_a_move_is_really_timed():
    times = room.redraw_times(5)
    assert len(times) == 5 and all(0.1 < one < 5000 for one in times)


def test_one_failing_line_fails_the_page():
    text, passed = room.room_page([Line("A", "b", OK), Line("C", "d", LOOK, "do e")])
    assert passed and "1 ok, 1 to look at, 0 failing." in text and "       do e" in text
    assert text.endswith(CAUTION)
    assert not room.room_page([Line("A", "b", FAILS, "c")])[1]


def test_the_command_prints_a_line_for_each_thing(capsys):
    status = main(["check", "--room"])
    page = capsys.readouterr().out
    for subject in ("Python", "Packages", "Notebook kernel", "Browser", "Letters", "Lessons",
                    "A move of a slider", "Screen"):
        assert f" {subject}: " in page
    assert status == (1 if f"\n{FAILS}" in page else 0)
