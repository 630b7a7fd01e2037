"""The rows of an XLSX workbook's worksheet."""

from __future__ import annotations

import io
import re
import warnings
import zipfile
from collections.abc import Callable, Iterator
from datetime import date, time, timedelta
from decimal import Decimal
from pathlib import Path
from typing import Any

from sizewright.sheet.files import MOST_CELLS, MOST_LINES, file_bytes
from sizewright.sheet.rows import Cell, TableRow
from sizewright.text.errors import InputError

_MOST_UNPACKED = 60_000_000
_MOST_PARTS = 2000
_PLACES = re.compile(r"0(?:\.(0+))?")
_AS_TEXT = "make the cell text, and type it again"


def xlsx_rows(path: Path) -> list[TableRow]:
    """The rows of the worksheet named callouts, or else of the first one.

    Raises:
        InputError: the file cannot be used, unpacks to far more than a sheet needs, is no workbook, or has too many
            rows.
    """
    return worksheet_rows(path, "callouts", _cell)


def worksheet_rows(
    path: Path, name: str, cell_of: Callable[[Any, int], Cell], *, computed: bool = False
) -> list[TableRow]:
    """The rows of the worksheet called `name`, or else of the first one; `cell_of` takes a cell and its row's number.

    With `computed` a cell holds what the spreadsheet last computed for it, otherwise its formula.

    Raises:
        InputError: as `xlsx_rows`.
    """
    data = file_bytes(path)
    _check_sizes(data, path)
    try:
        rows = _worksheet_rows(data, name, cell_of, computed)
    except _TooLargeError as error:
        raise InputError(f"{path} has more than {error}") from None
    except Exception:  # a damaged workbook makes its reader raise nearly anything
        raise InputError(f"{path} does not read as an XLSX workbook") from None
    return rows


class _TooLargeError(Exception):
    """The worksheet has more rows or cells than a sheet can have; the text says which."""


def _check_sizes(data: bytes, path: Path) -> None:
    try:
        with zipfile.ZipFile(io.BytesIO(data)) as archive:
            parts = archive.infolist()
    except Exception:  # the same for a damaged archive
        raise InputError(f"{path} is no XLSX workbook") from None
    if len(parts) > _MOST_PARTS or sum(part.file_size for part in parts) > _MOST_UNPACKED:
        raise InputError(f"{path} unpacks to more than {_MOST_UNPACKED // 1_000_000} MB and is not opened")


def _worksheet_rows(data: bytes, name: str, cell_of: Callable[[Any, int], Cell], computed: bool) -> list[TableRow]:
    import openpyxl

    with warnings.catch_warnings():
        warnings.simplefilter("ignore")  # they tell of looks that the reader leaves out
        book = openpyxl.load_workbook(io.BytesIO(data), read_only=True, data_only=computed)
        try:
            named = [each for each in book.worksheets if each.title.strip().lower() == name]
            worksheet: Any = (named or book.worksheets)[0]
            worksheet.reset_dimensions()
            return _rows(worksheet.iter_rows(), cell_of)
        finally:
            book.close()


def _rows(worksheet_rows: Iterator[tuple[Any, ...]], cell_of: Callable[[Any, int], Cell]) -> list[TableRow]:
    rows: list[TableRow] = []
    cells = 0
    for number, row in enumerate(worksheet_rows, 1):
        cells += len(row)
        if number > MOST_LINES or cells > MOST_CELLS:
            raise _TooLargeError(f"{MOST_LINES} rows" if number > MOST_LINES else f"{MOST_CELLS} cells")
        rows.append(TableRow(number, tuple(cell_of(cell, number) for cell in row)))
    return rows


def _cell(cell: Any, number: int) -> Cell:
    value = cell.value
    if value is None:
        return Cell("", number)
    if cell.data_type == "f":
        return Cell(str(value), number, problem="the cell holds a formula", hint="type its value instead")
    if cell.data_type == "e":
        return Cell(str(value), number, problem="the cell holds an error of the spreadsheet", hint="type its value")
    if isinstance(value, date | time | timedelta):
        return Cell(str(value), number, problem="the spreadsheet took the cell for a date or a time", hint=_AS_TEXT)
    if isinstance(value, bool):
        return Cell(str(value).upper(), number, problem="the cell holds a truth value", hint=_AS_TEXT)
    if isinstance(value, int | float):
        return _number(value, str(cell.number_format), number)
    return Cell(_lines(str(value)), number)


def _number(value: float, look: str, number: int) -> Cell:
    text = format(Decimal(repr(value)), "f").removesuffix(".0")
    if look in ("General", "@"):
        return Cell(text, number, loose=True)
    places = _PLACES.fullmatch(look)
    shown = format(Decimal(text), f".{len(places[1] or '')}f") if places else ""
    if not shown or Decimal(shown) != Decimal(text):
        return Cell(text, number, problem="the spreadsheet shows another number than it holds", hint=_AS_TEXT)
    return Cell(shown, number)


def _lines(text: str) -> str:
    return text.replace("_x000D_", "").replace("\r\n", "\n").replace("\r", "\n")
