"""The error of an indicator over drum pressure and true level, for print: readable in grey."""

from dataclasses import dataclass

from .figures import figure_drawing, house_style, new_figure

WIDTH, HEIGHT = 800, 500
LOW_HATCH, FULL_HATCH = "\\\\\\", "xx"
STEPS_MM = (-20, -10, -5, 0, 5, 10, 20, 40, 60, 80, 100, 150, 200, 300)


@dataclass(frozen=True, slots=True)
class ErrorMap:
    """What an error map shows.

    Attributes
    ----------
    title : str
        Of the map.
    pressures : array [bar]
        Gauge pressures, across.
    levels : array [m]
        True levels, upwards.
    error : array [m]
        Indicated minus true, one row for each level.
    saturated : array of bool
        Where the signal stands at its end, same shape.
    low_alarm : float [m]
        Set level of the low alarm.
    calibrated_bar : float [bar]
        Gauge pressure of the calibration.
    """

    title: str
    pressures: object
    levels: object
    error: object
    saturated: object
    low_alarm: float
    calibrated_bar: float


def error_map_figure(error_map, look):
    """Return a matplotlib figure of an error map: labelled contours, hatch for low and full."""
    import numpy as np

    with house_style(look):
        figure = new_figure(WIDTH, HEIGHT)
        field = figure.add_axes((0.085, 0.19, 0.89, 0.73))
        ink, thin = look.pen("outline").colour, look.pen("limit").colour
        across, up = error_map.pressures, 1000 * error_map.levels
        error = 1000 * error_map.error
        field.set(title=error_map.title, xlabel="drum pressure, bar gauge",
                  ylabel="true level, mm")
        steps = [step for step in STEPS_MM if error.min() < step < error.max()]
        usual = np.where(error_map.saturated, np.nan, error)
        contours = field.contour(across, up, usual, levels=steps, colors=ink,
                                 linewidths=[1.8 if step == 0 else 0.9 for step in steps])
        field.clabel(contours, [step for step in steps if step], fmt=_millimetres,
                     fontsize=0.85 * look.font)
        low, full = error < 0, error_map.saturated & (error > 0)
        for where, pattern in ((low, LOW_HATCH), (full, FULL_HATCH)):
            if where.any():
                field.contourf(across, up, where.astype(float), levels=[0.5, 1.5],
                               colors="none", hatches=[pattern])
        field.text(error_map.calibrated_bar, 0.97 * up[-1],
                   f"calibrated for {error_map.calibrated_bar:g} bar g ", ha="right", va="top",
                   rotation=90)
        alarm = 1000 * error_map.low_alarm
        field.axhline(alarm, color=ink, linewidth=0.8, linestyle=(0, (8, 3)))
        field.text(across[-1], alarm, "low alarm ", ha="right", va="bottom")
        _key(figure, ink, thin)
    return figure


def error_map_chart(error_map, look):
    """Return an error map as a drawing with its words."""
    import numpy as np

    figure = error_map_figure(error_map, look)
    row = int(np.argmin(np.abs(error_map.levels - error_map.low_alarm)))
    first, last = 1000 * error_map.error[row, 0], 1000 * error_map.error[row, -1]
    words = (f"Error over pressure and level. At {1000 * error_map.levels[row]:.0f} mm it is "
             f"{first:+.0f} mm at {error_map.pressures[0]:.0f} bar gauge and {last:+.0f} mm at "
             f"{error_map.pressures[-1]:.0f} bar gauge. Plus: reads HIGH.")
    with house_style(look):
        return figure_drawing(figure, error_map.title, words.replace("-", "\u2212"))


def _millimetres(step):
    return f"{step:+.0f} mm".replace("-", "\u2212")


def _key(figure, ink, thin):
    from matplotlib.patches import Patch

    figure.legend(
        handles=[Patch(facecolor="none", edgecolor=thin, hatch=hatch, label=label)
                 for hatch, label in ((LOW_HATCH, "reads LOW"), ("", "reads HIGH"),
                                      (FULL_HATCH, "signal at its end: FULL"))],
        loc="lower right", ncols=3, frameon=False, labelcolor=ink, handleheight=1.4)
