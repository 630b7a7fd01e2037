from __future__ import annotations

from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sizewright.judge.asked import NO_LIMITS
from sizewright.judge.entries import read_entry
from sizewright.judge.values import ReadingError, read_value

from .sheets import INCH, SMALL, line

D, F = Decimal, Fraction

# (sheet, line, typed, value, text for the log)
ENTRIES = [
    (SMALL, "1", "25.012", D("25.012"), "25.012"),
    (SMALL, "1", "25,012", D("25.012"), "25,012"),
    (SMALL, "1", "+12", D("25.012"), "25.012"),
    (SMALL, "1", "-20", D("24.980"), "24.98"),
    (SMALL, "1", "−20", D("24.980"), "24.98"),
    (SMALL, "1", "+0", D("25"), "25"),
    (SMALL, "1", "-0.02", D("24.98"), "24.98"),
    (SMALL, "1", "+0,012", D("25.012"), "25.012"),
    (SMALL, "1", "+12 µm", D("25.012"), "25.012"),
    (SMALL, "1", "-0.4 mil", D("24.98984"), "24.98984"),
    (SMALL, "1", "=25.012", D("25.012"), "25.012"),
    (SMALL, "1", ".9843 in", D("25.00122"), ".9843 in"),
    (SMALL, "3", "+0°10'", F(181, 6), "30°10'"),
    (SMALL, "3", "-15'", F(119, 4), "29.75"),
    (SMALL, "3", "+0.25", F(121, 4), "30.25"),
    (SMALL, "6", "+0.01", D("0.01"), "+0.01"),  # a zone has no size to deviate from
    (SMALL, "7", "0.7", D("0.7"), "0.7"),
    (INCH, "1", "+.0004", D("1.2504"), "1.2504"),
    (INCH, "1", "-.0001", D("1.2499"), "1.2499"),
    (INCH, "1", "+0.4 mil", D("1.2504"), "1.2504"),
    (INCH, "1", "+12 µm", F(5, 4) + F(12, 25400), "31.762 mm"),
    (INCH, "2", "+1/64", D("3.390625"), "3.390625"),
    (INCH, "1", "31.76 mm", F(3176, 2540), "31.76 mm"),
]


@pytest.mark.parametrize(("sheet", "number", "typed", "value", "text"), ENTRIES)
def test_an_entry_reads(sheet: str, number: str, typed: str, value: Decimal | Fraction, text: str) -> None:
    of = line(number, sheet)
    entry = read_entry(typed, of, of.limits[0])
    assert entry.value is not None
    assert F(entry.value) == F(value)
    assert entry.text.strip("+") == text.strip("+")


@pytest.mark.parametrize(("typed", "answer"), [("a", "accept"), ("R", "reject"), ("no-go", "reject"), ("ok", "accept")])
def test_a_gauge_answers_in_short(typed: str, answer: str) -> None:
    of = line("5")
    assert read_entry(typed, of, of.limits[0]).answer == answer


def test_with_deviation_a_bare_number_is_one() -> None:
    of = line("1")
    assert read_entry("12", of, of.limits[0], deviation=True).value == D("25.012")
    assert read_entry("=25.01", of, of.limits[0], deviation=True).value == D("25.01")


def test_a_deviation_says_in_the_note_how_it_was_typed() -> None:
    of = line("1")
    assert read_entry("+12", of, of.limits[0]).note == "typed +12 µm from 25 mm"


def test_where_the_side_is_not_told_a_sign_is_a_deviation_still() -> None:
    of = line("1", "unit: inch\n1: 1.2500 LC2\n")
    assert of.characteristic is not None
    assert of.characteristic.either is not None
    assert read_entry("-.0002", of, NO_LIMITS).value == D("1.2498")


def test_a_signed_whole_number_of_inches_is_refused() -> None:
    of = line("1", INCH)
    with pytest.raises(ReadingError, match="decimal mark"):
        read_entry("+4", of, of.limits[0])


@given(
    st.sampled_from([(SMALL, "1"), (SMALL, "3"), (INCH, "1"), (INCH, "3")]),
    st.decimals(-2, 2, places=4),
    st.sampled_from(["", " mm", " µm", " in", " mil", "°", "'"]),
)
def test_what_the_log_holds_reads_as_the_same_value(where: tuple[str, str], amount: Decimal, unit: str) -> None:
    of = line(where[1], where[0])
    try:
        entry = read_entry(f"{amount:+f}{unit}", of, of.limits[0])
    except ReadingError:
        return
    assert of.characteristic is not None
    assert entry.value is not None
    again = read_value(entry.text, of.characteristic.unit).value
    assert again is not None
    assert F(again) == F(entry.value)


@pytest.mark.parametrize("typed", ["1" * 50 + "0ft2", "-999999999999999999'2", "+9999999999999' 9999999"])
def test_more_than_the_log_can_hold_is_refused(typed: str) -> None:
    with pytest.raises(ReadingError):
        read_entry(typed, line("1"), line("1").limits[0])
