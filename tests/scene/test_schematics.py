"""Line drawings for paper: legible, black on white, and silent about what is asked."""

import re
import xml.etree.ElementTree as ET

import pytest
from overlaps import off_the_sheet, overlapping

from levelkit.errors import InputError
from levelkit.exercises import families
from levelkit.scene.schematics import schematic, schematic_names

NAMES = schematic_names()


def size(drawing):
    box = ET.fromstring(drawing.svg).get("viewBox").split()
    return float(box[2]), float(box[3])


@pytest.mark.parametrize("name", NAMES)
def test_lettering_neither_overlaps_nor_leaves_the_sheet(name):
    drawing = schematic(name)
    assert len(drawing.text_boxes) >= 3
    assert overlapping(drawing) == []
    assert off_the_sheet(drawing, *size(drawing)) == []


@pytest.mark.parametrize("name", NAMES)
def test_a_blank_has_the_same_lines_and_no_letter(name):
    labelled, blank = schematic(name), schematic(name, labelled=False)
    assert blank.text_boxes == () and "<text" not in blank.svg
    assert size(blank) == size(labelled)

    def strokes(drawing):
        return re.findall(r"<(?:line|rect|polygon|circle|polyline)\b[^>]*>", drawing.svg)
    assert strokes(blank) == [re.sub(r"lk\d+-", prefix(blank), stroke)
                              for stroke in strokes(labelled)]


def prefix(drawing):
    return re.search(r"lk\d+-", drawing.svg).group()


@pytest.mark.parametrize("name", NAMES)
@pytest.mark.parametrize("labelled", [True, False])
def test_only_black_and_white_reach_the_paper(name, labelled):
    assert set(re.findall(r"#[0-9a-fA-F]{6}", schematic(name, labelled).svg)) <= {
        "#000000", "#ffffff"}


@pytest.mark.parametrize("name", NAMES)
def test_no_number_and_no_direction_is_given_away(name):
    words = " ".join(box.text for box in schematic(name).text_boxes)
    assert not re.search(r"\d \w|LOW|HIGH|reads", words)


def test_every_figure_that_the_bank_asks_for_exists():
    wanted = {family.figure for family in families().values()} - {""}
    assert wanted and wanted <= set(NAMES)


def test_an_unknown_drawing_is_a_sentence():
    with pytest.raises(InputError, match="no drawing “funnel”; drawings are gauge glass"):
        schematic("funnel")
