"""From plain data to a PDF file: typst templates, our own drawings, fonts that travel along.

Nothing is fetched and no font of the machine is used, so that a paper looks the same everywhere.
"""

import json
from functools import cache
from importlib.util import find_spec
from pathlib import Path
from shutil import copyfile
from tempfile import TemporaryDirectory

from ..errors import LevelkitError

TEMPLATES = Path(__file__).with_name("templates")
_EPOCH = 0  # no clock in the file: the same paper gives the same bytes


@cache
def _fonts():
    """The fonts inside typst, and the sans-serif one that matplotlib brings along."""
    import typst

    matplotlib = Path(find_spec("matplotlib").submodule_search_locations[0])
    return typst.Fonts(include_system_fonts=False, include_embedded_fonts=True,
                       font_paths=[str(matplotlib / "mpl-data" / "fonts" / "ttf")])


def compile_pdf(template, data, figures=None, tagged=True):
    """Return a PDF file.

    Parameters
    ----------
    template : str
        Name of a template without its ending.
    data : dict
        What the template prints; plain JSON types.
    figures : dict of str to bytes, optional
        PDF pictures by the name under which the template asks for them.
    tagged : bool
        With the structure that a screen reader wants; it takes room and time.

    Returns
    -------
    bytes
        The file.

    Raises
    ------
    LevelkitError
        A template that cannot be set: a fault of ours, with typst's words.
    """
    import typst

    with TemporaryDirectory(prefix="levelkit-") as name:
        folder = Path(name)
        for path in TEMPLATES.glob("*.typ"):
            copyfile(path, folder / path.name)
        for figure, content in (figures or {}).items():
            (folder / f"{figure}.pdf").write_bytes(content)
        try:
            return typst.Compiler(
                str(folder / f"{template}.typ"), root=str(folder), font_paths=_fonts(),
                ignore_system_fonts=True, sys_inputs={"data": json.dumps(data)},
            ).compile(format="pdf", timestamp=_EPOCH, pdf_tags=tagged)
        except typst.TypstError as fault:
            raise LevelkitError(f"The template {template} cannot be set: {fault.message} "
                                f"{fault.diagnostic}") from fault


@cache
def picture_pdf(svg):
    """Return a drawing as a PDF picture, once; a picture used on 400 pages is stored once.

    Parameters
    ----------
    svg : str
        SVG text with a viewBox.

    Returns
    -------
    bytes
        A PDF file of one page without margin.
    """
    import typst

    source = ('#set page(width: auto, height: auto, margin: 0pt, fill: none)\n'
              '#image(bytes(sys.inputs.svg), format: "svg", width: 400pt)')
    return typst.Compiler(source.encode(), font_paths=_fonts(), ignore_system_fonts=True,
                          sys_inputs={"svg": svg}).compile(format="pdf", timestamp=_EPOCH)
