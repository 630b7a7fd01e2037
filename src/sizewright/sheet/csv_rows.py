"""The rows of a CSV text."""

from __future__ import annotations

import csv
import re
from collections.abc import Callable
from pathlib import Path

from sizewright.sheet.files import MOST_CELLS, text_lines
from sizewright.sheet.model import Fault
from sizewright.sheet.rows import Cell, TableRow, headings
from sizewright.text.errors import InputError

_DELIMITERS = (",", ";", "\t")
_MOST_UNREAD = 100
# Some spreadsheets say on the first line what parts the cells.
_SAID = re.compile(r"sep=([,;\t])\n?")


def csv_rows(text: str, path: Path, known: Callable[[TableRow], int] = headings) -> tuple[list[TableRow], list[Fault]]:
    """The rows of `text`, and a fault for every line whose quotation marks do not pair.

    Cells are parted by what makes the header row name the most columns that are `known`. A line that does not read is
    passed over and reading goes on after it.

    Raises:
        InputError: there are too many lines or cells, or too many lines that do not read.
    """
    lines = [line + "\n" for line in text_lines(text, path)]
    if max(map(text.count, _DELIMITERS)) > MOST_CELLS:
        raise InputError(f"{path} has more than {MOST_CELLS} cells")
    said = _SAID.fullmatch(lines[0].strip(" "))
    if said:
        return _rows(lines, 1, said[1], path)
    tried = [_rows(lines, 0, delimiter, path) for delimiter in _DELIMITERS]
    return max(tried, key=lambda read: max(map(known, read[0]), default=0))


def _rows(lines: list[str], begin: int, delimiter: str, path: Path) -> tuple[list[TableRow], list[Fault]]:
    rows: list[TableRow] = []
    faults: list[Fault] = []
    while begin < len(lines):
        unread = _read_on(lines, begin, delimiter, rows)
        if unread is None:
            break
        message = "the quotation marks of this row do not pair"
        hint = 'a cell with a quotation mark in it stands in quotation marks, and the mark is doubled: ".25"" DIA"'
        typed = lines[unread].rstrip("\n")
        faults.append(Fault(unread + 1, 1, len(typed), message, typed, hint))
        if len(faults) > _MOST_UNREAD:
            raise InputError(
                f"{path} does not read as CSV: quotation marks do not pair in more than {_MOST_UNREAD} rows"
            )
        begin = unread + 1
    return rows, faults


def _read_on(lines: list[str], begin: int, delimiter: str, rows: list[TableRow]) -> int | None:
    """Add the rows from `begin` on to `rows`; the index of the line that does not read, or None at the end."""
    reader = csv.reader(lines[begin:], delimiter=delimiter, strict=True)
    at = begin
    try:
        for cells in reader:
            rows.append(_row(cells, at + 1))
            at = begin + reader.line_num
    except csv.Error:
        return at
    return None


def _row(cells: list[str], number: int) -> TableRow:
    placed: list[Cell] = []
    line = number
    for text in cells:
        placed.append(Cell(text, line, tall=True))
        line += text.count("\n")
    return TableRow(number, tuple(placed))
