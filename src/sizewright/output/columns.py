"""The columns of a plan as a flat table, and of the table in which readings are typed: for CSV and XLSX alike."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass
from typing import Generic, TypeVar

from sizewright.output.rows import Bound, Row, readings_words
from sizewright.output.slots import Slot

Item = TypeVar("Item")
_NUMBER = re.compile(r"-?\d+(\.\d+)?")


@dataclass(frozen=True, slots=True)
class Column(Generic[Item]):
    """One column: its head, how to get its text, whether a number in it may be a number, its width in characters.

    `fill` marks the columns that the plan leaves empty for the person who measures.
    """

    head: str
    text: Callable[[Item], str]
    number: bool = False
    width: int = 12
    fill: bool = False


def is_number(text: str) -> bool:
    """Whether `text` is a number in plain decimal notation."""
    return _NUMBER.fullmatch(text) is not None


def plan_columns() -> tuple[Column[Row], ...]:
    """The columns of the table with one row a line."""
    return (
        Column("balloon", lambda row: row.number, width=8),
        Column("zone", lambda row: row.zone, width=6),
        Column("view", lambda row: row.view, width=10),
        Column("class", lambda row: row.class_, width=8),
        Column("callout", lambda row: row.requirement, width=24),
        Column("characteristic", lambda row: row.characteristic, width=22),
        Column("standing", lambda row: row.standing, width=20),
        Column("lower limit", lambda row: limits_text(row.limits, _lower), True, 13),
        Column("upper limit", lambda row: limits_text(row.limits, _upper), True, 13),
        Column("unit", lambda row: row.unit, width=6),
        Column("aim", lambda row: row.aim, True, 11),
        Column("instrument", lambda row: row.instrument, width=20),
        Column("resolution asked", lambda row: row.resolution, width=11),
        Column("readings", lambda row: readings_words(row), width=10),
        Column("other lower limit", lambda row: limits_text(row.other_limits, _lower), True, 13),
        Column("other upper limit", lambda row: limits_text(row.other_limits, _upper), True, 13),
        Column("other unit", lambda row: row.other_unit, width=6),
        Column("why", lambda row: row.why, width=22),
        Column("notes", lambda row: "\n".join((*row.notes, *filter(None, (row.method,)))), width=34),
        Column("sample", lambda row: row.sample, width=28),
    )


READING_COLUMNS: tuple[Column[Slot], ...] = (
    Column("balloon", lambda slot: slot.row.number, width=9),
    Column("callout", lambda slot: slot.row.requirement, width=26),
    Column("limits of", lambda slot: slot.bound.of, width=15),
    Column("piece", lambda slot: "" if slot.check else str(slot.piece), True, 7),
    Column("instance", lambda slot: "" if slot.check else str(slot.instance), True, 9),
    Column("lower limit", lambda slot: slot.bound.lower, True, 13),
    Column("upper limit", lambda slot: slot.bound.upper, True, 13),
    Column("unit", lambda slot: slot.row.unit, width=6),
    Column("suggested instrument", lambda slot: slot.row.instrument, width=22),
    Column("value", lambda _: "", True, 13, fill=True),
    Column("instrument", lambda slot: slot.tool, width=18, fill=True),
    Column("by", lambda _: "", width=10, fill=True),
    Column("when", lambda _: "", width=12, fill=True),
)


def _lower(bound: Bound) -> str:
    return bound.lower


def _upper(bound: Bound) -> str:
    return bound.upper


def limits_text(bounds: tuple[Bound, ...], which: Callable[[Bound], str]) -> str:
    """A lone limit as it is; several each on a line of its own, named."""
    if len(bounds) == 1 and not bounds[0].side:
        return which(bounds[0])
    return "\n".join(f"{bound.label}: {which(bound) or 'none'}" for bound in bounds)
