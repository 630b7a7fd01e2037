"""Series of readings: figures by hand, capability with its interval, and the risks of the batch."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from mpmath import mp

from sizewright.judge.capability import capability
from sizewright.judge.model import Rule
from sizewright.judge.rule import zones
from sizewright.judge.series import countable, statistics_of
from sizewright.resolve.characteristic import Limits
from sizewright.text.numbers import Number

from .support import D, budget

SIZE = Limits("size", D("9.95"), D("10.05"))
UPPER = Limits("size", None, D("10.05"))


def values(*texts: str) -> list[Number]:
    return [D(text) for text in texts]


TWELVE = values(
    *["10.00", "10.01", "9.99", "10.02", "9.98", "10.00", "10.01", "9.99", "10.00", "10.01", "9.99", "10.00"]
)


def test_count_extremes_mean_and_spread() -> None:
    found = statistics_of(SIZE, values("10.02", "10.00", "10.01"))
    assert (found.of, found.count, found.least, found.greatest) == ("size", 3, D("10.00"), D("10.02"))
    assert (found.mean, found.spread) == (D("10.0100"), D("0.0100"))  # own arithmetic


def test_one_reading_has_no_spread() -> None:
    found = statistics_of(SIZE, values("10.02"))
    assert found.spread is None
    assert found.capability is None
    assert found.risk is None


def test_a_third_is_rounded_two_places_beyond_the_readings() -> None:
    found = statistics_of(SIZE, values("1.0", "1.0", "1.1"))
    assert found.mean == D("1.033")
    assert found.spread == D("0.058")  # 0.0577, rounded up


def test_a_mean_midway_goes_to_the_even_figure() -> None:
    # eighths of one, to two places: 0.125 and 0.375; ISO 80000-1:2009, B.3, rule A (from memory)
    assert statistics_of(SIZE, values(*["0"] * 7, "1")).mean == D("0.12")
    assert statistics_of(SIZE, values(*["0"] * 5, *["1"] * 3)).mean == D("0.38")


def test_angles() -> None:
    limits = Limits("size", Fraction(29), Fraction(31))
    found = statistics_of(limits, [Fraction(30), Fraction(361, 12)])
    assert found.least == 30
    assert found.mean == pytest.approx(D("30.041666667"), abs=D("0.000000001"))


# mean, s, n, limits, Cp, Cpk, lower, upper; own arithmetic by Cpk -+ 1.96 sqrt(1/9n + Cpk^2/2(n-1))
CAPABILITIES = [
    ("10.00", "0.01", 30, SIZE, "1.67", "1.67", "1.22", "2.12"),
    ("10.02", "0.01", 50, SIZE, "1.67", "1.00", "0.77", "1.23"),
    ("10.00", "0.0125", 100, UPPER, None, "1.33", "1.13", "1.54"),
    ("10.06", "0.01", 20, SIZE, "1.67", "-0.33", "-0.52", "-0.15"),
    (
        "0",
        "1",
        10,
        Limits("size", None, D(6)),
        None,
        "2.00",
        "1.05",
        "2.95",
    ),  # 2 -+ 1.96 sqrt(1/90 + 4/18) = 2 -+ 0.9467
]


@pytest.mark.parametrize(("mean", "s", "n", "limits", "cp", "cpk", "lower", "upper"), CAPABILITIES)
def test_capability(
    mean: str, s: str, n: int, limits: Limits, cp: str | None, cpk: str, lower: str, upper: str
) -> None:
    found = capability(D(mean), D(s), n, limits)
    assert found is not None
    assert found.cp == (None if cp is None else D(cp))
    assert found.cpk == D(cpk)
    assert found.cpk_lower == pytest.approx(D(lower), abs=D("0.011"))
    assert found.cpk_upper == pytest.approx(D(upper), abs=D("0.011"))


# Cpk, words; common practice, no source
LEVELS = [
    ("1.67", "keeps well within its limits"), ("1.66", "keeps within its limits as far as is usually asked"),
    ("1.33", "keeps within its limits as far as is usually asked"), ("1.32", "only just keeps within its limits"),
    ("1.00", "only just keeps within its limits"), ("0.99", "does not keep within its limits"),
]  # fmt: skip


@pytest.mark.parametrize(("cpk", "said"), LEVELS)
def test_each_level_begins_at_its_figure(cpk: str, said: str) -> None:
    found = capability(D(0), D(1), 1_000_000, Limits("size", None, 3 * D(cpk)))
    assert found is not None
    assert found.cpk == D(cpk)
    assert found.meaning.startswith(f"the process {said}")


def test_an_index_midway_goes_to_the_even_figure() -> None:
    # limits 6.75 s apart: 1.125; ISO 80000-1:2009, B.3, rule A (from memory)
    found = capability(D(0), D(1), 40, Limits("size", D("-3.375"), D("3.375")))
    assert found is not None
    assert (found.cp, found.cpk) == (D("1.12"), D("1.12"))


def test_the_interval_of_twenty_readings() -> None:
    # Cpk 1.33, n 20: 1.33 (1 -+ 1.96 sqrt(1 / (9 x 20 x 1.33^2) + 1 / 38)), own arithmetic by the formula of Bissell
    found = capability(D(0), D(1) / D("3.99"), 20, Limits("size", None, D(1)))
    assert found is not None
    assert found.cpk_lower == pytest.approx(D("0.88"), abs=D("0.02"))
    assert found.cpk_upper == pytest.approx(D("1.78"), abs=D("0.02"))


def test_how_many_readings_are_enough() -> None:
    assert capability(D(10), D("0.01"), 9, SIZE) is None
    ten = capability(D(10), D("0.01"), 10, SIZE)
    assert ten is not None
    assert "10 readings are few" in ten.meaning
    middling = capability(D(10), D("0.01"), 27, SIZE)
    assert middling is not None
    assert "30 are better" in middling.meaning
    many = capability(D(10), D("0.01"), 30, SIZE)
    assert many is not None
    assert "readings" not in many.meaning


def test_no_spread_or_no_limit_no_capability() -> None:
    assert capability(D(10), D(0), 30, SIZE) is None
    assert capability(D(10), D("0.01"), 30, Limits("size", None, None)) is None
    assert capability(D("0.01"), D("0.01"), 30, Limits("zone", D(0), None), from_zero=True) is None


def test_what_the_words_say() -> None:
    off = capability(D("10.03"), D("0.005"), 40, SIZE)
    assert off is not None
    assert "off the middle" in off.meaning
    poor = capability(D("10.045"), D("0.005"), 40, SIZE)  # Cp 3.33, Cpk 0.33: it is the mean that is amiss
    assert poor is not None
    assert "off the middle" in poor.meaning
    # limits 7.98 s apart, mean 2.9 s from the lower: Cp 1.33 exactly, Cpk 0.97; common practice, no source
    just = capability(D("2.9"), D(1), 40, Limits("size", D(0), D("7.98")))
    assert just is not None
    assert "off the middle" in just.meaning
    out = capability(D("10.06"), D("0.005"), 40, SIZE)
    assert out is not None
    assert "mean itself is out" in out.meaning
    assert "off the middle" not in out.meaning
    one = capability(D("0.01"), D("0.005"), 40, Limits("zone", D(0), D("0.05")), from_zero=True)
    assert one is not None
    assert one.cp is None
    assert "one limit: Cpk alone" in one.meaning
    assert "poor near zero" in one.meaning


def test_risks_from_a_known_process() -> None:
    held = zones(Rule("simple"), SIZE, None)
    # N(10, 0.02), u 0.008: 0.003 260 535 (scipy, mpmath)
    found = statistics_of(SIZE, values("10.00"), zones=held, budget=budget("0.008"), process_sd=D("0.02"))
    assert found.risk is not None
    assert found.risk.consumer == D("0.003261")
    assert "0.02 as given" in found.risk.process


def test_risks_from_the_readings_hold_less_than_they_show() -> None:
    held = zones(Rule("simple"), SIZE, None)
    found = statistics_of(SIZE, TWELVE, zones=held, budget=budget("0.002"))
    assert found.spread == pytest.approx(D("0.0113"), abs=D("0.0001"))
    assert found.risk is not None
    assert "12 readings" in found.risk.process
    assert statistics_of(SIZE, TWELVE[:9], zones=held, budget=budget("0.002")).risk is None
    assert statistics_of(SIZE, TWELVE, zones=held, budget=budget("0.02")).risk is None  # nothing left of the spread
    assert statistics_of(SIZE, TWELVE, zones=held).risk is None


def test_a_form_error_is_taken_as_gamma() -> None:
    limits = Limits("zone", D(0), D(2))
    held = zones(Rule("simple"), limits, None, from_zero=True)
    # JCGM 106:2012, 9.5.4: mean 1, sd 0.5 is gamma(4, 1/4); Rc 0.8 %
    found = statistics_of(
        limits, values("1.00"), zones=held, budget=budget("0.25"), process_sd=D("0.5"), from_zero=True
    )
    assert found.risk is not None
    assert found.risk.consumer == pytest.approx(D("0.00802"), abs=D("0.00001"))
    assert found.risk.producer == pytest.approx(D("0.017445"), abs=D("0.00001"))
    assert "gamma" in found.risk.process


# a hundred figures before or after the mark are no size: common practice, no source
@pytest.mark.parametrize(
    ("value", "counts"),
    [(D("10.1"), True), (D(0), True), (D("9E+99"), True), (D("1E+100"), False), (D("1E-100"), False),
     (D("Infinity"), False), (D("NaN"), False), (Fraction(1, 3), True), (Fraction(10**100), False),
     (-Fraction(10**100), False), (Fraction(10**100 - 1), True)],
)  # fmt: skip
def test_what_may_stand_in_a_mean(value: Number, counts: bool) -> None:
    assert countable(value) is counts


def test_a_moving_limit_has_no_capability() -> None:
    held = zones(Rule("simple"), SIZE, None)
    found = statistics_of(SIZE, TWELVE, zones=held, budget=budget("0.002"), fixed=False)
    assert found.capability is None
    assert found.risk is None


@given(st.lists(st.decimals(min_value=-1000, max_value=1000, places=4), min_size=2, max_size=30))
def test_the_mean_lies_between_the_extremes(readings: list[Decimal]) -> None:
    numbers: list[Number] = list(readings)
    found = statistics_of(SIZE, numbers)
    assert found.least <= found.mean <= found.greatest
    assert found.spread is not None
    assert 0 <= found.spread <= 2 * (max(readings) - min(readings)) + D("0.0001")


def test_a_known_error_stands_between_what_is_read_and_what_is_true() -> None:
    """JCGM 106:2012, clause 9.5: the joint density of true value and reading, integrated by mpmath."""
    u, sd, error, mean = mp.mpf("0.008"), mp.mpf("0.02"), mp.mpf("0.0087"), mp.mpf("10.01")
    low, high = mp.mpf("9.95"), mp.mpf("10.05")
    true_mean = mean - error

    def accepted(x: Any) -> Any:
        return mp.ncdf((high - x - error) / u) - mp.ncdf((low - x - error) / u)

    def density(x: Any) -> Any:
        return mp.npdf(x, true_mean, sd)

    out = [mp.quad(lambda x: density(x) * accepted(x), ends) for ends in ([9.8, 9.9, low], [high, 10.1, 10.2])]
    lost = mp.quad(lambda x: density(x) * (1 - accepted(x)), [low, 9.98, 10.02, high])
    given = budget("0.008", bias="0.0087")
    found = statistics_of(
        SIZE, values("10.00", "10.02"), zones=zones(Rule("simple"), SIZE, given), budget=given, process_sd=D("0.02")
    ).risk
    assert found is not None
    assert float(found.consumer) == pytest.approx(float(sum(out)), abs=2e-6)
    assert float(found.producer) == pytest.approx(float(lost), abs=2e-6)
    assert "less the known error 0.0087" in found.process


def test_a_capability_says_that_its_readings_hold_a_known_error() -> None:
    given = budget("0.001", bias="-0.00123")
    found = statistics_of(SIZE, TWELVE, zones=zones(Rule("simple"), SIZE, given), budget=given).capability
    assert found is not None
    assert found.meaning.endswith("; of readings that hold the known error -0.0012")
