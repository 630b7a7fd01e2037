"""Tapers and slopes as typed: the exact rate, and the angles that follow from it."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction

import pytest

from sizewright.resolve.answer import answer, answer_json
from sizewright.resolve.characteristic import Status
from sizewright.resolve.context import Context
from sizewright.standards.tapers import half_angle, included_angle, rate_of, slope_angle

D = Decimal

# (callout, kind, nominal, unit). Morse: Engineers Edge, Morse Taper Shanks; Little Machine Shop, Dimensions of Standard
# Tapers. The ratios are arithmetic.
TAPERS = [
    ("1:10", "taper", "0.1", "ratio"),
    ("TAPER 1:20", "taper", "0.05", "ratio"),
    ("⌲ 1:5", "taper", "0.2", "ratio"),
    ("C = 1:16", "taper", "0.0625", "ratio"),
    ("1:30 TAPER", "taper", "0.033333333", "ratio"),
    ("7:24", "taper", "0.291666667", "ratio"),
    ("5 % TAPER", "taper", "0.05", "ratio"),
    ("TAPER 0.05", "taper", "0.05", "ratio"),
    (".600 TPF", "taper", "0.6", "inch_per_foot"),
    ("TPF .602", "taper", "0.602", "inch_per_foot"),
    ("TAPER .602 PER FOOT", "taper", "0.602", "inch_per_foot"),
    ("1/2 IN/FT TAPER", "taper", "0.5", "inch_per_foot"),
    ("3 1/2 IN/FT", "taper", "3.5", "inch_per_foot"),
    ("MORSE TAPER NO. 2", "taper", "0.59941", "inch_per_foot"),
    ("MT3", "taper", "0.60235", "inch_per_foot"),
    ("3MT", "taper", "0.60235", "inch_per_foot"),
    ("JARNO 6", "taper", "0.6", "inch_per_foot"),
    ("NMTB40", "taper", "0.291666667", "ratio"),
    ("⌳ 1:50", "slope", "0.02", "ratio"),
    ("SLOPE 1:100", "slope", "0.01", "ratio"),
    ("10 mm/m SLOPE", "slope", "0.01", "ratio"),
]


@pytest.mark.parametrize(("callout", "kind", "nominal", "unit"), TAPERS, ids=[row[0] for row in TAPERS])
def test_a_taper_has_its_exact_rate(callout: str, kind: str, nominal: str, unit: str) -> None:
    (made,) = answer_json(answer(callout, Context()))["characteristics"]
    assert (made["kind"], D(made["nominal"]), made["unit"]) == (kind, D(nominal), unit)
    assert (made["status"], made["limits"]) == ("untoleranced", [])


# The full angles of ISO 3040's ratios, 2 atan(C / 2), computed a second time with the floating-point arctangent.
@pytest.mark.parametrize(
    ("rate", "full"),
    [
        (Fraction(1, 3), "18.92464"),
        (Fraction(1, 5), "11.42119"),
        (Fraction(1, 10), "5.72481"),
        (Fraction(1, 50), "1.14588"),
        (Fraction(7, 24), "16.59429"),
        (Fraction(1, 16), "3.57982"),
        (Fraction(99, 100), "52.67082"),
    ],
)
def test_the_angle_of_a_cone(rate: Fraction, full: str) -> None:
    assert abs(included_angle(rate) - D(full)) <= D("0.00001")
    assert abs(2 * half_angle(rate) - included_angle(rate)) <= D("0.00002")


def test_the_angle_of_a_slope_is_that_of_the_taper_twice_as_steep() -> None:
    assert slope_angle(Fraction(1, 20)) == half_angle(Fraction(1, 10))


# Twelve times the difference of the end diameters over the plug depth is the rate: Little Machine Shop, LaymarCrafts.
@pytest.mark.parametrize(
    ("number", "large", "small", "depth"),
    [
        ("0", "0.3561", "0.252", "2"),
        ("1", "0.475", "0.369", "2.125"),
        ("2", "0.700", "0.572", "2.5625"),
        ("3", "0.938", "0.778", "3.1875"),
        ("4", "1.231", "1.020", "4.0625"),
        ("5", "1.748", "1.475", "5.1875"),
        ("6", "2.494", "2.116", "7.25"),
        ("7", "3.270", "2.750", "10"),
    ],
)
def test_a_morse_taper_agrees_with_its_diameters(number: str, large: str, small: str, depth: str) -> None:
    rate, _, _ = rate_of("Morse", number)
    assert abs(Fraction(12) * (Fraction(large) - Fraction(small)) / Fraction(depth) - rate) < Fraction(1, 90000)


def test_a_tolerance_gives_limits_in_the_unit_of_the_rate() -> None:
    (made,) = answer("TAPER .600 ±.002 PER FOOT", Context("inch")).characteristics
    assert [(limits.lower, limits.upper) for limits in made.limits] == [(D("0.598"), D("0.602"))]


def test_a_basic_and_a_reference_taper_have_no_limits() -> None:
    assert answer("[1:10]", Context()).characteristics[0].status is Status.BASIC
    assert answer("TAPER 1:20 REF", Context()).characteristics[0].status is Status.REFERENCE


def test_a_taper_whose_figures_are_not_held_says_so() -> None:
    (made,) = answer("B&S 9", Context("inch")).characteristics
    assert (made.nominal, made.unit, made.limits) == (None, "none", ())
    assert "not held here" in made.why[0]


def test_a_bare_ratio_is_told_to_be_read_as_a_taper() -> None:
    assert any("SLOPE for a flat" in remark.text for remark in answer("1:10", Context()).remarks)
