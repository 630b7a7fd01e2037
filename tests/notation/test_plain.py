"""The grammar of plain sizes reads nothing that the whole language reads otherwise."""

from __future__ import annotations

from typing import Any

from hypothesis import given, settings
from hypothesis import strategies as st

from sizewright.notation.assemble import assemble
from sizewright.notation.read import _PLAIN, _parser, _read_plain
from sizewright.text.fold import fold

from ..support import callout_rows

NUMBERS = ["25", "0.1", ".500", "1/4", "1 1/2", "10", "32", "8", "0", "3", "20", "0.2", "45°"]
SIGNS = [" ", " ", " ", "±", "+", "-", " -", "/", "(", ")", "[", "]", "Ø", "°", "'", '"', "x", " x ", ","]
WORDS = ["R", "mm", "in", "DIA", "MAX", "MIN", "REF", "TYP", "THRU", "SQ"]
CLASSES = ["H7", "g6", "M8", "G1", "C1", "R5", "T5", "js9", "HV30", "HV10", "RA1", "N7"]
PIECES = st.sampled_from(NUMBERS + SIGNS + WORDS + CLASSES)


def _whole(text: str) -> object:
    found: Any = _parser().parse(text, start="callout")
    leading, pieces = found
    return assemble(leading, pieces, text)


def _same(folded: str) -> None:
    text = folded.strip()
    if not text or not _PLAIN.fullmatch(text):
        return
    plain = _read_plain(text, text)
    if plain is not None:
        assert plain == _whole(text), text


def test_every_known_callout_means_the_same_in_both() -> None:
    plain = [fold(row["callout"]).folded for row in callout_rows()]
    assert sum(bool(_PLAIN.fullmatch(text)) for text in plain) > 100
    for text in plain:
        _same(text)


@settings(max_examples=1500, deadline=None)
@given(st.lists(PIECES, min_size=1, max_size=8).map("".join))
def test_any_plain_text_means_the_same_in_both(typed: str) -> None:
    _same(fold(typed).folded)
