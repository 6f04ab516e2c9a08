"""Web pages that stand alone: no script, no network, black on white, printable."""

import re
from functools import cache
from pathlib import Path

from markupsafe import Markup, escape

_TEMPLATES = Path(__file__).with_name("templates")
_SYMBOL = re.compile(r"([^\W\d_]+[′']?)_(\w+)")


@cache
def _environment():
    import jinja2

    made = jinja2.Environment(loader=jinja2.FileSystemLoader(_TEMPLATES), autoescape=True,
                              trim_blocks=True, lstrip_blocks=True,
                              undefined=jinja2.StrictUndefined)
    made.filters["lowered"] = _lowered
    return made


def _lowered(text):
    """Text in which the index of a symbol such as h_g stands lower, as on paper."""
    return Markup(_SYMBOL.sub(r"\1<sub>\2</sub>", str(escape(text))))


def page(template, drawings=None, **data):
    """Return a page as HTML text; everything but our own drawings is escaped.

    Parameters
    ----------
    template : str
        Name of a template without its ending.
    drawings : dict of str to str, optional
        SVG text by name.
    **data
        What the template shows.

    Returns
    -------
    str
        The page.
    """
    safe = {name: Markup(svg) for name, svg in (drawings or {}).items()}
    return _environment().get_template(f"{template}.html").render(**data, drawings=safe)
