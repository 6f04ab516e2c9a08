"""Direct gauge glass at rest: what it shows, what the drum holds, where the plate goes."""

from ...physics.glass import drum_level, glass_column_height

COLD_WATER = 998.0  # kg/m3: the tap-water density that a hurried person puts everywhere


def reads_low(work, level, water_density, steam_density, glass_density):
    """Glass from drum, and the error."""
    height = work.step("height", glass_column_height(
        level, water_density, steam_density, glass_density))
    work.step("error", height - level)
    work.slip("stands_level", level)
    work.slip("ratio_inverted",
              level * (glass_density - steam_density) / (water_density - steam_density))
    work.slip("cold_glass", glass_column_height(level, water_density, steam_density, COLD_WATER))


def drum_from_glass(work, height, water_density, steam_density, glass_density):
    """Drum from glass, and the share by which the glass under-reads."""
    level = work.step("level", drum_level(height, water_density, steam_density, glass_density))
    work.step("share", (level - height) / level)
    work.slip("ratio_inverted",
              height * (water_density - steam_density) / (glass_density - steam_density))
    work.slip("steam_forgotten", height * glass_density / water_density)
    work.slip("cold_glass", drum_level(height, water_density, steam_density, COLD_WATER))
    work.slip("share_of_glass", (level - height) / height)


def error_grows(work, level, glass_density, water_1, steam_1, water_2, steam_2, water_3, steam_3):
    """The error of one glass at three pressures."""
    for number, water, steam in ((1, water_1, steam_1), (2, water_2, steam_2),
                                 (3, water_3, steam_3)):
        work.step(f"error_{number}",
                  glass_column_height(level, water, steam, glass_density) - level)
    work.slip("steam_forgotten", level * water_3 / glass_density - level)
    work.slip("ratio_inverted",
              level * (glass_density - steam_3) / (water_3 - steam_3) - level)


def from_the_connection(work, shown, visible_end, water_density, steam_density, glass_density):
    """True level above the lower visible end."""
    height = work.step("height", shown + visible_end)
    level = work.step("level", drum_level(height, water_density, steam_density, glass_density))
    work.step("above_end", level - visible_end)
    ratio = (glass_density - steam_density) / (water_density - steam_density)
    work.slip("from_the_nut", shown * ratio)
    work.slip("no_correction", shown)
    work.slip("ratio_inverted", height / ratio - visible_end)


def normal_plate(work, level, water_density, steam_density, glass_density):
    """Where the normal-level plate goes, and what it means when cold."""
    height = work.step("height", glass_column_height(
        level, water_density, steam_density, glass_density))
    work.step("cold_difference", height - level)
    work.slip("stands_level", level)
    work.slip("ratio_inverted",
              level * (glass_density - steam_density) / (water_density - steam_density))
    work.slip("cold_glass", glass_column_height(level, water_density, steam_density, COLD_WATER))


def why_low(work, level, water_density, steam_density, glass_density):
    """The reason in numbers: equal heads, unequal densities."""
    height = work.step("height", glass_column_height(
        level, water_density, steam_density, glass_density))
    work.step("per_cent", (level - height) / level)
    work.slip("share_of_glass", (level - height) / height)
    work.slip("ratio_inverted", level * (glass_density - steam_density)
              / (water_density - steam_density))
    work.slip("stands_level", level)


def glass_temperature(work, height, water_density, steam_density, glass_density, room_density,
                      half_density):
    """Drum level with the density that belongs to the temperature of the glass."""
    level = work.step("level", drum_level(height, water_density, steam_density, glass_density))
    cold = work.step("as_if_cold", drum_level(height, water_density, steam_density, room_density))
    work.step("cost", cold - level)
    work.slip("room", cold)
    work.slip("half_way", drum_level(height, water_density, steam_density, half_density))


def external_column(work, level, water_density, steam_density, column_density, glass_density,
                    lower_tapping):
    """A glass that hangs on an external water column above the drum's connection."""
    column = work.step("column", glass_column_height(level, water_density, steam_density,
                                                     column_density))
    glass = work.step("glass", lower_tapping + glass_column_height(
        column - lower_tapping, column_density, steam_density, glass_density))
    work.step("error", glass - level)
    one = glass_column_height(level, water_density, steam_density, glass_density)
    work.slip("one_datum", one)
    work.slip("stands_level", level)
    work.slip("column_level", column)
