"""How much a boiler loses while the two ends of a broken glass are shut one after the other."""

import numpy as np

from ..errors import checked


def isolation_loss(first_flow, second_flow, time_each):
    """Return the mass lost from the break until both ends are shut, one after the other.

    ``m = (m_1 + m_2) t + m_2 t``

    Parameters
    ----------
    first_flow, second_flow : float or array [kg/s]
        Flow out of the end that is shut first, and of the other.
    time_each : float or array [s]
        Time that shutting takes at each end; the first is begun at once.

    Returns
    -------
    float or array [kg]
        Mass lost; arguments broadcast together.

    Raises
    ------
    InputError
        A value outside its range.

    Notes
    -----
    Each end blows at its full flow until its own cock is shut. Shutting the larger flow
    first always loses less: by the difference of the flows times the time.

    References
    ----------
    [CRITICAL-FLOW] for the flows; here a mass balance.

    Examples
    --------
    >>> isolation_loss(0.5, 0.25, 20.0), isolation_loss(0.25, 0.5, 20.0)
    (20.0, 25.0)
    """
    first = checked("flow of the end shut first", first_flow, 0.0, 1e4, "kg/s")
    second = checked("flow of the other end", second_flow, 0.0, 1e4, "kg/s")
    time = checked("time for each cock", time_each, 0.0, 1e5, "s", "Give seconds.")
    lost = (np.add(first, second) + second) * time
    return lost if np.ndim(lost) else float(lost)
