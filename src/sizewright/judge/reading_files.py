"""Files of readings: the plan's own XLSX and CSV, the log that `take` writes, and other programs' tables."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from typing import NamedTuple

from sizewright.judge.model import CheckReading, Reading, Unreadable
from sizewright.judge.reading_log import HEADS
from sizewright.judge.reading_rows import RowReader
from sizewright.judge.tables import FIELDS, ReadingRow, Table, read_table
from sizewright.plan.model import Plan

_UNFINISHED = "the row is not finished: it was cut off while it was written; measure it again"
_NO_END = "the row is not finished: it has no end"


class Readings(NamedTuple):
    """The readings of one file, in its order; a later one of the same place replaces the earlier for judging.

    `undone` are those that a later row took back: they count for nothing and are kept.
    """

    readings: tuple[Reading, ...]
    checks: tuple[CheckReading, ...] = ()
    unreadable: tuple[Unreadable, ...] = ()
    remarks: tuple[str, ...] = ()
    undone: tuple[Reading | CheckReading, ...] = ()


def read_readings(path: Path, plan: Plan, columns: Mapping[str, str] | None = None) -> Readings:
    """The readings of `plan` in the file `path`; `columns` gives another program's heads by our column names.

    What does not read is in `unreadable`, with its place and the reason.

    Raises:
        InputError: the file cannot be used, or its header does not name the columns that are needed.
    """
    table = read_table(path, columns)
    known = {name: True for name in FIELDS if any(name in row.cells for row in table.rows)}
    reader = RowReader(plan, known)
    for row in table.rows:
        why = _cut_off(table, row)
        if why:
            reader.unreadable.append(Unreadable(row.place, row.text, why))
        else:
            reader.take(row)
    unreadable = (*table.unreadable, *reader.unreadable)
    remarks = (*table.remarks, *reader.remarks())
    return Readings(tuple(reader.readings), tuple(reader.checks), unreadable, remarks, tuple(reader.undone))


def _cut_off(table: Table, row: ReadingRow) -> str:
    """Why a row is not whole, or an empty text.

    The log's rows are whole or were never accepted. Other programs may leave the last line without its end: there only
    missing cells tell.
    """
    short = row.width < len(table.heads)
    if table.heads[: len(HEADS)] == HEADS:
        if row.unheaded or short:
            return _UNFINISHED
        return _NO_END if row.number == table.torn else ""
    return _NO_END if row.number == table.torn and short else ""
