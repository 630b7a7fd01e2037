"""Distribution functions in plain Python: normal, Student's t and gamma, and quantiles of the first two.

Tails are computed as tails, never as one minus the rest, so that a small probability keeps its figures. Checked in the
tests against a library of many digits and against printed tables of t.

Sources: JCGM 100:2008, annex G (t and its use); Abramowitz and Stegun, 6.1.47, 6.5.29, 6.5.31, 26.5.8 and 26.7.1
(series and continued fractions); Hill, Algorithm 395, Communications of the ACM 13 (1970), p. 617 (t for many degrees
of freedom); for the first approximations Abramowitz and Stegun, 26.2.23, and Hill, Algorithm 396, the same volume,
p. 619 (from memory; what they give is put right by the tail itself).
"""

from __future__ import annotations

import math
from functools import lru_cache

_ROOT_HALF = math.sqrt(0.5)
_DENSITY_AT_ZERO = 1 / math.sqrt(2 * math.pi)
_TINY = 1e-300
_CLOSE = 1e-16
_MANY_DOF = 250  # from here on Hill's expansion has eleven figures up to t = 8, and is faster than the fraction
_FEW_DOF = 80  # up to here the finite sum is the quickest
_MOST_STEPS = 10_000
_SQUARED_AWAY = 1e-9
_LARGE_TAIL = 0.05
_LARGE_REST = 0.001  # a tail from here on keeps twelve figures as one half less the rest


def normal_density(x: float) -> float:
    """The density of the standard normal distribution at `x`."""
    return _DENSITY_AT_ZERO * math.exp(-0.5 * x * x)


def normal_above(x: float) -> float:
    """The probability that a standard normal variable exceeds `x`."""
    return 0.5 * math.erfc(x * _ROOT_HALF)


def normal_below(x: float) -> float:
    """The probability that a standard normal variable is at most `x`."""
    return 0.5 * math.erfc(-x * _ROOT_HALF)


def above(x: float, dof: int | None = None) -> float:
    """The probability that Student's t of `dof` degrees of freedom exceeds `x`; None: the normal distribution.

    Raises:
        ValueError: less than one degree of freedom.
    """
    if dof is None:
        return 0.5 * math.erfc(x * _ROOT_HALF)
    if dof < 1:
        raise ValueError("degrees of freedom start at 1")
    if x < 0:
        return 1.0 - _student_tail(-x, dof)
    return _student_tail(x, dof)


def below(x: float, dof: int | None = None) -> float:
    """The probability that Student's t of `dof` degrees of freedom is at most `x`; None: the normal distribution."""
    return above(-x, dof)


def between(lower: float, upper: float, dof: int | None = None) -> float:
    """The probability of the interval from `lower` to `upper`, from the tail that keeps the most figures."""
    if lower >= upper:
        return 0.0
    if lower > 0:
        return above(lower, dof) - above(upper, dof)
    if upper < 0:
        return below(upper, dof) - below(lower, dof)
    if dof is not None and dof <= _FEW_DOF:
        return min(1.0, 0.5 * (_about_zero(upper, dof) + _about_zero(-lower, dof)))
    return 1.0 - above(upper, dof) - below(lower, dof)


@lru_cache(maxsize=4096)
def quantile(probability: float, dof: int | None = None) -> float:
    """The value that Student's t (None: the normal distribution) stays below with this probability, between 0 and 1."""
    if not 0 < probability < 1:
        raise ValueError("a quantile belongs to a probability between 0 and 1")
    return -quantile_above(probability, dof) if probability < 0.5 else quantile_above(1.0 - probability, dof)


@lru_cache(maxsize=4096)
def quantile_above(probability: float, dof: int | None = None) -> float:
    """The value that Student's t (None: the normal distribution) exceeds with this probability, at most one half.

    By Newton's steps from an approximation that is close already, inside a bracket that is halved where one leads out.
    """
    if not 0 < probability <= 0.5:
        raise ValueError("an upper quantile belongs to a probability above 0, one half at most")
    if probability == 0.5:
        return 0.0
    low, high, x = 0.0, math.inf, _guess(probability, dof)
    for _ in range(_MOST_STEPS):
        tail = _tail_near(probability, x, dof)
        low, high = (x, high) if tail > probability else (low, x)
        after = x + _newton_step(tail, probability, x, dof)
        if not low <= after <= high:
            after = 2 * x if math.isinf(high) else 0.5 * (low + high)
        elif abs(after - x) <= _SQUARED_AWAY * x:  # the error after it is of the order of its square
            return after
        if after in (low, high):
            return after
        x = after
    return x


def _tail_near(probability: float, x: float, dof: int | None) -> float:
    """The tail above `x`, which is not negative, where it is about `probability`: what is no small rest by the sum."""
    if dof is None or dof > _FEW_DOF or probability < _LARGE_REST:
        return above(x, dof)
    return 0.5 - 0.5 * _about_zero(x, dof)


def _newton_step(tail: float, probability: float, x: float, dof: int | None) -> float:
    """How far on the tail is `probability`, by the logarithms of both where it is small: that tail bends less."""
    density = normal_density(x) if dof is None else _student_density(x, dof)
    if not density or not tail:
        return math.nan
    if probability > _LARGE_TAIL:
        return (tail - probability) / density
    change = math.log(tail / probability) * tail / density
    return x * math.expm1(change / x) if change / x < 1 else x


def _guess(probability: float, dof: int | None) -> float:
    """A first approximation of an upper quantile, to three figures or more."""
    root = math.sqrt(-2 * math.log(probability))
    over = 2.515517 + (0.802853 + 0.010328 * root) * root
    under = 1 + (1.432788 + (0.189269 + 0.001308 * root) * root) * root
    normal = max(root - over / under, (0.5 - probability) / _DENSITY_AT_ZERO)
    return normal if dof is None else _hill_quantile(probability, normal, dof)


# ---- Student's t, the finite sums ---------------------------------------------------------------------------------


def _about_zero(x: float, dof: int) -> float:
    """The probability of the interval from minus `x` to `x`, not negative (A&S 26.7.3 and 26.7.4).

    A sum of positive terms, as long as half the degrees of freedom: right in what it tells, not in its small rest.
    """
    angle = math.atan2(x, math.sqrt(dof))
    sine, cosine = math.sin(angle), math.cos(angle)
    squared, total = cosine * cosine, 1.0
    for ratio in _ratios(dof):
        total = 1.0 + squared * ratio * total
    if not dof % 2:
        return sine * total
    return (angle + sine * cosine * total) * 2 / math.pi if dof > 1 else angle * 2 / math.pi


@lru_cache(maxsize=128)
def _ratios(dof: int) -> tuple[float, ...]:
    """What each term of the sum is to the one before it, the last term first."""
    return tuple((step - 1) / step for step in reversed(range(2 + dof % 2, dof - 1, 2)))


# ---- Student's t -----------------------------------------------------------------------------------------------------


def _student_tail(x: float, dof: int) -> float:
    """The tail above `x`, not negative."""
    if math.isinf(x):
        return 0.0
    if dof == 1:
        return math.atan2(1.0, x) / math.pi
    ratio = x * x / dof
    if ratio < _TINY:
        return 0.5
    if dof >= _MANY_DOF:
        return normal_above(_hill(ratio, dof))
    a = 0.5 * dof
    share = 1.0 / (1.0 + ratio)  # of the incomplete beta function, A&S 26.7.1
    front = math.exp(-a * math.log1p(ratio) + 0.5 * math.log(ratio * share) - _log_beta(dof))
    if share < (a + 1) / (a + 2.5):
        return 0.5 * front * _beta_fraction(a, 0.5, share) / a
    return 0.5 - 0.5 * front * _beta_fraction(0.5, a, ratio * share) / 0.5


def _student_density(x: float, dof: int) -> float:
    """The density at `x`."""
    return math.exp(-0.5 * (dof + 1) * math.log1p(x * x / dof) - _log_beta(dof)) / math.sqrt(dof)


def _hill_quantile(probability: float, normal: float, dof: int) -> float:
    """The upper quantile of t to six figures or so, from that of the normal distribution."""
    if dof == 1:
        return 1 / math.tan(math.pi * probability)
    if dof == 2:
        share = 2 * probability
        return math.sqrt(2 / (share * (2 - share)) - 2)
    a = 1 / (dof - 0.5)
    b = 48 / (a * a)
    c = ((20700 * a / b - 98) * a - 16) * a + 96.36
    d = ((94.5 / (b + c) - 3) / b + 1) * math.sqrt(a * math.pi / 2) * dof
    y = (2 * d * probability) ** (2 / dof)
    if y > 0.05 + a:
        x, y = -normal, normal * normal
        if dof < 5:
            c += 0.3 * (dof - 4.5) * (x + 0.6)
        c += (((0.05 * d * x - 5) * x - 7) * x - 2) * x + b
        y = (((((0.4 * y + 6.3) * y + 36) * y + 94.5) / c - y - 3) / b + 1) * x
        y = math.expm1(a * y * y)
    else:
        inner = 1 / (((dof + 6) / (dof * y) - 0.089 * d - 0.822) * (dof + 2) * 3) + 0.5 / (dof + 4)
        y = (inner * y - 1) * (dof + 1) / (dof + 2) + 1 / y
    return math.sqrt(dof * y)


@lru_cache(maxsize=1024)
def _log_beta(dof: int) -> float:
    """The logarithm of the beta function of half the degrees of freedom and one half."""
    return math.lgamma(0.5 * dof) + math.lgamma(0.5) - math.lgamma(0.5 * dof + 0.5)


def _beta_fraction(a: float, b: float, x: float) -> float:
    """The continued fraction of the incomplete beta function (A&S 26.5.8), by Lentz's method."""
    c, d = 1.0, 1.0 - (a + b) * x / (a + 1)
    d = 1.0 / (d if abs(d) > _TINY else _TINY)
    value = d
    for m in range(1, _MOST_STEPS):
        even = m * (b - m) * x / ((a + 2 * m - 1) * (a + 2 * m))
        d = 1.0 / (1.0 + even * d)
        c = 1.0 + even / c
        value *= d * c
        odd = -(a + m) * (a + b + m) * x / ((a + 2 * m) * (a + 2 * m + 1))
        d = 1.0 / (1.0 + odd * d)
        c = 1.0 + odd / c
        step = d * c
        value *= step
        if abs(step - 1.0) <= 2 * _CLOSE:
            break
    return value


def _hill(ratio: float, dof: int) -> float:
    """The normal deviate that has the tail of t, where `ratio` is t squared over the degrees of freedom."""
    a = dof - 0.5
    b = 48.0 * a * a
    square = a * math.log1p(ratio)
    polynomial = ((-0.4 * square - 3.3) * square - 24.0) * square - 85.5
    divisor = 0.8 * square * square + 100.0 + b
    return ((polynomial / divisor + square + 3.0) / b + 1.0) * math.sqrt(square)


# ---- gamma -----------------------------------------------------------------------------------------------------------


def gamma_density(x: float, shape: float, scale: float) -> float:
    """The density of the gamma distribution at `x`; its mean is `shape` times `scale`."""
    if x <= 0:
        return 0.0
    z = x / scale
    return math.exp((shape - 1) * math.log(z) - z - math.lgamma(shape)) / scale


def gamma_above(x: float, shape: float, scale: float) -> float:
    """The probability that a gamma variable exceeds `x` (A&S 6.5.29 by its series, 6.5.31 by its fraction)."""
    if x <= 0:
        return 1.0
    z = x / scale
    front = math.exp(shape * math.log(z) - z - math.lgamma(shape))
    if z < shape + 1:
        term = total = 1.0 / shape
        n = shape
        while term > total * _CLOSE:
            n += 1
            term *= z / n
            total += term
        return 1.0 - front * total
    b = z + 1 - shape
    c, d = 1.0 / _TINY, 1.0 / b
    value = d
    for i in range(1, _MOST_STEPS):
        an = -i * (i - shape)
        b += 2
        d = 1.0 / (an * d + b)
        c = b + an / c
        value *= d * c
        if abs(d * c - 1.0) <= 2 * _CLOSE:
            break
    return front * value
