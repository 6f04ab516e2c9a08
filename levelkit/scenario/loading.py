"""Read a ship from a TOML file and refuse, with a sentence, what cannot be built."""

import tomllib
from pathlib import Path
from types import MappingProxyType

from ..errors import ScenarioError
from ..physics.mounting import mounting_findings
from ..units import kelvin
from . import _parts as parts
from ._table import Table
from .model import Boiler, Ship

OWN_SHIP = Path(__file__).with_name("vesterlume.toml")
PRESETS = ("cold", "raising_steam", "half_pressure", "normal", "low_water", "high_water")


def load_ship(path=None):
    """Return a ship with her boilers, validated.

    Parameters
    ----------
    path : str or path [TOML file]
        A scenario file; the invented ship of the lessons if left out.

    Returns
    -------
    Ship [Pa, K, m, kg/m3]
        The ship, her boilers and their presets.

    Raises
    ------
    ScenarioError
        The file cannot be read, is not TOML, lacks a key, has an unknown one or a value
        of the wrong kind or outside its range, or describes a boiler that cannot be built.

    References
    ----------
    [PRACTICE-MOUNTING] the mounting check that every boiler has to pass.

    Examples
    --------
    >>> ship = load_ship()
    >>> ship.name, list(ship.boilers)
    ('Vesterlume', ['auxiliary', 'composite', 'water_tube'])
    >>> ship.boilers["water_tube"].presets["normal"].gauge_pressure_bar
    60.0
    """
    path = Path(path) if path is not None else OWN_SHIP
    root = Table(path.name, "", _content(path))
    own = root.table("ship", "name, note and barometer_pa")
    name, note = own.text("name"), own.text("note")
    barometer = own.number("barometer_pa", 80_000.0, 120_000.0, "Pa",
                           "Give pascal: 1.013 bar is 101 325.")
    own.finish()
    tables = root.table("boiler", "one table for each boiler")
    if not tables.names():
        raise tables.fault("there is no boiler. Add a table [boiler.some_name].")
    boilers = {key: _boiler(key, tables.table(key, "the keys of a boiler"), barometer)
               for key in tables.names()}
    root.finish()
    return Ship(name, note, barometer, MappingProxyType(boilers))


def _content(path):
    try:
        return tomllib.loads(path.read_text(encoding="utf-8"))
    except OSError as fault:
        raise ScenarioError(f"{path} cannot be read ({fault.strerror}). "
                            "Check the name and the folder.") from None
    except UnicodeDecodeError:
        raise ScenarioError(f"{path.name} is not text in UTF-8. Save it as UTF-8.") from None
    except RecursionError:
        raise ScenarioError(f"{path.name}: brackets stand in brackets without end. "
                            "A line reads key = value.") from None
    except tomllib.TOMLDecodeError as fault:
        raise ScenarioError(f"{path.name} is not valid TOML: {fault}. Correct that line; a line "
                            "reads key = value, a text stands in quotation marks.") from None


def _boiler(key, table, barometer):
    title = table.text("title")
    working = table.number("working_pressure_bar", 0.5, parts.HIGHEST_PRESSURE_BAR, "bar gauge",
                           "Give bar gauge.")
    ambient = table.number("ambient_c", -10.0, 60.0, "degC",
                           "Give degrees Celsius.")
    drum = parts.read_drum(table.table("drum"))
    glass = parts.read_glass(table.table("glass"))
    legs = parts.read_legs(table.table("legs"))
    two_fluid = parts.read_two_fluid(table.table("two_fluid"))
    transmitter = parts.read_transmitter(table.table("transmitter"))
    levels = parts.read_levels(table.table("levels"))
    _refuse_impossible(table, drum, glass, legs, levels)
    presets = _presets(table.table("presets", "the states " + ", ".join(PRESETS)),
                       working, drum, barometer)
    table.finish()
    return Boiler(key, title, working, kelvin(ambient), drum, glass, legs, two_fluid, transmitter,
                  levels, presets)


def _refuse_impossible(table, drum, glass, legs, levels):
    """What no single key can tell: parts that do not fit each other."""
    def inside(what, height, low, high, remedy):
        if not low < height < high:
            raise table.fault(f"{what} is {height:g} m above the water connection; the allowed "
                              f"range is {low:.3f} to {high:.3f} m. {remedy}")

    inside("the water connection", 0.0, drum.bottom, drum.crown,
           "It opens into the drum: change axis_height_m.")
    inside("the steam connection of the glass", glass.mounting.steam_connection, 0.0, drum.crown,
           "It opens into the drum: lower steam_connection_m or raise axis_height_m.")
    inside("the constant-head chamber", legs.chamber_height, 0.0, drum.crown,
           "It is fed with steam from the drum: lower chamber_height_m.")
    inside("the topmost tube", drum.topmost_tube, drum.bottom, levels.low_trip,
           "It lies in the drum, below the level at which the fuel is cut off.")
    inside("the high alarm level", levels.high_alarm, 0.0, glass.mounting.steam_connection,
           "Nothing shows a level above the steam connection: lower high_alarm_m.")
    for finding in mounting_findings(glass.mounting, drum.topmost_tube, levels.normal,
                                     levels.low_alarm, levels.high_alarm):
        if not finding.met:
            raise table.fault(
                f"the mounting check fails: {finding.requirement} is {finding.value:.3f} m; the "
                f"allowed range is {finding.limit} ({finding.source}). "
                "Move the glass or the level.")


def _presets(table, working, drum, barometer):
    for name in PRESETS:
        if name not in table.names():
            raise table.fault(f"the preset {name} is missing. Add {name} = {{ title = ..., "
                              "steaming = ..., ... } as in the other boilers.")
    presets = {}
    for name in table.names():
        presets[name] = parts.read_preset(table.table(name), working, drum, barometer)
    return MappingProxyType(presets)
