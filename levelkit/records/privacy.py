"""What leaves the lecturer's hands carries no name and no number; what is due goes for good."""

import re
import tomllib

from ..errors import InputError
from ..exercises.selection import seed_number
from ..papers.keeping import EARLIER
from ..papers.paper_record import RECORD_NAME
from .csv_rows import csv_text

_HARMLESS = re.compile(r"[-+−\d.,eE×x^⁻⁰¹²³⁴⁵⁶⁷⁸⁹ ]*[A-Za-zΩ°µ%/²³ ]{0,16}")
WITHHELD = "(text withheld)"
MADE_IN_FOLDER = ("answers.csv", "overrides.csv", "question_papers.pdf", "mark_schemes.pdf",
                  "worked_copy.pdf", "data_sheet.pdf", "answer_book.pdf", RECORD_NAME)
MADE_BELOW = ("marks", "report", "hand_ins", "anonymous", "rehearsal", "second_marking", EARLIER)


def codes(marks):
    """Return an anonymous code for everybody, in an order that tells nothing of the register."""
    sheet = marks.paper.sheet
    order = sorted((one.number for one in marks.candidates),
                   key=lambda number: seed_number("anonymous", sheet.secret, sheet.name, number))
    return {number: f"X{index:03}" for index, number in enumerate(order, 1)}


def anonymised_csv(marks):
    """Return the marks for an external examiner: codes for candidates, no free text.

    Seeds and given numbers are left out, since they lead back to a paper; an answer that is more
    than a number with its unit is withheld, since people write their names everywhere.

    Parameters
    ----------
    marks : ClassMarks
        A marked class.

    Returns
    -------
    str
        CSV text in the order of the codes.
    """
    code = codes(marks)
    rows = []
    for one in sorted(marks.candidates, key=lambda one: code[one.number]):
        for step in one.steps:
            entry = step.mark.entry
            rows.append([code[one.number], step.question,
                         marks.paper.families[step.question - 1].id, step.mark.step,
                         entry if _HARMLESS.fullmatch(entry) else WITHHELD, step.mark.verdict,
                         step.marks, step.mark.of, step.mark.slip, step.mark.misconception,
                         "yes" if step.override else ""])
        if not one.present:
            rows.append([code[one.number], "", "", "", "", "absent", "", "", "", "", ""])
    return csv_text(("code", "question", "family", "step", "answer", "verdict", "marks", "of",
                     "slip", "misconception", "changed by hand"), rows)


def delete_class(folder, class_name):
    """Delete everything kept of a class: sheets, register, papers, answers, marks, copies.

    Touched are the sheet files, the register if no other class needs it, and what is in the
    folders that were made from the sheets; anything else stays.

    Parameters
    ----------
    folder : pathlib.Path
        Where the sheet files of the class are.
    class_name : str
        Name of the class as in its sheet files, to show that it is meant.

    Returns
    -------
    deleted : int
        Files deleted.
    left : tuple of pathlib.Path
        What stands there still and is not ours to delete.

    Raises
    ------
    InputError
        No sheet file of that class there.
    """
    sheets = _sheets(folder)
    own = [path for path, (named, _) in sheets.items() if named == class_name]
    if not own:
        raise InputError(f"There is no sheet file of the class “{class_name}” in {folder}. Give "
                         "the name exactly as in the sheet file, key class.")
    doomed, folders = set(own), set()
    needed = {register for path, (_, register) in sheets.items() if path not in own}
    doomed |= {sheets[path][1] for path in own} - needed - {None}
    for path in own:
        made = path.with_suffix("")
        folders.add(made)
        doomed |= {made / name for name in MADE_IN_FOLDER}
        for place in (made / name for name in MADE_BELOW):
            inside = list(place.rglob("*"))
            doomed |= {one for one in inside if one.is_symlink() or not one.is_dir()}
            folders |= {place, *(one for one in inside if one.is_dir() and not one.is_symlink())}
    deleted = [path for path in sorted(doomed) if _unlinked(path)]
    for place in sorted(folders, key=lambda one: -len(one.parts)):
        if place.is_dir() and not any(place.iterdir()):
            place.rmdir()
    return len(deleted), tuple(sorted(path for path in folder.rglob("*") if path.is_file()))


def _unlinked(path):
    """Delete a file and return whether it was there."""
    if not (path.is_file() or path.is_symlink()):
        return False
    path.unlink()
    return True


def _sheets(folder):
    """Class and register of every sheet file of a folder; a register elsewhere is nobody's here."""
    found = {}
    for path in sorted(folder.glob("*.toml")):
        try:
            keys = tomllib.loads(path.read_text(encoding="utf-8"))
        except (tomllib.TOMLDecodeError, UnicodeDecodeError, OSError):
            continue
        register = keys.get("register")
        inside = isinstance(register, str) and (folder / register).resolve().is_relative_to(
            folder.resolve())
        found[path] = keys.get("class"), folder / register if inside else None
    return found
