"""An invented class and its sheet file, for the tests of papers and records."""

from levelkit.papers.class_paper import make_class_paper
from levelkit.papers.sheet_file import read_sheet

QUESTIONS = ("gauge-to-table", "glass-reads-low", "water-cock-nearly-choked", "two-fluid-level",
             "reversed-reading")

SHEET = {
    "title": '"Water level: class test 1"',
    "class": '"Class E4 (invented)"',
    "sheet": '"test 1"',
    "secret": '"kept by the lecturer"',
    "date": "2026-03-12",
    "minutes": "90",
    "register": '"class.csv"',
    "instructions": '["Answer all questions.", "A pocket calculator is allowed."]',
    "questions": "[" + ", ".join(f'"{one}"' for one in QUESTIONS) + "]",
}


def register_text(count):
    """Invented candidates 1001 onwards; the second has larger print and more time."""
    lines = ["number,name,large print,extra time [%]"]
    for index in range(count):
        wish = "yes,25" if index == 1 else ","
        lines.append(f"{1001 + index},Invented Cadet {index + 1:02},{wish}")
    return "\n".join(lines) + "\n"


def write_sheet(folder, count=6, name="test_1", tables="", **changes):
    """Write register and sheet file; `None` leaves a key out. Return the path of the sheet."""
    (folder / "class.csv").write_text(register_text(count), encoding="utf-8")
    keys = {key: value for key, value in {**SHEET, **changes}.items() if value is not None}
    lines = [f"{key} = {value}" for key, value in keys.items()]
    path = folder / f"{name}.toml"
    path.write_text("\n".join(lines) + f"\n{tables}\n", encoding="utf-8")
    return path


def class_paper(folder, count=6, **changes):
    """Return the paper of an invented class."""
    return make_class_paper(read_sheet(write_sheet(folder, count, **changes)))
