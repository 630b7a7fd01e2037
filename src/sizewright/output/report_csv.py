"""A judged plan as CSV, one row a reading: judged, replaced, missing from a line altogether, or unreadable."""

from __future__ import annotations

from collections.abc import Callable

from sizewright.judge.model import Judgement, Unreadable
from sizewright.output.columns import Column
from sizewright.output.csvfile import csv_table
from sizewright.output.report_columns import READING_COLUMNS, ReadingRow, reading_rows
from sizewright.output.report_rows import report_rows
from sizewright.output.safe import visible

_UNREADABLE: dict[str, Callable[[Unreadable], str]] = {
    "as typed": lambda each: visible(each.text),
    "verdict": lambda _: "unreadable",
    "notes": lambda each: visible(each.why),
    "where it stands": lambda each: visible(each.place),
}


def report_csv(judgement: Judgement) -> bytes:
    """The readings with their verdicts, in the form of CSV that `csvfile` writes for plans."""
    items: list[ReadingRow | Unreadable] = list(reading_rows(report_rows(judgement), whole=True))
    return csv_table([_either(column) for column in READING_COLUMNS], items + list(judgement.unreadable))


def _either(column: Column[ReadingRow]) -> Column[ReadingRow | Unreadable]:
    """The same column for rows that could not be read too."""
    unread = _UNREADABLE.get(column.head)

    def text(item: ReadingRow | Unreadable) -> str:
        if isinstance(item, Unreadable):
            return unread(item) if unread else ""
        return column.text(item)

    return Column(column.head, text, column.number)
