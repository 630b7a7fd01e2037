"""General tolerances: by standard, by decimal places as typed, and where there is none to take."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction

import pytest

from sizewright.notation.read import read_general
from sizewright.resolve.answer import answer, answer_json
from sizewright.resolve.characteristic import Limits
from sizewright.resolve.context import Context, Unit

# The example of a title block in common practice (no standard fixes its values).
PLACES = ".X ±.1, .XX ±.01, .XXX ±.005, fractions ±1/64, angles ±1°"
ISO = "ISO 2768-mK"

# (general, unit, callout, lower, upper, reason in part); None: no limits.
CASES = [
    (ISO, "mm", "25", "24.8", "25.2", "class m, Table 1, over 6 up to 30 mm"),
    (ISO, "mm", "30", "29.8", "30.2", "over 6 up to 30 mm"),
    (ISO, "mm", "30.1", "29.8", "30.4", "over 30 up to 120 mm"),
    (ISO, "mm", "0.5", "0.4", "0.6", "0.5 up to 3 mm"),
    (ISO, "mm", "0.4", None, None, "nothing below 0.5 mm"),
    (ISO, "mm", "R5", "4.5", "5.5", "Table 2 (broken edges), over 3 up to 6 mm"),
    (ISO, "mm", "SR5", "4.9", "5.1", "Table 1"),
    (ISO, "mm", "CHAM 2", "1.8", "2.2", "Table 2"),
    (ISO, "mm", "30° (shorter side 10)", "29", "31", "shorter side over 0 up to 10 mm"),
    (ISO, "mm", "30° (shorter side 10.5)", "29.5", "30.5", "over 10 up to 50 mm"),
    (ISO, "mm", "30°", None, None, "by the length of its shorter side, which is not typed"),
    (ISO, "mm", "Ø25 (shorter side 3)", None, None, ""),
    (ISO, "mm", "25 MAX", None, "25", "MAX: an upper limit alone"),
    (ISO, "mm", "25 ±0.05", "24.95", "25.05", "typed tolerance"),
    (ISO, "mm", "25.4 mm", "25.2", "25.6", "Table 1"),
    # 1 in = 25.4 mm, ±0.2 mm: 25.2/25.6 mm = 0.99212.../1.00787... in, inward to 4 places (width 0.4 mm)
    (ISO, "mm", '1.000"', "0.9922", "1.0078", "Table 1"),
    (ISO, "inch", "1.000", "0.9922", "1.0078", "rounded inward"),
    ("ISO 2768-f", "mm", "2500", None, None, "class f gives nothing over 2000"),
    ("ISO 2768-K", "mm", "25", None, None, "without a class for sizes"),
    ("ISO 2768", "mm", "25", None, None, "without a class for sizes"),
    (PLACES, "inch", "1.5", "1.4", "1.6", "1 decimal places as typed (1.5)"),
    (PLACES, "inch", "1.50", "1.49", "1.51", "2 decimal places as typed (1.50)"),
    (PLACES, "inch", "1.500", "1.495", "1.505", "3 decimal places as typed (1.500)"),
    (PLACES, "inch", "1.5000", None, None, "no rule for a size of 4 decimal places"),
    (PLACES, "inch", "1-1/2", "1.484375", "1.515625", "fractions: ±0.015625 inch"),
    (PLACES, "inch", "45°", "44", "46", "angles ±1°"),
    (".XX ±.01", "inch", "1-1/2", None, None, "no rule for fractions"),
    (".XX ±.01", "inch", "45°", None, None, "no rule for angles"),
    (PLACES, "inch", "25.40 mm", None, None, "rules are in inch, this size in mm"),
    ("X ±0.5 X.X ±0.2 X.XX ±0.05", "mm", "12", "11.5", "12.5", "0 decimal places as typed (12)"),
    ("X ±0.5 X.X ±0.2 X.XX ±0.05", "mm", "12.0", "11.8", "12.2", "1 decimal places as typed (12.0)"),
    ("±0.2", "mm", "12.00", "11.80", "12.20", "linear sizes: ±0.2 mm"),
    ("TOLERANCES: 2 PLACE .03, 3 PLACE .015, ANGLES 1", "inch", ".375", "0.360", "0.390", "3 decimal places"),
    (".XX ±.01, ISO 2768-m", "mm", "12", "11.8", "12.2", "Table 1"),
]


@pytest.mark.parametrize(("general", "unit", "callout", "lower", "upper", "reason"), CASES)
def test_a_size_takes_its_general_tolerance(
    general: str, unit: Unit, callout: str, lower: str | None, upper: str | None, reason: str
) -> None:
    given = answer_json(answer(callout, Context(unit, general=read_general(general))))
    if reason == "":
        assert "belongs to an angle" in given["error"]["message"]
        return
    (made,) = given["characteristics"]
    limits = made["limits"][0] if made["limits"] else {"lower": None, "upper": None}
    assert (lower, upper) == (limits["lower"], limits["upper"])
    assert reason in " ".join(made["why"])


@pytest.mark.parametrize("callout", ["(25)", "[25]", "25 REF", "25 BASIC", "6 STOCK"])
def test_reference_basic_and_stock_sizes_take_none(callout: str) -> None:
    (made,) = answer(callout, Context(general=read_general(ISO))).characteristics
    assert made.limits == () or callout == "6 STOCK"


def test_a_chamfer_takes_both_tables() -> None:
    size, angle = answer("2 x 45°", Context(general=read_general(ISO))).characteristics
    assert size.limits == (Limits("size", Decimal("1.8"), Decimal("2.2")),)
    assert angle.limits == (Limits("size", Fraction(44), Fraction(46)),)


def test_the_angle_of_a_countersink_is_an_angle() -> None:
    _, size, angle = answer("Ø15 ⌵ Ø24 x 90°", Context(general=read_general(ISO))).characteristics
    assert size.limits == (Limits("size", Decimal("23.8"), Decimal("24.2")),)
    assert (angle.kind, angle.limits) == ("countersink angle", ())
    assert "by the length of its shorter side, which is not typed" in " ".join(angle.why)
    *_, angle = answer(".50 ⌵ .80 x 90°", Context("inch", general=read_general(PLACES))).characteristics
    assert angle.limits == (Limits("size", Fraction(89), Fraction(91)),)


def test_an_internal_radius_is_told_its_other_table() -> None:
    given = answer("R5", Context(general=read_general(ISO)))
    assert "internal one takes ISO 2768-1 class m, Table 1, over 3 up to 6 mm: ±0.1 mm" in given.remarks[0].text
