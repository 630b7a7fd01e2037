"""Risks over a batch: that an item is out of its limits and accepted, or within them and rejected.

JCGM 106:2012, clause 9: the process makes items whose true values follow a distribution, the measurement adds a normal
error of standard uncertainty u that does not depend on them. The risks are integrals of one density against the other,
by Gauss-Legendre panels that keep to the narrower of the two. Where limits are narrow against the sizes themselves,
give both as distances from the process mean: a float near 10 has no more than fifteen figures.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from decimal import Decimal
from typing import NamedTuple, Protocol

from sizewright.judge.model import Risk
from sizewright.judge.probability import rounded
from sizewright.standards.distributions import (
    gamma_above,
    gamma_density,
    normal_above,
    normal_below,
    normal_density,
    quantile,
)

# Nodes and weights of Gauss and Legendre on -1 to 1, ten points, the positive half (Abramowitz and Stegun, table 25.4).
_GAUSS = (
    (0.14887433898163122, 0.29552422471475287),
    (0.43339539412924719, 0.26926671930999636),
    (0.67940956829902441, 0.21908636251598204),
    (0.86506336668898451, 0.14945134915058059),
    (0.97390652851717172, 0.06667134430868814),
)
_PANEL = 2.5  # the width of a panel, in the narrower spread: then the integrals are right to about 1e-13
_FAR = 9.0  # so many spreads away nothing is left: 1e-19
_MOST_PANELS = 400
_STEPS = 200


class Process(Protocol):
    """The distribution of true values: `scale` is a width over which its density changes little, `ends` hold it all."""

    @property
    def scale(self) -> float:
        """A width over which the density is smooth."""

    @property
    def ends(self) -> tuple[float, float]:
        """Bounds with nothing worth counting outside."""

    def density(self, x: float) -> float:
        """The density at `x`."""

    def outside(self, lower: float, upper: float) -> float:
        """The probability below `lower` or above `upper`."""

    def read_outside(self, lower: float, upper: float, u: float) -> float | None:
        """The probability that a reading of standard uncertainty `u` is below `lower` or above `upper`, or None where
        there is no closed form."""


class NormalProcess(NamedTuple):
    """True values that follow a normal distribution; `sd` is above zero."""

    mean: float
    sd: float

    @property
    def scale(self) -> float:
        """Its standard deviation."""
        return self.sd

    @property
    def ends(self) -> tuple[float, float]:
        """Nine standard deviations to each side."""
        return self.mean - _FAR * self.sd, self.mean + _FAR * self.sd

    def density(self, x: float) -> float:
        """The density at `x`."""
        return normal_density((x - self.mean) / self.sd) / self.sd

    def outside(self, lower: float, upper: float) -> float:
        """The probability below `lower` or above `upper`."""
        return normal_below((lower - self.mean) / self.sd) + normal_above((upper - self.mean) / self.sd)

    def read_outside(self, lower: float, upper: float, u: float) -> float | None:
        """Readings are normal too, with both variances added."""
        return 1.0 if lower >= upper else NormalProcess(self.mean, math.hypot(self.sd, u)).outside(lower, upper)


class GammaProcess(NamedTuple):
    """True values above zero that follow a gamma distribution, as a form error may (JCGM 106:2012, 9.5.4)."""

    shape: float
    width: float

    @property
    def scale(self) -> float:
        """Its scale parameter."""
        return self.width

    @property
    def ends(self) -> tuple[float, float]:
        """From zero to where less than 1e-17 is left."""
        return 0.0, self.width * (self.shape + 40 + 10 * math.sqrt(self.shape))

    def density(self, x: float) -> float:
        """The density at `x`."""
        return gamma_density(x, self.shape, self.width)

    def outside(self, lower: float, upper: float) -> float:
        """The probability below `lower` or above `upper`."""
        return 1.0 - gamma_above(lower, self.shape, self.width) + gamma_above(upper, self.shape, self.width)

    def read_outside(self, lower: float, upper: float, u: float) -> float | None:  # noqa: ARG002
        """There is no closed form."""
        return None


class Bounds(NamedTuple):
    """Two bounds as floats, infinite where there is none."""

    lower: float = -math.inf
    upper: float = math.inf

    def drawn_in(self, guard: float) -> Bounds:
        """Both moved inwards; a negative guard moves them outwards."""
        return Bounds(self.lower + guard, self.upper - guard)


def global_risk(process: Process, u: float, limits: Bounds, acceptance: Bounds) -> Risk:
    """The risks of judging items of `process` by readings of standard uncertainty `u`, as rounded decimals.

    The consumer's risk is that an item is accepted and out of `limits`, the producer's that it is rejected and within
    them (JCGM 106:2012, 9.5.2 and 9.5.3); among accepted items alone the first is larger.
    """
    consumer, producer, accepted = risks(process, u, limits, acceptance)
    among = consumer / accepted if accepted > 0 else 0.0
    return Risk(_risk(consumer), _risk(producer), _risk(among))


def risks(process: Process, u: float, limits: Bounds, acceptance: Bounds) -> tuple[float, float, float]:
    """Consumer's risk, producer's risk, and the share accepted, as floats."""
    if acceptance.lower >= acceptance.upper:
        return 0.0, 1.0 - process.outside(limits.lower, limits.upper), 0.0
    consumer = _consumer(process, u, limits, acceptance)
    rejected = process.read_outside(acceptance.lower, acceptance.upper, u)
    if rejected is None:
        rejected = _rejected(process, u, acceptance)
    producer = max(0.0, rejected + consumer - process.outside(limits.lower, limits.upper))
    return consumer, producer, 1.0 - rejected


def process_sd_from_observed(observed: Decimal, u: Decimal) -> Decimal:
    """The spread of the process alone: what is observed holds the measurement's too; zero where that is all of it."""
    rest = observed * observed - u * u
    return rest.sqrt() if rest > 0 else Decimal(0)


def process_sd_from_in_tolerance(probability: float, width: float) -> float:
    """The spread of a centred normal process that keeps this share of its items within limits `width` apart."""
    return 0.5 * width / quantile(0.5 * (1.0 + probability))


def guard_for_consumer_risk(process: Process, u: float, limits: Bounds, wanted: float) -> float | None:
    """The guard band inside each limit at which the consumer's risk is `wanted`; negative where limits may be widened.

    None where even accepting everything stays below it.
    """
    if process.outside(limits.lower, limits.upper) <= wanted:
        return None
    spread = max(u, process.scale)
    low, high = -u, u

    def risk_at(guard: float) -> float:
        return risks(process, u, limits, limits.drawn_in(guard))[0]

    while risk_at(high) > wanted:
        low, high = high, high + 2 * spread
    while risk_at(low) < wanted:
        low, high = low - 2 * spread, low
    for _ in range(_STEPS):
        middle = 0.5 * (low + high)
        if middle in (low, high) or high - low < 1e-13 * spread:
            break
        if risk_at(middle) > wanted:
            low = middle
        else:
            high = middle
    return high


def _risk(value: float) -> Decimal:
    """A risk rounded up to six places: never told smaller than it is."""
    return 1 - rounded(1.0 - value) if value > 0 else Decimal(0)


def _consumer(process: Process, u: float, limits: Bounds, acceptance: Bounds) -> float:
    """The part of the items out of limits that is accepted: near the limits, as far as an error can reach."""
    start, end = process.ends
    reach = _FAR * u
    low = (max(start, acceptance.lower - reach), min(end, limits.lower, acceptance.upper + reach))
    high = (max(start, limits.upper, acceptance.lower - reach), min(end, acceptance.upper + reach))
    step = _step(process, u)

    def accepted(x: float) -> float:
        return process.density(x) * _read_in(x, u, acceptance)

    return sum(_integral(accepted, *ends, step) for ends in (low, high) if ends[0] < ends[1])


def _rejected(process: Process, u: float, acceptance: Bounds) -> float:
    """The share rejected: all that no error can bring in, and what is near the bounds by integration."""
    start, end = process.ends
    reach = _FAR * u
    near = [
        (max(start, bound - reach), min(end, bound + reach))
        for bound in (acceptance.lower, acceptance.upper)
        if math.isfinite(bound)
    ]
    if len(near) == 2 and near[0][1] > near[1][0]:
        near = [(near[0][0], near[1][1])]
    step = _step(process, u)

    def rejected(x: float) -> float:
        return process.density(x) * _read_out(x, u, acceptance)

    surely = process.outside(acceptance.lower - reach, acceptance.upper + reach)
    return surely + sum(_integral(rejected, *ends, step) for ends in near if ends[0] < ends[1])


def _step(process: Process, u: float) -> float:
    return _PANEL * min(process.scale, u)


def _read_in(x: float, u: float, acceptance: Bounds) -> float:
    """The probability that an item of true value `x` reads within the acceptance zone, from the nearer tail."""
    low, high = (acceptance.lower - x) / u, (acceptance.upper - x) / u
    if low > 0:
        return normal_above(low) - normal_above(high)
    return normal_below(high) - normal_below(low)


def _read_out(x: float, u: float, acceptance: Bounds) -> float:
    return normal_below((acceptance.lower - x) / u) + normal_above((acceptance.upper - x) / u)


def _integral(function: Callable[[float], float], start: float, end: float, step: float) -> float:
    panels = min(_MOST_PANELS, max(1, math.ceil((end - start) / step)))
    half = 0.5 * (end - start) / panels
    total = 0.0
    for panel in range(panels):
        middle = start + (2 * panel + 1) * half
        for node, weight in _GAUSS:
            off = node * half
            total += weight * (function(middle - off) + function(middle + off))
    return total * half
