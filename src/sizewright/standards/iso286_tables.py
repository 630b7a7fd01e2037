"""The tables of ISO 286-1 as they are printed: one line per size range, one column per letter.

Loaded on first use. Every value is in millimetres; `None` stands for a cell that the standard leaves empty.
"""

from bisect import bisect_left
from decimal import Decimal
from functools import cache
from itertools import pairwise
from typing import NamedTuple

from sizewright.standards.tables import rows

GRADES: tuple[str, ...] = ("01", "0", *(str(number) for number in range(1, 19)))
"""The standard tolerance grades of ISO 286-1, finest first, without the letters IT."""

HOLE_LETTERS: tuple[str, ...] = (
    *("A", "B", "C", "CD", "D", "E", "EF", "F", "FG", "G", "H", "J", "JS", "K"),
    *("M", "N", "P", "R", "S", "T", "U", "V", "X", "Y", "Z", "ZA", "ZB", "ZC"),
)
"""The identifiers of the fundamental deviations of holes, in the order of ISO 286-1, Tables 2 and 3."""

SHAFT_LETTERS: tuple[str, ...] = tuple(letters.lower() for letters in HOLE_LETTERS)
"""The identifiers of the fundamental deviations of shafts, in the order of ISO 286-1, Tables 4 and 5."""

LARGEST_SIZE = Decimal(3150)
"""The nominal size, in millimetres, at which the tables of ISO 286-1 end."""

_MICROMETRE_EXPONENT = -3


class RangeTable(NamedTuple):
    """A table by ranges of nominal size: `bounds` are the upper bounds, `columns` the values by column heading.

    Bounds and values are in millimetres.
    """

    bounds: tuple[Decimal, ...]
    columns: dict[str, tuple[Decimal | None, ...]]

    def at(self, heading: str, nominal: Decimal) -> Decimal | None:
        """The value under `heading` for a nominal size in millimetres above 0, or None where there is none.

        A size on the bound of two ranges belongs to the lower one.
        """
        index = bisect_left(self.bounds, nominal)
        return self.columns[heading][index] if index < len(self.bounds) else None


def _millimetres(text: str) -> Decimal | None:
    return Decimal(text).scaleb(_MICROMETRE_EXPONENT) if text else None


def _load(name: str) -> RangeTable:
    table = rows(name)
    bounds = tuple(Decimal(row["upto_mm"]) for row in table)
    if any(upper >= following for upper, following in pairwise(bounds)):
        raise AssertionError(f"table {name} is not in the order of the sizes")
    headings = [heading for heading in table[0] if heading not in {"over_mm", "upto_mm"}]
    return RangeTable(bounds, {heading: tuple(_millimetres(row[heading]) for row in table) for heading in headings})


@cache
def standard_tolerances() -> RangeTable:
    """ISO 286-1, Table 1: the standard tolerances, by grade without the letters IT."""
    table = _load("iso286_grades")
    return RangeTable(table.bounds, {heading.removeprefix("IT"): cells for heading, cells in table.columns.items()})


@cache
def hole_deltas() -> RangeTable:
    """ISO 286-1, Tables 2 and 3, right-hand columns: the delta of the grades IT3 to IT8."""
    table = _load("iso286_hole_delta")
    return RangeTable(table.bounds, {heading.removeprefix("IT"): cells for heading, cells in table.columns.items()})


@cache
def hole_deviations() -> RangeTable:
    """ISO 286-1, Tables 2 and 3: EI of the holes A to H, ES before delta of the holes J to ZC."""
    return _load("iso286_hole_deviations")


@cache
def shaft_deviations() -> RangeTable:
    """ISO 286-1, Tables 4 and 5: es of the shafts a to h, ei of the shafts j to zc."""
    return _load("iso286_shaft_deviations")


def range_bounds() -> tuple[Decimal, ...]:
    """The upper bounds, in millimetres, of all size ranges at which some limit steps."""
    return hole_deviations().bounds
