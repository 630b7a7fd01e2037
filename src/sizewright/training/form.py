"""Reading a filled form: every cell by its head, with its address, so that a mark can say where it stands."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any, NamedTuple

from sizewright.sheet.csv_rows import csv_rows
from sizewright.sheet.files import file_text
from sizewright.sheet.filled_rows import filled_rows
from sizewright.sheet.rows import TableRow, heading
from sizewright.text.cells import unguard
from sizewright.text.errors import InputError

ANSWERS = "answers"
NAME_WORD, LINES_WORD = "name", "lines"
VERDICTS = ("accept", "reject", "undecided", "no verdict")
_NEEDED = frozenset({"line", "lower limit", "upper limit", "verdict"})
_READING = re.compile(r"reading (\d{1,6})/(\d{1,6})", re.ASCII)


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
    rows, remarks = (filled_rows(path, ANSWERS, cut=True), ()) if ending == ".xlsx" else _csv(path)
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
