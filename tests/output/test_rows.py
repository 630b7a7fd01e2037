from __future__ import annotations

from sizewright.output.front import heading, instrument_rows, methods, remarks, title_block, unread_words
from sizewright.output.rows import Bound, groups_of, readings_words, rows_of
from sizewright.output.slots import slots_of

from .plans import LONG_REMARK, housing, long_plan, saddle

ROWS = {row.number: row for row in rows_of(housing())}


def test_every_line_has_a_row_and_every_view_its_group() -> None:
    assert len(housing().lines) == len(ROWS)
    assert [title for title, _ in groups_of(housing(), ROWS.values())] == ["view: front", "view: section A-A"]


def test_limits_keep_their_zeros_and_their_unit() -> None:
    assert ROWS["1"].limits == (Bound("size", "62.000", "62.030"),)
    assert (ROWS["1"].unit, ROWS["1"].other_unit) == ("mm", "inch")
    assert ROWS["11"].limits == (Bound("size", "29.5", "30.333333333", words_upper="30°20'"),)
    assert ROWS["11"].unit == "deg"
    assert ROWS["4"].limits == (Bound("size", "", "12"),)


def test_a_callout_in_another_unit_says_the_unit_its_limits_are_in() -> None:
    rows = {row.number: row for row in rows_of(saddle())}
    assert (rows["3"].limits[0].lower, rows["3"].unit) == ("5.992", "mm")
    assert (rows["3"].other_limits[0].lower, rows["3"].other_unit) == ("0.23591", "inch")
    assert rows["4"].unit == "µin"


def test_both_sides_are_shown_where_the_side_is_not_told() -> None:
    assert [bound.label for bound in ROWS["12"].limits] == [
        "internal pitch diameter",
        "internal minor diameter",
        "external major diameter",
        "external pitch diameter",
    ]
    assert ROWS["12"].standing == "undecided until the side is known"


def test_lines_without_a_verdict_say_why_in_words() -> None:
    words = {number: row.standing for number, row in ROWS.items() if row.standing}
    assert words == {
        "6": "reference: for information, no verdict",
        "7": "basic: exact, no verdict of its own",
        "8": "no limits: nothing typed gives them, no verdict",
        "9": "contradiction: no limits given, no verdict (k6 gives +0.015 / +0.002; typed are +0.020 / +0.002)",
        "10": "NOT READ: the class Q7 does not exist",
        "12": "undecided until the side is known",
    }


def test_the_count_is_told_once() -> None:
    assert ROWS["2.1"].characteristic == "hole diameter, 4 places"
    assert ROWS["2.2"].characteristic == "counterbore diameter, 4 places"
    assert ROWS["8"].characteristic == "radius 3 mm, typical: everywhere it occurs"


def test_readings_are_asked_a_limit_a_piece_and_an_instance() -> None:
    labels = {number: [slot.label for slot in slots_of((row,))] for number, row in ROWS.items()}
    assert labels["2.1"] == ["1/1", "1/2", "1/3", "1/4", "2/1", "2/2", "2/3", "2/4"]
    assert labels["14"] == ["1/1 major", "1/1 pitch", "1/1 minor", "2/1 major", "2/1 pitch", "2/1 minor"]
    assert labels["5"] == ["1/1", "2/1"], "a gauge answers for all the limits of a thread"
    assert labels["12"] == ["1/1", "2/1"]
    assert labels["6"] == labels["10"] == []
    assert readings_words(ROWS["2.1"]) == "4 on each of 2 pieces"


def test_the_front_says_each_text_once() -> None:
    plan = long_plan()
    (note,) = remarks(rows_of(plan))
    assert note.sentence() == f"7, 14, 21, 28: remark on the sheet: {LONG_REMARK}"
    assert heading(plan) == "Tube ring, EQ-118, revision C"


def test_the_front_of_a_faulty_plan() -> None:
    plan = housing()
    rows = rows_of(plan)
    assert unread_words(rows) == "This plan is incomplete. Not read: 10."
    assert remarks(rows)[0].sentence().startswith("3: warning: T/2U is 2.1")
    assert [note.numbers for note in methods(rows)] == [("14",)]
    assert [row.lines for row in instrument_rows(plan)] == ["2.1, 2.2, 3, 4, 14", "1", "5"]
    assert [word for word, _ in title_block(plan)] == [
        "part", "drawing", "revision", "unit", "manner", "general", "material", "pieces",
    ]  # fmt: skip
