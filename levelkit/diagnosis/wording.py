"""What a check says to a person: words for its observations, and only what is not as usual."""

from dataclasses import replace

from .checks import CHECKS, SPREAD, WAITING
from .movement import movement_word
from .readings import bench_result
from .setting import NAMES

_PLAIN = {"steam way": "steam blow", "water way": "water blow", "wet": "water at the water cock",
          "line stays": "line left in the empty glass", "valve": "position", "leak": "leaks",
          "way": "LRV below URV", "moves": "moves"}
_UNITS = {"chamber": "\u00b0C", "leg": "\u00b0C", "run": "K warmer than the drum side",
          "fluid": "\u00b0C", "glass temperature": "\u00b0C", "answer to pressure": "mm",
          "loop": "mA", "volts": "V", "supply": "bar", "differential": "kPa", "gas": "mm of gas",
          "list": "\u00b0", "roll": "\u00b0", "assumed density": "kg/m\u00b3"}


def words_of_check(key, seen, result, memory):
    """Return what a check says, as one sentence.

    Parameters
    ----------
    key : str
        Of the check.
    seen : mapping of tuple to float [mm, degC, mA and so on]
        What was observed.
    result : BenchResult [-]
        The bench, for what stands on its dials.
    memory : dict [-]
        What was worked out before.

    Returns
    -------
    str
        Readings and movement are told in full, everything else where it is unusual.

    References
    ----------
    [PRACTICE-DIAGNOSIS] spreads; four of them make a difference news.

    Examples
    --------
    >>> from levelkit.diagnosis.example import example_setting
    >>> seen = {("list", "ship"): 5.0, ("roll", "ship"): 0.0}
    >>> words_of_check("clinometer", seen, bench_result(example_setting()), {})
    'Read the clinometer: ship: 5 ° (usual 0).'
    """
    if key == "readings":
        return f"{_dials(result)}."
    if key == "later":
        later = replace(result.setting, seconds=result.setting.seconds + WAITING)
        return f"Ten minutes later: {_dials(bench_result(later, result.faults))}."
    if key == "movement":
        return "; ".join(f"{name} {movement_word(seen['moves', name])}" for name in NAMES) + "."
    return _unusual(key, seen, CHECKS[key].observe(bench_result(result.setting), memory))


def _dials(result):
    return "; ".join(f"{name} {reading.text}" for name, reading in result.readings.items())


def _unusual(key, seen, sound):
    """Say what is not as usual; a single reading's noise of four spreads is not news."""
    news = []
    for (what, where), value in seen.items():
        usual = sound[what, where]
        if abs(value - usual) < 4.0 * SPREAD[what] or what == "differential" and (
                abs(value - usual) < 1.0):
            continue
        if what in _UNITS:
            news.append(f"{where}: {value:.3g} {_UNITS[what]} (usual {usual:.3g})")
        elif what == "mark":
            news.append(f"{where}: filling {100 * value:+.0f} % off its mark")
        else:
            state = "NO" if value < 0.3 else "yes" if value > 0.7 else "weak"
            news.append(f"{where}: {_PLAIN[what]} {state}")
    text = "; ".join(news) if news else "all as usual"
    return f"{CHECKS[key].name}: {text}.".replace("-", "\u2212")
