"""Dual dimensions: the first governs, the second is checked against it."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction

from sizewright.notation.model import Amount, Deviations, LimitPair, Measure, PlusMinus
from sizewright.resolve.characteristic import Characteristic
from sizewright.resolve.scope import Scope
from sizewright.resolve.units import OTHER_UNIT, convert
from sizewright.text.numbers import Number, add, places, plain


def check_other(measure: Measure, unit: str, scope: Scope) -> None:
    """Warn where the second of two dimensions is not the first, in the other unit or (a fraction) in the same one.

    A second size may differ by what its last typed place can hold; second limits must lie inside the first ones.
    """
    other = measure.other
    assert other is not None
    if unit == "deg":
        return
    unit_of_other = _unit_of_other(measure, other, unit)
    scope.info(f"of two dimensions the first, in {unit}, governs", other.span)
    if measure.nominal is not None and other.nominal is not None:
        _check_size(measure.nominal, other.nominal, unit, unit_of_other, scope)
    _check_limits(measure, other, unit, unit_of_other, scope)


def check_other_limits(made: Characteristic, other: Measure, scope: Scope) -> None:
    """Warn where the limits typed in the other unit are not those of the class, to their last place."""
    typed, size = other.tolerance, made.size
    if not isinstance(typed, LimitPair) or size is None or size.lower is None or size.upper is None:
        return
    unit = OTHER_UNIT[made.unit]
    pairs = [(typed.lower, convert(size.lower, made.unit, unit)), (typed.upper, convert(size.upper, made.unit, unit))]
    if any(abs(exact - Fraction(amount.value)) > _last_place(amount) for amount, exact in pairs):
        low, high = (plain(_shown(exact)) for _, exact in pairs)
        scope.warn(
            f"the second dimension's limits are not those of {made.class_} ({low} to {high} {unit}); the first governs",
            other.span,
        )


def _last_place(amount: Amount) -> Fraction:
    assert isinstance(amount.value, Decimal)
    return Fraction(1, 10 ** places(amount.value))


def _unit_of_other(measure: Measure, other: Measure, unit: str) -> str:
    first, second = measure.nominal, other.nominal
    typed = second.unit if second is not None else None
    if typed is not None:
        return typed
    same = first is not None and second is not None and first.value == second.value
    return unit if same else OTHER_UNIT[unit]


def _check_size(first: Amount, second: Amount, unit: str, unit_of_second: str, scope: Scope) -> None:
    exact = Fraction(first.value) if unit == unit_of_second else convert(first.value, unit, unit_of_second)
    if abs(exact - Fraction(second.value)) > _last_place(second):
        scope.warn(
            f"the second dimension does not agree: {plain(first.value)} {unit} is "
            f"{plain(_shown(exact))} {unit_of_second}, not {plain(second.value)}; the first governs",
            second.span,
        )


def _shown(value: Fraction) -> Fraction:
    return Fraction(round(value * 10**6), 10**6)


def _check_limits(measure: Measure, other: Measure, unit: str, unit_of_other: str, scope: Scope) -> None:
    first, second = _limits(measure), _limits(other)
    if first is None or second is None:
        return
    low, high = (convert(value, unit_of_other, unit) for value in second)
    if low < first[0] or high > first[1]:
        scope.warn(
            f"the second dimension's limits reach outside the first's ({plain(first[0])} to {plain(first[1])} {unit})",
            other.span,
        )


def _limits(measure: Measure) -> tuple[Number, Number] | None:
    nominal = measure.nominal.value if measure.nominal is not None else None
    match measure.tolerance:
        case LimitPair(upper, lower):
            return lower.value, upper.value
        case PlusMinus(amount) if nominal is not None:
            return add(nominal, -amount.value), add(nominal, amount.value)
        case Deviations(upper, lower) if nominal is not None:
            return add(nominal, lower.value), add(nominal, upper.value)
    return None
