"""Callouts in the other unit and practice: what meets the new text meets the old one."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from sizewright.notation.read import read_callout, read_general
from sizewright.resolve.answer import answer
from sizewright.resolve.context import Context, Manner, Unit
from sizewright.resolve.restate import restate
from sizewright.resolve.units import convert

from ..support import callout_rows


def restated(callout: str, context: Context, unit: Unit, manner: Manner | None = None) -> tuple[str, tuple[str, ...]]:
    reading = read_callout(callout)
    made = restate(
        reading.callout, reading.source.folded, context, manner or ("asme" if unit == "inch" else "iso"), unit
    )
    return made.text, made.remarks


# ISO 129-1 and ASME Y14.5 for marks, zeros and order; limits by hand, 1 in = 25.4 mm. (callout, from, to, text)
ROWS: list[tuple[str, Unit, Unit, str]] = [
    ("25 ±0.1", "mm", "inch", ".9843 ±.0038"),
    ("10 +0.2/+0.1", "mm", "inch", ".3937 +.0078/+.0040"),
    ("25.1/24.9", "mm", "inch", ".9804-.9881"),
    ("Ø25 H7", "mm", "inch", "Ø.98426-.98507"),
    ("R5 MAX", "mm", "inch", "R.1968 MAX"),
    ("12 MIN", "mm", "inch", ".4725 MIN"),
    ("4x Ø6.6 THRU", "mm", "inch", "4X Ø.260 THRU"),
    ("30° ±0°30'", "mm", "inch", "30° ±0°30'"),
    ("(84)", "mm", "inch", "(3.307)"),
    ("[25.4]", "mm", "inch", "[1.0000]"),
    ("1 x 45°", "mm", "inch", ".039 X 45°"),
    ("M10", "mm", "inch", "M10X1.5"),
    ("Ø25 H7/g6", "mm", "inch", "Ø25 mm H7/g6"),
    ("R 1/4", "mm", "inch", "ISO 7 R 1/4"),
    ("ALL DIMENSIONS IN MM", "mm", "inch", "ALL DIMENSIONS IN INCHES"),
    ("Ø9 THRU ⌴ Ø14 ↧8 +0.2/0", "mm", "inch", "Ø.354 THRU; ⌴ Ø.551 ↧.3150 +.0078/-.0000"),
    (".750 ±.001", "inch", "mm", "19,050 ±0,025"),
    ("1-1/2", "inch", "mm", "38,1"),
    ("2'-6\"", "inch", "mm", "762"),
    ("Ø1.250 RC4 HOLE", "inch", "mm", "Ø31,790/31,750"),
    ("Ø1.250 RC4", "inch", "mm", 'Ø1.250" RC4'),
    ("1/4-20 UNC-2B", "inch", "mm", "1/4-20 UNC-2B"),
    ("25 ±0.1", "mm", "mm", "25 ±0,1"),
    (".750 ±.001", "inch", "inch", ".750 ±.001"),
    ("10 ±0", "mm", "inch", "10 mm ±0"),
]  # fmt: skip


@pytest.mark.parametrize(("callout", "unit", "to", "text"), ROWS, ids=[f"{row[0]} to {row[2]}" for row in ROWS])
def test_a_callout_is_written_the_other_way(callout: str, unit: Unit, to: Unit, text: str) -> None:
    assert restated(callout, Context(unit), to)[0] == text


def test_what_the_other_way_cannot_say_is_told() -> None:
    assert "the class belongs to the other unit" in restated("Ø25 H7", Context(), "inch")[1][0]
    assert "a fit is kept in its own unit" in restated("Ø25 H7/g6", Context(), "inch")[1]
    assert "a basic size is exact" in restated("[25]", Context(), "inch")[1][0]
    general = Context("mm", "iso", read_general("ISO 2768-m"))
    text, remarks = restated("120", general, "inch")
    assert text == "4.724 ±.011"
    assert "the general tolerance is written out: ISO 2768-1 class m" in remarks[0]


def _bounds(callout: str, context: Context) -> list[tuple[Fraction | None, Fraction | None]]:
    given = answer(callout, context)
    assert given.error is None, (callout, given.error)
    sizes = [made for made in given.characteristics if made.unit in ("mm", "inch") and made.size is not None]
    return [
        tuple(None if bound is None else convert(bound, made.unit, "mm") for bound in made.size[1:])  # type: ignore[misc]
        for made in sizes
        if made.size is not None
    ]


@settings(max_examples=300, deadline=None)
@given(
    st.decimals(Decimal("2"), Decimal("900"), places=3),
    st.decimals(Decimal("0.002"), Decimal("0.9"), places=3),
    st.sampled_from(["{} ±{}", "{} +{}/0", "Ø{} 0/-{}", "{} +{}/-0.001"]),
    st.sampled_from([("mm", "inch"), ("inch", "mm")]),
)
def test_new_limits_lie_inside_the_old_ones(
    size: Decimal, tolerance: Decimal, form: str, units: tuple[Unit, Unit]
) -> None:
    callout = form.format(size, tolerance)
    (old,) = _bounds(callout, Context(units[0]))
    text, _ = restated(callout, Context(units[0]), units[1])
    (new,) = _bounds(text, Context(units[1]))
    assert old[0] is not None
    assert old[1] is not None
    assert new[0] is not None
    assert new[1] is not None
    assert old[0] <= new[0] <= new[1] <= old[1]


def test_every_known_callout_is_restated_to_one_that_reads_with_limits_inside() -> None:
    for row in callout_rows():
        unit: Unit = "inch" if row["unit"] == "inch" else "mm"
        other: Unit = "mm" if unit == "inch" else "inch"
        text, _ = restated(row["callout"], Context(unit), other)
        given = answer(text, Context(other))
        assert given.error is None, (row["callout"], text, given.error)
        kinds = [made.kind for made in answer(row["callout"], Context(unit)).characteristics]
        assert sorted(kinds) == sorted(made.kind for made in given.characteristics), (row["callout"], text)
        for old, new in zip(_bounds(row["callout"], Context(unit)), _bounds(text, Context(other)), strict=False):
            assert old[0] is None or (new[0] is not None and old[0] <= new[0]), (row["callout"], text)
            assert old[1] is None or (new[1] is not None and new[1] <= old[1]), (row["callout"], text)
