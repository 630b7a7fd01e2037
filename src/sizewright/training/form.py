"""Reading a filled form: every cell by its head, with its address, so that a mark can say where it stands."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date, time, timedelta
from decimal import Decimal
from pathlib import Path
from typing import Any, NamedTuple

from sizewright.sheet.csv_rows import csv_rows
from sizewright.sheet.files import file_text
from sizewright.sheet.rows import Cell, TableRow, heading
from sizewright.sheet.xlsx_rows import worksheet_rows
from sizewright.text.cells import unguard
from sizewright.text.errors import InputError

ANSWERS = "answers"
NAME_WORD, LINES_WORD = "name", "lines"
VERDICTS = ("accept", "reject", "undecided", "no verdict")
_NEEDED = frozenset({"line", "lower limit", "upper limit", "verdict"})
_READING = re.compile(r"reading (\d{1,6})/(\d{1,6})", re.ASCII)
_FORMULA = "the cell holds a formula that no program has computed"


class FormCell(NamedTuple):
    """What stands in a cell, where (`D7`), and why it cannot be used, if it cannot."""

    text: str
    address: str
    problem: str = ""

    @property
    def blank(self) -> bool:
        """Whether nothing stands in it."""
        return not self.text and not self.problem


class FormRow(NamedTuple):
    """One row: the line, what is bounded, its cells by head and its readings by piece and place."""

    line: str
    of: str
    address: str
    cells: Mapping[str, FormCell]
    readings: Mapping[tuple[int, int], FormCell]

    def cell(self, head: str) -> FormCell:
        """The cell under `head`; a blank one where the form has no such column."""
        return self.cells.get(head) or FormCell("", self.address)


@dataclass(frozen=True, slots=True)
class Form:
    """A filled form. `asked` are the numbers of the lines that it says it asks; `heads` are its columns."""

    source: Path
    trainee: str
    asked: tuple[str, ...]
    heads: tuple[str, ...]
    rows: tuple[FormRow, ...]
    remarks: tuple[str, ...] = field(default=())


def read_form(path: Path) -> Form:
    """The form in `path`, XLSX or CSV.

    Raises:
        InputError: the file cannot be used, or has no row of heads.
    """
    ending = path.suffix.lower()
    if ending not in (".xlsx", ".csv"):
        raise InputError(f"{path.name}: answers are read from .xlsx and .csv")
    rows, remarks = _xlsx(path) if ending == ".xlsx" else _csv(path)
    free = str if ending == ".xlsx" else unguard
    at = next((place for place, row in enumerate(rows) if set(map(heading, row.cells)) >= _NEEDED), None)
    if at is None:
        raise InputError(f"{path.name} has no row with the heads {', '.join(sorted(_NEEDED))}: it is no filled form")
    heads = tuple(heading(cell) for cell in rows[at].cells)
    trainee, asked = _front(rows[:at])
    made = [_row(row, heads, free) for row in rows[at + 1 :] if row.filled]
    nameless = [row.address for row in made if not row.line]
    said = [f"row {address}: it names no line and is not marked" for address in nameless]
    return Form(path, trainee, asked, heads, tuple(row for row in made if row.line), (*remarks, *said))


def _front(rows: list[TableRow]) -> tuple[str, tuple[str, ...]]:
    """The name and the lines asked, which stand above the heads."""
    found = {heading(row.cell(0)): row.cell(1).flat.strip() for row in rows}
    lines = tuple(each.strip() for each in found.get(LINES_WORD, "").split(",") if each.strip())
    return found.get(NAME_WORD, ""), lines


def _row(row: TableRow, heads: tuple[str, ...], free: Any) -> FormRow:
    cells: dict[str, FormCell] = {}
    readings: dict[tuple[int, int], FormCell] = {}
    for index, head in enumerate(heads):
        given = row.cell(index)
        cell = FormCell(free(given.flat).strip(), f"{_letters(index)}{row.number}", given.problem)
        found = _READING.fullmatch(head)
        if found:
            readings.setdefault((int(found[1]), int(found[2])), cell)
        elif head:
            cells.setdefault(head, cell)
    line = cells["line"].text
    of = cells["limits of"].text if "limits of" in cells else ""
    return FormRow(line, of, str(row.number), cells, readings)


def _letters(index: int) -> str:
    before, place = divmod(index, 26)
    return (_letters(before - 1) if before else "") + chr(ord("A") + place)


def _csv(path: Path) -> tuple[list[TableRow], tuple[str, ...]]:
    text, remarks = file_text(path)
    rows, faults = csv_rows(text, path, lambda row: len(_NEEDED & set(map(heading, row.cells))))
    said = [f"row {fault.line}: {fault.message}" for fault in faults]
    return list(rows), (*remarks, *said)


def _xlsx(path: Path) -> tuple[list[TableRow], tuple[str, ...]]:
    rows = worksheet_rows(path, ANSWERS, _cell)
    if any(cell.problem == _FORMULA for row in rows for cell in row.cells):
        values = worksheet_rows(path, ANSWERS, _cell, computed=True)
        rows = [_computed(row, values[place]) if place < len(values) else row for place, row in enumerate(rows)]
    return rows, ()


def _computed(row: TableRow, values: TableRow) -> TableRow:
    cells = [
        values.cell(place) if cell.problem == _FORMULA and values.cell(place).filled else cell
        for place, cell in enumerate(row.cells)
    ]
    return TableRow(row.number, tuple(cells))


def _cell(cell: Any, number: int) -> Cell:
    value = cell.value
    if value is None:
        return Cell("", number)
    if cell.data_type == "f":
        return Cell(str(value), number, problem=_FORMULA)
    if cell.data_type == "e":
        return Cell(str(value), number, problem=f"the cell holds an error of the spreadsheet: {value}")
    if isinstance(value, date | time | timedelta):
        return Cell(str(value), number, problem="the spreadsheet took the cell for a date or a time")
    if isinstance(value, bool):
        return Cell(str(value).upper(), number, problem="the cell holds a truth value")
    if isinstance(value, int | float):
        return Cell(format(Decimal(format(value, ".15g")), "f"), number)
    return Cell(str(value).replace("_x000D_", "").replace("\r\n", "\n").replace("\r", "\n"), number)
