from __future__ import annotations

from decimal import Decimal
from typing import TypedDict

import pytest

from sizewright.standards.errors import NotDefined
from sizewright.standards.threads.identify import Unit, identify

D = Decimal


class Pitch(TypedDict, total=False):
    pitch: Decimal
    tpi: Decimal


# by a mark of the designation: ISO 68-1 and ASME B1.1 60, ISO 228-1 55, ASME B1.20.1 60, ISO 2901 30, ASME B1.5 29
FLANKS = {"ACME": 29, "NPT": 60, "UN": 60, "Tr": 30, "G": 55, "M": 60}


@pytest.mark.parametrize(
    ("diameter", "pitch", "internal", "unit", "first"),
    [
        ("9.9", {"pitch": D("1.5")}, False, "mm", "M10x1.5"),
        ("7.9", {"pitch": D("1.25")}, False, "mm", "M8x1.25"),
        ("8.6", {"pitch": D("1.5")}, True, "mm", "M10x1.5"),
        ("0.495", {"tpi": D(13)}, False, "in", "1/2-13 UNC"),
        ("6.3", {"tpi": D(20)}, False, "mm", "1/4-20 UNC"),
        ("0.186", {"tpi": D(32)}, False, "in", "#10-32 UNF"),
        ("20.85", {"tpi": D(14)}, False, "mm", "G1/2"),
        ("13.1", {"tpi": D(19)}, False, "mm", "G1/4"),
        ("13.5", {"tpi": D(18)}, False, "mm", "1/4-18 NPT"),
        ("15.9", {"pitch": D(4)}, False, "mm", "Tr16x4"),
        ("0.998", {"tpi": D(5)}, False, "in", "1.000-5 ACME"),
    ],
)
def test_likeliest_thread(diameter: str, pitch: Pitch, internal: bool, unit: Unit, first: str) -> None:
    found = identify(D(diameter), internal=internal, unit=unit, **pitch)
    assert found[0].designation == first
    assert found[0].inside
    assert found[0].flank_angle == next(angle for mark, angle in FLANKS.items() if mark in first)


# 1/2-14 NPT by ASME B1.20.1: pitch diameter 0.77843 in at the end of the pipe, height 0.8 P, 0.320 in engaged by hand
# at 1 in 16: the bore is 0.7213 in (18.321 mm) down to 0.7013 in (17.813 mm); its tap drill of 23/32 in lies between.
@pytest.mark.parametrize(("bore", "inside"), [("18.26", True), ("17.82", True), ("17.80", False), ("18.33", False)])
def test_the_bore_of_a_taper_thread(bore: str, inside: bool) -> None:
    found = {each.designation: each for each in identify(D(bore), tpi=D(14), internal=True)}
    assert found["1/2-14 NPT"].inside is inside
    assert found["1/2-14 NPT"].diameter == D("18.3207")


def test_how_far_off_is_told_in_the_unit_asked_for() -> None:
    metric = identify(D("9.9"), pitch=D("1.5"))[0]
    assert (metric.diameter_off, metric.pitch_off) == (D("-0.1"), D(0))
    inch = identify(D("0.495"), tpi=D(13), unit="in")[0]
    assert (inch.diameter, inch.diameter_off) == (D("0.5"), D("-0.005"))
    # the bores are the basic minor diameters: ISO 724 M10 8.376; ASME B1.1 1/2-13 D - 1.08253175 P = 0.41673
    assert identify(D("8.5"), pitch=D("1.5"), internal=True)[0].diameter == D("8.3762")
    assert identify(D("0.42"), tpi=D(13), internal=True, unit="in")[0].diameter == D("0.41673")
    # 1/13 in is 0.076923: a pitch measured as 0.078 in is 0.001077 too much
    off = identify(D("0.5"), pitch=D("0.078"), unit="in")[0]
    assert (off.designation, off.pitch, off.pitch_off) == ("1/2-13 UNC", D("0.07692"), D("0.00108"))


def test_fifty_five_against_sixty_degrees_is_warned_of() -> None:
    half_inch = {thread.designation: thread for thread in identify(D("20.85"), tpi=D(14))}
    assert {"G1/2", "R1/2", "1/2-14 NPT"} <= set(half_inch)
    assert "60 degrees" in (half_inch["G1/2"].warning or "")
    assert "55 degrees" in (half_inch["1/2-14 NPT"].warning or "")


def test_taper_look_alikes_of_the_same_angle_are_warned_of() -> None:
    quarter = {thread.designation: thread for thread in identify(D("13.1"), tpi=D(19))}
    assert "with taper" in (quarter["G1/4"].warning or "")
    assert "without taper" in (quarter["R1/4"].warning or "")


def test_nothing_near_is_refused_with_the_closest() -> None:
    with pytest.raises(NotDefined) as refusal:
        identify(D("10"), pitch=D("3.2"))
    assert refusal.value.near


@pytest.mark.parametrize("pitch", [{}, {"pitch": D(1), "tpi": D(20)}, {"pitch": D(0)}])
def test_one_positive_pitch_is_needed(pitch: Pitch) -> None:
    with pytest.raises(ValueError, match=r"pitch"):
        identify(D(10), **pitch)
