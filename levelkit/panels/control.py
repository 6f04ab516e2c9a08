"""The control that every panel uses: name, slider, typed value with unit, message."""

from pathlib import Path

import anywidget
import traitlets

from ..errors import InputError
from ..units import format_number, parse_number

_HERE = Path(__file__).parent


class Control(anywidget.AnyWidget):
    """A number that a person sets by slider, by keyboard or by typing it, in people's units.

    A typed number outside the range is refused in a sentence and kept in the entry, so that
    nothing typed is lost; `value` keeps the last good number.
    """

    _esm = _HERE / "control.js"

    name = traitlets.Unicode().tag(sync=True)
    unit = traitlets.Unicode().tag(sync=True)
    minimum = traitlets.Float().tag(sync=True)
    maximum = traitlets.Float().tag(sync=True)
    step = traitlets.Float().tag(sync=True)
    decimals = traitlets.Int().tag(sync=True)
    decimal_mark = traitlets.Unicode(".").tag(sync=True)
    value = traitlets.Float().tag(sync=True, echo_update=False)
    typed = traitlets.Dict().tag(sync=True)
    message = traitlets.Unicode("").tag(sync=True)
    disabled = traitlets.Bool(False).tag(sync=True)

    def __init__(self, name, unit, minimum, maximum, step, value, decimals=0):
        super().__init__(name=name, unit=unit, minimum=minimum, maximum=maximum, step=step,
                         decimals=decimals, value=value)
        self.start = value

    @traitlets.validate("value")
    def _inside_the_range(self, proposal):
        number = round(proposal["value"], 9)  # a slider sends 10.000000000000002
        if not self.minimum <= number <= self.maximum:
            raise InputError(self._refusal(number))
        return number

    @traitlets.observe("value")
    def _forget_the_message(self, _):
        self.message = ""

    @traitlets.observe("typed")
    def _take_typed(self, change):
        if not change["new"]:
            return
        try:
            number = parse_number(change["new"]["text"], self.name)
            if not self.minimum <= number <= self.maximum:
                raise InputError(self._refusal(number))
        except InputError as refusal:
            self.message = str(refusal)
        else:
            self.message = ""
            self.value = number

    def _refusal(self, number):
        low, high = (format_number(x, self.decimals, self.decimal_mark)
                     for x in (self.minimum, self.maximum))
        shown = f"{number:.6g}".replace("-", "\u2212").replace(".", self.decimal_mark)
        return (f"{self.name} {shown} {self.unit} is outside {low} to {high} {self.unit}. "
                f"Type a number in that range; {self.shown()} is kept.")

    def shown(self):
        """Return the value as text with its unit."""
        return f"{format_number(self.value, self.decimals, self.decimal_mark)} {self.unit}"
