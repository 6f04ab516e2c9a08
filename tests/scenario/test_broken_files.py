"""A scenario file with a mistake is answered with file, table, key, value, range and unit."""

import tomllib

import pytest

from levelkit.errors import LevelkitError, ScenarioError
from levelkit.scenario import load_ship
from levelkit.scenario.loading import OWN_SHIP

TEXT = OWN_SHIP.read_text(encoding="utf-8")
FIRST = TEXT[:TEXT.index("[boiler.composite]")]  # one boiler is enough


def loaded(tmp_path, text):
    file = tmp_path / "mine.toml"
    file.write_text(text, encoding="utf-8")
    return load_ship(file)


def test_an_own_file_is_read(tmp_path):
    ship = loaded(tmp_path, FIRST.replace('"Vesterlume"', '"Another"'))
    assert ship.name == "Another" and list(ship.boilers) == ["auxiliary"]


CHANGES = [  # old text, new text, what the sentence has to say
    ("[ship]", "[ship", ["mine.toml is not valid TOML", "line", "key = value"]),
    ("barometer_pa = 101325", "barometer_pa = 1.013",
     ["table [ship]", "barometer_pa is 1.013 Pa", "80000 to 120000 Pa", "1.013 bar is 101 325"]),
    ("inside_diameter_m = 1.80", "inside_diameter_m = 1800",
     ["mine.toml, table [boiler.auxiliary.drum]", "inside_diameter_m is 1800 m", "0.3 to 6 m",
      "Give metres"]),
    ("length_m = 3.00", "", ["[boiler.auxiliary.drum]", "the key length_m is missing",
                             "Add length_m = a number from 0.3 to 15 m"]),
    ("length_m = 3.00", "lenght_m = 3.00", ["the key length_m is missing"]),
    ("length_m = 3.00", "length_m = 3.00\nlenght_m = 3.00",
     ["the key lenght_m is unknown", "Did you mean length_m?"]),
    ("length_m = 3.00", "length_m = 3.00\ncolour = 1",
     ["the key colour is unknown", "Take it out"]),
    ("length_m = 3.00", 'length_m = "3 m"', ["length_m is '3 m', which is not a number"]),
    ("length_m = 3.00", "length_m = true", ["length_m is True, which is not a number"]),
    ("length_m = 3.00", "length_m = nan", ["length_m is nan m", "0.3 to 15 m"]),
    ("length_m = 3.00", "length_m = inf", ["length_m is inf m"]),
    ("length_m = 3.00", "length_m = [3.0]", ["length_m is '[3.0]', which is not a number"]),
    ('ends = "flat"', 'ends = "round"',
     ["ends is 'round'", 'the allowed values are "flat", "elliptical", "hemispherical"']),
    ('ends = "flat"', "ends = 3", ["ends is 3"]),
    ('kind = "tubular"', 'kind = ["tubular"]', ["kind is ['tubular']", "Choose one"]),
    ('title = "auxiliary smoke-tube boiler"', "title = 7", ["title is 7, which is no text"]),
    ('title = "auxiliary smoke-tube boiler"', 'title = " "', ["title is ' ', which is no text"]),
    ("working_pressure_bar = 7.0", "working_pressure_bar = 801325",
     ["[boiler.auxiliary]", "working_pressure_bar is 801325 bar gauge", "0.5 to 120 bar gauge"]),
    ("[boiler.auxiliary.legs]", "[boiler.auxiliary.feet]",
     ["the table [boiler.auxiliary.legs] is missing", "Add a line [boiler.auxiliary.legs]"]),
    ("[ship]", "[vessel]", ["the table [ship] is missing"]),
    ("steaming = false, gauge_pressure_bar = 0.0", 'steaming = "no", gauge_pressure_bar = 0.0',
     ["[boiler.auxiliary.presets.cold]", "steaming is 'no'", "true and false"]),
    ("steaming = false, gauge_pressure_bar = 0.0", "steaming = false, gauge_pressure_bar = 2.0",
     ["presets.cold]", "gauge_pressure_bar is 2 bar gauge", "open to the air"]),
    ("cold          =", "chilly =", ["[boiler.auxiliary.presets]", "the preset cold is missing"]),
    # What no single key can tell:
    ("axis_height_m = -0.350", "axis_height_m = 1.200",
     ["[boiler.auxiliary]", "the water connection is 0 m", "0.300 to 2.100 m"]),
    ("axis_height_m = -0.350", "axis_height_m = -0.600",
     ["the steam connection of the glass is 0.4 m", "0.000 to 0.300 m"]),
    ("chamber_height_m = 0.400", "chamber_height_m = 0.700",
     ["the constant-head chamber is 0.7 m", "0.000 to 0.550 m"]),
    ("topmost_tube_m = -0.100", "topmost_tube_m = 0.150",
     ["the topmost tube is 0.15 m", "-1.250 to 0.100 m"]),
    ("topmost_tube_m = -0.100", "topmost_tube_m = 0.000",
     ["the mounting check fails", "above the topmost tube is 0.060 m", "0.150 m (six inches)",
      "common practice, no source"]),
    ("visible_top_m = 0.340", "visible_top_m = 0.250",
     ["the mounting check fails", "middle third", "0.200 m"]),
    ("visible_top_m = 0.340", "visible_top_m = 0.500",
     ["[boiler.auxiliary.glass]", "visible top is 0.5 m", "0.07 to 0.4 m"]),
    ("high_alarm_m = 0.260", "high_alarm_m = 0.350",
     ["the mounting check fails", "high alarm level", "0.060 to 0.340 m"]),
    ("high_alarm_m = 0.260", "high_alarm_m = 0.450", ["the high alarm level is 0.45 m"]),
    ("low_alarm_m = 0.150", "low_alarm_m = 0.090",
     ["[boiler.auxiliary.levels]", "low_alarm_m is 0.09 m", "low_trip_m at 0.1 m"]),
    ("fluid_density_kg_per_m3 = 1435.0", "fluid_density_kg_per_m3 = 900.0",
     ["[boiler.auxiliary.two_fluid]", "fluid_density_kg_per_m3 is 900 kg/m3", "denser"]),
    ("gauge_pressure_bar = 7.0, level_mm = 200", "gauge_pressure_bar = 9.0, level_mm = 200",
     ["presets.normal]", "gauge_pressure_bar is 9 bar gauge", "0 to 7.7 bar gauge"]),
    ("level_mm = 290", "level_mm = 0.29e5", ["presets.high_water]", "level_mm is 29000 mm"]),
    ("glass_c = 95, leg_c = 50 }\nlow", "glass_c = 190, leg_c = 50 }\nlow",
     ["presets.normal]", "glass_c is 190 degC", "0 to 170.4", "no hotter than the steam"]),
]


@pytest.mark.parametrize("old, new, said", CHANGES, ids=[f"{o[:28]} > {n[:28]}"
                                                         for o, n, _ in CHANGES])
def test_mistake_is_named(tmp_path, old, new, said):
    assert FIRST.count(old) >= 1
    with pytest.raises(ScenarioError) as raised:
        loaded(tmp_path, FIRST.replace(old, new, 1))
    text = str(raised.value)
    assert text.startswith("mine.toml")
    assert [part for part in said if part not in text] == [], text


def test_no_boiler_at_all(tmp_path):
    ship = FIRST[FIRST.index("[ship]"):FIRST.index("# ---")]
    with pytest.raises(ScenarioError, match=r"the table \[boiler\] is missing"):
        loaded(tmp_path, ship)
    with pytest.raises(ScenarioError, match=r"there is no boiler. Add a table"):
        loaded(tmp_path, ship + "[boiler]\n")
    with pytest.raises(ScenarioError, match=r"the table \[boiler\] is 3"):
        loaded(tmp_path, "boiler = 3\n" + ship)


def test_every_key_is_needed(tmp_path):
    """Taking out any one line with a key is noticed: no default hides a slip."""
    lines = FIRST.splitlines()
    for number, line in enumerate(lines):
        if "=" not in line or line.startswith("#"):
            continue
        without = "\n".join(lines[:number] + lines[number + 1:])
        tomllib.loads(without)
        with pytest.raises(ScenarioError, match="missing"):
            loaded(tmp_path, without)


def test_a_file_that_cannot_be_read(tmp_path):
    with pytest.raises(ScenarioError, match="nowhere.toml cannot be read.*Check the name"):
        load_ship(tmp_path / "nowhere.toml")
    (tmp_path / "latin.toml").write_bytes("title = \"Z\u00e4hler\"".encode("latin-1"))
    with pytest.raises(ScenarioError, match="latin.toml is not text in UTF-8"):
        load_ship(tmp_path / "latin.toml")
    with pytest.raises(LevelkitError):
        load_ship(tmp_path)
