"""Sampling plans: every row of the tables, their pattern, operating curves, and what always holds."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction
from typing import Literal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sizewright.standards.errors import NotDefined
from sizewright.standards.sampling import (
    LEVELS,
    SinglePlan,
    aqls,
    chance_from_lot,
    chance_of_acceptance,
    code_letter,
    curve_words,
    lot_decision,
    near_aqls,
    quality_accepted,
    single_plan,
)

from ..support import table

LETTERS = "ABCDEFGHJKLMNPQR"
SIZES = (2, 3, 5, 8, 13, 20, 32, 50, 80, 125, 200, 315, 500, 800, 1250, 2000)
# A lot and a level for each letter (ISO 2859-1, Table 1).
LOT_OF = {
    "A": (8, "II"), "B": (15, "II"), "C": (25, "II"), "D": (50, "II"), "E": (90, "II"), "F": (150, "II"),
    "G": (280, "II"), "H": (500, "II"), "J": (1200, "II"), "K": (3200, "II"), "L": (10000, "II"), "M": (35000, "II"),
    "N": (150000, "II"), "P": (500000, "II"), "Q": (500001, "II"), "R": (500001, "III"),
}  # fmt: skip
Inspection = Literal["normal", "tightened"]


@pytest.mark.parametrize(
    "row", table("standards/data/sampling_letters.csv"), ids=lambda r: f"{r['lot_min']} {r['level']}"
)
def test_every_letter(row: dict[str, str]) -> None:
    for lot in (row["lot_min"], row["lot_max"] or "99999999"):
        assert code_letter(int(lot), row["level"]) == row["code_letter"]


def test_the_letters_leave_no_gap() -> None:
    ends = [
        (int(r["lot_min"]), r["lot_max"]) for r in table("standards/data/sampling_letters.csv") if r["level"] == "II"
    ]
    assert ends[0][0] == 2
    assert [int(upper) + 1 for _, upper in ends[:-1]] == [lower for lower, _ in ends[1:]]


@pytest.mark.parametrize("inspection", ["normal", "tightened"])
def test_every_plan(inspection: Inspection) -> None:
    own = [row for row in table("standards/data/sampling_plans.csv") if row["inspection"] == inspection]
    assert len(own) == 16 * 11
    for row in own:
        lot, level = LOT_OF[row["code_letter"]]
        found = single_plan(lot, level, Decimal(row["aql"]), inspection)
        assert (found.n_of_table, found.ac, found.re, found.letter, found.code_letter) == (
            int(row["n"]), int(row["Ac"]), int(row["Re"]), row["plan_letter"], row["code_letter"]
        )  # fmt: skip
        assert found.n == min(found.n_of_table, lot)
        assert found.re == found.ac + 1


# The diagonal pattern of the master tables, from the plan 0/1 on (ISO 2859-1, Tables 2-A and 2-B): D is an arrow down
# (to the next larger sample), U one up. Before it all arrows point down, after it all point up.
PATTERNS = {
    "normal": (0, (0, "U", "D", 1, 2, 3, 5, 7, 10, 14, 21)),
    "tightened": (1, (0, "D", "D", 1, 2, 3, 5, 8, 12, 18)),
}


def plan_by_pattern(letter: int, aql: int, inspection: str) -> tuple[int, int] | None:
    first, pattern = PATTERNS[inspection]
    while 0 <= letter < len(LETTERS):
        place = letter + aql - 10 - first
        cell = "D" if place < 0 else "U" if place >= len(pattern) else pattern[place]
        if isinstance(cell, int):
            return SIZES[letter], cell
        letter += 1 if cell == "D" else -1
    return None


@pytest.mark.parametrize("inspection", PATTERNS)
def test_the_tables_keep_the_pattern(inspection: Inspection) -> None:
    for letter, name in enumerate(LETTERS):
        lot, level = LOT_OF[name]
        for index, aql in enumerate(aqls()):
            expected = plan_by_pattern(letter, index, inspection)
            found = single_plan(lot, level, aql, inspection)
            assert expected in (None, (found.n_of_table, found.ac)), (name, aql)


# (lot, level, AQL, inspection, n, Ac, Re, letter used): MIL-STD-105E Tables II-A and II-B as printed (NIBS 1-A, 1-B)
@pytest.mark.parametrize(
    ("lot", "level", "aql", "inspection", "expected"),
    [
        (500, "II", "1.0", "normal", (50, 1, 2, "H")),
        (500, "II", "0.65", "normal", (80, 1, 2, "J")),  # arrow down
        (500, "II", "0.40", "normal", (32, 0, 1, "G")),  # arrow up
        (1200, "II", "0.65", "normal", (80, 1, 2, "J")),
        (3200, "II", "2.5", "normal", (125, 7, 8, "K")),
        (1200, "II", "1.0", "normal", (80, 2, 3, "J")),
        (1200, "II", "1.0", "tightened", (80, 1, 2, "J")),
        (35000, "II", "6.5", "normal", (200, 21, 22, "L")),  # arrow up
    ],
)
def test_printed_cells(
    lot: int, level: str, aql: str, inspection: Inspection, expected: tuple[int, int, int, str]
) -> None:
    found = single_plan(lot, level, Decimal(aql), inspection)
    assert (found.n, found.ac, found.re, found.letter) == expected


@pytest.mark.parametrize(
    ("n", "ac", "per_cent"),
    [(80, 2, "1.030"), (125, 7, "3.224")],  # scipy.stats.binom and brentq
)
def test_operating_curves(n: int, ac: int, per_cent: str) -> None:
    plan = SinglePlan(n, ac, ac + 1)
    assert quality_accepted(plan, Fraction(95, 100)) == Decimal(per_cent)
    share = Fraction(per_cent) / 100
    assert abs(chance_of_acceptance(plan, share) - Fraction(95, 100)) < Fraction(1, 2000)


def test_curves_by_hand() -> None:
    assert chance_of_acceptance(SinglePlan(2, 0, 1), Fraction(1, 10)) == Fraction(81, 100)
    assert chance_of_acceptance(SinglePlan(3, 1, 2), Fraction(1, 2)) == Fraction(1, 2)
    assert chance_from_lot(SinglePlan(2, 0, 1), 10, 1) == Fraction(8, 10)
    assert chance_from_lot(SinglePlan(10, 0, 1), 10, 1) == 0
    assert curve_words(SinglePlan(80, 2, 3)) == (
        "a lot with 1.03 % nonconforming is accepted 95 times in 100, one with 6.516 % still 10 times in 100"
    )


@pytest.mark.parametrize(("lot", "nonconforming"), [(5, 1), (20, 21), (20, -1)])
def test_a_sample_is_part_of_its_lot(lot: int, nonconforming: int) -> None:
    with pytest.raises(ValueError, match="parts of the lot"):
        chance_from_lot(SinglePlan(10, 0, 1), lot, nonconforming)


@pytest.mark.parametrize(
    ("aql", "near"),
    [
        ("1.1", ("1.0", "1.5")),
        ("0.9", ("1.0", "0.65")),
        ("0.01", ("0.065",)),
        ("10", ("6.5",)),
        ("3", ("2.5", "4.0")),
        ("0", ("0.065",)),
    ],
)
def test_an_aql_that_is_not_there_names_its_neighbours(aql: str, near: tuple[str, ...]) -> None:
    assert near_aqls(Decimal(aql)) == near
    with pytest.raises(NotDefined) as caught:
        single_plan(500, "II", Decimal(aql))
    assert caught.value.near == near


@pytest.mark.parametrize(
    ("lot", "level", "words", "near"),
    [
        (1, "II", "begins at lots of 2 pieces", ()),
        (0, "I", "begins at lots of 2 pieces", ()),
        (500, "IV", "no inspection level IV", LEVELS),
        (500, "S-5", "no inspection level S-5", LEVELS),
    ],
)
def test_no_letter(lot: int, level: str, words: str, near: tuple[str, ...]) -> None:
    with pytest.raises(NotDefined, match=words) as caught:
        code_letter(lot, level)
    assert caught.value.near == near


def test_words() -> None:
    assert single_plan(500, "II", Decimal(1)).words == (
        "ISO 2859-1, lot 500, level II (letter H), AQL 1.0: n 50, Ac 1, Re 2"
    )
    assert single_plan(500, "II", Decimal("0.65"), "tightened").words == (
        "ISO 2859-1, lot 500, level II (letter H, its arrow leads to K), AQL 0.65, tightened: n 125, Ac 1, Re 2"
    )
    assert single_plan(10, "II", Decimal("0.65")).words == (
        "ISO 2859-1, lot 10, level II (letter B, its arrow leads to F), AQL 0.65: n 20, more than the lot: all 10, "
        "Ac 0, Re 1"
    )


@pytest.mark.parametrize(
    ("nonconforming", "checked", "decision"),
    [
        (0, None, "accept"),
        (1, None, "accept"),
        (2, None, "reject"),
        (0, 49, "go on"),
        (1, 10, "go on"),
        (2, 2, "reject"),
    ],
)
def test_the_lot(nonconforming: int, checked: int | None, decision: str) -> None:
    assert lot_decision(SinglePlan(50, 1, 2), nonconforming, checked) == decision


BOTH: tuple[Inspection, ...] = ("normal", "tightened")
LOTS = st.integers(2, 2_000_000)
AQLS = st.sampled_from(aqls())
INSPECTIONS: st.SearchStrategy[Inspection] = st.sampled_from(BOTH)


@given(LOTS, LOTS, st.sampled_from(LEVELS))
def test_a_larger_lot_has_no_earlier_letter(one: int, other: int, level: str) -> None:
    small, large = sorted((one, other))
    assert LETTERS.index(code_letter(small, level)) <= LETTERS.index(code_letter(large, level))


@given(LOTS, LOTS, st.sampled_from(LEVELS), AQLS, INSPECTIONS)
def test_a_larger_lot_has_no_smaller_sample(
    one: int, other: int, level: str, aql: Decimal, inspection: Inspection
) -> None:
    small, large = (single_plan(lot, level, aql, inspection) for lot in sorted((one, other)))
    assert small.n <= large.n


@given(LOTS)
def test_a_higher_level_has_no_earlier_letter(lot: int) -> None:
    places = [LETTERS.index(code_letter(lot, level)) for level in LEVELS]
    assert places[:4] == sorted(places[:4])
    assert places[4:] == sorted(places[4:])


# Where an arrow of ISO 2859-1, Table 2-B leads to a plan of Ac 1 whose sample reaches the lot (to 13, 20, 32): it says
# to check every piece and name no other acceptance number.
WHOLE_WITH_ONE = {("III", "tightened", letter, aql) for letter, aql in (("C", "6.5"), ("D", "4.0"), ("E", "2.5"))}


@pytest.mark.parametrize(("lot", "aql", "n"), [(9, "6.5", 13), (20, "4.0", 20), (26, "2.5", 32), (32, "2.5", 32)])
def test_a_lot_checked_whole_keeps_the_acceptance_number_of_its_plan(lot: int, aql: str, n: int) -> None:
    plan = single_plan(lot, "III", Decimal(aql), "tightened")
    assert (plan.n, plan.n_of_table, plan.ac, plan.re, plan.whole) == (lot, n, 1, 2, True)


@given(LOTS, st.sampled_from(LEVELS), AQLS, INSPECTIONS)
def test_never_more_than_the_lot(lot: int, level: str, aql: Decimal, inspection: Inspection) -> None:
    plan = single_plan(lot, level, aql, inspection)
    assert 1 <= plan.n <= lot
    if plan.whole and plan.ac:
        assert (level, inspection, plan.code_letter, str(aql)) in WHOLE_WITH_ONE
        assert plan.ac == 1


@given(LOTS, st.sampled_from(LEVELS), AQLS)
def test_tightened_is_no_easier(lot: int, level: str, aql: Decimal) -> None:
    normal, tightened = (single_plan(lot, level, aql, inspection) for inspection in BOTH)
    share = aql.as_integer_ratio()
    at_aql = Fraction(*share) / 100
    if tightened.n <= 315:
        assert chance_of_acceptance(tightened, at_aql) <= chance_of_acceptance(normal, at_aql)


@given(st.integers(1, 60), st.integers(0, 5), st.fractions(0, 1), st.fractions(0, 1))
def test_a_worse_lot_is_accepted_less_often(n: int, ac: int, one: Fraction, other: Fraction) -> None:
    better, worse = sorted((one, other))
    plan = SinglePlan(n, ac, ac + 1)
    assert 0 <= chance_of_acceptance(plan, worse) <= chance_of_acceptance(plan, better) <= 1


@given(st.integers(1, 40), st.integers(0, 3), st.integers(0, 40))
def test_from_a_small_lot(n: int, ac: int, nonconforming: int) -> None:
    plan = SinglePlan(n, ac, ac + 1)
    assert 0 <= chance_from_lot(plan, 40, nonconforming) <= 1
    if nonconforming <= ac:
        assert chance_from_lot(plan, 40, nonconforming) == 1
