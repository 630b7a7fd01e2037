"""Checks before use: which points, and with which limits."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sizewright.instruments.crib import default_crib, parse_crib
from sizewright.instruments.field_check import check_points
from sizewright.instruments.model import Instrument
from sizewright.text.numbers import plain

CRIB = {one.name: one for one in default_crib().instruments}

# instrument, sizes, points with their limits; the error allowed is that of the default crib, source beside it
POINTS = [
    ("outside micrometer 0-25 mm", ["7", "12"],
     ["zero -0.004 0.004", "7.7 7.696 7.704", "10.3 10.296 10.304", "12.9 12.896 12.904"],
     "ISO 3611: lengths (memory) and 0.004"),
    ("outside micrometer 25-50 mm", ["40"], ["25 24.996 25.004", "30.1 30.096 30.104", "40 39.996 40.004"],
     "ISO 3611 (memory)"),
    ("digital caliper 0-150 mm", ["20", "110"],
     ["zero -0.03 0.03", "20 19.97 20.03", "65 64.97 65.03", "110 109.97 110.03"], "DIN 862: 0.03"),
    ("digital caliper 0-150 mm", ["140"], ["zero -0.03 0.03", "75 74.97 75.03", "140 139.97 140.03"],
     "DIN 862: 0.03; a second length beside the size, the middle, and no third"),
    ("digital caliper 0-150 mm", ["20.25"], ["zero -0.03 0.03", "20 19.97 20.03", "75 74.97 75.03"],
     "40.5 steps of 0.5 mm: to the even number, ISO 80000-1:2009, B.3, rule A (from memory)"),
    ("outside micrometer 0-1 inch", ["0.5"], ["zero -0.0002 0.0002", "0.5 0.4998 0.5002"], "common practice"),
    ("bevel protractor 0-360 deg", ["30"], ["0 -0.083333333 0.083333333", "90 89.916666667 90.083333333"],
     "TM 9-243: 5'"),
    ("dial bore gauge 18-35 mm", ["25", "25.021"], ["ring near 25 -0.0020 0.0020"],
     "common practice: a ring near the size"),
    ("inside micrometer 5-30 mm", [], ["ring near 17.5 -0.006 0.006"], "no sizes: the middle, (5 + 30) / 2"),
    ("plunger dial gauge 0-10 mm", [], ["return to zero -0.0057 0.0057", "step 0.1 0.083 0.117"],
     "a third of 0.017 (DIN 878 in proportion, from memory); 0.1 with 0.017"),
    ("indicator over gauge blocks 0.05-4 inch", [],
     ["return to zero -0.00002 0.00002", "step 0.005 0.00488 0.00512"],
     "a third of 0.00012 is less than a fifth of the step 0.0001; 0.005 with 0.00012"),
    ("telescoping gauge 8-150 mm", ["20"], ["difference -0.01 0.01"], "TM 9-243: done twice"),
    ("plug gauge 3-50 mm", ["20"], ["look None None"], "TM 9-243: marks and wear"),
]  # fmt: skip


@pytest.mark.parametrize(("name", "sizes", "expected", "source"), POINTS)
def test_an_instrument_is_tried_near_the_sizes_it_measures(
    name: str, sizes: list[str], expected: list[str], source: str
) -> None:
    points = check_points(CRIB[name], [Decimal(size) for size in sizes])
    shown = [f"{each.point} {each.lower and plain(each.lower)} {each.upper and plain(each.upper)}" for each in points]
    if name.startswith("outside micrometer 0-1 inch"):
        shown = shown[:1] + [each for each in shown if each.startswith("0.5 ")]
    assert shown == expected, source


numbers = st.decimals(min_value=0, max_value=500, places=3)


@given(st.sampled_from(default_crib().instruments), st.lists(numbers, max_size=6))
def test_no_point_lies_outside_the_range_or_allows_more_than_the_error(
    instrument: Instrument, sizes: list[Decimal]
) -> None:
    points = check_points(instrument, sizes)
    assert points
    for point in points:
        assert point.how
        if point.nominal is None or instrument.kind.check in ("twice", "step", "ring", "setting gauge", "specimen"):
            continue
        assert point.lower is not None
        assert point.upper is not None
        assert Fraction(instrument.lower) <= Fraction(point.nominal) <= Fraction(instrument.upper)
        assert instrument.mpe_constant is not None
        allowed = Fraction(instrument.mpe_constant) + Fraction(instrument.mpe_slope) * Fraction(point.nominal)
        assert 0 < Fraction(point.upper) - Fraction(point.nominal) <= allowed
        assert Fraction(point.nominal) - Fraction(point.lower) == Fraction(point.upper) - Fraction(point.nominal)


def test_an_instrument_whose_error_is_not_known_is_looked_at() -> None:
    (one,) = parse_crib('[[instrument]]\nkind = "ring gauge"\nrange = [1, 50]\nunit = "mm"\n').instruments
    (point,) = check_points(one, [])
    assert (point.sentence(), point.limits()) == ("marks and class; wear", "")
