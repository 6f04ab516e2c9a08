"""A broken gauge glass: what each end blows, the ball, and both flows against pressure."""

from dataclasses import dataclass

from .canvas import Canvas
from .cock_gauge import GaugePlace, draw_cock, draw_drum, draw_fittings, draw_pipes
from .parts import number_block
from .strip_chart import Axes, draw_axes, draw_curve, draw_dot, draw_key, round_range

HEIGHT = 330
_PLACE = GaugePlace(wall=100, glass=232, steam=44, water=236, left=18)
_CHART, _TOP = (474, 800), 0.4
_BALL = (408, 194)
_BLOCK, _BLOCK_WIDTH = 826, 264
FREE, STUCK, ABSENT = "free", "stuck with scale", "none fitted"


@dataclass(frozen=True, slots=True)
class BreakageView:
    """What the picture shows.

    Attributes
    ----------
    level : float [m]
        True level above the water connection.
    water_flow, steam_flow : float [kg/s]
        What the two ends blow.
    lift_flow : float [kg/s]
        Flow that lifts the ball.
    ball : str
        "free", "stuck with scale" or "none fitted".
    seated : bool
        Whether the ball has shut the water end.
    pressures : array [bar]
        Gauge pressures of the curves.
    water_curve, steam_curve : array [kg/s]
        Flows there.
    pressure : float [bar]
        Gauge pressure of the boiler.
    rows : tuple of (str, str)
        Names and numbers of the block, already with units.
    verdict : tuple of str
        Two large lines.
    show_flows : bool
        False leaves out what blows: still to be predicted.
    """

    level: float
    water_flow: float
    steam_flow: float
    lift_flow: float
    ball: str
    seated: bool
    pressures: object
    water_curve: object
    steam_curve: object
    pressure: float
    rows: tuple
    verdict: tuple
    show_flows: bool = True


def draw_breakage(view, look):
    """Return the picture of a broken glass and the same in words.

    Parameters
    ----------
    view : BreakageView [kg/s, m, bar]
        What is shown.
    look : Look
        Screen, projector or print.

    Returns
    -------
    Drawing
        SVG text, words, and the boxes of the lettering.
    """
    canvas, font = Canvas(look, HEIGHT), look.font
    _draw_gauge(canvas, view)
    _draw_ball(canvas, view)
    _draw_chart(canvas, view)
    below = number_block(canvas, _BLOCK, 8, _BLOCK_WIDTH,
                         [(name, value, "outline") for name, value in view.rows], "Broken glass")
    for line, text in enumerate(view.verdict if view.show_flows else ()):
        canvas.text(_BLOCK + _BLOCK_WIDTH / 2, below + (1.8 + 1.5 * line) * font, text, "middle",
                    1.15, bold=True, pen="error")
    return canvas.drawing("A broken gauge glass", describe_breakage(view))


def _draw_gauge(canvas, view):
    draw_drum(canvas, _PLACE, view.level, _TOP, foot=60)
    draw_pipes(canvas, _PLACE, view.level > 0)
    x = _PLACE.glass
    for y, out in ((_PLACE.steam + 15, 1), (_PLACE.water - 15, -1)):  # stubs with broken edges
        canvas.polygon([(x - 11, y), (x - 11, y + 20 * out), (x - 5, y + 11 * out),
                        (x, y + 24 * out), (x + 5, y + 9 * out), (x + 11, y + 18 * out),
                        (x + 11, y)], "paper", "outline")
    draw_fittings(canvas, _PLACE)
    for name, y in (("S", _PLACE.steam), ("W", _PLACE.water)):
        draw_cock(canvas, 166, y, 1.0)
        canvas.text(166, y - 16, name, "middle", bold=True)
    draw_cock(canvas, x, _PLACE.drain, 0.0, vertical=True)
    if not view.show_flows:
        for line, text in enumerate(("which end", "loses more?")):
            canvas.text(x, (_PLACE.steam + _PLACE.water) / 2 + 1.3 * line * canvas.look.font, text,
                        "middle", bold=True)
        return
    water = 0.0 if view.seated else view.water_flow
    largest = max(view.water_flow, view.steam_flow)
    _draw_jet(canvas, x, _PLACE.water - 34, -1, water / largest, "brine")
    _draw_jet(canvas, x, _PLACE.steam + 34, 1, view.steam_flow / largest, "steam")
    font = canvas.look.font
    for y, name, flow in ((_PLACE.steam + 10, "steam end", view.steam_flow),
                          (_PLACE.water + 0.4 * font, "water end", water)):
        canvas.text(x + 28, y, name)
        canvas.text(x + 28, y + 1.2 * font, _flow(flow), bold=True)


def _flow(flow):
    return f"{flow:.2f} kg/s" if flow >= 0.1 else f"{1000 * flow:.0f} g/s"


def _draw_jet(canvas, x, y, out, share, fill):
    """Draw what one end blows, as long as its share of the larger flow; water flashes."""
    if share <= 0:
        return
    cloud = ((1.0, 30, "steam"),) if fill == "steam" else ((1.0, 44, "steam"), (0.75, 22, fill))
    for length, spread, filling in cloud:
        reach, wide = length * (20 + 66 * share) * out, spread * share ** 0.5 + 5
        canvas.polygon([(x - 7, y), (x - wide, y + 0.7 * reach),
                        (x - 0.55 * wide, y + 0.95 * reach),
                        (x, y + reach), (x + 0.55 * wide, y + 0.95 * reach),
                        (x + wide, y + 0.7 * reach), (x + 7, y)], filling, "thin")


def _draw_ball(canvas, view):
    """Draw the ball in its passage, enlarged: at rest, or carried to its seat."""
    x, y, font = *_BALL, canvas.look.font
    fitted = view.ball != ABSENT
    canvas.polygon([(x - 20, y + 78), (x - 20, y + 18), (x - 8, y + 2), (x - 8, y - 14),
                    (x + 8, y - 14), (x + 8, y + 2), (x + 20, y + 18), (x + 20, y + 78)],
                   "water", "outline")
    canvas.line(x - 20, y + 66, x - 8, y + 66)
    canvas.line(x + 8, y + 66, x + 20, y + 66)
    if fitted:
        canvas.circle(x, y + (18 if view.seated and view.show_flows else 52), 14, "metal",
                      "outline")
    canvas.text(x, y - 22, "ball" if fitted else "no ball", "middle")
    if not fitted or not view.show_flows:
        return
    said = "seats" if view.seated else "STUCK" if view.ball == STUCK else "down"
    canvas.text(x, y + 78 + 1.15 * font, said, "middle", bold=True, pen="error")


def _draw_chart(canvas, view):
    top = max(view.water_curve.max(), 0.01)
    axes = Axes(*(_CHART[0], 44), _CHART[1], 284, (0.0, float(view.pressures[-1])),
                round_range(0.0, float(top), 4))
    draw_axes(canvas, axes, ("bar g", ""), x_most=6, y_most=4)
    if view.show_flows:
        draw_curve(canvas, axes, list(view.pressures), list(view.water_curve), "outline")
        draw_curve(canvas, axes, list(view.pressures), list(view.steam_curve), "indicated")
        draw_dot(canvas, axes, view.pressure, view.water_flow, "outline")
        draw_dot(canvas, axes, view.pressure, view.steam_flow, "error", filled=False)
        draw_key(canvas, axes.left, axes.top - 0.6 * canvas.look.font,
                 [("water end", "outline"), ("steam end, kg/s", "indicated")])
    if canvas.look.detail:
        canvas.text(axes.left, axes.bottom + 2.75 * canvas.look.font,
                    "homogeneous equilibrium: a LOWER bound", scale=0.95, bold=True)


def describe_breakage(view):
    """Return what the picture shows, in a sentence or two."""
    if not view.show_flows:
        return f"A glass has broken at {view.pressure:.1f} bar g; what it loses is hidden."
    ball = {True: "The ball has seated and holds the water end",
            False: "The ball does not hold"}[view.seated]
    ratio = view.water_flow / view.steam_flow
    return (f"At {view.pressure:.1f} bar g the water end passes {_flow(view.water_flow)} at least, "
            f"the steam end {_flow(view.steam_flow)}: {ratio:.1f} to 1. {ball}; it is never relied "
            "on.")
