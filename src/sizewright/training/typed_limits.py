"""Whether a limit as typed is the right one: equal numbers however written, and the other unit where rounded inward."""

from __future__ import annotations

from fractions import Fraction
from typing import Literal

from sizewright.judge.values import ReadingError, read_value, same_unit, unit_word
from sizewright.resolve.characteristic import Limits
from sizewright.resolve.units import OTHER_UNIT, convert, inward, round_down, round_up
from sizewright.text.numbers import Number, as_decimal, places
from sizewright.training.answers import Asked

Which = Literal["lower", "upper"]
_NONE_WORDS = frozenset(("none", "no", "nothing", "-", "–", "—", "n/a", "na", "nil", "no limit", "/"))


def is_none(text: str) -> bool:
    """Whether `text` says that there is nothing."""
    return text.casefold().strip(" .") in _NONE_WORDS


def unit_of(text: str, own: str) -> str:
    """The unit `text` as one that a line in `own` may be given in; empty where it is none of those."""
    try:
        word = unit_word(text)
    except ReadingError:
        return ""
    return next((unit for unit in (own, OTHER_UNIT.get(own, "")) if word and unit and same_unit(word, unit)), "")


def right_bound(text: str, asked: Asked, which: Which, unit: str, *, strictly: bool = False) -> bool:
    """Whether `text` is the limit asked for.

    `unit` is the one written in the unit's cell, empty where that is blank or wrong. A bare number is read in it, and
    unless `strictly`, in the unit asked for too: a wrong unit costs its own point and no other.
    """
    bound = getattr(asked.true, which)
    if bound is None or is_none(text):
        from_zero = asked.of in ("zone", "value") and which == "lower"
        return (bound is None or (from_zero and bound == 0)) and (is_none(text) or (from_zero and _is_zero(text)))
    units = [unit] if strictly else list(dict.fromkeys(filter(None, (unit, asked.unit))))
    return any(_right_in(text, asked.true, asked.true_unit, which, each) for each in units)


def _is_zero(text: str) -> bool:
    try:
        return read_value(text, "mm").value == 0
    except ReadingError:
        return False


def _right_in(text: str, true: Limits, true_unit: str, which: Which, unit: str) -> bool:
    try:
        value, _, typed = read_value(text, unit)
        if value is not None and typed and unit != "deg" and (other := unit_of(typed, unit)) not in ("", unit):
            value, unit = read_value(text, other).value, other  # the unit typed with the number has the last word
    except ReadingError:
        return False
    return value is not None and _equals(value, true, true_unit, which, unit)


def _equals(value: Number, true: Limits, true_unit: str, which: Which, unit: str) -> bool:
    bound: Number = getattr(true, which)
    if unit == true_unit:
        return Fraction(value) == Fraction(bound)
    told: Number | None = getattr(inward(true, true_unit, unit), which)
    exact = convert(bound, true_unit, unit)
    if Fraction(value) == exact or (told is not None and Fraction(value) == Fraction(told)):
        return True
    count = places(as_decimal(value))
    if told is None or count <= places(as_decimal(told)):
        return False
    inmost = round_up(exact, count) if which == "lower" else round_down(exact, count)
    return Fraction(value) == Fraction(inmost)
