"""From what a person sets to a vote on a low-low trip, its failures, and the time that is left."""

from dataclasses import dataclass

from ..physics.differential import level_of_differential, reference_differential
from ..physics.protection import ProtectionLevels, boiler_switches, time_to_level
from ..physics.voting import (
    ARCHITECTURES,
    HOUR,
    VoteResult,
    failure_on_demand,
    spurious_trip_rate,
    vote,
)
from ..physics.voting_simulation import (
    VotedChannels,
    exact_failure_on_demand,
    simulated_failure_on_demand,
    simulated_spurious_rate,
)
from ..properties import compressed_water_density, steaming_drum_fluids
from ..units import absolute_pressure

GOOD, FROZEN, FALSE_LOW = "good", "frozen at normal", "falsely low"
LEG_LOST, KNOWN_BAD = "leg lost", "bad, and known"
STATES = (GOOD, FROZEN, FALSE_LOW, LEG_LOST, KNOWN_BAD)
OWN_LEGS, SHARED_LEG = "one for each", "one for all"
COMPARED = ("1oo1", "1oo2", "2oo2", "2oo3")
YEAR = 8760 * HOUR
MONTH = YEAR / 12
PER_MILLION_HOURS = 1e-6 / HOUR
_BELOW_TRIP = 0.030  # m: what a falsely low transmitter shows below the trip


@dataclass(frozen=True, slots=True)
class VoteSetting:
    """What is set on the panel.

    Attributes
    ----------
    level, net_loss, shrink : float [m, kg/s, m]
        True level; steam less feed; fall of the level at once.
    architecture, bad_input, legs : str
        Vote, what a bad signal does, reference legs.
    states : tuple of str
        State of each of three transmitters.
    failure_rate, leg_rate, spurious_rate : float [1/s]
        Dangerous failures of one transmitter, losses of one leg, false lows.
    test_interval, repair_time : float [s]
        Between proof tests; until a false low is repaired.
    common_cause : float [1]
        Share of the failures that hits all at once.
    """

    level: float
    net_loss: float
    shrink: float
    architecture: str
    bad_input: str
    legs: str
    states: tuple
    failure_rate: float
    leg_rate: float
    spurious_rate: float
    test_interval: float
    repair_time: float
    common_cause: float

    def channels(self, architecture=None):
        """The transmitters of an arrangement, for counting their failures."""
        architecture = architecture or self.architecture
        count = ARCHITECTURES[architecture][1]
        return VotedChannels(architecture, self.failure_rate, self.test_interval,
                             self.common_cause, self.leg_rate,
                             (0,) * count if self.legs == SHARED_LEG else ())


@dataclass(frozen=True, slots=True)
class VoteCase:
    """A vote worked out, owner of every number the panel shows.

    Attributes
    ----------
    setting : VoteSetting [m, 1/s, s]
        What was set.
    states : tuple of str
        State of each transmitter; a lost leg that is shared is lost to all.
    shown : tuple of float [m]
        What each of three transmitters shows.
    result : VoteResult [m]
        The decision.
    should_trip : bool
        Whether the true level is at or below the trip.
    times, delays : mapping of str to float [s]
        Time until the water has fallen to a level, 0 where it is there already; and how much
        later its contact acts, so that a roll does not touch it.
    on_demand : mapping of str to float [1]
        Probability of failure on demand of each arrangement, nothing left out.
    spurious : mapping of str to float [1/s]
        False trips of each arrangement.
    """

    setting: VoteSetting
    states: tuple
    shown: tuple
    result: VoteResult
    should_trip: bool
    times: object
    delays: object
    on_demand: object
    spurious: object

    @property
    def simplified(self):
        """The simplified form of the probability, or None with a leg for each that can fail."""
        setting = self.setting
        if setting.legs == OWN_LEGS and setting.leg_rate > 0:
            return None
        return failure_on_demand(setting.architecture, setting.failure_rate,
                                 setting.test_interval, setting.common_cause, setting.leg_rate)


def vote_case(boiler, barometer, setting):
    """Return a vote on the low-low trip of a boiler, worked out."""
    fluids = steaming_drum_fluids(absolute_pressure(boiler.working_pressure_bar, barometer))
    count = ARCHITECTURES[setting.architecture][1]
    states = setting.states
    if setting.legs == SHARED_LEG and LEG_LOST in states[:count]:
        states = tuple(KNOWN_BAD if state == KNOWN_BAD else LEG_LOST for state in states)
    shown = tuple(_shown(boiler, fluids, setting.level, state) for state in states)
    result = vote(setting.architecture, shown[:count], boiler.levels.low_trip,
                  [state != KNOWN_BAD for state in states[:count]], setting.bad_input)
    ends = {"low alarm": boiler.levels.low_alarm, "low-low trip": boiler.levels.low_trip,
            "topmost tubes": boiler.drum.topmost_tube}
    times = {name: _time(boiler, fluids, setting, end) for name, end in ends.items()}
    return VoteCase(
        setting, states, shown, result, setting.level <= boiler.levels.low_trip, times,
        _delays(boiler.levels),
        {name: exact_failure_on_demand(setting.channels(name)) for name in ARCHITECTURES},
        {name: spurious_trip_rate(name, setting.spurious_rate, setting.repair_time)
         for name in ARCHITECTURES})


def drawn_at_random(setting, seed):
    """Return what drawing at random makes of an arrangement: failures on demand, false trips."""
    years = 2e5 / (setting.spurious_rate * YEAR)
    return (simulated_failure_on_demand(setting.channels(), seed=seed),
            simulated_spurious_rate(setting.architecture, setting.spurious_rate,
                                    setting.repair_time, years * YEAR, seed))


def _delays(levels):
    """Usual delays of the low alarm and of the low-low trip; the ship has no high-high trip."""
    switches = boiler_switches(ProtectionLevels(levels.low_trip, levels.low_alarm, levels.normal,
                                                levels.high_alarm, levels.high_alarm))
    return {switch.name: switch.delay for switch in switches[:2]}


def _time(boiler, fluids, setting, end):
    if setting.level <= end:
        return 0.0
    return time_to_level(boiler.drum.shape, setting.level, end, fluids.water_density,
                         fluids.steam_density, setting.net_loss, setting.shrink)


def _shown(boiler, fluids, level, state):
    """What a transmitter shows in a state; a lost leg is full of steam."""
    if state == FROZEN:
        return boiler.levels.normal
    if state == FALSE_LOW:
        return boiler.levels.low_trip - _BELOW_TRIP
    if state != LEG_LOST:
        return level
    weir, water, steam = boiler.legs.chamber_height, fluids.water_density, fluids.steam_density
    leg = compressed_water_density(fluids.pressure, boiler.legs.reference_leg_temperature)
    return level_of_differential(reference_differential(level, weir, water, steam, steam), weir,
                                 water, steam, leg)
