"""Numbers as they stand in a callout, read exactly: decimals, fractions, feet and inches, degrees and minutes."""

from __future__ import annotations

import re
from decimal import Decimal
from fractions import Fraction

from sizewright.notation.model import Amount, Form, Span
from sizewright.text.errors import CalloutError
from sizewright.text.numbers import MM_PER_INCH, finite_decimal

MAX_DIGITS = 24
# How far from 25.4 a ratio may be where the numbers are one size in two units, rounded as drawings print them.
_DUAL = Fraction(1, 100)
# Two sizes that differ by less than this share may be the two limits of one.
_NEAR = 10

# Compiled on first use: most callouts need none of them.
_FRACTION = r"(?:(?P<whole>\d+)[ -]+)?(?P<top>\d+) ?/ ?(?P<bottom>\d+)"
_FEET = r"(?P<feet>\d+) ?'(?: ?-? ?(?P<inches>.*?) ?(?:\"|''))?"
_PART_OF_A_DEGREE = r"(?i:([13]/[24]) ?(?:°|deg(?:rees?)?\.?))"
_ARC = (
    r"(?i:(?P<degrees>\d*[.,]?\d+) ?(?:°|deg(?:rees?)?\.?))?(?: ?(?P<minutes>\d+(?:[.,]\d+)?) ?'(?!'))?"
    r"(?: ?(?P<seconds>\d+(?:[.,]\d+)?) ?(?:\"|''))?"
)


def decimal(text: str, span: Span) -> Decimal:
    """The decimal number `text`, with a point or a comma; trailing zeros are kept.

    Raises:
        CalloutError: more digits than any drawing has.
    """
    if len(text) > MAX_DIGITS:
        raise CalloutError(f"a number of {len(text)} characters is too long; {MAX_DIGITS} is the most", *span)
    return Decimal(text.replace(",", "."))


def fraction(text: str, span: Span) -> Amount:
    """A fraction or mixed number of inches, `3/8`, `1 1/2`, `1-1/2`.

    Raises:
        CalloutError: a zero below the line, or a fraction that no decimal holds exactly.
    """
    return Amount(_fraction_value(text, span), Form.FRACTION, None, span)


def _fraction_value(text: str, span: Span) -> Decimal:
    parts = re.fullmatch(_FRACTION, text)
    if parts is None or len(text) > MAX_DIGITS:
        raise CalloutError(f'"{text}" is not a fraction', *span)
    top, bottom = int(parts["top"]), int(parts["bottom"])
    if bottom == 0:
        raise CalloutError("a fraction with 0 below the line", *span)
    if parts["whole"] and top >= bottom:
        raise CalloutError(f'"{text}": the fraction after a whole number is at least one', *span, "write it whole")
    value = finite_decimal(Fraction(int(parts["whole"] or 0)) + Fraction(top, bottom))
    if value is None:
        raise CalloutError(f'"{text}" has no exact decimal value', *span, "fractions of an inch are halves to 1/128")
    return value


def feet(text: str, span: Span) -> Amount:
    """Feet and inches, `2'-6 1/2"`, as inches.

    Raises:
        CalloutError: 12 inches or more beside the feet.
    """
    parts = re.fullmatch(_FEET, text)
    if parts is None:
        raise CalloutError(f'"{text}" does not read as feet and inches', *span, "2'-6 1/2\"")
    inches = parts["inches"] or "0"
    rest = Decimal(_fraction_value(inches, span)) if "/" in inches else decimal(inches, span)
    if rest >= 12:
        raise CalloutError(f"{inches} inches beside the feet; 12 make a foot", *span, "below 12 inches")
    return Amount(Decimal(parts["feet"]) * 12 + rest, Form.FEET, "inch", span)


def arc(text: str, span: Span) -> Amount:
    """An angle as decimal degrees, as half or quarter a degree, or as degrees, minutes and seconds; exact, in degrees.

    Raises:
        CalloutError: 60 or more minutes or seconds, or a part after a decimal part.
    """
    part = re.fullmatch(_PART_OF_A_DEGREE, text)
    if part is not None:
        return Amount(Fraction(part[1]), Form.DEGREES, None, span)
    parts = re.fullmatch(_ARC, text)
    if parts is None:
        raise CalloutError(f'"{text}" does not read as an angle', *span, "30°15' or 30.25°")
    value, above = Fraction(0), ""
    for name, scale in (("degrees", 1), ("minutes", 60), ("seconds", 3600)):
        typed = parts[name]
        if typed is None:
            continue
        place = (span[0] + parts.start(name), span[0] + parts.end(name))
        if "." in above or "," in above:
            raise CalloutError("a decimal part takes no smaller part after it", *place, "30.25° or 30°15'")
        amount = decimal(typed, place)
        if above and amount >= 60:
            raise CalloutError(f"{typed} {name}; 60 make the next whole one", *place, f"{name} below 60")
        value += Fraction(amount) / scale
        above = typed
    whole = parts["minutes"] is None and parts["seconds"] is None
    return Amount(value, Form.DEGREES if whole else Form.MINUTES, None, span)


def read(token_type: str, text: str, span: Span) -> Amount:
    """The number `text` that the grammar called `token_type`.

    Raises:
        CalloutError: a number that has no exact or no sensible value.
    """
    match token_type:
        case "NUMBER" | "ZERO":
            return Amount(decimal(text.rstrip("."), span), Form.DECIMAL, None, span)
        case "FRACTION" | "MIXED":
            return fraction(text, span)
        case "FEET":
            return feet(text, span)
        case _:
            return arc(text, span)


def is_angle(amount: Amount) -> bool:
    """Whether the number was typed with a degree, minute or second mark."""
    return amount.form in (Form.DEGREES, Form.MINUTES)


def as_angle(amount: Amount) -> Amount:
    """A number beside an angle: bare it is in degrees, with an inch mark it is in seconds of arc.

    Raises:
        CalloutError: a length where only an angle can stand.
    """
    if is_angle(amount):
        return amount
    if amount.form is not Form.DECIMAL or amount.unit == "mm":
        raise CalloutError("a length where an angle stands", *amount.span, "degrees, as in ±0.5°")
    if amount.unit == "inch":
        return Amount(Fraction(amount.value) / 3600, Form.MINUTES, None, amount.span)
    return Amount(Fraction(amount.value), Form.DEGREES, None, amount.span)


def is_dual(one: Amount, two: Amount) -> bool:
    """Whether two amounts are one length in mm and in inches, as far as their ratio tells."""
    high, low = max(Fraction(one.value), Fraction(two.value)), min(Fraction(one.value), Fraction(two.value))
    return low > 0 and abs(high / low / Fraction(MM_PER_INCH) - 1) < _DUAL


def are_near(one: Amount, two: Amount) -> bool:
    """Whether two amounts may be the two limits of one size, or one size rounded twice."""
    return abs(Fraction(one.value) - Fraction(two.value)) * _NEAR < max(Fraction(one.value), Fraction(two.value))
