from __future__ import annotations

from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sizewright.judge.doubts import doubts
from sizewright.plan.model import PlanLine
from sizewright.resolve.characteristic import Limits

from .sheets import SAMPLES, SMALL, line, plan_of, sample

SHEET = "unit: mm\n1: 124.3 ±0.1\n2: 0.02 ±0.005\n3: 25.01 ±0.02\n4: 30°30' ±10'\n5: Ø12 H7\n"
LINES = [each for path in SAMPLES for each in sample(path).lines if each.limits]

# (line, value, instrument, a part of the question): slips of people, common practice, no source.
DOUBTED = [
    ("1", "12.43", "", "12.43: a tenth of the size? 124.3 would be within"),
    ("1", "1243", "", "1243: ten times the size? 124.3 would be within"),
    ("1", "1.243", "", "a hundredth of the size"),
    ("1", "4.8937", "", "read in inches? 4.8937 in is 124.29998 mm, which would be within"),
    ("1", "142.3", "", "have two figures changed places? 124.3 would be within"),
    ("1", "-124.3", "", "is the sign right? 124.3 would be within"),
    ("3", "25.51", "outside micrometer 25-50 mm", "a whole turn of the micrometer (0.5 mm)? 25.01 would be within"),
    ("3", "24.5", "outside micrometer 25-50 mm", "a whole turn of the micrometer (0.5 mm)? 25 would be within"),
    ("3", "-3", "", "below zero"),
    ("3", "40", "", "far outside, by 14.97 mm"),
    ("4", "30.30", "", "degrees and minutes? 30°30' would be within"),
    ("4", "30.20", "", "degrees and minutes? 30°20' would be within"),  # the lower limit itself
    ("4", "90", "", "far outside, by 59°20': the right feature"),
    ("1", "4.893701", "", "4.893701 in is 124.300005 mm"),  # 124.3000054 exactly: shown to six places
]


@pytest.mark.parametrize(("number", "value", "instrument", "words"), DOUBTED)
def test_a_slip_is_asked_about(number: str, value: str, instrument: str, words: str) -> None:
    of = line(number, SHEET)
    asked = doubts(of, of.limits[0], Decimal(value), instrument)
    assert any(words in each for each in asked), asked


# Honest readings just outside: nothing to ask.
@pytest.mark.parametrize(
    ("number", "value", "instrument"),
    [("1", "124.45", ""), ("3", "25.04", ""), ("3", "25.51", "digital outside micrometer"), ("5", "12.03", "")],
)
def test_a_reading_just_outside_is_not_asked_about(number: str, value: str, instrument: str) -> None:
    of = line(number, SHEET)
    assert doubts(of, of.limits[0], Decimal(value), instrument) == ()


@pytest.mark.parametrize(
    ("number", "value", "words"),
    [
        ("11", "3", "far above 0.5"),
        ("12", "2", "far below 12"),
        ("6", "0.5", "far above 0.02"),
        ("7", "32", "far above"),
    ],
)
def test_beyond_a_lone_limit_only_what_is_far_is_asked_about(number: str, value: str, words: str) -> None:
    of = line(number, SMALL)
    assert any(words in each for each in doubts(of, of.limits[0], Decimal(value)))


@pytest.mark.parametrize(("number", "value"), [("11", "0.6"), ("12", "11.8"), ("6", "0.05"), ("7", "1.1")])
def test_beyond_a_lone_limit_what_is_near_is_not(number: str, value: str) -> None:
    of = line(number, SMALL)
    assert doubts(of, of.limits[0], Decimal(value)) == ()


@given(st.sampled_from(LINES), st.fractions(0, 1), st.sampled_from(["", "outside micrometer", "caliper"]))
def test_a_value_within_its_limits_raises_no_doubt(of: PlanLine, share: Fraction, instrument: str) -> None:
    for limits in of.limits:
        low = Fraction(limits.lower) if limits.lower is not None else Fraction(limits.upper or 0) - 100
        high = Fraction(limits.upper) if limits.upper is not None else low + 100
        assert doubts(of, limits, low + share * (high - low), instrument) == ()


@given(st.sampled_from(LINES), st.decimals(-10_000, 10_000, places=4) | st.fractions(-1000, 1000))
def test_whatever_the_value_a_question_is_a_sentence(of: PlanLine, value: Decimal | Fraction) -> None:
    for limits in of.limits:
        for question in doubts(of, limits, value):
            assert ": " in question
            assert "  " not in question


def test_without_limits_nothing_is_asked() -> None:
    of = plan_of().lines[0]
    assert doubts(of, Limits("", None, None), Decimal(999)) == ()
