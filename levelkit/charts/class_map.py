"""Charts of a marked class: who misunderstood what, and how hard each question was."""

from textwrap import wrap

from ..scene.look import PRINT
from .figures import figure_drawing, house_style, new_figure

_CELL, _WIDTH, _MARGIN = 30.0, 1040.0, 330.0
_LINE = 40  # signs of a row's name on one line


def draw_misconception_map(codes, titles, numbers, cells):
    """Return the heat map of misunderstandings and candidates.

    Parameters
    ----------
    codes, titles : sequence of str
        Rows: code, and the misunderstanding in words.
    numbers : sequence of str
        Columns: candidate numbers.
    cells : sequence of sequence of int
        1 where the candidate showed it.

    Returns
    -------
    Drawing
        Black on white: a filled square where it was shown; sums at the right-hand end.
    """
    from matplotlib.collections import PatchCollection
    from matplotlib.patches import Rectangle

    height = 96 + _CELL * len(codes)
    with house_style(PRINT):
        figure = new_figure(_WIDTH, height)
        axes = figure.add_axes((_MARGIN / _WIDTH, 70 / height,
                                (_WIDTH - _MARGIN - 60) / _WIDTH, _CELL * len(codes) / height))
        squares = [Rectangle((column + 0.1, row + 0.12), 0.8, 0.76)
                   for row, line in enumerate(cells) for column, cell in enumerate(line) if cell]
        axes.add_collection(PatchCollection(squares, facecolor="#000000", edgecolor="none"))
        axes.set(xlim=(0, max(1, len(numbers))), ylim=(len(codes), 0),
                 xlabel="candidate, in the order of the register")
        axes.set_yticks([row + 0.5 for row in range(len(codes))],
                        [_in_lines(f"{code}  {title}")
                         for code, title in zip(codes, titles, strict=True)])
        step = max(1, -(-len(numbers) // 36))
        axes.set_xticks([column + 0.5 for column in range(0, len(numbers), step)],
                        numbers[::step], rotation=90)
        axes.set_xticks(range(len(numbers) + 1), minor=True)
        axes.set_yticks(range(len(codes) + 1), minor=True)
        axes.tick_params(which="both", length=0, labelsize=10)
        axes.grid(which="major", visible=False)
        axes.grid(which="minor", linewidth=0.3, color="#000000")
        for row, line in enumerate(cells):
            axes.text(len(numbers) * 1.01, row + 0.5, f"{sum(line)}", va="center", fontsize=11,
                      fontweight="bold")
        return figure_drawing(figure, "Misunderstandings by candidate",
                              _map_words(codes, titles, numbers, cells))


def _in_lines(name):
    """A row's name, over two lines where it is long."""
    return "\n".join(wrap(name, max(_LINE, -(-len(name) // 2) + 8)))


def _map_words(codes, titles, numbers, cells):
    rows = "; ".join(f"{code} ({title}): {sum(line)}"
                     for code, title, line in zip(codes, titles, cells, strict=True))
    return f"Of {len(numbers)} candidates showed {rows or 'nobody any known misunderstanding'}."


def draw_items(names, facilities, discriminations, low_facility):
    """Return the bars of facility with the discrimination of each question written beside.

    Parameters
    ----------
    names : sequence of str
        Questions.
    facilities : sequence of float [1]
        Mean mark over marks to be had.
    discriminations : sequence of (float or None) [1]
        Correlation with the rest of the paper.
    low_facility : float [1]
        Limit under which a question is to be looked at.

    Returns
    -------
    Drawing
        Black on white.
    """
    height = 84 + 30.0 * len(names)
    with house_style(PRINT):
        figure = new_figure(_WIDTH, height)
        axes = figure.add_axes((_MARGIN / _WIDTH, 52 / height,
                                (_WIDTH - _MARGIN - 200) / _WIDTH, 30.0 * len(names) / height))
        axes.barh(range(len(names)), facilities, height=0.62, facecolor="#ffffff",
                  edgecolor="#000000", hatch="//")
        axes.axvline(low_facility, color="#000000", linestyle="--", linewidth=1.2)
        axes.set(xlim=(0, 1), ylim=(len(names) - 0.5, -0.5),
                 xlabel="facility (mean mark over marks to be had)")
        axes.set_yticks(range(len(names)), [_in_lines(name) for name in names])
        axes.tick_params(axis="y", length=0, labelsize=10)
        for row, value in enumerate(discriminations):
            text = "no variation" if value is None else f"{value:+.2f}".replace("-", "−")
            axes.text(1.02, row, text, va="center")
        axes.text(1.02, -0.75, "discrimination", va="bottom")
        words = "; ".join(f"{name}: facility {facility:.2f}"
                          for name, facility in zip(names, facilities, strict=True))
        return figure_drawing(figure, "Facility and discrimination", f"{words}.")
