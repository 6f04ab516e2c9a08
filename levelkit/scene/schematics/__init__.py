"""Line drawings for paper: the hardware with its symbols, or without any lettering.

They show what is given and never what is asked for: no indicated level is drawn in, so that the
same drawing serves as a figure of a question and as a blank to be completed by hand.
"""

from functools import cache

from ...errors import InputError
from .ball_check import draw_ball_check
from .boiler import draw_boiler
from .current_loop import draw_current_loop
from .cylinder import draw_drum_section, draw_inclined_drum
from .direct_gauges import draw_plate_gauge, draw_reflex_gauge, draw_tubular_gauge
from .gauge_glass import draw_gauge_glass
from .grooved_glass import draw_grooved_glass
from .manifold import draw_manifold
from .transmitter import draw_transmitter
from .two_fluid import draw_two_fluid
from .vessels import draw_vessels

_DRAWINGS = {
    "gauge glass": draw_gauge_glass,
    "tubular gauge": draw_tubular_gauge,
    "reflex gauge": draw_reflex_gauge,
    "plate gauge": draw_plate_gauge,
    "communicating vessels": draw_vessels,
    "grooved glass": draw_grooved_glass,
    "ball check": draw_ball_check,
    "two-fluid indicator": draw_two_fluid,
    "transmitter": draw_transmitter,
    "manifold": draw_manifold,
    "current loop": draw_current_loop,
    "inclined drum": draw_inclined_drum,
    "drum": draw_drum_section,
    "boiler": draw_boiler,
}


def schematic_names():
    """Return the names of all line drawings, in teaching order.

    Examples
    --------
    >>> schematic_names()[0]
    'gauge glass'
    """
    return tuple(_DRAWINGS)


@cache
def schematic(name, labelled=True):
    """Return a line drawing by its name.

    Parameters
    ----------
    name : str
        One of :func:`schematic_names`.
    labelled : bool
        False leaves out every letter, for an answer book.

    Returns
    -------
    Drawing
        Black on white, with the same in words.

    Raises
    ------
    InputError
        No drawing of that name.

    Examples
    --------
    >>> [box.text for box in schematic("gauge glass", labelled=False).text_boxes]
    []
    """
    if name not in _DRAWINGS:
        raise InputError(f"There is no drawing “{name}”; drawings are {', '.join(_DRAWINGS)}.")
    return _DRAWINGS[name](labelled)
