"""A panel whose picture plays: the film is made once for each change of a setting."""

from .panel import Panel
from .player import Player


class MovingPanel(Panel):
    """A panel that says `film(result, look, show_truth)` instead of `draw`.

    `pace(result)` and `repeats(result)` say how it plays; `player.frame` is the picture at rest,
    to which readings and the still twin belong.
    """

    def make_picture(self):
        self.player = Player()
        self.player.observe(self._came_to_rest, "frame")
        return self.player

    def pace(self, result):
        """Seconds of the film in one second of watching."""
        return 1.0

    def repeats(self, result):
        """Whether the film begins again at its end."""
        return False

    def draw(self, result, look, show_truth):
        """Return the frame at rest of a film made for it, once for the panel and its twins."""
        if result is not self._made_for:
            self._made, self._made_for = {}, result
        if (look, show_truth) not in self._made:
            self._made[look, show_truth] = self.film(result, look, show_truth)
        self._drawn = self._made[look, show_truth]
        return self._drawn.drawing(min(self.player.frame, len(self._drawn.times) - 1))

    def show_picture(self):
        self._film = self._drawn
        self.player.load(self._film, self.pace(self.result), self.repeats(self.result))

    def _came_to_rest(self, _):
        """Let drawing and twins follow the frame on the screen."""
        if self._film is not None and self.player.frame < len(self._film.times):
            self.drawing = self._film.drawing(self.player.frame)
            for twin in self._twins:
                twin.refresh_soon()

    _film = _drawn = _made = _made_for = None
