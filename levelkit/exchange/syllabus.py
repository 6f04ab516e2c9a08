"""Where each outcome is taught, practised, asked and assessed, as one CSV table with its gaps.

Outcomes and competence tables are in our own words; a college types the wording of its licensed
documents into its own copy of the two CSV files.
"""

import csv
import io
import re
from dataclasses import dataclass
from functools import cache
from pathlib import Path

from ..errors import InputError, LevelkitError
from ..exercises import families
from ..exercises.oral import oral_questions
from ..records.csv_rows import csv_text
from ..resources import shipped_folder

SHOWN_AT = 0.6
"""Share of the marks of a question from which its outcomes count as shown."""
_OUTCOMES, _TABLES = (Path(__file__).with_name(name) for name in ("outcomes.csv", "stcw.csv"))
HEAD = ("outcome", "in our words", "STCW tables", "lesson", "exercises", "oral questions",
        "evidence [candidates]", "gaps")
EVIDENCE_HEAD = ("outcome", "candidate", "sheet", "date", "question", "marks", "of", "shown")


@dataclass(frozen=True, slots=True)
class MapRow:
    """One outcome.

    Attributes
    ----------
    outcome, words : str
        Code, and the outcome in our words.
    tables, lessons, exercises, orals : tuple of str
        Competence tables; lesson files; families of the bank; oral questions of its lesson.
    evidence : int or None
        Candidates who have shown it; None where no marks were looked at.
    """

    outcome: str
    words: str
    tables: tuple
    lessons: tuple
    exercises: tuple
    orals: tuple
    evidence: object

    @property
    def gaps(self):
        """What is missing, as short texts."""
        checks = ((self.words, "no wording"), (self.tables, "no competence table"),
                  (self.lessons, "no lesson"), (self.exercises, "no exercise"),
                  (self.orals, "no oral question"))
        missing = [text for there, text in checks if not there]
        return tuple(missing + (["no assessed evidence"] if self.evidence == 0 else []))


@cache
def competence_tables():
    """Return the tables of the code by their number, in our words."""
    return {row["table"]: row for row in _rows(_TABLES)}


def _rows(path):
    try:
        return list(csv.DictReader(io.StringIO(path.read_text(encoding="utf-8-sig"))))
    except (OSError, UnicodeDecodeError) as fault:
        raise InputError(f"{path} cannot be read ({fault}). Name a CSV file in UTF-8.") from None


def syllabus_map(marks=(), outcomes=_OUTCOMES):
    """Return the map of all outcomes.

    Parameters
    ----------
    marks : iterable of ClassMarks
        Marked papers that count as evidence; none leaves that column out of account.
    outcomes : pathlib.Path
        The college's own list: columns `outcome`, `in our words`, `lesson`, `stcw tables`.

    Returns
    -------
    tuple of MapRow
        In the order of the list, then outcomes of the bank that the list does not have.

    Raises
    ------
    InputError
        A list that cannot be read, without its columns, or with a table that is unknown.
    """
    listed = {}
    for line, row in enumerate(_rows(outcomes), 2):
        if not row.get("outcome") or "lesson" not in row:
            raise InputError(f"{outcomes.name}, line {line}: outcome and lesson are needed. The "
                             "first line has to be outcome,in our words,lesson,stcw tables.")
        unknown = set((row.get("stcw tables") or "").split()) - set(competence_tables())
        if unknown:
            raise InputError(f"{outcomes.name}, line {line}: the table {sorted(unknown)[0]} is "
                             f"unknown; known are {', '.join(competence_tables())}.")
        listed[row["outcome"]] = row
    exercises, lesson_of = {}, {}
    for one in families().values():
        for code in one.outcomes:
            exercises.setdefault(code, []).append(one.id)
            lesson_of.setdefault(code, one.lesson)
    shown, lessons = _evidence(marks), _lessons()
    rows = []
    for code in [*listed, *sorted(set(exercises) - set(listed))]:
        row = listed.get(code, {})
        lesson = row.get("lesson") or lesson_of.get(code, "")
        rows.append(MapRow(
            code, row.get("in our words") or "", tuple((row.get("stcw tables") or "").split()),
            tuple(lessons.get(lesson, ())), tuple(exercises.get(code, ())),
            tuple(one.id for one in oral_questions().values() if one.lesson == lesson),
            None if shown is None else len(shown.get(code, ()))))
    return tuple(rows)


def _lessons():
    """Lesson files by number; none where the lessons are not installed."""
    try:
        folder = shipped_folder("lessons")
    except LevelkitError:
        return {}
    found = {}
    for path in sorted(folder.glob("*.ipynb")):
        number = re.match(r"\d+", path.name)
        if number:
            found.setdefault(number.group(), []).append(path.stem)
    return found


def _evidence(marks):
    """Who has shown each outcome, by code; None where no marks are given."""
    marks = list(marks)
    if not marks:
        return None
    shown = {}
    for one in marks:
        for number, family in enumerate(one.paper.families, 1):
            for candidate in one.present:
                if candidate.of_question(number) >= SHOWN_AT * family.marks:
                    for code in family.outcomes:
                        shown.setdefault(code, set()).add(candidate.number)
    return shown


def map_csv(rows):
    """Return the map as CSV text."""
    return csv_text(HEAD, [
        [row.outcome, row.words, " ".join(row.tables), " ".join(row.lessons),
         " ".join(row.exercises), " ".join(row.orals),
         "" if row.evidence is None else row.evidence, "; ".join(row.gaps)] for row in rows])


def evidence_csv(marks):
    """Return who has shown what on which paper, a line for each outcome and candidate, as CSV.

    Parameters
    ----------
    marks : iterable of ClassMarks
        Marked papers.

    Returns
    -------
    str
        In the order of the outcomes; whoever was absent from a paper is not in it.
    """
    rows = []
    for one in marks:
        for number, family in enumerate(one.paper.families, 1):
            for candidate in one.present:
                earned = candidate.of_question(number)
                rows += [[code, candidate.number, one.paper.sheet.name,
                          one.paper.sheet.date.isoformat(), number, earned, family.marks,
                          "yes" if earned >= SHOWN_AT * family.marks else "no"]
                         for code in family.outcomes]
    return csv_text(EVIDENCE_HEAD, sorted(rows, key=lambda row: (row[0], row[1], row[3], row[4])))


def tables_csv():
    """Return the competence tables in our words as CSV text, with the outcomes of each."""
    found = {table: [] for table in competence_tables()}
    for row in syllabus_map():
        for table in row.tables:
            found[table].append(row.outcome)
    return csv_text(("STCW table", "level", "in our words", "outcomes"), [
        [table, row["level"], row["in our words"], " ".join(found[table])]
        for table, row in competence_tables().items()])
