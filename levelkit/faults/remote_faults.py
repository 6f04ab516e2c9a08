"""Faults 17 to 45: two-fluid indicator, DP transmitter, their legs and signals."""

from .fault import Fault
from .loading import read_faults
from .remote_changes import CHANGES

REMOTE_FAULTS: tuple[Fault, ...] = read_faults("remote_faults.toml", CHANGES)
