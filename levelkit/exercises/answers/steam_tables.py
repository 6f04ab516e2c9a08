"""Gauge and absolute pressure, and what the steam table says for it."""

from ...physics.columns import Column, balancing_height, path_difference
from ...properties import saturation_at_pressure


def gauge_to_table(work, gauge_pressure, barometer):
    """Absolute pressure, then temperature and densities from the table."""
    pressure = work.step("pressure", gauge_pressure + barometer)
    state = saturation_at_pressure(pressure)
    wrong = saturation_at_pressure(gauge_pressure)
    work.step("temperature", state.temperature)
    water = work.step("water", state.water_density)
    steam = work.step("steam", state.steam_density)
    work.step("ratio", water / steam)
    work.slip("gauge_kept", gauge_pressure)
    work.slip("gauge_in_table", wrong.temperature)
    work.slip("water_of_gauge", wrong.water_density)
    work.slip("steam_of_gauge", wrong.steam_density)
    work.slip("cold_water", 1000.0)


def hot_column(work, cold_height, cold_density, water_density):
    """Height of a column of the same weight once it is heated to saturation."""
    height = work.step("height", balancing_height(lambda hot: path_difference(
        [Column(cold_density, 0.0, cold_height)], [Column(water_density, 0.0, hot)])))
    work.step("growth", (height - cold_height) / cold_height)
    work.slip("unchanged", cold_height)
    work.slip("inverted", cold_height * water_density / cold_density)
    work.slip("share_of_hot", (height - cold_height) / height)
