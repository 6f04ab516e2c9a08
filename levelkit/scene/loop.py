"""Drawing of a current loop: the circuit, who takes how many volts, and the load line."""

from dataclasses import dataclass

from ..physics.loop_power import GREATEST_SIGNAL, LoopResult, LoopState
from ..physics.signal import FAILURE_HIGH, FAILURE_LOW
from .canvas import Canvas
from .lettering import text_width
from .parts import number_block

HEIGHT = 328
CHART = (470, 0, 356, HEIGHT)
"""Left, top, width and height of the chart on the sheet."""
_LEFT, _RIGHT, _UP, _DOWN = 66, 420, 44, 196
_BAR_Y, _BAR_HEIGHT = 266, 26
_BLOCK, _BLOCK_WIDTH, _TOP = 836, 250, 8
SERIES, PARALLEL = "series", "parallel"


@dataclass(frozen=True, slots=True)
class LoopView:
    """What the picture shows.

    Attributes
    ----------
    loop : LoopState [V, ohm]
        The loop.
    result : LoopResult [A, V]
        What flows.
    wanted : float [A]
        What the transmitter wants to send.
    load_line : tuple of (float, float) [V, A]
        Terminal voltage against current.
    arrangement : str
        "series" or "parallel": how a second receiver is wired.
    band : str
        What the receiver's current means by NE 43.
    error : float [1]
        Share of the span by which the indicator is wrong.
    rows : tuple of (str, str)
        Names and numbers of the block, already with units.
    show_truth : bool
        False hides what the transmitter wants to send.
    """

    loop: LoopState
    result: LoopResult
    wanted: float
    load_line: tuple
    arrangement: str
    band: str
    error: float
    rows: tuple
    show_truth: bool = True


def draw_loop(view, frame, look):
    """Return the picture of a current loop and the same in words.

    Parameters
    ----------
    view : LoopView [V, ohm, A]
        Loop and what flows in it.
    frame : chart frame [V, mA]
        Axes of the load line, and where their data lie on the sheet.
    look : Look
        Screen, projector or print.

    Returns
    -------
    Drawing
        SVG text, words, and the boxes of the lettering.
    """
    canvas = Canvas(look, HEIGHT)
    _draw_circuit(canvas, view)
    _draw_voltages(canvas, view)
    _draw_load_line(canvas, view, frame)
    below = number_block(canvas, _BLOCK, _TOP, _BLOCK_WIDTH,
                         [(name, value, "outline") for name, value in view.rows], "current loop")
    for index, line in enumerate(_verdict(view)):
        scale = min(1.3, _BLOCK_WIDTH / text_width(line, look.font, bold=True))
        canvas.text(_BLOCK + _BLOCK_WIDTH / 2, below + (1.9 + 1.6 * index) * look.font, line,
                    "middle", scale, bold=True, pen="error")
    return canvas.drawing("A current loop", describe_loop(view))


def _draw_circuit(canvas, view):
    font, loop = canvas.look.font, view.loop
    for y in (_UP, _DOWN):
        canvas.line(_LEFT, y, _RIGHT, y)
    canvas.line(_LEFT, _UP, _LEFT, _DOWN)
    canvas.line(_RIGHT, _UP, _RIGHT, _DOWN)
    _part(canvas, _LEFT, (_UP + _DOWN) / 2, 76, 60, [f"{loop.supply_voltage:.1f} V"])
    canvas.text(_LEFT - 8, _UP + 1.2 * font, "+", "end", bold=True)
    canvas.text(_LEFT - 8, _DOWN - 0.6 * font, "\u2212", "end", bold=True)
    _part(canvas, 158, _UP, 64, 18, [])
    canvas.text(158, _UP + 9 + 1.1 * font, f"cable {loop.cable_resistance:.1f} \u03a9", "middle",
                0.9)
    broken = loop.wire_broken
    sent = "0.00" if broken else f"{1e3 * view.result.current:.2f}"
    _part(canvas, 322, _UP, 132, 2.9 * font, ["transmitter", f"{sent} mA"])
    if broken:
        canvas.rect(214, _UP - 4, 22, 8, "paper")
        for x in (214, 236):
            canvas.line(x, _UP - 7, x, _UP + 7, "error")
        canvas.text(225, _UP - 12, "broken", "middle", bold=True, pen="error")
    if loop.leakage_resistance < 1e6:
        canvas.polyline([(242, _UP), (242, _UP + 68), (404, _UP + 68), (404, _UP)], "limit")
        _part(canvas, 322, _UP + 68, 92, 1.5 * font,
              [f"leak {loop.leakage_resistance / 1e3:.0f} k\u03a9"])
    _draw_receivers(canvas, view)


def _draw_receivers(canvas, view):
    first, *others = view.loop.receivers
    through = f"{1e3 * view.result.receiver_current:.2f} mA"
    y = _DOWN
    if view.arrangement == PARALLEL and first.shunt < 1e6:
        for x in (182, 398):
            canvas.line(x, y - 34, x, y, "outline")
        canvas.line(182, y - 34, 398, y - 34)
        _receiver(canvas, 290, y - 34, "second", first.shunt)
        _receiver(canvas, 290, y, "indicator", first.resistance, through)
        return
    _receiver(canvas, 330 if others else 300, y, "indicator", first.resistance, through)
    if others:
        _receiver(canvas, 164, y, "second", others[0].resistance)


def _receiver(canvas, x, y, name, resistance, through=""):
    font = canvas.look.font
    _part(canvas, x, y, 150, 1.6 * font, [f"{name} {resistance:.0f} \u03a9"])
    if through:
        canvas.text(x, y + 1.9 * font, through, "middle", bold=True, pen="error")


def _part(canvas, x, y, width, height, lines):
    """Draw a part of the circuit as a box with its lettering."""
    font = canvas.look.font
    canvas.rect(x - width / 2, y - height / 2, width, height, "paper", "outline")
    for index, line in enumerate(lines):
        scale = min(1.0, (width - 6) / text_width(line, font))
        canvas.text(x, y + (0.35 + 1.2 * (index - (len(lines) - 1) / 2)) * font, line, "middle",
                    scale)


def _draw_voltages(canvas, view):
    """Divide the supply voltage among transmitter, cable and receivers, drawn to scale."""
    loop, result, font = view.loop, view.result, canvas.look.font
    left, right = 24, 452
    per_volt = (right - left) / max(loop.supply_voltage, 1e-9)
    across = 0.0 if loop.wire_broken else result.terminal_voltage
    edge = left + across * per_volt
    canvas.rect(left, _BAR_Y, right - left, _BAR_HEIGHT, "paper", "outline")
    canvas.rect(left, _BAR_Y, edge - left, _BAR_HEIGHT, "metal", "outline")
    needed = left + min(loop.minimum_terminal_voltage, loop.supply_voltage) * per_volt
    canvas.line(needed, _BAR_Y - 7, needed, _BAR_Y + _BAR_HEIGHT + 7, "true")
    canvas.text(needed, _BAR_Y + _BAR_HEIGHT + 8 + 0.8 * font,
                f"needs {loop.minimum_terminal_voltage:.1f} V", _anchor(needed, left, right),
                0.9)
    rest = loop.supply_voltage - across
    if not loop.wire_broken:
        canvas.text(left, _BAR_Y - 0.5 * font, f"transmitter {across:.1f} V", bold=True)
    place = "across the break" if loop.wire_broken else "load"
    canvas.text(right, _BAR_Y - 0.5 * font, f"{place} {rest:.1f} V", "end", bold=True)


def _anchor(x, left, right):
    return "start" if x < left + 60 else "end" if x > right - 60 else "middle"


def _draw_load_line(canvas, view, frame):
    """Draw where supply and load let current and voltage be, and the point they take."""
    loop, font = view.loop, canvas.look.font
    needed = frame.to_x(min(loop.minimum_terminal_voltage, frame.x_range[1]))
    canvas.rect(frame.left, frame.top, needed - frame.left, frame.bottom - frame.top, "hidden")
    canvas.stamp(frame.part)
    canvas.line(needed, frame.top, needed, frame.bottom, "true")
    room = (needed - frame.left - 10) / text_width("starves", font, bold=True)
    if room >= 0.6:  # where less is needed than the word takes, the hatching has to do
        canvas.text(frame.left + 5, frame.top + 1.2 * font, "starves", scale=min(0.85, room),
                    bold=True, pen="thin")
    greatest = frame.to_y(1e3 * GREATEST_SIGNAL)
    canvas.line(frame.left, greatest, frame.right, greatest, "limit")
    canvas.text(frame.right - 5, greatest - 4, f"{1e3 * GREATEST_SIGNAL:.0f} mA", "end", 0.85,
                pen="thin")
    line = [(frame.to_x(volts), frame.to_y(1e3 * amperes)) for volts, amperes in view.load_line]
    canvas.polyline(line, "outline")
    if view.show_truth:
        wanted = frame.to_y(1e3 * view.wanted)
        canvas.line(frame.left, wanted, frame.right, wanted, "true-thin")
    if not loop.wire_broken:
        x = frame.to_x(min(view.result.terminal_voltage, frame.x_range[1]))
        y = frame.to_y(1e3 * view.result.current)
        canvas.mark([(x, y - 7), (x + 7, y), (x, y + 7), (x - 7, y)], "indicated", filled=True)


def _verdict(view):
    if view.loop.wire_broken:
        return ("wire broken:", "not empty")
    if view.result.starved:
        return ("STARVED of volts:", f"stuck near {1e3 * view.result.current:.1f} mA")
    if view.band in (FAILURE_LOW, FAILURE_HIGH):
        return ("failure signal:", "no level to read")
    if not view.show_truth:
        return ("indicator", f"{1e3 * view.result.receiver_current:.2f} mA")
    if abs(view.error) < 5e-4:
        return ("indicator shows", "what was sent")
    return (f"{100 * abs(view.error):.1f} % of span",
            "reads LOW" if view.error < 0 else "reads HIGH")


def describe_loop(view):
    """Return what the picture shows, in a few sentences."""
    loop, result = view.loop, view.result
    sentences = [f"The indicator gets {1e3 * result.receiver_current:.2f} mA ({view.band})."]
    if view.show_truth:
        sentences.insert(0, f"The transmitter wants to send {1e3 * view.wanted:.2f} mA.")
    if loop.wire_broken:
        sentences.append("The wire is broken: below the live zero, so it is not an empty drum.")
        return " ".join(sentences)
    sentences.append(f"Across the transmitter stand {result.terminal_voltage:.1f} V; it needs "
                     f"{loop.minimum_terminal_voltage:.1f} V.")
    if result.starved:
        sentences.append("It starves: the current sticks, or it drops out and starts again. "
                         "A high failure signal cannot come through.")
    elif view.show_truth and abs(view.error) >= 5e-4:
        sentences.append(f"The indicator reads {100 * abs(view.error):.1f} % of span "
                         f"{'LOW' if view.error < 0 else 'HIGH'}.")
    return " ".join(sentences)
