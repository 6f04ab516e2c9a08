"""A lesson on paper: the words and pictures of its notebook without code, for two readers."""

import re
from dataclasses import dataclass
from pathlib import Path

from ..constants import CAUTION
from ..errors import InputError
from ..exercises import example
from ..physics.breakage import ISOLATION_DRILL, WARMING_DRILL
from ..resources import shipped_folder
from ..scene.schematics import schematic
from .documents import question_data, scheme_data
from .lesson_cells import read_cells
from .markdown_blocks import blocks, heading, paragraph, plain
from .scheme import LETTERS

STUDENT, LECTURER = "student", "lecturer"
DRILLS = {
    "isolation_drill": ("A glass bursts beside you. In which order?", ISOLATION_DRILL),
    "warming_drill": ("A new glass is in. In which order is it warmed?", WARMING_DRILL),
}
DRAWN = {"glass_types_panel": ("tubular gauge", "reflex gauge", "plate gauge")}
"""Panels that the lesson leaves no picture of, and the line drawings that show the same."""
_WORDLESS = ("predict first", "your own numbers", "on paper", "how to work it")
_WIDTH = re.compile(r'viewBox="\S+ \S+ ([\d.]+) ')
_FULL_WIDTH = 960.0  # viewBox units that fill a line: a drawing made small stays small
_SCREEN = ("predict first", "the panel", "the bench", "your own numbers", "on paper")


@dataclass(frozen=True, slots=True)
class Handout:
    """A lesson for one kind of reader.

    Attributes
    ----------
    name : str
        Of the notebook, without its ending.
    edition : str
        "student" or "lecturer".
    title : str
        Of the lesson.
    blocks : tuple of dict
        What stands on it, in order.
    pictures : dict of str to str
        SVG text by the name that the blocks use.
    """

    name: str
    edition: str
    title: str
    blocks: tuple
    pictures: dict


def lesson_paths(wanted=()):
    """Return the notebooks of some lessons.

    Parameters
    ----------
    wanted : sequence of str
        Numbers such as "03", or paths of notebooks; none for all lessons.

    Returns
    -------
    tuple of pathlib.Path
        In the order asked for.

    Raises
    ------
    InputError
        No such lesson.
    """
    shipped = sorted(shipped_folder("lessons").glob("[0-9]*.ipynb"))
    found = []
    for one in wanted:
        own = [path for path in shipped if path.name[:2] == str(one).zfill(2)]
        if str(one).endswith(".ipynb"):
            own = [Path(one)]
        if not own:
            raise InputError(f"There is no lesson {one}; lessons are "
                             f"{', '.join(path.name[:2] for path in shipped)}. A notebook of your "
                             "own is named with its ending .ipynb.")
        found += own
    return tuple(found or shipped)


def handout(path, edition):
    """Return a lesson for paper.

    Parameters
    ----------
    path : pathlib.Path
        The notebook. It is read, never run.
    edition : str
        "student" leaves every answer out; "lecturer" adds answers, worked exercises and the notes.

    Returns
    -------
    Handout
        Plain data for the templates.

    Raises
    ------
    InputError
        No notebook.
    """
    writer = _Writer(edition == LECTURER)
    for section in _sections(read_cells(path)):
        writer.section(*section)
    notes = shipped_folder("lessons") / "notes" / f"{path.stem}.md"
    if edition == LECTURER and notes.is_file():
        writer.blocks += [one | {"level": one["level"] + 1} if one["kind"] == "heading" else one
                          for one in blocks(notes.read_text(encoding="utf-8"))]
    return Handout(path.stem, edition, writer.title or path.stem, tuple(writer.blocks),
                   writer.pictures)


def _sections(cells):
    """(heading or None, contents): blocks and code cells from one heading to the next."""
    found = [(None, [])]
    for cell in cells:
        for block in blocks(cell.words) if cell.words else [cell]:
            if isinstance(block, dict) and block["kind"] == "heading":
                found.append((block, []))
            else:
                found[-1][1].append(block)
    return found


class _Writer:
    """Collects what stands on the paper."""

    def __init__(self, answers):
        self.answers, self.title, self.blocks, self.pictures = answers, "", [], {}
        self._exercises = self._checks = 0

    def section(self, head, contents):
        """Add a section; one that has nothing for paper leaves no heading behind."""
        name = plain(head["text"]) if head else ""
        if head and head["level"] == 1:
            self.title, head = name, None
        low = name.lower()
        made, unseen = [], False
        for one in contents:
            if isinstance(one, dict):
                if not any(words in low for words in _WORDLESS) and not _how_to(one):
                    made.append(self._noted(one, low))
            else:
                shown = self._cell(one)
                unseen = unseen or (not shown and any("panel" in name or "check" in name
                                                      for name, _ in one.calls))
                made += shown
        if unseen and not any(words in low for words in _SCREEN):
            made.append(paragraph("This part is on the screen.") | {"kind": "remark"})
        if low.startswith("look for yourself"):
            head = heading(2, "Look for yourself, with the panel on the screen")
        if made:
            self.blocks += [head, *made] if head else made

    def _noted(self, block, low):
        """Tasks in front of the panel get room for what was seen."""
        room = block["kind"] == "list" and low.startswith("look for yourself")
        return block | {"room": True} if room and not self.answers else block

    def _cell(self, cell):
        """What a code cell leaves on paper."""
        made = [found for name, given in cell.calls for found in self._call(name, given)]
        if cell.printed.strip():
            made.append({"kind": "printed", "text": cell.printed.rstrip()})
        for tag, words, svg in cell.kept:
            if svg:
                made.append(self._picture(svg, words))
            elif words.strip():
                made.append(heading(3, words) if tag == "h4" else paragraph(words))
        return made

    def _picture(self, svg, words):
        name = f"picture-{len(self.pictures) + 1}"
        self.pictures[name] = svg
        found = _WIDTH.search(svg)
        share = min(100.0, 100.0 * float(found.group(1)) / _FULL_WIDTH) if found else 100.0
        return {"kind": "picture", "name": name, "words": words, "share": round(share)}

    def _call(self, name, given):
        if name == "Prediction" and {"question", "options", "answer"} <= set(given):
            return [self._prediction(given)]
        if name == "SelfCheck" and {"question", "feedback", "right"} <= set(given):
            return [self._self_check(given)]
        if name == "exercise" and isinstance(given.get("family_id"), str):
            return [self._exercise(given["family_id"])]
        if name in DRILLS:
            return [self._drill(*DRILLS[name])]
        drawings = [schematic(one) for one in DRAWN.get(name, ())]
        return [self._picture(one.svg, one.words) for one in drawings]

    def _choice(self, label, question, replies, right, why=""):
        options = [{"letter": letter, "text": option,
                    "right": self.answers and option == right,
                    "reply": reply if self.answers else ""}
                   for letter, (option, reply) in zip(LETTERS, replies.items(), strict=False)]
        return {"kind": "choice", "label": label, "question": question, "options": options,
                "answers": self.answers, "why": why if self.answers else ""}

    def _prediction(self, given):
        options = dict.fromkeys(given["options"], "")
        return self._choice("Prediction", given["question"], options, given["answer"],
                            given.get("why", ""))

    def _self_check(self, given):
        self._checks += 1
        return self._choice(f"Self-check {self._checks}", given["question"], given["feedback"],
                            given["right"])

    def _exercise(self, family_id):
        variant = example(family_id)
        self._exercises += 1
        data = question_data(variant)
        if data["figure"]:
            drawing = schematic(variant.family.figure)
            data |= {"figure": self._picture(drawing.svg, drawing.words)["name"]}
        answers = scheme_data(variant) if self.answers else {"title": "", "lines": [], "slips": []}
        return {"kind": "exercise", "n": self._exercises, "marks": variant.family.marks,
                "caution": variant.caution, "answers": self.answers} | data | answers

    def _drill(self, question, steps):
        told = steps if self.answers else sorted(steps, key=lambda step: step.action)
        return {"kind": "order", "question": question, "answers": self.answers,
                "steps": [[step.action, step.reason if self.answers else ""] for step in told],
                "caution": CAUTION}


def _how_to(block):
    return block["kind"] == "paragraph" and plain(block["text"]).startswith("How to work it.")
