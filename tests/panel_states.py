"""Every panel that a lesson can show, and the states between which its controls can push it."""

import inspect
import random
from functools import cache

import ipywidgets as widgets
from traitlets import TraitError

from levelkit import lesson
from levelkit.panels.control import Control
from levelkit.panels.moving_panel import MovingPanel
from levelkit.panels.panel import Panel
from levelkit.scene.look import PRINT

FRAMES = 5
"""Pictures looked at of a film, from its first to its last."""
CORNERS, PRESSES = 40, 15
"""States with every control at one of its ends, drawn at random in a fixed order; presses, at
random too, of the buttons of a panel that is worked by buttons."""
NOT_PRESSED = {"Save CSV", "Record reading", "Reset", "Projector size"}


@cache
def panel_makers():
    """Return the functions of `lesson` that make a panel with a picture, by name."""
    makers = {}
    for name, maker in sorted(vars(lesson).items()):
        if inspect.isfunction(maker) and name.endswith("_panel") and isinstance(maker(), Panel):
            makers[name] = maker
    return makers


def choices(control):
    """Return the values at which a control is tried: both ends, or every option."""
    if isinstance(control, Control):
        return control.minimum, control.maximum
    if isinstance(control, widgets.Dropdown):
        return tuple(option[1] if isinstance(option, tuple) else option
                     for option in control.options)
    if isinstance(control, widgets.Checkbox):
        return False, True
    return ()


def sweep(panel):
    """Yield a label and the drawings of every state of a sweep through all controls.

    Each control goes to both its ends (a choice through all its options) alone, then all of them
    together to ends drawn at random; every preset is shown; panels that are worked by buttons have
    them pressed in a fixed random order. A state that cannot be worked out is refused in words and
    leaves the drawing as it was.
    """
    begun = panel.values()
    for label, values in ({"start": {}} | panel.presets).items():
        panel.set(**begun | values)
        for shown in (True, False):
            panel.truth.value = shown
            yield f"{label}{'' if shown else ', hidden'}", pictures(panel)
    panel.truth.value = True
    panel.set(**begun)
    for key, control in panel.controls.items():
        for value in choices(control):
            if value != begun[key]:
                panel.set(**{key: value})
                yield f"{key} {value}", pictures(panel)
        panel.set(**begun)
    yield from _corners(panel)
    panel.set(**begun)
    yield from _pressed(panel)


def _corners(panel):
    order = random.Random(2)
    offered = {key: choices(control) for key, control in panel.controls.items()}
    count = CORNERS // 3 if isinstance(panel, MovingPanel) else CORNERS  # a film takes longer
    for _ in range(count):
        state = {key: order.choice(values) for key, values in offered.items() if values}
        try:
            panel.set(**state)
        except TraitError:  # one choice has taken another from the list
            continue
        yield str(state), pictures(panel)


def _pressed(panel):
    """Press buttons that no preset and no setting stands for: moves of a drill, checks, cases."""
    known = NOT_PRESSED | set(panel.presets)
    buttons = [part for part in parts_of(panel) if isinstance(part, widgets.Button)
               and part.description not in known]
    order = random.Random(1)
    for press in range(PRESSES if buttons else 0):
        button = order.choice(buttons)
        button.click()
        yield f"press {press}: {button.description}", pictures(panel)


def parts_of(widget):
    """Yield a widget and all widgets inside it."""
    yield widget
    for child in getattr(widget, "children", ()):
        yield from parts_of(child)


def pictures(panel):
    """Return the drawings that a panel shows now: one, or frames of its film."""
    if isinstance(panel, MovingPanel):
        film = panel._film
        last = len(film.times) - 1
        return [film.drawing(frame) for frame in
                sorted({round(last * step / (FRAMES - 1)) for step in range(FRAMES)})]
    return [panel.drawing]


def printed(panel):
    """Return the panel's present picture as it goes on paper."""
    return panel.draw(panel.result, PRINT, True)
