"""The probability that a measured thing lies within its limits, from one reading and its uncertainty alone.

JCGM 106:2012, clauses 7 and 8: what is known after a measurement is a distribution about the reading with the standard
uncertainty as its spread. With few degrees of freedom Student's t stands for the normal distribution (common practice).
A known error that nobody corrects is taken to the worse side, so that the probability is never told too high.
"""

from __future__ import annotations

import math
from decimal import Context, Decimal
from fractions import Fraction

from sizewright.instruments.budget_model import Budget
from sizewright.resolve.characteristic import Limits
from sizewright.standards.distributions import above, below, between, quantile_above
from sizewright.text.numbers import Number

# More digits than any reading has; what is too large for a float becomes infinite, and then the probability is 0 or 1.
_WORK = Context(prec=60, Emin=-999_999, Emax=999_999, traps=[])
_PLACES = 6
_ONE: int = 10**_PLACES
_ZERO = Decimal(0)
# With both limits so far away that each tail is below a quarter of the last place, the probability is told the same.
_FAR = 2.5e-7
_NEARLY_ONE = Decimal("0.999999")  # a risk is left
_CERTAIN = Decimal(1)  # without limits, or with limits beyond any float, none is


def conformance(value: Number, limits: Limits, budget: Budget, *, from_zero: bool = False) -> Decimal:
    """The probability that the true value is within `limits`, rounded down to six places.

    `from_zero` says that the quantity cannot be less than zero (a zone, a roughness): the normal distribution is poor
    near zero, so its part below zero is cut off and the rest scaled up; a lower limit of zero is then no limit.
    """
    return Conformance(limits, budget, from_zero=from_zero).of(value)


class Conformance:
    """The same for many readings with one uncertainty: what does not depend on the reading is worked out once."""

    def __init__(self, limits: Limits, budget: Budget, *, from_zero: bool) -> None:
        lower = None if from_zero and limits.lower is not None and limits.lower <= 0 else limits.lower
        self._limits = Limits(limits.of, lower, limits.upper)
        self._from_zero = from_zero
        self._exact_bias = abs(budget.bias)
        self._spread, self._bias, self._dof = float(budget.combined), float(self._exact_bias), budget.dof
        self._far = quantile_above(_FAR, self._dof) if self._spread else math.inf

    def of(self, value: Number) -> Decimal:
        """The probability for a reading of `value`, rounded down to six places."""
        _, lower, upper = self._limits
        spread, bias = self._spread, self._bias
        if spread == 0:
            return rounded(float(_surely_inside(value, self._limits, self._exact_bias)))
        low = -math.inf if lower is None else (_difference(lower, value) + bias) / spread
        high = math.inf if upper is None else (_difference(upper, value) - bias) / spread
        if self._from_zero:
            return rounded(self._above_zero(value, low, high))
        if -low > self._far < high:
            return _NEARLY_ONE if math.isfinite(low) or math.isfinite(high) else _CERTAIN
        return rounded(between(low, high, self._dof))

    def _above_zero(self, value: Number, low: float, high: float) -> float:
        zero = (_difference(_ZERO, value) - self._bias) / self._spread
        whole = above(zero, self._dof)
        if whole == 0.0:  # so far below zero that nothing is left to scale
            return 0.0
        return min(1.0, between(max(low, zero), high, self._dof) / whole)


def rounded(probability: float) -> Decimal:
    """A probability as a decimal of six places, rounded down, so that no small risk is told as none."""
    return Decimal(math.floor(probability * _ONE)).scaleb(-_PLACES)


def consumer_risk(value: Number, limits: Limits, budget: Budget, *, from_zero: bool = False) -> Decimal:
    """The specific consumer's risk: that an item accepted with this reading is out of its limits (JCGM 106, 9.3.2)."""
    return 1 - conformance(value, limits, budget, from_zero=from_zero)


def producer_risk(value: Number, limits: Limits, budget: Budget, *, from_zero: bool = False) -> Decimal:
    """The specific producer's risk: that an item rejected with this reading is within its limits (JCGM 106, 9.3.3)."""
    return conformance(value, limits, budget, from_zero=from_zero)


def outside_probability(mean: float, spread: float, lower: float | None, upper: float | None) -> float:
    """The probability that a normal variable is out of its limits; a missing limit is None."""
    out = 0.0
    if lower is not None:
        out += below((lower - mean) / spread)
    if upper is not None:
        out += above((upper - mean) / spread)
    return out


def _surely_inside(value: Number, limits: Limits, bias: Decimal) -> bool:
    exact, off = Fraction(value), Fraction(bias)
    return (limits.lower is None or exact - off >= limits.lower) and (
        limits.upper is None or exact + off <= limits.upper
    )


def _difference(one: Number, other: Number) -> float:
    """The difference, exact before it becomes a float."""
    if isinstance(one, Decimal) and isinstance(other, Decimal):
        return float(_WORK.subtract(one, other))
    (over, under), (less, part) = one.as_integer_ratio(), other.as_integer_ratio()
    exact = over * part - less * under
    try:
        return exact / (under * part)
    except OverflowError:
        return math.inf if exact > 0 else -math.inf
