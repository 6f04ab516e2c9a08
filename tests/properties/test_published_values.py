"""Our own functions beside every published, printed or independently computed value of water."""

from dataclasses import replace

import CoolProp.CoolProp as reference
import pytest
from outside import outside_values

from levelkit.check.values import check_values
from levelkit.check.water import computed_value
from levelkit.properties import refractive_index

WATER = outside_values("water properties", "saturation and leg densities", "gauge glass")


@pytest.mark.parametrize("row", WATER)
def test_value_agrees_with_its_source(row):
    assert computed_value(row) == pytest.approx(row.expected, rel=0, abs=row.allowed)


@pytest.mark.parametrize("name", ["IF97-r1-300K-3MPa-v", "IF97-r2-300K-0.0035MPa-h",
                                  "IF97-psat-500K", "BOOK-SAT-60bar-v'", "IAPWS-sigma-100C"])
def test_a_value_that_is_one_percent_wrong_is_refused(name):
    row = check_values()[name]
    assert row.agrees(computed_value(row))
    assert not replace(row, expected=1.01 * row.expected).agrees(computed_value(row))


@pytest.mark.parametrize("row", outside_values("water properties"))
def test_only_the_old_steam_table_is_from_memory(row):
    assert (row.source == "STEAM-TABLES-SI") == (row.known == "from memory")


@pytest.mark.parametrize("row", [item for item in WATER
                                 if item.values[0].id.startswith("IAPWS-n-")])
def test_refractive_index_is_exact_once_the_density_is_that_of_its_table(row):
    """R9-97 tabulates with IAPWS-95 densities; with those the index agrees to the last digit."""
    pressure, temperature = row.inputs["p_MPa"] * 1e6, row.inputs["T_K"]
    # CoolProp begins at the melting line, 3 mK above the coldest rows; the density hardly differs.
    density = reference.PropsSI("Dmass", "P", pressure, "T", max(temperature, 273.16), "Water")
    index = refractive_index(density, temperature, row.inputs["lambda_um"] * 1e-6)
    assert index == pytest.approx(row.expected, rel=0, abs=1.05e-6)
