from __future__ import annotations

import re
from collections.abc import Callable
from decimal import Decimal

import pytest

from sizewright.standards.errors import NotDefined
from sizewright.standards.threads.iso965 import crest_tolerance, fundamental_deviation, pitch_tolerance, r40
from sizewright.standards.threads.iso_metric import (
    coarse_pitch,
    default_class,
    engagement_group,
    is_standard,
    metric_limits,
    pitches_of,
    reference_major_max,
    starts,
)
from sizewright.standards.threads.mj import default_class as mj_default
from sizewright.standards.threads.mj import mj_limits

from .thread_prints import FIELDS, both, by_name, corrections, expected, least, published

D = Decimal

PRINTS = published("metric_limits")
OPEN = published("metric_limits_open")


def taken_apart(designation: str) -> tuple[Decimal, Decimal, str]:
    match = re.fullmatch(r"M([\d.]+)x([\d.]+)-(\w+)", designation)
    assert match is not None
    return D(match[1]), D(match[2]), match[3]


@pytest.mark.parametrize("row", PRINTS, ids=lambda row: row["designation"])
def test_limits_equal_the_print_to_the_last_digit(row: dict[str, str]) -> None:
    diameter, pitch, tolerance_class = taken_apart(row["designation"])
    internal = row["internal_external"] == "internal"
    limits = metric_limits(diameter, pitch, tolerance_class, internal)
    want = expected(row, FIELDS, row["differs"])
    got = by_name(limits)
    if internal and "major_max" in want:
        pitch_high = both(limits.pitch)[1] - least(metric_limits(diameter, pitch, "6H", True).pitch)
        got["major_max"] = reference_major_max(diameter, pitch, pitch_high)
    assert want == {field: got[field] for field in want}


def test_rows_that_differ_are_one_unit_off_and_explained() -> None:
    differing = [row for row in PRINTS if row["differs"]]
    assert len(differing) == 5
    for row in differing:
        for field, value in corrections(row["differs"]).items():
            assert abs(value - D(row[field])) == D("0.001")
        assert row["reason"]


@pytest.mark.parametrize("row", OPEN, ids=lambda row: f"M{row['diameter']}x{row['pitch']}")
def test_limits_equal_an_independent_open_table(row: dict[str, str]) -> None:
    value = {name: D(cell) for name, cell in row.items() if name != "differs"} | corrections(row["differs"])
    external = metric_limits(value["diameter"], value["pitch"], "6g", internal=False)
    internal = metric_limits(value["diameter"], value["pitch"], "6H", internal=True)
    assert (value["d_min"], value["d_max"]) == external.major
    assert (value["d2_min"], value["d2_max"]) == external.pitch
    assert (value["d3_min"], value["d3_max"]) == external.minor
    assert (value["D1_min"], value["D1_max"]) == internal.minor
    assert (value["D2_min"], value["D2_max"]) == internal.pitch


@pytest.mark.parametrize("row", published("metric_internal_open"), ids=lambda row: f"M{row['diameter']}x{row['pitch']}")
def test_internal_limits_equal_an_independent_open_table(row: dict[str, str]) -> None:
    value = {name: D(cell) for name, cell in row.items()}
    internal = metric_limits(value["diameter"], value["pitch"], "6H", internal=True)
    assert (value["D1_min"], value["D1_max"]) == internal.minor
    assert (value["D2_min"], value["D2_max"]) == internal.pitch
    assert is_standard(value["diameter"], value["pitch"])


@pytest.mark.parametrize(
    ("diameter", "pitch"),
    [("1", "0.25"), ("3", "0.5"), ("6", "1"), ("8", "1.25"), ("10", "1.5"), ("39", "4"), ("64", "6"), ("68", "6")],
)
def test_coarse_pitches_of_iso_261(diameter: str, pitch: str) -> None:
    assert coarse_pitch(D(diameter)) == D(pitch)
    assert is_standard(D(diameter), D(pitch))


@pytest.mark.parametrize(
    ("ask", "near"),
    [
        (lambda: coarse_pitch(D(35)), "M35x1.5"),
        (lambda: coarse_pitch(D(13)), "M12"),
        (lambda: pitches_of(D("6.5")), "M6"),
        (lambda: metric_limits(D(6), D(1), "6g", internal=True), "6G"),
        (lambda: metric_limits(D(6), D(1), "6H", internal=False), "6h"),
        (lambda: metric_limits(D(6), D(1), "6k", internal=False), "g"),
        (lambda: metric_limits(D(6), D(1), "6g6H", internal=False), "6g"),
        (lambda: metric_limits(D(6), D(1), "6H6g", internal=True), "6H"),
        (lambda: metric_limits(D(6), D(1), "xx", internal=False), "6g"),
        (lambda: metric_limits(D(6), D(1), "5g", internal=False), "4"),
        (lambda: metric_limits(D(2), D("0.25"), "6H", internal=True), "5"),
        (lambda: metric_limits(D(4), D("0.7"), "6d", internal=False), "g"),
        (lambda: metric_limits(D(6), D(9), "6g", internal=False), "M6"),
        (lambda: metric_limits(D(400), D(6), "6g", internal=False), "M300"),
        (lambda: metric_limits(D("0.9"), D("0.225"), "6g", internal=False), "M1"),
        (lambda: starts(D(4), D("1.5")), "3"),
        (lambda: starts(D(1), D("1.5")), "1.5"),
        (lambda: metric_limits(D(6), D(1), "6g", internal=False, lead=D(0)), "1"),
        (lambda: mj_limits(D("1.2"), D("0.25"), "4h6h", internal=False), "MJ1.6"),
    ],
)
def test_what_the_standard_lacks_is_refused_with_the_nearest(ask: Callable[[], object], near: str) -> None:
    with pytest.raises(NotDefined) as refusal:
        ask()
    assert near in refusal.value.near
    assert refusal.value.message.endswith(".")


@pytest.mark.parametrize(
    ("diameter", "pitch", "internal", "usual"),
    [
        ("1.6", "0.35", True, "6H"),
        ("1.4", "0.3", True, "5H"),
        ("1.6", "0.2", True, "4H"),
        ("2", "0.25", True, "5H"),
        ("1.4", "0.3", False, "6h"),
        ("1.6", "0.35", False, "6g"),
    ],
)
def test_class_meant_when_none_is_stated(diameter: str, pitch: str, internal: bool, usual: str) -> None:
    assert default_class(D(diameter), D(pitch), internal) == usual


@pytest.mark.parametrize(
    ("diameter", "pitch", "length", "group"),
    [("10", "1.5", "5", "S"), ("10", "1.5", "5.1", "N"), ("10", "1.5", "15", "N"), ("6", "1", "9.1", "L")],
)
def test_group_of_engagement(diameter: str, pitch: str, length: str, group: str) -> None:
    assert engagement_group(D(diameter), D(pitch), D(length)) == group


def test_formulas_stand_in_for_the_tables_and_say_so() -> None:
    limits = metric_limits(D(8), D("0.5"), "6g", internal=False)
    # DIN 13 prints M8x0.5-6g d2 min 7.570: Td2 = R40(90 x 0.5^0.4 x 7.92^0.1) = 85 um.
    assert limits.pitch == (D("7.570"), D("7.655"))
    assert any("not a standard combination" in note for note in limits.remarks)
    assert any("formulas" in note for note in limits.remarks)


def test_pitch_between_the_tabulated_ones() -> None:
    assert fundamental_deviation(D("0.9"), "g").value == D("-0.025")
    assert not crest_tolerance(D("0.9"), 6, internal=False).tabulated
    assert crest_tolerance(D("0.8"), 6, False).value < crest_tolerance(D("0.9"), 6, False).value
    assert pitch_tolerance(D(6), D("0.9"), 6, True).value == D("0.140")


@pytest.mark.parametrize(("value", "nearest"), [("103.3", "106"), ("78.3", "80"), ("259.5", "265"), ("24.8", "25")])
def test_rounding_to_r40(value: str, nearest: str) -> None:
    assert r40(D(value)) == D(nearest)


def test_root_profile_is_named_and_can_be_chosen() -> None:
    basic = metric_limits(D(10), D("1.5"), "6g", internal=False)
    rounded_root = metric_limits(D(10), D("1.5"), "6g", internal=False, root="H/6")
    # DIN 13-20 prints d3 max 8.128 for M10-6g.
    assert rounded_root.minor == (D("7.938"), D("8.128"))
    assert basic.minor == (D("7.938"), D("8.344"))
    assert any("basic profile" in reason for reason in basic.why)
    assert any("H/6" in reason for reason in rounded_root.why)


def test_group_and_starts_are_remarked() -> None:
    limits = metric_limits(D(16), D("1.5"), "6H", internal=True, engagement="L", lead=D(3))
    assert any("7H" in note for note in limits.remarks)
    assert any("2 starts" in note for note in limits.remarks)
    assert limits.pitch == metric_limits(D(16), D("1.5"), "6H", internal=True).pitch


def test_reasons_name_deviation_and_tolerances() -> None:
    why = metric_limits(D(8), D("1.25"), "6g", internal=False).why
    assert why[:3] == (
        "g: es -28 µm at P 1.25, ISO 965-1 Table 1",
        "Td2 118 µm, grade 6, d 5.6-11.2, P 1.25, ISO 965-1",
        "Td 212 µm, grade 6 at P 1.25, ISO 965-1",
    )


def test_mj_profile() -> None:
    # Geometry of ISO 5855-1, worked by hand: d2 max - 7/12 H, d2 min - H + 0.30022 P, D - 9/8 H.
    external = mj_limits(D(6), D(1), "4h6h", internal=False)
    internal = mj_limits(D(6), D(1), "4H5H", internal=True)
    assert external.major == (D("5.820"), D("6.000"))
    assert external.pitch == (D("5.279"), D("5.350"))
    assert external.minor == (D("4.714"), D("4.845"))
    assert internal.pitch == (D("5.350"), D("5.445"))
    assert internal.minor == (D("5.026"), D("5.216"))


def test_mj_default_class_and_own_pairs() -> None:
    assert (mj_default(D(5), True), mj_default(D(6), True), mj_default(D(6), False)) == ("4H6H", "4H5H", "4h6h")
    listed = mj_limits(D(11), D("1.25"), "4h6h", internal=False)
    unlisted = mj_limits(D(125), D(8), "4h6h", internal=False)
    assert not any("not in the table" in note for note in listed.remarks)
    assert any("not in the table" in note for note in unlisted.remarks)


# ISO 965-1, Table 1: at fine pitches some positions are blank; those of the same side with a figure are named
@pytest.mark.parametrize(("position", "pitch", "near"), [("e", "0.2", ("g", "h")), ("AZ", "0.2", ("G", "H"))])
def test_a_position_without_a_figure_names_those_with_one(position: str, pitch: str, near: tuple[str, ...]) -> None:
    with pytest.raises(NotDefined) as refusal:
        fundamental_deviation(D(pitch), position)
    assert refusal.value.near == near


# ISO 3:1973, series R40, from memory; each number stands for itself, here from 10 to 1000
R40 = """
    100 106 112 118 125 132 140 150 160 170 180 190 200 212 224 236 250 265 280 300
    315 335 355 375 400 425 450 475 500 530 560 600 630 670 710 750 800 850 900 950
"""


@pytest.mark.parametrize("number", R40.split())
def test_the_numbers_of_r40_stay(number: str) -> None:
    assert r40(D(number)) == D(number)


# ISO 965-1, clause 13, at a pitch without a row: over 11.2 to 22.4 mm, P 2.2 mm, Td2(6) = 90 x 2.2^0.4 x 15.84^0.1 is
# 162.6, R40 160; each grade its multiple of that in R40 again; by hand: grade, internal, µm
STEPPED = [
    (3, False, 80), (4, False, 100), (5, False, 125), (6, False, 160), (7, False, 200), (8, False, 250),
    (9, False, 315), (5, True, 170), (6, True, 212), (7, True, 265), (8, True, 335),
]  # fmt: skip


@pytest.mark.parametrize(("grade", "internal", "micrometres"), STEPPED)
def test_the_grades_of_a_pitch_without_a_row(grade: int, internal: bool, micrometres: int) -> None:
    found = pitch_tolerance(D(20), D("2.2"), grade, internal)
    assert found.value == D(micrometres) / 1000
    assert not found.tabulated


# ISO 965-4 and ISO 965-5: coarse threads M10 to M64
@pytest.mark.parametrize(
    ("diameter", "pitch", "covered"), [("10", "1.5", True), ("64", "6", True), ("12", "1.5", False), ("68", "6", False)]
)
def test_galvanized_classes_are_those_of_coarse_threads(diameter: str, pitch: str, covered: bool) -> None:
    remarks = metric_limits(D(diameter), D(pitch), "6az", internal=False).remarks
    assert any("coarse threads M10 to M64 only" in str(each) for each in remarks) is not covered
