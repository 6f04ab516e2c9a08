"""The lectern: one for all panels, which follow it; notes found by the lesson's number."""

import pytest

from levelkit.lesson import Prediction, gauge_glass_panel, water_panel
from levelkit.panels.lectern import lectern, notes_of


def asked(number):
    lectern()._handle_custom_msg({"lesson": number}, [])
    return lectern().notes


def test_panels_and_cards_share_one_lectern_and_draw_large_with_it():
    panels = gauge_glass_panel(), water_panel()
    card = Prediction("?", ["a", "b"], "a", "because")
    assert all(lectern() in part.children for part in (*panels, card))
    lectern().presenting = True
    try:
        assert all("font-size=\"20.0\"" in panel.drawing.svg for panel in panels)
    finally:
        lectern().presenting = False
    assert all("font-size=\"20.0\"" not in panel.drawing.svg for panel in panels)


@pytest.mark.parametrize("number, minutes, title", [("03", 45, "03 Why does the gauge glass"),
                                                    ("05", 90, "05 Which cock is choked")])
def test_the_page_that_names_its_lesson_gets_its_notes(number, minutes, title):
    notes = asked(number)
    assert notes["minutes"] == minutes and notes["lesson"] == number
    assert title in notes["page"] and "<table>" in notes["page"]


def test_what_is_no_lesson_number_is_not_looked_for():
    before = asked("03")
    assert asked("../03") == before and asked("3") == before
    assert "no notes" in asked("99")["page"]
    assert asked("99")["minutes"] == 0


def test_own_notes_beside_the_notebook_come_first(tmp_path):
    (tmp_path / "notes").mkdir()
    (tmp_path / "notes" / "03_mine.md").write_text(
        "# Mine\n\n50 minutes.\n\n<script>alert(1)</script>\n", encoding="utf-8")
    notes = notes_of("03", tmp_path)
    assert notes["minutes"] == 50 and "Mine" in notes["page"]
    assert "<script>" not in notes["page"], "raw markup is shown, not run"
