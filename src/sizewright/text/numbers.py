"""Exact numbers: lengths are `Decimal`, angles are `Fraction` degrees, both written in plain decimal notation."""

from __future__ import annotations

from decimal import ROUND_HALF_EVEN, Context, Decimal
from fractions import Fraction

Number = Decimal | Fraction

MM_PER_INCH = Decimal("25.4")
ANGLE_PLACES = 9
_EXACT = Context(prec=200)
_HALF, _ONE = Decimal("0.5"), Decimal(1)
_ANGLE_STEP = Decimal(1).scaleb(-ANGLE_PLACES)


def add(a: Number, b: Number) -> Number:
    """The exact sum of two numbers of one sort (two lengths, or two angles)."""
    if isinstance(a, Decimal) and isinstance(b, Decimal):
        return _EXACT.add(a, b)
    return (a if isinstance(a, Fraction) else Fraction(a)) + (b if isinstance(b, Fraction) else Fraction(b))


def multiply(a: Decimal, b: Decimal | int) -> Decimal:
    """The exact product of two lengths' numbers."""
    return _EXACT.multiply(a, Decimal(b))


def half_of(value: Number) -> Number:
    """The exact half of a number; a length without trailing zeros."""
    if isinstance(value, Fraction):
        return value / 2
    half = _EXACT.multiply(value, _HALF).normalize(_EXACT)
    return half if half != half.to_integral_value() else half.quantize(_ONE, context=_EXACT)


def finite_decimal(value: Fraction) -> Decimal | None:
    """`value` as an exact decimal, or None where it has no finite decimal (1/3)."""
    rest, fives = value.denominator, 0
    twos = (rest & -rest).bit_length() - 1
    rest >>= twos
    while rest % 5 == 0:
        rest, fives = rest // 5, fives + 1
    if rest != 1:
        return None
    places = max(twos, fives)
    return Decimal(value.numerator * (10**places // value.denominator)).scaleb(-places, _EXACT)


def as_decimal(value: Number) -> Decimal:
    """`value` as a decimal: exact where it is finite, otherwise to 9 places (angles only)."""
    if isinstance(value, Decimal):
        return value
    exact = finite_decimal(value)
    if exact is not None and -exact.as_tuple().exponent <= ANGLE_PLACES:  # type: ignore[operator]
        return exact
    scaled = _EXACT.divide(Decimal(value.numerator), Decimal(value.denominator))
    return scaled.quantize(_ANGLE_STEP, rounding=ROUND_HALF_EVEN, context=_EXACT)


def plain(value: Number, least: int | None = None) -> str:
    """`value` in plain decimal notation, never with an exponent; trailing zeros stay as they are.

    With `least`, zeros are added up to so many places, no fewer than `value` has.
    """
    number = value if type(value) is Decimal else as_decimal(value)
    text = f"{number:f}" if least is None else f"{number:.{least}f}"
    return text if text[0] != "-" or number else text[1:]  # nothing is never below nothing


def places(value: Decimal) -> int:
    """How many digits stand after the decimal mark, trailing zeros included."""
    exponent = value.as_tuple().exponent
    return -exponent if isinstance(exponent, int) and exponent < 0 else 0
