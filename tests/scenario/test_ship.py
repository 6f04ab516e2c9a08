"""The invented ship is sound: mounting, order of levels, presets that mean what they say."""

import pytest

from levelkit.physics.glass import IN_SIGHT, GaugeGlassState, gauge_glass_reading
from levelkit.physics.mounting import mounting_findings
from levelkit.properties import (
    cold_drum_fluids,
    compressed_water_density,
    saturation_temperature,
    steaming_drum_fluids,
)
from levelkit.scenario import load_ship
from levelkit.units import absolute_pressure, celsius, kelvin

SHIP = load_ship()
BOILERS = list(SHIP.boilers.values())
STATES = [pytest.param(boiler, preset, id=f"{boiler.name}, {name}")
          for boiler in BOILERS for name, preset in boiler.presets.items()]


def test_the_ship_is_invented_and_says_so():
    assert SHIP.name == "Vesterlume" and "Invented" in SHIP.note
    assert [b.working_pressure_bar for b in BOILERS] == [7.0, 16.0, 60.0]


@pytest.mark.parametrize("boiler", BOILERS, ids=lambda b: b.name)
def test_every_boiler_passes_the_mounting_check(boiler):
    findings = mounting_findings(boiler.glass.mounting, boiler.drum.topmost_tube,
                                 boiler.levels.normal, boiler.levels.low_alarm,
                                 boiler.levels.high_alarm)
    assert [finding.requirement for finding in findings if not finding.met] == []


@pytest.mark.parametrize("boiler", BOILERS, ids=lambda b: b.name)
def test_parts_lie_where_they_can(boiler):
    drum, levels = boiler.drum, boiler.levels
    assert drum.bottom < drum.topmost_tube < levels.low_trip < levels.low_alarm
    assert levels.low_alarm < levels.normal < levels.high_alarm < drum.crown
    assert boiler.glass.mounting.steam_connection < drum.crown
    assert boiler.legs.chamber_height < drum.crown
    assert drum.crown - drum.bottom == pytest.approx(drum.inside_diameter)


@pytest.mark.parametrize("boiler", BOILERS, ids=lambda b: b.name)
def test_presets_mean_what_they_say(boiler):
    preset, levels = boiler.presets, boiler.levels
    assert preset["cold"].gauge_pressure_bar == 0 and not preset["cold"].steaming
    assert preset["normal"].gauge_pressure_bar == boiler.working_pressure_bar
    assert preset["half_pressure"].gauge_pressure_bar == boiler.working_pressure_bar / 2
    assert 0 < preset["raising_steam"].gauge_pressure_bar < boiler.working_pressure_bar / 2
    assert preset["normal"].level_mm == 1000 * levels.normal
    assert 1000 * levels.low_trip < preset["low_water"].level_mm < 1000 * levels.low_alarm
    assert 1000 * levels.high_alarm < preset["high_water"].level_mm < 1000 * boiler.drum.crown
    assert kelvin(preset["normal"].ambient_celsius) == boiler.ambient_temperature


@pytest.mark.parametrize("boiler, preset", STATES)
def test_every_preset_is_a_state_that_water_can_have(boiler, preset):
    pressure = absolute_pressure(preset.gauge_pressure_bar, SHIP.barometer)
    fluids = (steaming_drum_fluids(pressure) if preset.steaming
              else cold_drum_fluids(kelvin(preset.glass_celsius), pressure))
    if preset.steaming:
        assert preset.glass_celsius < celsius(saturation_temperature(pressure))
    glass = compressed_water_density(pressure, kelvin(preset.glass_celsius))
    result = gauge_glass_reading(GaugeGlassState(
        preset.level_mm / 1000, fluids.water_density, fluids.steam_density, glass,
        boiler.glass.mounting))
    assert result.visibility == IN_SIGHT
    assert result.error <= 0


@pytest.mark.parametrize("boiler", BOILERS, ids=lambda b: b.name)
def test_nobody_can_change_a_loaded_boiler(boiler):
    with pytest.raises(AttributeError):
        boiler.title = "another"
    with pytest.raises(TypeError):
        boiler.presets["normal"] = None
    with pytest.raises(TypeError):
        SHIP.boilers["another"] = boiler


@pytest.mark.parametrize("boiler", BOILERS, ids=lambda b: b.name)
def test_the_drum_has_the_body_of_its_file(boiler):
    drum, shape = boiler.drum, boiler.drum.shape
    assert (2 * shape.radius, shape.length) == (drum.inside_diameter, drum.length)
    assert shape.axis_height + shape.radius == pytest.approx(drum.crown)
    depth = {"flat": 0.0, "elliptical": 0.25, "hemispherical": 0.5}[drum.ends]
    assert shape.half_length == pytest.approx(drum.length / 2 + depth * drum.inside_diameter)
