"""Fits: extremes of the preferred metric fits, the kinds of fit, basis and the lists of preferred fits."""

from __future__ import annotations

from collections import Counter
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sizewright.standards.errors import NotDefined
from sizewright.standards.fits import Fit, FitBasis, FitType, fit, preferred, preferred_classes
from sizewright.standards.iso286 import Deviations, deviations, find_deviations, is_class

from .fits_data import BOUNDS, SIZES, parts, table


def fit_of(hole_class: str, shaft_class: str, size: Decimal) -> Fit:
    return fit(deviations(*parts(hole_class), size), deviations(*parts(shaft_class), size))


EXTREMES = [
    # fit, size in mm, largest and smallest clearance in mm, by hand from the limits of ISO 286-2
    ("H11/c11", "25", "0.370", "0.110"),
    ("H9/d9", "25", "0.169", "0.065"),
    ("H8/f7", "25", "0.074", "0.020"),
    ("H7/g6", "25", "0.041", "0.007"),
    ("H7/h6", "25", "0.034", "0.000"),
    ("H7/k6", "25", "0.019", "-0.015"),
    ("H7/n6", "25", "0.006", "-0.028"),
    ("H7/p6", "25", "-0.001", "-0.035"),
    ("H7/s6", "25", "-0.014", "-0.048"),
    ("H7/u6", "25", "-0.027", "-0.061"),
    ("C11/h11", "25", "0.370", "0.110"),
    ("F8/h7", "25", "0.074", "0.020"),
    ("K7/h6", "25", "0.019", "-0.015"),
    ("P7/h6", "25", "-0.001", "-0.035"),
    ("U7/h6", "25", "-0.027", "-0.061"),
]


@pytest.mark.parametrize(("pair", "size", "largest", "smallest"), EXTREMES)
def test_extremes_of_preferred_fits(pair: str, size: str, largest: str, smallest: str) -> None:
    hole_class, shaft_class = pair.split("/")
    found = fit_of(hole_class, shaft_class, Decimal(size))
    assert (found.clearance_max, found.clearance_min) == (Decimal(largest), Decimal(smallest))
    assert found.spread == Decimal(largest) - Decimal(smallest)
    assert found.clearance_mean == (Decimal(largest) + Decimal(smallest)) / 2


@pytest.mark.parametrize(
    ("hole", "shaft", "kind", "basis"),
    [
        (("0", "0.021"), ("-0.020", "-0.007"), FitType.CLEARANCE, FitBasis.HOLE),
        (("0", "0.021"), ("-0.013", "0"), FitType.CLEARANCE, FitBasis.BOTH),
        (("0.007", "0.028"), ("-0.013", "0"), FitType.CLEARANCE, FitBasis.SHAFT),
        (("0", "0.012"), ("0.012", "0.020"), FitType.INTERFERENCE, FitBasis.HOLE),
        (("0", "0.012"), ("0.0119", "0.020"), FitType.TRANSITION, FitBasis.HOLE),
        (("-0.006", "0.006"), ("0.002", "0.010"), FitType.TRANSITION, FitBasis.NEITHER),
        (("0", "0.012"), ("-0.010", "0.001"), FitType.TRANSITION, FitBasis.HOLE),
    ],
)
def test_kind_and_basis(hole: tuple[str, str], shaft: tuple[str, str], kind: FitType, basis: FitBasis) -> None:
    found = fit(Deviations(*map(Decimal, hole)), Deviations(*map(Decimal, shaft)))
    assert (found.type, found.basis) == (kind, basis)


MICROMETRES = st.integers(min_value=-500, max_value=500).map(lambda number: Decimal(number).scaleb(-3))


@given(*(st.tuples(MICROMETRES, MICROMETRES).map(sorted) for _ in range(2)))
def test_every_gap_of_two_parts_lies_within_the_fit(hole: list[Decimal], shaft: list[Decimal]) -> None:
    found = fit(Deviations(*hole), Deviations(*shaft))
    gaps = [hole_size - shaft_size for hole_size in hole for shaft_size in shaft]
    assert (min(gaps), max(gaps)) == (found.clearance_min, found.clearance_max)
    assert found.spread == (hole[1] - hole[0]) + (shaft[1] - shaft[0])
    assert found.clearance_min <= found.clearance_mean <= found.clearance_max
    if found.type is FitType.CLEARANCE:
        assert min(gaps) >= 0
    else:
        assert min(gaps) < 0
        assert (max(gaps) > 0) is (found.type is FitType.TRANSITION)


def test_every_row_of_the_preferred_lists() -> None:
    for row in table("preferred_fits"):
        hole_class, shaft_class = row["fit"].split("/")
        entries = [
            (entry.name, entry.use, entry.basis)
            for entry in preferred(hole_class, shaft_class)
            if entry.list == row["list"]
        ]
        assert (row["name"], row["use"], f"{row['basis']} basis") in entries
        assert {hole_class, shaft_class} <= preferred_classes()


def test_the_lists_of_ansi_b4_2_have_ten_fits_on_each_basis() -> None:
    entries = {
        (row["fit"], entry.basis)
        for row in table("preferred_fits")
        for entry in preferred(*row["fit"].split("/"))
        if entry.list == "ANSI B4.2"
    }
    assert Counter(basis for _, basis in entries) == {FitBasis.HOLE: 10, FitBasis.SHAFT: 10}


@pytest.mark.parametrize(
    ("hole_class", "shaft_class", "found"),
    [
        ("H7", "g6", [("ANSI B4.2", "sliding"), ("ISO 286-1", "sliding")]),
        ("H8", "f7", [("ANSI B4.2", "close running"), ("ISO 286-1", "close running")]),
        ("H11", "h10", [("ISO 286-1", "easy assembly")]),
        ("H7", "zc11", []),
        ("g6", "H7", []),
    ],
)
def test_names_of_preferred_fits(hole_class: str, shaft_class: str, found: list[tuple[str, str]]) -> None:
    assert [(entry.list, entry.name) for entry in preferred(hole_class, shaft_class)] == found


def kinds_up_to_500(hole_class: str, shaft_class: str) -> Counter[FitType]:
    """The millimetres of size over which a pair is of each kind."""
    kinds: Counter[FitType] = Counter()
    below = Decimal(0)
    for bound in BOUNDS:
        if bound <= 500 and find_deviations(*parts(shaft_class), bound) and find_deviations(*parts(hole_class), bound):
            kinds[fit_of(hole_class, shaft_class, bound).type] += int(bound - below)
        below = bound
    return kinds


@pytest.mark.parametrize("row", table("preferred_fits"), ids=lambda row: f"{row['fit']} {row['list']} {row['basis']}")
def test_kind_of_every_preferred_fit(row: dict[str, str]) -> None:
    hole_class, shaft_class = row["fit"].split("/")
    kinds = kinds_up_to_500(hole_class, shaft_class)
    assert kinds.most_common(1)[0][0] == row["type"]
    is_mixed = row["type_note"].startswith("transition over")
    assert (len(kinds) > 1) is is_mixed


@given(SIZES)
def test_preferred_classes_are_classes(size: Decimal) -> None:
    assert all(is_class(name) for name in preferred_classes())
    try:
        assert fit_of("H7", "h6", size).clearance_min == 0
    except NotDefined:
        pytest.fail(f"H7/h6 is defined at every size, {size} included")
