"""Drawing of what the eye sees in a gauge glass: rays, and the view from the front."""

from dataclasses import dataclass

from .canvas import Canvas
from .parts import number_block
from .reflex_view import ReflexView, draw_reflex, verdict_of_groove
from .tubular_view import TubularView, draw_tubular, verdict_of_tube

HEIGHT = 366
_BLOCK, _BLOCK_WIDTH = 808, 284


@dataclass(frozen=True, slots=True)
class OpticsView:
    """What the picture shows.

    Attributes
    ----------
    glass : ReflexView or TubularView
        The glass and its light.
    rows : tuple of (str, str)
        Names and numbers of the block, already with units.
    show_truth : bool
        False draws the light that goes in and not what becomes of it.
    """

    glass: ReflexView | TubularView
    rows: tuple
    show_truth: bool = True


def draw_optics(view, look):
    """Return the picture of a gauge glass and its light, and the same in words.

    Parameters
    ----------
    view : OpticsView
        What is shown.
    look : Look
        Screen, projector or print.

    Returns
    -------
    Drawing
        SVG text, words, and the boxes of the lettering.
    """
    canvas, font = Canvas(look, HEIGHT), look.font
    grooved = isinstance(view.glass, ReflexView)
    (draw_reflex if grooved else draw_tubular)(canvas, view.glass, view.show_truth)
    below = number_block(canvas, _BLOCK, 12, _BLOCK_WIDTH,
                         [(name, value, "outline") for name, value in view.rows],
                         "Reflex glass" if grooved else "Tubular glass")
    if view.show_truth:
        for index, line in enumerate(_verdict(view)):
            canvas.text(_BLOCK + _BLOCK_WIDTH / 2, below + (2.0 + 1.6 * index) * font, line,
                        "middle", 1.2, bold=True, pen="error")
    return canvas.drawing("Light in a gauge glass", describe_optics(view))


def _verdict(view):
    if isinstance(view.glass, ReflexView):
        return verdict_of_groove(view.glass.groove)
    return verdict_of_tube(view.glass)


def describe_optics(view):
    """Return what the picture shows, in a sentence or two."""
    if not view.show_truth:
        return "Light goes into the glass; what becomes of it is hidden."
    glass = view.glass
    if isinstance(glass, ReflexView):
        groove = glass.groove
        return (f"Before steam {100 * groove.steam_brightness:.1f} % of the light comes back, "
                f"before water {100 * groove.water_brightness:.2f} %: {groove.contrast}.")
    level = {0.0: "The glass is empty", 1.0: "The glass is full"}.get(
        glass.share, f"Water fills {100 * glass.share:.0f} % of the window")
    verdict = " ".join(_verdict(view))
    return f"{level}. {verdict[0].upper()}{verdict[1:]}{'.' if verdict[-1] != '?' else ''}"
