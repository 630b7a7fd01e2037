"""The check of an instrument before use, at the prompt of `take`: point by point, each on disk before the next."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from fractions import Fraction

from sizewright.cli.check_points import CheckPoint, check_points
from sizewright.cli.take_talk import Talk
from sizewright.cli.take_words import amount
from sizewright.instruments.model import Instrument
from sizewright.judge.reading_rows import CHECK
from sizewright.judge.values import LENGTHS, ReadingError, read_value
from sizewright.plan.model import Plan, PlanLine
from sizewright.resolve.characteristic import Limits
from sizewright.text.numbers import Number, finite_decimal, plain

_LEAVE = frozenset({"q", "b"})
Store = Callable[[dict[str, str]], bool]


@dataclass(frozen=True, slots=True)
class Checked:
    """What a check came to: how many points were stored, how many of them failed."""

    stored: int
    failed: int


def check(instrument: Instrument | None, label: str, sizes: Sequence[Number], talk: Talk, store: Store) -> Checked:
    """Ask for the points of a check of the instrument `label`; `store` puts one row on disk and tells whether it is."""
    points = check_points(instrument, sizes) if instrument else ()
    if not points:
        points = (CheckPoint("as it is checked here", None, None, None, "", "it is not in the crib: accept or reject"),)
    talk.say(f"check of {label} before use: n skips a point, q ends the check", "bold")
    stored = failed = 0
    for point in points:
        talk.say(_words(point), indent="  ", hang="    ")
        while True:
            typed = " ".join(talk.ask(f"check {point.point}{f', {point.unit}' if point.unit else ''}").split())
            if typed.lower() in _LEAVE:
                return Checked(stored, failed)
            if typed.lower() == "n":
                break
            done = _one(point, label, typed, talk, store)
            if done is not None:
                stored, failed = stored + 1, failed + (not done)
                break
    return Checked(stored, failed)


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


def sizes_for(plan: Plan, instrument: Instrument, line: PlanLine) -> list[Number]:
    """The sizes that `instrument` is for in the plan (of `line` alone where it is suggested for none), in its unit."""
    numbers = {number for tool, lines in plan.instruments if tool is instrument for number in lines} or {line.number}
    sizes = [_size(each, instrument.unit) for each in plan.lines if each.number in numbers]
    return [size for size in sizes if size is not None]


def _size(line: PlanLine, unit: str) -> Number | None:
    made = line.characteristic
    size = line.aim if line.aim is not None else made.nominal if made else None
    if made is None or size is None or made.unit == unit:
        return size
    if made.unit not in LENGTHS or unit not in LENGTHS:
        return None
    from sizewright.resolve.units import convert

    exact = convert(size, made.unit, unit)
    decimal = finite_decimal(exact)
    return exact if decimal is None else decimal


def _within(limits: Limits, value: Number) -> bool:
    exact = Fraction(value)
    low = limits.lower is None or exact >= Fraction(limits.lower)
    return low and (limits.upper is None or exact <= Fraction(limits.upper))


def _words(point: CheckPoint) -> str:
    bounds = [amount(each, point.unit) for each in (point.lower, point.upper) if each is not None]
    said = f"{point.point}: {' to '.join(bounds)}" if bounds else point.point
    return f"{said}; {point.how}" if point.how else said


def _text(value: Number | None) -> str:
    return "" if value is None else plain(value)
