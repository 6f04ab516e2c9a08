"""Our own functions beside every published, printed or independently computed value of water."""

import csv
import json
from dataclasses import replace

import CoolProp.CoolProp as reference
import pytest
from outside import outside_values

from levelkit.check.values import check_values
from levelkit.check.water import computed_value
from levelkit.properties import refractive_index
from levelkit.resources import shipped_folder

FILE = "check_values_water.csv"
WATER = outside_values(FILE, "water properties", "saturation and leg densities",
                       "gauge glass density error")


@pytest.mark.parametrize("row", WATER)
def test_value_agrees_with_its_source(row):
    assert computed_value(row) == pytest.approx(row.expected, rel=0, abs=row.allowed)


@pytest.mark.parametrize("name", ["IF97-r1-300K-3MPa-v", "IF97-r2-300K-0.0035MPa-h",
                                  "IF97-psat-500K", "BOOK-SAT-60bar-v'", "IAPWS-sigma-100C"])
def test_a_value_that_is_one_percent_wrong_is_refused(name):
    row = check_values(FILE)[name]
    assert row.agrees(computed_value(row))
    assert not replace(row, expected=1.01 * row.expected).agrees(computed_value(row))


@pytest.mark.parametrize("row", outside_values(FILE, "water properties"))
def test_every_row_says_whether_it_was_seen_computed_or_recalled(row):
    assert row.seen_or_memory.split()[0] in {"seen", "computed", "from"}
    assert (row.source == "STEAM-TABLES-SI") == (row.seen_or_memory == "from memory")


def test_every_source_of_a_check_value_is_listed():
    folder = shipped_folder("data")
    with open(folder / "sources.csv", encoding="utf-8", newline="") as file:
        known = {row["id"] for row in csv.DictReader(file)}
    for path in folder.glob("check_values_*.csv"):
        with open(path, encoding="utf-8", newline="") as file:
            rows = list(csv.DictReader(file))
        assert {row["source"] for row in rows} - known == set(), path.name
        assert len({row["id"] for row in rows}) == len(rows), path.name
        for row in rows:
            json.loads(row["inputs"])


@pytest.mark.parametrize("row", [item for item in WATER
                                 if item.values[0].id.startswith("IAPWS-n-")])
def test_refractive_index_is_exact_once_the_density_is_that_of_its_table(row):
    """R9-97 tabulates with IAPWS-95 densities; with those the index agrees to the last digit."""
    pressure, temperature = row.inputs["p_MPa"] * 1e6, row.inputs["T_K"]
    # CoolProp begins at the melting line, 3 mK above the coldest rows; the density hardly differs.
    density = reference.PropsSI("Dmass", "P", pressure, "T", max(temperature, 273.16), "Water")
    index = refractive_index(density, temperature, row.inputs["lambda_um"] * 1e-6)
    assert index == pytest.approx(row.expected, rel=0, abs=1.05e-6)
