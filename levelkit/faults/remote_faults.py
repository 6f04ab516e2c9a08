"""Faults 17 to 45: two-fluid indicator, DP transmitter, their legs and signals."""

from .fault import Fault

REMOTE_FAULTS: tuple[Fault, ...] = ()
