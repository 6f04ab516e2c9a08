"""Plays a film in the browser: the kernel hands it over once and is left alone until it rests."""

from pathlib import Path

import anywidget
import traitlets

_HERE = Path(__file__).parent


class Player(anywidget.AnyWidget):
    """A picture with play, pause, step, scrub and speed.

    The browser sets attributes from the film's table and asks the kernel for nothing while it
    plays. `frame` is told to the kernel when the picture comes to rest, and may be set from here.
    """

    _esm = _HERE / "player.js"

    film = traitlets.Dict().tag(sync=True)
    frame = traitlets.Int(0).tag(sync=True, echo_update=False)
    pace = traitlets.Float(1.0).tag(sync=True)
    repeats = traitlets.Bool(False).tag(sync=True)

    def load(self, film, pace=1.0, repeats=False):
        """Show another film, at the same frame if it has one.

        `pace` is the film's seconds in one second of watching; a film that repeats ends where
        it begins.
        """
        with self.hold_sync():
            self.film = {
                "svg": film.svg, "times": film.times, "words": film.words,
                "tracks": [(t.part, t.attribute, t.values) for t in film.tracks],
            }
            self.pace, self.repeats = pace, repeats
            self.frame = min(self.frame, len(film.times) - 1)

    def set_state(self, sync_data):
        """Take what the page says; a frame of a film that was replaced meanwhile is no news."""
        if sync_data.get("frame", 0) > self._last:
            sync_data = {key: value for key, value in sync_data.items() if key != "frame"}
        super().set_state(sync_data)

    @property
    def _last(self):
        return len(self.film.get("times", (0,))) - 1

    @traitlets.validate("frame")
    def _one_of_the_frames(self, proposal):
        if not 0 <= proposal["value"] <= self._last:
            raise traitlets.TraitError(
                f"The frame {proposal['value']} is outside 0 to {self._last}: the film has no such "
                "picture. Choose one in that range.")
        return proposal["value"]
