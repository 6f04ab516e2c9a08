"""A folder of papers: mark what was handed in, report on it, keep what was there before."""

from dataclasses import replace

from ..errors import InputError
from ..papers.keeping import write_kept
from ..papers.making import GRID_NAME
from ..papers.paper_record import read_paper
from ..papers.sheet_file import read_sheet
from .answers import read_answers
from .class_marks import mark_class
from .feedback_pages import feedback_files
from .mark_files import faults_csv, marks_csv, totals_csv
from .overrides import FILE_NAME, checked_override, read_overrides, with_override
from .privacy import anonymised_csv
from .rehearsal import rehearse
from .report import class_report
from .second_marking import compare_second, sample_files

HAND_INS = "hand_ins"
SHOWN_FAULTS = 20


def marks_of(folder, files=()):
    """Return the marks of a folder, from its own grid and hand-ins unless files are named.

    Parameters
    ----------
    folder : pathlib.Path
        Made by `levelkit paper`.
    files : sequence of pathlib.Path
        Other grids and hand-ins.

    Returns
    -------
    ClassMarks
        With overrides applied.
    """
    paper = read_paper(folder)
    paths = list(files) or [folder / GRID_NAME, *sorted((folder / HAND_INS).glob("*.json"))]
    overrides, faults = read_overrides(folder / FILE_NAME, paper)
    answers = read_answers([path for path in paths if files or path.exists()], paper)
    marks = mark_class(paper, answers, overrides)
    return replace(marks, faults=(*marks.faults, *faults))


def mark_folder(folder, when, files=()):
    """Mark a folder and write the marks; return what is to be said.

    Parameters
    ----------
    folder : pathlib.Path
        Made by `levelkit paper`.
    when : datetime.datetime
        Now, for dated copies.
    files : sequence of pathlib.Path
        Other grids and hand-ins than those of the folder.

    Returns
    -------
    list of str
        Sentences.
    """
    marks = marks_of(folder, files)
    said = list(marks.paper.notes)
    for name, text in (("marks.csv", marks_csv(marks)), ("totals.csv", totals_csv(marks)),
                       ("not_read.csv", faults_csv(marks.faults))):
        said.append(write_kept(folder / "marks" / name, text, when))
    return [*_seen(said), *_faults(marks.faults), _summary(marks, folder / "marks")]


def report_folder(folder, when, files=()):
    """Write class report, feedback and anonymous marks; return what is to be said."""
    marks = marks_of(folder, files)
    if not marks.present:
        raise InputError(f"Nothing is handed in yet: fill in {folder / GRID_NAME}, or put hand-ins "
                         f"into {folder / HAND_INS}.")
    made = {f"report/{name}": content for name, content in
            (class_report(marks) | feedback_files(marks, _large(folder))).items()}
    made["anonymous/marks.csv"] = anonymised_csv(marks)
    renewed = len(_seen(write_kept(folder / name, content, when)
                        for name, content in made.items()))
    return [*([f"{renewed} files are renewed; those before are kept."] if renewed else []),
            *_faults(marks.faults), _summary(marks, folder / "report")]


def change_mark(folder, when, candidate, question, step, marks, reason, by=""):
    """Add one override to the log of a folder and mark again."""
    paper = read_paper(folder)
    one = checked_override(paper, candidate, question, step, marks, reason, by,
                           f"{when:%Y-%m-%d %H:%M}")
    path = folder / FILE_NAME
    write_kept(path, with_override(path, one), when)
    return [f"Candidate {candidate}, question {question}, {step}: {marks} marks. The reason is "
            f"kept in {FILE_NAME}.", *mark_folder(folder, when)]


def second_marker(folder, when, count):
    """Write a blind sample for a second marker."""
    for name, text in sample_files(marks_of(folder), count).items():
        write_kept(folder / "second_marking" / name, text, when)
    return [f"{count} scripts without number and without marks are in "
            f"{folder / 'second_marking' / 'second_marking.csv'}; keep second_marking_key.csv to "
            "yourself."]


def second_marker_back(folder):
    """Compare the second marker's sheet with the first marking."""
    place = folder / "second_marking"
    differences, compared, blank, faults = compare_second(
        marks_of(folder), place / "second_marking.csv", place / "second_marking_key.csv")
    return [*map(str, faults), *(
        f"Candidate {one.candidate}, question {one.question}, {one.step}: first {one.first}, "
        f"second {one.second}." for one in differences),
        f"{compared} steps compared, {len(differences)} differ"
        + (f"; {blank} are not filled in yet." if blank else ".")]


def rehearse_folder(folder, when):
    """Invent hand-ins with known slips, mark them and report, all in a folder of its own."""
    paper = read_paper(folder)
    invented = rehearse(paper, "rehearsal")
    place = folder / "rehearsal"
    write_kept(place / GRID_NAME, invented.text, when)
    write_kept(place / "planted.csv", invented.planted_csv(), when)
    marks = marks_of(folder, [place / GRID_NAME])
    for name, content in ({"marks.csv": marks_csv(marks), "totals.csv": totals_csv(marks)}
                          | class_report(marks) | feedback_files(marks)).items():
        write_kept(place / name, content, when)
    return [f"{len(invented.planted)} invented slips are listed in {place / 'planted.csv'}.",
            _summary(marks, place)]


def _large(folder):
    """Candidates with larger print, if the sheet file and its register are still there."""
    try:
        sheet = read_sheet(folder.with_suffix(".toml"))
    except InputError:
        return ()
    return [one.number for one in sheet.candidates if one.large_print or sheet.print.large]


def _seen(sentences):
    return [sentence for sentence in sentences if sentence]


def _faults(faults):
    shown = [str(fault) for fault in faults[:SHOWN_FAULTS]]
    if len(faults) > SHOWN_FAULTS:
        shown.append(f"And {len(faults) - SHOWN_FAULTS} more in marks/not_read.csv.")
    return shown


def _summary(marks, place):
    present = marks.present
    mean = sum(one.total for one in present) / len(present) if present else 0.0
    return (f"{len(present)} of {len(marks.candidates)} candidates marked, mean {mean:.1f} of "
            f"{marks.paper.marks}; {len(marks.faults)} rows or files could not be read. "
            f"Results are in {place}.")
