"""Holes and cut-outs: which number is what, how often it occurs, drills by name."""

from __future__ import annotations

import pytest

from sizewright.resolve.answer import answer
from sizewright.resolve.context import Context, Unit

from .test_answers import meaning


def short(callout: str, unit: Unit) -> str:
    """The characteristics of a callout as `count kind nominal`."""
    parts = (part.split(" | ") for part in meaning(callout, unit))
    return "; ".join(f"{head} {nominal.split(' ')[0]}" for head, nominal, *_ in parts)


# ASME Y14.5 and ISO 15786 symbols, and the words for them as people type them (common practice, no source).
# (callout, unit, what it asks for)
HOLES: list[tuple[str, Unit, str]] = [
    # common practice, no source: a count may have a dash, may stand last, and holds for what belongs to the hole
    ("6-Ø6.6 THRU", "mm", "6 diameter 6.6"),
    ("4-6.5キリ", "mm", "4 diameter 6.5"),
    ("Ø6 4X ↧12", "mm", "4 diameter 6; 4 depth 12"),
    ("Ø6.6 THRU 4X\n⌴ Ø11 ↧6.4", "mm", "4 diameter 6.6; 4 counterbore diameter 11; 4 counterbore depth 6.4"),
    ("Ø6.6 4 PLACES CSK Ø10 X 90°", "mm", "4 diameter 6.6; 4 countersink diameter 10; 4 countersink angle 90"),
    ("Ø6.6 4X ⌖ Ø0.2 A B", "mm", "4 diameter 6.6; 4 position -"),
    ("82° CSK .385 DIA", "inch", "1 countersink angle 82; 1 countersink diameter 0.385"),
    (".281 THRU C'BORE .438 X .25 DP", "inch",
     "1 diameter 0.281; 1 counterbore diameter 0.438; 1 counterbore depth 0.25"),
    ("4X Ø.250 THRU; ⌴ Ø.438 ↧.25", "inch", "4 diameter 0.250; 4 counterbore diameter 0.438; 4 counterbore depth 0.25"),
    ("4X .266 DIA THRU, .438 CBORE .250 DEEP", "inch",
     "4 diameter 0.266; 4 counterbore diameter 0.438; 4 counterbore depth 0.250"),
    (".266 DRILL .438 C'BORE .25 DP", "inch",
     "1 diameter 0.266; 1 counterbore diameter 0.438; 1 counterbore depth 0.25"),
    ("CBORE 14 X 8", "mm", "1 counterbore diameter 14; 1 counterbore depth 8"),
    ("CBORE ↧8", "mm", "1 counterbore depth 8"),
    ("Ø9 ⌴ Ø14 ↧8 Ø5 ↧20", "mm",
     "1 diameter 9; 1 counterbore diameter 14; 1 counterbore depth 8; 1 diameter 5; 1 depth 20"),
    ("4x Ø9 ↧20 ⌴ Ø14 ↧8 BOTH SIDES", "mm",
     "4 diameter 9; 4 depth 20; 8 counterbore diameter 14; 8 counterbore depth 8"),
    ("Ø.500 -Ø.750 C'BORE X .375 DP", "inch",
     "1 diameter 0.500; 1 counterbore diameter 0.750; 1 counterbore depth 0.375"),
    (".201 DIA CSK .385 DIA X 82 DEG", "inch",
     "1 diameter 0.201; 1 countersink diameter 0.385; 1 countersink angle 82"),
    ("Ø5.5 CSK 10.4 x 90°", "mm", "1 diameter 5.5; 1 countersink diameter 10.4; 1 countersink angle 90"),
    ("82° CSK TO .385 DIA", "inch", "1 countersink angle 82; 1 countersink diameter 0.385"),
    ("C'SINK TO Ø10 X 90°", "mm", "1 countersink diameter 10; 1 countersink angle 90"),
    ("CSK 90° Ø12", "mm", "1 countersink angle 90; 1 countersink diameter 12"),
    ("CSK D7/90 ↧1.6", "mm", "1 countersink diameter 7; 1 countersink angle 90; 1 countersink depth 1.6"),
    ("SPOTFACE Ø20", "mm", "1 spotface diameter 20; 1 spotface depth -"),
    ("SPOTFACE Ø20 X 1 DEEP", "mm", "1 spotface diameter 20; 1 spotface depth 1"),
    ("Ø10 CDRILL Ø12 ↧4", "mm", "1 diameter 10; 1 counterdrill diameter 12; 1 counterdrill depth 4"),
    ("#7 DRILL THRU", "inch", "1 diameter 0.2010"),
    ("DRILL #7 THRU", "inch", "1 diameter 0.2010"),
    ("C DRILL", "inch", "1 diameter 0.242"),
    ("#7 DRILL", "mm", "1 diameter 5.10540"),
    ("DRILL AND REAM .250", "inch", "1 diameter 0.250"),
    ("BORE Ø25 H7 ↧20", "mm", "1 diameter 25; 1 depth 20"),
    ("THRU HOLE Ø5", "mm", "1 diameter 5"),
    ("SLOT 6 WIDE x 20 LONG x 4 DEEP", "mm", "1 slot width 6; 1 slot length 20; 1 slot depth 4"),
    ("6 WIDE SLOT 20 LONG", "mm", "1 slot width 6; 1 slot length 20"),
    ("2x SLOT 6 x 20", "mm", "2 slot width 6; 2 slot length 20"),
    ("KEYWAY 8 P9 x 4", "mm", "1 keyway width 8; 1 keyway depth 4"),
    ("KEYWAY 8 WIDE 4 DEEP 30 LONG", "mm", "1 keyway width 8; 1 keyway depth 4; 1 keyway length 30"),
    ("O-RING GROOVE 3.6 WIDE x 2.1 DEEP", "mm", "1 groove width 3.6; 1 groove depth 2.1"),
    ("GROOVE 1.6 H13 x Ø23.9", "mm", "1 groove width 1.6; 1 groove diameter 23.9"),
    ("6 HOLES EQ SP ON Ø80 BC", "mm", "1 bolt circle diameter 80"),
    ("4X Ø5 EQUALLY SPACED ON Ø40 PCD", "mm", "4 diameter 5; 1 bolt circle diameter 40"),
    ("4X Ø5 ON Ø40", "mm", "4 diameter 5; 1 bolt circle diameter 40"),
    ("X 24.50 Y -190.10", "mm", "1 length 24.50; 1 length -190.10"),
]  # fmt: skip


@pytest.mark.parametrize(("callout", "unit", "expected"), HOLES, ids=[row[0] for row in HOLES])
def test_each_number_is_what_it_says(callout: str, unit: Unit, expected: str) -> None:
    assert short(callout, unit) == expected


# (callout, part of the error)
REFUSED = [
    ("CBORE 14 X 8 X 3", "one number more beside a counterbore"),
    ("CSK R5", "a radius beside a countersink"),
    ("⌴ Ø14 x 90°", "an angle beside a counterbore"),
    ("#99 DRILL", "no drill is called #99"),
    ("4x Ø5 ON R5", "does not read here"),
    ("⌴ ⌵ Ø5", "does not read here"),
]


@pytest.mark.parametrize(("callout", "said"), REFUSED)
def test_what_does_not_belong_is_refused(callout: str, said: str) -> None:
    error = answer(callout, Context()).error
    assert error is not None
    assert said in error.message


def test_a_drill_that_is_not_what_is_typed_is_told() -> None:
    given = answer("4x Ø5.5 (#2 DRILL)", Context())
    assert [made.nominal for made in given.characteristics] == [given.characteristics[0].nominal]
    assert any("drill #2 is 5.61340 mm" in remark.text for remark in given.remarks)


def test_what_is_cut_into_a_part_is_inside() -> None:
    for callout in ("Ø5 DRILL", "⌴ Ø14", "SLOT 6 x 20", "Ø5 CSK Ø10", "HOLE Ø5"):
        assert answer(callout, Context()).characteristics[0].side == "internal", callout
    assert answer("Ø12 SHAFT", Context()).characteristics[0].side == "external"
