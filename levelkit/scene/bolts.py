"""Drawing of a gauge cover with its bolts, and the load that they leave on the gasket."""

from dataclasses import dataclass

from ..physics.bolts import LEFT, GaugeCover, TighteningResult
from .canvas import Canvas
from .parts import comparison_block

HEIGHT = 372
_FROM, _TO, _TOP, _FOOT = 60, 730, 42, 138
_ROWS = {LEFT: 64, "right": 116}
_AXIS, _HIGHEST = 356, 190
_BLOCK, _BLOCK_WIDTH = 776, 314


@dataclass(frozen=True, slots=True)
class BoltsView:
    """What the picture shows.

    Attributes
    ----------
    cover : GaugeCover [m, N]
        Cover, gasket, bolts.
    shares : dict of (int, str) to float [1]
        Share of the full load each bolt was last pulled to.
    last : tuple of (int, str) or None
        The bolt pulled last.
    result : TighteningResult or None [N/m, N, 1]
        Loads now; None before the first pull.
    rows : tuple of (str, (str, str))
        Names and numbers of the block: this order, and the recommended one.
    verdict : tuple of str
        One or two lines in large letters.
    """

    cover: GaugeCover
    shares: dict
    last: object
    result: TighteningResult | None
    rows: tuple
    verdict: tuple


def draw_bolts(view, look):
    """Return the picture of a cover, its bolts and the gasket load, and the same in words.

    Parameters
    ----------
    view : BoltsView [m, N, N/m]
        What is shown.
    look : Look
        Screen, projector or print.

    Returns
    -------
    Drawing
        SVG text, words, and the boxes of the lettering.
    """
    canvas = Canvas(look, HEIGHT)
    font = look.font
    canvas.rect(_FROM, _TOP, _TO - _FROM, _FOOT - _TOP, "metal", "outline")
    canvas.rect(_FROM + 34, 82, _TO - _FROM - 68, 16, "glass water", "outline")
    for (pair, side), y in ((bolt, _ROWS[bolt[1]]) for bolt in view.shares):
        _draw_bolt(canvas, _x(view, pair), y, view.shares[pair, side], (pair, side) == view.last)
        up = side == LEFT
        canvas.text(_x(view, pair), _TOP - 8 if up else _FOOT + 4 + 0.8 * font,
                    f"{pair}{side[0].upper()}", "middle", bold=(pair, side) == view.last)
    _draw_gasket(canvas, view, font)
    below = comparison_block(canvas, _BLOCK, 12, _BLOCK_WIDTH, "Order",
                             [("this", "error"), ("best", "outline")], view.rows)
    for index, line in enumerate(view.verdict):
        canvas.text(_BLOCK + _BLOCK_WIDTH / 2, below + (2.0 + 1.7 * index) * font, line, "middle",
                    1.3, bold=True, pen="error")
    return canvas.drawing("Cover of a plate gauge: bolts and gasket load", describe_bolts(view))


def _x(view, pair):
    return _FROM + (_TO - _FROM) * (pair - 0.5) / view.cover.pairs


def _draw_bolt(canvas, x, y, share, last):
    """Draw a nut seen from the end: the fuller, the tighter."""
    nut = [(x + 15 * a, y + 15 * b) for a, b in ((1, 0), (0.5, 0.87), (-0.5, 0.87), (-1, 0),
                                                 (-0.5, -0.87), (0.5, -0.87))]
    if last:
        canvas.circle(x, y, 20, "paper", "error")
    canvas.polygon(nut, "paper", "outline")
    canvas.mark([(x + 0.75 * share * (a - x), y + 0.75 * share * (b - y)) for a, b in nut],
                "outline", filled=True)


def _draw_gasket(canvas, view, font):
    canvas.line(_FROM, _AXIS, _TO, _AXIS, "outline")
    canvas.text(_FROM, _HIGHEST - 4, "load on the gasket" if not canvas.look.detail else
                "load that the gasket is left with, along the cover, N/mm")
    if view.result is None:
        canvas.text((_FROM + _TO) / 2, (_HIGHEST + _AXIS) / 2, "no bolt pulled yet", "middle",
                    bold=True)
        return
    length = view.cover.pairs * view.cover.pitch
    loads, places = view.result.gasket_load, view.result.place
    highest = max(loads.max(), 2 * view.cover.bolt_load / view.cover.pitch)
    per_load, width = (_AXIS - _HIGHEST - 14) / highest, (_TO - _FROM) / len(places)
    for place, load in zip(places, loads, strict=True):
        middle = _FROM + (_TO - _FROM - width) * place / length + width / 2
        height = load * per_load
        canvas.rect(middle - 0.4 * width, _AXIS - height, 0.8 * width, height, "metal", "thin")
    mean = loads.mean()
    canvas.line(_FROM, _AXIS - mean * per_load, _TO + 4, _AXIS - mean * per_load, "limit")
    canvas.text(_FROM - 6, _AXIS - mean * per_load + 0.35 * font, f"{mean / 1000:.0f}", "end")
    least = int(loads.argmin())
    x = _FROM + (_TO - _FROM - width) * places[least] / length + width / 2
    tip = _AXIS - loads[least] * per_load
    canvas.mark([(x, tip - 2), (x - 6, tip - 12), (x + 6, tip - 12)], "error", filled=True)


def describe_bolts(view):
    """Return what the picture shows, in a sentence or two."""
    if view.result is None:
        return "No bolt has been pulled yet."
    full = sum(share >= 1 for share in view.shares.values())
    loads = view.result.gasket_load
    where = view.result.place[int(loads.argmin())] / (view.cover.pairs * view.cover.pitch)
    place = "left end" if where < 0.25 else "right end" if where > 0.75 else "middle"
    return (f"{full} of {len(view.shares)} bolts are at full load. The gasket is loaded least "
            f"near the {place}: {100 * view.result.evenness[-1]:.0f} % of the mean.")
