"""Surface texture as typed: bounds, unit, parameter and the acceptance rule."""

from __future__ import annotations

from decimal import Decimal

import pytest

from sizewright.resolve.answer import answer
from sizewright.resolve.context import Context, Manner, Unit
from sizewright.standards import texture as series
from sizewright.standards.errors import NotDefined

D = Decimal

# (callout, unit of the sheet, parameter, lower, upper, unit, rule). Sources: ISO 1302:2002 clauses 6 and 7 (max, U
# and L, band, MRR, bilateral limits), ASME Y14.36 (a number at the mark); the ways of typing are common practice.
TEXTURES: list[tuple[str, Unit, str, str | None, str | None, str, str | None]] = [
    ("Ra 1.6", "mm", "Ra", None, "1.6", "um", "16 %"),
    ("Ra1,6", "mm", "Ra", None, "1.6", "um", "16 %"),
    ("1.6 Ra", "mm", "Ra", None, "1.6", "um", "16 %"),
    ("RA ≤ 0.8 µm", "inch", "Ra", None, "0.8", "um", "16 %"),
    ("Ra<=0.8", "mm", "Ra", None, "0.8", "um", "16 %"),
    ("Ra 0.8 max", "mm", "Ra", None, "0.8", "um", "max"),
    ("Ramax 0.8", "mm", "Ra", None, "0.8", "um", "max"),
    ("Rz1max 6.3", "mm", "Rz", None, "6.3", "um", "max"),
    ("Rz1 3.3", "mm", "Rz", None, "3.3", "um", "16 %"),
    ("Rz25", "mm", "Rz", None, "25", "um", "16 %"),
    ("Rz 63", "mm", "Rz", None, "63", "um", "16 %"),
    ("Rt 4", "mm", "Rt", None, "4", "um", "16 %"),
    ("Rp 0.8", "mm", "Rp", None, "0.8", "um", "16 %"),
    ("Rp 3 µm", "mm", "Rp", None, "3", "um", "16 %"),
    ("Rmr(0.5) 70 %", "mm", "Rmr(0.5)", None, "70", "%", "16 %"),
    ("RSm 0.1 mm", "mm", "RSm", None, "0.1", "mm", "16 %"),
    ("U Ra 3.2 / L Ra 0.8", "mm", "Ra", "0.8", "3.2", "um", "16 %"),
    ("U Ra 3.2\nL Ra 0.8", "mm", "Ra", "0.8", "3.2", "um", "16 %"),
    ("L Ra 0.8", "mm", "Ra", "0.8", None, "um", "16 %"),
    ("Ra min 0.4", "mm", "Ra", "0.4", None, "um", "16 %"),
    ("Ra 0.8 ±0.2", "mm", "Ra", "0.6", "1.0", "um", "16 %"),
    ("Ra 0.8-0.4", "mm", "Ra", "0.4", "0.8", "um", "16 %"),
    ("0.008-2.5/Ra 1.6", "mm", "Ra", None, "1.6", "um", "16 %"),
    ("MRR Ra 0.7", "mm", "Ra", None, "0.7", "um", "16 %"),
    ("GROUND TO Ra 0.4", "mm", "Ra", None, "0.4", "um", "16 %"),
    ("ISO 21920 Ra 0.4", "mm", "Ra", None, "0.4", "um", "max"),
    ("T16% Ra 0.4", "mm", "Ra", None, "0.4", "um", "16 %"),
    ("√3.2", "mm", "Ra", None, "3.2", "um", "16 %"),
    ("√63", "inch", "Ra", None, "63", "uin", "16 %"),
    ("63 ✓", "inch", "Ra", None, "63", "uin", "16 %"),
    ("63 RMS", "inch", "Rq", None, "63", "uin", "16 %"),
    ("16 AA", "inch", "Ra", None, "16", "uin", "16 %"),
    ("32 µin Ra", "mm", "Ra", None, "32", "uin", "16 %"),
    ("63 MICRO-INCHES", "mm", "Ra", None, "63", "uin", "16 %"),
    ('32 µ"', "mm", "Ra", None, "32", "uin", "16 %"),
    ("FINISH 63 ALL OVER", "inch", "Ra", None, "63", "uin", "16 %"),
    ("ALL MACHINED SURFACES 125", "inch", "Ra", None, "125", "uin", "16 %"),
    ("UNLESS OTHERWISE SPECIFIED SURFACE FINISH 125", "inch", "Ra", None, "125", "uin", "16 %"),
    ("16-32 Ra", "inch", "Ra", "16", "32", "uin", "16 %"),
    ("N7", "mm", "Ra", None, "1.6", "um", "16 %"),
    ("N6-N8", "mm", "Ra", "0.8", "3.2", "um", "16 %"),
    ("√N9", "inch", "Ra", None, "6.3", "um", "16 %"),
    # A skewness and a kurtosis are numbers (ISO 21920-2); the upper of two bounds tells the unit (common practice)
    ("Rsk 0.5", "mm", "Rsk", None, "0.5", "none", "16 %"),
    ("Rku 3", "inch", "Rku", None, "3", "none", "16 %"),
    ("Ra 0.5-4", "inch", "Ra", "0.5", "4", "uin", "16 %"),
]


@pytest.mark.parametrize(
    ("callout", "sheet", "parameter", "lower", "upper", "unit", "rule"), TEXTURES, ids=[row[0] for row in TEXTURES]
)
def test_a_texture_has_its_bounds_and_its_rule(
    callout: str, sheet: Unit, parameter: str, lower: str | None, upper: str | None, unit: str, rule: str | None
) -> None:
    given = answer(callout, Context(sheet))
    assert given.error is None, given.error
    (made,) = given.characteristics
    assert (made.kind, made.unit, made.count) == ("surface texture", unit, 1)
    bounds = [None if bound is None else D(bound) for bound in (lower, upper)]
    assert [(limits.of, limits.lower, limits.upper) for limits in made.limits] == [("value", *bounds)]
    assert (made.extra.get("parameter"), made.extra.get("rule")) == (parameter, rule)


@pytest.mark.parametrize(
    ("manner", "callout", "rule"),
    [
        ("asme", "Ra 1.6", None),
        ("asme", "Ra 1.6 max", "max"),
        ("asme", "ISO 1302 Ra 1.6", "16 %"),
        ("iso", "Ra 1.6", "16 %"),
    ],
)
def test_the_rule_is_that_of_the_standard_followed(manner: Manner, callout: str, rule: str | None) -> None:
    (made,) = answer(callout, Context("mm", manner)).characteristics
    assert made.extra.get("rule") == rule


# A factor of 40 lies between µm and µin: a number of the other unit's series is not taken in silence.
@pytest.mark.parametrize(
    ("callout", "sheet"),
    [
        ("√63", "mm"),
        ("125 Ra", "mm"),
        ("63 RMS", "mm"),
        ("FINISH 32", "mm"),
        ("Ra 1.6", "inch"),
        ("3.2 Ra", "inch"),
        ("√0.8", "inch"),
        ("√3.2-16", "mm"),
        ("Ra 63 MIN", "mm"),
        ("Ra 1.6 MIN", "inch"),
    ],
)
def test_a_number_of_the_other_units_series_is_refused_with_both_readings(callout: str, sheet: Unit) -> None:
    given = answer(callout, Context(sheet))
    assert given.error is not None
    assert "µm or in µin" in given.error.message
    assert "µm, or" in given.error.hint


# What a bare number was taken for is said, what was typed is not. (callout, unit of the sheet, remarks)
@pytest.mark.parametrize(
    ("callout", "sheet", "said"),
    [
        ("√3.2", "mm", ["3.2 is taken as Ra in µm, as the sheet is in mm"]),
        ("√63", "inch", ["63 is taken as Ra in µin, as the sheet is in inches"]),
        ("Ra 1.6", "mm", []),
        ("63 Ra", "inch", []),
        ("√3.2 µm", "inch", []),
    ],
)
def test_what_a_bare_number_is_taken_for_is_said(callout: str, sheet: Unit, said: list[str]) -> None:
    assert [remark.text for remark in answer(callout, Context(sheet)).remarks] == said


# Rmax n and the like: the figure after the parameter counts sampling lengths (ISO 1302:2002, 6.3).
@pytest.mark.parametrize(
    ("callout", "said"), [("Rz1 3.3", "over 1 sampling length"), ("Rz3 3.3", "over 3 sampling lengths")]
)
def test_the_sampling_lengths_typed_are_told(callout: str, said: str) -> None:
    (made,) = answer(callout, Context()).characteristics
    assert said in made.why


# A coating is as likely (common practice, no source); what would be a texture is shown with its number.
@pytest.mark.parametrize(("callout", "hint"), [("5 µm MAX", "Ra 5 µm"), ("3 µm MIN", "Ra 3 µm")])
def test_a_bare_number_in_micrometres_is_refused_with_its_number(callout: str, hint: str) -> None:
    error = answer(callout, Context()).error
    assert error is not None
    assert "as of a coating" in error.message
    assert hint in error.hint


def test_a_texture_stands_beside_and_under_a_size() -> None:
    for text in ("4x Ø10 H7 Ra 1.6", "4x Ø10 H7\nRa 1.6", "4x Ø10 H7, Ra 1.6"):
        size, texture = answer(text, Context()).characteristics
        assert (size.kind, size.class_, size.count) == ("diameter", "H7", 4)
        assert (texture.kind, texture.count) == ("surface texture", 4)


def test_a_letter_and_figure_after_a_size_are_its_class() -> None:
    (made,) = answer("25 N7", Context()).characteristics
    assert (made.kind, made.class_) == ("length", "N7")


def test_two_parameters_are_two_characteristics() -> None:
    made = answer("Ra 0.8, Rz 6.3", Context()).characteristics
    assert [each.extra["parameter"] for each in made] == ["Ra", "Rz"]


# Roymech, Surface Texture Equivalents; Rampinelli, roughness conversion chart.
def test_the_grades_double_from_one_to_the_next() -> None:
    assert series.grade("N7") == (D("1.6"), D(63))
    assert series.grade("N1") == (D("0.025"), D(1))
    assert series.grade("N12") == (D(50), D(2000))
    with pytest.raises(NotDefined):
        series.grade("N13")
