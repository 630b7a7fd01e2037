"""What a line of a sheet is: balloon numbers, heads, remarks, continuations."""

from pathlib import Path

import pytest

from sizewright.sheet.faults import callout_fault, place
from sizewright.sheet.model import Sheet
from sizewright.sheet.read import read_text
from sizewright.text.errors import CalloutError

SOURCE = Path("a.sheet")

# (sheet, the lines it holds as balloon and callout); none has a fault.
CALLOUTS: list[tuple[str, list[tuple[int, str]]]] = [
    ("", []),
    ("; nothing\n\n   ; at all", []),
    ("25 ±0.1", [(1, "25 ±0.1")]),
    ("   25 ±0.1", [(1, "25 ±0.1")]),
    ("1: 25", [(1, "25")]),
    ("1:Ø25", [(1, "Ø25")]),
    ("1 : 25", [(1, "25")]),
    ("007: 25", [(7, "25")]),
    ("１２： 25", [(12, "25")]),
    ("7: 1:10", [(7, "1:10")]),
    ("7 [major]:1:10", [(7, "1:10")]),
    ("TAPER 1:20\n⌲ 1:5", [(1, "TAPER 1:20"), (2, "⌲ 1:5")]),
    ("TAPER: 1:20", [(1, "TAPER: 1:20")]),
    ("TOLERANCES: .XX ±.01", [(1, "TOLERANCES: .XX ±.01")]),
    ("Unless otherwise specified: .XX ±.01", [(1, "Unless otherwise specified: .XX ±.01")]),
    ("D3.8 THRU; CSK D7/90", [(1, "D3.8 THRU; CSK D7/90")]),
    ("4X M4 x 0.7 - 6H; 6.0 mm min full thread ; tap", [(1, "4X M4 x 0.7 - 6H; 6.0 mm min full thread")]),
    ("[25]\n25 [A]\n4 @ 90°", [(1, "[25]"), (2, "25 [A]"), (3, "4 @ 90°")]),
    # the next free number
    ("1: a\nb\n3: c\nd\ne", [(1, "a"), (2, "b"), (3, "c"), (4, "d"), (5, "e")]),
    ("a\n1: b\n2: c\nd", [(3, "a"), (1, "b"), (2, "c"), (4, "d")]),
    ("5: a\nb\n2: c\nd\ne\nf", [(5, "a"), (6, "b"), (2, "c"), (3, "d"), (4, "e"), (7, "f")]),
    # continuations
    ("25\n  +0.1\n  -0.2", [(1, "25\n+0.1\n-0.2")]),
    ("1: 25\n    +0.1\n   Ø30", [(1, "25\n+0.1"), (2, "Ø30")]),
    ("1:   25\n   +0.1", [(1, "25\n+0.1")]),
    ("1: 25\n\n; remark\n    +0.1", [(1, "25\n+0.1")]),
    ("1:\n   25\n   +0.1", [(1, "25\n+0.1")]),
    ("1: 25\n    partly: x", [(1, "25\npartly: x")]),
    ("1: TAPER\n     1:20", [(1, "TAPER\n1:20")]),
    ("1: 4x Ø5 ; deep\n     csk; 90°", [(1, "4x Ø5\ncsk; 90°")]),
    # lines of their own although they are indented
    ("view: front\n  25\n  30\n    +0.1", [(1, "25"), (2, "30\n+0.1")]),
    ("view: front\n  1: 25\n  2: 30\n     R5", [(1, "25"), (2, "30"), (3, "R5")]),
    ("  unit: mm\n  1: 25\n       +0.1\n  2: 30", [(1, "25\n+0.1"), (2, "30")]),
    ("1:\t25\n        Ø30\n\tØ35", [(1, "25"), (2, "Ø30"), (3, "Ø35")]),
    ("1:  25\n    Ø30\n      +0.1\n    Ø35", [(1, "25"), (2, "Ø30\n+0.1"), (3, "Ø35")]),
]

# (a line's head, zone, class)
TAGS = [
    ("3", "", None),
    ("3 @C3", "C3", None),
    ("3@C3", "C3", None),
    ("3 @1/C-3", "1/C-3", None),
    ("3 [critical]", "", "critical"),
    ("3[ Major ]", "", "major"),
    ("3 @C3 [minor]", "C3", "minor"),
    ("3 [minor] @C3", "C3", "minor"),
]


def _read(text: str) -> Sheet:
    return read_text(text, SOURCE)


@pytest.mark.parametrize(("text", "expected"), CALLOUTS, ids=[repr(text) for text, _ in CALLOUTS])
def test_callouts(text: str, expected: list[tuple[int, str]]) -> None:
    sheet = _read(text)
    assert expected == [(line.balloon, line.callout) for line in sheet.lines]
    assert sheet.faults == ()


@pytest.mark.parametrize(("head", "zone", "class_"), TAGS)
def test_zone_and_class_stand_after_the_number(head: str, zone: str, class_: str | None) -> None:
    sheet = _read(f"{head}: 25 ±0.1")
    assert sheet.faults == ()
    (line,) = sheet.lines
    assert (3, zone, class_, "25 ±0.1") == (line.balloon, line.zone, line.class_, line.callout)


def test_a_view_holds_for_the_lines_after_it() -> None:
    sheet = _read("1: 25\nView: front\n2: 30\npart: x\n3: 35\nview: section A-A\n4: 40")
    assert [line.view for line in sheet.lines] == ["", "front", "front", "section A-A"]


def test_remarks_of_all_its_lines_belong_to_a_callout() -> None:
    (line,) = _read("1: 25 ; bore\n    +0.1 ;\n    -0.1 ;from; sheet 2").lines
    assert line.remark == "bore; from; sheet 2"


def test_title_words_in_any_case_and_a_remark_after_them() -> None:
    sheet = _read("Made  By: Ann ; checked\nPART: A; B\nlot:")
    assert {word: e.value for word, e in sheet.title.items()} == {"made by": "Ann", "part": "A; B", "lot": ""}
    assert sheet.faults == ()


def test_a_doubled_number_keeps_both_lines() -> None:
    sheet = _read("3: 25\n3: 30\n35")
    assert [(line.balloon, line.callout) for line in sheet.lines] == [(3, "25"), (3, "30"), (4, "35")]
    assert [fault.line for fault in sheet.faults] == [2]


def test_places_in_a_callout_of_two_lines() -> None:
    (line,) = _read("view: front\n12 @C3:  25 H7\n            +0.1").lines
    assert place(line, 1) == (2, 10)
    assert place(line, 6) == (2, 15)  # the line break: just after the line
    assert place(line, 7) == (3, 13)
    assert place(line, 11) == (3, 17)  # just after the end


def test_an_error_in_a_callout_is_a_fault_of_the_sheet() -> None:
    (line,) = _read("1:  25 H7\n     +0.1x").lines
    assert line.callout == "25 H7\n+0.1x"
    fault = callout_fault(line, CalloutError("no", 10, 11, "yes"))
    assert (
        fault.line, fault.column, fault.length, fault.message, fault.text, fault.hint
    ) == (2, 10, 1, "no", "     +0.1x", "yes")  # fmt: skip
    longer = callout_fault(line, CalloutError("no", 3, 11))
    assert (longer.line, longer.column, longer.length) == (1, 8, 2)


def test_a_sheet_of_many_lines_reads_quickly() -> None:
    sheet = _read("1: 25\n25\n" * 1500)
    assert len(sheet.lines) == 3000
    assert len(sheet.faults) == 1499
