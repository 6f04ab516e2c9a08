"""Drawing of a two-fluid U-tube indicator: drum, chamber, legs, U-tube, and the error between."""

from dataclasses import dataclass

from ..physics.leg_state import LegsState
from ..physics.two_fluid import IN_RANGE, OFF_SCALE_HIGH, OFF_SCALE_LOW, TwoFluidResult
from ..units import format_number
from .canvas import Canvas
from .drum_and_legs import DrumAndLegs, LegsView, draw_drum_and_legs
from .parts import number_block
from .u_tube import UTubeView, draw_u_tube

HEIGHT = 346
_TOP = 8
_BLOCK, _BLOCK_WIDTH = 826, 262
SLOW = 60.0
"""Response time [s] from which the picture says that the reading is slow."""


@dataclass(frozen=True, slots=True)
class TwoFluidView:
    """What moves in the picture.

    Attributes
    ----------
    level : float [m]
        True level.
    result : TwoFluidResult [m]
        What the indicator shows.
    legs : LegsState [m]
        Chamber and legs, with what stands in them.
    u_tube : UTubeView [m]
        The U-tube.
    rows : tuple of (str, str)
        Names and numbers of the block, already with units.
    fault : str
        Name of the fault that is set; empty for none.
    steaming : bool
        Steam above the water, or air.
    show_truth : bool
        False draws a cover over the drum.
    """

    level: float
    result: TwoFluidResult
    legs: LegsState
    u_tube: UTubeView
    rows: tuple
    fault: str = ""
    steaming: bool = True
    show_truth: bool = True


def draw_two_fluid(still: DrumAndLegs, view, look):
    """Return the picture of a drum with its two-fluid indicator and the same in words.

    Parameters
    ----------
    still : DrumAndLegs [m]
        What stands still.
    view : TwoFluidView [m]
        What moves.
    look : Look
        Screen, projector or print.

    Returns
    -------
    Drawing
        SVG text, words, and the boxes of the lettering.
    """
    canvas = Canvas(look, HEIGHT)
    draw_drum_and_legs(canvas, still, LegsView(
        view.level, view.result.indicated_level, _label(view.result), view.legs,
        view.steaming, view.show_truth))
    draw_u_tube(canvas, view.u_tube)
    below = number_block(canvas, _BLOCK, _TOP, _BLOCK_WIDTH,
                         [(name, value, "outline") for name, value in view.rows], still.name)
    _draw_verdict(canvas, view, below)
    return canvas.drawing(f"{still.name}: drum and two-fluid indicator", describe_two_fluid(view))


def shown_level(result):
    """Return what a person reads off the scale, as text with unit."""
    if result.status == OFF_SCALE_HIGH:
        return "off scale: FULL"
    if result.status == OFF_SCALE_LOW:
        return "off scale: EMPTY"
    return f"{format_number(1000 * result.indicated_level)} mm"


def _label(result):
    return f"shows {shown_level(result).removeprefix('off scale: ')}"


def _draw_verdict(canvas, view, below):
    """Write the error in large letters under the block, and why it would not move."""
    result, (first, second) = view.result, _direction(view.result)
    if not view.show_truth:
        first, second = "indicator shows", shown_level(result)
    middle, font = _BLOCK + _BLOCK_WIDTH / 2, canvas.look.font
    for index, line in enumerate((first, second)):
        canvas.text(middle, below + (1.9 + 1.75 * index) * font, line, "middle", 1.45, bold=True,
                    pen="error")
    notes = _notes(view)
    if notes:
        canvas.text(middle, below + 5.1 * font, notes[0], "middle", 0.9, bold=True, pen="error")


def _notes(view):
    """What makes the reading more than a wrong number, gravest first; short texts."""
    result, notes = view.result, []
    if result.shut_in:
        notes.append(f"FROZEN: {' and '.join(result.shut_in)} shut")
    if view.show_truth and result.below_connection:
        notes.append("level out of its sight")
    if not result.shut_in and result.response_time > SLOW:
        notes.append(f"SLOW: {_duration(result.response_time)}")
    return notes


def describe_two_fluid(view):
    """Return what the picture shows, in a few sentences."""
    result = view.result
    if result.status in (OFF_SCALE_LOW, OFF_SCALE_HIGH):
        full = result.status == OFF_SCALE_HIGH
        shown = f"The indicator is off its scale: {'FULL' if full else 'EMPTY'}."
    else:
        shown = f"The indicator shows {shown_level(result)} above the lower connection."
    words = [shown, "The true level is hidden."]
    if view.show_truth:
        words[1] = (f"The drum holds {format_number(1000 * view.level)} mm. "
                    f"{_error_in_words(result)}")
    words.append(f"R is {format_number(1000 * result.difference)} mm.")
    if view.fault:
        words.append(f"Fault set: {view.fault}.")
    if result.shut_in:
        words.append("Behind a shut valve nothing moves.")
    elif result.response_time > SLOW:
        words.append(f"It follows slowly: time constant {_duration(result.response_time)}.")
    return " ".join(words)


def _duration(seconds):
    """A time in the unit in which people would say it."""
    for size, unit in ((3600.0, "hours"), (60.0, "minutes")):
        if seconds >= 2 * size:
            return f"{seconds / size:.0f} {unit}"
    return f"{seconds:.0f} seconds"


def _direction(result):
    """Size and direction of the error as two short lines; off the scale there is no size."""
    if abs(result.error) < 5e-5:
        return "indicator agrees", "with the drum"
    size = (f"{1000 * abs(result.error):.1f} mm" if result.status == IN_RANGE
            else shown_level(result))
    return size, "reads LOW" if result.error < 0 else "reads HIGH"


def _error_in_words(result):
    size, direction = _direction(result)
    if direction == "with the drum":
        return "It agrees with the drum."
    if result.status != IN_RANGE:
        return f"It {direction}."
    return f"It {direction.replace('reads', f'reads {size}')}."
