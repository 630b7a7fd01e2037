"""The ratios of a tolerance to an uncertainty: four that are all called "4 : 1", and differ by a factor of two.

T is the tolerance, U the expanded uncertainty (95 %), u the combined standard uncertainty.

- TUR, (T / 2) / U: practice of ANSI/NCSL Z540.3
- N : 1, T / 2U: ASME B89.7.3.1; the same number
- C_m, T / 4u: JCGM 106:2012, 7.6.3 (clause from memory); the same for a coverage factor of 2
- T / U: twice as large for the same instrument, so half as strict
"""

from __future__ import annotations

from decimal import ROUND_FLOOR, Decimal
from typing import NamedTuple

from sizewright.instruments.budget_model import Budget
from sizewright.resolve.characteristic import Limits
from sizewright.text.numbers import as_decimal, plain

_STEP, _FINE_STEP = Decimal("0.1"), Decimal("0.01")


class Ratios(NamedTuple):
    """The four ratios, rounded down to a tenth (below 1, a hundredth): never told better than they are."""

    tur: Decimal
    n_to_one: Decimal
    capability_index: Decimal
    over_u: Decimal


def ratios(limits: Limits, budget: Budget) -> Ratios | None:
    """The ratios of the tolerance to the uncertainty; None with one limit alone, or without an uncertainty."""
    if limits.lower is None or limits.upper is None or budget.unrounded <= 0 or budget.combined <= 0:
        return None
    width = as_decimal(limits.upper) - as_decimal(limits.lower)
    half = _down(width / 2 / budget.unrounded)
    return Ratios(half, half, _down(width / (4 * budget.combined)), _down(width / budget.unrounded))


def ratio_words(found: Ratios) -> str:
    """The ratio as a report states it: which one is meant, and what the other common one would be."""
    return (
        f"tolerance over twice the expanded uncertainty, T/2U: {plain(found.n_to_one)} (TUR and N : 1 alike); "
        f"T/U would be {plain(found.over_u)}"
    )


def _down(value: Decimal) -> Decimal:
    return value.quantize(_STEP if value >= 1 else _FINE_STEP, ROUND_FLOOR)
