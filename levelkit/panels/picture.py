"""The picture of a panel, and the pictures that the slider in hand may need next."""

import asyncio
from contextlib import suppress
from pathlib import Path

import anywidget
import traitlets

from ..errors import InputError

_HERE = Path(__file__).parent
REACH = 12  # steps to each side of where the slider stands
BATCH = 4  # pictures drawn before the kernel looks for other work
SHELF = 240  # pictures kept on the page before the shelf is begun anew


class Picture(anywidget.AnyWidget):
    """A drawing with its words.

    Attributes
    ----------
    value : str
        Markup that the page shows.
    of : dict
        Value of each slider in that drawing, by name.
    """

    _esm = _HERE / "picture.js"

    value = traitlets.Unicode().tag(sync=True)
    of = traitlets.Dict().tag(sync=True)

    def show(self, markup, of):
        """Put a drawing on the page."""
        with self.hold_sync():
            self.of, self.value = of, markup


class DrawingAhead:
    """Draws for the slider in hand while the kernel rests, so that a move shows in one frame.

    A move takes longer from the page to the kernel and back than a drawing takes to draw. The
    page says which slider is in hand; the kernel hands over the pictures of the positions near
    it, by the same functions that draw every picture, and the page shows them at the move. The
    kernel hears of the move as of any other and its own picture stands in the end.
    """

    def __init__(self, picture, sliders, markup_at):
        """Serve a picture with sliders by key, and a function from (key, value) to markup."""
        self._picture, self._sliders, self._markup_at = picture, sliders, markup_at
        self._key = self._handle = None
        self._serial, self._ready = 0, set()
        picture.on_msg(self._hear)

    def _hear(self, _, content, __):
        names = {slider.name: key for key, slider in self._sliders.items()}
        self._key = names.get(content.get("hand"))
        self.begin_anew()

    def begin_anew(self):
        """Forget the pictures drawn ahead: something else than the slider in hand has changed."""
        self._serial += 1
        self._ready = set()
        self.go_on()

    def moved(self, slider):
        """Follow a change of a slider: that in hand goes on, any other spoils what is ready."""
        if self._key is not None and slider is self._sliders[self._key]:
            self.go_on()
        else:
            self.begin_anew()

    def go_on(self):
        """Draw what is missing near the slider as soon as nothing else waits."""
        if self._handle is not None:
            self._handle.cancel()
            self._handle = None
        if self._key is None:
            return
        try:
            self._handle = asyncio.get_running_loop().call_soon(self._draw_some)
        except RuntimeError:  # a plain script has no page to draw for
            self._key = None

    def _draw_some(self):
        self._handle = None
        if len(self._ready) > SHELF:
            self._serial += 1
            self._ready = set()
        missing = [value for value in near(self._sliders[self._key]) if value not in self._ready]
        pictures = []
        for value in missing[:BATCH]:
            self._ready.add(value)
            with suppress(InputError):  # the move itself will be refused in words
                pictures.append((value, self._markup_at(self._key, value)))
        if pictures:
            self._picture.send({"hand": self._sliders[self._key].name, "serial": self._serial,
                                "pictures": pictures})
        if len(missing) > BATCH:
            self.go_on()


def near(slider):
    """Return the values next to where a slider stands, nearest first."""
    values = []
    for steps in range(1, REACH + 1):
        for value in (slider.value + steps * slider.step, slider.value - steps * slider.step):
            value = round(value, 9)
            if slider.minimum <= value <= slider.maximum:
                values.append(value)
    return values
