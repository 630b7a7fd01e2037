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
# With both limits so far away that each tail is below a quarter of the last place, the probability is told the same:
# short of 1, as a risk is left. Limits that are not there, or beyond any float, leave none.
_FAR = 2.5e-7
_NEAR_ONE = 1 - 5e-7


def conformance(value: Number, limits: Limits, budget: Budget, *, from_zero: bool = False) -> Decimal:
    """The probability that the true value is within `limits`, rounded down to six places.

    `from_zero` says that the quantity cannot be less than zero (a zone, a roughness): the normal distribution is poor
    near zero, so its part below zero is cut off and the rest scaled up; a lower limit of zero is then no limit.
    """
    return rounded(_inside(value, limits, budget, from_zero))


def rounded(probability: float) -> Decimal:
    """A probability as a decimal of six places, rounded down, so that no small risk is told as none."""
    return Decimal(math.floor(probability * 10**_PLACES)).scaleb(-_PLACES)


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


def _inside(value: Number, limits: Limits, budget: Budget, from_zero: bool) -> float:
    spread, bias, dof = float(budget.combined), abs(float(budget.bias)), budget.dof
    lower, upper = limits.lower, limits.upper
    if from_zero and lower is not None and lower <= 0:
        lower = None
    if spread == 0:
        return float(_surely_inside(value, Limits(limits.of, lower, upper), abs(budget.bias)))
    low = -math.inf if lower is None else (_difference(lower, value) + bias) / spread
    high = math.inf if upper is None else (_difference(upper, value) - bias) / spread
    if not from_zero and low == -math.inf and high == math.inf:
        return 1.0
    if not from_zero:
        return _NEAR_ONE if min(-low, high) > quantile_above(_FAR, dof) else between(low, high, dof)
    zero = (_difference(Decimal(0), value) - bias) / spread
    whole = above(zero, dof)
    if whole == 0.0:  # so far below zero that nothing is left to scale
        return 0.0
    return min(1.0, between(max(low, zero), high, dof) / whole)


def _surely_inside(value: Number, limits: Limits, bias: Decimal) -> bool:
    exact, off = Fraction(value), Fraction(bias)
    return (limits.lower is None or exact - off >= limits.lower) and (
        limits.upper is None or exact + off <= limits.upper
    )


def _difference(one: Number, other: Number) -> float:
    """The difference, exact before it becomes a float."""
    if isinstance(one, Decimal) and isinstance(other, Decimal):
        return float(_WORK.subtract(one, other))
    exact = Fraction(one) - Fraction(other)
    try:
        return float(exact)
    except OverflowError:
        return math.inf if exact > 0 else -math.inf
