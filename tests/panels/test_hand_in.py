"""The hand-in of the practice panel: own work, no name, whole or not at all, accepted by mark."""

import json

import pytest
from paper_samples import write_sheet

from levelkit.cli import main
from levelkit.panels.practice_panel import PracticePanel


def answer(panel, wrong=()):
    """Fill in every step right but for some, and check."""
    for step, entry in panel.entries.items():
        family_step = panel.question.family.step(step)
        if family_step.kind == "choice":
            entry.value = panel.question.solution.steps[step]
        else:
            entry.value = "1 mm" if step in wrong else panel.question.answer(step)
    panel.check.click()


def saved(folder, number="1003"):
    return json.loads((folder / f"hand-in-{number}.json").read_text(encoding="utf-8"))


@pytest.fixture
def panel(tmp_path):
    return PracticePanel("glass-reads-low", "1003", tmp_path)


def test_the_last_own_answer_to_each_question_is_handed_in(panel, tmp_path):
    answer(panel, wrong=["height"])
    answer(panel)
    panel.family.value = "reversed-reading"
    answer(panel)
    panel.hand_in.click()
    document = saved(tmp_path)
    assert document["candidate"] == "1003"
    assert [one["family"] for one in document["attempts"]] == ["glass-reads-low",
                                                               "reversed-reading"]
    assert document["attempts"][0]["entries"]["height"] != "1 mm"
    assert "marks" not in json.dumps(document)
    assert "hand-in-1003.json" in panel._progress_line.value
    assert not list(tmp_path.glob("*.part*"))


def test_a_name_is_refused_since_it_would_become_a_file_name(tmp_path):
    panel = PracticePanel("glass-reads-low", "Invented Cadet", tmp_path)
    answer(panel)
    panel.hand_in.click()
    assert "is no candidate number" in panel._progress_line.value
    assert not list(tmp_path.glob("hand-in*"))


def test_worked_answers_are_not_handed_in(panel, tmp_path):
    panel.hand_in.click()
    assert "Nothing of your own is checked yet" in panel._progress_line.value
    for name in ("hint", "formula", "working"):
        panel.help[name].click()
    answer(panel)
    panel.hand_in.click()
    assert "Nothing of your own" in panel._progress_line.value
    assert not list(tmp_path.glob("hand-in*"))


def test_a_folder_that_refuses_gets_a_sentence(panel, tmp_path, monkeypatch):
    answer(panel)

    def refuse(*_):
        raise OSError(28, "No space left on device")
    monkeypatch.setattr("levelkit.panels.hand_in.write_json", refuse)
    panel.hand_in.click()
    assert "could not be written (No space left on device)" in panel._progress_line.value


def homework(folder, practice="true"):
    sheet = write_sheet(folder, 3, practice=practice,
                        questions='["glass-reads-low", "reversed-reading"]')
    assert main(["paper", str(sheet)]) == 0
    place = folder / "test_1" / "hand_ins"
    place.mkdir()
    return place


def test_homework_is_marked_on_the_numbers_that_the_panel_gave(panel, tmp_path, capsys):
    place = homework(tmp_path)
    answer(panel)                     # the panel gives new numbers after each fetch
    panel.fetch.click()
    answer(panel, wrong=["height"])
    panel.family.value = "reversed-reading"
    answer(panel)
    panel.hand_in.click()
    (tmp_path / "hand-in-1003.json").rename(place / "1003.json")
    assert main(["mark", str(tmp_path / "test_1")]) == 0
    said = capsys.readouterr().out
    assert "1 of 3 candidates marked" in said and "0 rows or files could not be read" in said
    totals = (tmp_path / "test_1" / "marks" / "totals.csv").read_text().splitlines()
    row = next(line for line in totals if line.startswith("1003"))
    most = panel.result.maximum
    assert int(row.split(",")[2]) == most and 0 < int(row.split(",")[1]) < 7
    assert main(["report", str(tmp_path / "test_1")]) == 0
    page = (tmp_path / "test_1" / "report" / "feedback" / "1003.html").read_text()
    assert "Question 2: everything." in page


def test_an_examination_takes_no_practice_numbers(panel, tmp_path, capsys):
    place = homework(tmp_path, practice=None)
    answer(panel)
    panel.hand_in.click()
    (tmp_path / "hand-in-1003.json").rename(place / "1003.json")
    assert main(["mark", str(tmp_path / "test_1")]) == 0
    assert "was answered with other numbers" in capsys.readouterr().out


@pytest.mark.parametrize("spoil", [
    {"code": "0000-0000.0"}, {"code": ["x"]}, {"code": "0000-0000.99999999"}, {"family": ["x"]},
    {"entries": 3}])
def test_a_hand_in_that_was_tampered_with_earns_nothing_and_stops_nothing(
        panel, tmp_path, capsys, spoil):
    place = homework(tmp_path)
    answer(panel)
    panel.hand_in.click()
    document = saved(tmp_path)
    document["attempts"][0] |= spoil
    (place / "1003.json").write_text(json.dumps(document))
    assert main(["mark", str(tmp_path / "test_1")]) == 0
    assert "0 of 3 candidates marked" in capsys.readouterr().out


def test_the_numbers_of_another_candidate_are_not_taken(panel, tmp_path, capsys):
    place = homework(tmp_path)
    answer(panel)
    panel.hand_in.click()
    (place / "1002.json").write_text(json.dumps(saved(tmp_path) | {"candidate": "1002"}))
    assert main(["mark", str(tmp_path / "test_1")]) == 0
    assert "was answered with other numbers" in capsys.readouterr().out
