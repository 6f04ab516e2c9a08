"""Indicated against true level for several pressures, for print."""

from dataclasses import dataclass

from .figures import figure_drawing, house_style, new_figure

WIDTH, HEIGHT = 800, 500
_DASHES = ((0, ()), (0, (9, 3)), (0, (4, 2)), (0, (9, 2, 1, 2)), (0, (1, 2)),
           (0, (9, 2, 1, 2, 1, 2)))


@dataclass(frozen=True, slots=True)
class Curve:
    """One state of the drum.

    Attributes
    ----------
    name : str
        What is written beside the curve.
    indicated : array [m]
        What the indicator shows at each true level.
    """

    name: str
    indicated: object


@dataclass(frozen=True, slots=True)
class Sweep:
    """What a sweep chart shows, levels above the lower connection.

    Attributes
    ----------
    title : str
        Of the chart.
    levels : array [m]
        True levels.
    curves : tuple of Curve [m]
        One for each state.
    low_alarm : float [m]
        Set level of the low alarm.
    """

    title: str
    levels: object
    curves: tuple
    low_alarm: float


def sweep_figure(sweep, look):
    """Return a matplotlib figure of a sweep; every curve differs by its dashes and its name."""
    with house_style(look):
        figure = new_figure(WIDTH, HEIGHT)
        field = figure.add_axes((0.085, 0.12, 0.70, 0.80))
        levels, alarm = 1000 * sweep.levels, 1000 * sweep.low_alarm
        top, ink = levels[-1], look.pen("outline").colour
        field.set(title=sweep.title, xlabel="true level, mm", ylabel="indicated level, mm",
                  xlim=(0, top), ylim=(-0.06 * top, 1.06 * top))
        field.fill_between([0, alarm], alarm, 1.06 * top, facecolor="none",
                           edgecolor=look.pen("limit").colour, hatch="//", linewidth=0.8)
        field.text(0.02 * top, 0.90 * top, "drum low,\nlow alarm silent", fontweight="bold",
                   bbox={"facecolor": "white", "edgecolor": "none", "pad": 2})
        field.plot([0, top], [0, top], color=ink, linewidth=0.8, label="right")
        for number, curve in enumerate(sweep.curves):
            field.plot(levels, 1000 * curve.indicated, color=ink, linewidth=1.7,
                       linestyle=_DASHES[number % len(_DASHES)], label=curve.name)
        field.legend(loc="upper left", bbox_to_anchor=(1.01, 1.02), frameon=False,
                     handlelength=3.6)
    return figure


def sweep_chart(sweep, look):
    """Return a sweep as a drawing with its words."""
    figure = sweep_figure(sweep, look)
    middle = len(sweep.levels) // 2
    parts = [f"{curve.name}: {1000 * curve.indicated[middle]:.0f} mm" for curve in sweep.curves]
    words = (f"Indicated level where the drum holds {1000 * sweep.levels[middle]:.0f} mm. "
             + "; ".join(parts) + ".")
    with house_style(look):
        return figure_drawing(figure, sweep.title, words)
