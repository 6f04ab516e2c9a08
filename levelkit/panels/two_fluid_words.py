"""What the two-fluid panel writes: beside the legs, in the block of numbers, in the readings."""

from ..constants import BAR
from ..scene.two_fluid import shown_level
from ..units import format_number
from .readings import format_plain


def leg_words(case, look):
    """Return names of the legs and their temperatures; a fault may have changed these."""
    now, set_to, words = case.state.legs, case.healthy.legs, []
    for name, celsius, densities in zip(
            ("reference", "drum-side"), case.leg_celsius,
            (("reference_density", "reference_run_density"), ("drum_run_density",)),
            strict=True):
        changes = [getattr(now, key) - getattr(set_to, key) for key in densities]
        state = f"{celsius:.0f} \u00b0C"
        if min(changes) < 0:
            state = "warm"
        elif max(changes) > 0:
            state = "cold"
        words.append((name, f"leg {state}") if look.detail else (state,))
    return tuple(words)


def number_rows(case, look, show_truth):
    """Return names and numbers of the block, with units."""
    state, reading = case.state, case.reading
    gauge = (state.drum.pressure - state.legs.barometer) / BAR
    pressure = ("Pressure", f"{format_number(gauge, 1)} bar g")
    across = (reading.reference_pressure - reading.drum_side_pressure) / BAR * 1000
    forces = ("p1 \u2212 p2", f"{format_number(across, 2)} mbar")
    difference = ("R", f"{format_number(1000 * reading.difference, 1)} mm")
    if not look.detail:
        level = f"{format_number(1000 * state.drum.level)} mm" if show_truth else "hidden"
        return (pressure, forces, difference, ("True level", level),
                ("Shows", shown_level(reading)))
    legs, ((_, low), (_, high)) = state.legs, case.scale_ends
    ratio = abs(high - low) / legs.weir_height
    known = () if case.budget is None else (
        (f"Corrected: \u00b1 {1000 * case.budget.uncertainty:.1f} mm", case.budget.largest),)
    return (
        pressure,
        (f"Scale {ratio:.2f} : 1, for", f"{format_number(case.scale_pressure_bar, 1)} bar g"),
        ("Drum water", f"{state.drum.water_density:.1f} kg/m\u00b3"),
        ("Steam" if case.steaming else "Air", f"{state.drum.steam_density:.2f} kg/m\u00b3"),
        ("Leg 1, above 0", f"{legs.reference_density:.1f} kg/m\u00b3"),
        ("Leg 1, below 0", f"{legs.reference_run_density:.1f} kg/m\u00b3"),
        ("Leg 2, below 0", f"{legs.drum_run_density:.1f} kg/m\u00b3"),
        ("Indicating fluid", f"{reading.fluid_density:.1f} kg/m\u00b3"),
        forces, difference, *known,
    )


def reading_row(case, values):
    """Return one row of readings, the unit in each heading."""
    state, reading = case.state, case.reading
    return {
        "drum pressure [bar g]": format_plain(
            (state.drum.pressure - state.legs.barometer) / BAR, 1),
        "true level [mm]": format_plain(1000 * state.drum.level, 1),
        "surfaces apart R [mm]": format_plain(1000 * reading.difference, 1),
        "indicator shows [mm]": format_plain(1000 * reading.indicated_level, 1),
        "error [mm]": format_plain(1000 * reading.error, 1),
        "corrected, known to +/- [mm]": (format_plain(1000 * case.budget.uncertainty, 1)
                                         if case.budget else "not known"),
        "leg 1 [degC]": format_plain(values["reference_leg"], 0),
        "leg 2 [degC]": format_plain(values["drum_leg"], 0),
        "leg 1 lost [mm]": format_plain(values["leg_lost"], 0),
        "fluid above mark [ml]": format_plain(values["extra_fill"], 0),
        "status": reading.status,
        "fault": case.fault.name if case.fault else "none",
    }
