"""Figures in our look, and a finished figure as SVG text with its words."""

import io
import re
from contextlib import contextmanager

from ..scene.canvas import OWN_ID, Drawing, Fragment
from ..scene.lettering import TextBox
from ..scene.look import FONT

_FAMILIES = [name.strip(" '") for name in FONT.split(",")]
_serial = iter(range(1, 10 ** 9))


@contextmanager
def house_style(look):
    """Set matplotlib to our look: real text, our font and pens, units of one viewBox unit."""
    import matplotlib

    ink, thin = look.pen("outline").colour, look.pen("thin").colour
    with matplotlib.rc_context({
        "svg.fonttype": "none", "svg.hashsalt": "levelkit", "font.family": "sans-serif",
        "font.sans-serif": ["DejaVu Sans"], "font.size": 0.9 * look.font,
        "axes.edgecolor": ink, "axes.labelcolor": ink, "text.color": ink,
        "xtick.color": ink, "ytick.color": ink, "xtick.direction": "out",
        "axes.linewidth": look.pen("outline").width, "axes.grid": True,
        "grid.color": thin, "grid.linewidth": 0.3, "axes.titlesize": 1.1 * look.font,
        "axes.titleweight": "bold", "axes.titlelocation": "left", "hatch.linewidth": 0.6,
        "hatch.color": thin, "figure.facecolor": "#ffffff", "axes.facecolor": "#ffffff",
    }):
        yield


def new_figure(width, height):
    """Return an empty figure whose points are viewBox units."""
    from matplotlib.figure import Figure

    return Figure(figsize=(width / 72, height / 72), dpi=72)


def figure_fragment(figure, x=0.0, y=0.0):
    """Return a figure as a part for a drawing, its upper left corner at `x`, `y`."""
    file = io.StringIO()
    figure.savefig(file, format="svg", metadata={"Date": None})
    inner = file.getvalue().split('<g id="figure_1">', 1)[1].rsplit("</svg>", 1)[0]
    inner = re.sub(r'\s(id)="([^"]+)"', rf' \1="{OWN_ID}\2"', '<g id="figure_1">' + inner)
    inner = re.sub(r'xlink:href="#', f'href="#{OWN_ID}', inner).replace(
        "url(#", f"url(#{OWN_ID}")
    inner = re.sub(r'font-family: [^;"]*;?', "", inner)  # that of the drawing
    inner = re.sub(r"\s*\n\s*", " ", inner)
    markup = (f'<g transform="translate({x:g},{y:g})" stroke-linejoin="round">{inner}</g>')
    drawn = set(re.findall(r">([^<>]+)</text>", inner))
    return Fragment(markup, tuple(box for box in _text_boxes(figure, x, y)
                                  if drawn & set(box.text.split("\n"))))


def figure_drawing(figure, title, words):
    """Return a figure as a drawing of its own, with its accessible name and description."""
    width, height = 72 * figure.get_size_inches()
    prefix = f"lkf{next(_serial)}-"
    part = figure_fragment(figure)
    markup = (f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {width:g} {height:g}" '
              f'width="100%" role="img" aria-labelledby="{OWN_ID}title {OWN_ID}words" '
              f'font-family="{FONT}" style="background:#ffffff;display:block">'
              f'<title id="{OWN_ID}title">{_escaped(title)}</title>'
              f'<desc id="{OWN_ID}words">{_escaped(words)}</desc>{part.markup}</svg>')
    return Drawing(markup.replace(OWN_ID, prefix), words, part.text_boxes)


def _text_boxes(figure, x, y):
    """The room every visible text of a figure takes, as drawn by matplotlib itself."""
    from matplotlib.text import Text

    height = 72 * figure.get_size_inches()[1]
    renderer = figure.canvas.get_renderer() if hasattr(figure.canvas, "get_renderer") else None
    for text in figure.findobj(Text):
        if text.get_visible() and text.get_text().strip():
            box = text.get_window_extent(renderer)
            yield TextBox(x + box.x0, y + height - box.y1, x + box.x1, y + height - box.y0,
                          text.get_text())


def _escaped(text):
    return text.replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;")
