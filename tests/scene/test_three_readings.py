"""The picture of six indicators: every state fits, and words say what the marks show."""

import pytest
from overlaps import overlapping

from levelkit.diagnosis.correction import corrected_readings
from levelkit.diagnosis.faulty import SettingKey, candidates
from levelkit.diagnosis.readings import bench_result
from levelkit.diagnosis.setting import BenchSetting
from levelkit.scenario import load_ship
from levelkit.scene.look import PROJECTOR, SCREEN
from levelkit.scene.three_readings import BenchView, draw_three_readings

SHIP = load_ship()


def setting(level=0.25):
    return BenchSetting(SHIP.boilers["water_tube"], SHIP.barometer, 60.0, 0.25, level)


FAULTS = candidates(SettingKey(setting()))[::3]


@pytest.mark.parametrize("look", [SCREEN, PROJECTOR], ids=["screen", "projector"])
@pytest.mark.parametrize("placed", FAULTS, ids=lambda item: f"{item.key}-{item.place}")
def test_no_lettering_collides_in_any_state(look, placed):
    result = bench_result(setting(level=0.12), (placed,))
    for corrected in (None, corrected_readings(result)):
        drawing = draw_three_readings(BenchView(result, corrected, 12.5, True), look)
        assert overlapping(drawing) == []
        assert all(box.left >= 0 and box.right <= look.width for box in drawing.text_boxes)
        for name, reading in result.readings.items():
            assert name in drawing.words and reading.text in drawing.svg


def test_the_true_level_is_told_only_when_it_may_be():
    result = bench_result(setting(level=0.123))
    hidden = draw_three_readings(BenchView(result, None, 0.5, False), SCREEN)
    shown = draw_three_readings(BenchView(result, None, 0.5, True), SCREEN)
    assert "True level 123 mm" in shown.words
    assert "The true level is hidden" in hidden.words and ">hidden<" in hidden.svg
    assert ">hidden<" not in shown.svg
