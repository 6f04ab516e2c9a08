"""What all panels share: controls, presets, one redraw, hidden truth, readings, sizes."""

import logging
from contextlib import contextmanager

import ipywidgets as widgets

from ..errors import InputError
from ..scene.look import PROJECTOR, SCREEN
from .control import Control
from .heading import Heading
from .lectern import lectern
from .picture import DrawingAhead, Picture
from .readings import Readings
from .twin import StaticTwin

log = logging.getLogger("levelkit")


class Panel(widgets.VBox):
    """A picture above its controls. A panel for an instrument says four things of its own.

    `make_controls()` returns the controls by key; `evaluate(values)` returns a result;
    `draw(result, look, show_truth)` returns a Drawing; `reading(result, values)` returns one row of
    readings with the unit in each heading. `presets` maps a label to values by key. A panel whose
    picture hangs on nothing but those values says so by `draws_ahead`.
    """

    title = ""
    presets = {}
    draws_ahead = False

    def __init__(self):
        self.controls = self.make_controls()
        self.result = self.drawing = None
        self._held = False
        self._picture = self.make_picture()
        self._problem = widgets.HTML()
        self._twins = []
        self.readings = Readings(self)
        self.truth = widgets.Checkbox(value=True, description="Show the true level", indent=False)
        self.projector = widgets.ToggleButton(value=False, description="Projector size")
        self._start = self.values()
        super().__init__([
            Heading(text=self.title),
            self._picture,
            self._control_grid(),
            self._problem,
            self._button_row(),
            self.readings.view,
            lectern(),
        ])
        self.add_class("lk-panel")
        for control in self.controls.values():
            control.observe(self._changed, "value")
        self._ahead = self._drawing_ahead() if self.draws_ahead else None
        self.truth.observe(self._changed, "value")
        self.projector.observe(self._resized, "value")
        lectern().observe(self._presented, "presenting")
        self._changed()

    def make_picture(self):
        """Return the widget that shows the picture."""
        return Picture()

    def show_picture(self):
        """Put the present drawing on the page."""
        self._picture.show(_markup(self.drawing), {
            control.name: control.value for control in self._sliders().values()})

    def _sliders(self):
        return {key: control for key, control in self.controls.items()
                if isinstance(control, Control)}

    def _drawing_ahead(self):
        def markup_at(key, value):
            result = self.evaluate(self.values() | {key: value})
            return _markup(self.draw(result, self.look, self.truth.value))
        return DrawingAhead(self._picture, self._sliders(), markup_at)

    def _control_grid(self):
        grid = widgets.Box(list(self.controls.values()))
        grid.add_class("lk-grid")
        return grid

    def _button_row(self):
        buttons = []
        for label, values in self.presets.items():
            button = widgets.Button(description=label)
            button.on_click(lambda _, values=values: self.set(**values))
            buttons.append(button)
        reset = widgets.Button(description="Reset")
        reset.on_click(lambda _: self.reset())
        row = widgets.Box([*buttons, reset, self.projector, *self.readings.buttons, self.truth])
        row.add_class("lk-buttons")
        return row

    def values(self):
        """Return the values of all controls by key, in people's units."""
        return {key: control.value for key, control in self.controls.items()}

    def set(self, **values):
        """Set several controls in one redraw."""
        with self._one_redraw():
            for key, value in values.items():
                self.controls[key].value = value

    def reset(self):
        """Put every control back to where the panel began, in one redraw."""
        for control in self.controls.values():
            if isinstance(control, Control):
                control.message = ""
        self.set(**self._start)

    @contextmanager
    def _one_redraw(self):
        self._held = True
        try:
            yield
        finally:
            self._held = False
            self._changed()

    @property
    def look(self):
        """The size of drawing in use."""
        return PROJECTOR if self.projector.value else SCREEN

    def _resized(self, _):
        (self.add_class if self.projector.value else self.remove_class)("lk-projector")
        self._changed()

    def _presented(self, change):
        self.projector.value = change["new"]

    def _changed(self, change=None):
        """Work out the result and redraw; whatever goes wrong is said in the panel."""
        if self._held:
            return
        if self._ahead is not None:
            self._ahead.moved(change["owner"] if change else None)
        try:
            values = self.values()
            self.result = self.evaluate(values)
            self.drawing = self.draw(self.result, self.look, self.truth.value)
            self.accompany(self.result, values)
        except InputError as refusal:
            self._say(f"{refusal} The picture shows the last state that could be worked out.")
        except Exception as fault:
            log.exception("A panel could not work out its picture.")
            self._say(f"This panel failed inside ({type(fault).__name__}: {fault}). "
                      "Press Reset; if it comes back, tell whoever looks after the lessons.")
        else:
            self._say("")
            self.show_picture()
            for twin in self._twins:
                twin.refresh_soon()

    def accompany(self, result, values):
        """Say and switch what stands beside the picture; left out for a picture drawn ahead."""

    def _say(self, sentence):
        markup = f'<div class="lk-problem" role="status">{sentence}</div>' if sentence else ""
        if self._problem.value != markup:
            self._problem.value = markup

    def twin(self, show_truth=None, **values):
        """Show a still picture of the panel that survives saving, printing and a missing kernel.

        It hides the truth as the panel does, or always or never. It begins with the values given
        and follows the panel from its next change on; the panel itself stays as it is, so that a
        page run at one go does not give a prediction away in the panel.
        """
        before = self.values()
        if values:
            self.set(**values)
        twin = StaticTwin(self, show_truth)
        if values:
            self.set(**before)
        self._twins.append(twin)


def _markup(drawing):
    return f'{drawing.svg}<div class="lk-words">{drawing.words}</div>'
