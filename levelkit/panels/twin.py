"""The still picture of a panel: an ordinary output, so it needs no kernel, trust or network."""

import asyncio
import base64
from html import escape

from IPython.display import HTML, display

REST = 0.6  # seconds without a change before the twin follows


class StaticTwin:
    """Shows a panel's picture as an image output and follows it when the sliders rest."""

    def __init__(self, panel, show_truth=None):
        self._panel, self._show_truth = panel, show_truth
        self._timer = None
        self._handle = display(self.output(), display_id=True)

    def output(self):
        """Return the present picture as an output that a saved notebook keeps."""
        panel, drawing = self._panel, self._panel.drawing
        if self._show_truth is not None:
            drawing = panel.draw(panel.result, panel.look, self._show_truth)
        return HTML(still_image(drawing))

    def refresh_soon(self):
        """Follow the panel once it has been left alone for a moment."""
        if self._timer is not None:
            self._timer.cancel()
            self._timer = None
        try:
            loop = asyncio.get_running_loop()
        except RuntimeError:  # a plain script has no loop: follow at once
            self.refresh()
        else:
            self._timer = loop.call_later(REST, self.refresh)

    def refresh(self):
        """Follow the panel now."""
        self._timer = None
        if self._handle is not None:
            self._handle.update(self.output())


def still_image(drawing):
    """Return a drawing as an image element with its words as alternative text."""
    code = base64.b64encode(drawing.svg.encode()).decode()
    return (f'<figure style="margin:0"><img alt="{escape(drawing.words, quote=True)}" '
            f'style="width:100%;max-width:1100px;background:#ffffff" '
            f'src="data:image/svg+xml;base64,{code}"><figcaption>{escape(drawing.words)}'
            "</figcaption></figure>")
