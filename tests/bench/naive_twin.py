"""The version that everyone writes first: `interact` and a new matplotlib figure per move.

The same picture as the gauge glass panel: drum section, glass, levels, numbers.
"""

import ipywidgets as widgets
import matplotlib.pyplot as plt
import numpy as np

from levelkit.physics.glass import GaugeGlassState, gauge_glass_reading
from levelkit.properties import compressed_water_density, steaming_drum_fluids
from levelkit.scenario import load_ship
from levelkit.units import absolute_pressure


def naive_gauge_glass(name="water_tube"):
    """Show the naive panel of one boiler."""
    boiler = load_ship().boilers[name]
    drum, mounting = boiler.drum, boiler.glass.mounting

    def show(pressure=60.0, level=250.0, glass_temperature=100.0):
        fluids = steaming_drum_fluids(absolute_pressure(pressure))
        glass_water = compressed_water_density(fluids.pressure, glass_temperature + 273.15)
        result = gauge_glass_reading(GaugeGlassState(
            level / 1000, fluids.water_density, fluids.steam_density, glass_water, mounting))
        shown = 1000 * result.indicated_level
        figure, axes = plt.subplots(figsize=(11, 3.6))
        radius = 500 * drum.inside_diameter
        z = np.linspace(-90, 600, 80)
        wall = np.sqrt(np.maximum(radius ** 2 - (z - 1000 * drum.axis_height) ** 2, 0))
        axes.plot(wall, z, color="black", lw=3)
        axes.fill_betweenx(z, 0, wall, where=z <= level, hatch="--", alpha=0.3)
        axes.add_patch(plt.Rectangle((900, 0), 30, 500, fill=False))
        axes.add_patch(plt.Rectangle((900, 0), 30, shown, hatch="--", alpha=0.4))
        for height in (0, 500):
            axes.plot([radius, 900], [height, height], color="black", lw=4)
        levels = boiler.levels
        for y, label in ((1000 * levels.normal, "normal level"), (level, f"drum {level:.1f} mm"),
                         (1000 * levels.high_alarm, "high alarm"),
                         (1000 * levels.low_alarm, "low alarm"),
                         (shown, f"glass {shown:.1f} mm")):
            axes.axhline(y, ls="--", lw=0.8)
            axes.text(980, y, label)
        rows = [("Pressure", f"{pressure:.1f} bar g"), ("Steam", f"{fluids.steam_density:.2f}"),
                ("Drum water", f"{fluids.water_density:.1f}"),
                ("Glass water", f"{glass_water:.1f}"),
                ("True level", f"{level:.1f} mm"), ("Glass shows", f"{shown:.1f} mm")]
        for index, (key, value) in enumerate(rows):
            axes.text(1400, 560 - 60 * index, f"{key}: {value}")
        axes.set_xlim(0, 1900)
        axes.set_ylim(-90, 600)
        plt.show()

    return widgets.interactive(
        show, pressure=widgets.FloatSlider(60.0, min=0, max=100, step=0.5),
        level=widgets.FloatSlider(250.0, min=0, max=500, step=1),
        glass_temperature=widgets.FloatSlider(100.0, min=20, max=250, step=1))
