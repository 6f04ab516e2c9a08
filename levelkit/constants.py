"""Constants that have one value in the whole project.

Sign convention, stated once: heights are measured from the centre of the lower
(water) connection, upwards positive; an error is shown minus true, so that a
negative error reads LOW.
"""

STANDARD_GRAVITY = 9.80665
"""Conventional value of gravity [m/s2], 3rd CGPM 1901 (source CGPM-1901)."""

STANDARD_BAROMETER = 101_325.0
"""Standard atmosphere [Pa], 10th CGPM 1954 (source CGPM-1954)."""

ZERO_CELSIUS = 273.15
"""0 degrees Celsius [K], exact by definition (source SI-BROCHURE)."""

GAS_CONSTANT = 8.314462618
"""Molar gas constant [J/(mol K)], exact since 2019 (source SI-BROCHURE)."""

MOLAR_MASS_DRY_AIR = 0.0289652
"""Molar mass of dry air [kg/mol] (source CIPM-2007)."""

BAR = 1e5
"""One bar [Pa]."""

MILLIMETRE = 1e-3
"""One millimetre [m]."""

CAUTION = (
    "Teaching model, not for operating decisions: follow the ship's procedures, "
    "class and flag rules."
)
"""The line that stands wherever an action is advised."""
