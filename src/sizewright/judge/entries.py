"""What is typed at the prompt for a reading: a value, the answer of a gauge, or a deviation from the nominal size.

A sign in front makes a deviation. On a line in mm a whole number with a sign is in µm (`+12`), one with a decimal mark
in mm (`-0.02`); on a line in inches it has a decimal mark and is in inches (`+.0004`); on an angle it is an angle
(`+0°10'`). A unit may be typed (`+12 µm`, `-0.4 mil`). `=-0.02` is a value with a sign of its own. Lines without a size
to deviate from (zones, textures, sizes that may be below zero) take the sign as the value's own.
"""

from __future__ import annotations

import re
from fractions import Fraction
from typing import NamedTuple

from sizewright.judge.values import LENGTHS, GaugeAnswer, ReadingError, Value, read_value
from sizewright.plan.model import PlanLine
from sizewright.resolve.characteristic import Limits
from sizewright.resolve.describe import UNIT_WORDS, angle_words
from sizewright.text.fold import fold
from sizewright.text.numbers import Number, finite_decimal, plain

_SIGNED = re.compile(r"[+-]")
_BARE_WHOLE = re.compile(r"[+-]? ?\d+", re.ASCII)
_SHORT_ANSWERS = {"a": "accept", "r": "reject"}


class Entry(NamedTuple):
    """One entry: the exact value in the line's unit or a gauge's answer, its text for the log (which reads as the same
    value), and a note on how it was typed."""

    value: Number | None
    answer: GaugeAnswer | None
    text: str
    note: str = ""


def base_of(line: PlanLine, limits: Limits) -> Number | None:
    """The size that a deviation is from: the nominal one, else the aim; None where a deviation means nothing."""
    made = line.characteristic
    if made is None or made.unit not in (*LENGTHS, "deg"):
        return None
    if made.either is not None:  # the side is not told, the size is
        return made.nominal
    if limits.of != "size":
        return None
    lower, upper = limits.lower, limits.upper
    if (lower is None and upper is None) or (lower is not None and lower < 0):
        return None
    return made.nominal if made.nominal is not None else line.aim


def read_entry(typed: str, line: PlanLine, limits: Limits, *, deviation: bool = False) -> Entry:
    """The entry `typed` for `line`. With `deviation` a number without a sign is a deviation too.

    Raises:
        ReadingError: it does not read; the text says what would.
    """
    made = line.characteristic
    unit = made.unit if made else ""
    text = " ".join(typed.split())
    text = _SHORT_ANSWERS.get(text.lower(), text)
    base = base_of(line, limits)
    own = text.startswith("=")
    if own:
        text = text[1:].strip()
    front = _front(text)
    if base is not None and not own and (_SIGNED.match(front) or (deviation and re.match(r"[\d.,]", front))):
        return _deviating(text, front, base, unit)
    found = read_value(text, unit)
    return Entry(found.value, found.answer, found.answer or text)


def _front(text: str) -> str:
    return text[:1].translate({ord(char): "-" for char in "−–—‐‑‒―﹣"}) + text[1:]


def _deviating(text: str, front: str, base: Number, unit: str) -> Entry:
    found = _deviation(front, unit)
    if found.value is None:
        return Entry(None, found.answer, found.answer or text)
    exact = Fraction(base) + Fraction(found.value)
    value: Number = exact
    if unit != "deg":
        decimal = finite_decimal(exact)
        value = exact if decimal is None else decimal
    shown_base = angle_words(base) if unit == "deg" else f"{plain(base)} {UNIT_WORDS.get(unit, unit)}"
    text_in_log = _text_of(exact, unit)
    read_value(text_in_log, unit)  # a sum of too many digits is refused like any value, before it is stored
    meant = " µm" if unit == "mm" and _BARE_WHOLE.fullmatch(front) and found.value else ""
    return Entry(value, None, text_in_log, f"typed {text}{meant} from {shown_base}")


def _deviation(front: str, unit: str) -> Value:
    if _BARE_WHOLE.fullmatch(front):
        if unit == "mm":
            return read_value(front, "mm", "um")
        if unit == "inch" and int(front.replace(" ", "")):
            raise ReadingError(
                f"{front} on a line in inches: a deviation has a decimal mark (+.0004) or a unit (+0.4 mil, +12 µm); "
                "a value with a sign of its own is typed as =-2"
            )
    return read_value(front, unit)


def _text_of(exact: Fraction, unit: str) -> str:
    """A text that reads as exactly `exact` on a line in `unit`."""
    decimal = finite_decimal(exact)
    if decimal is not None:
        return plain(decimal)
    if unit == "inch":  # a deviation in mm or µm: the whole size is finite in mm
        in_mm = finite_decimal(exact * Fraction(254, 10))
        if in_mm is not None:
            return f"{plain(in_mm)} mm"
    words = angle_words(exact)
    if unit == "deg" and Fraction(read_value(words, "deg").value or 0) == exact:
        return fold(words).folded
    sign, whole = ("-" if exact < 0 else ""), abs(exact)
    return f"{sign}{whole.numerator}/{whole.denominator}"
