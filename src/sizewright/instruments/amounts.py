"""Amounts in one base unit a dimension, so that instruments and sizes of different units compare exactly.

Lengths are brought to mm, which every other unit of length reaches by a finite factor (25.4 is exact); angles stay in
degrees. A number may be a `Decimal` or a `Fraction`, and the two may meet here.
"""

from __future__ import annotations

from decimal import ROUND_CEILING, Context, Decimal
from fractions import Fraction

from sizewright.resolve.describe import UNIT_WORDS
from sizewright.text.numbers import MM_PER_INCH, Number, finite_decimal, plain

MM_PER = {"mm": Decimal(1), "inch": MM_PER_INCH, "um": Decimal("0.001"), "uin": Decimal("0.0000254")}
LENGTHS = frozenset({"mm", "inch"})
TEXTURES = frozenset({"um", "uin"})
ANGLES = frozenset({"deg"})

# Far beyond the digits of any drawing; a number that would be longer is a fault of its own and must not stop a choice.
_WIDE = Context(prec=200, traps=[])
_SHOWN = 6


def minus(a: Number, b: Number) -> Number:
    """The exact difference of two numbers of one unit."""
    if isinstance(a, Decimal) and isinstance(b, Decimal):
        return _WIDE.subtract(a, b)
    return Fraction(a) - Fraction(b)


def plus(a: Number, b: Number) -> Number:
    """The exact sum of two numbers of one unit."""
    if isinstance(a, Decimal) and isinstance(b, Decimal):
        return _WIDE.add(a, b)
    return Fraction(a) + Fraction(b)


def magnitude(value: Number) -> Number:
    """`value` without its sign; `abs` would round a long decimal."""
    return value.copy_abs() if isinstance(value, Decimal) else abs(value)


def times(a: Number, b: Number) -> Number:
    """The exact product of two numbers."""
    if isinstance(a, Decimal) and isinstance(b, Decimal):
        return _WIDE.multiply(a, b)
    return Fraction(a) * Fraction(b)


def decimal_of(value: Number) -> Decimal:
    """`value` as a decimal: for estimates, which a 28th figure does not matter to; limits are compared exactly."""
    return value if isinstance(value, Decimal) else Decimal(value.numerator) / Decimal(value.denominator)


def to_base(value: Number, unit: str) -> Number:
    """`value` of `unit` in the base unit: mm for lengths, the value itself for angles and anything else."""
    factor = MM_PER.get(unit)
    return value if factor is None or unit == "mm" else times(value, factor)


def rounded_up(value: Number, unit: str, places: int = _SHOWN) -> Decimal:
    """A base amount in `unit`: exact where finite within `places`, else rounded up, as no error may be made small."""
    exact = Fraction(value) / Fraction(MM_PER.get(unit, Decimal(1)))
    scaled = exact * 10**places
    whole = -(-scaled.numerator // scaled.denominator)
    return Decimal(whole).scaleb(-places, _WIDE)


def trimmed(value: Number) -> Number:
    """`value` without trailing zeros; a fraction becomes a decimal where it is finite."""
    if isinstance(value, Fraction):
        exact = finite_decimal(value)
        if exact is None:
            return value
        value = exact
    short = value.normalize(_WIDE)
    return short.quantize(Decimal(1), ROUND_CEILING, _WIDE) if short == short.to_integral_value() else short


def spoken(value: Number, unit: str) -> str:
    """`value` as a sentence shows it: plain digits and unit; angles in degrees, minutes and seconds."""
    if unit == "deg":
        return _degrees(Fraction(value))
    return f"{plain(trimmed(value))} {UNIT_WORDS.get(unit, unit)}".rstrip()


def _degrees(value: Fraction) -> str:
    sign, seconds = ("-" if value < 0 else ""), abs(value) * 3600
    whole, rest = divmod(seconds, 60)
    degrees, minutes = divmod(whole, 60)
    parts = [f"{degrees}°"] if degrees else []
    parts += [f"{minutes}'"] if minutes else []
    # A tenth of some tolerance has no finite seconds; it is shown to three places, the comparison stays exact.
    parts += [f'{plain(trimmed(rounded_up(rest, "", 3)))}"'] if rest else []
    return sign + (" ".join(parts) or "0°")
