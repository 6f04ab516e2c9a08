"""Watches: events in the order of the clock, as data, checked on loading."""

import tomllib
from dataclasses import dataclass
from functools import cache
from pathlib import Path

from ..errors import InputError
from ..faults import fault_named
from .faulty import Placed
from .setting import SEPARATE, SHARED


@dataclass(frozen=True, slots=True)
class Event:
    """Something that happens on a watch.

    Attributes
    ----------
    minute : float [min]
        On the clock of the watch.
    text : str
        What the log says of it.
    begins, ends : Placed or None
        A fault, or state of the drum, that comes or goes with it.
    load : float or None [1]
        Steam taken from now on, as a share of full load.
    """

    minute: float
    text: str
    begins: Placed | None = None
    ends: Placed | None = None
    load: float | None = None


@dataclass(frozen=True, slots=True)
class Watch:
    """An invented watch.

    Attributes
    ----------
    id, title : str
        In a program, and in a list of choices.
    story : str
        What a person finds on coming on watch.
    arrangement : str
        What the remote instruments hang on.
    gauge_pressure_bar : float [bar]
        Gauge pressure in the drum.
    minutes : float [min]
        How long it lasts.
    lesson : str
        What was to be learnt, told at the end.
    events : tuple of Event
        In the order of the clock.
    """

    id: str
    title: str
    story: str
    arrangement: str
    gauge_pressure_bar: float
    minutes: float
    lesson: str
    events: tuple


@cache
def watches():
    """Return every watch, by its id."""
    text = Path(__file__).with_name("watches.toml").read_text(encoding="utf-8")
    found = [read_watch(row) for row in tomllib.loads(text)["watch"]]
    return {watch.id: watch for watch in found}


def read_watch(row):
    """Return a watch from a table of the file.

    Parameters
    ----------
    row : dict [min, bar]
        As TOML gives it.

    Returns
    -------
    Watch [min, bar]
        Checked.

    Raises
    ------
    InputError
        Events out of order, beyond the end, or without a text; a watch not marked as invented;
        an end of what never began; an unknown arrangement of legs.

    References
    ----------
    None: the watches are invented.

    Examples
    --------
    >>> row = {"id": "quiet", "title": "A quiet watch (invented)", "story": "All is well.",
    ...        "arrangement": "one common leg", "gauge_pressure_bar": 60, "minutes": 10,
    ...        "lesson": "None.", "event": [{"minute": 2, "text": "Tea."}]}
    >>> read_watch(row).events[0].minute
    2.0
    """
    events = tuple(_event(item) for item in row["event"])
    watch = Watch(row["id"], row["title"], row["story"], row["arrangement"],
                  float(row["gauge_pressure_bar"]), float(row["minutes"]), row["lesson"], events)
    on, clock = set(), 0.0
    for event in events:
        if not clock <= event.minute < watch.minutes or not event.text:
            raise InputError(f"Watch {watch.id!r}: the event at {event.minute} min is out of "
                             f"order, beyond {watch.minutes} min, or without a text; put events "
                             "in the order of the clock.")
        clock = event.minute
        if event.ends is not None and event.ends not in on:
            raise InputError(f"Watch {watch.id!r}: {event.ends} ends at {clock} min but never "
                             "began; name the fault and place that began.")
        on = (on - {event.ends}) | ({event.begins} - {None})
    if not watch.title.endswith("(invented)"):
        raise InputError(f"Watch {watch.id!r}: its title must end in '(invented)'.")
    if watch.arrangement not in (SEPARATE, SHARED):
        raise InputError(f"Watch {watch.id!r}: arrangement {watch.arrangement!r}; choose "
                         f"{SEPARATE!r} or {SHARED!r}.")
    return watch


def _event(item):
    placed = {key: Placed(*item[key]) for key in ("begins", "ends") if key in item}
    for fault in placed.values():
        fault_named(fault.key)  # refuses an unknown one
    return Event(float(item["minute"]), item["text"], load=item.get("load"), **placed)
