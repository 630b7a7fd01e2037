from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sizewright.output.safe import computes, guard, one_line, unguard, visible


@pytest.mark.parametrize(
    ("typed", "shown"),
    [
        ("Ø62 H7 ±0.1 ⌖ 30°", "Ø62 H7 ±0.1 ⌖ 30°"),
        ("a\x1b[31mb", "a␛[31mb"),
        ("a\x9b2Jb\x7f", "a‹U+009B›2Jb␡"),
        ("a\tb\r\nc\rd\u2028e", "a b\nc\nd\ne"),
        ("12\u202e34", "12‹U+202E›34"),
        ("zero\u200bwidth\ufeff soft\u00adhyphen", "zerowidth softhyphen"),
        ("a\ufffeb\udcffc", "a‹U+FFFE›b‹U+DCFF›c"),
        ("non\u00a0breaking \ue001", "non\u00a0breaking \ue001"),
    ],
)
def test_what_acts_becomes_visible_and_the_rest_stays(typed: str, shown: str) -> None:
    assert shown == visible(typed)


def test_one_line_has_one_line() -> None:
    assert one_line("4x Ø6.6\r\ncbore") == "4x Ø6.6 cbore"


@given(st.text(st.characters(), max_size=40))
def test_nothing_visible_acts(text: str) -> None:
    shown = visible(text)
    assert all(ord(char) >= 0x20 or char == "\n" for char in shown)
    assert not any(0x7F <= ord(char) <= 0x9F or 0xD800 <= ord(char) <= 0xDFFF for char in shown)
    assert shown == visible(shown)


@given(st.text("='+-@\t\rx1", max_size=8))
def test_a_guarded_cell_does_not_compute_and_comes_back(text: str) -> None:
    assert text == unguard(guard(text))
    assert not guard(text).startswith(("=", "+", "-", "@", "\t", "\r"))
    assert computes(text) == (guard(text) != text)
