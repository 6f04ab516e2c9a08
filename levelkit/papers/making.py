"""From a sheet file to a folder of papers: the work behind `levelkit paper`."""

from ..errors import InputError
from .class_paper import make_class_paper
from .documents import findings, paper_documents
from .grid import empty_grid
from .keeping import write_kept
from .paper_record import RECORD_NAME, paper_json, read_paper
from .sheet_file import read_sheet

GRID_NAME = "answers.csv"


def make_papers(sheet_path, when):
    """Make every document of a sheet file in the folder of the same name.

    Parameters
    ----------
    sheet_path : str or pathlib.Path
        The sheet file.
    when : datetime.datetime
        Now, for dated copies of what is renewed.

    Returns
    -------
    folder : pathlib.Path
        Where everything is.
    sentences : list of str
        What was made, kept, and is to be known.

    Raises
    ------
    InputError
        A mistake in the sheet file or the register, or a question that cannot be solved from
        the paper alone; nothing is written then.
    """
    sheet = read_sheet(sheet_path)
    first = read_paper(sheet.resit_of) if sheet.resit_of else None
    paper = make_class_paper(sheet, first)
    faults, notes = findings(paper)
    if faults:
        raise InputError("This paper cannot be solved on paper. " + " ".join(faults)
                         + " Take another question, or have the bank corrected.")
    sentences = list(notes)
    for name, content in paper_documents(paper).items():
        sentences.append(write_kept(sheet.folder / name, content, when))
    sentences.append(write_kept(sheet.folder / RECORD_NAME, paper_json(paper), when))
    grid = sheet.folder / GRID_NAME
    if grid.exists():
        sentences.append(f"{GRID_NAME} is left as it is: it may hold answers already.")
    else:
        write_kept(grid, empty_grid(paper), when)
    if first:
        sentences.append(_equal(paper, first))
    sentences.append(f"{len(paper.papers)} papers of {len(paper.families)} questions, "
                     f"{paper.marks} marks, issue {paper.issue}, are in {sheet.folder}.")
    return sheet.folder, [sentence for sentence in sentences if sentence]


def _equal(paper, first):
    """The sentence that says in what the resit equals the first paper."""
    outcomes = sorted({code for one in paper.families for code in one.outcomes})
    return (f"Resit of “{first.sheet.name}”: the same question families, so the same outcomes "
            f"({', '.join(outcomes)}), marks, steps and difficulty; no set of numbers of the "
            "first paper comes back.")
