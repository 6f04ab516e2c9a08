"""All documents of a paper: plain data for the templates, and the PDF files."""

import tomllib
from concurrent.futures import ThreadPoolExecutor
from dataclasses import asdict
from functools import cache
from math import ceil
from pathlib import Path

from .. import __version__
from ..constants import CAUTION
from ..exercises.family import CHOICE
from ..exercises.working import worked_steps
from ..scene.schematics import schematic, schematic_names
from .class_paper import seed_code_of
from .completeness import missing_numbers, needed_constants
from .scheme import LETTERS, known_slips, marks_at, scheme_lines
from .sheet_file import PAGES
from .tables import tables_for
from .typesetting import compile_pdf, picture_pdf

_FOLDER = Path(__file__).parent
AT_ONCE = 2  # documents: more would only ask for more memory on the usual machine
TEMPLATE = {"mark_schemes": "mark_scheme", "question_papers": "question_paper"}


@cache
def _listed(name):
    return tomllib.loads((_FOLDER / name).read_text(encoding="utf-8"))


def findings(paper):
    """Return what keeps a paper from being solved on paper, and notes, as sentences.

    Parameters
    ----------
    paper : ClassPaper
        Everybody's questions.

    Returns
    -------
    faults, notes : tuple of str
        Faults name a number that a candidate cannot find; notes are for information.
    """
    faults = dict.fromkeys(fault for one in (*paper.papers, paper.specimen)
                           for variant in one.variants for fault in missing_numbers(variant))
    return tuple(faults), paper.notes


def paper_documents(paper):
    """Return every document of a paper as a PDF file.

    Parameters
    ----------
    paper : ClassPaper
        Everybody's questions.

    Returns
    -------
    dict of str to bytes
        By file name.

    Raises
    ------
    LevelkitError
        A template that cannot be set.
    """
    common, figures = _common(paper), _figures(paper)
    sheet = paper.sheet
    # the longest first: typst works outside Python, so two documents are set at the same time
    jobs = {
        "mark_schemes": (common | {
            "papers": [_candidate(paper, one, scheme_data) for one in paper.papers]}, {}, False),
        "question_papers": (common | {
            "instructions": list(sheet.instructions),
            "papers": [_candidate(paper, one, question_data) for one in paper.papers]}, figures),
        "worked_copy": (common | {
            "code": seed_code_of(sheet, paper.specimen.seed),
            "questions": _numbered(paper.specimen, _worked)}, figures),
        "data_sheet": (common | _data_sheet(paper),),
    }
    if sheet.print.answer_book:
        jobs["answer_book"] = (common | {
            "questions": _numbered(paper.specimen, figure_data),
            "drawings": [[_file_name(name), schematic(name, labelled=False).words]
                         for name in sheet.print.blank_drawings]}, figures)
    with ThreadPoolExecutor(AT_ONCE) as threads:
        futures = {name: threads.submit(compile_pdf, TEMPLATE.get(name, name), *job)
                   for name, job in jobs.items()}
    return {f"{name}.pdf": future.result() for name, future in futures.items()}


def _common(paper):
    sheet = paper.sheet
    return {
        "page": PAGES[sheet.print.page], "large": sheet.print.large, "title": sheet.title,
        "class": sheet.class_name, "date": in_words(sheet.date), "marks": paper.marks,
        "caution": CAUTION,
        "stamp": f"levelkit {__version__}, issue {paper.issue}"}


_MONTHS = ("January", "February", "March", "April", "May", "June", "July", "August", "September",
           "October", "November", "December")


def in_words(date):
    """A date that nobody reads the wrong way round, whatever the machine's language."""
    return f"{date.day} {_MONTHS[date.month - 1]} {date.year}"


def _figures(paper):
    """The drawings of the paper, labelled and blank, by the names that the templates use."""
    wanted = {one.figure for one in paper.families} | set(paper.sheet.print.blank_drawings)
    return {_file_name(name) + ending: picture_pdf(schematic(name, labelled).svg)
            for name in schematic_names() if name in wanted
            for labelled, ending in ((True, ""), (False, "-blank"))}


def _file_name(figure):
    return figure.replace(" ", "-")


def _candidate(paper, one, question):
    sheet, candidate = paper.sheet, one.candidate
    minutes = sheet.minutes * (100 + candidate.extra_time) / 100
    return {
        "number": candidate.number, "name": candidate.name, "extra": candidate.extra_time,
        "version": one.seed if sheet.versions else "", "minutes": ceil(minutes),
        "large": sheet.print.large or candidate.large_print,
        "code": seed_code_of(sheet, one.seed), "questions": _numbered(one, question)}


def _numbered(one, question):
    return [{"n": number, "code": variant.code, "marks": variant.family.marks} | question(variant)
            for number, variant in enumerate(one.variants, 1)]


def figure_data(variant):
    figure = variant.family.figure
    if figure not in schematic_names():
        return {"figure": None, "figure_words": ""}
    return {"figure": _file_name(figure), "figure_words": schematic(figure).words}


def question_data(variant):
    """What the candidate sees; the family's title is left out, for it often tells the answer."""
    return figure_data(variant) | {
        "text": variant.text,
        "asks": [{"kind": step.kind, "ask": step.ask, "unit": step.unit,
                  "marks": marks_at(variant.family, step.id), "direction": list(step.direction),
                  "options": [[letter, text] for letter, (_, text)
                              in zip(LETTERS, step.options, strict=False)]
                  if step.kind == CHOICE else []} for step in variant.steps]}


def scheme_data(variant):
    return {"title": variant.family.title,
            "lines": [asdict(line) for line in scheme_lines(variant)],
            "slips": [asdict(slip) for slip in known_slips(variant)]}


def _worked(variant):
    one = variant.family
    work = [asdict(line) | {"hint": worked.hint}
            for line, worked in zip(scheme_lines(variant), worked_steps(variant), strict=True)]
    return scheme_data(variant) | figure_data(variant) | {
        "text": variant.text, "work": work, "outcomes": ", ".join(one.outcomes),
        "difficulty": one.difficulty, "caution": variant.caution}


def _data_sheet(paper):
    variants = [variant for one in (*paper.papers, paper.specimen) for variant in one.variants]
    figures = dict.fromkeys(one.figure for one in paper.families if one.figure)
    topics = dict.fromkeys(one.topic for one in paper.families)
    symbols = [[figure[:1].upper() + figure[1:], _listed("symbols.toml").get(figure, [])]
               for figure in figures]
    formulas = [row for topic in topics for row in _listed("formulas.toml").get(topic, [])]
    return {
        "constants": list(needed_constants(variants)),
        "tables": [{"title": table.title, "heads": list(table.heads),
                    "rows": [list(row) for row in table.rows]} for table in tables_for(paper)],
        "symbols": [one for one in symbols if one[1]],
        "formulas": _once(formulas) if paper.sheet.print.formula_sheet else []}


def _once(rows):
    return [list(row) for row in dict.fromkeys(map(tuple, rows))]
