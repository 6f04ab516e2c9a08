"""Web pages that stand alone: no script, no network, black on white, printable."""

from functools import cache
from pathlib import Path

from markupsafe import Markup

_TEMPLATES = Path(__file__).with_name("templates")


@cache
def _environment():
    import jinja2

    return jinja2.Environment(loader=jinja2.FileSystemLoader(_TEMPLATES), autoescape=True,
                              trim_blocks=True, lstrip_blocks=True,
                              undefined=jinja2.StrictUndefined)


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
