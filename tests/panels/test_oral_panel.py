"""The oral table: hidden points, a clock of the browser's, what refers, pairs, and the record."""

import csv

import pytest

from levelkit.constants import CAUTION
from levelkit.exercises.oral import oral_questions
from levelkit.lesson import oral_outcome
from levelkit.panels.oral_panel import PAIR, OralPanel


class Clock:
    """A clock that is set by hand."""

    now = 1_900_000_000.0

    def __call__(self):
        return self.now


@pytest.fixture()
def clock():
    return Clock()


@pytest.fixture()
def panel(tmp_path, clock):
    return OralPanel(tmp_path, day="2030-01-07", clock=clock)


def put(panel, question_id):
    """Put one certain question."""
    panel._leave()
    panel._begin(oral_questions()[question_id])


def shown(panel):
    return " ".join(getattr(child, "description", "") + getattr(child, "value", "")
                    if isinstance(getattr(child, "value", ""), str)
                    else getattr(child, "description", "") for child in panel.points.children)


def rows(panel):
    with panel.file.path.open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def test_points_and_follow_ups_are_hidden_until_asked_for(panel):
    put(panel, "no-water")
    question = panel.question
    assert panel.points.children == ()
    panel.show.click()
    for text in (*(point.text for point in question.points), *question.follow_ups, CAUTION):
        assert text in shown(panel)


def test_the_clock_starts_with_the_question_and_stops_with_the_points(panel, clock):
    assert not panel.timer.running
    panel.next.click()
    assert panel.timer.running
    clock.now += 47
    panel.show.click()
    clock.now += 100
    panel.show.click()
    assert panel.timer.course == {"running": False, "elapsed": 47.0}
    panel.keep.click()
    assert rows(panel)[0]["elapsed_s"] == "47.0"


def test_the_time_can_be_chosen(panel):
    panel.minutes.value = 480.0
    assert panel.timer.limit == 480.0


def test_a_missed_critical_point_refers_though_all_others_were_said(panel):
    put(panel, "no-water")
    panel.show.click()
    for number, tick in enumerate(panel.points.ticks):
        tick.value = number != 2
    panel.keep.click()
    assert "4 of 5 points: referred" in panel._said.value
    assert "Do not feed" in panel._said.value
    assert rows(panel)[0]["refers"] == "yes" and rows(panel)[0]["not_reached"] == "Do not feed"


def test_a_contradicted_critical_point_refers_though_it_is_ticked(panel):
    put(panel, "no-water")
    panel.show.click()
    for tick in panel.points.ticks:
        tick.value = True
    panel.points.contradicted[2].value = True
    panel.points.prompt.click()
    panel.keep.click()
    assert "referred" in panel._said.value
    row = rows(panel)[0]
    assert (row["dangerous"], row["reached"], row["prompts"]) == ("3", "1 2 4 5", "1")


def test_all_points_pass(panel):
    put(panel, "no-water")
    panel.show.click()
    for tick in panel.points.ticks:
        tick.value = True
    panel.keep.click()
    assert "5 of 5 points: passed" in panel._said.value


def test_by_topic_and_rank_no_question_comes_twice_before_all_came(panel):
    panel.topic.value = "signals"
    panel.rank.value = "management"
    want = {one.id for one in oral_questions().values() if one.topic == "signals"}
    seen = []
    for _ in want:
        panel.next.click()
        seen.append(panel.question.id)
    assert len(seen) == len(set(seen)) and set(seen) == want
    panel.next.click()
    assert "begin again" in panel._said.value and panel.question.id in want


def test_entry_rank_is_asked_no_management_question(panel):
    count = sum(one.rank == "entry" for one in oral_questions().values())
    for _ in range(count):
        panel.next.click()
        assert panel.question.rank == "entry"


def test_a_topic_without_entry_questions_says_so(panel):
    only = {one.topic for one in oral_questions().values()} - {
        one.topic for one in oral_questions().values() if one.rank == "entry"}
    for topic in only:
        panel.topic.value = topic
        panel.next.click()
        assert "choose that rank" in panel._said.value and panel.question is None
    assert only


def test_another_candidate_or_day_has_another_order(tmp_path):
    def order(name, day):
        panel = OralPanel(tmp_path, day=day)
        panel.answers.value = name
        found = []
        for _ in range(6):
            panel.next.click()
            found.append(panel.question.id)
        return found
    first = order("Cadet 7", "2030-01-07")
    assert first == order("cadet 7 ", "2030-01-07")
    assert first != order("Cadet 8", "2030-01-07") and first != order("Cadet 7", "2030-01-08")


def test_a_pair_takes_turns(panel):
    panel.mode.value = PAIR
    panel.asks.value, panel.answers.value = "Cadet 8", "Cadet 7"
    for _ in range(2):
        panel.next.click()
        panel.show.click()
        panel.keep.click()
    assert [(row["examiner"], row["candidate"]) for row in rows(panel)] == [
        ("Cadet 8", "Cadet 7"), ("Cadet 7", "Cadet 8")]
    panel.swap.click()
    assert (panel.asks.value, panel.answers.value) == ("Cadet 7", "Cadet 8")


def test_alone_there_is_no_examiner(panel):
    panel.asks.value = "left over"
    panel.next.click()
    panel.show.click()
    panel.keep.click()
    assert rows(panel)[0]["examiner"] == "" and panel.asks.layout.display == "none"


def test_an_answer_left_open_is_recorded_and_not_lost(panel):
    panel.next.click()
    first = panel.question.id
    panel.show.click()
    panel.points.ticks[0].value = True
    panel.next.click()
    assert [row["question"] for row in rows(panel)] == [first]
    assert rows(panel)[0]["reached"] == "1" and panel.question.id != first


def test_a_scene_goes_on(panel):
    put(panel, "blow-through")
    panel.go_on.click()
    assert panel.question.id == "no-water" and panel.timer.running
    panel.go_on.click()
    assert "no continuation" in panel._said.value and panel.question.id == "no-water"


def test_a_sketch_is_blank_while_asked_and_lettered_with_the_points(panel):
    put(panel, "tubular-gauge")
    assert "<svg" in panel._sketch.value and "water cock" not in _lettering(panel)
    panel.show.click()
    assert "water cock" in _lettering(panel)
    put(panel, "no-water")
    assert panel._sketch.value == ""


def _lettering(panel):
    return panel._sketch.value.split("</desc>")[1]


@pytest.mark.parametrize("press, sentence", [
    ("show", "Put a question first"), ("keep", "no open answer"), ("go_on", "no continuation")])
def test_buttons_out_of_order_get_a_sentence(panel, press, sentence):
    getattr(panel, press).click()
    assert sentence in panel._said.value


def test_recording_needs_the_points_to_be_seen(panel):
    panel.next.click()
    panel.keep.click()
    assert "tick what was said" in panel._said.value and panel.records == []


def test_a_folder_that_cannot_be_written_keeps_the_records(tmp_path, clock):
    panel = OralPanel(tmp_path / "missing", clock=clock)
    for _ in range(2):
        panel.next.click()
        panel.show.click()
        panel.keep.click()
        if not (tmp_path / "missing").exists():
            assert "could not be written" in panel._said.value
            (tmp_path / "missing").mkdir()
    assert len(rows(panel)) == 2


def test_a_crash_while_writing_leaves_the_records_before_it(panel, monkeypatch):
    def power_cut(*_):
        raise OSError(5, "Input/output error")

    for failing in (False, True):
        panel.next.click()
        panel.show.click()
        if failing:
            monkeypatch.setattr("os.replace", power_cut)
        first = panel.file.path
        panel.keep.click()
    assert "could not be written" in panel._said.value
    with first.open(encoding="utf-8", newline="") as file:
        assert len(list(csv.DictReader(file))) == 1


def test_a_new_session_begins_a_new_file(tmp_path, panel, clock):
    other = OralPanel(tmp_path, clock=clock)
    for one in (panel, other, panel):
        one.next.click()
        one.show.click()
        one.keep.click()
    assert panel.file.path != other.file.path
    assert (len(rows(panel)), len(rows(other))) == (2, 1)


def test_a_name_is_shown_as_text(panel):
    panel.answers.value = "<b>x</b>"
    panel.next.click()
    panel.show.click()
    panel.keep.click()
    assert "<b>x" not in panel._said.value + panel._table.value


def test_the_outcome_of_a_run_counts_points_and_refers():
    assert "2 of 5 points: referred" in oral_outcome({"no-water": [1, 2]})
    assert "passed" in oral_outcome({"no-water": [2, 3, 4]})
    assert "not yet" in oral_outcome({"communicating-vessels": [1]})


@pytest.mark.parametrize("asks, answers", [("", "Cadet 7"), ("Cadet 7", " Cadet 7 "), ("", "")])
def test_a_pair_without_two_names_is_told_so_and_no_clock_starts(panel, asks, answers):
    panel.mode.value = PAIR
    panel.asks.value, panel.answers.value = asks, answers
    panel.next.click()
    assert "two different names" in panel._said.value
    assert panel.question is None and not panel.timer.running
