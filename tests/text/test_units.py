"""Sizes as people write them: what is read, what is refused and how, and the factor table against pint."""

import subprocess
import sys
from fractions import Fraction
from typing import Any

import pytest

from fasten.errors import FastenError
from fasten.text import units
from fasten.text.units import Dimension, Gauge, Quantity, read, read_any

LENGTH, MASS, TORQUE, FORCE = Dimension.LENGTH, Dimension.MASS, Dimension.TORQUE, Dimension.FORCE
AREA, CURRENT, TEMPERATURE = Dimension.AREA, Dimension.CURRENT, Dimension.TEMPERATURE

# Expected values by hand from the definitions: 1 in = 25.4 mm, 1 lb = 0.45359237 kg, 1 lbf = 4.4482216152605 N.
READ = [
    ("0.8 mm", LENGTH, 0.8),
    ("0.8mm", LENGTH, 0.8),
    (".8 mm", LENGTH, 0.8),
    ("0,8 mm", LENGTH, 0.8),
    (",8 mm", LENGTH, 0.8),
    ("0,125 in", LENGTH, 3.175),  # no thousands group begins with a zero
    ("1234,567 mm", LENGTH, 1234.567),
    ("1.125 in", LENGTH, 28.575),
    ("+5 mm", LENGTH, 5.0),
    ("  5 mm ", LENGTH, 5.0),
    ("5 MM", LENGTH, 5.0),
    ("165mm", LENGTH, 165.0),
    ("1 m", LENGTH, 1000.0),
    ("10 cm", LENGTH, 100.0),
    ("0.8\u00a0mm", LENGTH, 0.8),
    ("0.8\u202fmm", LENGTH, 0.8),
    ("0.8\u2009mm", LENGTH, 0.8),
    ('1/4"', LENGTH, 6.35),
    ("1/4″", LENGTH, 6.35),
    ("1/4''", LENGTH, 6.35),
    ("1/4in", LENGTH, 6.35),
    ("1/4 in", LENGTH, 6.35),
    ("1/4 In.", LENGTH, 6.35),
    ("1/4-inch", LENGTH, 6.35),
    ("1⁄4 in", LENGTH, 6.35),
    ("1 1/2 in", LENGTH, 38.1),
    ("1-1/2 in", LENGTH, 38.1),
    ("1-1/2", LENGTH, 38.1),
    ('½"', LENGTH, 12.7),
    ("½″", LENGTH, 12.7),
    ('1½"', LENGTH, 38.1),
    ("⅜ in", LENGTH, 9.525),
    ("9/64", LENGTH, 3.571875),
    ("1/2 mm", LENGTH, 0.5),
    ("6'", LENGTH, 1828.8),
    ("30 thou", LENGTH, 0.762),
    ("30 mil", LENGTH, 0.762),
    ("25 µm", LENGTH, 0.025),
    ("25 μm", LENGTH, 0.025),
    ("6 kg", MASS, 6.0),
    ("6 KG", MASS, 6.0),
    ("500 g", MASS, 0.5),
    ("13 lb", MASS, 5.89670081),
    ("13 lbs", MASS, 5.89670081),
    ("8 oz", MASS, 0.226796185),
    ("2.5 N·m", TORQUE, 2.5),
    ("2.5 Nm", TORQUE, 2.5),
    ("2.5 N m", TORQUE, 2.5),
    ("2.5 N*m", TORQUE, 2.5),
    ("2.5 N-m", TORQUE, 2.5),
    ("2,5 nm", TORQUE, 2.5),
    ("75 in-lb", TORQUE, 8.4738621770712525),
    ("75 inlb", TORQUE, 8.4738621770712525),
    ("75 in·lbf", TORQUE, 8.4738621770712525),
    ("75 in lb", TORQUE, 8.4738621770712525),
    ("75 in.-lbs.", TORQUE, 8.4738621770712525),
    ("75 lbf-in", TORQUE, 8.4738621770712525),
    ("75 inch pounds", TORQUE, 8.4738621770712525),
    ("10 ft-lb", TORQUE, 13.558179483314004),
    ("10 lb-ft", TORQUE, 13.558179483314004),
    ("250 cN·m", TORQUE, 2.5),
    ("20 N", FORCE, 20.0),
    ("1 kN", FORCE, 1000.0),
    ("10 lbf", FORCE, 44.482216152605),
    ("50 mm2", AREA, 50.0),
    ("50 mm²", AREA, 50.0),
    ("50 mm^2", AREA, 50.0),
    ("50 sq mm", AREA, 50.0),
    ("200 A", CURRENT, 200.0),
    ("200 amps", CURRENT, 200.0),
    ("60 °C", TEMPERATURE, 60.0),
    ("60 C", TEMPERATURE, 60.0),
    ("60℃", TEMPERATURE, 60.0),
    ("140 F", TEMPERATURE, 60.0),
    ("-40 °F", TEMPERATURE, -40.0),
    ("−20 °C", TEMPERATURE, -20.0),
    ("0 °C", TEMPERATURE, 0.0),
    ("333.15 K", TEMPERATURE, 60.0),
]


@pytest.mark.parametrize(("text", "dimension", "value"), READ)
def test_a_size_as_people_write_it_is_read(text: str, dimension: Dimension, value: float) -> None:
    assert read(text, dimension, "size") == pytest.approx(value, rel=1e-15)


@pytest.mark.parametrize(("text", "dimension", "value"), READ)
def test_the_dimension_is_found_where_none_is_wanted(text: str, dimension: Dimension, value: float) -> None:
    found = read_any(text)
    assert isinstance(found, Quantity)
    assert found.dimension is dimension
    assert found.value == pytest.approx(value, rel=1e-15)


@pytest.mark.parametrize(
    ("text", "unit"), [("1/4 Inch", "in"), ("9/64", "in"), ("5 MM", "mm"), ("75 inlbs", "in·lbf"), ("50 mm2", "mm²")]
)
def test_a_quantity_keeps_the_unit_it_was_written_in(text: str, unit: str) -> None:
    found = read_any(text)
    assert isinstance(found, Quantity)
    assert found.unit == unit


@pytest.mark.parametrize(
    ("text", "gauge"),
    [
        ("20 ga", Gauge(20, None)),
        ("20ga", Gauge(20, None)),
        ("20 GA.", Gauge(20, None)),
        ("20 gauge", Gauge(20, None)),
        ("20-gage", Gauge(20, None)),
        ("20 gauge steel", Gauge(20, "steel")),
        ("steel 20 ga", Gauge(20, "steel")),
        ("mild steel, 20 ga", Gauge(20, "steel")),
        ("20 ga sheet steel", Gauge(20, "steel")),
        ("20 ga galvanized", Gauge(20, "galvanised_steel")),
        ("20 ga galvanised steel", Gauge(20, "galvanised_steel")),
        ("22 ga aluminium", Gauge(22, "aluminium")),
        ("22 ga aluminum", Gauge(22, "aluminium")),
        ("22 ga alu", Gauge(22, "aluminium")),
        ("16 ga stainless", Gauge(16, "stainless_steel")),
        ("stainless 16 ga steel", Gauge(16, "stainless_steel")),
    ],
)
def test_a_gauge_is_read_with_its_metal(text: str, gauge: Gauge) -> None:
    assert read_any(text) == gauge


@pytest.mark.parametrize("text", ["20 ga brass", "20 ga steel steel", "aluminium 20 ga steel"])
def test_a_gauge_of_no_known_metal_is_refused_naming_the_metals(text: str) -> None:
    with pytest.raises(FastenError, match="write steel, galvanised, stainless or aluminium"):
        read_any(text)


def test_a_gauge_is_no_length_by_itself() -> None:
    with pytest.raises(FastenError, match="needs its metal and is a sheet thickness; write 20 ga steel where a sheet"):
        read("20 ga", LENGTH, "screw length")
    with pytest.raises(FastenError, match="20 ga is a sheet gauge, wanted a mass; write 6 kg"):
        read("20 ga", MASS, "mass")


REFUSED = [
    ("6 kg", "6 kg is a mass, wanted a length; write 0.8 mm"),
    ("5.5", "5.5 has no unit; write 5.5 mm or 5.5 in"),
    ("1,000 mm", "1,000 mm has a comma before three digits, .*; write 1000 mm or 1.000 mm"),
    ("1,000,000 mm", "comma before three digits, .*; write 1000000 mm$"),
    ("1,234.5 mm", "comma before three digits, .*; write 1234.5 mm$"),
    ("-5 mm", "-5 mm is negative, and a length is not; write 0.8 mm"),
    ("0 mm", "0 mm is zero, and a length must be above zero here; write 0.8 mm"),
    ("nan mm", "nan mm is not a number and one unit"),
    ("inf mm", "inf mm is not a number and one unit"),
    ("NaN", "NaN is not a number and one unit"),
    ("1e999", "has an exponent"),
    ("1e3 mm", "has an exponent"),
    ("-1.5E-3 mm", "has an exponent"),
    ("2*3 mm", "has no known unit"),
    ("2**9 mm", "has no known unit"),
    ("2+3 mm", "has no known unit"),
    ("__import__('os')", "is not a number and one unit"),
    ("5 __import__", "has no known unit"),
    ("5 lambda", "has no known unit"),
    ("21 m", "21 m is above 20000 mm, the most a length may be"),
    ("1 parsec", "is above 20000 mm"),
    ("0.5 µm", "0.5 µm is below 0.001 mm, the least a length may be"),
    ("1/0", "1/0 divides by zero"),
    ("1/0 in", "divides by zero"),
    ("1/2/3 in", "is not a number and one unit"),
    ("1/2/3", "is not a number and one unit"),
    ("1.5/2 in", "is not a number and one unit"),
    ("1 3/2 in", "fraction that is not below one"),
    ("8/32", "not an inch fraction in lowest terms; write 8/32 in"),
    ("10/24", "not an inch fraction in lowest terms"),
    ("1/4-20", "has no known unit"),
    ("M6", "is not a number and one unit"),
    ("#8", "is not a number and one unit"),
    ("mm", "is not a number and one unit"),
    ("1 000 mm", "is not a number and one unit"),
    ("1.2.3 mm", "is not a number and one unit"),
    ("5 m m", "has no known unit: m m"),
    ("5 mm 3", "has no known unit: mm 3"),
    ("5 furlongz", "no known unit: furlongz; write a length in mm, cm, m, in, ft, thou, µm"),
    ("", "nothing is written; write 0.8 mm"),
    ("   ", "nothing is written"),
    ("\u00a0", "nothing is written"),
    ("\t5 mm", r"\\t5 mm holds a control or hidden character"),
    ("5\x1b[31m mm", r"5\\x1b\[31m mm holds a control"),
    ("5\u200b mm", r"5\\u200b mm holds a control or hidden"),
    ("5 mm\ud800", r"5 mm\\ud800 holds a control"),
    ("٣ mm", "is not a number and one unit"),
    ("５ mm", "is not a number and one unit"),
    ("5² mm", "has no known unit"),
]


@pytest.mark.parametrize(("text", "sentence"), REFUSED)
def test_what_is_no_length_is_refused_with_one_line_naming_the_field(text: str, sentence: str) -> None:
    with pytest.raises(FastenError, match=sentence) as caught:
        read(text, LENGTH, "thickness")
    message = str(caught.value)
    assert message.startswith("thickness: ")
    assert message.isprintable()
    assert len(message) < 240
    assert caught.value.fix


@pytest.mark.parametrize(
    ("text", "dimension", "sentence"),
    [
        ("2.5", TORQUE, "write 2.5 N·m"),
        ("9/64", MASS, "9/64 has no unit; write 9/64 kg"),
        ("5 J", TORQUE, "has no known unit: J; write a torque in N·m"),
        ("20 lb", FORCE, "20 lb is a mass, wanted a force; write 20 N"),
        ("2001 kg", MASS, "above 2000 kg"),
        ("1001 N·m", TORQUE, "above 1000 N·m"),
        ("2 K", TEMPERATURE, "2 K is below -100 °C"),
        ("2000 C", TEMPERATURE, "above 1000 °C"),
        ("500 V", CURRENT, "has no known unit"),
    ],
)
def test_other_dimensions_are_refused_in_their_own_words(text: str, dimension: Dimension, sentence: str) -> None:
    with pytest.raises(FastenError, match=sentence):
        read(text, dimension, "field")


@pytest.mark.parametrize("text", ["0 mm", "0 in", "0/4 in", "-0 mm"])
def test_zero_is_read_only_where_it_is_allowed(text: str) -> None:
    assert read(text, LENGTH, "gap", allow_zero=True) == 0.0
    with pytest.raises(FastenError, match="is zero"):
        read(text, LENGTH, "gap")


@pytest.mark.parametrize("filler", ["x", "9", " ", "1/", "\x00", "ga ", "é"])
def test_a_very_long_text_is_refused_shortly(filler: str) -> None:
    with pytest.raises(FastenError, match="characters long") as caught:
        read(filler * 100_000, LENGTH, "thickness")
    assert len(str(caught.value)) < 160


def test_a_size_is_written_shortly_with_its_canonical_unit() -> None:
    written = [units.write(0.8, LENGTH), units.write(6.0, MASS), units.write(2.5, TORQUE), units.write(100.0, LENGTH)]
    assert written == ["0.8 mm", "6 kg", "2.5 N·m", "100 mm"]
    assert units.write(3.571875, LENGTH, digits=2) == "3.57 mm"
    assert units.write(-20.0, TEMPERATURE) == "-20 °C"


def test_a_tiny_size_is_never_written_as_nothing() -> None:
    assert units.write(0.00003, MASS) == "0.00003 kg"
    assert units.write(0.0, MASS) == "0 kg"


@pytest.mark.parametrize(
    ("value", "digits", "text"),
    [
        (1.50, 3, "1.5"),
        (-0.0001, 2, "0"),
        (-0.0, 0, "0"),
        (100.0, 0, "100"),
        (1e22, 2, "1" + "0" * 22),
        (-1.5, 1, "-1.5"),
    ],
)
def test_a_number_is_plain_text(value: float, digits: int, text: str) -> None:
    assert units.number(value, digits) == text


@pytest.mark.parametrize("value", [float("nan"), float("inf"), float("-inf")])
def test_what_is_not_finite_is_not_written(value: float) -> None:
    with pytest.raises(ValueError, match="must be finite"):
        units.write(value, LENGTH)


def test_millimetres_are_shown_as_decimal_inches() -> None:
    assert units.write_inches(0.76) == "0.0299 in"  # 0.76 / 25.4 = 0.02992
    assert units.write_inches(25.4) == "1 in"


def test_torque_converts_both_ways() -> None:
    # NIST SP 811, appendix B.8: 1 lbf·in = 1.129848 E-01 N·m, to its seven figures (from memory).
    assert units.inlbf_to_nm(1.0) == pytest.approx(0.1129848, abs=5e-8)
    assert units.nm_to_inlbf(units.inlbf_to_nm(75.0)) == pytest.approx(75.0, rel=1e-15)


PINT_NAMES = {
    "thou": "thou",
    "N·m": "newton * meter",
    "cN·m": "centinewton * meter",
    "in·lbf": "inch * force_pound",
    "ft·lbf": "foot * force_pound",
    "in·ozf": "inch * force_ounce",
    "kgf·cm": "force_kilogram * centimeter",
    "kgf·m": "force_kilogram * meter",
    "lbf": "force_pound",
    "kgf": "force_kilogram",
    "mm²": "millimeter ** 2",
    "cm²": "centimeter ** 2",
    "in²": "inch ** 2",
    "°C": "degree_Celsius",
    "°F": "degree_Fahrenheit",
    "K": "kelvin",
}


@pytest.fixture(scope="module")
def exact() -> Any:
    """A pint registry that computes in fractions, so that the table can be compared without any tolerance."""
    import pint  # by whoever asks, not by every process that collects

    return pint.UnitRegistry(non_int_type=Fraction)


@pytest.mark.slow
@pytest.mark.parametrize("unit", units.UNITS, ids=lambda unit: unit.name)
@pytest.mark.parametrize("size", [Fraction(0), Fraction(1), Fraction(37, 64)])
def test_the_factor_table_agrees_exactly_with_pint(exact: Any, unit: units.Unit, size: Fraction) -> None:
    quantity = exact.Quantity(size, PINT_NAMES.get(unit.name, unit.name))
    expected = quantity.m_as(PINT_NAMES.get(unit.dimension.unit, unit.dimension.unit))
    assert size * Fraction(unit.factor) + Fraction(unit.offset) == expected


def test_no_spelling_belongs_to_two_units_and_every_dimension_has_its_canonical_one() -> None:
    spellings = [spelling for unit in units.UNITS for spelling in set(unit.spellings.split())]
    assert len(spellings) == len(set(spellings))
    canonical = {(u.dimension, u.name) for u in units.UNITS if (u.factor, u.offset) == ("1", "0")}
    assert canonical == {(dimension, dimension.unit) for dimension in Dimension}


@pytest.mark.parametrize("dimension", Dimension)
def test_every_example_in_a_message_can_be_read(dimension: Dimension) -> None:
    value = read(dimension.example, dimension, "example")
    assert units.write(value, dimension) == dimension.example


@pytest.mark.parametrize(
    ("text", "dimension", "value"),
    [
        ("3 yd", LENGTH, 2743.2),
        ("5 dm", LENGTH, 500.0),
        ("1 stone", MASS, 6.35029318),  # 14 lb
        ("500 mA", CURRENT, 0.5),
        ("1 kip", FORCE, 4448.2216152605),
        ("599.67 rankine", TEMPERATURE, 60.0),  # 140 °F
    ],
)
def test_a_plain_word_outside_the_table_is_converted(text: str, dimension: Dimension, value: float) -> None:
    assert read(text, dimension, "size") == pytest.approx(value, rel=1e-12)


def test_text_that_is_not_a_plain_word_never_reaches_pint(monkeypatch: pytest.MonkeyPatch) -> None:
    words: list[str] = []

    def recorded(value: float, word: str, unit: str) -> float:
        words.append(word)
        raise ValueError(f"{value} {word} in {unit}")

    monkeypatch.setattr(units, "_pint_converter", lambda: recorded)
    for text in ["5 m**2", "5 mm*3", "5 2 mm", "5 os.system", "5 a_b", "5 f(x)", "5 µ²", "5 th", "5 q"]:
        with pytest.raises(FastenError):
            read(text, LENGTH, "size")
    assert words == []
    with pytest.raises(FastenError):
        read("5 furlongz", LENGTH, "size")
    assert set(words) == {"furlongz"}


def test_reading_every_unit_of_the_table_loads_neither_pint_nor_slow_modules() -> None:
    script = (
        "import sys\n"
        "from fasten.text import units\n"
        "from fasten.errors import FastenError\n"
        "for unit in units.UNITS:\n"
        "    for spelling in unit.spellings.split():\n"
        "        size = 300 if unit.name == 'K' else 5\n"
        "        assert units.read_any(f'{size} {spelling}').unit == unit.name, spelling\n"
        "for text in ['20 ga steel', '9/64', '5', '5 i', '']:\n"
        "    try: units.read_any(text)\n"
        "    except FastenError: pass\n"
        "print(sorted({'pint', 'pydantic', 'textual', 'fractions', 'decimal'} & set(sys.modules)))\n"
    )
    done = subprocess.run([sys.executable, "-c", script], capture_output=True, text=True, check=False)
    assert (done.stdout, done.stderr) == ("[]\n", "")
