"""General tolerances after ISO 2768-1: linear sizes, broken edges, angles. All lengths in mm."""

from collections.abc import Callable
from decimal import Decimal
from fractions import Fraction
from functools import cache
from typing import NamedTuple, TypeVar

from sizewright.standards.errors import NotDefined
from sizewright.standards.tables import rows

CLASSES = {"f": "fine", "m": "medium", "c": "coarse", "v": "very coarse"}
GEOMETRIC_CLASSES = ("H", "K", "L")

_LEAST = Decimal("0.5")
_T = TypeVar("_T", Decimal, Fraction)


class Step(NamedTuple):
    """One step of a table: sizes over `over` up to and with `to` (None: without end), and the deviation ±."""

    over: Decimal
    to: Decimal | None
    deviation: str

    def takes(self, size: Decimal | Fraction) -> bool:
        """Whether a size lies in this step; the first step of Tables 1 and 2 takes its own lower bound in."""
        first = self.over == _LEAST
        return (size >= self.over if first else size > self.over) and (self.to is None or size <= self.to)

    @property
    def words(self) -> str:
        """The step in words, `over 6 up to 30 mm`."""
        start = f"{self.over} up to" if self.over == _LEAST else f"over {self.over} up to"
        return f"over {self.over} mm" if self.to is None else f"{start} {self.to} mm"


@cache
def steps(table: str, class_: str) -> tuple[Step, ...]:
    """The steps of table `iso2768_linear`, `iso2768_radii_chamfers` or `iso2768_angular` for class f, m, c or v."""
    column = "plus_minus_arcmin" if table == "iso2768_angular" else "plus_minus_mm"
    return tuple(
        Step(Decimal(row["over_mm"]), Decimal(row["to_mm"]) if row["to_mm"] else None, row[column])
        for row in rows(table)
        if row["class"] == class_
    )


def linear(size: Decimal | Fraction, class_: str) -> tuple[Decimal, Step]:
    """The deviation ± of a linear size, in mm, and its step (ISO 2768-1, Table 1).

    Raises:
        NotDefined: the standard gives no value for this size and class.
    """
    return _find("iso2768_linear", size, class_, Decimal)


def broken_edge(size: Decimal | Fraction, class_: str) -> tuple[Decimal, Step]:
    """The deviation ± of an external radius or a chamfer height, in mm, and its step (ISO 2768-1, Table 2).

    Raises:
        NotDefined: the standard gives no value below 0.5 mm.
    """
    return _find("iso2768_radii_chamfers", size, class_, Decimal)


def angular(shorter_side: Decimal | Fraction, class_: str) -> tuple[Fraction, Step]:
    """The deviation ± of an angle, in degrees, by the length in mm of its shorter side (ISO 2768-1, Table 3).

    Raises:
        NotDefined: the shorter side is not longer than 0.
    """
    return _find("iso2768_angular", shorter_side, class_, lambda minutes: Fraction(minutes) / 60)


def _find(table: str, size: Decimal | Fraction, class_: str, number: Callable[[str], _T]) -> tuple[_T, Step]:
    ladder = steps(table, class_)
    step = next((step for step in ladder if step.takes(size)), None)
    if step is not None and step.deviation:
        return number(step.deviation), step
    if size <= ladder[0].over and step is None:
        raise NotDefined(f"ISO 2768-1 gives nothing below {ladder[0].over} mm: the deviation stands beside the size")
    if step is None:
        raise NotDefined(f"ISO 2768-1 gives nothing above {ladder[-1].to} mm")
    raise NotDefined(f"ISO 2768-1 class {class_} gives nothing {step.words}")
