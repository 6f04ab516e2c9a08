"""The ship moves: end glasses, roll, slosh, filters."""

from math import pi, sin, sqrt, tan, tanh

from ...physics.inclination import list_between_glasses
from ...physics.level_filter import filter_against_roll, ramp_lag
from ...physics.motion import apparent_list, level_shift, slosh_period, swing_amplification
from .printed import GRAVITY


def end_glasses(work, port, starboard, distance, list_angle):
    """List and mid-level from two end glasses, and what they read under another list."""
    found = work.step("list", list_between_glasses(port, starboard, distance))
    mid = work.step("mid", (port + starboard) / 2)
    shift = work.step("shift", level_shift(distance / 2, list_angle))
    work.step("port_reading", mid + shift)
    low = work.step("starboard_reading", mid - shift)
    work.step("seen", "empty" if low < 0.0 else "in_sight")
    work.refuse(abs(low) < 0.004, "the reading lies at the very end of the glass")
    work.slip("half_length", 2 * found)
    work.slip("highest", max(port, starboard))
    work.slip("whole_length", level_shift(distance, list_angle))


def rolling(work, height_above_axis, distance, roll_angle, period):
    """Amplitude of the level at a gauge while the surface follows apparent gravity."""
    omega = work.step("omega", 2 * pi / period)
    work.step("factor", 1 + omega**2 * height_above_axis / GRAVITY)
    angle = work.step("angle", apparent_list(roll_angle, period, height_above_axis, GRAVITY))
    work.step("amplitude", level_shift(distance, angle))
    still = work.step("still", level_shift(distance, roll_angle))
    work.slip("as_list", still)
    work.slip("sign_turned", distance * tan(2 * roll_angle - angle))
    work.slip("sine", distance * sin(angle))
    work.slip("factor_sign", 1 - omega**2 * height_above_axis / GRAVITY)


def sloshing(work, length, depth, forcing):
    """Natural period of the water in a drum and how it enlarges the swing."""
    shallow = tanh(pi * depth / length)
    own = work.step("shallow", shallow)
    omega = work.step("omega", 2 * pi / slosh_period(length, depth, GRAVITY)
                      * sqrt(own / shallow))
    natural = work.step("natural", 2 * pi / omega)
    work.step("gain", swing_amplification(forcing, natural))
    work.refuse(forcing < 1.2 * natural, "too close to resonance for a fair question")
    work.slip("deep_water", 2 * pi / sqrt(pi * GRAVITY / length))
    work.slip("frequency_as_period", omega)
    work.slip("ratio_inverted", 1 / (1 - (forcing / natural) ** 2))


def alarm_filter(work, swing, margin, period, rate):
    """Filter that keeps the roll off an alarm, and what it costs on a falling level."""
    constant = work.step("constant", filter_against_roll(swing, margin, period))
    work.step("lag", ramp_lag(-rate, constant))
    work.slip("period_for_omega", sqrt((swing / margin) ** 2 - 1) * period)
    work.slip("one_period", rate * period)


def clinometer(work, list_angle, distance, glass):
    """Level at mid-drum and at the other end from one end glass and the clinometer."""
    shift = work.step("shift", level_shift(distance / 2, list_angle))
    work.step("mid", glass - shift)
    work.step("other", glass - 2 * shift)
    work.slip("whole_length", 2 * shift)
    work.slip("glass_believed", glass)
    work.slip("wrong_way", glass + shift)
