"""Exact arithmetic for thread formulas: powers, roots and angles in Decimal, rounded once at the end."""

from __future__ import annotations

from collections.abc import Callable
from decimal import ROUND_HALF_UP, Context, Decimal, localcontext
from fractions import Fraction
from functools import cache, wraps
from typing import ParamSpec, TypeVar

_P = ParamSpec("_P")
_T = TypeVar("_T")

# Standards print at most eight places; forty digits keep every rounding a single one.
DIGITS = 40

PI = Decimal("3.141592653589793238462643383279502884197169")
TWO_THIRDS = Fraction(2, 3)
_HIGH_DEGREE = 12


def exactly(function: Callable[_P, _T]) -> Callable[_P, _T]:
    """Run `function` with forty digits whatever the caller's decimal context is."""

    @wraps(function)
    def wrapped(*args: _P.args, **kwargs: _P.kwargs) -> _T:
        with localcontext(Context(prec=DIGITS)):
            return function(*args, **kwargs)

    return wrapped


def rounded(value: Decimal, places: int, rounding: str = ROUND_HALF_UP) -> Decimal:
    """Round `value` to `places` decimals; a 5 goes up unless the standard at hand says otherwise."""
    return value.quantize(Decimal(1).scaleb(-places), rounding, Context(prec=DIGITS))


def mm(micrometres: str | Decimal) -> Decimal:
    """Turn micrometres into millimetres."""
    return Decimal(micrometres).scaleb(-3)


def trimmed(value: Decimal) -> str:
    """Write `value` without trailing zeros and without exponent: 1.50 as `1.5`, 20 as `20`."""
    return format(value.normalize(Context(prec=DIGITS)), "f")


def power(base: Decimal, exponent: Fraction) -> Decimal:
    """Raise a positive `base` to a positive `exponent`.

    Guard digits are rounded away, so that a power with an exact value comes out exact: (1/64)^(2/3) = 0.0625. ASME B1.1
    has tolerances that are a tie in the last place for that reason. A root is taken by whole numbers, which is many
    times faster than Decimal's power unless its degree is high.
    """
    if exponent.denominator > _HIGH_DEGREE:
        with localcontext(Context(prec=DIGITS + 10)):
            high = base ** (Decimal(exponent.numerator) / exponent.denominator)
        return Context(prec=DIGITS).plus(high)
    raised = Fraction(base) ** exponent.numerator
    places = DIGITS + 10 - exponent.numerator * base.adjusted() // exponent.denominator
    scale = 10 ** (places * exponent.denominator)
    root = _whole_root(raised.numerator * scale // raised.denominator, exponent.denominator)
    return Context(prec=DIGITS).create_decimal(Decimal(root).scaleb(-places, Context(prec=4 * DIGITS)))


def _whole_root(value: int, degree: int) -> int:
    """The greatest whole number whose power does not exceed `value`, by Newton's method from above."""
    root = 1 << -(-value.bit_length() // degree)
    while True:
        better = ((degree - 1) * root + value // root ** (degree - 1)) // degree
        if better >= root:
            return root
        root = better


@cache
@exactly
def root3() -> Decimal:
    """Return the square root of 3; the fundamental triangle of a 60 degree thread has H = root3 / 2 x P."""
    return Decimal(3).sqrt()


@cache
@exactly
def sine(degrees: Decimal) -> Decimal:
    """Return the sine of an angle of 0 to 90 degrees, by its power series."""
    x = degrees * PI / 180
    total = term = x
    n = 1
    while abs(term) > Decimal(1).scaleb(-DIGITS):
        n += 2
        term = -term * x * x / (n * (n - 1))
        total += term
    return total


@exactly
def cosine(degrees: Decimal) -> Decimal:
    """Return the cosine of an angle of 0 to 90 degrees."""
    return sine(90 - degrees)


@exactly
def cotangent(degrees: Decimal) -> Decimal:
    """Return the cotangent of an angle above 0 and up to 90 degrees."""
    return cosine(degrees) / sine(degrees)
