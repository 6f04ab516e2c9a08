"""The heading of every panel and card; it brings the style sheet and guards the keyboard."""

from pathlib import Path

import anywidget
import traitlets

_HERE = Path(__file__).parent


class Heading(anywidget.AnyWidget):
    """A heading in a panel."""

    _esm = _HERE / "heading.js"
    _css = _HERE / "panel.css"

    text = traitlets.Unicode().tag(sync=True)
