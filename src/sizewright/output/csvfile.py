"""A plan, or the table for its readings, as CSV (UTF-8 with a byte-order mark, so that spreadsheets read Ø).

CSV has no text cells. Text that a spreadsheet would compute (`=1+1`, `@x`, `+0.1`) gets one apostrophe in front;
`read_rows` takes it off again. Numbers stand as they are, a negative limit too. A spreadsheet that opens the file may
still drop trailing zeros (balloon 2.10 becomes 2.1): where that matters, the XLSX form keeps them.
"""

from __future__ import annotations

import csv
import io
from collections.abc import Iterable, Sequence
from itertools import chain

from sizewright.output.check_slots import check_slots
from sizewright.output.columns import READING_COLUMNS, Column, Item, is_number, plan_columns
from sizewright.output.rows import rows_of
from sizewright.output.safe import guard, unguard
from sizewright.output.slots import MOST_READINGS, slot_count, slots_of
from sizewright.plan.model import Plan
from sizewright.text.errors import InputError


def plan_csv(plan: Plan) -> bytes:
    """The plan's lines, one row a line."""
    return csv_table(plan_columns(), rows_of(plan))


def readings_csv(plan: Plan) -> bytes:
    """The readings to take, one row each, with empty columns for value, instrument, by and when.

    The checks of the instruments before use stand first.

    Raises:
        InputError: there are more readings than a spreadsheet opens.
    """
    rows = rows_of(plan)
    asked = sum(map(slot_count, rows))
    if asked > MOST_READINGS:
        raise InputError(f"{asked} readings are more than a spreadsheet opens; a sampling rule asks for fewer")
    return csv_table(READING_COLUMNS, chain(check_slots(plan), slots_of(rows)))


def read_rows(data: bytes) -> list[dict[str, str]]:
    """The rows of a file that this module wrote, by column head, without the apostrophes it added."""
    text = io.StringIO(data.decode("utf-8-sig"), newline="")
    return [{head: unguard(cell) for head, cell in row.items()} for row in csv.DictReader(text)]


def csv_table(columns: Sequence[Column[Item]], items: Iterable[Item]) -> bytes:
    """A head, and a row for each of `items`."""
    text = io.StringIO(newline="")
    writer = csv.writer(text)
    writer.writerow(column.head for column in columns)
    for item in items:
        writer.writerow(_cell(column, column.text(item)) for column in columns)
    return text.getvalue().encode("utf-8-sig")


def _cell(column: Column[Item], text: str) -> str:
    return text if column.number and is_number(text) else guard(text)
