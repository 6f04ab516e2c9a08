"""A worked example as an ordinary output: it stays without a kernel, and prints."""

from html import escape

from IPython.display import HTML, display

from ..exercises import FULL, faded
from ..scene.schematics import schematic
from .twin import still_image


def show_worked_page(question):
    """Show a question with its figure and every step worked."""
    figure = question.family.figure
    lines = "".join(f"<li>{escape(line)}</li>" for line in faded(question, FULL))
    caution = f"<p>{question.caution}</p>" if question.caution else ""
    display(HTML(f"<h4>{escape(question.family.title)}</h4><p>{escape(question.text)}</p>{caution}"
                 f"{still_image(schematic(figure)) if figure else ''}<ol>{lines}</ol>"))
