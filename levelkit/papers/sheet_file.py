"""The sheet file: a small TOML file that says which questions, for whom and when."""

import datetime
import tomllib
from dataclasses import dataclass, replace
from pathlib import Path

from ..errors import InputError
from ..exercises import family
from ..exercises.sheet import make_sheet
from ..scene.schematics import schematic_names
from .keys import Keys
from .register import Candidate, read_register

PAGES = {"A4": "a4", "Letter": "us-letter"}
_KEYS = {"title", "class", "sheet", "secret", "date", "minutes", "register", "versions",
         "instructions", "questions", "choose", "print", "resit_of", "candidates", "practice"}
_CHOOSE_KEYS = {"number", "marks", "topics", "difficulty"}
_PRINT_KEYS = {"page", "large", "formula_sheet", "answer_book", "blank_drawings"}
LETTERS = "ABCDEFGH"


@dataclass(frozen=True, slots=True)
class Print:
    """How a sheet is printed.

    Attributes
    ----------
    page : str
        "A4" or "Letter".
    large : bool
        Larger type for everybody.
    formula_sheet, answer_book : bool
        Whether these go with the paper.
    blank_drawings : tuple of str
        Line drawings without lettering that the answer book holds besides those of the questions.
    """

    page: str = "A4"
    large: bool = False
    formula_sheet: bool = True
    answer_book: bool = True
    blank_drawings: tuple = ()


@dataclass(frozen=True, slots=True)
class PaperSheet:
    """A sheet file as read.

    Attributes
    ----------
    path : pathlib.Path
        Where it stands.
    title, class_name, name : str
        Heading; class; name of the sheet, part of every seed.
    secret : str
        Class secret: with it anybody can work out every paper.
    date : datetime.date
        Of the examination.
    minutes : int [min]
        Time allowed.
    instructions : tuple of str
        Printed on the cover.
    family_ids : tuple of str
        Questions in order.
    candidates : tuple of Candidate
        In the order of the register.
    versions : int
        0 for own numbers for everybody, else how many versions are dealt out in turn.
    print : Print
        Page and extras.
    resit_of : pathlib.Path or None
        Paper that this one is a resit of.
    practice : bool
        Homework: hand-ins of the practice panel are marked on the numbers that it gave.
    """

    path: Path
    title: str
    class_name: str
    name: str
    secret: str
    date: datetime.date
    minutes: int
    instructions: tuple
    family_ids: tuple
    candidates: tuple
    versions: int = 0
    print: Print = Print()
    resit_of: object = None
    practice: bool = False

    @property
    def folder(self):
        """The folder for everything that is made from this sheet."""
        return self.path.with_suffix("")


def read_sheet(path):
    """Return a sheet file, checked.

    Parameters
    ----------
    path : str or pathlib.Path
        The TOML file.

    Returns
    -------
    PaperSheet
        With its questions chosen and its register read.

    Raises
    ------
    InputError
        The file, the key and what to do.
    """
    path = Path(path)
    keys = Keys(path.name, _document(path))
    keys.only(_KEYS)
    resit_of = keys.text("resit_of", "")
    sheet = PaperSheet(
        path, keys.text("title"), keys.text("class"), keys.text("sheet"), keys.text("secret"),
        keys.date("date"), keys.whole("minutes", 5, 600), keys.texts("instructions", ()),
        (), (), keys.whole("versions", 1, len(LETTERS), 0), _print(keys),
        path.parent / resit_of if resit_of else None, keys.flag("practice", False))
    sheet = replace(sheet, candidates=_candidates(keys, sheet))
    if resit_of:
        if "questions" in keys.content or "choose" in keys.content:
            raise keys.fault("questions", "a resit takes its questions from the first paper. "
                                          "Leave out questions and choose")
        return sheet
    return replace(sheet, family_ids=_families(keys, sheet))


def _document(path):
    try:
        return tomllib.loads(path.read_text(encoding="utf-8"))
    except OSError as fault:
        raise InputError(f"The sheet file {path} cannot be read ({fault.strerror}). Name a TOML "
                         "file: levelkit paper SHEET.toml.") from None
    except (tomllib.TOMLDecodeError, UnicodeDecodeError) as fault:
        raise InputError(f"{path.name}: {fault}. Correct the sheet file.") from None
    except RecursionError:
        raise InputError(f"{path.name}: brackets stand in brackets without end. "
                         "Correct the sheet file.") from None


def _candidates(keys, sheet):
    if "register" not in keys.content:
        if not sheet.versions:
            raise keys.fault("register", "the class list is missing. Add register = \"class.csv\", "
                                         "or versions = 2 for papers without candidates")
        return tuple(Candidate(LETTERS[index]) for index in range(sheet.versions))
    everybody = read_register(sheet.path.parent / keys.text("register"))
    wanted = keys.texts("candidates", ())
    unknown = set(wanted) - {one.number for one in everybody}
    if unknown:
        raise keys.fault("candidates", f"candidate {sorted(unknown)[0]} is not in the register. "
                                       "Correct the number")
    return tuple(one for one in everybody if not wanted or one.number in wanted)


def _families(keys, sheet):
    if "choose" in keys.content:
        if "questions" in keys.content:
            raise keys.fault("questions", "both questions and choose are given. Keep one of them")
        choose = keys.table("choose")
        choose.only(_CHOOSE_KEYS)
        difficulty = choose.content.get("difficulty", [1, 3])
        if not (isinstance(difficulty, list) and len(difficulty) == 2
                and all(level in (1, 2, 3) for level in difficulty)):
            raise choose.fault("difficulty", f"is {difficulty!r}; write lowest and highest, "
                                             "such as [1, 2]")
        return make_sheet(sheet.secret, sheet.name, choose.whole("number", 1, 12),
                          choose.whole("marks", 1, 200), choose.texts("topics", ()),
                          tuple(difficulty)).family_ids
    ids = keys.texts("questions")
    traps = {}
    for family_id in ids:
        try:
            one = family(family_id)
        except InputError as fault:
            raise keys.fault("questions", str(fault).rstrip(".")) from None
        if one.trap in traps:
            raise keys.fault("questions", f"{family_id} and {traps[one.trap]} test the same trap. "
                                          "Replace one of them")
        traps[one.trap] = family_id
    return tuple(ids)


def _print(keys):
    if "print" not in keys.content:
        return Print()
    table = keys.table("print")
    table.only(_PRINT_KEYS)
    page = table.text("page", "A4")
    if page not in PAGES:
        raise table.fault("page", f"is “{page}”; allowed are {' and '.join(PAGES)}. Choose one")
    drawings = table.texts("blank_drawings", ())
    for one in drawings:
        if one not in schematic_names():
            raise table.fault("blank_drawings", f"there is no drawing “{one}”; drawings are "
                                                f"{', '.join(schematic_names())}. Choose of them")
    return Print(page, table.flag("large", False), table.flag("formula_sheet", True),
                 table.flag("answer_book", True), drawings)
