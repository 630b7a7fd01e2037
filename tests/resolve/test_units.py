"""Conversion: exact both ways, limits never rounded outward. Values: printed worked examples, and properties."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sizewright.resolve.answer import answer
from sizewright.resolve.characteristic import Limits
from sizewright.resolve.context import Context
from sizewright.resolve.units import convert, inward, places_for

# (unit, lower, upper, other unit, lower, upper, source)
WORKED = [
    ("mm", "10.7", "11.3", "inch", "0.422", "0.444", "Tec-Ease tip 65, 11 ±0.3 mm, inward instead of nearest"),
    ("inch", "1.934", "1.966", "mm", "49.13", "49.93", "ASTM E380 example 1.950 ±.016, from memory; recomputed"),
    ("inch", "0.7495", "0.7500", "mm", "19.0373", "19.05", "computed by hand: 19.0373/19.05 exactly"),
    ("inch", "0.4995", "0.5005", "mm", "12.688", "12.712", "computed by hand: 12.6873/12.7127"),
    ("mm", "25.000", "25.021", "inch", "0.98426", "0.98507", "computed by hand: 0.984251968/0.985078740"),
    ("mm", "24.980", "24.993", "inch", "0.98347", "0.98397", "computed by hand: 0.983464566/0.983976377"),
    ("mm", None, "12.7", "inch", None, "0.5", "exact"),
    ("mm", "12.8", None, "inch", "0.504", None, "computed by hand: 0.50393700 up to 4 places"),
]


@pytest.mark.parametrize(("unit", "lower", "upper", "other", "low", "high", "source"), WORKED)
def test_limits_are_converted_inward(
    unit: str, lower: str | None, upper: str | None, other: str, low: str | None, high: str | None, source: str
) -> None:
    limits = Limits("size", None if lower is None else Decimal(lower), None if upper is None else Decimal(upper))
    expected = (None if low is None else Decimal(low), None if high is None else Decimal(high))
    assert expected == inward(limits, unit, other)[1:], source


# (unit, other unit, width of the tolerance, places); source: ISO 370:1975 and ASTM E380, the table from memory; each
# step at its first width and just below it
PLACES = [
    ("inch", "mm", "1", 1), ("inch", "mm", "0.1", 1), ("inch", "mm", "0.0999", 2), ("inch", "mm", "0.01", 2),
    ("inch", "mm", "0.00999", 3), ("inch", "mm", "0.001", 3), ("inch", "mm", "0.000999", 4),
    ("inch", "mm", "0.0001", 4), ("inch", "mm", "0.0000999", 5), ("inch", "mm", "0.00001", 5),
    ("mm", "inch", "5", 3), ("mm", "inch", "0.5", 3), ("mm", "inch", "0.499", 4), ("mm", "inch", "0.05", 4),
    ("mm", "inch", "0.0499", 5), ("mm", "inch", "0.005", 5), ("mm", "inch", "0.00499", 6), ("mm", "inch", "0.0005", 6),
    # one limit alone, and roughness, have no width to go by: common practice, no source
    ("inch", "mm", None, 3), ("mm", "inch", None, 4), ("um", "uin", None, 1), ("uin", "um", None, 3),
    ("um", "uin", "1", 1),
]  # fmt: skip


@pytest.mark.parametrize(("unit", "other", "width", "places"), PLACES)
def test_places_follow_the_width_of_the_tolerance(unit: str, other: str, width: str | None, places: int) -> None:
    limits = Limits("size", None if width is None else 1 - Decimal(width), Decimal(1))
    assert places_for(limits, unit, other) == places


def test_where_nothing_lies_between_no_limits_are_given() -> None:
    """One third of a millimetre has no finite figure in inches: no number of any places is both bounds at once."""
    third = Fraction(1, 3)
    assert inward(Limits("size", third, third), "mm", "inch") == Limits("size", None, None)


thousandths = st.integers(-200_000, 4_000_000).map(lambda n: Decimal(n) / 10000)


@given(thousandths, thousandths, st.sampled_from([("mm", "inch"), ("inch", "mm")]))
def test_converted_limits_lie_inside(one: Decimal, two: Decimal, units: tuple[str, str]) -> None:
    unit, other = units
    lower, upper = sorted((one, two))
    limits = Limits("size", lower, upper)
    if upper - lower < Decimal("0.0001"):
        return
    converted = inward(limits, unit, other)
    assert converted.lower is not None
    assert converted.upper is not None
    assert lower <= convert(converted.lower, other, unit) <= convert(converted.upper, other, unit) <= upper


@given(st.integers(1, 10**9).map(lambda n: Fraction(n, 10**6)), st.sampled_from(["mm", "inch", "um", "uin"]))
def test_there_and_back_is_exact(value: Fraction, unit: str) -> None:
    for other in ("mm", "inch", "um", "uin"):
        assert value == convert(convert(value, unit, other), other, unit)


def test_an_inch_is_25_4_millimetres() -> None:
    """Source: the international inch of 1959, ISO 1000."""
    assert Fraction(127, 5) == convert(Decimal(1), "inch", "mm")
    assert Fraction(127, 5000) == convert(Decimal(1), "uin", "um")


# (callout, part of the warning or None): the first dimension governs, the second is held against it.
DUAL = [
    ("25.4 [1.000]", None),
    ("25.4 [1.002]", "25.4 mm is 1 inch, not 1.002"),
    ("R3.18 [R.125]", None),
    ("Ø6.5 ±0.1 [.256 ±.003]", None),
    ("Ø6.5 ±0.1 [.256 ±.004]", "reach outside the first's (6.4 to 6.6 mm)"),
    ("12.7 (.500)", None),
    ("12.7 (.600)", "12.7 mm is 0.5 inch, not 0.600"),
    ("25.4 (1.001 in)", None),
]


@pytest.mark.parametrize(("callout", "warning"), DUAL)
def test_the_second_dimension_is_checked(callout: str, warning: str | None) -> None:
    given_answer = answer(callout, Context())
    warnings = [remark.text for remark in given_answer.remarks if remark.level == "warning"]
    if warning is None:
        assert warnings == []
    else:
        assert len(warnings) == 1
        assert warning in warnings[0]
