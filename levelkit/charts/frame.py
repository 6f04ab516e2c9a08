"""A chart frame typeset once, over which a live curve is laid: axes, ticks, labels, units."""

from dataclasses import dataclass
from functools import lru_cache

from ..scene.canvas import Fragment
from .figures import figure_fragment, house_style, new_figure


@dataclass(frozen=True, slots=True)
class Axes:
    """What a frame shows.

    Attributes
    ----------
    x_label, y_label : str
        With unit.
    x_range, y_range : (float, float)
        Ends of the axes.
    x_ticks, y_ticks : tuple of float
        Where numbers stand.
    right_label : str
        Label of a second scale on the right; empty for none.
    right_ticks : tuple of (float, str)
        Height on the left scale, and what the right scale calls it.
    """

    x_label: str
    y_label: str
    x_range: tuple
    y_range: tuple
    x_ticks: tuple
    y_ticks: tuple
    right_label: str = ""
    right_ticks: tuple = ()


@dataclass(frozen=True, slots=True)
class ChartFrame:
    """A typeset frame and where its data lie on the sheet.

    Attributes
    ----------
    part : Fragment
        To be stamped into a drawing.
    left, right, top, bottom : float [viewBox units]
        Edges of the field of the data.
    x_range, y_range : (float, float)
        Data at these edges.
    """

    part: Fragment
    left: float
    right: float
    top: float
    bottom: float
    x_range: tuple
    y_range: tuple

    def to_x(self, value):
        """Return where a value of the x axis lies on the sheet; scalar or array."""
        low, high = self.x_range
        return self.left + (value - low) / (high - low) * (self.right - self.left)

    def to_y(self, value):
        """Return where a value of the y axis lies on the sheet; scalar or array."""
        low, high = self.y_range
        return self.bottom - (value - low) / (high - low) * (self.bottom - self.top)


@lru_cache(maxsize=32)
def chart_frame(axes, look, x, y, width, height) -> ChartFrame:
    """Return a frame typeset by matplotlib; made again only when range or size change."""
    with house_style(look):
        figure = new_figure(width, height)
        field = figure.add_axes(_margins(axes, look, width, height))
        for part in (figure, field):  # what lies under the frame shines through
            part.set_facecolor("none")
        field.set(xlim=axes.x_range, ylim=axes.y_range, xlabel=axes.x_label, ylabel=axes.y_label,
                  xticks=axes.x_ticks, yticks=axes.y_ticks)
        if axes.right_label:
            second = field.secondary_yaxis("right")
            second.set_ylabel(axes.right_label)
            second.set_yticks([height for height, _ in axes.right_ticks],
                              [text for _, text in axes.right_ticks])
        part = figure_fragment(figure, x, y)
        (left, bottom), (right, top) = field.transData.transform(
            list(zip(axes.x_range, axes.y_range, strict=True)))
    return ChartFrame(part, x + left, x + right, y + height - top, y + height - bottom,
                      axes.x_range, axes.y_range)


def _margins(axes, look, width, height):
    """Left, bottom, width and height of the field as shares of the figure."""
    font = look.font
    left, below, above = 4.6 * font, 3.4 * font, 0.8 * font
    right = 4.0 * font if axes.right_label else 0.8 * font
    return (left / width, below / height, (width - left - right) / width,
            (height - below - above) / height)
