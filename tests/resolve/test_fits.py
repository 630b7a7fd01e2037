"""Fits as typed: limits, sides, classes, what contradicts, and what the standards do not define."""

from __future__ import annotations

from decimal import Decimal

import pytest

from sizewright.resolve.answer import answer, answer_json
from sizewright.resolve.context import Context, Unit

from ..support import table

# (callout, unit, per characteristic: side, class, lower, upper)
# Source: the limits are those of GB/T 1800.2-2020 (= ISO 286-2:2010); keyway 8 P9 as in DIN 6885-1.
TYPED = [
    ("Ø25 H7", "mm", [("internal", "H7", "25", "25.021")]),
    ("25H7", "mm", [("internal", "H7", "25", "25.021")]),
    ("25 h6", "mm", [("external", "h6", "24.987", "25")]),
    ("Ø25 H7/g6", "mm", [("internal", "H7", "25", "25.021"), ("external", "g6", "24.98", "24.993")]),
    ("Ø25 H7-g6", "mm", [("internal", "H7", "25", "25.021"), ("external", "g6", "24.98", "24.993")]),
    ("Ø25 g6/H7", "mm", [("internal", "H7", "25", "25.021"), ("external", "g6", "24.98", "24.993")]),
    ("Ø25 H7\ng6", "mm", [("internal", "H7", "25", "25.021"), ("external", "g6", "24.98", "24.993")]),
    ("Ø25 H7 (+0.021/0)", "mm", [("internal", "H7", "25", "25.021")]),
    ("Ø25 H7 (25.021/25.000)", "mm", [("internal", "H7", "25", "25.021")]),
    ("Ø40 h6\n0\n-0,016", "mm", [("external", "h6", "39.984", "40")]),
    ("Ø30 js6", "mm", [("external", "js6", "29.9935", "30.0065")]),
    ("Ø30 JS7", "mm", [("internal", "JS7", "29.9895", "30.0105")]),
    ("8 P9", "mm", [("internal", "P9", "7.949", "7.985")]),
    ("4x Ø6 H8 THRU", "mm", [("internal", "H8", "6", "6.018")]),
    ("Ø20 h6 (E)", "mm", [("external", "h6", "19.987", "20")]),
    ("Ø 8 H 7", "mm", [("internal", "H7", "8", "8.015")]),
    ("Ø8 R7", "mm", [("internal", "R7", "7.972", "7.987")]),
    # 25.4 mm H7: 25.400/25.421 mm = 1/1.000826... in, inward to five places
    ("Ø1.000 H7", "inch", [("internal", "H7", "1", "1.00082")]),
    ('Ø1.000" H7', "mm", [("internal", "H7", "1", "1.00082")]),
    ("Ø25 mm H7", "inch", [("internal", "H7", "25", "25.021")]),
]


@pytest.mark.parametrize(("callout", "unit", "expected"), TYPED)
def test_what_the_trade_types(callout: str, unit: Unit, expected: list[tuple[str, str, str, str]]) -> None:
    given = answer_json(answer(callout, Context(unit)))
    assert given["error"] is None
    got = [
        (c["side"], c["class"], Decimal(c["limits"][0]["lower"]), Decimal(c["limits"][0]["upper"]))
        for c in given["characteristics"]
    ]
    assert [(side, name, Decimal(low), Decimal(high)) for side, name, low, high in expected] == got


# (callout, type, largest clearance, smallest clearance, said of it); source: ISO 286-1 terms, limits as above
PAIRS = [
    ("Ø25 H7/g6", "clearance", "0.041", "0.007", "hole basis"),
    ("Ø25 H7/h6", "clearance", "0.034", "0", "hole basis and shaft basis"),
    ("Ø25 H7/k6", "transition", "0.019", "-0.015", "hole basis"),
    ("Ø25 H7/p6", "interference", "-0.001", "-0.035", "hole basis"),
    ("Ø25 P7/h6", "interference", "-0.001", "-0.035", "shaft basis"),
    ("Ø25 F8/g6", "clearance", "0.073", "0.027", "neither hole basis nor shaft basis"),
]


@pytest.mark.parametrize(("callout", "kind", "largest", "smallest", "said"), PAIRS)
def test_a_pair_gives_its_fit(callout: str, kind: str, largest: str, smallest: str, said: str) -> None:
    given = answer(callout, Context())
    for made in given.characteristics:
        assert made.fit is not None
        assert (kind, Decimal(largest), Decimal(smallest)) == made.fit
    assert any(said in remark.text for remark in given.remarks)


# By hand from ISO 286-2 at 25.4 mm: H7 +21/0 µm, g6 -7/-20 µm: 1/1.000826 and 0.999212/0.999724 in, rounded inward to
# 5 places; the clearances are those of the limits as given, in inches.
def test_a_pair_in_inches_gives_its_fit_in_inches() -> None:
    for made in answer("Ø1.000 H7/g6", Context("inch")).characteristics:
        assert made.fit == ("clearance", Decimal("1.00082") - Decimal("0.99922"), 1 - Decimal("0.99972"))


# (callout, how its class is told), signs as ISO 286-2 prints its deviations
SAID = [
    ("Ø25 H7", "H7 at 25 mm: +21/0 µm, IT7 21 µm (ISO 286)"),
    ("Ø25 g6", "g6 at 25 mm: -7/-20 µm, IT6 13 µm (ISO 286)"),
    ("Ø30 js6", "js6 at 30 mm: +6.5/-6.5 µm, IT6 13 µm (ISO 286)"),
    ("Ø25 F8", "F8 at 25 mm: +53/+20 µm, IT8 33 µm (ISO 286)"),
]


@pytest.mark.parametrize(("callout", "said"), SAID)
def test_a_class_is_told_with_its_deviations(callout: str, said: str) -> None:
    (made,) = answer(callout, Context()).characteristics
    assert made.why[0] == said


# (callout, its extremes in words), by hand from the table above
EXTREMES = [
    ("Ø25 H7/g6", "0.041 mm clearance to 0.007 mm clearance, spread 0.034 mm, in the middle 0.024 mm clearance"),
    ("Ø25 H7/k6", "0.019 mm clearance to 0.015 mm interference, spread 0.034 mm, in the middle 0.002 mm clearance"),
    (
        "Ø25 H7/p6",
        "0.001 mm interference to 0.035 mm interference, spread 0.034 mm, in the middle 0.018 mm interference",
    ),
]


@pytest.mark.parametrize(("callout", "said"), EXTREMES)
def test_the_extremes_of_a_fit_in_words(callout: str, said: str) -> None:
    assert answer(callout, Context()).remarks[0].text.endswith(f": {said}")


def test_a_preferred_fit_is_named_with_its_use() -> None:
    remarks = [remark.text for remark in answer("Ø25 H7/g6", Context()).remarks]
    assert any("preferred fit of ANSI B4.2 and ISO 286-1, sliding" in text for text in remarks)
    assert any("not among the preferred fits" in r.text for r in answer("Ø25 F8/g6", Context()).remarks)


# (callout, unit, message in part, hint in part)
WRONG = [
    ("Ø25 H77", "mm", "no grade IT77", "H1"),
    ("Ø25 Q7", "mm", "no hole letter Q", "P7"),
    ("Ø25 h", "mm", '"h" does not read here', "as in h7"),
    ("Ø4000 H7", "mm", "sizes end at 3150 mm", ""),
    ("Ø0.5 A11", "mm", "starts above 1 mm", "C11"),
    ("Ø25 H7/H8", "mm", "both holes", "H7/g6"),
    ("Ø25 g6/h5", "mm", "both shafts", "H7/g6"),
    ("R5 H7", "mm", "a tolerance class on a radius", "±"),
    ("Ø25 H7 H8", "mm", "a second tolerance class", "H7/g6"),
    ("Ø25 H7 MAX", "mm", "limits beside a tolerance class", "(25.021/25.000)"),
    ("Ø25 H7/g6 (+0.021/0)", "mm", "deviations beside a pair", "one class"),
    ("Ø6.8 M8", "mm", "a thread or a tolerance class", "M8x1"),
    ("25 x6", "mm", "a tolerance class, or an x and a number", "Ø before"),
    ("Ø1.000 RC12", "inch", "RC12", "RC9"),
    ("Ø25.000 RC4", "inch", "19.69", ""),
    ("25 mm RC4", "mm", "an inch fit", "inches"),
    ("Ø25 ±0.1 RC4", "inch", "a tolerance beside a fit", "one or the other"),
    ("30° H7", "mm", "a tolerance class on an angle", "limits"),
    ("1 x 45° js7", "mm", "a tolerance class on an angle", "limits"),
    ("30° RC4", "inch", "a tolerance class on an angle", "limits"),
    ("R1.25 RC4", "inch", "a tolerance class on a radius", "limits"),
    ("1.25 DEEP RC4", "inch", "a tolerance class on a depth", "limits"),
    ("2 H7 x 45°", "mm", "a tolerance class on a part of a chamfer", "limits"),
    ("2 ±0.1 H7 x 45°", "mm", "a tolerance class on a part of a chamfer", "limits"),
    ("1.25 LC3 x 2", "inch", "a tolerance class on a part of a chamfer", "limits"),
    ("C1 RC4", "inch", "a tolerance class on a chamfer size", "limits"),
    ("5x 20 H7 (=100)", "mm", "a tolerance class on a spacing", "limits"),
    ("Ø20 H7\nr5", "mm", "r5 can be a tolerance class or a size of its own", "H7/r5 for a fit"),
    ("Ø20 H7\nc1", "mm", "c1 can be a tolerance class or a size of its own", "a semicolon"),
    ("Ø20 R5", "mm", "R5 can be a tolerance class or a size of its own", "a semicolon"),
    ("20 R7", "mm", "R7 can be a tolerance class or a size of its own", "a semicolon"),
    ("Ø20 c1", "mm", "c1 can be a tolerance class or a size of its own", "a semicolon"),
    ("Ø20 R4", "mm", "a radius beside a size can be a tolerance class", "a semicolon"),
    ("Ø20 C1", "mm", "a chamfer beside a size can be a tolerance class", "a semicolon"),
    ("Ø20 R10", "mm", "a radius beside a size can be a tolerance class", "a semicolon"),
    ("Ø25 H7\n25.100/25.000", "mm", "limits under a tolerance class", "in brackets"),
    ("(25) H7", "mm", "a tolerance after the closing bracket", "inside"),
    ("[1.25] RC4", "inch", "a tolerance after the closing bracket", "inside"),
    ("Ø0.1 ZC11", "mm", "a lower limit below zero", "limits"),
    ("Ø1.25 FN2 shaft hole", "inch", "both hole and shaft", "one of them"),
]


# A fillet, a chamfer or a hole under a shaft is no second member of a fit.
UNDER_A_CLASS = [
    ("Ø20 h6\nR5", "radius"),
    ("Ø20 H7\nR5", "radius"),
    ("Ø20 h6\nC1", "chamfer size"),
    ("Ø8 h6\nD10", "diameter"),
]


@pytest.mark.parametrize(("callout", "kind"), UNDER_A_CLASS)
def test_a_size_under_a_class_is_a_size_of_its_own(callout: str, kind: str) -> None:
    first, second, *_ = answer(callout, Context()).characteristics
    assert first.class_ in ("h6", "H7")
    assert (second.kind, second.class_, first.fit) == (kind, None, None)


# ISO 286-2: 31.75 mm H7 is +25/0 µm = +.00098/0 in; g6 is -9/-25 µm = -.00035/-.00098 in; js6 is ±8 µm = ±.0003 in.
TYPED_INCHES = [
    ("1.25 H7 (+.0010/0)", True),
    ("1.25 H7 (+.0009/0)", True),
    ("1.25 H7 (+.0011/0)", False),  # .000116 off, more than one step of the fourth place
    ("1.25 H7 (+.001/0)", True),
    ("1.25 H7 (1.2510/1.2500)", True),
    ("1.25 H7 (+.025/0)", False),
    ("1.25 js6 ±.008", False),
    ("1.25 js6 ±.0003", True),
    ("1.25 H7 (+.01/0)", False),
    ("1.25 H7 (1.26/1.25)", False),
    ("1.25 H7 (+.00/0)", False),
    ("1.25 g6 (-.00/-.00)", False),
]


@pytest.mark.parametrize(("callout", "agrees"), TYPED_INCHES)
def test_typed_inches_are_held_against_the_class_in_inches(callout: str, agrees: bool) -> None:
    (made,) = answer(callout, Context("inch")).characteristics
    assert made.status == ("toleranced" if agrees else "conflict")
    assert bool(made.limits) is agrees


def test_a_class_that_looks_like_a_radius_says_how_it_is_read() -> None:
    given = answer("Ø20 R7", Context())
    assert given.characteristics[0].class_ == "R7"
    assert any("read as a tolerance class" in remark.text for remark in given.remarks)


@pytest.mark.parametrize(("callout", "unit", "message", "hint"), WRONG)
def test_a_wrong_class_says_what_is_wrong(callout: str, unit: Unit, message: str, hint: str) -> None:
    error = answer(callout, Context(unit)).error
    assert error is not None
    assert message in error.message
    assert hint in error.hint


# (callout, what the class gives)
CONFLICTS = [
    ("Ø25 H7 (+0.025/0)", "H7 gives +0.021/0.000 mm, typed are +0.025/0 mm"),
    ("Ø25 H7 (25.021/25.001)", "H7 gives +0.021/0.000 mm, typed are +0.021/+0.001 mm"),
    ("Ø40 h6 0/-0.025", "h6 gives 0.000/-0.016 mm, typed are 0/-0.025 mm"),
    ("Ø25 H7 ±0.01", "typed are +0.01/-0.01 mm"),
]


@pytest.mark.parametrize(("callout", "said"), CONFLICTS)
def test_deviations_that_contradict_the_class_give_no_limits(callout: str, said: str) -> None:
    given = answer(callout, Context())
    (made,) = given.characteristics
    assert (made.status, made.limits) == ("conflict", ())
    assert said in " ".join(made.why)
    assert any(remark.level == "warning" and said in remark.text for remark in given.remarks)


def test_the_rounded_js_of_the_1988_edition_agrees() -> None:
    """ISO 286-1:1988, Table 2: an odd number of micrometres could be lowered to the even one before halving."""
    (made,) = answer("Ø30 js7 ±0.010", Context()).characteristics
    assert made.size is not None
    assert (Decimal("29.990"), Decimal("30.010")) == made.size[1:]


@pytest.mark.parametrize("row", table("standards/data/b4_1_fits.csv"), ids=lambda r: f"{r['fit']} {r['to_in']}")
def test_inch_fits_as_typed_give_the_table(row: dict[str, str]) -> None:
    """Every row of ANSI B4.1 at its upper size, which belongs to the step; figures in thousandths."""
    nominal, mil = Decimal(row["to_in"]), Decimal("0.001")
    (made,) = answer(f"Ø{row['to_in']} {row['fit']}", Context("inch")).characteristics
    assert made.either is not None
    assert made.fit is not None
    hole, shaft = made.either.internal[0], made.either.external[0]
    assert (nominal + Decimal(row["hole_lower"]) * mil, nominal + Decimal(row["hole_upper"]) * mil) == hole[1:]
    assert (nominal + Decimal(row["shaft_lower"]) * mil, nominal + Decimal(row["shaft_upper"]) * mil) == shaft[1:]
    assert (Decimal(row["fit_max"]) * mil, Decimal(row["fit_min"]) * mil) == made.fit[1:]
    assert "thousandths" in made.why[0]


@pytest.mark.parametrize(("word", "side"), [("HOLE", "internal"), ("(SHAFT)", "external"), ("shaft", "external")])
def test_a_fit_that_names_its_member_has_one_side(word: str, side: str) -> None:
    (made,) = answer(f"Ø1.2500 RC4 {word}", Context("inch")).characteristics
    assert (made.side, made.either, len(made.limits)) == (side, None, 1)


def test_a_class_for_a_shaft_on_a_hole_is_warned_of() -> None:
    for callout, warned in (("4x Ø6 h6 THRU", True), ("4x Ø6 H8 THRU", False), ("Ø6 h6", False), ("Ø6 h6/H7", False)):
        remarks = answer(callout, Context()).remarks
        assert any(each.level == "warning" and "on a hole" in each.text for each in remarks) is warned


def test_an_inch_fit_on_a_metric_sheet_is_inches_and_says_so() -> None:
    given = answer("1.2500 RC4", Context("mm"))
    assert given.characteristics[0].unit == "inch"
    assert any("taken as inches" in remark.text for remark in given.remarks)
