"""Answers of a class, from grids (CSV) and hand-ins (JSON). They are read, never run."""

import json
from dataclasses import dataclass, field

from ..exercises.hand_in import practised_variant
from ..papers.grid import CANDIDATE, columns
from .csv_rows import LARGEST, read_rows
from .faults import Fault


@dataclass(frozen=True, slots=True)
class Answers:
    """What a class has answered.

    Attributes
    ----------
    entries : dict of str to dict
        By candidate: typed text by (question number, step id). Blank cells are left out.
    sources : dict of str to str
        By candidate: file and line the answers came from.
    faults : tuple of Fault
        Rows and files that could not be used.
    variants : dict of (str, int) to Variant
        Questions that were answered with the numbers of the practice panel, by candidate and
        question number.
    """

    entries: dict
    sources: dict
    faults: tuple
    variants: dict = field(default_factory=dict)


def read_answers(paths, paper):
    """Return the answers in some files.

    Parameters
    ----------
    paths : iterable of pathlib.Path
        CSV grids and JSON hand-ins.
    paper : ClassPaper
        What they answer.

    Returns
    -------
    Answers
        Whatever could be read, and a fault for everything else.
    """
    entries, sources, faults, variants = {}, {}, [], {}
    known = {one.candidate.number for one in paper.papers}
    for path in paths:
        reader = _json_hand_in if path.suffix.lower() == ".json" else _csv_grid
        found, said = reader(path, paper)
        faults += said
        for candidate, line, text, answers, own in found:
            place = f"{path.name}, line {line}" if line else path.name
            if candidate not in known:
                faults.append(Fault(path.name, line, f"Candidate “{candidate[:24]}” is not in this "
                                    "paper.", "Correct the candidate number.", text))
            elif candidate in entries:
                faults.append(Fault(path.name, line, f"Candidate {candidate} stands already in "
                                    f"{sources[candidate]}, which is marked.", "Keep one of the "
                                    "two.", text))
            elif answers:
                entries[candidate], sources[candidate] = answers, place
                variants |= {(candidate, number): one for number, one in own.items()}
    return Answers(entries, sources, tuple(faults), variants)


def _csv_grid(path, paper):
    """Rows of a grid as (candidate, line, text, answers, no variants), and faults."""
    head, rows, faults = read_rows(path)
    places = _places(head, paper)
    named = next((cell for cell in head if cell.lower() == CANDIDATE), None)
    if named is None:
        if head:
            faults.append(Fault(path.name, 1, f"There is no column “{CANDIDATE}”.",
                                "Use the grid answers.csv that was made with the papers.",
                                ",".join(head)))
        return [], faults
    for cell in head:
        if cell != named and cell not in places:
            faults.append(Fault(path.name, 1, f"The column “{cell[:40]}” is none of this paper and "
                                "is not marked.", "Rename it as in answers.csv, or leave it.",
                                cell))
    found = [(cells[named], line, text,
              {place: cells[cell] for cell, place in places.items() if cells[cell]}, {})
             for line, text, cells in rows]
    return found, faults


def _places(head, paper):
    """Question and step by heading; the unit in brackets may be left out."""
    wanted = {heading.partition(" [")[0].lower(): place
              for heading, place in columns(paper.families).items()}
    found = {}
    for cell in head:
        place = wanted.get(" ".join(cell.partition("[")[0].lower().split()))
        if place and place not in found.values():
            found[cell] = place
    return found


def _json_hand_in(path, paper):
    """A hand-in as (candidate, 0, text, answers, variants by question), and faults."""
    try:
        if path.stat().st_size > LARGEST:
            raise ValueError("it is larger than 5 MB")
        text = path.read_text(encoding="utf-8-sig")
        document = json.loads(text)
        if not isinstance(document, dict):
            raise ValueError("it is no hand-in")
    except (OSError, ValueError, RecursionError) as problem:
        reason = getattr(problem, "strerror", None) or str(problem)
        return [], [Fault(path.name, 0, f"It cannot be read ({reason[:80]}).",
                          "Ask for the file again, or type the answers into answers.csv.")]
    candidate, own = str(document.get("candidate", path.stem)), {}
    candidate = next((one.candidate.number for one in paper.papers
                      if one.candidate.number.lower() == candidate.lower()), candidate)
    if "attempts" in document:
        answers, own, faults = _from_attempts(path, document["attempts"], candidate, paper)
    else:
        answers, faults = _from_answers(path, document.get("answers"), paper)
    return [(candidate, 0, text[:500], answers, own)], faults


def _from_answers(path, answers, paper):
    """{"2": {"height": "186,4 mm"}}: step by step, by question number."""
    found, faults = {}, []
    if not isinstance(answers, dict):
        return {}, [Fault(path.name, 0, "There is no list “answers” in it.",
                          "Ask for the file again, or type the answers into answers.csv.")]
    places = set(columns(paper.families).values())
    for number, steps in answers.items():
        for step, typed in (steps.items() if isinstance(steps, dict) else [("?", steps)]):
            place = (int(number), step) if str(number).isdecimal() else None
            if place not in places:
                problem = f"Question {number!s:.12}, step {step!s:.24} is none of this paper."
            elif isinstance(typed, (str, int, float)) and not isinstance(typed, bool):
                if str(typed).strip():
                    found[place] = str(typed)
                continue
            elif typed is None:
                continue
            else:
                problem = f"Question {number}, step {step} holds no text."
            faults.append(Fault(path.name, 0, problem, "Type this answer into answers.csv.",
                                repr(typed)[:200]))
    return found, faults


def _from_attempts(path, attempts, candidate, paper):
    """What the panel saved: the last attempt at each question with the right numbers."""
    found, own, faults = {}, {}, []
    paper_of = next((one for one in paper.papers if one.candidate.number == candidate), None)
    if paper_of is None or not isinstance(attempts, list):
        return {}, {}, []
    asked = {variant.family.id: (number, variant)
             for number, variant in enumerate(paper_of.variants, 1)}
    for attempt in attempts:
        family = attempt.get("family") if isinstance(attempt, dict) else None
        entries = attempt.get("entries") if isinstance(attempt, dict) else None
        if not isinstance(family, str) or family not in asked or not isinstance(entries, dict):
            continue
        number, variant = asked[family]
        code = attempt.get("code")
        answered = variant if code == variant.code else (
            practised_variant(family, code, candidate) if paper.sheet.practice else None)
        if answered is None:
            faults.append(Fault(
                path.name, 0, f"Question {number} was answered with other numbers (code "
                f"{code!s:.16}, this paper has {variant.code}).",
                "Ask the candidate for the answers to this paper.", repr(entries)[:200]))
            continue
        answers, said = _from_answers(path, {str(number): entries}, paper)
        found = {place: text for place, text in found.items() if place[0] != number} | answers
        own[number], faults = answered, faults + said
    return found, own, faults
