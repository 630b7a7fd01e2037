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
    ("25mm ±0.1mm", "inch", "mm", "25 ±0,1"),
    # Texture: 1 µm is 39.3700787 µin, bounds inward
    ("Ra 1.6", "mm", "inch", "Ra 62.9 µin"),
    ("Ra 2.54", "mm", "inch", "Ra 100 µin"),
    ("L Ra 0.8", "mm", "inch", "Ra 31.5 µin MIN"),
    ("Ra 0.8-0.4", "mm", "inch", "Ra 15.8-31.4 µin"),
    ("32 Ra", "inch", "mm", "Ra 0,812 µm"),
    ("Ra 63 µin", "mm", "inch", "Ra 63 µin"),
    ("Ra 1.6 µm", "inch", "mm", "Ra 1,6 µm"),
    ("N7", "mm", "inch", "N7"),
    ("Rsk 0.5", "mm", "inch", "Rsk 0.5"),
    ("Rku 3", "inch", "mm", "Rku 3"),
    ("RSm 0.1 mm", "mm", "inch", "RSm 0.1 mm"),
    ("Ra 0.001", "mm", "inch", "Ra 0.001 µm"),
    # Frames: the zone down, what lies about it to the nearest
    ("⌖ Ø0.5 Ⓟ 25 A B", "mm", "inch", "|⌖|Ø.0196 (P) .984|A|B|"),
    ("|⌖|Ø.010(M)|A|", "inch", "mm", "|⌖|Ø0,254 (M)|A|"),
    ("|⌖|Ø.010in|A|", "mm", "inch", "|⌖|Ø.010|A|"),
    ("⏥ 0.1/25x30", "mm", "inch", "|⏥|.0039/.984 X 1.181|"),
    ("FLATNESS .002/1.00", "inch", "mm", "|⏥|0,050/25,40|"),
    ("⏥ 0.003", "mm", "inch", "|⏥|.0001|"),
    ("⏥ 0.002", "mm", "inch", "|⏥|0.002 mm|"),
    ("⏥ 0.002/25x25", "mm", "inch", "|⏥|0.002 mm/25 mm X 25 mm|"),
    ("⌖ Ø0.002 Ⓟ 25 A", "mm", "inch", "|⌖|Ø0.002 mm (P) 25 mm|A|"),
    ("⏥ .00001", "inch", "mm", "|⏥|0.00001\"|"),
    ("|⌖|Ø0(M)|A|", "mm", "inch", "|⌖|Ø.0000 (M)|A|"),
    ("Ø12/A1", "mm", "inch", "DATUM TARGET A1 Ø.472"),
    ("10x20/B2", "mm", "inch", "DATUM TARGET B2 .394 X .787"),
    ("Ø.5in/A1", "mm", "inch", "DATUM TARGET A1 Ø.5"),
    ("DATUM TARGET A1", "mm", "inch", "DATUM TARGET A1"),
    # What keeps its unit says so, and a unit typed stays
    ("CASE DEPTH 0.5", "mm", "inch", "CASE DEPTH 0.5 mm"),
    ("CASE DEPTH .020 in", "mm", "inch", "CASE DEPTH 0.020 in"),
    ("ISO 13715 -0.3", "mm", "mm", "ISO 13715 -0,3"),
    ("R0.01", "mm", "inch", "R0.01 mm"),
    ("0.01 x 45°", "mm", "inch", "0.01 mm X 45°"),
    (".0001", "inch", "mm", '0.0001"'),
    ("2x 0.01 x 45°", "mm", "inch", "2X 0.01 mm X 45°"),
]  # fmt: skip


@pytest.mark.parametrize(("callout", "unit", "to", "text"), ROWS, ids=[f"{row[0]} to {row[2]}" for row in ROWS])
def test_a_callout_is_written_the_other_way(callout: str, unit: Unit, to: Unit, text: str) -> None:
    assert restated(callout, Context(unit), to)[0] == text
    given = answer(text, Context(to))
    assert given.error is None, given.error


# What changes nothing, or keeps its unit because it was typed, has nothing to remark.
@pytest.mark.parametrize("callout", ["Ra 63 µin", "N7", "CASE DEPTH .020 in", "|⌖|Ø.010in|A|", "DATUM TARGET A1"])
def test_what_stays_as_it_is_has_no_remark(callout: str) -> None:
    assert restated(callout, Context(), "inch")[1] == ()


def test_what_the_other_way_cannot_say_is_told() -> None:
    assert "the class belongs to the other unit" in restated("Ø25 H7", Context(), "inch")[1][0]
    assert "a fit is kept in its own unit" in restated("Ø25 H7/g6", Context(), "inch")[1]
    assert "a basic size is exact" in restated("[25]", Context(), "inch")[1][0]
    general = Context("mm", "iso", read_general("ISO 2768-m"))
    text, remarks = restated("120", general, "inch")
    assert text == "4.724 ±.011"
    assert "the general tolerance is written out: ISO 2768-1 class m" in remarks[0]


def test_a_general_tolerance_never_becomes_none_at_all() -> None:
    """0.001 mm is 0.00003937 in: rounded inward to the places of an inch sheet it would be nothing."""
    assert restated("LINEAR ±0.1", Context(), "inch")[0] == "LINEAR ±.0039"
    text, remarks = restated("LINEAR ±0.001", Context(), "inch")
    assert text == "LINEAR ±0.001 mm"
    assert remarks == ("too small for the places of the other unit: kept in its own unit",)


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
