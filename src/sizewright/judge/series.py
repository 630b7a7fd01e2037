"""What the readings of one pair of limits come to: extremes, mean, spread, capability and the risks of the batch."""

from __future__ import annotations

from collections.abc import Sequence
from decimal import ROUND_CEILING, ROUND_HALF_EVEN, Context, Decimal

from sizewright.instruments.budget_model import Budget
from sizewright.judge.capability import LEAST_READINGS, capability
from sizewright.judge.model import Risk, Statistics
from sizewright.judge.risk import Bounds, GammaProcess, NormalProcess, global_risk, process_sd_from_observed
from sizewright.judge.rule import Zones
from sizewright.resolve.characteristic import Limits
from sizewright.text.numbers import Number, as_decimal, places, plain

_WORK = Context(prec=40)
_WIDE = Context(prec=400)  # exact for what is countable
_LARGEST = 100  # digits before or after the mark
_LARGEST_WHOLE: int = 10**_LARGEST
_MORE_PLACES = 2  # of a mean and a spread, beyond those of the readings
_MOST_PLACES = 12


def statistics_of(
    limits: Limits,
    values: Sequence[Number],
    *,
    zones: Zones | None = None,
    budget: Budget | None = None,
    process_sd: Decimal | None = None,
    from_zero: bool = False,
    fixed: bool = True,
) -> Statistics:
    """The statistics of `values`, at least one, all in the unit of `limits`.

    The risks need the measurement's uncertainty (`budget`), what is accepted (`zones`), and the spread of the process:
    `process_sd` where it is known, else the spread of ten readings or more less the measurement's own. `fixed` is false
    where a bonus moves the limits from piece to piece: there is no capability and no risk then.
    """
    numbers = [value if type(value) is Decimal else as_decimal(value) for value in values]
    total = _total(numbers)  # with as many places as the finest of them
    step = Decimal(1).scaleb(-min(_MOST_PLACES, places(total) + _MORE_PLACES))
    exact = _WORK.divide(total, len(numbers))
    spread = _spread(numbers, exact)
    able = None
    if fixed and spread is not None and len(numbers) >= LEAST_READINGS:
        able = capability(exact, spread, len(numbers), limits, from_zero=from_zero)
    if able is not None and budget is not None and budget.bias:
        uncorrected = f"of readings that hold the known error {plain(_shown(budget.bias))}"
        able = able._replace(meaning=f"{able.meaning}; {uncorrected}")
    return Statistics(
        of=limits.of,
        count=len(numbers),
        least=min(values),
        greatest=max(values),
        mean=exact.quantize(step, ROUND_HALF_EVEN, _WIDE),
        spread=None if spread is None else spread.quantize(step, ROUND_CEILING, _WIDE),
        capability=able,
        risk=_risk(zones, budget, process_sd, exact, spread, len(numbers), from_zero) if fixed else None,
    )


def countable(value: Number) -> bool:
    """Whether a value can stand in a mean: no infinity, and no figure beyond all sizes, which is a slip of the keys."""
    if isinstance(value, Decimal):
        return value.is_finite() and (not value or -_LARGEST < value.adjusted() < _LARGEST)
    return abs(value.numerator) < _LARGEST_WHOLE * value.denominator


def _total(numbers: Sequence[Decimal]) -> Decimal:
    """The exact sum of countable numbers."""
    total = Decimal(0)
    for number in numbers:
        total = _WIDE.add(total, number)
    return total


def _spread(numbers: Sequence[Decimal], mean: Decimal) -> Decimal | None:
    """The standard deviation of a sample, by its squares over one less than their number."""
    if len(numbers) < 2:
        return None
    total = Decimal(0)
    for number in numbers:
        off = _WORK.subtract(number, mean)
        total = _WORK.fma(off, off, total)
    return _WORK.sqrt(_WORK.divide(total, Decimal(len(numbers) - 1)))


def _risk(
    zones: Zones | None,
    budget: Budget | None,
    known: Decimal | None,
    mean: Decimal,
    spread: Decimal | None,
    count: int,
    from_zero: bool,
) -> Risk | None:
    if zones is None or budget is None or budget.combined <= 0:
        return None
    u = budget.combined
    if known is not None:
        process, said = known, f"process standard deviation {plain(known)} as given"
    elif spread is not None and count >= LEAST_READINGS:
        process = process_sd_from_observed(spread, u)
        said = f"process standard deviation from {count} readings, less the uncertainty of measurement"
    else:
        return None
    if process <= 0:  # the readings spread no more than the measurement does: nothing is known of the process
        return None
    found = _of_process(process, mean, budget, zones, from_zero)
    if found is None:
        return None
    kind = "gamma" if from_zero else "normal"
    known_error = f", less the known error {plain(_shown(budget.bias))}" if budget.bias else ""
    words = f"{said}; mean of the readings{known_error}; {kind} distribution"
    return Risk(found.consumer, found.producer, found.out_among_accepted, words)


def _of_process(sd: Decimal, mean: Decimal, budget: Budget, zones: Zones, from_zero: bool) -> Risk | None:
    """Of a normal process about the mean; of a gamma one with that mean and spread where nothing is less than zero.

    A known error that nobody corrects lies between the true values, which the limits are of, and the readings, which
    are accepted: each is taken about its own mean.
    """
    u = float(budget.combined)
    read_about = Decimal(0) if from_zero else mean
    true_about = read_about if from_zero else _WORK.subtract(mean, budget.bias)
    limits = _bounds(zones.limits, true_about, from_zero)
    acceptance = Bounds(1.0, -1.0) if zones.empty else _bounds(zones.acceptance, read_about, from_zero)
    if limits == Bounds():
        return None
    if not from_zero:
        return global_risk(NormalProcess(0.0, float(sd)), u, limits, acceptance)
    if mean < sd:  # such a gamma distribution heaps up at zero: no model of a form error
        return None
    shape = (float(mean) / float(sd)) ** 2
    return global_risk(GammaProcess(shape, float(mean) / shape), u, limits, acceptance)


def _shown(bias: Decimal) -> Decimal:
    """A known error with two figures."""
    return bias.quantize(Decimal(1).scaleb(bias.adjusted() - 1), ROUND_HALF_EVEN, _WIDE)


def _bounds(limits: Limits, origin: Decimal, from_zero: bool) -> Bounds:
    """The limits as distances from `origin`, exact before they become floats; a natural zero is no limit."""
    ends: dict[str, float] = {}
    if limits.lower is not None and not (from_zero and limits.lower == 0):
        ends["lower"] = float(_WORK.subtract(as_decimal(limits.lower), origin))
    if limits.upper is not None:
        ends["upper"] = float(_WORK.subtract(as_decimal(limits.upper), origin))
    return Bounds(**ends)
