"""Marking: a perfect paper marks full, each mistake costs its point, nothing that is typed stops it."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal
from fractions import Fraction
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from sizewright.text.errors import InputError
from sizewright.text.numbers import as_decimal, plain
from sizewright.training.allowance import Allowance, read_allowance
from sizewright.training.answers import Exercise, exercises_of
from sizewright.training.marking import Paper

from .classroom import (
    SAMPLES,
    UNITS,
    Cells,
    far_off,
    form_of,
    paper_of,
    perfect,
    plan_of,
    plan_of_text,
    references_of,
)

ALL = pytest.mark.parametrize("sheet", SAMPLES, ids=lambda path: path.stem)
MARKED = ("lower limit", "upper limit", "unit", "instrument", "resolution", "verdict", "why")
CLAMP = next(path for path in SAMPLES if "clamp" in path.name)
HOUSING = next(path for path in SAMPLES if "worm-housing" in path.name)


def lost(paper: Paper) -> list[tuple[str, str, str]]:
    return [(mark.line, mark.question, mark.given) for mark in paper.marks if not mark.right]


def changed(cells: Cells, key: tuple[str, str], head: str, text: str) -> Cells:
    return cells | {key: cells[key] | {head: text}}


@ALL
def test_a_perfect_paper_marks_full(sheet: Path) -> None:
    plan = plan_of(sheet)
    paper = paper_of(plan, perfect(exercises_of(plan)))
    assert lost(paper) == []
    assert paper.points == paper.possible > 0
    assert paper.remarks == ()


@ALL
def test_a_perfect_paper_in_the_other_unit_marks_full(sheet: Path) -> None:
    """Limits and unit in the unit that the drawing does not have; readings with the drawing's own unit behind them."""
    plan = plan_of(sheet)
    other = "inch" if plan.unit == "mm" else "mm"
    exercises = exercises_of(plan, other)
    cells = perfect(exercises)
    for each in exercises:
        for asked in each.asked:
            row = cells[each.line.number, asked.label]
            for head, text in row.items():
                if head.startswith("reading ") and text != "accept" and each.made.unit != "deg":
                    row[head] = f"{text} {UNITS.get(each.made.unit, '')}".strip()
    for unit in (None, other):  # whatever the worksheet asked for
        assert lost(paper_of(plan, cells, unit=unit)) == []


def asked_cells(each: Exercise, cells: Cells) -> Iterator[tuple[tuple[str, str], str]]:
    """Every cell of a line that is worth a point."""
    for place, asked in enumerate(each.asked):
        key = (each.line.number, asked.label)
        for head in cells[key]:
            if (
                head in ("lower limit", "upper limit")
                or head.startswith("reading ")
                or (not place and (head in ("verdict", "why") or each.decides))
            ):
                yield key, head


@ALL
@pytest.mark.parametrize("text", ["", "§$%", "12.3.4.5", "=A1"])
def test_a_blank_or_garbled_cell_costs_its_point_and_no_other(sheet: Path, text: str) -> None:
    plan = plan_of(sheet)
    exercises = exercises_of(plan)
    cells = perfect(exercises)
    for each in exercises:
        for key, head in asked_cells(each, cells):
            if head == "unit" and not cells[key][head]:
                continue
            if head == "why" and text:
                continue  # any words are a reason; the others are covered below
            wrong = lost(paper_of(plan, changed(cells, key, head, text), only=each))
            question = "reading" if head.startswith("reading ") else "reason" if head == "why" else head
            assert wrong == [(key[0], question, text)], (key, head)


@ALL
def test_each_kind_of_mistake_costs_its_point(sheet: Path) -> None:
    plan = plan_of(sheet)
    exercises = exercises_of(plan)
    cells = perfect(exercises)
    for each in exercises:
        key = (each.line.number, each.asked[0].label)
        mistakes = {"lower limit": "7.7777", "upper limit": "7.7777", "verdict": "reject", "why": "12"}
        if each.decides:
            mistakes |= {"instrument": "thread pitch gauge", "resolution": "97"}
        if each.decides and each.made.unit in ("mm", "inch", "deg", "um", "uin"):
            mistakes["unit"] = "kg"
        for head, text in mistakes.items():
            question = "reason" if head == "why" else head
            assert lost(paper_of(plan, changed(cells, key, head, text), only=each)) == [(key[0], question, text)]
        off = far_off(each, plan)
        if off:
            piece, place = each.slots[-1]
            wrong = lost(paper_of(plan, changed(cells, key, f"reading {piece}/{place}", off), only=each))
            assert wrong == [(key[0], "reading", off)]


def test_the_verdict_goes_by_ones_own_readings() -> None:
    plan = plan_of(HOUSING)
    cells = changed(perfect(exercises_of(plan)), ("3", ""), "reading 2/1", "120.7")
    assert [(line, question) for line, question, _ in lost(paper_of(plan, cells))] == [
        ("3", "reading"),
        ("3", "verdict"),
    ]
    cells["3", ""]["verdict"] = "reject"
    assert [(line, question) for line, question, _ in lost(paper_of(plan, cells))] == [("3", "reading")]


# (line, head, text, right): common practice of writing numbers; conversions by 25.4
WRITTEN = [
    ("3", "lower limit", "120.400", True),
    ("3", "lower limit", "120,4", True),
    ("3", "lower limit", "120.4 mm", True),
    ("3", "lower limit", "4.7402 in", True),  # 120.4 / 25.4 = 4.740157..., rounded up
    ("3", "lower limit", "4.74016 in", True),
    ("3", "lower limit", "4.7401 in", False),  # rounded outward
    ("3", "upper limit", "4.7480 in", True),  # 120.6 / 25.4 = 4.748031..., rounded down
    ("3", "upper limit", "4.7481 in", False),
    ("3", "upper limit", "4.75 in", False),
    ("3", "lower limit", "none", False),
    ("7", "lower limit", "29.5", True),
    ("7", "lower limit", "29°30'", True),
    ("7", "lower limit", "29°30", False),
    ("5", "lower limit", "-", True),
    ("5", "lower limit", "84", False),
    ("10.2", "lower limit", "none", True),
    ("10.2", "lower limit", "0.4", False),
    ("5", "verdict", "None", True),
    ("3", "verdict", "OK", True),
    ("3", "verdict", "pass", True),
    ("3", "verdict", "fail", False),
    ("3", "instrument", "outside mic", True),
    ("3", "instrument", "micrometr 100-125", True),
    ("3", "instrument", "micrometer", True),
    ("3", "instrument", "outside micrometer 25-50 mm", False),
    ("3", "instrument", "outside micrometer 100-125 mm", True),
    ("3", "instrument", "CMM", False),  # the crib has none
    ("3", "instrument", "steel rule", False),  # too coarse
    ("3", "instrument", "the blue one", False),
    ("16", "instrument", "Calliper", True),
    ("16", "instrument", "digital caliper 0-150 mm", True),
    ("16", "instrument", "vernier caliper", False),  # 0.02 mm is fine enough, its error is not
    ("16", "resolution", "0.01", True),
    ("16", "resolution", "0.04", True),
    ("16", "resolution", "0.05", False),
    ("16", "resolution", "0.00001", False),
    ("16", "resolution", "none", False),
]


@pytest.mark.parametrize(("line", "head", "text", "right"), WRITTEN)
def test_answers_as_people_write_them(line: str, head: str, text: str, right: bool) -> None:
    plan = plan_of(HOUSING)
    paper = paper_of(plan, changed(perfect(exercises_of(plan)), (line, ""), head, text))
    assert (lost(paper) == []) is right, [mark for mark in paper.marks if not mark.right]


def test_a_gauge_word_or_a_value_answers_a_thread() -> None:
    plan = plan_of(next(path for path in SAMPLES if "camera" in path.name))
    cells = perfect(exercises_of(plan))
    cells["5", "major diameter"] |= {"reading 1/1": "go", "reading 1/2": ""}
    cells["5", "pitch diameter"]["reading 1/2"] = "7.4"  # within 7.350 to 7.500
    assert lost(paper_of(plan, cells)) == []
    cells["5", "pitch diameter"]["reading 1/2"] = "7.6"
    assert {question for _, question, _ in lost(paper_of(plan, cells))} == {"reading", "verdict"}


# (allowance, line 3's amount in mm): 120.5 ±0.1; None: from the uncertainty
ALLOWANCES = [
    ("0.02 mm", "0.02"),
    ("0,02", "0.02"),
    ("0.001 in", "0.0254"),
    ("10 %", "0.02"),
    ("5% of tolerance", "0.01"),
]


@pytest.mark.parametrize(("text", "amount"), ALLOWANCES)
def test_an_allowance_as_stated(text: str, amount: str) -> None:
    three = next(each for each in exercises_of(plan_of(HOUSING)) if each.line.number == "3")
    assert read_allowance(text).for_line(three, "", "").amount == Decimal(amount)


def test_the_usual_allowance_is_the_root_of_the_squares() -> None:
    three = next(each for each in exercises_of(plan_of(HOUSING)) if each.line.number == "3")
    tool = next(one.instrument for one in three.suitable if one.instrument.name == "outside micrometer 100-125 mm")
    wish = plan_of(HOUSING).wish
    usual = Allowance()._replace(wish=wish).for_line(three, tool.name, tool.name).amount
    assert Decimal("0.013") <= usual <= Decimal("0.014")  # U 0.0093 in the plan, times the root of 2
    twice = read_allowance("2 U")._replace(wish=wish).for_line(three, tool.name, tool.name).amount
    assert Fraction("0.024") <= Fraction(twice) <= Fraction("0.028")


@pytest.mark.parametrize("text", ["", "wide", "-1 mm", "5 kg", "%", "1e99 U"])
def test_an_allowance_that_does_not_read(text: str) -> None:
    with pytest.raises(InputError):
        read_allowance(text)


@given(data=st.data())
@settings(deadline=None)
def test_no_text_in_any_cell_stops_it(data: st.DataObject) -> None:
    plan = plan_of(CLAMP)
    cells = perfect(exercises_of(plan))
    texts = st.text(max_size=70) | st.sampled_from(["1/0", "∞", "NaN", "1e999", "--", "'", '"', "1'2'3", "٣"])
    for _ in range(data.draw(st.integers(1, 12))):
        key = data.draw(st.sampled_from(sorted(cells)))
        head = data.draw(st.sampled_from(sorted(cells[key])))
        cells[key][head] = data.draw(texts)
    paper = paper_of(plan, cells)
    assert 0 <= paper.points <= paper.possible


@given(data=st.data())
@settings(deadline=None)
def test_points_are_lost_only_where_something_was_changed(data: st.DataObject) -> None:
    plan = plan_of(HOUSING)
    exercises = exercises_of(plan)
    cells = perfect(exercises)
    spots = [spot for each in exercises for spot in asked_cells(each, cells)]
    blanked = data.draw(st.sets(st.sampled_from(spots), max_size=10))
    for key, head in blanked:
        cells[key][head] = ""
    paper = paper_of(plan, cells)
    assert paper.possible - paper.points == len(blanked)


def test_rows_that_are_missing_doubled_or_unknown_are_told() -> None:
    plan = plan_of(HOUSING)
    exercises = exercises_of(plan)
    cells = perfect(exercises)
    gone = cells.pop(("16", ""))
    cells["77", ""] = gone
    form = form_of(cells)
    from sizewright.training.marking import mark_form

    paper = mark_form(form, plan, exercises, references_of(exercises), Allowance())
    assert any("77" in each and "not asked" in each for each in paper.remarks)
    assert any("line 16 is missing" in each for each in paper.remarks)
    assert {line for line, _, _ in lost(paper)} == {"16"}


def test_a_line_that_nothing_reaches_wants_none(tmp_path: Path) -> None:
    plan = plan_of_text(tmp_path, "unit: mm\n1: 9000 ±1\n")
    assert lost(paper_of(plan, perfect(exercises_of(plan)))) == []


@ALL
def test_a_form_that_asks_both_units_is_marked_in_both(sheet: Path) -> None:
    plan = plan_of(sheet)
    exercises = exercises_of(plan)
    cells = perfect(exercises)
    for each in exercises:
        for asked in each.asked:
            if asked.other is not None:
                row = cells[each.line.number, asked.label]
                row["other lower limit"] = "none" if asked.other.lower is None else plain(as_decimal(asked.other.lower))
                row["other upper limit"] = "none" if asked.other.upper is None else plain(as_decimal(asked.other.upper))
    paper = paper_of(plan, cells)
    assert lost(paper) == []
    assert paper.possible > paper_of(plan, perfect(exercises)).possible
