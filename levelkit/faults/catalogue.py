"""All faults in the order of their numbers, and how to find one."""

from ..errors import InputError
from .fault import Fault
from .glass_faults import GLASS_FAULTS
from .remote_faults import REMOTE_FAULTS

FAULTS: tuple[Fault, ...] = tuple(
    sorted(GLASS_FAULTS + REMOTE_FAULTS, key=lambda fault: fault.number))


def fault_named(key):
    """Return the fault of a key.

    Parameters
    ----------
    key : str
        Its name in a program, such as "equaliser-open".

    Returns
    -------
    Fault [-]
        The fault.

    Raises
    ------
    InputError
        No fault has this key.

    References
    ----------
    None: a look-up, not a formula.

    Examples
    --------
    >>> try:
    ...     fault_named("gremlin")
    ... except InputError as error:
    ...     print(str(error).split(".")[0])
    There is no fault 'gremlin'
    """
    for fault in FAULTS:
        if fault.key == key:
            return fault
    known = ", ".join(fault.key for fault in FAULTS)
    raise InputError(f"There is no fault {key!r}. Choose one of: {known}.")
