"""Faults 1 to 16: gauge glass, drum and ship's motion.

To fill in as in remote_faults.py: words in a TOML file, functions by key, joined by
read_faults; a new type of state needs one entry in INSTRUMENTS.
"""

from .fault import Fault

GLASS_FAULTS: tuple[Fault, ...] = ()
