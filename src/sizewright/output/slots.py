"""The places where readings are written: one a line, piece, instance and limit, the same on paper and in a table."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import NamedTuple

from sizewright.output.rows import Bound, Row

GAUGE_ANSWERS = ("accept", "reject")
CHECK = "check"
MOST_READINGS = 1_048_575  # the rows of a sheet in a spreadsheet, less its head
_NOTHING = Bound("", "", "")


class Slot(NamedTuple):
    """Room for one reading.

    `piece` and `instance` count from 1; the bounds are text, empty where missing. `tool` is the instrument where it is
    already known: that of a check before use, whose `bound` is named after the point (`zero`, `10.3`).
    """

    row: Row
    piece: int
    instance: int
    bound: Bound
    tool: str = ""

    @property
    def check(self) -> bool:
        """Whether it belongs to the check of an instrument before use, not to a part."""
        return self.row.number == CHECK

    @property
    def label(self) -> str:
        """Piece and instance, and the limit where a line has several: `2/3 pitch`."""
        return _label(self.piece, self.instance, self.bound, alone=len(_asked(self.row)) == 1)


def labels_of(row: Row) -> list[str]:
    """The labels of all readings that `row` asks for."""
    asked = _asked(row)
    pieces, instances = range(1, row.pieces + 1), range(1, row.readings_per_piece + 1)
    return [_label(p, i, bound, alone=len(asked) == 1) for p in pieces for i in instances for bound in asked]


def _label(piece: int, instance: int, bound: Bound, *, alone: bool) -> str:
    return f"{piece}/{instance}" if alone else f"{piece}/{instance} {bound.of.removesuffix(' diameter')}"


def slots_of(rows: Iterable[Row]) -> Iterator[Slot]:
    """All the readings that `rows` ask for, each on its own number of pieces, piece by piece within a row."""
    for row in rows:
        for piece in range(1, row.pieces + 1):
            for instance in range(1, row.readings_per_piece + 1):
                for bound in _asked(row):
                    yield Slot(row, piece, instance, bound)


def slot_count(row: Row) -> int:
    """How many readings a row asks for in all, without making them."""
    return row.pieces * row.readings_per_piece * len(_asked(row))


def _asked(row: Row) -> tuple[Bound, ...]:
    """The limits that get a reading each.

    A gauge answers for all the limits of a thread at once. Where the side is not told, a reading cannot be held against
    either side's limits, so it is recorded without any.
    """
    if row.either or row.standing or not row.limits:
        return (_NOTHING,)
    if row.by_gauge and len(row.limits) > 1:
        return (_NOTHING,)
    return row.limits
