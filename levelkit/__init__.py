"""levelkit: teaching how the water level in a ship's boiler is seen.

Teaching model, not for operating decisions: follow the ship's procedures,
class and flag rules. A lesson imports :mod:`levelkit.lesson` and nothing else.
"""

__version__ = "0.1.0"
