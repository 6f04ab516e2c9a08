"""The paper of a class: own numbers, the same again next year, none missing, resits alike."""

import datetime
import json
from dataclasses import replace

import pytest
from paper_samples import QUESTIONS, class_paper, write_sheet

from levelkit.errors import InputError
from levelkit.exercises import example, families, mark, variant
from levelkit.exercises.entries import parse_entry
from levelkit.papers.class_paper import make_class_paper
from levelkit.papers.completeness import missing_numbers, needed_constants
from levelkit.papers.documents import findings
from levelkit.papers.grid import columns, empty_grid
from levelkit.papers.keeping import write_kept
from levelkit.papers.paper_record import RECORD_NAME, paper_json, read_paper
from levelkit.papers.scheme import accepted, known_slips, scheme_lines
from levelkit.papers.sheet_file import read_sheet
from levelkit.papers.tables import lookup, tables_for

NOW = datetime.datetime(2026, 3, 12, 14, 5, 6)


def test_the_same_sheet_gives_the_same_paper_and_everybody_other_numbers(tmp_path):
    paper, again = class_paper(tmp_path), class_paper(tmp_path)
    assert paper.issue == again.issue
    for index in range(len(QUESTIONS)):
        texts = [one.variants[index].text for one in (*paper.papers, paper.specimen)]
        assert len(set(texts)) == len(texts)
        assert texts == [one.variants[index].text for one in (*again.papers, again.specimen)]


def test_another_secret_gives_other_numbers(tmp_path):
    texts = [[one.text for one in class_paper(tmp_path, secret=f'"{secret}"').papers[0].variants]
             for secret in ("one", "two")]
    assert all(a != b for a, b in zip(*texts, strict=True))


def test_versions_are_dealt_out_in_turn(tmp_path):
    paper = class_paper(tmp_path, count=5, versions="2")
    assert [one.seed for one in paper.papers] == ["A", "B", "A", "B", "A"]
    assert paper.papers[0].variants[0].text == paper.papers[2].variants[0].text
    assert paper.papers[0].variants[0].text != paper.papers[1].variants[0].text


def test_any_word_or_number_changes_the_issue(tmp_path):
    issues = {class_paper(tmp_path, **change).issue for change in (
        {}, {"title": '"Test"'}, {"minutes": "80"}, {"date": "2026-03-13"},
        {"instructions": '["Other"]'}, {"count": 5}, {"secret": '"x"'})}
    assert len(issues) == 7


def test_a_resit_has_the_same_families_and_no_numbers_in_common(tmp_path):
    first = class_paper(tmp_path)
    path = write_sheet(tmp_path, name="resit", sheet='"test 1 resit"', questions=None,
                       resit_of='"test_1"', candidates='["1003", "1005"]')
    resit = make_class_paper(read_sheet(path), first)
    assert [one.candidate.number for one in resit.papers] == ["1003", "1005"]
    assert [one.id for one in resit.families] == [one.id for one in first.families]

    def texts(paper):
        return {one.text for each in (*paper.papers, paper.specimen) for one in each.variants}
    assert not texts(first) & texts(resit)


def test_a_resit_under_the_old_name_still_gets_new_numbers(tmp_path):
    first = class_paper(tmp_path)
    again = make_class_paper(first.sheet, first)
    assert all(a.text != b.text for a, b in zip(first.papers[0].variants,
                                                again.papers[0].variants, strict=True))


@pytest.mark.parametrize("family_id", list(families()))
def test_every_family_of_the_bank_can_be_solved_on_paper(family_id):
    assert missing_numbers(example(family_id)) == ()
    assert missing_numbers(variant(family_id, "completeness")) == ()


@pytest.mark.parametrize("family_id, hidden", [
    ("glass-reads-low", "water_density"), ("two-fluid-level", "weir"),
    ("water-cock-nearly-choked", "bore_area")])
def test_a_number_left_out_of_the_question_is_found(family_id, hidden):
    one = variant(family_id, "completeness")
    shortened = replace(one.family, text=one.family.text.replace("{" + hidden + "}", "some"))
    faults = missing_numbers(replace(one, family=shortened))
    assert any("stands neither in the question nor on the data sheet" in fault
               for fault in faults)


def test_a_step_that_is_looked_up_nowhere_is_found():
    one = example("glass-reads-low")
    bare = tuple(replace(step, formula="") if step.id == "height" else step
                 for step in one.family.steps)
    faults = missing_numbers(replace(one, family=replace(one.family, steps=bare)))
    assert faults == ("glass-reads-low, step height: its value has no formula and no table; name "
                      "its table in papers/lookups.toml.",)


def test_only_facts_that_are_used_are_printed():
    assert needed_constants([example("glass-reads-low")]) == ()
    assert needed_constants([example("residual-air")]) == ("0 °C = 273 K",)
    signals = needed_constants([example("signal-conversions")])
    assert [text[:22] for text in signals] == ["Standard current signa", "Standard pneumatic sig"]


def between(table, column, at):
    """Read in proportion between two printed rows, as a candidate does."""
    rows = [tuple(map(float, row)) for row in table.rows]
    low, high = next((a, b) for a, b in zip(rows, rows[1:], strict=False) if a[0] <= at <= b[0])
    return low[column] + (high[column] - low[column]) * (at - low[0]) / (high[0] - low[0])


def test_the_saturation_extract_gives_full_marks_and_holds_no_row_too_many(tmp_path):
    paper = class_paper(tmp_path, count=24)
    table, = tables_for(paper)
    assert table.heads == ("p [bar absolute]", "t_s [°C]", "ρ_f [kg/m³]", "ρ_g [kg/m³]")
    pressures = []
    for one in paper.papers:
        question = one.variants[0]
        pressures.append(question.solution.steps["pressure"] / 1e5)
        found = {"pressure": f"{pressures[-1]:.2f} bar"}
        for column, step in enumerate(("temperature", "water", "steam"), 1):
            value = between(table, column, pressures[-1])
            found[step] = f"{value:.3f} {question.family.step(step).si.shown}"
        marked = mark(question, found)
        assert all(marked.step(step).verdict == "right" for step in found), marked
    pressures.append(paper.specimen.variants[0].solution.steps["pressure"] / 1e5)
    rows = [float(row[0]) for row in table.rows]
    step = min(b - a for a, b in zip(rows, rows[1:], strict=False))
    assert all(min(abs(row - p) for p in pressures) <= 2 * step + 1e-9 for row in rows)


def test_the_extract_for_water_gives_the_mark_too(tmp_path):
    paper = class_paper(tmp_path, count=8, questions='["conducted-heat"]')
    table, = tables_for(paper)
    pressures = [float(head.split(" at ")[1].split(" bar")[0]) for head in table.heads[1:]]
    for one in paper.papers:
        question = one.variants[0]
        at = question.data["absolute_pressure"]
        mean = float(question.numbers["mean"])
        column = next(i for i, (a, b) in enumerate(zip(pressures, pressures[1:], strict=False))
                      if a <= at <= b)
        low, high = (between(table, column + 1 + i, mean) for i in (0, 1))
        density = low + (high - low) * (at - pressures[column]) / (
            pressures[column + 1] - pressures[column])
        marked = mark(question, {"mean": f"{mean} °C", "density": f"{density:.1f} kg/m3"})
        assert marked.step("density").verdict == "right"


def test_every_table_step_of_the_bank_has_a_place():
    wanted = {(one.id, step.id) for one in families().values() for step in one.value_steps
              if not step.formula and not step.fixed}
    assert wanted and all(lookup(*place) for place in wanted)


def test_scheme_and_slips_agree_with_the_marking():
    one = variant("glass-reads-low", "scheme")
    for slip in known_slips(one):
        marked = mark(one, {"height": slip.answer})
        assert marked.misconceptions == (slip.code,)
        assert slip.earns == f"{marked.marks} of 5"
    lines = {step.id: line for step, line in zip(one.family.steps, scheme_lines(one), strict=True)}
    low, _, rest = lines["height"].accept.partition(" to ")
    high = rest.removesuffix(" mm")
    for edge, verdict in ((low, "right"), (high, "right"), (f"{float(low) - 0.2}", "wrong"),
                          (f"{float(high) + 0.2}", "wrong")):
        assert mark(one, {"height": f"{edge} mm"}).step("height").verdict == verdict


@pytest.mark.parametrize("family_id", list(families()))
def test_both_ends_of_every_printed_range_are_accepted_and_little_more(family_id):
    one = example(family_id)
    for step in one.family.value_steps:
        value = one.solution.steps[step.id]
        text, _, word = accepted(step, value).partition(", ")
        low, _, high = text.partition(" to ")
        unit = step.si.shown
        for edge in (low, high.removesuffix(unit).strip()):
            marked = mark(one, {step.id: f"{edge} {unit} {word}"})
            assert marked.step(step.id).marks == step.mark_count, (step.id, edge)
        edges = [parse_entry(f"{edge.strip()} {unit}", step).si for edge in
                 (low, high.removesuffix(unit))]
        assert edges[1] - edges[0] >= 0.7 * 2 * step.allowed(value)


def test_the_record_gives_the_same_paper_back(tmp_path):
    paper = class_paper(tmp_path, count=4)
    folder = tmp_path / "test_1"
    write_kept(folder / RECORD_NAME, paper_json(paper), NOW)
    text = (folder / RECORD_NAME).read_text()
    assert "Invented" not in text.replace("(invented)", "")  # no names
    again = read_paper(folder)
    assert again.notes == ()
    for one, other in zip(paper.papers, again.papers, strict=True):
        for first, second in zip(one.variants, other.variants, strict=True):
            assert first.text == second.text and first.code == second.code
            assert first.solution.steps == second.solution.steps
            assert [s.options for s in first.steps] == [s.options for s in second.steps]


def test_a_bank_that_has_changed_since_is_told(tmp_path):
    folder = tmp_path / "test_1"
    document = json.loads(paper_json(class_paper(tmp_path, count=2)))
    document["questions"][1]["fingerprint"] = "0" * 12
    write_kept(folder / RECORD_NAME, json.dumps(document), NOW)
    note, = read_paper(folder).notes
    assert note.startswith("Question 2 (glass-reads-low) has changed in the bank")


@pytest.mark.parametrize("content, complaint", [
    (None, "There is no paper.json"), ("{", "paper.json cannot be used"),
    ("[]", "paper.json cannot be used"),
    ('{"title": "x"}', "paper.json cannot be used"),
])
def test_a_record_that_cannot_be_used(tmp_path, content, complaint):
    if content is not None:
        (tmp_path / RECORD_NAME).write_text(content)
    with pytest.raises(InputError, match=complaint):
        read_paper(tmp_path)


def test_a_record_without_the_mark_of_a_question_cannot_be_used(tmp_path):
    document = json.loads(paper_json(class_paper(tmp_path, count=1)))
    del document["questions"][0]["fingerprint"]
    (tmp_path / RECORD_NAME).write_text(json.dumps(document))
    with pytest.raises(InputError, match=r"paper.json cannot be used \(KeyError"):
        read_paper(tmp_path)


def test_the_grid_has_a_line_for_everybody_and_units_in_its_headings(tmp_path):
    paper = class_paper(tmp_path, count=3)
    head, *lines = empty_grid(paper).splitlines()
    assert head.startswith("candidate,1 pressure [bar],1 temperature [°C]")
    assert [line.split(",")[0] for line in lines] == ["1001", "1002", "1003"]
    assert columns(paper.families)["2 height [mm]"] == (2, "height")


def test_the_check_runs_over_everybody(tmp_path):
    paper = class_paper(tmp_path, count=2)
    assert findings(paper) == ((), ())
    broken = replace(paper.papers[1].variants[1], family=replace(
        paper.papers[1].variants[1].family, text="No numbers."))
    variants = (paper.papers[1].variants[0], broken)
    faults, _ = findings(replace(paper, papers=(replace(paper.papers[1], variants=variants),)))
    assert faults and all(fault.startswith("glass-reads-low") for fault in faults)


def test_nothing_is_overwritten_without_a_dated_copy(tmp_path):
    path = tmp_path / "deep" / "marks.csv"
    assert write_kept(path, "one", NOW) == ""
    assert write_kept(path, "one", NOW) == "" and not (path.parent / "earlier").exists()
    said = write_kept(path, "two", NOW)
    assert said == ("marks.csv is renewed; the one before is kept as "
                    "earlier/marks 2026-03-12 14-05-06.csv.")
    write_kept(path, "three", NOW)
    copies = sorted((path.parent / "earlier").iterdir())
    assert [copy.read_text() for copy in copies] == ["two", "one"]
    assert path.read_text() == "three"
    assert not list(path.parent.glob("*.part"))


def test_a_folder_that_cannot_be_written(tmp_path):
    (tmp_path / "file").write_text("x")
    with pytest.raises(InputError, match="cannot be written .*Close it in other programs"):
        write_kept(tmp_path / "file" / "marks.csv", "one", NOW)
