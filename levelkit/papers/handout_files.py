"""Handouts as files: for each lesson and reader one PDF and one web page that stands alone."""

import base64
from concurrent.futures import ThreadPoolExecutor

from .. import __version__
from ..constants import CAUTION
from .documents import AT_ONCE
from .handout import LECTURER, STUDENT, handout
from .html_pages import page
from .keeping import write_kept
from .plan import PLAN, lesson_plan
from .sheet_file import PAGES
from .typesetting import compile_pdf, picture_pdf

EDITIONS = {STUDENT: "Student edition", LECTURER: "Lecturer's edition, with answers and notes"}
_WORDS = EDITIONS | {PLAN: "For the lecturer"}


def handout_files(one, paper="A4", large=False):
    """Return a handout as PDF and as web page.

    Parameters
    ----------
    one : Handout
        A lesson for one kind of reader.
    paper : str
        "A4" or "Letter".
    large : bool
        Larger type.

    Returns
    -------
    dict of str to (str or bytes)
        By file name.
    """
    data = {"title": one.title, "edition_words": _WORDS[one.edition],
            "answers": one.edition != STUDENT, "blocks": list(one.blocks), "large": large,
            "caution": CAUTION, "stamp": f"levelkit {__version__}"}
    figures = {name: picture_pdf(svg) for name, svg in one.pictures.items()}
    addresses = {name: f"data:image/svg+xml;base64,{base64.b64encode(svg.encode()).decode()}"
                 for name, svg in one.pictures.items()}
    stem = f"{one.name}_{one.edition}"
    return {f"{stem}.pdf": compile_pdf("handout", data | {"page": PAGES[paper]}, figures),
            f"{stem}.html": page("handout", addresses, **data)}


def make_handouts(paths, folder, when, editions=tuple(EDITIONS), paper="A4", large=False):
    """Write the handouts of some lessons and return what is to be said.

    Parameters
    ----------
    paths : sequence of pathlib.Path
        Notebooks.
    folder : pathlib.Path
        Where they go.
    when : datetime.datetime
        Now, for dated copies of what is renewed.
    editions : sequence of str
        "student", "lecturer" or both.
    paper : str
        "A4" or "Letter".
    large : bool
        Larger type.

    Returns
    -------
    list of str
        Sentences.

    Raises
    ------
    InputError
        No notebook, or a folder that cannot be written.
    """
    wanted = [handout(path, edition) for path in paths for edition in editions]
    return _written(wanted, len(paths), folder, when, paper, large)


def make_plans(paths, folder, when, paper="A4"):
    """Write the plans of some lessons and return what is to be said.

    Parameters
    ----------
    paths : sequence of pathlib.Path
        Notebooks.
    folder : pathlib.Path
        Where they go.
    when : datetime.datetime
        Now, for dated copies of what is renewed.
    paper : str
        "A4" or "Letter".

    Returns
    -------
    list of str
        Sentences.

    Raises
    ------
    InputError
        No notebook, or a folder that cannot be written.
    """
    return _written([lesson_plan(path) for path in paths], len(paths), folder, when, paper, False)


def _written(wanted, lessons, folder, when, paper, large):
    with ThreadPoolExecutor(AT_ONCE) as threads:
        made = list(threads.map(lambda one: handout_files(one, paper, large), wanted))
    files = {name: content for one in made for name, content in one.items()}
    kept = [write_kept(folder / name, content, when) for name, content in files.items()]
    return [*filter(None, kept),
            f"{lessons} lessons, {len(files)} files, are in {folder}."]
