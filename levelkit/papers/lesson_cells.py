"""A notebook read as data: its words, kept outputs, and what its question cards say.

Nothing of a notebook is run. Cards are recognised by their call and read where all that is handed
over is written out; a kept picture is taken as a picture, a kept page as its words.
"""

import ast
import base64
import binascii
import json
from dataclasses import dataclass
from html.parser import HTMLParser

from ..constants import CAUTION
from ..errors import InputError

CARDS = {"Prediction": ("question", "options", "answer", "why"),
         "SelfCheck": ("question", "feedback", "right"), "exercise": ("family_id",)}
_LINES = ("h4", "p", "li")


@dataclass(frozen=True, slots=True)
class Cell:
    """What a cell says.

    Attributes
    ----------
    words : str
        Markdown; empty for a code cell.
    calls : tuple of (str, dict)
        Functions of `lesson` that a code cell calls, with what is handed over and written out.
    printed : str
        What it printed.
    kept : tuple of (str, str, str)
        Kept outputs in order: element, words, and SVG text where it is a drawing.
    """

    words: str = ""
    calls: tuple = ()
    printed: str = ""
    kept: tuple = ()


def read_cells(path):
    """Return the cells of a notebook.

    Parameters
    ----------
    path : pathlib.Path
        A lesson, or a lecturer's own copy of one.

    Returns
    -------
    tuple of Cell
        In order.

    Raises
    ------
    InputError
        No notebook.
    """
    try:
        document = json.loads(path.read_text(encoding="utf-8"))
        return tuple(_cell(cell) for cell in document["cells"])
    except OSError as fault:
        raise InputError(f"The lesson {path} cannot be read ({fault.strerror}). Name a notebook "
                         "or the number of a lesson.") from None
    except (ValueError, KeyError, TypeError, AttributeError, RecursionError):
        raise InputError(f"{path} is no notebook. Name a file that ends in .ipynb, or the number "
                         "of a lesson.") from None


def _cell(cell):
    source = "".join(cell["source"])
    if cell["cell_type"] != "code":
        return Cell(source)
    printed, kept = "", ()
    for output in cell.get("outputs", ()):
        if output["output_type"] == "stream":
            printed += "".join(output["text"])
        else:
            kept += kept_lines("".join(output.get("data", {}).get("text/html", "")))
    return Cell("", tuple(_calls(source)), printed, kept)


def kept_lines(page):
    """Return lines and drawings of a kept page as (element, words, SVG text or nothing).

    Examples
    --------
    >>> kept_lines("<p>As <b>seen</b></p><script>run()</script>")
    (('p', 'As seen', ''),)
    """
    reader = _KeptPage()
    reader.feed(page)
    return tuple(reader.lines)


def _calls(source):
    """Calls of functions of `lesson` in a cell, in the order in which they stand."""
    try:
        tree = ast.parse(source)
    except SyntaxError:
        return
    for node in ast.walk(tree):
        if (isinstance(node, ast.Call) and isinstance(node.func, ast.Attribute)
                and isinstance(node.func.value, ast.Name) and node.func.value.id == "lesson"):
            given = dict(zip(CARDS.get(node.func.attr, ()), node.args, strict=False))
            given |= {one.arg: one.value for one in node.keywords if one.arg}
            yield node.func.attr, {name: value for name, part in given.items()
                                   if (value := _written(part)) is not None}


def _written(node):
    """The value of what is written out in a call; None for what only running would tell."""
    if isinstance(node, ast.Constant):
        return node.value
    if isinstance(node, (ast.List, ast.Tuple)):
        return _all([_written(one) for one in node.elts])
    if isinstance(node, ast.Dict):
        pairs = _all([_written(one) for one in (*node.keys, *node.values)])
        return pairs and dict(zip(pairs[:len(node.keys)], pairs[len(node.keys):], strict=True))
    if isinstance(node, ast.BinOp) and isinstance(node.op, ast.Add):
        parts = _written(node.left), _written(node.right)
        return "".join(parts) if all(isinstance(one, str) for one in parts) else None
    if isinstance(node, ast.Attribute) and ast.unparse(node) == "lesson.CAUTION":
        return CAUTION
    return None


def _all(values):
    return None if any(one is None for one in values) else values


class _KeptPage(HTMLParser):
    """Takes drawings and lines of text out of a kept output; markup of its own is not kept."""

    def __init__(self):
        super().__init__()
        self.lines, self._inside = [], None

    def handle_starttag(self, tag, attrs):
        """Take a picture, or begin a line."""
        attrs = dict(attrs)
        if tag == "img" and (svg := _svg(attrs.get("src") or "")):
            self.lines.append((tag, attrs.get("alt") or "", svg))
        if tag in _LINES:
            self._inside = tag
            self.lines.append((tag, "", ""))

    def handle_endtag(self, tag):
        """End a line."""
        if tag in _LINES:
            self._inside = None

    def handle_data(self, data):
        """Add to the line."""
        if self._inside:
            tag, words, _ = self.lines[-1]
            self.lines[-1] = tag, words + data, ""


def _svg(source):
    """The drawing in the address of a picture; empty for any other kind."""
    head, _, code = source.partition(",")
    if head != "data:image/svg+xml;base64":
        return ""
    try:
        return base64.b64decode(code, validate=True).decode("utf-8")
    except (binascii.Error, UnicodeDecodeError):
        return ""
