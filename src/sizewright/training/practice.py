"""A made-up reading to decide on paper, so that deciding is exercised even where the part is good."""

from __future__ import annotations

import random
from decimal import Decimal
from fractions import Fraction
from typing import NamedTuple

from sizewright.resolve.describe import shown
from sizewright.text.numbers import Number, as_decimal, plain
from sizewright.training.answers import Exercise

_STEPS = 5
_AWAY = Decimal("0.1")


class Practice(NamedTuple):
    """A reading as text, in the unit of the limits asked for, and what is right to decide."""

    reading: str
    unit: str
    verdict: str
    why: str


def practice_for(exercise: Exercise, chance: random.Random) -> Practice | None:
    """A reading near the limits, on either side of one, never equal to one; None where there is no number to hold.

    Numbers of angles are decimal degrees.
    """
    if len(exercise.asked) != 1 or exercise.untold:
        return None
    asked = exercise.asked[0]
    lower, upper = asked.limits.lower, asked.limits.upper
    if lower is None and upper is None:
        return _without_limits(exercise, chance)
    width = Fraction(upper) - Fraction(lower) if lower is not None and upper is not None else None
    base = Fraction(upper if upper is not None else lower or 0)
    span = width or abs(base) * Fraction(_AWAY) or Fraction(1)
    places = max(0, -as_decimal(span / _STEPS).adjusted())
    step = Fraction(1, 10**places)
    if asked.limits.of in ("zone", "value") or (lower is not None and lower == 0):
        least, most = Fraction(1, 5) * base, Fraction(9, 5) * base
    elif width is None:
        least, most = base - span, base + span
    else:
        least, most = Fraction(lower or 0) - span * Fraction(2, 5), base + span * Fraction(2, 5)
    values = [step * count for count in range(int(least / step), int(most / step) + 1)]
    limits = {Fraction(each) for each in (lower, upper) if each is not None}
    fit = [each for each in values if each not in limits and each > 0]
    if not fit:
        return None
    value = chance.choice(fit)
    inside = asked.limits.holds(_number(value, lower if lower is not None else upper))
    bounds = [f"{word} {text}" for word, text in zip(("from", "to"), shown(asked.limits), strict=True) if text]
    verdict = "accept" if inside else "reject"
    place = "within" if inside else "outside"
    text = plain(as_decimal(value).quantize(Decimal(1).scaleb(-places)))
    return Practice(text, asked.unit, verdict, f"it lies {place} the limits {' '.join(bounds)}")


def _number(value: Fraction, like: Number | None) -> Number:
    return value if isinstance(like, Fraction) else as_decimal(value)


def _without_limits(exercise: Exercise, chance: random.Random) -> Practice | None:
    nominal = exercise.made.nominal
    if nominal is None or exercise.made.unit not in ("mm", "inch", "deg"):
        return None
    step = Fraction(1, 100 if exercise.made.unit == "mm" else 1000 if exercise.made.unit == "inch" else 10)
    value = Fraction(nominal) + step * chance.choice([count for count in range(-8, 9) if count])
    return Practice(plain(as_decimal(value)), exercise.made.unit, "no verdict", "the line has no limits of its own")
