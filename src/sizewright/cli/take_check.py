"""The check of an instrument before use, at the prompt of `take`: point by point, each on disk before the next."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from fractions import Fraction
from typing import NamedTuple

from sizewright.cli.take_talk import Talk
from sizewright.cli.take_words import amount
from sizewright.instruments.field_check import CheckPoint
from sizewright.judge.reading_rows import CHECK
from sizewright.judge.values import ReadingError, read_value
from sizewright.resolve.characteristic import Limits
from sizewright.resolve.describe import unit_shown
from sizewright.text.numbers import Number, plain

_LEAVE = frozenset({"q", "b"})
Store = Callable[[dict[str, str]], bool]


class Checked(NamedTuple):
    """What a check came to: how many points were stored, how many of them failed."""

    stored: int
    failed: int


def check(points: Sequence[CheckPoint], label: str, talk: Talk, store: Store) -> Checked:
    """Ask for the `points` of a check of the instrument `label`; `store` puts one row on disk and tells whether it is.

    Without points, as of an instrument that is not in the crib, one answer is asked for.
    """
    points = points or (CheckPoint("look", None, None, None, "", "it is not in the crib: check it as it is done here"),)
    talk.say(f"check of {label} before use: n skips a point, q ends the check", "bold")
    stored = failed = 0
    for point in points:
        talk.say(point.sentence(), indent="  ", hang="    ")
        while True:
            typed = " ".join(talk.ask(_prompt(point)).split())
            if typed.lower() in _LEAVE:
                return Checked(stored, failed)
            if typed.lower() == "n":
                break
            done = _one(point, label, typed, talk, store)
            if done is not None:
                stored, failed = stored + 1, failed + (not done)
                break
    return Checked(stored, failed)


def _prompt(point: CheckPoint) -> str:
    asked = unit_shown(point.unit) if point.limits() else "accept or reject"
    return f"check {point.point}, {asked}"


def _one(point: CheckPoint, label: str, typed: str, talk: Talk, store: Store) -> bool | None:
    """Store one point; whether it passed, or None where nothing was stored."""
    try:
        found = read_value({"a": "accept", "r": "reject"}.get(typed.lower(), typed), point.unit or "mm")
    except ReadingError as error:
        talk.say(f"not taken: {error}", indent="  ", hang="    ")
        return None
    limits = Limits("size", point.lower, point.upper)
    if found.value is not None and limits.lower is None and limits.upper is None:
        talk.say("not taken: no limits are known for it here; accept or reject", indent="  ")
        return None
    passed = found.answer == "accept" if found.value is None else _within(limits, found.value)
    row = {
        "balloon": CHECK,
        "limits of": point.point,
        "lower limit": _text(point.lower),
        "upper limit": _text(point.upper),
        "value": found.answer or typed,
        "unit": point.unit,
        "instrument": label,
    }
    if not store(row):
        return None
    what = found.answer or (amount(found.value, point.unit) if found.value is not None else typed)
    words = "within" if passed else "FAILED: readings taken with it will be marked; take another instrument"
    talk.say(f"stored {what}: {words}", "" if passed else "bold", indent="  ", hang="    ")
    return passed


def _within(limits: Limits, value: Number) -> bool:
    exact = Fraction(value)
    low = limits.lower is None or exact >= Fraction(limits.lower)
    return low and (limits.upper is None or exact <= Fraction(limits.upper))


def _text(value: Number | None) -> str:
    return "" if value is None else plain(value)
