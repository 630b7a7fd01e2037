"""The columns of a report as flat tables: one row a line, and one row a reading; for CSV and XLSX alike."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from decimal import Decimal
from fractions import Fraction
from typing import NamedTuple

from sizewright.judge.model import Reading, Statistics
from sizewright.output.columns import Column, limits_text
from sizewright.output.report_rows import ReportRow, Taken, said
from sizewright.output.report_tables import reading_notes
from sizewright.output.rows import Bound, bounds_of
from sizewright.output.safe import visible
from sizewright.resolve.characteristic import Limits
from sizewright.resolve.describe import unit_shown
from sizewright.text.numbers import Number, plain


class ReadingRow(NamedTuple):
    """One reading of a line, judged (`taken`) or replaced by a later one (`replaced`); neither: a line without any."""

    row: ReportRow
    taken: Taken | None = None
    replaced: Reading | None = None

    @property
    def reading(self) -> Reading | None:
        """The reading itself."""
        return self.taken.outcome.reading if self.taken else self.replaced

    @property
    def bound(self) -> Bound:
        """The limits that the reading was held against, a bonus included."""
        return _bound(self.taken.outcome.limits if self.taken else None)

    @property
    def zone(self) -> Bound:
        """The zone in which the rule accepts it."""
        return _bound(self.taken.outcome.acceptance if self.taken else None)


def _bound(limits: Limits | None) -> Bound:
    return bounds_of((limits,))[0] if limits else Bound("", "", "")


def reading_rows(rows: Sequence[ReportRow], whole: bool = False) -> Iterator[ReadingRow]:
    """The judged readings, row by row; the `whole` table has replaced readings and lines without readings too."""
    for row in rows:
        yield from (ReadingRow(row, taken) for taken in row.readings)
        if whole:
            yield from (ReadingRow(row, None, reading) for reading in row.judged.corrected)
            if not row.readings and not row.judged.corrected:
                yield ReadingRow(row)


def exact_value(item: ReadingRow) -> str:
    """The value as a number in plain notation, a gauge's answer, or what was typed."""
    reading = item.reading
    if reading is None:
        return ""
    if reading.value is not None:
        return plain(reading.value)
    return reading.answer or visible(reading.typed)


LINE_COLUMNS: tuple[Column[ReportRow], ...] = (
    Column("balloon", lambda row: row.number, width=8),
    Column("zone", lambda row: visible(row.judged.line.zone), width=6),
    Column("view", lambda row: visible(row.judged.line.view), width=10),
    Column("class", lambda row: visible(row.judged.line.class_ or ""), width=8),
    Column("callout", lambda row: row.requirement, width=24),
    Column("characteristic", lambda row: row.characteristic, width=22),
    Column("lower limit", lambda row: limits_text(row.limits, lambda bound: bound.lower), True, 13),
    Column("upper limit", lambda row: limits_text(row.limits, lambda bound: bound.upper), True, 13),
    Column("unit", lambda row: row.unit, width=6),
    Column("accepted from", lambda row: limits_text(row.acceptance, lambda bound: bound.lower), True, 13),
    Column("accepted to", lambda row: limits_text(row.acceptance, lambda bound: bound.upper), True, 13),
    Column("readings", lambda row: str(len(row.readings)) if row.judged.asked else "", True, 9),
    Column("missing", lambda row: str(row.judged.missing) if row.judged.missing else "", True, 9),
    Column("least", lambda row: _statistics(row, lambda each: _exact(each.least)), True, 13),
    Column("greatest", lambda row: _statistics(row, lambda each: _exact(each.greatest)), True, 13),
    Column("mean", lambda row: _statistics(row, lambda each: plain(each.mean)), True, 13),
    Column("standard deviation", lambda row: _statistics(row, lambda each: _optional(each.spread)), True, 12),
    Column("Cp", lambda row: _capability(row, "cp"), True, 8),
    Column("Cpk", lambda row: _capability(row, "cpk"), True, 8),
    Column("Cpk at least (95 %)", lambda row: _capability(row, "cpk_lower"), True, 10),
    Column("Cpk at most (95 %)", lambda row: _capability(row, "cpk_upper"), True, 10),
    Column("meaning", lambda row: _capability(row, "meaning"), width=24),
    Column("consumer's risk", lambda row: _risk(row, "consumer"), True, 11),
    Column("producer's risk", lambda row: _risk(row, "producer"), True, 11),
    Column("out among accepted", lambda row: _risk(row, "out_among_accepted"), True, 11),
    Column("process spread", lambda row: _risk(row, "process"), width=20),
    Column("expanded uncertainty", lambda row: row.uncertainty, width=12),
    Column("instrument", lambda row: row.instruments, width=20),
    Column("verdict", lambda row: row.judged.standing, width=12),
    Column("why", lambda row: row.why, width=30),
)


def _statistics(row: ReportRow, get: Callable[[Statistics], str]) -> str:
    """A lone figure as it is; several each on a line of its own, named. Nothing where none has it."""
    found = [(visible(each.of), get(each)) for each in row.judged.statistics]
    if not any(text for _, text in found):
        return ""
    return found[0][1] if len(found) == 1 else "\n".join(f"{of}: {text or 'none'}" for of, text in found)


def _exact(value: Number) -> str:
    return said(value) if isinstance(value, Fraction) else plain(value)


def _optional(value: Decimal | None) -> str:
    return "" if value is None else plain(value)


def _capability(row: ReportRow, name: str) -> str:
    return _statistics(row, lambda each: _figure(getattr(each.capability, name, None)))


def _risk(row: ReportRow, name: str) -> str:
    return _statistics(row, lambda each: _figure(getattr(each.risk, name, None)))


def _figure(value: object) -> str:
    return plain(value) if isinstance(value, Decimal) else visible(str(value or ""))


LIVE = "by simple acceptance"  # the head of the column in which a spreadsheet computes
READING_COLUMNS: tuple[Column[ReadingRow], ...] = (
    Column("balloon", lambda item: item.row.number, width=9),
    Column("callout", lambda item: item.row.requirement, width=24),
    Column("limits of", lambda item: _of(item), width=15),
    Column("piece", lambda item: str(item.reading.piece) if item.reading else "", True, 7),
    Column("instance", lambda item: str(item.reading.instance) if item.reading else "", True, 9),
    Column("lower limit", lambda item: item.bound.lower, True, 13),
    Column("upper limit", lambda item: item.bound.upper, True, 13),
    Column("unit", lambda item: item.row.unit, width=6),
    Column("value", exact_value, True, 14),
    Column("as typed", lambda item: visible(item.reading.typed) if item.reading else "", width=14),
    Column("typed in", lambda item: unit_shown(item.replaced.unit) if item.replaced else "", width=8),
    Column("accepted from", lambda item: item.zone.lower, True, 13),
    Column("accepted to", lambda item: item.zone.upper, True, 13),
    Column("verdict", lambda item: _verdict(item), width=12),
    Column("probability within limits", lambda item: _conformance(item), True, 12),
    Column("bonus", lambda item: _bonus(item), True, 9),
    Column("notes", lambda item: _notes(item), width=34),
    Column("instrument", lambda item: visible(item.reading.instrument) if item.reading else "", width=20),
    Column("by", lambda item: visible(item.reading.by) if item.reading else "", width=12),
    Column("when", lambda item: visible(item.reading.when) if item.reading else "", width=16),
    Column("where it stands", lambda item: visible(item.reading.place) if item.reading else "", width=18),
    Column("verdict on the line", lambda item: item.row.judged.standing, width=12),
)


def _of(item: ReadingRow) -> str:
    reading = item.reading
    return "" if reading is None else visible(reading.of or (item.taken.outcome.limits.of if item.taken else ""))


def _verdict(item: ReadingRow) -> str:
    if item.taken:
        return item.taken.verdict
    return "replaced" if item.replaced else ""


def _conformance(item: ReadingRow) -> str:
    found = item.taken.outcome.conformance if item.taken else None
    return "" if found is None else plain(found)


def _bonus(item: ReadingRow) -> str:
    found = item.taken.outcome.bonus if item.taken else None
    return "" if found is None else plain(found)


def _notes(item: ReadingRow) -> str:
    if item.taken:
        return reading_notes(item.taken)
    return visible(item.replaced.note) if item.replaced else item.row.why
