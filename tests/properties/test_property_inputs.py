"""What the properties say to a value they cannot use, and that shapes are kept."""

import numpy as np
import pytest

from levelkit import properties as water
from levelkit.errors import InputError

BY_PRESSURE = (water.saturation_at_pressure, water.saturation_temperature,
               water.saturation_heat, water.saturation_slopes, water.steaming_drum_fluids)
BY_TEMPERATURE = (water.saturation_at_temperature, water.saturation_pressure,
                  water.surface_tension, water.cold_drum_fluids)
COMPRESSED = (water.compressed_water_density, water.compressed_water_enthalpy,
              water.compressed_water_entropy, water.compressed_water_heat_capacity)
STEAM = (water.steam_density, water.steam_enthalpy)

CALLS = (
    [pytest.param(function, "pressure", id=f"{function.__name__}, pressure")
     for function in BY_PRESSURE]
    + [pytest.param(function, "temperature", id=f"{function.__name__}, temperature")
       for function in BY_TEMPERATURE]
    + [pytest.param(lambda bad, f=f: f(bad, 373.15), "pressure", id=f"{f.__name__}, pressure")
       for f in COMPRESSED]
    + [pytest.param(lambda bad, f=f: f(61e5, bad), "temperature", id=f"{f.__name__}, temperature")
       for f in COMPRESSED + STEAM]
    + [pytest.param(lambda bad, f=f: f(bad, 773.15), "pressure", id=f"{f.__name__}, pressure")
       for f in STEAM]
)
BAD = [
    (float("nan"), "nan"), (float("inf"), "inf"), (-float("inf"), "-inf"), (-1.0, "-1"),
    (1e300, "1e+300"), (10**400, "..."), ("7 bar", "'7 bar'"), (None, "None"), (True, "True"),
    (b"7", "b'7'"), (3 + 0j, "(3+0j)"), ([float("nan"), 373.0], "nan"), ({}, "{}"),
]


@pytest.mark.parametrize("function, quantity", CALLS)
@pytest.mark.parametrize("bad, shown", BAD, ids=[repr(bad)[:12] for bad, _ in BAD])
def test_bad_value_is_answered_with_a_sentence(function, quantity, bad, shown):
    with pytest.raises(InputError) as raised:
        function(bad)
    text = str(raised.value)
    assert quantity in text and shown in text
    assert "the allowed range is" in text
    assert ("Pa" if quantity == "pressure" else "K") in text
    assert text.split(". ")[-1].strip(), "a remedy ends the sentence"
    assert isinstance(raised.value, ValueError)


@pytest.mark.parametrize("function, quantity", CALLS)
@pytest.mark.parametrize("empty", [[], np.array([]), np.empty((0, 3))], ids=["list", "1d", "2d"])
def test_empty_input_is_refused(function, quantity, empty):
    with pytest.raises(InputError, match="empty list; give at least one value"):
        function(empty)


@pytest.mark.parametrize("function", BY_PRESSURE, ids=lambda f: f.__name__)
@pytest.mark.parametrize("bar", [1.0, 7.0, 61.0, 200.0])
def test_bar_given_as_pascal_is_refused_and_the_unit_named(function, bar):
    with pytest.raises(InputError, match=rf"is {bar:g} Pa; the allowed range is 1000 to 2e\+07 "
                                         "Pa.*0.01 to 200 bar absolute.*give pascal"):
        function(bar)


@pytest.mark.parametrize("function", COMPRESSED, ids=lambda f: f.__name__)
def test_bar_given_as_pascal_to_compressed_water(function):
    with pytest.raises(InputError, match=r"is 61 Pa; the allowed range is 1000 to 1e\+08 Pa.*"
                                         "give pascal"):
        function(61.0, 373.15)


@pytest.mark.parametrize("function", (*BY_TEMPERATURE, *(
    lambda t, f=f: f(61e5, t) for f in COMPRESSED + STEAM)))
@pytest.mark.parametrize("celsius", [20.0, 100.0, 170.41])
def test_celsius_given_as_kelvin_is_refused_and_the_unit_named(function, celsius):
    with pytest.raises(InputError, match=rf"is {celsius:g} K; the allowed range is .* K. "
                                         "Give kelvin"):
        function(celsius)


def test_water_that_would_boil_and_steam_that_would_condense():
    with pytest.raises(InputError, match=r"180.00 degC at 8 bar.*0 to 170.41 degC.*boils.*Lower"):
        water.compressed_water_density(8e5, 453.15)
    with pytest.raises(InputError, match=r"160.00 degC at 8 bar.*170.41 to 800 degC.*condenses"):
        water.steam_density(8e5, 433.15)


def test_one_bad_value_in_an_array_is_found_and_counted():
    with pytest.raises(InputError, match=r"is 7 Pa;.*\(2 of 4 values are outside\)"):
        water.saturation_temperature([1e5, 7.0, 8e5, 61.0])


@pytest.mark.parametrize("shape", [(), (1,), (5,), (2, 3), (2, 1, 4)])
def test_saturation_keeps_the_shape(shape):
    pressure = np.full(shape, 8e5) if shape else 8e5
    for function in BY_PRESSURE:
        result = function(pressure)
        values = ([result] if not hasattr(result, "__slots__")
                  else [getattr(result, name) for name in result.__slots__])
        for value in values:
            if isinstance(value, bool):
                continue
            assert np.shape(value) == shape
            assert shape or isinstance(value, float)


@pytest.mark.parametrize("pressure, temperature, shape", [
    (8e5, 373.15, ()), ([8e5, 9e5], 373.15, (2,)), (8e5, [[350.0], [373.15]], (2, 1)),
    ([8e5, 9e5, 61e5], [[350.0], [373.15]], (2, 3)),
])
def test_compressed_water_broadcasts(pressure, temperature, shape):
    for function in COMPRESSED:
        value = function(pressure, temperature)
        assert np.shape(value) == shape
        assert shape or isinstance(value, float)


def test_array_and_scalar_give_the_same_numbers():
    pressures = np.geomspace(1e3, 2e7, 37)
    many = water.saturation_at_pressure(pressures)
    one = [water.saturation_at_pressure(float(p)) for p in pressures]
    assert np.array_equal(many.water_density, [state.water_density for state in one])
    assert np.array_equal(many.steam_density, [state.steam_density for state in one])


@pytest.mark.parametrize("density, temperature, wavelength, word", [
    (2000.0, 298.15, 589e-9, "density is 2000 kg/m3; the allowed range is 0 to 1060"),
    (998.0, 25.0, 589e-9, "temperature is 25 K.*Give kelvin"),
    (998.0, 298.15, 589.3, "wavelength is 589.3 m.*Give metres"),
])
def test_refractive_index_refuses_with_a_sentence(density, temperature, wavelength, word):
    with pytest.raises(InputError, match=word):
        water.refractive_index(density, temperature, wavelength)
