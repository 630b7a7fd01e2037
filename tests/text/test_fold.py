"""Folding: the short way for texts that hold nothing to fold is the long way's answer."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from sizewright.text.fold import _SAME, _fold_each, fold

CHARACTERS = [chr(code) for code in range(32, 127)] + [*_SAME, *"".join(_SAME.values()), *"½éⒺ＃²⑴\n"]


@given(st.text(st.sampled_from(CHARACTERS) | st.characters(categories=["L", "N", "P", "S"]), max_size=12))
def test_the_short_way_is_the_long_way(typed: str) -> None:
    source, (folded, places) = fold(typed), _fold_each(typed)
    assert [source.at(offset) for offset in range(len(source.folded))] == list(places)
    if not source.letter_o:
        assert source.folded == folded
