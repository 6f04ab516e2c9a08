"""Faults 1 to 16: gauge glass, drum and ship's motion."""

from .fault import Fault

GLASS_FAULTS: tuple[Fault, ...] = ()
