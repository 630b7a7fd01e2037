"""How a reading is written: to the places of the scale, as a fraction of an inch, or in degrees and minutes."""

from __future__ import annotations

import re
from decimal import Decimal
from fractions import Fraction

from sizewright.text.errors import InputError
from sizewright.text.numbers import finite_decimal, places, plain
from sizewright.training.scales.model import AnyConstruction

_TYPED = re.compile(
    r"(?P<sign>-)?(?P<number>\d{1,6}(?:\.\d{0,9})?|\.\d{1,9})?"
    r"(?:(?(number)[ -]|)(?P<top>\d{1,4})/(?P<bottom>\d{1,4})|[°:] ?(?:(?P<minutes>\d{1,2})['′]?)?)?",
    re.ASCII,
)
UNIT_WORDS = {"mm": "mm", "inch": "in", "deg": "degrees"}


def figure(scale: AnyConstruction, value: Fraction) -> str:
    """`value` as the scale is read, without its unit: `43.18`, `2 71/128`, `12°50′`."""
    sign, size = ("-" if value < 0 else ""), abs(value)
    if scale.unit == "deg":
        minutes = size * 60
        return f"{sign}{minutes // 60}°{_whole(minutes % 60):02d}′"
    if scale.fractional:
        whole, rest = divmod(size, 1)
        parts = [str(whole)] if whole or not rest else []
        return sign + " ".join([*parts, str(rest)] if rest else parts)
    exact, step = finite_decimal(value), finite_decimal(scale.reading_value)
    assert exact is not None  # readings of decimal scales are decimals
    assert step is not None
    digits = max(places(step.normalize()), places(exact.normalize()))
    return plain(exact.quantize(Decimal(1).scaleb(-digits)))


def say(scale: AnyConstruction, value: Fraction) -> str:
    """`figure(scale, value)` with its unit: `43.18 mm`."""
    text = figure(scale, value)
    return text if scale.unit == "deg" else f"{text} {UNIT_WORDS[scale.unit]}"


def say_signed(scale: AnyConstruction, value: Fraction) -> str:
    """`say(scale, value)` with a plus sign where it is above zero, as zero errors are written."""
    return f"+{say(scale, value)}" if value > 0 else say(scale, value)


def short(scale: AnyConstruction, value: Fraction) -> str:
    """`value` without needless zeros, for a main line or the worth of one line: `43`, `0.02`, `1/16`, `5′`."""
    if scale.unit == "deg":
        degrees = abs(value)
        return f"{_whole(degrees * 60)}′" if degrees < 1 else figure(scale, value).removesuffix("00′")
    if scale.fractional:
        return figure(scale, value)
    exact = finite_decimal(value)
    assert exact is not None
    return plain(exact.normalize() if exact else Decimal(0))


def read_figure(text: str) -> Fraction:
    """A typed reading, exact: `43.18`, `2 71/128`, `12°50'`; an angle to the left of 0 has a minus sign.

    Raises:
        InputError: it is none.
    """
    found = _TYPED.fullmatch(text.strip().replace(",", ".").replace("−", "-"))
    if found is None or not (found["number"] or found["top"]) or (found["bottom"] and not int(found["bottom"])):
        raise InputError(f"{text[:40]!r} is no reading; 43.18, 2 71/128 and 12°50' are")
    sign, number, top, bottom, minutes = found.group("sign", "number", "top", "bottom", "minutes")
    value = Fraction(number or 0)
    if top:
        value += Fraction(int(top), int(bottom))
    if minutes:
        value += Fraction(int(minutes), 60)
    return -value if sign else value


def _whole(value: Fraction) -> int:
    assert value.denominator == 1  # no protractor here reads parts of a minute
    return value.numerator
