"""Single sampling by attributes after ISO 2859-1: code letter, plan, and what a plan lets through.

Normal (Table 2-A) and tightened (Table 2-B) inspection, AQL 0.065 to 6.5 per cent nonconforming. Reduced inspection is
not held.
"""

from __future__ import annotations

from dataclasses import dataclass
from decimal import ROUND_HALF_EVEN, Decimal
from fractions import Fraction
from functools import cache
from math import comb
from typing import Literal

from sizewright.standards.errors import NotDefined
from sizewright.standards.tables import rows

Inspection = Literal["normal", "tightened"]
Decision = Literal["accept", "reject", "go on"]

STANDARD = "ISO 2859-1"
LEVELS = ("S-1", "S-2", "S-3", "S-4", "I", "II", "III")
USUAL_LEVEL = "II"  # ISO 2859-1, 10.1: used unless another is named
_STEPS = 10**7  # how finely a share of nonconforming items is sought
_PLACES = Decimal("0.001")


@dataclass(frozen=True, slots=True)
class SinglePlan:
    """Check `n` items; accept the lot on `ac` nonconforming ones or fewer, reject it on `re` or more."""

    n: int
    ac: int
    re: int


@dataclass(frozen=True, slots=True)
class IsoPlan(SinglePlan):
    """A single plan of ISO 2859-1, with what it was found by.

    `letter` is the letter whose plan is used, which is not the lot's `code_letter` where the table has an arrow.
    `n` is never above the lot: where the plan's own size, `n_of_table`, reaches it, every item is checked.
    """

    lot: int
    level: str
    aql: Decimal
    inspection: Inspection
    code_letter: str
    letter: str
    n_of_table: int

    @property
    def whole(self) -> bool:
        """Whether every item of the lot is checked."""
        return self.n >= self.lot

    @property
    def words(self) -> str:
        """The plan as a report states it: `ISO 2859-1, lot 500, level II (letter H), AQL 1.0: n 50, Ac 1, Re 2`."""
        letter = f"letter {self.code_letter}"
        if self.letter != self.code_letter:
            letter += f", its arrow leads to {self.letter}"
        tightened = ", tightened" if self.inspection == "tightened" else ""
        size = f"n {self.n}" if self.n == self.n_of_table else f"n {self.n_of_table}, more than the lot: all {self.lot}"
        if self.n == self.n_of_table == self.lot:
            size = f"n {self.n}, the whole lot"
        return (
            f"{STANDARD}, lot {self.lot}, level {self.level} ({letter}), AQL {self.aql}{tightened}: "
            f"{size}, Ac {self.ac}, Re {self.re}"
        )


def code_letter(lot: int, level: str) -> str:
    """The sample size code letter for a lot of `lot` items at inspection `level` (ISO 2859-1, Table 1).

    Raises:
        NotDefined: the lot is smaller than 2, or the level is none of the table's.
    """
    if level not in LEVELS:
        raise NotDefined(f"{STANDARD} has no inspection level {level}", LEVELS)
    for row in rows("sampling_letters"):
        upper = row["lot_max"]
        if row["level"] == level and int(row["lot_min"]) <= lot and (not upper or lot <= int(upper)):
            return row["code_letter"]
    raise NotDefined(f"{STANDARD} begins at lots of 2 pieces")


@cache
def aqls() -> tuple[Decimal, ...]:
    """The acceptance quality limits held, in per cent nonconforming, smallest first, written as the standard does."""
    return tuple(sorted({Decimal(row["aql"]) for row in rows("sampling_plans")}))


def near_aqls(aql: Decimal) -> tuple[str, ...]:
    """The limits of the table on either side of `aql`, the nearest (by ratio) first."""
    below = [each for each in aqls() if each <= aql][-1:]
    above = [each for each in aqls() if each > aql][:1]
    nearest_first = sorted(below + above, key=lambda each: max(each, aql) / min(each, aql) if aql > 0 else each)
    return tuple(map(str, nearest_first))


def single_plan(lot: int, level: str, aql: Decimal, inspection: Inspection = "normal") -> IsoPlan:
    """The single sampling plan (ISO 2859-1, Table 2-A for normal, 2-B for tightened inspection).

    `aql` is in per cent nonconforming.

    Raises:
        NotDefined: the lot is smaller than 2, or the level or the AQL is none of the tables'.
    """
    letter = code_letter(lot, level)
    for row in rows("sampling_plans"):
        if (row["inspection"], row["code_letter"]) == (inspection, letter) and Decimal(row["aql"]) == aql:
            n = int(row["n"])
            return IsoPlan(
                min(n, lot), int(row["Ac"]), int(row["Re"]),
                lot, level, Decimal(row["aql"]), inspection, letter, row["plan_letter"], n,
            )  # fmt: skip
    raise NotDefined(f"AQL {aql} is not in the tables held of {STANDARD}", near_aqls(aql))


def chance_of_acceptance(plan: SinglePlan, share: Fraction) -> Fraction:
    """The probability that a lot is accepted from a process with `share` (0 to 1) nonconforming: exact binomial."""
    part, whole = share.numerator, share.denominator
    return Fraction(_accepted(plan.n, plan.ac, part, whole), whole**plan.n)


def chance_from_lot(plan: SinglePlan, lot: int, nonconforming: int) -> Fraction:
    """The probability that a lot of `lot` items with so many nonconforming ones is accepted: exact hypergeometric.

    Raises:
        ValueError: the lot is smaller than the sample, or holds fewer items than nonconforming ones.
    """
    if not plan.n <= lot or not 0 <= nonconforming <= lot:
        raise ValueError("sample and nonconforming items are parts of the lot")
    ways = sum(comb(nonconforming, k) * comb(lot - nonconforming, plan.n - k) for k in range(min(plan.ac, plan.n) + 1))
    return Fraction(ways, comb(lot, plan.n))


@cache
def quality_accepted(plan: SinglePlan, chance: Fraction) -> Decimal:
    """The per cent nonconforming at which a lot is accepted with probability `chance` (0 to 1), to 3 places.

    It is found on the exact operating curve (binomial).
    """
    wanted = chance * _STEPS**plan.n
    low, high = 0, _STEPS
    while high - low > 1:
        middle = (low + high) // 2
        if _accepted(plan.n, plan.ac, middle, _STEPS) >= wanted:
            low = middle
        else:
            high = middle
    return (Decimal(low) * 100 / _STEPS).quantize(_PLACES, ROUND_HALF_EVEN)


def _accepted(n: int, ac: int, part: int, whole: int) -> int:
    """The binomial sum up to `ac` for the share part/whole, times whole**n: integers, so that it is exact."""
    most = min(ac, n)
    rest = whole - part
    terms = sum(comb(n, k) * pow(part, k) * pow(rest, most - k) for k in range(most + 1))
    return int(pow(rest, n - most)) * int(terms)


def curve_words(plan: SinglePlan) -> str:
    """What the plan lets through, in words: the qualities accepted 95 and 10 times in 100 (binomial)."""
    good, poor = (quality_accepted(plan, Fraction(chance, 100)).normalize() for chance in (95, 10))
    return f"a lot with {good:f} % nonconforming is accepted 95 times in 100, one with {poor:f} % still 10 times in 100"


def lot_decision(plan: SinglePlan, nonconforming: int, checked: int | None = None) -> Decision:
    """What the sample says of the lot so far.

    `nonconforming` counts items, not readings: an item with several characteristics of the class out of limits counts
    once. `checked` is how many items of the sample are done (None: all). "go on" where the rest may still decide. A
    nonconforming item that was found is rejected whatever becomes of its lot.
    """
    if nonconforming >= plan.re:
        return "reject"
    done = plan.n if checked is None else checked
    return "accept" if done >= plan.n and nonconforming <= plan.ac else "go on"
