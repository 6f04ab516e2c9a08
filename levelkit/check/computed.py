"""One door to all check values: the quantity of a row says which module computes it."""

from . import boilers, breakage, cocks, optics, remote, ship, water

_OWNERS = {quantity: module for module in (water, optics, breakage, cocks, remote, ship, boilers)
           for quantity in module.QUANTITIES}


def computed_value(row):
    """Return what levelkit makes of a row's inputs, in the row's unit."""
    return _OWNERS[row.quantity].computed_value(row)
