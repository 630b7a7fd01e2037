"""Wrong sheets, and the whole text that is shown for each."""

from pathlib import Path

import pytest

from sizewright.sheet.columns import column_at
from sizewright.sheet.faults import fault_text, faults_text
from sizewright.sheet.model import Fault
from sizewright.sheet.read import read_text

SOURCE = Path("a.sheet")
WORDS = (
    "the words are part, drawing, revision, unit, manner, general, threads, material, temperature, lot, pieces, "
    "sampling, "
    "remark, made by, date and view; a callout that begins so has its number before it"
)

CASES = [
    (
        "partt: Worm",
        """
a.sheet:1:1: "partt" is no title-block word
    partt: Worm
    ^~~~~
    did you mean "part"?""",
    ),
    (
        "scale: 1:2",
        f"""
a.sheet:1:1: "scale" is no title-block word
    scale: 1:2
    ^~~~~
    {WORDS}""",
    ),
    (
        "unit: mm\nunit: inch",
        """
a.sheet:2:7: "unit" already stands on line 1
    unit: inch
          ^~~~
    one of the two has to go""",
    ),
    (
        "unit: inchs",
        """
a.sheet:1:7: "inchs" is no unit known here
    unit: inchs
          ^~~~~
    did you mean "inch"?""",
    ),
    (
        "manner: japanese",
        """
a.sheet:1:9: "japanese" is no manner known here
    manner: japanese
            ^~~~~~~~
    what would read: "iso" or "asme\"""",
    ),
    (
        "pieces: three",
        """
a.sheet:1:9: the pieces are a whole number, 1 or more
    pieces: three
            ^~~~~
    as in "pieces: 3\"""",
    ),
    (
        "date: 31.3.2026",
        """
a.sheet:1:7: the date is not written as year-month-day
    date: 31.3.2026
          ^~~~~~~~~
    as in "date: 2026-03-31\"""",
    ),
    (
        "date: 2026-02-30",
        """
a.sheet:1:7: there is no day 2026-02-30
    date: 2026-02-30
          ^~~~~~~~~~
    as in "date: 2026-03-31\"""",
    ),
    (
        "temperature: 20 K",
        """
a.sheet:1:14: the temperature is a number with °C or °F, with its spread after ±
    temperature: 20 K
                 ^~~~
    as in "temperature: 22 ±2 °C\"""",
    ),
    (
        "unit:   ; to be asked",
        """
a.sheet:1:6: nothing stands after "unit:"
    unit:   ; to be asked
         ^
    as in "unit: mm", or leave the entry out""",
    ),
    (
        "view:",
        """
a.sheet:1:6: the view has no name
    view:
         ^
    as in "view: front\"""",
    ),
    (
        "3: 25\n4: 30\n3: 35",
        """
a.sheet:3:1: balloon 3 already stands on line 1
    3: 35
    ^
    the next free number is 5""",
    ),
    (
        "1:10",
        """
a.sheet:1:1: this is a balloon and its callout, or a ratio: it is not said which
    1:10
    ^~~~
    "1: 10" for the balloon; a number before it, as in "7: 1:10", for the ratio""",
    ),
    (
        "5:\n6: 25",
        """
a.sheet:1:3: balloon 5 has no callout
    5:
      ^
    as in "5: 25 ±0.1\"""",
    ),
    (
        "0: 25",
        """
a.sheet:1:1: balloon numbers go from 1 to 99999
    0: 25
    ^
    a whole number, 1 or more; sub-numbers such as 2.1 are given when the callout is read""",
    ),
    (
        "2.1: 25",
        """
a.sheet:1:1: "2.1" is no balloon number
    2.1: 25
    ^~~
    a whole number, 1 or more; sub-numbers such as 2.1 are given when the callout is read""",
    ),
    (
        "3 @C3 25 ±0.1",
        """
a.sheet:1:6: the colon after the balloon number is missing
    3 @C3 25 ±0.1
         ^
    as in "2 @C3: 25 ±0.1\"""",
    ),
    (
        "3 [crit]: 25",
        """
a.sheet:1:3: "crit" is no class
    3 [crit]: 25
      ^~~~~~
    did you mean "critical"?""",
    ),
    (
        "3 [key]: 25",
        """
a.sheet:1:3: "key" is no class
    3 [key]: 25
      ^~~~~
    what would read: "critical", "major" or "minor\"""",
    ),
    (
        "3 [major] @C3 [minor]: 25",
        """
a.sheet:1:15: a second class; the first is major
    3 [major] @C3 [minor]: 25
                  ^~~~~~~
    one for each line""",
    ),
    (
        "3 @ [major] @C3 @C4: 25",
        """
a.sheet:1:3: no zone stands after the @
    3 @ [major] @C3 @C4: 25
      ^
    as in "@C3"

a.sheet:1:17: a second zone; the first is C3
    3 @ [major] @C3 @C4: 25
                    ^~~
    one for each line""",
    ),
    (
        "1: 25\n\t2: 30",
        """
a.sheet:2:2: an indented line continues the callout above it, but this one looks like a ballooned line
            2: 30
            ^~~~~
    a line of its own begins no deeper than the line above it""",
    ),
    (
        "1: 25\n   Ø30\n     unit: mm ; late",
        """
a.sheet:3:6: an indented line continues the callout above it, but this one looks like a title-block entry
         unit: mm ; late
         ^~~~~~~~
    a line of its own begins no deeper than the line above it""",
    ),
    (
        "pieces: 0\n25\npieces: 漢\t0",
        """
a.sheet:1:9: the pieces are a whole number, 1 or more
    pieces: 0
            ^
    as in "pieces: 3"

a.sheet:3:9: "pieces" already stands on line 1
    pieces: 漢      0
            ^~~~~~~~~
    one of the two has to go""",
    ),
    (
        "\tunit:\t漢字",
        """
a.sheet:1:8: "漢字" is no unit known here
            unit:   漢字
                    ^~~~
    what would read: "mm" or "inch\"""",
    ),
    (
        "unit: \x1b[31m",
        """
a.sheet:1:7: "\ufffd[31m" is no unit known here
    unit: \ufffd[31m
          ^~~~~
    what would read: "mm" or "inch\"""",
    ),
]


@pytest.mark.parametrize(("text", "expected"), CASES, ids=[repr(text) for text, _ in CASES])
def test_faults_as_shown(text: str, expected: str) -> None:
    sheet = read_text(text, SOURCE)
    assert faults_text(sheet.source, sheet.faults) == expected.lstrip("\n")


def test_an_error_in_the_general_tolerance_is_shown_in_its_line() -> None:
    (fault,) = read_text("  general:  ±0.1 rubbish", SOURCE).faults
    assert fault_text(SOURCE, fault).split("\n")[1:3] == [
        "      general:  ±0.1 rubbish",
        "                     ^~~~~~~",
    ]


@pytest.mark.parametrize("at", [0, 1, 50, 99, 100, 500, 899, 900])
def test_of_a_long_line_the_part_around_the_caret_is_shown(at: int) -> None:
    text = ("".join(str(digit) for digit in range(10)) * 90)[:900]
    text = text[:at] + "?" + text[at + 1 :] if at < 900 else text
    _, line, caret = fault_text(SOURCE, Fault(1, at + 1, 1, "no", text)).split("\n")
    assert len(line) <= 106
    assert line.ljust(len(caret))[len(caret) - 1] == ("?" if at < 900 else " ")


@pytest.mark.parametrize("column", [1, 3, 9])
def test_a_fault_beyond_its_text_is_shown_at_its_end(column: int) -> None:
    shown = fault_text(SOURCE, Fault(1, column, 4, "no", "25"))
    assert shown == f"a.sheet:1:{column}: no\n    25\n    {'^~' if column == 1 else '  ^'}"


def test_a_fault_without_text_is_its_message() -> None:
    assert fault_text(SOURCE, Fault(1, 1, 0, "no", "")) == "a.sheet:1:1: no"


@pytest.mark.parametrize(
    ("text", "offset", "column"),
    [("abc", 2, 3), ("\tx", 1, 9), ("abc\tx", 4, 9), ("漢x", 1, 3), ("e\u0301x", 2, 2), ("", 0, 1)],
)
def test_columns_as_shown(text: str, offset: int, column: int) -> None:
    assert column_at(text, offset) == column
