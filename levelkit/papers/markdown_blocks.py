"""Markdown of the lessons as plain blocks, from which both the page and the PDF are made.

A block or a piece of text is a dict with its `kind`; raw HTML in a lesson is shown as it is
written and never handed on.
"""

from functools import cache

from ..errors import InputError
from .formula import formula
from .formula_text import mathml_text, typst_text


@cache
def _reader():
    import mistune

    return mistune.create_markdown(renderer=None, plugins=["table", "math"])


def blocks(text):
    """Return the blocks of a Markdown text.

    Parameters
    ----------
    text : str
        A cell of a notebook, or a file of notes.

    Returns
    -------
    list of dict
        Headings, paragraphs, lists, tables, quotes, formulas and code as it stands.

    Examples
    --------
    >>> [block["kind"] for block in blocks("# Title\\n\\nText with $h_g$.\\n\\n1. one\\n2. two")]
    ['heading', 'paragraph', 'list']
    """
    return _blocks(_reader()(text))


def plain(pieces):
    """Return pieces of text without their marks.

    Examples
    --------
    >>> plain(blocks("**How** to *work* it.")[0]["text"])
    'How to work it.'
    """
    return "".join(plain(one["text"]) if isinstance(one["text"], list) else one["text"]
                   for one in pieces)


def said(text):
    """Return a piece of plain text."""
    return {"kind": "text", "text": text}


def paragraph(*pieces):
    """Return a paragraph of pieces; bare texts are taken as they are."""
    return {"kind": "paragraph",
            "text": [said(one) if isinstance(one, str) else one for one in pieces]}


def heading(level, text):
    """Return a heading."""
    return {"kind": "heading", "level": level, "text": [said(text)]}


def _blocks(tokens):
    return [block for token in tokens if (block := _block(token)) is not None]


def _block(token):
    kind, children = token["type"], token.get("children", [])
    if kind == "heading":
        return {"kind": "heading", "level": token["attrs"]["level"], "text": _pieces(children)}
    if kind in ("paragraph", "block_text"):
        return {"kind": "paragraph", "text": _pieces(children)}
    if kind == "list":
        return {"kind": "list", "ordered": token["attrs"]["ordered"],
                "start": token["attrs"].get("start", 1),
                "items": [_blocks(item["children"]) for item in children]}
    if kind == "block_quote":
        return {"kind": "quote", "blocks": _blocks(children)}
    if kind == "table":
        head, body = children
        return {"kind": "table", "align": [cell["attrs"]["align"] or "left"
                                           for cell in head["children"]],
                "head": [_pieces(cell["children"]) for cell in head["children"]],
                "rows": [[_pieces(cell["children"]) for cell in row["children"]]
                         for row in body["children"]]}
    if kind == "block_math":
        return {"kind": "formula"} | _formula(token["raw"])
    if kind in ("block_code", "block_html"):
        return {"kind": "code", "text": token["raw"].rstrip()}
    return None  # blank lines and rules


def _pieces(tokens):
    return [_piece(token) for token in tokens]


def _piece(token):
    kind = token["type"]
    if kind == "inline_math":
        return {"kind": "formula", "text": token["raw"]} | _formula(token["raw"])
    if kind in ("strong", "emphasis"):
        return {"kind": kind, "text": _pieces(token["children"])}
    if kind == "codespan":
        return {"kind": "code", "text": token["raw"]}
    if kind == "softbreak":
        return said(" ")
    if kind == "linebreak":
        return {"kind": "break", "text": " "}
    if "children" in token:  # links: on paper their words are what is left
        return {"kind": "group", "text": _pieces(token["children"])}
    return said(token.get("raw", ""))


def _formula(text):
    """The formula in both languages; one that cannot be set is shown as it is written."""
    try:
        tree = formula(text)
    except InputError:
        return {"typst": "", "mathml": "", "raw": text.strip()}
    return {"typst": typst_text(tree), "mathml": mathml_text(tree), "raw": text.strip()}
