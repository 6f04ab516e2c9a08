"""Every wrong answer that is recognised is what its sentence says, by plain arithmetic."""

import math
import tomllib
from pathlib import Path

import pytest

from levelkit.exercises import example, families
from levelkit.exercises.data import in_si
from levelkit.exercises.variants import variant

HERE = Path(__file__).parent
WORKED = tomllib.loads((HERE / "slips_worked.toml").read_text(encoding="utf-8"))
BY_HAND = tomllib.loads((HERE / "hand_worked.toml").read_text(encoding="utf-8"))["question"]
FROM_THE_STEAM_TABLE = {"gauge-to-table": {"gauge_in_table", "water_of_gauge", "steam_of_gauge"},
                        "ball-check": {"half_lost"}}  # each has a test of its own
MATHS = {name: getattr(math, name) for name in ("sqrt", "tan", "acos", "asin", "pi")}
MATHS |= {"abs": abs, "min": min, "max": max, "g": 9.81, "__builtins__": {}}


def test_no_slip_is_left_unchecked():
    known = {question["family"]: set(question["slips"]) for question in BY_HAND}
    for family_id, family in families().items():
        worked = set(WORKED.get(family_id, ())) | FROM_THE_STEAM_TABLE.get(family_id, set())
        left = {slip.id for slip in family.slips} - known.get(family_id, set()) - worked
        assert not left, (family_id, left)
        assert worked <= {slip.id for slip in family.slips}, family_id


@pytest.mark.parametrize("family_id", sorted(WORKED))
def test_slips_by_plain_arithmetic(family_id):
    questions = [example(family_id), *(variant(family_id, "slips", n) for n in range(5))]
    for one in questions:
        numbers = one.solution.steps | in_si(one.family, one.data)
        for name, line in WORKED[family_id].items():
            assert one.solution.slips[name] == pytest.approx(
                eval(line, MATHS, numbers), rel=1e-9, abs=1e-12), name


def test_gauge_pressure_looked_up_as_absolute():
    """Steam table: at 7 bar absolute 165.0 C, 902.6 and 3.667 kg/m3 (IAPWS R7-97)."""
    one = example("gauge-to-table")
    gauge = in_si(one.family, one.data)["gauge_pressure"]
    assert gauge == pytest.approx(7e5)
    slips = one.solution.slips
    assert slips["gauge_in_table"] == pytest.approx(273.15 + 164.95, abs=0.05)
    assert slips["water_of_gauge"] == pytest.approx(902.6, abs=0.1)
    assert slips["steam_of_gauge"] == pytest.approx(3.667, abs=0.002)
