"""A clock that the browser counts; the kernel starts and stops it and is left alone between."""

import time
from pathlib import Path

import anywidget
import traitlets

_HERE = Path(__file__).parent


class Timer(anywidget.AnyWidget):
    """Time left and time taken. `clock` gives seconds since the epoch."""

    _esm = _HERE / "timer.js"

    limit = traitlets.Float(120.0).tag(sync=True)
    course = traitlets.Dict({"running": False, "elapsed": 0.0}).tag(sync=True)

    def __init__(self, limit, clock=time.time):
        self.clock = clock
        super().__init__(limit=limit)

    @property
    def running(self):
        """Whether the clock runs."""
        return self.course["running"]

    def start(self):
        """Run from zero; return the time of starting."""
        began = self.clock()
        self.course = {"running": True, "elapsed": 0.0, "began": began}
        return began

    def stop(self):
        """Stand still; return the time at which the clock was stopped."""
        now = self.clock()
        if self.running:
            self.course = {"running": False, "elapsed": now - self.course["began"]}
        return now
