"""A plan as an XLSX workbook: the plan, a table for its readings with live verdicts, and what to know before."""

from __future__ import annotations

import io
from collections.abc import Iterator
from datetime import UTC, datetime

from openpyxl import Workbook
from openpyxl.worksheet.worksheet import Worksheet

from sizewright.output.check_slots import check_slots
from sizewright.output.columns import Column, plan_columns
from sizewright.output.front import (
    fault_words,
    heading,
    instrument_rows,
    methods,
    remarks,
    sampling_sentences,
    title_block,
    unread_words,
)
from sizewright.output.rows import Row, rows_of
from sizewright.output.safe import one_line, visible
from sizewright.output.slots import MOST_READINGS, slot_count, slots_of
from sizewright.output.xlsx_cells import PAPERS, add_rows, add_styles, set_up_page
from sizewright.output.xlsx_readings import add_readings
from sizewright.plan.model import Plan
from sizewright.text.errors import InputError


def plan_xlsx(plan: Plan, paper: str = "A4") -> bytes:
    """The plan as the bytes of an XLSX file, set up for printing on `paper`, A4 or Letter.

    Raises:
        InputError: the paper is neither.
    """
    if paper not in PAPERS:
        raise InputError(f"paper {one_line(paper)} is unknown; {' and '.join(PAPERS)} are there")
    workbook, rows = Workbook(), rows_of(plan)
    asked = sum(map(slot_count, rows))
    if asked > MOST_READINGS:
        raise InputError(f"{asked} readings are more than a sheet of XLSX holds; a sampling rule asks for fewer")
    add_styles(workbook)
    sheet: Worksheet = workbook.worksheets[0]
    sheet.title = "plan"
    last = add_rows(sheet, plan_columns(), rows)
    sheet.auto_filter.ref = f"A1:{sheet.cell(last, sheet.max_column).coordinate}"
    readings: Worksheet = workbook.create_sheet("readings")
    add_readings(readings, (*check_slots(plan), *slots_of(rows)))
    notes: Worksheet = workbook.create_sheet("notes")
    _notes(notes, plan, rows)
    for each, freeze in ((sheet, "B2"), (readings, "B2"), (notes, "A2")):
        set_up_page(each, heading(plan), paper, freeze)
    set_properties(workbook, plan, f"Inspection plan: {heading(plan)}")
    stream = io.BytesIO()
    workbook.save(stream)
    return stream.getvalue()


def _notes(sheet: Worksheet, plan: Plan, rows: tuple[Row, ...]) -> None:
    columns: tuple[Column[tuple[str, str]], ...] = (
        Column("about", lambda entry: entry[0], width=16),
        Column("text", lambda entry: entry[1], width=120),
    )
    add_rows(sheet, columns, _about(plan, rows))


def _about(plan: Plan, rows: tuple[Row, ...]) -> Iterator[tuple[str, str]]:
    yield from title_block(plan)
    if incomplete := unread_words(rows):
        yield "incomplete", incomplete
    yield from (("sampling", sentence) for sentence in sampling_sentences(plan))
    yield from (("fault", fault_words(fault)) for fault in plan.faults)
    yield from (("caution", visible(caution)) for caution in plan.cautions)
    yield from (("remark", note.sentence()) for note in remarks(rows))
    yield from (("method", note.sentence()) for note in methods(rows))
    yield from (("instrument", each.sentence()) for each in instrument_rows(plan))


def set_properties(workbook: Workbook, plan: Plan, title: str) -> None:
    """Title and dates; the author is who the sheet names, never the account that runs the program."""
    properties = workbook.properties
    properties.title = title[:255]
    properties.creator = properties.lastModifiedBy = one_line(plan.title.get("made by", ""))[:255]
    properties.created = properties.modified = datetime.now(UTC).replace(tzinfo=None, microsecond=0)
    workbook.calculation.fullCalcOnLoad = True  # the file holds no computed verdicts
