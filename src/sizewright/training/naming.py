"""Which instruments a trainee means: a name of the crib, a kind, or a word of the trade that is near one.

A range typed with it (`micrometer 25-50`) narrows the choice. Words that do not tell the kind (a maker, a colour) are
left aside, so that nothing is refused for being said at length.
"""

from __future__ import annotations

import difflib
import re
from collections.abc import Sequence
from decimal import Decimal
from functools import cache, lru_cache
from typing import NamedTuple

from sizewright.instruments.kinds import kinds
from sizewright.instruments.model import Instrument
from sizewright.text.errors import CalloutError
from sizewright.text.fold import fold
from sizewright.text.numbers import Number, as_decimal

_LIKENESS = 0.8
_WORD = re.compile(r"[a-z]+")
_RANGE = re.compile(r"(\d+(?:[.,]\d+)?)\s*(?:-|to|\.\.)\s*(\d+(?:[.,]\d+)?)")
# Words of the trade for what the table of kinds calls otherwise (common practice, no source).
_SYNONYMS = {
    "mic": "micrometer", "mike": "micrometer", "micro": "micrometer", "calliper": "caliper", "callipers": "caliper",
    "ruler": "rule", "scale": "rule", "cmm": "coordinate measuring machine", "dti": "test indicator",
    "clock": "dial gauge", "projector": "comparator", "shadowgraph": "comparator", "goniometer": "protractor",
    "gage": "gauge", "gages": "gauges", "profilometer": "roughness tester", "gonogo": "plug gauge",
    "electronic": "digital", "slip": "gauge blocks", "slips": "gauge blocks",
    "external": "outside", "internal": "inside", "leaf": "feeler gauges", "snaps": "snap", "bores": "bore",
}  # fmt: skip
_FILLERS = frozenset(
    ("a", "an", "the", "with", "of", "on", "for", "and", "mm", "in", "inch", "inches", "deg", "um", "size", "set", "to")
)
_UNIT_WORDS = frozenset(("mm", "in", "inch", "deg", "um", "µm"))


class Named(NamedTuple):
    """What a name comes to: entries of the crib that it may mean; `kinds` of the table, where no entry is of them;
    `near` are the names to ask about, where it means nothing."""

    instruments: tuple[Instrument, ...]
    kinds: tuple[str, ...]
    near: tuple[str, ...] = ()


def named(text: str, crib: Sequence[Instrument]) -> Named:
    """What `text` names."""
    folded = _folded(text)
    exact = tuple(one for one in crib if _folded(one.name) == folded)
    if exact:
        return Named(exact, tuple(dict.fromkeys(one.kind.name for one in exact)))
    words = _kind_words(folded)
    found = tuple(name for name in kinds() if words and words <= _parts(name))
    if not found:
        near = difflib.get_close_matches(folded, [*kinds(), *(one.name for one in crib)], 3, 0.5)
        return Named((), (), tuple(near))
    own = [name for name in found if _parts(name) == words]
    found = tuple(own) or found
    return Named(tuple(one for one in crib if one.kind.name in found and _in_range(one, folded)), found)


@lru_cache(maxsize=4096)
def _folded(text: str) -> str:
    try:
        plain = fold(text).folded
    except CalloutError:
        plain = text
    return " ".join(plain.casefold().replace("(", " ").replace(")", " ").split())


@cache
def _parts(name: str) -> frozenset[str]:
    return frozenset(_singular(part) for part in _WORD.findall(name))


def _singular(word: str) -> str:
    return word.removesuffix("s") if len(word) > 3 else word


@cache
def _vocabulary() -> frozenset[str]:
    return frozenset(part for name in kinds() for part in _parts(name))


def _kind_words(text: str) -> frozenset[str]:
    """The words of `text` that tell a kind, in the words of the table; mistyped ones by what they are near."""
    found: set[str] = set()
    for typed in _WORD.findall(text):
        if typed in _FILLERS:
            continue
        for word in _SYNONYMS.get(typed, typed).split():
            known = _near(_singular(word))
            if known:
                found.add(known)
    return frozenset(found)


def _near(word: str) -> str:
    vocabulary = _vocabulary()
    if word in vocabulary:
        return word
    close = difflib.get_close_matches(word, sorted(vocabulary), 1, _LIKENESS) if len(word) > 3 else []
    return close[0] if close else ""


def _in_range(one: Instrument, text: str) -> bool:
    """Whether the instrument is the one of the range typed, where one is."""
    found = _RANGE.search(text)
    if found is None:
        return True
    low, high = (Decimal(each.replace(",", ".")) for each in found.groups())
    return _same(one.lower, low) and _same(one.upper, high)


def _same(own: Number, typed: Decimal) -> bool:
    return as_decimal(own) == typed
