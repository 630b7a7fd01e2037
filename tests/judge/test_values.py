from __future__ import annotations

from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sizewright.judge.values import ReadingError, read_value

D, F = Decimal, Fraction

# (typed, unit of the line, unit of its column, value). 1 in = 25.4 mm exactly (BIPM, SI brochure; NIST SP 811 B.6);
# the forms are common practice, no source.
VALUES = [
    ("25.01", "mm", "", D("25.01")),
    ("25,01", "mm", "", D("25.01")),
    ("  25.010 ", "mm", "mm", D("25.010")),
    ("12.", "mm", "", D("12")),
    (".5", "mm", "", D("0.5")),
    ("O.5", "mm", "", D("0.5")),
    ("-0.02", "mm", "", D("-0.02")),
    ("−0,02", "mm", "", D("-0.02")),
    ("２５.０１", "mm", "", D("25.01")),
    ("Ø25.01", "mm", "", D("25.01")),
    ("2.5e1", "mm", "", D("25")),
    ("1e-05", "mm", "", D("0.00001")),
    ("25.01mm", "mm", "", D("25.01")),
    ("25.01 mm.", "mm", "", D("25.01")),
    (".9843 in", "mm", "", D("25.00122")),
    ('.9843"', "mm", "", D("25.00122")),
    (".9843''", "mm", "", D("25.00122")),
    ("0.9843 inch", "mm", "mm", D("25.00122")),
    ("0.9843", "mm", "in", D("25.00122")),
    ("12 µm", "mm", "", D("0.012")),
    ("12 μm", "mm", "", D("0.012")),
    ("12", "mm", "µm", D("0.012")),
    ("2.5 cm", "mm", "", D("25")),
    ("0.4 mil", "mm", "", D("0.01016")),
    ("0.4 thou", "inch", "", D("0.0004")),
    ("25.4 mm", "inch", "", D("1")),
    ("25.01 mm", "inch", "inch", F(2501, 2540)),
    ("400 µin", "inch", "", D("0.0004")),
    ("32 µin", "um", "", D("0.8128")),
    ("0,8", "um", "µm", D("0.8")),
    ("1 1/2", "inch", "", D("1.5")),
    ("1-1/2", "inch", "", D("1.5")),
    ("1½", "inch", "", D("1.5")),
    ('1-1/2"', "inch", "", D("1.5")),
    ("3/8", "inch", "", D("0.375")),
    ("3⁄8", "inch", "", D("0.375")),
    ("1/3", "inch", "", F(1, 3)),
    ("1' 2 1/2\"", "inch", "", D("14.5")),
    ("2 ft", "inch", "", D("24")),
    ("30.25", "deg", "deg", F(121, 4)),
    ("30,25°", "deg", "", F(121, 4)),
    ("3.025e1°", "deg", "", F(121, 4)),
    ("30°15'", "deg", "", F(121, 4)),
    ("30° 15′ 30″", "deg", "°", F(3631, 120)),
    ("30 deg 15 min", "deg", "", F(121, 4)),
    ("-0°15'", "deg", "", F(-1, 4)),
    ("15'", "deg", "", F(1, 4)),
    ("15.5'", "deg", "", F(31, 120)),
    ("1:10", "ratio", "", D("0.1")),
    ("58 HRC", "HRC", "", D("58")),
]


@pytest.mark.parametrize(("typed", "unit", "column", "value"), VALUES)
def test_a_value_reads_exactly(typed: str, unit: str, column: str, value: Decimal | Fraction) -> None:
    found = read_value(typed, unit, column)
    assert found.value == value
    assert found.answer is None
    assert isinstance(found.value, Fraction if unit == "deg" else type(value))


@pytest.mark.parametrize("typed", ["accept", "Accepted", "OK", "go", "GO", "pass", "Passed", "good"])
def test_a_gauge_accepts(typed: str) -> None:
    assert read_value(typed, "mm").answer == "accept"


@pytest.mark.parametrize("typed", ["reject", "no-go", "NO GO", "nogo", "Fail", "failed", "N.G.", "not ok"])
def test_a_gauge_rejects(typed: str) -> None:
    assert read_value(typed, "mm").answer == "reject"


# (typed, unit of the line, unit of its column, a part of the reason)
REFUSED = [
    ("", "mm", "", "no value"),
    ("abc", "mm", "", "neither a number"),
    ("1,234.5", "mm", "", "two sorts of marks"),
    ("1.234,5", "mm", "", "two sorts of marks"),
    ("1.2.3", "mm", "", "two sorts of marks"),
    ("25.01 25.02", "mm", "", "more than one number"),
    ("2 5.01", "mm", "", "more than one number"),
    ("30°", "mm", "", "an angle"),
    ("30°15'", "mm", "", "an angle"),
    ("30.1 mm", "deg", "", "no unit of angles"),
    ("30.1", "deg", "mm", "no unit of angles"),
    ("abc", "deg", "", "neither an angle such as 30.25"),
    ("30 parsec", "deg", "", "neither an angle such as 30.25"),
    ("30°75'", "deg", "", "59 is the most"),
    ("30.5°15'", "deg", "", "only the last part"),
    ("12 parsec", "mm", "", "parsec is no unit"),
    ("12", "mm", "parsec", "parsec is no unit"),
    ("58 mm", "HRC", "", "a length where"),
    ("1/0", "inch", "", "no fraction"),
    ("1e99", "mm", "", "beyond anything"),
    ("9" * 40, "mm", "", "digits"),
    ("9" * 100, "mm", "", "too many"),
    ("25\x1b[2J", "mm", "", "control character"),
    ("٢٥", "mm", "", "neither a number"),
    ("²⁵", "mm", "", "neither a number"),
    ("NaN", "mm", "", "neither a number"),
    ("inf", "mm", "", "neither a number"),
    ("#DIV/0!", "mm", "", "neither a number"),
]


@pytest.mark.parametrize(("typed", "unit", "column", "reason"), REFUSED)
def test_what_does_not_read_says_why(typed: str, unit: str, column: str, reason: str) -> None:
    with pytest.raises(ReadingError) as refused:
        read_value(typed, unit, column)
    assert reason in str(refused.value)


@given(st.text(max_size=80), st.sampled_from(["mm", "inch", "um", "deg", "ratio", "HRC", "none"]), st.text(max_size=8))
def test_anything_typed_reads_or_is_refused(typed: str, unit: str, column: str) -> None:
    try:
        found = read_value(typed, unit, column)
    except ReadingError:
        return
    assert (found.value is None) != (found.answer is None)


@given(st.decimals(-1000, 1000, places=5))
def test_millimetres_to_inches_and_back_lose_nothing(value: Decimal) -> None:
    in_inches = read_value(f"{value} mm", "inch").value
    assert in_inches is not None
    assert F(in_inches) * F(254, 10) == F(value)
