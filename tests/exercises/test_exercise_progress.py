"""Progress outlives a crash; the next question picks the weak spot; sheets are balanced."""

import json
import os

import pytest

from levelkit.errors import InputError
from levelkit.exercises import example, families, mark, variant
from levelkit.exercises.progress import (
    Progress,
    load_progress,
    next_family,
    progress_csv,
    save_progress,
    weak_misconceptions,
)
from levelkit.exercises.sheet import make_sheet
from levelkit.exercises.storage import backup_of, write_json, write_text


def tried(progress, family_id, answers):
    one = example(family_id)
    return progress.with_attempt(one, mark(one, answers), answers, "2030-01-07T10:00:00")


def solved(progress, family_id, place=0, help=""):
    one = variant(family_id, "practice", "Cadet 7", place=place)
    answers = {step.id: one.solution.steps[step.id] if step.kind == "choice"
               else one.answer(step.id).replace(",", " ") for step in one.family.asked_steps}
    return progress.with_attempt(one, mark(one, answers), answers, "2030-01-07T10:00:00", help)


@pytest.fixture
def path(tmp_path):
    return tmp_path / "progress.json"


def two_attempts():
    return tried(tried(Progress(), "glass-reads-low", {"height": "214.6 mm"}),
                 "hot-column", {"height": "600,0 mm"})


def test_what_is_saved_is_loaded(path):
    save_progress(path, two_attempts())
    assert load_progress(path) == two_attempts()
    assert load_progress(path).attempts[1].entries == {"height": "600,0 mm"}


def test_an_absent_file_is_an_empty_progress(path):
    assert load_progress(path) == Progress()


@pytest.mark.parametrize("wreck", [
    b"", b'{"version": 1, "attempts": [{"when": "20', b"\xff\xfe\x00", b"not json"])
def test_a_half_written_file_is_recovered_from_the_backup_and_kept(path, wreck):
    one = tried(Progress(), "glass-reads-low", {"height": "200"})
    save_progress(path, one)
    save_progress(path, two_attempts())
    path.write_bytes(wreck)
    back = load_progress(path)
    assert back.attempts == one.attempts and "was not whole" in back.note
    assert (path.parent / "progress.json.unreadable-1").read_bytes() == wreck
    save_progress(path, back)
    assert load_progress(path).attempts == one.attempts


def test_without_backup_it_says_so(path):
    path.write_bytes(b"{")
    assert "no backup" in load_progress(path).note


@pytest.mark.parametrize("last", [1, 2])
def test_a_crash_at_any_moment_loses_nothing(path, monkeypatch, last):
    save_progress(path, two_attempts())
    real, calls = os.replace, []

    def failing(source, target):
        calls.append(target)
        assert path.exists()
        if len(calls) == last:  # 1: the backup not yet in place, 2: the new file not yet
            raise OSError("power cut")
        real(source, target)

    monkeypatch.setattr(os, "replace", failing)
    with pytest.raises(OSError):
        save_progress(path, Progress())
    monkeypatch.undo()
    assert load_progress(path) == two_attempts()
    assert [name for name in os.listdir(path.parent) if name.endswith(".new")] == []


def test_a_file_that_is_gone_is_taken_from_the_backup_and_said(path):
    save_progress(path, Progress())
    save_progress(path, two_attempts())
    save_progress(path, two_attempts())
    path.unlink()
    back = load_progress(path)
    assert back.attempts == two_attempts().attempts and "was missing" in back.note


def test_a_broken_file_never_becomes_the_backup(path):
    save_progress(path, two_attempts())
    save_progress(path, two_attempts())
    path.write_bytes(b"{")
    write_json(path, {"attempts": []})
    assert json.loads(backup_of(path).read_text())["attempts"]


def test_one_unreadable_attempt_does_not_take_the_others_along(path):
    save_progress(path, two_attempts())
    document = json.loads(path.read_text(encoding="utf-8"))
    del document["attempts"][0]["marks"]
    write_json(path, document)
    back = load_progress(path)
    assert len(back.attempts) == 1 and "1 entries" in back.note


@pytest.mark.parametrize("document", [[], {}, {"attempts": 5}, {"attempts": [5, "x", None]}, 7])
def test_whole_json_of_another_shape_is_an_empty_progress(path, document):
    path.write_text(json.dumps(document), encoding="utf-8")
    assert load_progress(path).attempts == ()


@pytest.mark.parametrize("write", [write_json, write_text])
def test_whoever_may_read_other_files_of_the_folder_may_read_this_one(path, write):
    plain = path.with_name("plain.txt")
    plain.write_text("x", encoding="utf-8")
    write(path, "x")
    assert path.stat().st_mode == plain.stat().st_mode


def test_a_text_is_whole_old_or_whole_new(path, monkeypatch):
    write_text(path, "old")

    def power_cut(*_):
        raise OSError("power cut")

    for call in ("fsync", "replace"):
        with monkeypatch.context() as patch:
            patch.setattr(os, call, power_cut)
            with pytest.raises(OSError):
                write_text(path, "new" * 100_000)
        assert path.read_text(encoding="utf-8") == "old"
        assert os.listdir(path.parent) == [path.name]
    write_text(path, "new\r\n")
    assert path.read_bytes() == b"new\r\n"


def test_export_holds_every_attempt():
    lines = progress_csv(two_attempts()).splitlines()
    assert len(lines) == 3 and "MC02" in lines[1] and "600,0 mm" in lines[2]


def test_the_next_question_picks_the_weak_spot():
    progress = two_attempts()
    assert weak_misconceptions(progress) == ("MC03", "MC02")
    chosen = next_family(progress)
    assert "MC03" in families()[chosen.family_id].misconceptions and "(MC03)" in chosen.reason
    assert "“Water is 1000 kg/m³”" in chosen.reason and "Lesson 02" in chosen.reason
    assert chosen.family_id not in ("glass-reads-low", "hot-column")


def test_a_spot_is_no_longer_weak_after_two_clean_answers():
    progress = tried(Progress(), "glass-reads-low", {"height": "214.6 mm"})
    once = solved(progress, "glass-reads-low")
    assert "MC02" in weak_misconceptions(once)
    assert "MC02" not in weak_misconceptions(solved(once, "glass-reads-low", place=1))


@pytest.mark.parametrize("place, help", [(0, ""), (1, "working"), (1, "partly worked")])
def test_a_corrected_or_copied_answer_cures_nothing(place, help):
    progress = tried(Progress(), "glass-reads-low", {"height": "214.6 mm"})
    twice = solved(solved(progress, "glass-reads-low"), "glass-reads-low", place, help)
    assert "MC02" in weak_misconceptions(twice)


def test_a_file_from_before_help_was_kept_is_read(path):
    save_progress(path, two_attempts())
    document = json.loads(path.read_text(encoding="utf-8"))
    for row in document["attempts"]:
        del row["help"]
    write_json(path, document)
    assert load_progress(path) == two_attempts()


def test_without_a_weak_spot_it_goes_on_through_the_bank():
    chosen = next_family(Progress())
    assert chosen.family_id == next(iter(families())) and "not tried" in chosen.reason
    progress = Progress()
    for family_id in families():
        progress = solved(progress, family_id)
    assert next_family(progress).family_id == next(iter(families()))
    with pytest.raises(InputError, match="no topic"):
        next_family(progress, "knitting")


def test_a_sheet_is_seeded_balanced_and_tests_no_trap_twice():
    sheet = make_sheet("secret", "sheet 1", 5, 31)
    again = make_sheet("secret", "sheet 1", 5, 31)
    assert sheet == again and sheet.marks == 31
    chosen = [families()[family_id] for family_id in sheet.family_ids]
    assert sum(one.marks for one in chosen) == 31
    assert len({one.trap for one in chosen}) == 5
    topics = [one.topic for one in chosen]
    assert max(map(topics.count, topics)) <= 1 + min(map(topics.count, topics))
    texts = {one.text for candidate in ("A", "B") for one in sheet.variants(candidate)}
    assert len(texts) == 10


@pytest.mark.parametrize("name", ["Sunday", "resit", "A", "B", "C", "D"])
def test_forty_marks_over_four_topics(name):
    topics = ["gauge glass", "two-fluid indicator", "transmitter", "manifold, signal and loop"]
    sheet = make_sheet("secret", name, 6, 40, topics)
    chosen = [families()[family_id].topic for family_id in sheet.family_ids]
    assert sorted(map(chosen.count, topics)) == [1, 1, 2, 2]
    assert sum(families()[family_id].marks for family_id in sheet.family_ids) == 40


@pytest.mark.parametrize("number", range(12))
def test_no_sheet_tests_one_trap_twice(number):
    sheet = make_sheet("secret", number, 5, 32, ["manifold, signal and loop"])
    traps = [families()[family_id].trap for family_id in sheet.family_ids]
    assert len(set(traps)) == 5


def test_another_sheet_is_another():
    sheets = {make_sheet("secret", f"sheet {number}", 4, 25).family_ids for number in range(8)}
    assert len(sheets) > 2


@pytest.mark.parametrize("wish, complaint", [
    ((3, 99), "without a repeated trap"), ((3, 19, ["knitting"]), "no topic")])
def test_a_sheet_that_cannot_be_made_gets_a_sentence(wish, complaint):
    with pytest.raises(InputError, match=complaint):
        make_sheet("secret", "s", *wish)


def test_of_those_that_cure_a_weak_spot_the_one_longest_untried_comes_next():
    progress = tried(Progress(), "glass-reads-low", {"height": "214.6 mm"})
    code = weak_misconceptions(progress)[0]
    curing = [one.id for one in families().values() if code in one.misconceptions]
    assert len(curing) > 2
    seen = []
    for _ in curing:  # answered wrongly each time, the spot stays weak: each comes once
        chosen = next_family(progress).family_id
        seen.append(chosen)
        progress = progress.with_attempt(example(chosen), mark(example("glass-reads-low"), {
            "height": "214.6 mm"}), {}, "2030-01-07T10:00:00")
    assert set(seen) | {"glass-reads-low"} == set(curing)
    assert seen[-1] == "glass-reads-low"  # the first of all: the others were untried


def test_the_weakest_spot_is_the_one_shown_most_often_then_the_last_one():
    often = tried(tried(two_attempts(), "hot-column", {"height": "600,0 mm"}),
                  "glass-reads-low", {"height": "214.6 mm"})
    glass, column = (set(tried(Progress(), name, {"height": text}).attempts[0].misconceptions)
                     for name, text in (("glass-reads-low", "214.6 mm"),
                                        ("hot-column", "600,0 mm")))
    assert set(weak_misconceptions(often)) == glass | column
    assert weak_misconceptions(often)[0] in glass  # twice each, the glass last
    assert weak_misconceptions(two_attempts())[0] in column


def test_a_sheet_keeps_to_its_difficulty():
    middle = make_sheet("secret", "sheet 1", 3, 21, difficulty=(2, 2))
    assert {families()[one].difficulty for one in middle.family_ids} == {2}
