"""Faults 1 to 16: gauge glass, drum and ship's motion."""

from .fault import Fault
from .glass_changes import CHANGES
from .loading import read_faults

GLASS_FAULTS: tuple[Fault, ...] = read_faults("glass_faults.toml", CHANGES)
