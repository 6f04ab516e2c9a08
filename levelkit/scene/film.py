"""A picture that moves: drawn once, with a table of what changes from frame to frame.

Every frame is drawn like any other picture, the same elements in the same order. What
differs between the frames is found here, so that a browser can play the film without
asking for a picture again, and a frame on paper is the very frame on the screen.
"""

from dataclasses import dataclass
from itertools import pairwise
from xml.sax.saxutils import unescape

from .canvas import OWN_ID, Canvas, Fragment

TEXT = "text"
"""Name of the track that holds what a line of lettering says."""


@dataclass(frozen=True, slots=True)
class Track:
    """One thing that changes.

    Attributes
    ----------
    part : str
        Mark of the element, its `data-part`.
    attribute : str
        Attribute of the element, or "text" for its lettering.
    values : tuple
        One per frame: a number, a tuple of numbers (points), or a text. Numbers may be
        drawn in between two frames, texts not.
    """

    part: str
    attribute: str
    values: tuple


@dataclass(frozen=True, slots=True)
class Film:
    """A picture that moves.

    Attributes
    ----------
    svg : str
        The first frame, its moving elements marked.
    tracks : tuple of Track
        What changes.
    times : tuple of float [s]
        Instant of each frame.
    words : tuple of str
        Each frame in words.
    title : str
        Name of the picture.
    frames : tuple of Canvas
        Each frame as it was drawn.
    """

    svg: str
    tracks: tuple
    times: tuple
    words: tuple
    title: str
    frames: tuple

    def drawing(self, frame):
        """Return one frame as a picture of its own."""
        return self.frames[frame].drawing(self.title, self.words[frame])


def film(canvases, times, title, words):
    """Return the film of canvases on which the same elements were drawn in the same order.

    Parameters
    ----------
    canvases : sequence of Canvas
        One per frame.
    times : sequence of float [s]
        Instant of each frame, rising.
    title : str
        Name of the picture.
    words : sequence of str
        Each frame in words.

    Returns
    -------
    Film
        The first frame and what changes.

    Raises
    ------
    ValueError
        Frames of different elements, times that do not rise: a mistake in the drawing.
    """
    rows = [canvas.elements for canvas in canvases]
    if {len(row) for row in rows} != {len(rows[0])} or not len(rows) == len(times) == len(words):
        raise ValueError("Every frame of a film draws the same elements in the same order, and "
                         "has its time and its words.")
    if any(b <= a for a, b in pairwise(times)):
        raise ValueError("The times of a film rise from frame to frame.")
    sheet, tracks = Canvas(canvases[0].look, canvases[0].height), []
    for column in zip(*rows, strict=True):
        markup = column[0]
        if any(element != markup for element in column):
            markup, found = _moving(column, str(len(tracks)))
            tracks += found
        sheet.stamp(Fragment(markup, ()))
    return Film(sheet.drawing(title, words[0]).svg, tuple(tracks), tuple(map(float, times)),
                tuple(words), title, tuple(canvases))


def _moving(column, part):
    """Mark the first of the elements, and return the tracks of what differs between them."""
    heads, texts = zip(*(_taken_apart(markup) for markup in column), strict=True)
    names = heads[0][::2]
    if any(head[::2] != names for head in heads):
        raise ValueError(f"A frame draws another element in the place of {column[0][:60]}.")
    columns = {name.split()[-1].rstrip("="): [head[2 * i + 1] for head in heads]
               for i, name in enumerate(names[:-1])}
    tracks = []
    for name, values in (columns | {TEXT: texts}).items():
        if any(value != values[0] for value in values):
            if any(OWN_ID in value for value in values):
                raise ValueError(f"A moving element keeps its filling and its clip: {column[0]}.")
            values = tuple(values) if name == TEXT else _numbers(values)
            tracks.append(Track(part, name, values))
    tag, rest = column[0].split(" ", 1)
    return f'{tag} data-part="{part}" {rest}', tracks


def _taken_apart(markup):
    """An element without children: its tag and attributes, split at their quotes, and its text."""
    head, _, tail = markup.partition(">")
    return head.split('"'), unescape(tail.partition("<")[0])


def _numbers(values):
    """Values as numbers, or as as many numbers in each frame, where they are that."""
    try:
        rows = [tuple(map(float, value.replace(",", " ").split())) for value in values]
    except ValueError:
        return tuple(values)
    if {len(row) for row in rows} == {1}:
        return tuple(row[0] for row in rows)
    if len({len(row) for row in rows}) == 1 and rows[0]:
        return tuple(rows)
    return tuple(values)
