"""Units, and every conversion: a small Pint registry rooted in the millimetre, with rational magnitudes, so exact.

Loaded only when something is converted. Pint's own registry is not used: with decimals it is off in the last digit.
"""

from __future__ import annotations

from decimal import ROUND_CEILING, ROUND_FLOOR, Context, Decimal
from fractions import Fraction
from functools import cache
from typing import Any

from sizewright.resolve.characteristic import Limits
from sizewright.text.numbers import Number

_DEFINITIONS = (
    "millimeter = [length] = mm",
    "inch = 25.4 * millimeter = in",
    "micrometer = millimeter / 1000 = um",
    "microinch = inch / 1000000 = uin",
)
OTHER_UNIT = {"mm": "inch", "inch": "mm", "um": "uin", "uin": "um"}

# From the width of the tolerance, in the unit converted from, to the decimal places written in the other unit
# (ISO 370:1975 and ASTM E380; the table as handed down in common practice): widths from the first figure on.
_PLACES = {
    ("inch", "mm"): ((Decimal("0.1"), 1), (Decimal("0.01"), 2), (Decimal("0.001"), 3), (Decimal("0.0001"), 4)),
    ("mm", "inch"): ((Decimal("0.5"), 3), (Decimal("0.05"), 4), (Decimal("0.005"), 5), (Decimal("0.0005"), 6)),
}
_FINEST = {("inch", "mm"): 5, ("mm", "inch"): 7}
_OPEN_ENDED = {("inch", "mm"): 3, ("mm", "inch"): 4, ("um", "uin"): 1, ("uin", "um"): 3}
_WIDE = Context(prec=60)
_GIVE_UP = 12


@cache
def _registry() -> Any:
    import pint

    registry: Any = pint.UnitRegistry(None, non_int_type=Fraction)
    for definition in _DEFINITIONS:
        registry.define(definition)
    return registry


def convert(value: Number, unit: str, to: str) -> Fraction:
    """`value` in `unit` as an exact number of `to` (mm, inch, um, uin)."""
    return Fraction(value) * _factor(unit, to)


@cache
def _factor(unit: str, to: str) -> Fraction:
    """How many `to` are one `unit`, exactly; the registry takes a millisecond each time."""
    return Fraction(_registry().Quantity(Fraction(1), unit).to(to).magnitude)


def round_down(value: Fraction, decimals: int) -> Decimal:
    """The largest number of `decimals` places that is not above `value`."""
    return _rounded(value, decimals, ROUND_FLOOR)


def round_up(value: Fraction, decimals: int) -> Decimal:
    """The smallest number of `decimals` places that is not below `value`."""
    return _rounded(value, decimals, ROUND_CEILING)


def _rounded(value: Fraction, decimals: int, rounding: str) -> Decimal:
    scaled = value * 10**decimals
    whole = scaled.numerator // scaled.denominator
    if rounding == ROUND_CEILING and whole != scaled:
        whole += 1
    return Decimal(whole).scaleb(-decimals, _WIDE)


def places_for(limits: Limits, unit: str, to: str) -> int:
    """How many decimal places a converted pair of limits is written to, by the width of the tolerance."""
    width = limits.width
    if width is None or (unit, to) not in _PLACES:
        return _OPEN_ENDED[unit, to]
    return next((places for least, places in _PLACES[unit, to] if width >= least), _FINEST[unit, to])


def inward(limits: Limits, unit: str, to: str) -> Limits:
    """`limits` in the unit `to`, rounded inward: the lower limit up, the upper one down, never past either.

    Where no number of at most 12 places lies between them (a tolerance of zero) both bounds are None.
    """
    lower = None if limits.lower is None else convert(limits.lower, unit, to)
    upper = None if limits.upper is None else convert(limits.upper, unit, to)
    decimals = places_for(limits, unit, to)
    while True:
        low = None if lower is None else round_up(lower, decimals)
        high = None if upper is None else round_down(upper, decimals)
        if low is None or high is None or low <= high:
            return Limits(limits.of, low, high)
        if decimals > _GIVE_UP:
            return Limits(limits.of, None, None)
        decimals += 1
