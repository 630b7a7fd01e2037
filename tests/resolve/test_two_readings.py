"""What has two readings, or contradicts itself, is refused or told: never taken silently for one of them."""

from __future__ import annotations

import pytest

from sizewright.resolve.answer import answer
from sizewright.resolve.context import Context, Unit

# Ways of typing that are read on drawings and can be misread; common practice, no source.
# (callout, unit, part of the error)
REFUSED: list[tuple[str, Unit, str]] = [
    # one size in two units, or two limits
    ("25.4 / 1.00", "mm", "one size in mm and in inches"),
    ("Ø12.7/.500", "mm", "one size in mm and in inches"),
    ("50.8/2.000", "mm", "one size in mm and in inches"),
    (".500 / 12.7", "inch", "one size in mm and in inches"),
    ("25.4\n[1.000]", "mm", "the one above in the other unit"),
    ("25.4\n(1.000)", "mm", "the one above in the other unit"),
    ("Ø6.5\n[.256]", "mm", "the one above in the other unit"),
    ("1.000\n[25.4]", "inch", "the one above in the other unit"),
    # a decimal and its fraction, or two limits
    (".4531 / 29/64 DRILL", "inch", "a decimal and its fraction"),
    (".469 / 15/32 DRILL", "inch", "a decimal and its fraction"),
    (".4688 15/32 DRILL", "inch", "one size typed twice"),
    # an angle without its mark, or a depth
    ("CSK 10 X 90", "mm", "an angle without its mark"),
    ("⌵ Ø10 X 82", "mm", "an angle without its mark"),
    ("CSK .50 X 82", "inch", "an angle without its mark"),
    ("CSK 10 X 45", "mm", "an angle without its mark"),
    # two limits under each other, the mark at one of them
    (".3750\n.3745 DIA", "inch", "the two limits of one"),
    (".500\n.498 DIA THRU", "inch", "the two limits of one"),
    ("Ø.500\n.498 THRU", "inch", "the two limits of one"),
    (".500\n.498 2 PLACES", "inch", "the two limits of one"),
    # a modifier, or the drill of that letter
    (".257 (F)", "inch", "can be the drill of this size"),
    ("Ø.250 (E) THRU", "inch", "can be the drill of this size"),
    ("25 ±0.1 (M)", "mm", "is no drill of this size"),
    ("Ø30 H7 (C)", "mm", "is no drill of this size"),
    # a class, or an x and a number
    ("Ø6.6 x6", "mm", "a tolerance class, or an x and a depth"),
    ("4X Ø10 x8", "mm", "a tolerance class, or an x and a depth"),
    # a count without its x behind what needs none
    ("Ra 1.6 (25)", "mm", "does not read here"),
    ("58-62 HRC (25)", "mm", "does not read here"),
    # a number beside a texture, a letter that can be a diameter's mark
    ("Ra 1.6 MILLED 25", "mm", "a second one, or a size"),
    (".500 / 63 RMS", "inch", "a size and a texture"),
    ("Ra 25 ±0.1", "mm", "a tolerance this fine"),
    ("Ø10 D 9", "mm", "two diameters side by side"),
    # what no part has
    ("4x90°", "mm", "no chamfer has 90°"),
    ("3x120°", "mm", "no chamfer has 120°"),
    ("45° CHAMFER 0.8", "mm", "an angle beside a chamfer"),
    ("Ø6 FULL DEPTH 12", "mm", "a depth of thread beside a plain size"),
]


@pytest.mark.parametrize(("callout", "unit", "said"), REFUSED, ids=[row[0] for row in REFUSED])
def test_what_has_two_readings_is_refused_with_a_way_out(callout: str, unit: Unit, said: str) -> None:
    error = answer(callout, Context(unit)).error
    assert error is not None
    assert said in error.message
    assert error.hint


# (callout, unit, part of the remark)
TOLD: list[tuple[str, Unit, str]] = [
    ("12 ±0.1 BOTH SIDES", "mm", "type 2x where there are two"),
    ("CHAM 1X45° BOTH ENDS", "mm", "type 2x where there are two"),
    ("√ Ra 3.2 ( √ Ra 1.6 )", "mm", "a line of their own"),
    ("2X Ø10 H7 THRU, Ø6", "mm", "the count 2 is taken for this too"),
    ("4x Ø5\nR3", "mm", "the count 4 is taken for this too"),
    ("Ø6 THRU, R3 4X", "mm", "the count 4 is taken for this too"),
    ("4X6.6", "mm", "a count has its blank after the x alone"),
]


@pytest.mark.parametrize(("callout", "unit", "said"), TOLD, ids=[row[0] for row in TOLD])
def test_what_may_be_meant_otherwise_is_told(callout: str, unit: Unit, said: str) -> None:
    assert any(said in remark.text for remark in answer(callout, Context(unit)).remarks)


def test_what_looks_alike_and_is_one_thing_reads() -> None:
    for callout in ("25.1/24.9", "R3\nR5", "Ø20\nØ5", "25.4 [1.000]", "25.4 TO 1.00", "44°/45°", "Ø12 H7 (E)"):
        assert answer(callout, Context()).error is None, callout


# Ways of typing seen on drawings (common practice, no source): (callout, lower, upper)
BOUNDS = [("≤3.5", None, "3.5"), ("≥ 12", "12", None), ("<= 3.5", None, "3.5"), (">=0.4", "0.4", None)]


@pytest.mark.parametrize(("callout", "lower", "upper"), BOUNDS)
def test_a_sign_of_comparison_is_a_bound(callout: str, lower: str | None, upper: str | None) -> None:
    (made,) = answer(callout, Context()).characteristics
    assert made.size is not None
    assert [lower, upper] == [None if bound is None else str(bound) for bound in (made.size.lower, made.size.upper)]


# Other words for what reads (common practice, no source): (callout, unit, the same in the usual way)
ALIKE: list[tuple[str, Unit, str]] = [
    ("4.500 OD", "inch", "4.500 DIA"),
    ("1.500 I.D.", "inch", "1.500 DIA"),
    ("TAPER 1/20", "mm", "TAPER 1:20"),
    ("TAPER 1 IN 20", "mm", "TAPER 1:20"),
    ("4x Ø5 EQUI-SPACED ON Ø50 PCD", "mm", "4x Ø5 EQ SP ON Ø50 PCD"),
    ("POS | DIA 0.2 MMC | A | B | C", "mm", "|⌖|Ø0.2(M)|A|B|C|"),
    ("2-Ø10 H7 THRU", "mm", "2x Ø10 H7 THRU"),
]


@pytest.mark.parametrize(("callout", "unit", "usual"), ALIKE, ids=[row[0] for row in ALIKE])
def test_another_word_means_the_same(callout: str, unit: Unit, usual: str) -> None:
    assert answer(callout, Context(unit)).characteristics == answer(usual, Context(unit)).characteristics


def test_typ_before_a_chamfer_or_a_hole_holds_for_all_of_it() -> None:
    for callout in ("TYP 2 X 45°", "TYP Ø6 THRU ⌴ Ø11 ↧6"):
        assert {made.count for made in answer(callout, Context()).characteristics} == {None}, callout


def test_the_repeated_part_of_a_total_angle_is_an_angle() -> None:
    part, total = answer("6x60° (=360°)", Context()).characteristics
    assert (part.kind, part.count, part.unit) == ("angle", 6, "deg")
    assert (total.kind, total.status.value) == ("angle", "reference")
