"""ANSI B4.1: every row of the tables, worked examples, what is not defined."""

from __future__ import annotations

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sizewright.standards.b4_1 import LARGEST_SIZE, inch_fit, symbols
from sizewright.standards.errors import NotDefined
from sizewright.standards.fits import FitBasis

from .fits_data import table

JUST_ABOVE = Decimal("0.0001")


def thousandths(value: Decimal) -> Decimal:
    return value.scaleb(3)


@pytest.mark.parametrize(
    "symbol",
    [
        f"{family}{number}"
        for family, count in (("RC", 9), ("LC", 11), ("LT", 6), ("LN", 3), ("FN", 5))
        for number in range(1, count + 1)
    ],
)
def test_every_row_at_both_ends_of_its_step(symbol: str) -> None:
    rows = [row for row in table("b4_1_fits") if row["fit"] == symbol]
    assert len(rows) >= 11
    for row in rows:
        for size in (Decimal(row["over_in"]) + JUST_ABOVE, Decimal(row["to_in"])):
            found = inch_fit(symbol, size)
            limits = (found.hole.lower, found.hole.upper, found.shaft.lower, found.shaft.upper)
            expected = tuple(Decimal(row[name]) for name in ("hole_lower", "hole_upper", "shaft_lower", "shaft_upper"))
            assert tuple(map(thousandths, limits)) == expected, (symbol, size)
            extremes = (thousandths(found.fit.clearance_min), thousandths(found.fit.clearance_max))
            assert extremes == (Decimal(row["fit_min"]), Decimal(row["fit_max"]))
            assert found.fit.type == row["fit_type"]
            assert (found.hole_class, found.shaft_class) == (row["hole_symbol"], row["shaft_symbol"])


def test_the_symbols_are_those_of_the_standard() -> None:
    assert len(symbols()) == 34
    assert {row["fit"] for row in table("b4_1_fits")} == set(symbols())


EXAMPLES = [
    # symbol, size in inches well inside a step, hole and shaft deviations in thousandths
    ("RC4", "1.0", "0", "1.2", "-1.6", "-0.8"),
    ("RC6", "3.0", "0", "3", "-4.3", "-2.5"),
    ("LC1", "0.5", "0", "0.4", "-0.3", "0"),
    ("LT1", "1.5", "0", "1", "-0.3", "0.3"),
    ("LN2", "1.0", "0", "0.8", "0.8", "1.3"),
    ("FN2", "2.0", "0", "1.2", "2", "2.7"),
]


@pytest.mark.parametrize(("symbol", "size", "hole_lower", "hole_upper", "shaft_lower", "shaft_upper"), EXAMPLES)
def test_examples(symbol: str, size: str, hole_lower: str, hole_upper: str, shaft_lower: str, shaft_upper: str) -> None:
    found = inch_fit(symbol, Decimal(size))
    assert (thousandths(found.hole.lower), thousandths(found.hole.upper)) == (Decimal(hole_lower), Decimal(hole_upper))
    assert thousandths(found.shaft.lower) == Decimal(shaft_lower)
    assert thousandths(found.shaft.upper) == Decimal(shaft_upper)


@pytest.mark.parametrize(
    ("symbol", "size", "checked", "confirmed", "doubtful", "note"),
    [
        ("RC1", "1", "two", True, False, ""),
        ("LC5", "10", "unconfirmed", False, True, "doubtful"),
        ("LC4", "6", "unconfirmed", False, False, ""),
        ("LC8", "0.1", "one", True, False, "misprint"),
        ("FN1", "14", "shaft", False, False, "as printed"),
    ],
)
def test_doubt_is_told(symbol: str, size: str, checked: str, confirmed: bool, doubtful: bool, note: str) -> None:
    found = inch_fit(symbol, Decimal(size))
    assert (found.checked, found.confirmed, found.doubtful) == (checked, confirmed, doubtful)
    assert note in found.note
    assert bool(note) is bool(found.note)


@pytest.mark.parametrize(
    ("symbol", "size", "message", "near"),
    [
        ("RC10", "1", "defines no fit RC10", ("RC9", "RC8")),
        ("RC0", "1", "defines no fit RC0", ("RC1", "LC1", "LT1", "LN1", "FN1")),
        ("XX1", "1", "defines no fit XX1", ("RC1", "LC1", "LT1", "LN1", "FN1")),
        ("rc4", "1", "defines no fit rc4", ("RC1", "LC1", "LT1", "LN1", "FN1")),
        ("LT3", "0.24", "LT3 of ANSI B4.1 starts above 0.24 in", ("LT2", "LT1")),
        ("FN3", "0.95", "FN3 of ANSI B4.1 starts above 0.95 in", ("FN2", "FN4")),
        ("RC4", "19.7", "sizes end at 19.69 in", ()),
        ("RC4", "0", "sizes start above 0 in", ()),
    ],
)
def test_what_is_not_defined(symbol: str, size: str, message: str, near: tuple[str, ...]) -> None:
    with pytest.raises(NotDefined) as caught:
        inch_fit(symbol, Decimal(size))
    assert message in caught.value.message
    assert caught.value.near == near


@given(st.sampled_from(symbols()), st.decimals(min_value="0.9501", max_value=LARGEST_SIZE, places=4))
def test_every_fit_is_of_its_family_and_on_the_hole_basis(symbol: str, size: Decimal) -> None:
    found = inch_fit(symbol, size)
    assert found.fit.basis in {FitBasis.HOLE, FitBasis.BOTH}
    assert found.hole.width > 0
    assert found.shaft.width > 0
    kinds = {"RC": "clearance", "LC": "clearance", "LT": "transition", "LN": "interference", "FN": "interference"}
    assert found.fit.type == kinds[symbol[:2]]
    assert found.name
