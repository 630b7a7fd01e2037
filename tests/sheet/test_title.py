"""Title-block values: what each word takes, and the one spelling it is kept in."""

import pytest

from sizewright.sheet.near import near
from sizewright.sheet.title import WORDS, checked, near_words, title_word
from sizewright.text.errors import CalloutError

# (word, value as typed, value as kept)
GOOD = [
    ("part", "Worm: housing", "Worm: housing"),
    ("lot", "", ""),
    ("unit", "mm", "mm"),
    ("unit", "Millimetres", "mm"),
    ("unit", "IN", "inch"),
    ("unit", "inches", "inch"),
    ("manner", "ISO", "iso"),
    ("manner", "Asme", "asme"),
    ("general", "ISO 2768-m", "ISO 2768-m"),
    ("general", ".XX ±.01 .XXX ±.005", ".XX ±.01 .XXX ±.005"),
    ("pieces", "03", "3"),
    ("sampling", "critical all, II  1,0", "critical all, II  1,0"),
    ("sampling", '"as agreed"', '"as agreed"'),
    ("date", "2024-02-29", "2024-02-29"),
    ("temperature", "20", "20"),
    ("temperature", "20,5 °C", "20.5 °C"),
    ("temperature", "68F", "68 °F"),
    ("temperature", "−5ºc", "-5 °C"),
    ("temperature", "20℃", "20 °C"),
]

# (word, value, column and length of what is wrong)
BAD = [
    ("unit", "", 1, 0),
    ("unit", "cm", 1, 2),
    ("manner", "din", 1, 3),
    ("general", "ISO 2768-m rubbish", 12, 7),
    ("general", "", 1, 0),
    ("pieces", "0", 1, 1),
    ("pieces", "-3", 1, 2),
    ("pieces", "2.5", 1, 3),
    ("pieces", "9" * 5000, 1, 5000),
    ("pieces", "٣", 1, 1),
    ("sampling", "", 1, 0),
    ("sampling", "as agreed", 1, 2),
    ("date", "31.3.2026", 1, 9),
    ("date", "2026-13-01", 1, 10),
    ("date", "2026-W01-1", 1, 10),
    ("temperature", "warm", 1, 4),
    ("temperature", "293 K", 1, 5),
    ("temperature", "20\x07", 3, 1),
]


@pytest.mark.parametrize(("word", "typed", "kept"), GOOD)
def test_values_that_fit(word: str, typed: str, kept: str) -> None:
    assert kept == checked(word, typed)


@pytest.mark.parametrize(("word", "typed", "column", "length"), BAD)
def test_values_that_do_not(word: str, typed: str, column: int, length: int) -> None:
    with pytest.raises(CalloutError) as caught:
        checked(word, typed)
    assert (column, length) == (caught.value.column, caught.value.length)
    assert caught.value.message


@pytest.mark.parametrize("word", WORDS)
def test_every_word_is_known_in_any_case(word: str) -> None:
    assert word == title_word(f" {word.upper().replace(' ', '  ')} ")


@pytest.mark.parametrize(
    ("typed", "nearest"),
    [
        ("partt", "part"), ("units", "unit"), ("rev", "revision"), ("Part Number", "part"), ("views", "view"),
        ("tempreature", "temperature"), ("made", "made by"), ("mat", "material"),
    ],
)  # fmt: skip
def test_near_words(typed: str, nearest: str) -> None:
    assert nearest == near_words(typed)[0]


def test_nothing_is_near_a_word_of_another_kind() -> None:
    assert near("scale", WORDS) == []
