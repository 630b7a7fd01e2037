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
    # two sizes with a mark each, or two limits
    ("Ø10/Ø20", "mm", "two sizes about a stroke"),
    ("Ø10.0/Ø10.5", "mm", "two sizes about a stroke"),
    ("Ø6.6 / Ø11 CBORE ↧6.4", "mm", "two sizes about a stroke"),
    ("Ø25.02/Ø25.00/Ø24.98", "mm", "a third limit"),
    ("□12.7/Ø12.6", "mm", "do not go together"),
    # an amount on a length, or two limits
    ("⏥ 0.05; 0.02/100", "mm", "can be an amount on a length"),
    ("0.05/100", "mm", "can be an amount on a length"),
    # two bounds that are not those of one size
    ("100 MAX 0.5 MIN", "mm", "a MAX and a MIN side by side"),
    ("30° MAX 5 MIN", "mm", "a MAX and a MIN side by side"),
    ("MAX 24.98 MIN 25.02", "mm", "the MAX is below the MIN"),
    # a drill's letter beside what is no diameter
    ("Ø3.8 THRU; CSK Ø7/90(M) ↧1.6", "mm", "an angle beside the drill M"),
    # a mark's point, or the figure's
    ("O.A.L.10", "mm", "does not read"),
    ("I.D.250", "mm", "does not read"),
    ("A.F.5", "mm", "does not read"),
    ("LENGTH,10", "mm", "does not read"),
    # a count, or a class behind a dash
    ("4-D10", "mm", "does not read"),
    ("20-r6", "mm", "does not read"),
    ("20-R7", "mm", "does not read"),
    ("20-C9", "mm", "does not read"),
    ("100-R8", "mm", "does not read"),
    # two diameters, or the limits of one
    ("25 OD/20 ID", "mm", "both an outside and an inside diameter"),
    ("1 1/2 OD x 1 ID", "mm", "do not go together"),
    # the limits of one size, or two sizes
    ("0.4 MAX R MIN 0.2", "mm", "a MAX and a MIN side by side"),
    (".752 MAX .748 MIN DIA", "inch", "a MAX and a MIN side by side"),
    ("Ø6.6 / 11 C'BORE", "mm", "two sizes about a stroke"),
    ("4X Ø6 ON 20 CTRS", "mm", "a distance of centres"),
    # a drill in inches with a tolerance in millimetres
    ("25/64 DRILL ±0.1", "mm", "a bare fraction on a metric drawing"),
    # how often, for which of them
    ("Ø10; R5\n4 PLACES", "mm", "how often, for which of them"),
    ("Ø10\n2X R5\n4 PLACES", "mm", "how often, for which of them"),
    ("M6 THRU DRILL ↧16", "mm", "a depth on a thread that goes through"),
    ("M6 DRILL 16 DEEP", "inch", "a thread in mm and a depth of 16 inch"),
    # a chamfer, or a count that has lost the blank after its x
    ("12x30° TYP", "mm", "angles that make a full turn"),
    ("4X6", "mm", "the x can mean a count"),
    ("10x20", "mm", "the x can mean a count"),
    ("2X 4X6.6", "mm", "a second count"),
    ("6x60°", "mm", "angles that make a full turn"),
    ("8X45°", "mm", "angles that make a full turn"),
    ("4x45", "mm", "the degree mark after 45 is missing"),
    ("12X12", "mm", "the x can mean a count"),
    # a drill's depth, or the thread's
    ("M6 ↧12 DRILL", "mm", "the depth of the thread, or of its drill"),
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
    ("4X6.6", "mm", "a count: two sizes have blanks on both sides of the x"),
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
    ("4.500 OD", "inch", "OD 4.500"),
    ("1.500 I.D.", "inch", "ID 1.500"),
    ("25.4 O.D. ±0.1", "mm", "OD 25.4 ±0.1"),
    ("Ø25.021 / Ø25.000", "mm", "Ø25.021/25.000"),
    ("R5.1/R4.9", "mm", "R5.1/4.9"),
    ("2X Ø8.02/Ø8.00 THRU", "mm", "2X Ø8.02/8.00 THRU"),
    ("MAX 25.02 MIN 24.98", "mm", "25.02/24.98"),
    ("MIN 24.98 MAX 25.02", "mm", "25.02/24.98"),
    ("25.02 MAX 24.98 MIN", "mm", "25.02/24.98"),
    ("Ø.752 MAX .748 MIN", "inch", "Ø.752/.748"),
    ("Ø20-H7", "mm", "Ø20 H7"),
    ("Ø20 - h6", "mm", "Ø20 h6"),
    ("Ø20-H7/g6", "mm", "Ø20 H7/g6"),
    ("Ø6 DP12", "mm", "Ø6 ↧12"),
    ("Ø6 DEEP12", "mm", "Ø6 ↧12"),
    ("R MAX 0.4", "mm", "R0.4 MAX"),
    ("Ø MIN 10", "mm", "Ø10 MIN"),
    ("13 HEX", "mm", "13 A/F"),
    ("13 A.F.", "mm", "13 A/F"),
    ('"F" DRILL', "mm", "F DRILL"),
    ("C 0.5", "mm", "C0.5"),
    ("2X C 0.5", "mm", "2X C0.5"),
    ("2 x 1 x 45°", "mm", "2X 1 x 45°"),
    ("4-R3", "mm", "4X R3"),
    ("ID.250", "inch", "Ø.250 ID"),
    ("OD.5 x ID.25", "inch", "OD .5; ID .25"),
    ("TYP.250", "inch", "TYP .250"),
    ("C/C.750", "inch", "C/C .750"),
    ("4X6.6 THRU ⌴ Ø11 ↧6", "mm", "4X 6.6 THRU ⌴ Ø11 ↧6"),
    ("4X6.6 ↧12", "mm", "4X 6.6 ↧12"),
    ("MAX 25.02 / MIN 24.98", "mm", "25.02/24.98"),
    ("25.02 MAX 24.98 MIN TYP", "mm", "25.02/24.98 TYP"),
    ("Ø25.02/Ø25.00 mm", "mm", "Ø25.02/25.00 mm"),
    ("25 OD h6", "mm", "OD 25 h6"),
    ("5.0 TAP DRILL", "mm", "Ø5.0 TAP DRILL"),
    ("4X6.6", "mm", "4X 6.6"),
    ("DRILL Ø6.8 ↧20, TAP M8 ↧16", "mm", "DRILL Ø6.8 ↧20; M8 TAP ↧16"),
    (".201 DRILL, TAP 1/4-20 UNC-2B", "inch", ".201 DRILL; 1/4-20 UNC-2B TAP"),
    ("6.8 DRILL & TAP M8", "mm", "6.8 DRILL; M8 TAP"),
    ("Ø6.8 DRILL, TAP M8", "mm", "Ø6.8 DRILL; M8 TAP"),
    ("25 ±0.1, DRILL & TAP M8", "mm", "25 ±0.1; M8 TAP"),
    ("#7 DRILL, TAP 1/4-20", "inch", "#7 DRILL; 1/4-20 TAP"),
    ("4X Ø6.6\nTHRU", "mm", "4X Ø6.6 THRU"),
    ("25 ±0.1\nTYP", "mm", "25 ±0.1 TYP"),
    ("2 x 45°\nTYP", "mm", "2 x 45° TYP"),
    ("Ø6.6\n4 PLACES", "mm", "4X Ø6.6"),
    ("DRILL 6.6 THRU\n4 HOLES", "mm", "4X DRILL 6.6 THRU"),
    ("6.6 DRILL\nC'BORE 11 DIA\n6.5 DEEP\n4 HOLES", "mm", "4X 6.6 DRILL\n⌴ Ø11 ↧6.5"),
    ("1/4-20 UNC-2B\n.50 DEEP\n4 HOLES", "inch", "4X 1/4-20 UNC-2B ↧.50"),
    ("Ø10\nR5\n4 PLACES", "mm", "4X Ø10\nR5"),
    ("(30° ±1/2°)", "inch", "(30° ±0.5°)"),
    ("ANGLES ±1/2°", "inch", "ANGLES ±0.5°"),
    ("1.000 ±.005 (2 PL)", "inch", "2X 1.000 ±.005"),
    (".06 X 45° CHAM 2 PL", "inch", "2X .06 X 45°"),
    (".03 MAX R", "inch", ".03 R MAX"),
    ("0.4 MAX R TYP", "mm", "R0.4 MAX TYP"),
    ("25 OD x 20 ID ±0.1", "mm", "25 OD; 20 ID ±0.1"),
    ("2x.250", "inch", "2X .250"),
    ("4x25.02/25.00", "mm", "4X 25.02/25.00"),
    ("4-C0.5", "mm", "4X C0.5"),
    ("8 WIDE SLOT", "mm", "SLOT 8 WIDE"),
    ("GEN TOL ±0.1", "mm", "GENERAL TOLERANCE ±0.1"),
    ("GEN. TOL. ±0.1", "mm", "GENERAL TOLERANCE ±0.1"),
    ("3/8 DRILL", "mm", '3/8" DRILL'),
    ("DRILL 25/64", "mm", 'DRILL 25/64"'),
    ("120 O.A.L.", "mm", "120 LONG"),
    ("OAL 120 ±0.5", "mm", "LONG 120 ±0.5"),
    ("LENGTH 10 ±0.1", "mm", "10 ±0.1 LONG"),
    ("HEIGHT 10", "mm", "10 LONG"),
    ("10 HIGH", "mm", "10 LONG"),
    ("20 ±0.1 CTRS", "mm", "20 ±0.1"),
    ("20 BETWEEN CENTRES", "mm", "20"),
    ("20 C/C", "mm", "20"),
    ("%%c10 %%p0.1", "mm", "Ø10 ±0.1"),
    ("30%%d", "mm", "30°"),
    ("Ø5 TAP DRILL ↧12", "mm", "TAP DRILL Ø5 ↧12"),
    ("Ø6.6 THRU / ⌴ Ø11 ↧6.4", "mm", "Ø6.6 THRU ⌴ Ø11 ↧6.4"),
    ("Ø6.6 THRU / C'BORE Ø11 ↧6.4", "mm", "Ø6.6 THRU ⌴ Ø11 ↧6.4"),
    ("M6 12 DEEP DRILL 16 DEEP", "mm", "M6 ↧12 PILOT HOLE ↧16"),
    ("M6 ↧12, DRILL ↧16", "mm", "M6 ↧12 PILOT HOLE ↧16"),
    ("M6-6H ↧12 DRILL Ø5 ↧16", "mm", "M6-6H ↧12; Ø5 ↧16 DRILL"),
    ("TAPER 1/20", "mm", "TAPER 1:20"),
    ("TAPER 1 IN 20", "mm", "TAPER 1:20"),
    ("4x Ø5 EQUI-SPACED ON Ø50 PCD", "mm", "4x Ø5 EQ SP ON Ø50 PCD"),
    ("POS | DIA 0.2 MMC | A | B | C", "mm", "|⌖|Ø0.2(M)|A|B|C|"),
    ("2-Ø10 H7 THRU", "mm", "2x Ø10 H7 THRU"),
]


@pytest.mark.parametrize(("callout", "unit", "usual"), ALIKE, ids=[row[0] for row in ALIKE])
def test_another_word_means_the_same(callout: str, unit: Unit, usual: str) -> None:
    assert answer(callout, Context(unit)).characteristics == answer(usual, Context(unit)).characteristics


def test_limits_of_a_class_in_the_other_unit_are_the_second_dimension() -> None:
    # ISO 286: 25 H7 is 25.000 to 25.021, 12 g6 11.983 to 11.994 mm; in inches by 25.4, to four places
    for callout, warned in (
        ("Ø25 H7 [.9851/.9843]", False),
        ("Ø12 g6 [.4722/.4718]", False),
        ("Ø25 H7 (.9851/.9843)", False),
        ("Ø25 H7 [.9861/.9843]", True),
    ):
        given = answer(callout, Context())
        (made,) = given.characteristics
        assert made.status.value == "toleranced", callout
        assert any("second dimension's limits" in remark.text for remark in given.remarks) is warned, callout


def test_od_and_id_tell_the_side() -> None:
    for callout, side in (
        ("25 OD", "external"),
        ("OD 25", "external"),
        ("25 I.D.", "internal"),
        ("Ø25 ID", "internal"),
    ):
        assert [made.side for made in answer(callout, Context()).characteristics] == [side], callout


def test_typ_before_a_chamfer_or_a_hole_holds_for_all_of_it() -> None:
    for callout in ("TYP 2 X 45°", "TYP Ø6 THRU ⌴ Ø11 ↧6"):
        assert {made.count for made in answer(callout, Context()).characteristics} == {None}, callout


def test_the_repeated_part_of_a_total_angle_is_an_angle() -> None:
    part, total = answer("6x60° (=360°)", Context()).characteristics
    assert (part.kind, part.count, part.unit) == ("angle", 6, "deg")
    assert (total.kind, total.status.value) == ("angle", "reference")


@pytest.mark.parametrize(
    "callout",
    ["4 HOLES.250 DIA", "4 PLACES.250 DIA", "4 PL.250", "2 OFF.250", "CSK.385", "SF.750", "S.F.750", "BC.750",
     "B.C.750", "P.C.D.750", "KW.25 X .12", "12 GA.105", "25 ±5%", "25 ± 1 %"],
)  # fmt: skip
def test_a_point_that_two_may_own_and_a_share_of_a_size_are_refused(callout: str) -> None:
    """An inch size has no zero before its point (ASME Y14.5): read as 250 in, it would be a thousand times as large."""
    assert answer(callout, Context("inch")).error is not None


@pytest.mark.parametrize(
    "callout",
    [
        "Ø25.000\n24.987 h6",
        "Ø25.000\n24.987 g6",
        "Ø25,021\n25,000 H7",
        "25.021\nØ25.000 H7",
        "Ø1.0000\n.9995 RC4",
        "Ø1.0000\n.9995 h6",
    ],
)
def test_two_limits_below_each_other_with_their_class_are_not_two_sizes(callout: str) -> None:
    assert answer(callout, Context()).error is not None


CLASS_OR_NOTE = [
    "17 A/F M10", "Ø8 4 HOLES M6", "Ø8 TYP M6", "Ø20 REAM M8", "Ø50 PCD M6", "PCD 50 M6", "CBORE Ø11 M6", "SF Ø20 M6",
    "CSK Ø10 M6", "□10 M6", "Ø6.6 THRU N7", "SF Ø20 N7", "Ø20 h6 / C1", "Ø20 h6 / R3", "Ø20 h6 / M8", "Ø20 h6\nN7",
    "Ø20 h6 / N7", "Ø20 h6 / G1", "Ø6 A1", "Ø12 B2", "Ø20 C1",
]  # fmt: skip


@pytest.mark.parametrize("callout", CLASS_OR_NOTE)
def test_what_may_be_a_note_of_its_own_is_no_class(callout: str) -> None:
    """A thread, a roughness grade (ISO 1302, from memory), a chamfer, a radius, a datum target: common practice."""
    assert answer(callout, Context()).error is not None


# class where it is usual: right behind its number, the hole's before the shaft's
@pytest.mark.parametrize(
    ("callout", "class_"),
    [("Ø20 M7", "M7"), ("4x Ø20 M8", "M8"), ("Ø20 N7", "N7"), ("KEYWAY 10 N9 X 5 DEEP", "N9"), ("Ø20 C11", "C11")],
)
def test_a_class_right_behind_its_number_is_one(callout: str, class_: str) -> None:
    assert answer(callout, Context()).characteristics[0].class_ == class_


# callout, how often each characteristic occurs: a count goes with the feature beside it
COUNTS: list[tuple[str, list[int]]] = [
    (".257 THRU 4 PL, .250 REAM 2 PL", [4, 2]),
    ("R3 4 PLCS, R5 2 PLCS", [4, 2]),
    ("R3 4 PLCS, R5, R6 2 PLCS", [4, 2, 2]),
    ("M6 THRU 4 HOLES, M8 ↧16 2 HOLES", [4, 2, 2]),
    ("25 ±0.1, 6 HOLES Ø5", [1, 6]),
    ("Ø50 PCD, 6 HOLES Ø5", [1, 6]),
    ("R3, 4 PLACES Ø6", [1, 4]),
    (".257 THRU, 4 PL CBORE .44 ↧.25", [4, 4, 4]),
    ("Ø6.6 THRU, 4 PLACES", [4]),
]


@pytest.mark.parametrize(("callout", "counts"), COUNTS)
def test_a_count_is_that_of_the_feature_beside_it(callout: str, counts: list[int]) -> None:
    given = answer(callout, Context())
    assert [each.count for each in given.characteristics] == counts, given.error


@pytest.mark.parametrize("callout", ["25 ±0.1, R3 TYP", "Ø20 h6, R3 TYP"])
def test_typ_that_reaches_a_feature_before_is_told(callout: str) -> None:
    assert any("TYP is taken for this too" in remark.text for remark in answer(callout, Context()).remarks)


@pytest.mark.parametrize("callout", ["25 ± 30", "10 +50/-20", ".500 ± 5"])
def test_a_length_below_zero_is_questioned(callout: str) -> None:
    assert any("is a decimal mark missing" in remark.text for remark in answer(callout, Context()).remarks)
