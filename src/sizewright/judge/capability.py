"""Process capability: Cp and Cpk from readings, with the 95 % interval of Cpk and what they mean in words.

Cp = (upper - lower) / 6 s compares the tolerance with the spread, Cpk = distance of the mean from the nearer limit
over 3 s says where it lies too (ISO 22514-2, from memory). The interval is the approximation of Bissell (1990), as
statistics programs print it: Cpk ± z sqrt(1 / 9n + Cpk² / 2(n - 1)). How many readings are enough is common practice,
no source: at least 10 for a figure with its interval, 25 to 30 for one to rely on.
"""

from __future__ import annotations

import math
from decimal import ROUND_CEILING, ROUND_FLOOR, ROUND_HALF_EVEN, Context, Decimal

from sizewright.judge.model import Capability
from sizewright.resolve.characteristic import Limits
from sizewright.standards.distributions import quantile
from sizewright.text.numbers import as_decimal, plain

LEAST_READINGS = 10
FEW_READINGS = 25
GOOD_READINGS = 30
INTERVAL_SOURCE = "95 % interval of Cpk: approximation of Bissell (1990), How reliable is your capability index?"
_STEP = Decimal("0.01")
_WIDE = Context(prec=800)  # where the spread is nothing against the tolerance

# Cpk from, words: common practice, no source; 1.33 is four and 1.67 five standard deviations from the nearer limit.
_WORDS = (
    (Decimal("1.67"), "keeps well within its limits"),
    (Decimal("1.33"), "keeps within its limits as far as is usually asked"),
    (Decimal("1.00"), "only just keeps within its limits"),
)
_NOT_CAPABLE = "does not keep within its limits, items out of them are to be expected"
_MEAN_OUT = "the mean itself is out of the limits"


def capability(
    mean: Decimal, spread: Decimal, count: int, limits: Limits, *, from_zero: bool = False
) -> Capability | None:
    """Cp and Cpk of `count` readings of this mean and standard deviation, in the unit of the limits.

    None with fewer than ten readings, without spread, or without a limit. A quantity that cannot be less than zero has
    no limit at zero; Cp needs both limits.
    """
    lower = None if limits.lower is None or (from_zero and limits.lower == 0) else as_decimal(limits.lower)
    upper = None if limits.upper is None else as_decimal(limits.upper)
    distances = [d for d in (_minus(upper, mean), _minus(mean, lower)) if d is not None]
    if count < LEAST_READINGS or spread <= 0 or not distances:
        return None
    cpk = min(distances) / (3 * spread)
    cp = None if lower is None or upper is None else (upper - lower) / (6 * spread)
    half = Decimal(quantile(0.975) * math.sqrt(1 / (9 * count) + float(cpk) ** 2 / (2 * (count - 1))))
    least = (cpk - half).quantize(_STEP, ROUND_FLOOR, _WIDE)
    most = (cpk + half).quantize(_STEP, ROUND_CEILING, _WIDE)
    shown = cpk.quantize(_STEP, ROUND_HALF_EVEN, _WIDE)
    words = "; ".join(_meaning(shown, least, cp, count, one_sided=len(distances) == 1, from_zero=from_zero))
    return Capability(None if cp is None else cp.quantize(_STEP, ROUND_HALF_EVEN, _WIDE), shown, least, most, words)


def _meaning(
    cpk: Decimal, least: Decimal, cp: Decimal | None, count: int, *, one_sided: bool, from_zero: bool
) -> list[str]:
    words = [_MEAN_OUT if cpk < 0 else f"the process {_level(cpk)}"]
    if _level(least) != _level(cpk):
        words.append(f"at the lower end of the interval, {plain(least)}, it {_level(least)}")
    if cp is not None and cpk >= 0 and cp >= Decimal("1.33") and cp - cpk > Decimal("0.33"):
        words.append("the mean is off the middle: setting the process over would gain more than a finer one")
    if one_sided:
        words.append("one limit: Cpk alone")
    if from_zero:
        words.append("the normal distribution, on which Cpk rests, is poor near zero")
    if count < FEW_READINGS:
        words.append(f"{count} readings are few: {FEW_READINGS}, better {GOOD_READINGS}, narrow the interval")
    elif count < GOOD_READINGS:
        words.append(f"{count} readings: {GOOD_READINGS} are better")
    return words


def _level(cpk: Decimal) -> str:
    return next((words for least, words in _WORDS if cpk >= least), _NOT_CAPABLE)


def _minus(one: Decimal | None, other: Decimal | None) -> Decimal | None:
    return None if one is None or other is None else one - other
