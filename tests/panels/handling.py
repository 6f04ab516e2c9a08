"""Use a panel as a person does: press its buttons, type into its controls, count its pictures."""

import logging
from contextlib import contextmanager


@contextmanager
def nothing_swallowed(caplog):
    """Fail where a callback swallowed an exception: it shows in the log only."""
    yield
    assert not [record for record in caplog.records if record.name in ("traitlets", "levelkit")
                and record.levelno >= logging.ERROR]


def redraws(panel):
    """Return a list that takes every picture shown from now on."""
    seen = []
    panel._picture.observe(lambda change: seen.append(change["new"]), "value")
    return seen


def press(panel, label):
    """Press the button of that label in the row below the controls."""
    row = panel.children[4]
    next(child for child in row.children
         if getattr(child, "description", "") == label).click()


def type_in(control, text):
    """Type a text into a control and press Enter."""
    control.typed = {"text": text, "serial": id(text)}
