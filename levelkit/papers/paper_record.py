"""The paper as a plain JSON file: hand-ins are marked from it, next year too, for an appeal.

It holds numbers and seeds but no names; whoever has it has every answer.
"""

import datetime
import json
from hashlib import sha256

from .. import __version__
from ..errors import InputError
from ..exercises import Variant, family
from ..exercises.data import in_si
from ..exercises.solution import solved_family
from .class_paper import CandidatePaper, ClassPaper
from .register import Candidate
from .sheet_file import PaperSheet

RECORD_NAME = "paper.json"
VERSION = 1


def paper_json(paper):
    """Return a paper as readable JSON text."""
    sheet = paper.sheet
    return json.dumps({
        "version": VERSION, "levelkit": __version__, "issue": paper.issue,
        "title": sheet.title, "class": sheet.class_name, "sheet": sheet.name,
        "secret": sheet.secret, "date": sheet.date.isoformat(), "minutes": sheet.minutes,
        "practice": sheet.practice,
        "questions": [{"family": one.id, "marks": one.marks, "fingerprint": fingerprint(one)}
                      for one in paper.families],
        "papers": [{"candidate": one.candidate.number, "seed": one.seed,
                    "variants": [{"place": variant.place, "data": variant.data}
                                 for variant in one.variants]}
                   for one in (*paper.papers, paper.specimen)],
    }, ensure_ascii=False, indent=1) + "\n"


def fingerprint(one):
    """Return a short code of everything in a family that a mark depends on."""
    words = [one.text, *map(repr, one.steps), *map(repr, one.slips)]
    return sha256("\n".join(words).encode()).hexdigest()[:12]


def read_paper(folder):
    """Return the paper that is kept in a folder.

    Parameters
    ----------
    folder : pathlib.Path
        Where `levelkit paper` put it.

    Returns
    -------
    ClassPaper
        With the numbers as printed; solved anew.

    Raises
    ------
    InputError
        No paper there, or one that this version of the bank cannot solve.
    """
    path = folder / RECORD_NAME
    try:
        document = json.loads(path.read_text(encoding="utf-8"))
        sheet = PaperSheet(
            folder.with_suffix(".toml"), document["title"], document["class"], document["sheet"],
            document["secret"], datetime.date.fromisoformat(document["date"]),
            document["minutes"], (), tuple(one["family"] for one in document["questions"]),
            tuple(Candidate(one["candidate"]) for one in document["papers"][:-1]),
            practice=document.get("practice", False))
        families = [family(one["family"]) for one in document["questions"]]
        papers = [_paper(one, families, sheet) for one in document["papers"]]
        notes = _notes(document, families)
    except OSError:
        raise InputError(f"There is no {RECORD_NAME} in {folder}. Make the papers first: "
                         "levelkit paper SHEET.toml.") from None
    except (ValueError, KeyError, TypeError, IndexError, AttributeError, OverflowError,
            RecursionError) as fault:
        reason = str(fault) if isinstance(fault, InputError) else repr(fault)
        raise InputError(f"{path} cannot be used ({reason}). Take an earlier copy of it, or the "
                         f"version of levelkit that wrote it.") from fault
    return ClassPaper(sheet, tuple(papers[:-1]), papers[-1], notes)


def _notes(document, families):
    """What has changed in the bank since the paper was printed."""
    return tuple(
        f"Question {number} ({one.id}) has changed in the bank since this paper was printed by "
        f"levelkit {document['levelkit']}; marks follow the bank of today."
        for number, (one, kept) in enumerate(zip(families, document["questions"], strict=True), 1)
        if fingerprint(one) != kept["fingerprint"])


def _paper(entry, families, sheet):
    seed = entry["seed"]
    variants = []
    for one, kept in zip(families, entry["variants"], strict=True):
        data = {name: float(number) for name, number in kept["data"].items()}
        variants.append(Variant(one, data, solved_family(one, in_si(one, data)),
                                (sheet.secret, sheet.name, seed), kept["place"]))
    return CandidatePaper(Candidate(entry["candidate"]), seed, tuple(variants))
