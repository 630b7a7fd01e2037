"""One reading held against its limits: accepted, rejected or undecided, and why. All comparisons are exact."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction
from typing import NamedTuple

from sizewright.instruments.budget_model import Budget
from sizewright.judge.model import Outcome, Reading, Rule, Verdict
from sizewright.judge.probability import Conformance
from sizewright.judge.rule import Zones, zones
from sizewright.resolve.characteristic import Limits
from sizewright.resolve.describe import with_unit
from sizewright.text.numbers import Number, add


class Held(NamedTuple):
    """What the readings of one pair of limits with one instrument are held against; `accepted` are the words for a
    reading that is accepted. `conformance` tells the probabilities where the uncertainty is known. `from_zero`: the
    quantity, called `kind`, cannot be less than zero."""

    rule: Rule
    zones: Zones
    budget: Budget | None
    unit: str
    kind: str
    from_zero: bool
    accepted: str
    conformance: Conformance | None


def hold(rule: Rule, limits: Limits, budget: Budget | None, unit: str, kind: str, *, from_zero: bool) -> Held:
    """What readings are held against under `rule`: made once for each pair of limits and instrument."""
    found = zones(rule, limits, budget, from_zero=from_zero)
    words = "within the limits"
    if found.guard:
        words += f" by the guard band of {with_unit(found.guard, unit)} or more"
    likely = None if budget is None else Conformance(limits, budget, from_zero=from_zero)
    return Held(rule, found, budget, unit, kind, from_zero, words, likely)


def decide(value: Number, found: Zones) -> Verdict:
    """The verdict of the zones alone; a reading on a bound of the acceptance zone is accepted."""
    if found.unknown:
        return "undecided"
    if found.acceptance.holds(value):
        return "accept"
    below = found.rejected_below is not None and value < found.rejected_below
    above = found.rejected_above is not None and value > found.rejected_above
    return "reject" if below or above else "undecided"


def judged(reading: Reading, held: Held) -> Outcome:
    """The outcome of a reading with a value; without one it is undecided."""
    value = reading.value
    if value is None or not is_number(value):
        return undecided(reading, "no number reads in it", held.zones.limits)
    verdict = decide(value, held.zones)
    return Outcome(
        reading=reading,
        limits=held.zones.limits,
        acceptance=held.zones.acceptance,
        verdict=verdict,
        why=held.accepted if verdict == "accept" else reason(value, verdict, held),
        conformance=None if held.conformance is None else held.conformance.of(value),
        doubts=(f"less than zero, which {held.kind} cannot be",) if held.from_zero and value < 0 else (),
    )


def by_gauge(reading: Reading, limits: Limits, wear: str) -> Outcome:
    """The outcome of a gauge's answer: no uncertainty is taken off, the gauge's own limits and `wear` stand for it."""
    assert reading.answer is not None
    words = f"the gauge {reading.answer}s; its own limits and wear count, no uncertainty is taken off"
    if wear and reading.answer == "accept":
        words += f"; {wear}"
    return Outcome(reading, limits, limits, reading.answer, words)


def undecided(reading: Reading, why: str, limits: Limits) -> Outcome:
    """A reading that nothing can be decided of."""
    return Outcome(reading, limits, limits, "undecided", why)


def is_number(value: Number) -> bool:
    """Whether it is a number that can be compared: no infinity and nothing that is no number."""
    return not isinstance(value, Decimal) or value.is_finite()


def reason(value: Number, verdict: Verdict, held: Held) -> str:
    """Why a reading is not accepted."""
    found, unit = held.zones, held.unit
    if found.unknown:
        return "no uncertainty is known for it, and a guarded rule decides nothing without"
    where = _where(value, found.limits, unit)
    if found.empty:
        return f"{where}; {_nothing_fits(found, unit)}"
    assert found.guard is not None
    if verdict == "undecided":
        guard = with_unit(found.guard, unit)
        return f"{where}, nearer than the guard band of {guard}: neither conformity nor nonconformity is proven"
    if found.limits.holds(value):
        return f"{where}, nearer than the guard band of {with_unit(found.guard, unit)} (binary rule)"
    return where


def _nothing_fits(found: Zones, unit: str) -> str:
    if found.guard is None:
        return "the uncertainty is too wide for the tolerance: nothing can be accepted with this instrument"
    guard = with_unit(found.guard, unit)
    return f"the guard band of {guard} takes the whole tolerance: nothing can be accepted with this instrument"


def _where(value: Number, limits: Limits, unit: str) -> str:
    """How far from the nearer limit a value lies, in words."""
    if limits.lower is not None and value < limits.lower:
        return f"below the lower limit by {_gap(limits.lower, value, unit)}"
    if limits.upper is not None and value > limits.upper:
        return f"above the upper limit by {_gap(value, limits.upper, unit)}"
    to_lower = None if limits.lower is None else _minus(value, limits.lower)
    to_upper = None if limits.upper is None else _minus(limits.upper, value)
    if to_upper is None or (to_lower is not None and to_lower < to_upper):
        return "within its limits" if to_lower is None else _inside(to_lower, "lower", unit)
    return _inside(to_upper, "upper", unit)


_MOST_FIGURES = 40  # a gap beyond all sizes is not written out


def _inside(gap: Number, name: str, unit: str) -> str:
    return f"on the {name} limit" if gap == 0 else f"within the {name} limit by {_said(gap, unit)}"


def _gap(more: Number, less: Number, unit: str) -> str:
    return _said(_minus(more, less), unit)


def _said(gap: Number, unit: str) -> str:
    if isinstance(gap, Fraction):
        gap = gap if abs(gap) < 10**_MOST_FIGURES else Decimal(10).scaleb(_MOST_FIGURES)
    if isinstance(gap, Decimal) and abs(gap.adjusted()) >= _MOST_FIGURES:
        return "an amount beyond all sizes" if gap.adjusted() > 0 else "a hair"
    return with_unit(gap, unit)


def _minus(more: Number, less: Number) -> Number:
    return add(more, -less if not isinstance(less, Decimal) else less.copy_negate())
