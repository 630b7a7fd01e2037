"""The rows of a workbook that people filled in: what they typed, and what their formulas last came to."""

from __future__ import annotations

from datetime import date, datetime, time, timedelta
from decimal import Decimal
from pathlib import Path
from typing import Any

from sizewright.sheet.rows import Cell, TableRow
from sizewright.sheet.xlsx_rows import worksheet_rows

_FORMULA = "the cell holds a formula that no program has computed yet; open and save it in a spreadsheet"


def filled_rows(path: Path, worksheet: str, *, cut: bool = False) -> list[TableRow]:
    """The rows of a worksheet; only where it holds formulas it is read again for what they last came to.

    With `cut` every number is cut to the 15 figures that a spreadsheet keeps: one may be pasted from a sum.

    Raises:
        InputError: the file is no workbook that can be read.
    """
    rows = worksheet_rows(path, worksheet, _computed_cell if cut else _cell)
    if not any(cell.problem == _FORMULA for row in rows for cell in row.cells):
        return rows
    values = worksheet_rows(path, worksheet, _computed_cell, computed=True)
    return [_with_computed(row, values[index]) if index < len(values) else row for index, row in enumerate(rows)]


def _with_computed(row: TableRow, values: TableRow) -> TableRow:
    cells = [
        values.cell(index) if cell.problem == _FORMULA and values.cell(index).filled else cell
        for index, cell in enumerate(row.cells)
    ]
    return TableRow(row.number, tuple(cells))


def _cell(cell: Any, number: int, *, computed: bool = False) -> Cell:
    value = cell.value
    if value is None:
        return Cell("", number)
    if cell.data_type == "f":
        return Cell(str(value), number, problem=_FORMULA)
    if cell.data_type == "e":
        return Cell(str(value), number, problem=f"the cell holds an error of the spreadsheet: {value}")
    if isinstance(value, date | time | timedelta):
        shown = value.isoformat(" ") if isinstance(value, datetime) else str(value)
        return Cell(shown, number, problem="the spreadsheet took the cell for a date or a time")
    if isinstance(value, bool):
        return Cell(str(value).upper(), number, problem="the cell holds a truth value")
    if isinstance(value, int | float):
        return Cell(_shortest(value, computed), number)
    return Cell(str(value).replace("_x000D_", "").replace("\r\n", "\n").replace("\r", "\n"), number)


def _computed_cell(cell: Any, number: int) -> Cell:
    return _cell(cell, number, computed=True)


def _shortest(value: float, computed: bool) -> str:
    """The shortest decimal that is this number: what was typed. A computed one is cut to the 15 figures that a
    spreadsheet keeps, so that the noise of binary arithmetic (0.1+0.2) is gone."""
    text = format(value, ".15g") if computed else repr(value)
    return format(Decimal(text), "f").removesuffix(".0")
