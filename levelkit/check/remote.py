"""How levelkit computes the check values of remote indicators, manometers and signals."""

from dataclasses import replace

from ..constants import BAR, STANDARD_GRAVITY
from ..physics import indicating_fluids
from ..physics.columns import Column, balancing_height, path_difference
from ..physics.differential import indicated_level, reference_differential
from ..physics.leg_state import DrumContents, LegsState
from ..physics.loop_power import LoopState, greatest_load
from ..physics.manifold_drill import WRONG, Move, made_moves
from ..physics.signal import (
    FAILURE_HIGH,
    FAILURE_LOW,
    MEASURING,
    current_band,
    fraction_of_current,
    signal_current,
    signal_pressure,
)
from ..physics.transmitter import transmitter_reading
from ..physics.transmitter_range import DIRECT, transmitter_range
from ..physics.transmitter_state import calibrated_transmitter
from ..physics.two_fluid_design import fluid_density_for_scale, surface_share
from ..physics.u_tube import UTube, fluid_surfaces
from ..properties import (
    cold_drum_fluids,
    compressed_water_density,
    saturation_at_pressure,
)
from ..units import kelvin

FOOT, INCH, POUND = 0.3048, 0.0254, 0.45359237  # exact by definition
POUND_PER_CUBIC_FOOT = POUND / FOOT**3
PSI = POUND * STANDARD_GRAVITY / INCH**2
WATER = 1000.0  # density that relative densities refer to
IN = {"psi": PSI, "kPa": 1e3, "Pa": 1.0, "lb/ft2": PSI / 144,
      "mmH2O": WATER * STANDARD_GRAVITY * 1e-3, "inH2O": WATER * STANDARD_GRAVITY * INCH}


def computed_value(row):
    """Return what levelkit makes of a row's inputs, in the row's unit."""
    return QUANTITIES[row.quantity](row.inputs, row.unit)


def _walk(inputs, unit):
    us = "units" in inputs
    rho, length = (POUND_PER_CUBIC_FOOT, FOOT) if us else (1.0, 1.0)
    down, up = ([Column(density * rho, 0.0, height * length) for density, height in inputs[way]]
                for way in ("down", "up"))
    pressure = path_difference(down, up, inputs.get("gravity", STANDARD_GRAVITY))
    per = IN[unit]
    if unit == "inH2O" and us:
        per = 62.4 * POUND_PER_CUBIC_FOOT * STANDARD_GRAVITY * INCH  # the source's water
    return inputs.get("start_kPa", 0.0) + pressure / per


def _lengths(inputs, *names):
    for name in names:
        for unit, size in (("ft", FOOT), ("in", INCH), ("mm", 1e-3)):
            if f"{name}_{unit}" in inputs:
                yield inputs[f"{name}_{unit}"] * size


def _lb_densities(inputs):
    return [inputs[f"{fluid}_lb_ft3"] * POUND_PER_CUBIC_FOOT
            for fluid in ("liquid", "vapour", "leg")]


def _rd_densities(inputs):
    return [inputs[f"{fluid}_rd"] * WATER for fluid in ("liquid", "vapour", "leg")]


def _direct_differential(inputs, unit):
    level, leg = _lengths(inputs, "level", "leg")
    return -reference_differential(level, leg, *_lb_densities(inputs)) / IN[unit]


def _direct_relative(inputs, unit):
    level, leg = _lengths(inputs, "level", "leg")
    return -reference_differential(level, leg, *_rd_densities(inputs)) / IN[unit]


def _direct_current(inputs, unit):
    level, leg, top = _lengths(inputs, "level", "leg", "range")
    densities = _lb_densities(inputs)
    drum = DrumContents(level, 1e5, densities[0], densities[1])
    legs = LegsState(leg, 0.0, densities[2], densities[2], densities[2])
    calibration = transmitter_range(leg, *densities, DIRECT, 0.0, top)
    state = replace(calibrated_transmitter(drum, legs, DIRECT), calibration=calibration)
    return 1e3 * transmitter_reading(state).current


def _range(inputs):
    bottom, top, leg = _lengths(inputs, "bottom", "top", "leg")
    return transmitter_range(leg, *_rd_densities(inputs), DIRECT, bottom, top)


def _value_to_current(inputs, unit):
    return 1e3 * signal_current(
        (inputs["value"] - inputs["lower"]) / (inputs["upper"] - inputs["lower"]))


def _current_to_value(inputs, unit):
    return inputs["lower"] + fraction_of_current(inputs["mA"] / 1e3) * (
        inputs["upper"] - inputs["lower"])


def _offset_level(inputs, unit):
    head = fraction_of_current(inputs["mA"] / 1e3) * inputs["upper_m_water"]
    return head - sum(inputs["offsets_m"])


def _densities(inputs, pressure_key="p_bar_abs", leg_key="t_leg_C"):
    steam = saturation_at_pressure(inputs[pressure_key] * BAR)
    leg = compressed_water_density(steam.pressure, kelvin(inputs[leg_key]))
    return steam.water_density, steam.steam_density, leg


def _drum_differential(inputs, unit):
    return reference_differential(inputs["share"] * inputs["weir_m"], inputs["weir_m"],
                                  *_densities(inputs), inputs["gravity"])


def _uncompensated(inputs, unit):
    if "cold_C" in inputs:
        cold = cold_drum_fluids(kelvin(inputs["cold_C"]), 1e5)
        real = cold.water_density, cold.steam_density, cold.water_density
    else:
        real = _densities(inputs)
    weir = inputs["weir_m"]
    return 100 / weir * indicated_level(inputs["share"] * weir, weir, *real,
                                        *_densities(inputs, "p_cal_bar_abs", "t_cal_C"))


def _transmitter(inputs, level=0.4):
    water, steam, leg = _densities(inputs)
    drum = DrumContents(level, inputs["p_bar_abs"] * BAR, water, steam)
    return calibrated_transmitter(drum, LegsState(0.8, 2.0, leg, leg, leg))


def _fraction(state, **changes):
    return transmitter_reading(replace(state, legs=replace(state.legs, **changes))).fraction


def _leg_warmer(inputs, unit):
    state = _transmitter(inputs)
    warmer = _densities(inputs | {"t_leg_C": inputs["t_leg_C"] + 10})[2]
    return 100 * (_fraction(state, reference_density=warmer) - _fraction(state))


def _leg_lost(inputs, unit):
    state = _transmitter(inputs)
    return (_fraction(state, reference_loss=0.1) - _fraction(state)) * 0.8 / 0.1


def _equalised(inputs, unit):
    state = _transmitter(inputs)
    return 100 * _fraction(state, manifold=replace(state.legs.manifold, equaliser=1.0))


def _fluid_for_scale(inputs, unit):
    share = surface_share(1e-4 * inputs["bore_ratio"], 1e-4)
    return fluid_density_for_scale(1.0, *_densities(inputs), share)


def _sign_leg_heated(inputs, unit):
    given = {"p_bar_abs": 61, "t_leg_C": 50}
    return 1 if _leg_warmer(given, "") > 0 else -1


def _sign_leg_gas(inputs, unit):
    state = _transmitter({"p_bar_abs": 61, "t_leg_C": 50})
    return 1 if _fraction(state, reference_gas=0.05) > _fraction(state) else -1


def _direct_transmitter(share):
    water, steam, leg = _densities({"p_bar_abs": 61, "t_leg_C": 50})
    return calibrated_transmitter(DrumContents(0.8 * share, 61 * BAR, water, steam),
                                  LegsState(0.8, 2.0, leg, leg, leg), DIRECT)


def _sign_broken_wire(inputs, unit):
    state = replace(_direct_transmitter(0.5), loop=LoopState(wire_broken=True))
    return 1 if transmitter_reading(state).error > 0 else -1


def _edge(band, last):
    """Smallest or largest current of a band, found by asking for each microampere."""
    microamperes = [i for i in range(0, 23_000) if current_band(1e-6 * i) == band]
    return 1e-3 * (max(microamperes) if last else min(microamperes))


def _open_u_tube(inputs, unit):
    height = balancing_height(lambda z: path_difference(
        [Column(inputs["rho2"], 0.0, inputs["h2_m"])], [Column(inputs["rho1"], 0.0, z)]))
    return inputs["h2_m"] - height


def _other_fluid(inputs, unit):
    return balancing_height(lambda z: path_difference(
        [Column(inputs["density"], 0.0, inputs["height_m"])], [Column(inputs["other"], 0.0, z)]))


def _unequal_bores(inputs, unit):
    tube = UTube(inputs["bore_1_mm"] / 1e3, inputs["bore_2_mm"] / 1e3, 2.0, 1.0)
    flat = fluid_surfaces(0.0, 5e-5, tube)
    difference = balancing_height(lambda r: path_difference(
        [Column(1000.0, fluid_surfaces(r, 5e-5, tube).reference, -1.0)],
        [Column(1400.0, fluid_surfaces(r, 5e-5, tube).reference,
                fluid_surfaces(r, 5e-5, tube).drum_side),
         Column(1000.0, fluid_surfaces(r, 5e-5, tube).drum_side, -1.0)]))
    return difference + flat.drum_side - flat.reference


def _well(inputs, unit):
    share = surface_share(inputs["tube_mm"] ** 2 * 1e-6, inputs["well_mm"] ** 2 * 1e-6)
    return inputs["reading_mm"] / share


def _wrong_moves(inputs, unit):
    moves = [Move(valve, opening) for valve, opening in inputs["moves"]]
    steps = made_moves(_transmitter({"p_bar_abs": 61, "t_leg_C": 50}), moves)
    return sum(step.verdict == WRONG for step in steps)


def _fluid(inputs, unit):
    fluid = next(f for f in indicating_fluids.FLUIDS if f.name == inputs["name"])
    return indicating_fluids.fluid_density(fluid, kelvin(inputs["t_C"]))


QUANTITIES = {
    "pressure at the end of a walk": _walk,
    "differential at the transmitter, direct connection": _direct_differential,
    "differential at the transmitter, direct connection, relative densities": _direct_relative,
    "current of a calibrated transmitter, direct connection": _direct_current,
    "LRV of a range, relative densities": lambda i, u: _range(i).lower_value / IN[u],
    "URV of a range, relative densities": lambda i, u: _range(i).upper_value / IN[u],
    "span of a range, relative densities": lambda i, u: _range(i).span / IN[u],
    "current for a value in a range": _value_to_current,
    "value in a range for a current": _current_to_value,
    "level from a current, transmitter below an offset pipe": _offset_level,
    "sign of the error with the reference leg heated": _sign_leg_heated,
    "sign of the error with gas in the reference leg": _sign_leg_gas,
    "sign of the error with a broken wire": _sign_broken_wire,
    "current of a transmitter with the high port at the lower tapping":
        lambda i, u: 1e3 * transmitter_reading(_direct_transmitter(i["share"])).current,
    "reference leg less drum side": _drum_differential,
    "uncompensated reading in per cent": _uncompensated,
    "change of reading for a leg 10 K warmer": _leg_warmer,
    "reading for each millimetre of leg lost": _leg_lost,
    "reading with the equaliser open": _equalised,
    "fluid density for a full-size scale": _fluid_for_scale,
    "difference of the free surfaces of two liquids in an open U-tube": _open_u_tube,
    "height of another fluid for the same pressure": _other_fluid,
    "difference of the surfaces of one fluid in limbs of unequal bore": _unequal_bores,
    "true head over the reading of a well manometer": _well,
    "pneumatic signal for a percentage": lambda i, u: 1e-3 * signal_pressure(i["percent"] / 100),
    "largest current of a failure signal, low": lambda i, u: _edge(FAILURE_LOW, True),
    "smallest current of the measuring band": lambda i, u: _edge(MEASURING, False),
    "largest current of the measuring band": lambda i, u: _edge(MEASURING, True),
    "smallest current of a failure signal, high": lambda i, u: _edge(FAILURE_HIGH, False),
    "greatest load of a loop":
        lambda i, u: greatest_load(i["supply_V"], i["minimum_V"], i["mA"] / 1e3),
    "wrong moves in a sequence that takes a wet-leg transmitter out of service": _wrong_moves,
    "density of an indicating fluid": _fluid,
}
