"""What a DP transmitter shows and says about itself, in words."""

from ..physics.signal import FAILURE_HIGH, FAILURE_LOW, HIGH_LIMIT
from ..physics.transmitter_state import PNEUMATIC
from ..units import format_number

BELOW_LIVE_ZERO = -0.02
"""Share of the range below which a pointer lies on its stop, not on an empty drum."""


def is_failure(result):
    """Return whether a current says that the transmitter or its wire has failed."""
    return result.band in (FAILURE_LOW, FAILURE_HIGH)


def shown_in_words(result):
    """Return what stands beside the pointer."""
    if is_failure(result):
        return "no level"
    if is_off_scale(result):
        return "shows FULL" if result.shown_fraction > 0.5 else "shows EMPTY"
    if result.shown_fraction < BELOW_LIVE_ZERO:
        return "below live zero"
    return f"shows {format_number(1000 * result.indicated_level, 1)} mm"


def is_off_scale(result):
    """Return whether a healthy signal stands at one of its ends and follows no further."""
    return result.saturated and not 0.0 <= result.shown_fraction <= 1.0


def above_drum(pressure):
    """Return a port pressure as what it is above the drum pressure p."""
    size, unit = (1e3, "kPa") if abs(pressure) < 1e5 else (1e5, "bar")
    sign = "+" if pressure >= 0 else "\u2212"
    return f"p {sign} {abs(pressure) / size:.2f} {unit}"


def describe_transmitter(still, view):
    """Return what the picture shows, in a few sentences."""
    result, state = view.result, view.state
    percent = f"{format_number(100 * result.shown_fraction, 1)} %"
    signal = (f"{result.air_signal / 1e5:.2f} bar" if state.receiver == PNEUMATIC
              else f"{1e3 * result.current:.2f} mA")
    sentences = [f"The indicator: {shown_in_words(result)} ({percent}, {signal})."]
    if view.show_truth:
        sentences.append(f"The drum holds {1000 * state.drum.level:.1f} mm. "
                         + _error_in_words(result))
    else:
        sentences.append("The true level is hidden.")
    sentences += signal_in_words(view)
    if view.show_truth and state.drum.level < still.low_alarm < result.indicated_level:
        sentences.append("A low alarm on this signal stays SILENT.")
    return " ".join(sentences)


def _error_in_words(result):
    if is_failure(result):
        return "The signal is no level."
    if abs(result.error) < 5e-5:
        return "The two agree."
    return (f"It reads {1000 * abs(result.error):.1f} mm "
            f"{'LOW' if result.error < 0 else 'HIGH'}.")


def signal_in_words(view):
    """Return what the signal says about itself, by NE 43 and by the valves, as sentences."""
    result, state, sentences = view.result, view.state, []
    if state.receiver != PNEUMATIC:
        if result.starved:
            sentences.append("The supply cannot drive a larger current: the transmitter starves.")
        elif is_failure(result):
            sentences.append(f"By NE 43: {result.band}.")
        elif result.saturated:
            side = "FULL" if result.sent_current == HIGH_LIMIT else "EMPTY"
            sentences.append(f"By NE 43 a healthy transmitter off scale {side}, not a failure.")
    elif result.shown_fraction < BELOW_LIVE_ZERO:
        sentences.append("Below the live zero: no air, not an empty drum.")
    if result.shut_in:
        sentences.append(f"Shut in: {' and '.join(result.shut_in)}.")
    if result.below_connection:
        sentences.append("The level is below the lower connection: no instrument sees it.")
    return sentences
