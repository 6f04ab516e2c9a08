"""The controls of the diagnosis bench: a hidden case, one of the lecturer's, or a watch."""

import ipywidgets as widgets

from ..diagnosis.faulty import NO_FAULT, SettingKey, candidates
from ..diagnosis.setting import SEPARATE, SHARED, BenchSetting
from ..diagnosis.watches import watches
from .control import Control

BY_SEED, BY_LECTURER = "hidden, from its number", "set by the lecturer"
BY_WATCH = "a watch with a clock"
_MINUTES = (("just now", 0.0), ("1 minute", 60.0), ("5 minutes", 300.0), ("1 hour", 3600.0))


def bench_controls(boiler, barometer):
    """Return the controls of the bench by name: where a case comes from, and what it holds."""
    style = {"description_width": "initial"}
    levels, top = boiler.levels, 1000 * boiler.legs.chamber_height
    faults = fault_options(boiler, barometer, SEPARATE)
    return {
        "source": widgets.Dropdown(options=[BY_SEED, BY_LECTURER, BY_WATCH],
                                   description="Case", style=style),
        "seed": Control("Case number", "", 0, 9999, 1, 1, 0),
        "watch": widgets.Dropdown(options=[(item.title.removesuffix(" (invented)"), key)
                                           for key, item in watches().items()],
                                  description="Watch", style=style),
        "arrangement": widgets.Dropdown(options=[SEPARATE, SHARED], description="Remote on",
                                        style=style),
        "pressure": Control("Drum pressure", "bar g", 1, boiler.working_pressure_bar, 1,
                            boiler.working_pressure_bar, 0),
        "level": Control("True drum level", "mm", -100, top, 1, 1000 * levels.normal, 0),
        "first": widgets.Dropdown(options=faults, description="Fault 1", style=style),
        "since": widgets.Dropdown(options=_MINUTES, value=60.0, description="Fault came",
                                  style=style),
        "second": widgets.Dropdown(options=faults, description="Fault 2", style=style),
    }


def fault_options(boiler, barometer, arrangement):
    """Return every fault that the boiler can have with its legs so arranged, as choices."""
    setting = BenchSetting(boiler, barometer, boiler.working_pressure_bar,
                           boiler.levels.normal, boiler.levels.normal, 60.0,
                           arrangement)
    return [("none", NO_FAULT), *((f"{item.fault.number}  {item.text}", item)
                                  for item in candidates(SettingKey(setting)))]


def reoffer(chooser, options):
    """Give a list of choices other options; what was chosen stays if it still can."""
    if [item for _, item in options] == [item for _, item in chooser.options]:
        return
    kept = chooser.value
    chooser.options = options
    chooser.value = kept if kept in [item for _, item in options] else NO_FAULT
