"""Questions about values that can hardly be true: asked, never refused. A value within its limits raises none.

The slips are those of people who read instruments and copy figures: the decimal mark at a wrong place, the other unit,
two figures that changed places, a sign, a whole turn of a micrometer's thimble, the wrong feature. Common practice, no
source; what the figures below hold is chosen so that an honest reading just outside its limits is not asked about.
"""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal
from fractions import Fraction
from itertools import pairwise

from sizewright.judge.model import Reading
from sizewright.plan.model import PlanLine
from sizewright.resolve.characteristic import Limits
from sizewright.resolve.describe import UNIT_WORDS, angle_words
from sizewright.text.numbers import Number, finite_decimal, plain

# A thimble makes 0.5 mm or 0.025 in a turn: the pitch of a micrometer's screw (ISO 3611, ASME B89.1.13).
_TURN = {"mm": Fraction(1, 2), "inch": Fraction(1, 40)}
_OTHER = {
    "mm": ("in", Fraction(254, 10)),
    "inch": ("mm", Fraction(10, 254)),
    "um": ("µin", Fraction(254, 10000)),
    "uin": ("µm", Fraction(10000, 254)),
}
_ALOUD = {"in": "inches"}
_SHIFTS = (1, -1, 2, -2, 3, -3)
# Where the limits are so far apart that a value ten times off can lie between them, nothing can be told from that.
_NARROW = 5
_FAR_TOLERANCES = 3
_FAR_SHARE = Fraction(1, 20)
_FAR_FROM_ONE_LIMIT = 5
_MOST = 3
_SHOWN = 6


def doubts(line: PlanLine, limits: Limits, value: Number, instrument: str = "") -> tuple[str, ...]:
    """Questions about `value` of `line`, held against `limits`; all in the line's unit. `instrument` is the one used,
    where it is known: only a micrometer can be a turn off.
    """
    if line.characteristic is None or limits.holds(value) or (limits.lower is None and limits.upper is None):
        return ()
    exact = Fraction(value)
    unit = line.characteristic.unit
    found = [*_sign(limits, exact, unit)]
    if _narrow(limits):
        found += _shifted(limits, exact, unit)
        found += _other_unit(limits, exact, unit)
        found += _arc(limits, exact, unit)
        found += _transposed(limits, value, unit)
        found += _turn(limits, exact, unit, instrument or _suggested(line))
    found = found or list(_far(limits, exact, unit))
    shown = _said(exact, unit)
    return tuple(f"{shown}: {each}" for each in found[:_MOST])


def doubts_of(line: PlanLine, reading: Reading, limits: Limits) -> tuple[str, ...]:
    """Questions about a reading of `line`, held against `limits`; none about the answer of a gauge."""
    if reading.value is None or limits.holds(reading.value):
        return ()
    return doubts(line, limits, reading.value, reading.instrument)


def _narrow(limits: Limits) -> bool:
    """Whether the limits tell the size well enough for a slip to be recognised."""
    if limits.lower is None or limits.upper is None:
        return False
    return Fraction(limits.lower) > 0 and Fraction(limits.upper) < _NARROW * Fraction(limits.lower)


def _sign(limits: Limits, value: Fraction, unit: str) -> Iterator[str]:
    if limits.lower is None:
        return
    if value and limits.holds(-value):
        yield f"is the sign right? {_said(-value, unit)} would be within"
    elif value < 0 and Fraction(limits.lower) >= 0:
        yield "below zero, which this cannot be"


def _shifted(limits: Limits, value: Fraction, unit: str) -> Iterator[str]:
    for places in _SHIFTS:
        shifted = value * Fraction(10) ** places
        if limits.holds(shifted):
            off = {1: "a tenth", -1: "ten times", 2: "a hundredth", -2: "a hundred times"}
            words = off.get(places, "a thousandth" if places > 0 else "a thousand times")
            yield (
                f"{words} of the size? {_said(shifted, unit)} would be within"
                if places > 0
                else (f"{words} the size? {_said(shifted, unit)} would be within")
            )


def _other_unit(limits: Limits, value: Fraction, unit: str) -> Iterator[str]:
    if unit in _OTHER:
        name, factor = _OTHER[unit]
        if limits.holds(value * factor):
            shown = _said(value * factor, unit)
            here = f"{_said(value, '')} {name} is {shown} {UNIT_WORDS[unit]}"
            yield f"read in {_ALOUD.get(name, name)}? {here}, which would be within"


def _arc(limits: Limits, value: Fraction, unit: str) -> Iterator[str]:
    """30.15 typed for 30°15'."""
    minutes = (value - int(value)) * 100
    if unit == "deg" and 0 < minutes < 60 and minutes.denominator == 1:
        meant = int(value) + minutes / 60
        if limits.holds(meant):
            yield f"degrees and minutes? {int(value)}°{minutes}' would be within"


def _transposed(limits: Limits, value: Number, unit: str) -> Iterator[str]:
    exact = value if isinstance(value, Decimal) else finite_decimal(value)
    if exact is None:
        return
    text = plain(exact)
    at = [index for index, char in enumerate(text) if char.isdigit()]
    for one, two in pairwise(at):
        if text[one] == text[two]:
            continue
        swapped = list(text)
        swapped[one], swapped[two] = text[two], text[one]
        meant = Fraction("".join(swapped))
        if limits.holds(meant):
            yield f"have two figures changed places? {_said(meant, unit)} would be within"
            return


def _turn(limits: Limits, value: Fraction, unit: str, instrument: str) -> Iterator[str]:
    turn = _TURN.get(unit)
    name = instrument.casefold()
    if turn is None or "micrometer" not in name or "digital" in name:  # a display counts the turns itself
        return
    if Fraction(limits.upper or 0) - Fraction(limits.lower or 0) >= turn / 2:
        return
    for meant in (value + turn, value - turn):
        if limits.holds(meant):
            yield (
                f"a whole turn of the micrometer ({_said(turn, '')} {UNIT_WORDS[unit]})? "
                f"{_said(meant, unit)} would be within"
            )


def _far(limits: Limits, value: Fraction, unit: str) -> Iterator[str]:
    lower, upper = limits.lower, limits.upper
    if lower is not None and upper is not None and Fraction(lower) != 0:
        over = max(Fraction(lower) - value, value - Fraction(upper))
        width = Fraction(upper) - Fraction(lower)
        if over > _FAR_TOLERANCES * width and over > _FAR_SHARE * max(abs(Fraction(lower)), abs(Fraction(upper))):
            by = _said(over, unit) if unit == "deg" else f"{_said(over, unit)} {UNIT_WORDS.get(unit, unit)}".rstrip()
            yield f"far outside, by {by}: the right feature, the right line?"
    elif upper is not None and value > _FAR_FROM_ONE_LIMIT * abs(Fraction(upper)) and Fraction(upper):
        yield f"far above {_said(Fraction(upper), unit)}, which is the most: the right feature, the right unit?"
    elif lower is not None and upper is None and value < Fraction(lower) / _FAR_FROM_ONE_LIMIT:
        yield f"far below {_said(Fraction(lower), unit)}, which is the least: the right feature, the right unit?"


def _suggested(line: PlanLine) -> str:
    tool = line.choice.instrument if line.choice else None
    return tool.name if tool else ""


def _said(value: Fraction, unit: str) -> str:
    """A number in a question: exact where that is short, else to six places."""
    if unit == "deg":
        return angle_words(value)
    exact = finite_decimal(value)
    if exact is None or -int(exact.as_tuple().exponent) > _SHOWN:
        exact = finite_decimal(Fraction(round(value * 10**_SHOWN), 10**_SHOWN)) or Decimal(0)
    return plain(exact)
