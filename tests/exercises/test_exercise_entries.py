"""What people type: read where it can be read, answered with a sentence where not."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from levelkit.errors import InputError
from levelkit.exercises import example, family, mark
from levelkit.exercises.entries import parse_entry
from levelkit.exercises.family import Step
from levelkit.exercises.quantities import sister_units, unit

HEIGHT = family("glass-reads-low").step("height")
ERROR = family("glass-reads-low").step("error")
PRESSURE = family("gauge-to-table").step("pressure")
RATIO = family("gauge-to-table").step("ratio")


@pytest.mark.parametrize("text, metres", [
    ("186.4", 0.1864), ("186,4 mm", 0.1864), ("186.4mm", 0.1864), ("  186.4   mm ", 0.1864),
    ("0.1864 m", 0.1864), ("18.64 cm", 0.1864), ("1 186.4 mm", 1.1864), ("1'186 mm", 1.186),
    ("h_g = 186.4 mm", 0.1864), ("+186.4 MM", 0.1864), ("\u2212186.4 mm", -0.1864),
    ("- 186.4 mm", -0.1864), ("1.864×10² mm", 0.1864), ("1.864 x 10^2 mm", 0.1864),
    ("1.864e2 mm", 0.1864), ("186\u00a0mm", 0.186), (".5 m", 0.5), ("about 186 mm", 0.186),
    ("186.4 mm.", 0.1864), ("186.4 millimetres", 0.1864), ("\u2013186.4\u202fmm", -0.1864),
])
def test_a_length_is_read(text, metres):
    assert parse_entry(text, HEIGHT).si == pytest.approx(metres, rel=1e-12)


@pytest.mark.parametrize("text, metres, direction", [
    ("low 13.6 mm", -0.0136, -1), ("13.6 mm LOW", -0.0136, -1),
    ("reads low by 13.6 mm", -0.0136, -1),
    ("13.6 mm (low)", -0.0136, -1), ("-13.6", -0.0136, -1), ("low −13.6 mm", -0.0136, -1),
    ("13.6 mm too high", 0.0136, 1), ("+13.6 mm", 0.0136, 1), ("13,6 mm below", -0.0136, -1),
    ("13.6 mm", 0.0136, 0),
])
def test_a_direction_is_read(text, metres, direction):
    entry = parse_entry(text, ERROR)
    assert entry.si == pytest.approx(metres) and entry.direction == direction


@pytest.mark.parametrize("text, pascal, reference", [
    ("8.01 bar abs", 801_000, "absolute"), ("8.01 bara", 801_000, "absolute"),
    ("7.0 bar g", 700_000, "gauge"), ("7 bar(g)", 700_000, "gauge"), ("7 barg", 700_000, "gauge"),
    ("801 kPa", 801_000, ""), ("801 KPA", 801_000, ""), ("0.801 mpa", 801_000, ""),
    ("8010 mbar", 801_000, ""), ("8.01 bar absolute", 801_000, "absolute"),
    ("absolute 8.01 bar", 801_000, "absolute"),
])
def test_a_pressure_is_read(text, pascal, reference):
    entry = parse_entry(text, PRESSURE)
    assert entry.si == pytest.approx(pascal) and entry.reference == reference


@pytest.mark.parametrize("text, part", [
    ("58.0 mbar", "give a value in mm"), ("170 °C", "give a value in mm"),
    ("1e400", "too large"), ("full", "holds no number"), ("12 or 13 mm", "cannot be read here"),
    ("186.4 mmm", "cannot be read here"), ("1.234,5 mm", "not one number"),
    ("12 mm " * 20, "characters"), ("58 12 mm", "cannot be read here"),
    ("186.4 mm; DROP TABLE", "cannot be read here"), ("∞ mm", "holds no number"),
    ("nan", "holds no number"), ("186.4 mm/", "cannot be read here"), ("5 %", "give a value in mm"),
])
def test_a_bad_entry_gets_a_sentence(text, part):
    with pytest.raises(InputError, match=".") as caught:
        parse_entry(text, HEIGHT)
    sentence = str(caught.value)
    assert part in sentence and sentence.endswith(".")


@pytest.mark.parametrize("text", ["low 13.6 mm high", "high -13.6 mm", "low +13.6 mm"])
def test_two_directions_contradict_each_other(text):
    with pytest.raises(InputError, match="contradict"):
        parse_entry(text, ERROR)


@given(st.text(max_size=80))
def test_no_text_whatever_breaks_the_marking_or_is_lost(text):
    one = example("glass-reads-low")
    result = mark(one, {"height": text, "error": text})
    assert result.step("height").entry == text
    assert result.marks == 0 or any(ch.isdigit() for ch in text)
    assert result.step("height").message.endswith((".", "?"))


@given(st.from_regex(r"[-+]?\d{1,4}[.,]\d{1,3} ?(mm|m|bar|%|kg/m3|\^|\*\*9|/0|\(|m\*\*99999)",
                     fullmatch=True))
def test_odd_units_never_break_the_marking(text):
    assert mark(example("glass-reads-low"), {"height": text}).step("height").message


@pytest.mark.parametrize("text, factor", [
    ("mm", 1e-3), ("m", 1.0), ("mbar", 100.0), ("kPa", 1e3), ("%", 0.01), ("mA", 1e-3),
    ("ml", 1e-6), ("mm2", 1e-6), ("kJ/kg", 1e3), ("W/(m K)", 1.0), ("min", 60.0), ("Ω", 1.0),
    ("°", 0.017453292519943295), ("1", 1.0), ("mm/min", 1e-3 / 60), ("kg/m³", 1.0),
])
def test_units_have_their_factor(text, factor):
    """Factors as defined in the SI brochure; the converter is an outside library."""
    assert unit(text).factor == pytest.approx(factor, rel=1e-12)


def test_celsius_has_an_offset_and_angles_are_no_ratios():
    assert unit("degC").to_si(100.0) == pytest.approx(373.15)
    assert unit("deg").dimension != unit("%").dimension
    assert [other.text for other in sister_units(unit("%"))] == ["1"]


def test_a_pure_number_takes_no_length():
    assert parse_entry("215", RATIO).si == 215
    with pytest.raises(InputError, match="a pure number"):
        parse_entry("215 mm", RATIO)


def test_a_share_may_be_typed_in_per_cent():
    step = Step("share", "value", "A1", "share", "?", unit="1", tolerance=0.01)
    assert parse_entry("13.4 %", step).si == pytest.approx(0.134)
