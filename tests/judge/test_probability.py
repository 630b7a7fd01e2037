"""Conformance probability of one reading against many digits and by hand."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st
from mpmath import mp

from sizewright.judge.probability import conformance, consumer_risk, producer_risk, rounded
from sizewright.resolve.characteristic import Limits

from .support import D, budget

mp.dps = 30


def bounds(lower: str | None, upper: str | None) -> Limits:
    return Limits("size", None if lower is None else D(lower), None if upper is None else D(upper))


# value, u, limits, probability, source
KNOWN = [
    ("-5.47", "0.05", bounds(None, "-5.4"), "0.92", "JCGM 106:2012, 7.3 (Zener diode), from memory"),
    ("10", "0.5", bounds("9", "11"), "0.9545", "two standard uncertainties to each side"),
    ("11", "0.1", bounds("9", "11"), "0.5", "on a limit: as likely out as in"),
    ("9", "0.1", bounds("9", None), "0.5", "the same at a lower limit"),
    ("10.164485", "0.1", bounds("10", None), "0.95", "1.645 u inside one limit"),
    ("12", "0.1", bounds("9", "11"), "0", "far out"),
]


@pytest.mark.parametrize(("value", "u", "limits", "probability", "source"), KNOWN)
def test_known_probabilities(value: str, u: str, limits: Limits, probability: str, source: str) -> None:
    found = conformance(D(value), limits, budget(u))
    assert found == pytest.approx(D(probability), abs=D("0.001")), source
    assert consumer_risk(D(value), limits, budget(u)) == 1 - found
    assert producer_risk(D(value), limits, budget(u)) == found


def test_few_degrees_of_freedom_make_it_less_sure() -> None:
    limits = bounds("9", "11")
    exact = 1 - mp.betainc(mp.mpf(5) / 2, 0.5, 0, mp.mpf(5) / 9, regularized=True)  # t = 2, 5 degrees of freedom
    found = conformance(D(10), limits, budget("0.5", dof=5))
    assert found == pytest.approx(Decimal(str(exact)), abs=D("0.000001"))
    assert found < conformance(D(10), limits, budget("0.5", dof=50)) < conformance(D(10), limits, budget("0.5"))


def test_a_known_error_is_taken_to_the_worse_side() -> None:
    limits = bounds(None, "11")
    for bias in ("0.1", "-0.1"):
        assert conformance(D("10.9"), limits, budget("0.05", bias=bias)) == D("0.5")


def test_what_cannot_be_less_than_zero() -> None:
    # truncated normal: (F(2) - F(-1)) / (1 - F(-1)) for a reading of 1 u, limit 3 u (mpmath)
    limits = bounds("0", "0.03")
    exact = (mp.ncdf(2) - mp.ncdf(-1)) / (1 - mp.ncdf(-1))
    found = conformance(D("0.01"), limits, budget("0.01"), from_zero=True)
    assert found == pytest.approx(Decimal(str(exact)), abs=D("0.000001"))
    assert found > conformance(D("0.01"), limits, budget("0.01"))
    assert conformance(D("0"), limits, budget("0.01"), from_zero=True) > D("0.99")


def test_without_uncertainty_it_is_a_comparison() -> None:
    limits = bounds("9", "11")
    assert [conformance(D(v), limits, budget("0")) for v in ("8.9999", "9", "11", "11.00001")] == [0, 1, 1, 0]


def test_angles_and_numbers_beyond_any_float() -> None:
    angle = Limits("size", Fraction(59, 2), Fraction(91, 3))
    assert conformance(Fraction(30), angle, budget("0.1")) > D("0.9995")
    wide = Limits("size", Decimal("-1E+400"), Decimal("1E+400"))
    assert conformance(D(0), wide, budget("0.1")) == 1
    assert conformance(Decimal("1E+500"), bounds("0", "1"), budget("0.1")) == 0
    assert conformance(Fraction(10**400), angle, budget("0.1")) == 0


def test_a_small_risk_is_not_told_as_none() -> None:
    assert rounded(0.9999999) == D("0.999999")
    assert rounded(1.0) == 1


@given(
    st.decimals(min_value=0, max_value=20, places=3),
    st.decimals(min_value=0, max_value=20, places=3),
    st.decimals(min_value=D("0.001"), max_value=5, places=3),
    st.one_of(st.none(), st.integers(1, 60)),
    st.booleans(),
)
def test_it_falls_with_the_distance_from_the_middle(
    one: Decimal, other: Decimal, u: Decimal, dof: int | None, zero: bool
) -> None:
    low, high = sorted((one, other))
    limits = bounds("0", "10") if zero else bounds(None, "10")
    given_ = budget(str(u), dof=None if zero else dof)
    far, near = (conformance(value, limits, given_, from_zero=zero) for value in (high, low))
    assert 0 <= far <= near + D("0.000001") <= D("1.000001")  # a step, where a float falls on either side of it
