"""Every known callout comes to exactly its stated meaning."""

from __future__ import annotations

import re

import pytest

from sizewright.resolve.answer import answer, answer_json
from sizewright.resolve.characteristic import Characteristic
from sizewright.resolve.context import Context, Unit
from sizewright.text.numbers import plain

from ..support import callout_rows


def _bare(number: str) -> str:
    return number.rstrip("0").rstrip(".") if "." in number else number


def _without_zeros(part: str) -> str:
    """A meaning whose limits have no trailing zeros: they are the same limits."""
    head, limits, status = part.rsplit(" | ", 2)
    return " | ".join((head, "..".join(_bare(bound) for bound in limits.split("..")), status))


def meaning(callout: str, unit: Unit) -> list[str]:
    """The characteristics of a callout in the short form of the table."""
    given = answer(callout, Context(unit))
    assert given.error is None, given.error
    parts = []
    for made in given.characteristics:
        if made.kind == "thread":
            parts.append(thread_words(made))
            continue
        limits = "open"
        if made.status == "toleranced":
            bounds = (None, None) if made.size is None else (made.size.lower, made.size.upper)
            limits = "..".join("" if bound is None else _bare(plain(bound)) for bound in bounds)
        nominal = "-" if made.nominal is None else plain(made.nominal)
        count = "?" if made.count is None else made.count
        parts.append(f"{count} {made.kind} | {nominal} {made.unit} | {limits} | {made.status.value}")
    return parts


def thread_words(made: Characteristic) -> str:
    """Everything that the table may tell of a thread."""
    thread = dict(made.extra["thread"])  # type: ignore[call-overload]
    said = {key: thread.get(key) for key in ("pitch", "tpi", "class", "starts")}
    said |= {"hand": "LH" if thread["hand"] == "left" else "RH", "side": made.side}
    return f"{made.count} thread | " + " ".join(f"{key}={value}" for key, value in said.items())


def _stated(part: str, given: list[str]) -> str:
    """A thread of the table as the answer that tells at least as much; any other part as it stands."""
    if " thread | " not in part:
        return _without_zeros(part)
    head, said = part.split(" | ")
    wanted = dict(each.split("=") for each in said.split())
    if "/" in wanted.get("class", ""):
        del wanted["class"]  # a pair: each of the two has its own
    for each in given:
        found = dict(word.split("=") for word in each.partition(" | ")[2].split()) if " thread | " in each else {}
        if each.startswith(head) and all(_bare(found.get(key, "")) == _bare(value) for key, value in wanted.items()):
            return each
    return part


@pytest.mark.parametrize("row", callout_rows(), ids=lambda row: row["callout"])
def test_a_known_callout_has_its_stated_meaning(row: dict[str, str]) -> None:
    unit: Unit = "inch" if row["unit"] == "inch" else "mm"
    given = meaning(row["callout"], unit)
    expected = [_stated(part.strip(), given) for part in row["meaning"].split(";")]
    if "| by class |" in row["meaning"]:
        given = [re.sub(r"\| [\d.]+ \| (?=toleranced)", "| by class | ", part) for part in given]
    assert sorted(expected) == sorted(given)


# Further forms, with the rule that they follow. (callout, unit, meaning)
MORE: list[tuple[str, Unit, str]] = [
    # common practice, no source
    ("25 (±0.1)", "mm", "1 length | 25 mm | 24.9..25.1 | toleranced"),
    ("25\n±0.1", "mm", "1 length | 25 mm | 24.9..25.1 | toleranced"),
    ("+0.05\n75\n-0.02", "mm", "1 length | 75 mm | 74.98..75.05 | toleranced"),
    ("25.1 MAX / 24.9 MIN", "mm", "1 length | - mm | 24.9..25.1 | toleranced"),
    ("24.9 MIN - 25.1 MAX", "mm", "1 length | - mm | 24.9..25.1 | toleranced"),
    ("4 HOLES\nØ5 THRU", "mm", "4 diameter | 5 mm | open | untoleranced"),
    ("(2x) R5", "mm", "2 radius | 5 mm | open | untoleranced"),
    ("Ø8 (6 HOLES)", "mm", "6 diameter | 8 mm | open | untoleranced"),
    ("2 PLACES 10", "mm", "2 length | 10 mm | open | untoleranced"),
    ("4 OFF Ø5", "mm", "4 diameter | 5 mm | open | untoleranced"),
    ("REF 84", "mm", "1 length | 84 mm | open | reference"),
    ("BASIC 50", "mm", "1 length | 50 mm | open | basic"),
    ("Ø10, R5", "mm", "1 diameter | 10 mm | open | untoleranced; 1 radius | 5 mm | open | untoleranced"),
    ("0-0.5", "mm", "1 length | - mm | 0..0.5 | toleranced"),
    ("R0.5-1.5", "mm", "1 radius | - mm | 0.5..1.5 | toleranced"),
    ('60° ±30"', "mm", "1 angle | 60 deg | 59.991666667..60.008333333 | toleranced"),
    ("1 x 45° REF", "mm", "1 chamfer size | 1 mm | open | reference; 1 chamfer angle | 45 deg | open | reference"),
    ("4X0.5X45°", "mm", "4 chamfer size | 0.5 mm | open | untoleranced; "
                        "4 chamfer angle | 45 deg | open | untoleranced"),
    # ASME Y14.5: an X glued to its number counts, one with blanks on both sides means "by"
    ("2x 45°", "mm", "2 angle | 45 deg | open | untoleranced"),
    ("2 x 45°", "mm", "1 chamfer size | 2 mm | open | untoleranced; 1 chamfer angle | 45 deg | open | untoleranced"),
    ("5x20 (=100)", "mm", "5 length | 20 mm | open | untoleranced; 1 length | 100 mm | open | reference"),
    ("3x 30° (=90°)", "mm", "3 angle | 30 deg | open | untoleranced; 1 angle | 90 deg | open | reference"),
    ('5x 1" (=5)', "mm", "5 length | 1 inch | open | untoleranced; 1 length | 5 inch | open | reference"),
    # a count holds on over lines, a semicolon ends it; TYP holds for its own line
    ("4x Ø5\nR3", "mm", "4 diameter | 5 mm | open | untoleranced; 4 radius | 3 mm | open | untoleranced"),
    ("4x Ø5; R3", "mm", "4 diameter | 5 mm | open | untoleranced; 1 radius | 3 mm | open | untoleranced"),
    ("R3 TYP; 10 ±0.1", "mm", "? radius | 3 mm | open | untoleranced; 1 length | 10 mm | 9.9..10.1 | toleranced"),
    ("4x Ø5 ↧10", "mm", "4 diameter | 5 mm | open | untoleranced; 4 depth | 10 mm | open | untoleranced"),
    ('10 ±0.1"', "mm", "1 length | 10 inch | 9.9..10.1 | toleranced"),
]  # fmt: skip


@pytest.mark.parametrize(("callout", "unit", "expected"), MORE, ids=[row[0] for row in MORE])
def test_further_forms(callout: str, unit: Unit, expected: str) -> None:
    assert [_without_zeros(part.strip()) for part in expected.split(";")] == meaning(callout, unit)


# What is worth a warning: (callout, unit, part of it)
WARNED: list[tuple[str, Unit, str]] = [
    ("2 x 1.5", "mm", "two legs of a chamfer; a count has"),
    ('10 ±0.1"', "mm", "taken for the size too: inches"),
    ("1.000 ±0.1 mm", "inch", "taken for the size too: mm"),
    ("1 1/2", "mm", "a fraction: taken as inches"),
    ("25 ±O.1", "mm", "letter O is read as the figure 0"),
    ("5x 12 (=61)", "mm", "5 x 12 is 60, not 61"),
    ("5x 12 mm (=61 mm)", "mm", "5 x 12 is 60, not 61"),
    ("5x 12 mm (=61)", "mm", "5 x 12 is 60, not 61"),
    ("25.0/25.0", "mm", "no tolerance at all"),
]


@pytest.mark.parametrize(("callout", "unit", "said"), WARNED, ids=[row[0] for row in WARNED])
def test_what_may_be_wrong_is_warned_of(callout: str, unit: Unit, said: str) -> None:
    remarks = answer(callout, Context(unit)).remarks
    assert any(remark.level == "warning" and said in remark.text for remark in remarks)


@pytest.mark.parametrize("row", callout_rows(), ids=lambda row: row["callout"])
def test_numbers_of_an_answer_are_plain_text(row: dict[str, str]) -> None:
    unit: Unit = "inch" if row["unit"] == "inch" else "mm"
    for made in answer_json(answer(row["callout"], Context(unit)))["characteristics"]:
        numbers = [made["nominal"], *(limits[end] for limits in made["limits"] for end in ("lower", "upper"))]
        assert all(number is None or ("e" not in number.lower() and "/" not in number) for number in numbers)


@pytest.mark.parametrize("callout", ["Ø25 ±0.1 SHAFT", "Ø25 (shaft)", "Ø25 h6"])
def test_a_shaft_is_external(callout: str) -> None:
    assert [made.side for made in answer(callout, Context()).characteristics] == ["external"]


@pytest.mark.parametrize("callout", ["20 TYP (=100)", "5x 20 TYP (=101)"])
def test_a_total_is_not_checked_where_the_count_is_not_told(callout: str) -> None:
    """Typical: the places are not counted, so nothing says how many spacings the total holds."""
    given = answer(callout, Context())
    assert [made.status for made in given.characteristics] == ["untoleranced", "reference"]
    assert not given.remarks
