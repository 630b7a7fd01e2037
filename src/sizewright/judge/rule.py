"""The decision rule: its words, its guard band for an uncertainty, and the zones it makes of a pair of limits.

Rules of ISO 14253-1 (2013: a guard band of the expanded uncertainty; 2017: a probability of conformance, 95 % unless
agreed otherwise), JCGM 106:2012 (guard band as a multiple of the expanded uncertainty) and ASME B89.7.3.1 (simple and
stringent acceptance). The guard band is rounded up and the acceptance zone is exact: it may be smaller than the rule
asks for by the rounding, never larger.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from decimal import ROUND_CEILING, ROUND_FLOOR, Context, Decimal
from fractions import Fraction
from typing import NamedTuple

from sizewright.instruments.budget_model import Budget
from sizewright.judge.model import Rule
from sizewright.resolve.characteristic import Limits
from sizewright.resolve.describe import with_unit
from sizewright.standards.distributions import above, between, quantile
from sizewright.text.errors import InputError
from sizewright.text.numbers import Number, plain

_DIGITS = 400  # more than any limit and guard band have together; what still does not fit is rounded inwards
_DOWN = Context(prec=_DIGITS, rounding=ROUND_FLOOR)
_UP = Context(prec=_DIGITS, rounding=ROUND_CEILING)
_WORK = Context(prec=50)
_NEGLIGIBLE = 1e-9  # a far tail below this changes no guard band of two figures
_CLOSE_ENOUGH = 1e-9
_TWO_PLACES = Decimal("0.01")
_LARGEST_FACTOR = Decimal(100)


class Zones(NamedTuple):
    """What a rule makes of one pair of limits.

    `limits` are the limits themselves; `acceptance` is where a reading is accepted, with a lower bound above its upper
    one where that is nowhere (`empty`); below `rejected_below` or above `rejected_above` it is rejected, and between it
    is undecided. `guard` is the guard band inside the limits, None where the uncertainty is not known (`unknown`) or
    where none is wide enough.
    """

    limits: Limits
    acceptance: Limits
    rejected_below: Number | None
    rejected_above: Number | None
    guard: Decimal | None
    empty: bool = False
    unknown: bool = False


class Band(NamedTuple):
    """Guard bands inside the limits (None: none is wide enough) and outside them."""

    inside: Decimal | None
    outside: Decimal


def check_rule(rule: Rule) -> Rule:
    """The rule itself, if it can be used.

    Raises:
        InputError: a factor below zero or beyond all use, or a probability that is not above one half and below one.
    """
    if rule.factor is not None and not (rule.factor.is_finite() and 0 <= rule.factor <= _LARGEST_FACTOR):
        raise InputError(f"a guard band of {rule.factor} times the expanded uncertainty: from 0 to {_LARGEST_FACTOR}")
    if not (rule.conformance.is_finite() and Decimal("0.5") < rule.conformance <= Decimal("0.999999")):
        raise InputError(f"a conformance probability of {rule.conformance}: above 0.5, 0.999999 at most, such as 0.95")
    return rule


def zones(rule: Rule, limits: Limits, budget: Budget | None, *, from_zero: bool = False) -> Zones:
    """The zones of `limits` under `rule` with the uncertainty of `budget`, exact.

    `from_zero`: the quantity cannot be less than zero, so a lower limit of zero gets no guard band.
    """
    if rule.kind == "simple":
        return Zones(limits, limits, limits.lower, limits.upper, Decimal(0))
    if budget is None:
        return Zones(limits, limits, None, None, None, unknown=True)
    natural = from_zero and (limits.lower is None or limits.lower == 0)
    band = guard_band(rule, limits, budget, from_zero=natural)
    acceptance = _drawn_in(limits, band.inside, natural)
    if rule.binary:
        below, above_ = acceptance.lower, acceptance.upper
    else:
        below = limits.lower if natural or limits.lower is None else _down(limits.lower, -band.outside)
        above_ = None if limits.upper is None else _up(limits.upper, band.outside)
    return Zones(limits, acceptance, below, above_, band.inside, is_empty(acceptance))


def is_empty(acceptance: Limits) -> bool:
    """Whether an acceptance zone holds nothing at all."""
    return acceptance.lower is not None and acceptance.upper is not None and acceptance.lower > acceptance.upper


def guard_band(rule: Rule, limits: Limits, budget: Budget, *, from_zero: bool = False) -> Band:
    """The guard bands of a guarded rule, rounded up to two figures or to the last place of the expanded uncertainty.

    By a factor: the factor times the expanded uncertainty, known error included. By a probability of conformance: so
    wide that a reading on the edge of the acceptance zone conforms with it, both limits considered where both matter,
    and the end at zero where there is nothing below it.
    """
    if rule.factor is not None:
        wide = _up_to_place(_UP.multiply(rule.factor, budget.expanded), budget)
        return Band(wide, wide)
    spread, bias = float(budget.combined), abs(budget.bias)
    if spread == 0:
        wide = _up_to_place(bias, budget)
        return Band(wide, wide)
    wanted = float(rule.conformance)
    one_sided = quantile(wanted, budget.dof)
    outside = _up_to_place(_WORK.add(Decimal(one_sided * spread), bias), budget)
    room = limits.upper if from_zero else limits.width
    if room is None:
        return Band(outside, outside)
    if from_zero:
        inside = _above_zero(wanted, float(room) / spread, float(bias) / spread, budget.dof, one_sided)
    else:
        inside = _both_sides(wanted, (float(room) - 2 * float(bias)) / spread, budget.dof, one_sided)
    if inside is not None:
        return Band(_up_to_place(_WORK.add(Decimal(inside * spread), bias), budget), outside)
    # By one limit alone the band may be wide enough to leave nothing: then it can be told as it is.
    return Band(outside if outside * (1 if from_zero else 2) > room else None, outside)


def rule_words(rule: Rule) -> tuple[str, ...]:
    """The rule by name, edition, guard band and coverage, and what is done in each zone: sentences for a report."""
    if rule.kind == "simple":
        return (
            "Simple acceptance (ASME B89.7.3.1, JCGM 106): a reading within the limits, a limit itself included, is "
            "accepted; any other is rejected.",
            "The uncertainty of measurement is not taken off the limits: a reading on a limit is as likely out as in.",
        )
    return (_guard_words(rule), _between_words(rule), *_edition_words(rule))


def _guard_words(rule: Rule) -> str:
    if rule.factor is not None:
        return (
            f"Guarded acceptance ({_factor_source(rule.factor)}): each limit is moved inwards by a guard band of "
            f"{'' if rule.factor == 1 else f'{plain(rule.factor)} times '}the expanded uncertainty U (coverage 95 %)."
        )
    one_sided = math.ceil(100 * quantile(float(rule.conformance))) / 100
    return (
        f"Guarded acceptance (ISO 14253-1:2017): accepted where the probability of conformance is "
        f"{percent(rule.conformance)} or more. The guard band inside each limit is {one_sided:.2f} u of the combined "
        "standard uncertainty u, more with few degrees of freedom or a tolerance not wide against u."
    )


def _factor_source(factor: Decimal) -> str:
    return "ISO 14253-1:2013, JCGM 106" if factor == 1 else "JCGM 106, guard band by a factor"


def _between_words(rule: Rule) -> str:
    if rule.binary:
        return "Binary: what is not accepted is rejected; an item within its limits may be rejected."
    return (
        "Rejected beyond a limit by more than the guard band; between, neither conformity nor nonconformity is proven "
        "and the reading is undecided."
    )


def _edition_words(rule: Rule) -> tuple[str, ...]:
    counts = "The uncertainty counts against whoever has to prove: here against the one who says that the part conforms"
    counts += " (inside the limits)." if rule.binary else " (inside the limits) or that it does not (outside them)."
    return (
        counts,
        "Guard bands are rounded up. Where no uncertainty is known nothing is decided, but by a gauge's own limits.",
    )


def guard_words(rule: Rule, limits: Limits, budget: Budget, unit: str, *, from_zero: bool = False) -> str:
    """The guard band of one pair of limits and one instrument, with the uncertainty it comes from."""
    said = f"U {with_unit(budget.expanded, unit)}, k {plain(budget.factor.quantize(_TWO_PLACES))}, 95 %"
    found = zones(rule, limits, budget, from_zero=from_zero)
    if rule.kind == "simple":
        return f"{said}; nothing taken off the limits"
    if found.guard is None:
        return f"{said}; no guard band is wide enough: nothing can be accepted"
    words = f"{said}; guard band {with_unit(found.guard, unit)}"
    return f"{words}, which takes the whole tolerance: nothing can be accepted" if found.empty else words


def percent(share: Decimal) -> str:
    """A share of one in per cent, without useless zeros: `95 %`."""
    return f"{plain((share * 100).normalize())} %"


# ---- how wide: all in standard uncertainties -------------------------------------------------------------------------


def _both_sides(wanted: float, width: float, dof: int | None, one_sided: float) -> float | None:
    """How far inside both limits a reading conforms with the probability wanted; None where it does not even midway."""
    return _bracketed(lambda depth: between(-depth, width - depth, dof), wanted, one_sided, 0.5 * width)


def _above_zero(wanted: float, upper: float, bias: float, dof: int | None, one_sided: float) -> float | None:
    """The same below an upper limit, where what would be less than zero is cut off and the rest scaled up."""

    def conformance(depth: float) -> float:
        zero = depth - upper
        return between(zero, depth, dof) / above(zero, dof)

    return _bracketed(conformance, wanted, one_sided, upper - bias)


def _bracketed(conformance: Callable[[float], float], wanted: float, low: float, high: float) -> float | None:
    """The least depth from `low` to `high` that conforms with the probability wanted, which grows with the depth."""
    if low > high or conformance(high) < wanted:
        return None
    if conformance(low) >= wanted - _NEGLIGIBLE:
        return low
    while high - low > _CLOSE_ENOUGH * high:
        middle = 0.5 * (low + high)
        if conformance(middle) < wanted:
            low = middle
        else:
            high = middle
    return high


def _up_to_place(value: Decimal, budget: Budget) -> Decimal:
    """`value` rounded up to the last place of the expanded uncertainty, or to two figures where that is finer."""
    if value == 0:
        return Decimal(0)
    place = budget.expanded.as_tuple().exponent if budget.expanded else value.adjusted() - 1
    assert isinstance(place, int)
    return value.quantize(Decimal(1).scaleb(min(place, value.adjusted() - 1)), ROUND_CEILING, _UP)


# ---- where the zones lie ---------------------------------------------------------------------------------------------


def _drawn_in(limits: Limits, guard: Decimal | None, natural: bool) -> Limits:
    lower = Decimal(0) if natural and limits.upper is not None else limits.lower
    if guard is None:  # nowhere: the bounds change places
        return Limits(limits.of, limits.upper, lower)
    upper = None if limits.upper is None else _down(limits.upper, -guard)
    if natural or lower is None:
        return Limits(limits.of, limits.lower if upper is None or upper >= 0 else lower, upper)
    return Limits(limits.of, _up(lower, guard), upper)


def _up(bound: Number, by: Decimal) -> Number:
    """The sum, rounded up where it has more digits than anything real."""
    return bound + Fraction(by) if isinstance(bound, Fraction) else _UP.add(bound, by)


def _down(bound: Number, by: Decimal) -> Number:
    return bound + Fraction(by) if isinstance(bound, Fraction) else _DOWN.add(bound, by)
