"""A hidden state of the boiler: drawn from a seed or set by the lecturer, with its log."""

from dataclasses import dataclass
from random import Random

from .faulty import DRUM, NO_FAULT, Placed, SettingKey, candidates, reached
from .readings import bench_result
from .setting import SEPARATE, SHARED, BenchSetting, healthy_instruments

LOW_WATER = Placed("level-below-connection", DRUM)
_WORK = {"equaliser-open": "a transmitter was taken out of service and put back",
         "ports-crossed": "a transmitter was fitted anew", "range-upside-down":
         "a transmitter was ranged anew", "fluid-overfilled": "the U-tube was topped up",
         "drum-isolator-shut": "the impulse lines were worked on", "reference-isolator-shut":
         "the impulse lines were worked on", "chamber-isolated": "a chamber was drained",
         "ball-seated": "a gauge glass was blown through", "both-ways-choked":
         "a gauge glass was repacked", "glass-chilled": "the lagging of a glass was changed",
         "receiver-shunted": "a second indicator was wired in",
         "swell": "steam demand rose sharply", "shrink": "steam demand fell sharply",
         "list": "the ship took a list", "rolling": "she began to roll",
         "reference-leg-flashes": "the pressure fell fast", "cold-drum": "the fires are out, the "
         "boiler is cold"}
_OTHER_WORK = ("the watch was handed over", "a lamp was changed behind glass B",
               "the feed pump was changed over", "soot was blown")


@dataclass(frozen=True, slots=True)
class BenchCase:
    """A hidden state of the boiler.

    Attributes
    ----------
    seed : int
        What it was made from; -1 for one set by the lecturer.
    result : BenchResult
        Everything that is so.
    log : tuple of str
        Events and alarms, oldest first.
    """

    seed: int
    result: object
    log: tuple

    @property
    def faults(self):
        """What is wrong, as Placed; NO_FAULT alone for a sound boiler."""
        return self.result.faults or (NO_FAULT,)


def seeded_bench(boiler, barometer, seed):
    """Return the hidden case of a seed: one fault or two, one in four with low water as well.

    Parameters
    ----------
    boiler : Boiler [m, K]
        One of the ship's boilers.
    barometer : float [Pa]
        Pressure of the air.
    seed : int
        Number of the case.

    Returns
    -------
    BenchCase [-]
        The same for the same seed.

    References
    ----------
    None: a draw.

    Examples
    --------
    >>> from levelkit.scenario import load_ship
    >>> ship = load_ship()
    >>> case = seeded_bench(ship.boilers["water_tube"], ship.barometer, 2)
    >>> case.log[-1].startswith("Controller")
    True
    """
    random = Random(f"bench {seed}")
    setting = BenchSetting(
        boiler, barometer, random.choice((1.0, 1.0, 0.5)) * boiler.working_pressure_bar,
        boiler.levels.normal, round(random.uniform(boiler.levels.low_trip,
                                                   boiler.levels.high_alarm), 3),
        random.choice((60.0, 300.0)), random.choice((SEPARATE, SHARED)))
    pool = candidates(SettingKey(setting))
    own = [item for item in pool if item.place != DRUM]
    kind = random.random()
    if kind < 0.5:
        faults = (random.choice(pool),)
    elif kind < 0.75:
        faults = _two(own, setting, random)
    else:
        faults = (random.choice(own), LOW_WATER)
    return bench_case(setting, faults, seed)


def _two(own, setting, random):
    """Two faults on instruments that have nothing to do with each other."""
    healthy = healthy_instruments(setting, setting.level_before)
    first = random.choice(own)
    touched = set(reached(first, setting.arrangement, healthy))
    others = [item for item in own
              if not touched & set(reached(item, setting.arrangement, healthy))]
    return (first, random.choice(others))


def bench_case(setting, faults, seed=-1):
    """Return a case as set: what is so, and the log that a person finds on arrival.

    Parameters
    ----------
    setting : BenchSetting [m, bar, s]
        The boiler.
    faults : tuple of Placed [-]
        What is wrong.
    seed : int
        Number of the case; -1 for one set by the lecturer.

    Returns
    -------
    BenchCase [-]
        With its log.

    References
    ----------
    None: it puts a case together.

    Examples
    --------
    >>> from levelkit.diagnosis.example import example_setting
    >>> bench_case(example_setting(), ()).log[0]
    'Last entry: all agreed, 250 mm, 60 bar.'
    """
    result = bench_result(setting, faults)
    return BenchCase(seed, result, _log(result, Random(f"log {seed}")))


def _log(result, random):
    setting = result.setting
    lines = [f"Last entry: all agreed, {1000 * setting.level_before:.0f} mm, "
             f"{setting.gauge_pressure_bar:.0f} bar."]
    work = [_WORK[item.key] for item in result.faults if item.key in _WORK]
    work.append(random.choice(_OTHER_WORK))
    random.shuffle(work)
    lines += [f"Since then {text}." for text in work]
    alarms = result.alarms
    lines += [text for given, text in (
        (alarms.trip, "ALARM low-low trip: fires out."), (alarms.low, "ALARM low level."),
        (alarms.high, "ALARM high level."), (alarms.bad_input, "ALARM bad input.")) if given]
    return (*lines, f"Controller: {alarms.feed}.")
