"""The depth of a thread held against the depth of the hole that is drilled for it."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal
from fractions import Fraction

from sizewright.notation.model import Feature, Size, Thread
from sizewright.resolve.scope import Scope
from sizewright.resolve.thread_forms import designate
from sizewright.text.numbers import plain

# The chamfered lead of hand taps in pitches, the longest each has (ASME B94.9, from memory).
_TAP_LEADS = (("taper", 10), ("plug", 5), ("bottoming", 2))


def check_depths(features: tuple[Feature, ...], scope: Scope) -> None:
    """Hold the depth of a thread against the depth of the hole that is drilled for it, where both are typed."""
    for feature, size in _owned_depths(features):
        designated = designate(feature, scope)
        hole = next((each for each in _holes(features) if each is not size), None)
        thread, drill = size.measure.nominal, hole.measure.nominal if hole else None
        if hole is None or thread is None or drill is None or thread.unit != drill.unit:
            continue
        spare = Fraction(drill.value) - Fraction(thread.value)
        unit = scope.unit_of(drill)
        pitch = designated.exact_pitch if unit == designated.unit else None
        said = f"thread {plain(thread.value)} deep in a hole {plain(drill.value)} deep"
        if spare <= 0:
            scope.warn(f"{said}: no room for the tap to run out", hole.measure.span)
        elif pitch is not None:
            turns = spare / pitch
            kinds = [name for name, most in _TAP_LEADS if turns >= most]
            fits = f"a {kinds[0]} tap can do it" if kinds else "too little even for a bottoming tap's lead"
            text = f"{said}: {_tenths(turns)} pitches for the tap to run out, {fits} (common practice)"
            (scope.info if kinds else scope.warn)(text, hole.measure.span)


def _owned_depths(features: tuple[Feature, ...]) -> Iterator[tuple[Thread, Size]]:
    thread = None
    for feature in features:
        if isinstance(feature, Thread):
            thread = feature
        elif isinstance(feature, Size) and feature.kind == "thread depth" and thread is not None:
            yield thread, feature


def _holes(features: tuple[Feature, ...]) -> list[Size]:
    """The depths that are a hole's; with several threads or holes in one callout nothing tells which is whose."""
    holes = [each for each in features if isinstance(each, Size) and each.kind == "depth"]
    threads = [each for each in features if isinstance(each, Thread)]
    return holes if len(holes) == 1 and len(threads) == 1 else []


def _tenths(value: Fraction) -> str:
    return plain(Decimal(int(value * 10)).scaleb(-1))
