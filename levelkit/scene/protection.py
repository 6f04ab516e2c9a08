"""Drawing of a drum's set levels and of three transmitters that vote on its low-low trip."""

from dataclasses import dataclass
from math import sqrt

from .canvas import Canvas
from .lettering import text_width
from .parts import break_line, comparison_block, level_line, number_block, side_labels

HEIGHT = 318
_LEFT, _TOP, _BOTTOM, _WALL = 18, 8, 308, 176
_LABELS, _LABEL_TEXT = 196, 226
_COLUMNS, _CHAMBER, _BOX, _LAMP = (540, 650, 760), 26, (116, 168), 190
_VOTE, _VOTE_LEFT, _VOTE_RIGHT = (222, 306), 492, 808
_BLOCK, _BLOCK_WIDTH = 836, 250


@dataclass(frozen=True, slots=True)
class SetLevel:
    """A level at which something happens.

    Attributes
    ----------
    name : str
        What it is.
    height : float [m]
        Above the water connection.
    time : str
        How long until the water is there, or that it has passed; empty for a level above.
    """

    name: str
    height: float
    time: str


@dataclass(frozen=True, slots=True)
class Channel:
    """One transmitter.

    Attributes
    ----------
    name : str
        One letter.
    used : bool
        Whether the arrangement has it.
    shown : str
        What it shows, as a text.
    votes : str
        "TRIP", "stay", or what else its lamp says.
    leg_lost : bool
        Whether its reference leg is empty.
    fault : str
        What is wrong with it; empty for nothing.
    """

    name: str
    used: bool
    shown: str
    votes: str
    leg_lost: bool
    fault: str


@dataclass(frozen=True, slots=True)
class ProtectionView:
    """The picture as a whole.

    Attributes
    ----------
    name : str
        Name of the boiler.
    radius, centre_height : float [m]
        Of the drum.
    level : float [m]
        True level.
    set_levels : tuple of SetLevel [m]
        From above to below.
    channels : tuple of Channel
        Three transmitters.
    shared_leg : bool
        One reference leg for all, or one for each.
    vote_line : str
        What the arrangement counts.
    trips : bool
        Whether the trip comes.
    headings : tuple of str
        Of the two columns of numbers.
    table : tuple of (str, tuple of str)
        Each arrangement and its two numbers, the chosen one first in `chosen`.
    chosen : str
        The arrangement in use.
    rows : tuple of (str, str)
        Names and numbers of the lower block.
    verdict : tuple of str
        The two large lines.
    wrong : bool
        Whether the vote decides against the true level.
    show_truth : bool
        False covers the drum.
    """

    name: str
    radius: float
    centre_height: float
    level: float
    set_levels: tuple
    channels: tuple
    shared_leg: bool
    vote_line: str
    trips: bool
    headings: tuple
    table: tuple
    chosen: str
    rows: tuple
    verdict: tuple
    wrong: bool
    show_truth: bool = True


def draw_protection(view, look):
    """Return the picture of set levels and voting transmitters and the same in words.

    Parameters
    ----------
    view : ProtectionView [m]
        What is drawn.
    look : Look
        Screen, projector or print.

    Returns
    -------
    Drawing
        SVG text, words, and the boxes of the lettering.
    """
    canvas = Canvas(look, HEIGHT)
    _draw_drum(canvas, view)
    _draw_legs(canvas, view)
    for x, channel in zip(_COLUMNS, view.channels, strict=True):
        _draw_channel(canvas, x, channel, view.show_truth)
    _draw_vote(canvas, view)
    _draw_numbers(canvas, view)
    return canvas.drawing(f"{view.name}: set levels and a vote", describe_protection(view))


def _frame(view):
    heights = [level.height for level in view.set_levels]
    low, high = min(heights) - 0.06, max(heights) + 0.09
    per_metre = (_BOTTOM - _TOP) / (high - low)
    return low, high, per_metre, lambda height: _BOTTOM - (height - low) * per_metre


def _draw_drum(canvas, view):
    low, high, per_metre, to_y = _frame(view)
    centre = _WALL - view.radius * per_metre
    heights = [low + (high - low) * i / 40 for i in range(41)]
    wall = [(centre + per_metre * sqrt(max(0.0, view.radius ** 2
                                           - (z - view.centre_height) ** 2)), to_y(z))
            for z in heights]
    canvas.clip("drum", [(_LEFT, _BOTTOM), *wall, (_LEFT, _TOP)])
    y_true = min(max(to_y(view.level), _TOP), _BOTTOM)
    if view.show_truth:
        canvas.clipped_rect("drum", 0, 0, 480, y_true, "steam")
        canvas.clipped_rect("drum", 0, y_true, 480, HEIGHT - y_true, "water")
    else:
        canvas.clipped_rect("drum", 0, 0, 480, HEIGHT, "hidden")
    canvas.polygon(wall + [(x + 11, y) for x, y in wall[::-1]], "metal", "outline")
    break_line(canvas, _LEFT, _TOP, _BOTTOM)
    labels = [(to_y(level.height), _label(level, canvas.look), "outline", False)
              for level in view.set_levels]
    for y, *_ in labels:
        canvas.line(_LEFT, y, _LABELS, y, "limit")
    if view.show_truth:
        level_line(canvas, _LEFT, _wall_at(wall, y_true) - 10, y_true, "true")
        labels.append((y_true, f"now {1000 * view.level:.0f} mm", "true", True))
    else:
        canvas.text((_LEFT + _WALL) / 2, _BOTTOM - 20, "hidden", "middle", bold=True)
    side_labels(canvas, _LABELS, _LABEL_TEXT, labels, _TOP + 8, _BOTTOM - 6)


def _wall_at(wall, y):
    return min(wall, key=lambda point: abs(point[1] - y))[0]


def _label(level, look):
    height = f" {1000 * level.height:.0f} mm".replace("-", "\u2212") if look.detail else ""
    return f"{level.name}{height}{f': {level.time}' if level.time else ''}"


def _draw_legs(canvas, view):
    """Draw the constant-head chambers and the legs to the transmitters in use."""
    used = [(x, channel) for x, channel in zip(_COLUMNS, view.channels, strict=True)
            if channel.used]
    top, foot = _CHAMBER + 14, _BOX[0]
    if view.shared_leg:
        x = _COLUMNS[0]
        lost = used[0][1].leg_lost and view.show_truth
        _draw_chamber(canvas, x, lost)
        _draw_leg(canvas, x, top, foot - 26, lost)
        canvas.rect(x - 4, foot - 30, used[-1][0] - x + 8, 8, _leg_fill(lost), "outline")
        for column, _ in used:
            _draw_leg(canvas, column, foot - 24, foot, lost)
    else:
        for x, channel in used:
            lost = channel.leg_lost and view.show_truth
            _draw_chamber(canvas, x, lost)
            _draw_leg(canvas, x, top, foot, lost)
    words = "one reference leg for all" if view.shared_leg else "a reference leg for each"
    canvas.text((_VOTE_LEFT + _VOTE_RIGHT) / 2, _CHAMBER - 10, words, "middle")


def _leg_fill(lost):
    return "steam" if lost else "glass water"


def _draw_chamber(canvas, x, lost):
    canvas.rect(x - 16, _CHAMBER, 32, 14, _leg_fill(lost), "outline")
    if lost:
        canvas.text(x + 9, _CHAMBER + 40, "empty", scale=0.85, pen="error")


def _draw_leg(canvas, x, top, foot, lost):
    canvas.rect(x - 4, top, 8, foot - top, _leg_fill(lost), "outline")


def _draw_channel(canvas, x, channel, show_truth):
    font, (top, foot) = canvas.look.font, _BOX
    pen = "outline" if channel.used else "limit"
    canvas.rect(x - 49, top, 98, foot - top, "paper", pen)
    if not channel.used:
        canvas.text(x, (top + foot) / 2 + 0.3 * font, "not used", "middle", 0.9, pen="thin")
        return
    name = f"{channel.name}: {channel.fault}" if channel.fault and show_truth else channel.name
    canvas.text(x, top + 1.1 * font, name, "middle",
                min(1.0, 88 / text_width(name, font, bold=True)), bold=True)
    canvas.text(x, foot - 0.35 * font, channel.shown, "middle", bold=True, pen="error")
    canvas.line(x, foot, x, _VOTE[0], "outline")
    canvas.dot(x, _LAMP, 7, "error" if channel.votes == "TRIP" else "outline",
               channel.votes == "TRIP")
    canvas.text(x + 12, _LAMP + 0.35 * font, channel.votes, bold=channel.votes == "TRIP",
                scale=0.9, pen="error" if channel.votes == "TRIP" else "outline")


def _draw_vote(canvas, view):
    font, (top, foot) = canvas.look.font, _VOTE
    canvas.rect(_VOTE_LEFT, top, _VOTE_RIGHT - _VOTE_LEFT, foot - top, "paper", "outline")
    x = (_VOTE_LEFT + _VOTE_RIGHT) / 2
    width = _VOTE_RIGHT - _VOTE_LEFT - 16
    canvas.text(x, top + 0.36 * (foot - top), view.vote_line, "middle",
                min(1.0, width / text_width(view.vote_line, font)))
    text = "TRIPS: fuel shut off" if view.trips else "stays on"
    canvas.text(x, top + 0.83 * (foot - top), text, "middle",
                min(1.4, width / text_width(text, font, bold=True)), bold=True,
                pen="error" if view.trips else "outline")


def _draw_numbers(canvas, view):
    font = canvas.look.font
    if canvas.look.detail:
        below = comparison_block(
            canvas, _BLOCK, 8, _BLOCK_WIDTH, "vote", [(text, "outline") for text in view.headings],
            [(f"\u25B8 {name}" if name == view.chosen else name, values)
             for name, values in view.table])
        below = number_block(canvas, _BLOCK, below + 8, _BLOCK_WIDTH,
                             [(name, value, "outline") for name, value in view.rows], view.chosen)
    else:
        chosen = dict(view.table)[view.chosen]
        below = number_block(canvas, _BLOCK, 8, _BLOCK_WIDTH,
                             [(name, value, "outline") for name, value in
                              (*zip(view.headings, chosen, strict=True), *view.rows[-2:])],
                             view.chosen)
    for index, line in enumerate(view.verdict):
        canvas.text(_BLOCK + _BLOCK_WIDTH / 2, below + (1.9 + 1.55 * index) * font, line, "middle",
                    min(1.3, _BLOCK_WIDTH / text_width(line, font, bold=True)), bold=True,
                    pen="error" if view.wrong else "outline")


def describe_protection(view):
    """Return what the picture shows, in a sentence or two."""
    shown = ", ".join(f"{channel.name} {channel.shown}" for channel in view.channels
                      if channel.used)
    decision = "fuel shut off" if view.trips else "stays on"
    if not view.show_truth:
        return f"{shown}. {view.vote_line}: {decision}. The true level is hidden."
    return (f"True level {1000 * view.level:.0f} mm; {shown}. {view.vote_line}: "
            f"{' '.join(view.verdict)}.")
