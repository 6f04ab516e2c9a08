"""The version that everyone writes first: `interact` and a new matplotlib figure per move.

It works out the same result and draws the same lines, areas and lettering as the panel.
"""

from xml.etree import ElementTree

import ipywidgets as widgets
import matplotlib.pyplot as plt
from matplotlib.collections import LineCollection
from matplotlib.patches import Circle, Polygon, Rectangle

_SVG = "{http://www.w3.org/2000/svg}"


def naive_panel(panel, key):
    """Show the naive version of a panel with one slider."""
    control = panel.controls[key]

    def show(value=control.value):
        result = panel.evaluate(panel.values() | {key: value})
        plot(panel.draw(result, panel.look, True).svg, panel.look.width)
        plt.show()

    return widgets.interactive(show, value=widgets.FloatSlider(
        control.value, min=control.minimum, max=control.maximum, step=control.step))


def plot(svg, width):
    """Draw the elements of a picture with matplotlib."""
    root = ElementTree.fromstring(svg)
    height = float(root.get("viewBox").split()[3])
    _, axes = plt.subplots(figsize=(11, 11 * height / width))
    axes.add_collection(LineCollection(
        [[(float(line.get("x1")), float(line.get("y1"))),
          (float(line.get("x2")), float(line.get("y2")))] for line in root.findall(f"{_SVG}line")],
        lw=1, color="black"))
    for element in root:
        _put(axes, element.tag.removeprefix(_SVG), element)
    axes.set(xlim=(0, width), ylim=(height, 0))
    axes.axis("off")


def _put(axes, kind, element):
    def number(name):
        value = element.get(name, "0")
        return 0.0 if value.endswith("%") else float(value)

    hatch = "--" if (element.get("fill") or "").startswith("url") else None
    if kind == "rect":
        axes.add_patch(Rectangle((number("x"), number("y")), number("width"), number("height"),
                                 fill=False, hatch=hatch))
    elif kind == "circle":
        axes.add_patch(Circle((number("cx"), number("cy")), number("r"), fill=False))
    elif kind in ("polygon", "polyline"):
        points = [tuple(map(float, pair.split(","))) for pair in element.get("points").split()]
        if kind == "polygon":
            axes.add_patch(Polygon(points, fill=False, hatch=hatch))
        elif points:
            axes.plot(*zip(*points, strict=True), lw=1, color="black")
    elif kind == "text":
        axes.text(number("x"), number("y"), element.text or "", fontsize=7)
