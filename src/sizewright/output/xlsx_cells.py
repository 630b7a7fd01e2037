"""Cells, heads and page set-up of an XLSX plan.

A number is written as a number only where a spreadsheet keeps it digit by digit, with a number format that shows its
trailing zeros. Text is text, whatever it begins with.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from decimal import Decimal
from typing import Any

from openpyxl import Workbook
from openpyxl.styles import Alignment, Border, Font, NamedStyle, PatternFill, Side
from openpyxl.utils import get_column_letter
from openpyxl.worksheet.properties import PageSetupProperties
from openpyxl.worksheet.worksheet import Worksheet

from sizewright.output.columns import Column, Item, is_number
from sizewright.output.safe import computes

HEAD, NUMBER_HEAD, TEXT, NUMBER, BOX = "plan head", "plan number head", "plan text", "plan number", "plan box"
PAPERS = {"A4": 9, "Letter": 1}
_LINE_HEIGHT, _HIGHEST = 13.0, 409.0  # in points; no row can be higher
_DIGITS = 15  # what a spreadsheet keeps of a number


def _font(bold: bool = False) -> Font:
    return Font(name="Arial", size=10, bold=bold)


def add_styles(workbook: Workbook) -> None:
    """Define the named styles of the plan."""
    shade, under, side = PatternFill("solid", fgColor="E7E7E7"), Border(bottom=Side("thin")), Side("thin")
    left = Alignment(horizontal="left", vertical="top", wrap_text=True, indent=1)
    right = Alignment(horizontal="right", vertical="top", wrap_text=True)
    for style in (
        NamedStyle(HEAD, _font(bold=True), shade, under, left),
        NamedStyle(NUMBER_HEAD, _font(bold=True), shade, under, right),
        NamedStyle(TEXT, _font(), alignment=left),
        NamedStyle(NUMBER, _font(), alignment=right),
        NamedStyle(BOX, _font(), border=Border(left=side, right=side, top=side, bottom=side), alignment=left),
    ):
        workbook.add_named_style(style)


def add_rows(sheet: Worksheet, columns: Sequence[Column[Item]], items: Iterable[Item]) -> int:
    """Write a head and a row for each item; returns the number of the last row.

    Columns that hold nothing are hidden, unless they are there to be filled.
    """
    widths = [column.width for column in columns]
    for index, column in enumerate(columns, start=1):
        write_text(sheet.cell(1, index), column.head, NUMBER_HEAD if column.number and not column.fill else HEAD)
        sheet.column_dimensions[get_column_letter(index)].width = column.width
    _fit_height(sheet, 1, [column.head for column in columns], widths)
    last, used = 1, {column.head for column in columns if column.fill}
    for last, item in enumerate(items, start=2):
        texts = [column.text(item) for column in columns]
        for index, (column, text) in enumerate(zip(columns, texts, strict=True), start=1):
            _write(sheet.cell(last, index), column, text)
        _fit_height(sheet, last, texts, widths)
        used |= {column.head for column, text in zip(columns, texts, strict=True) if text}
    for index, column in enumerate(columns, start=1):
        sheet.column_dimensions[get_column_letter(index)].hidden = last > 1 and column.head not in used
    return last


def _fit_height(sheet: Worksheet, row: int, texts: Sequence[str], widths: Sequence[int]) -> None:
    """Make a row as high as its wrapped texts need: not every program does so by itself."""
    lines = max(
        sum(max(1, -(-len(line) // max(1, width - 2))) for line in text.split("\n"))
        for text, width in zip(texts, widths, strict=True)
    )
    sheet.row_dimensions[row].height = min(_HIGHEST, lines * _LINE_HEIGHT + 2)


def keeps(text: str) -> bool:
    """Whether a spreadsheet keeps the number `text` exactly."""
    value = Decimal(text)
    return len(value.normalize().as_tuple().digits) <= _DIGITS and Decimal(repr(float(text))) == value


def write_text(cell: Any, text: str, style: str = TEXT) -> None:
    """Write `text` as text: never a formula, never an error value."""
    cell.style = style
    if not text:
        return
    cell.value = text
    cell.data_type = "s"  # set after the value, which would have made a formula of =1+1 and an error of #N/A
    if computes(text):
        cell.quotePrefix = 1  # so that it stays text when someone edits the cell


def write_number(cell: Any, text: str) -> None:
    """Write a number in plain decimal notation as a number where that is exact, otherwise as text."""
    if not keeps(text):
        write_text(cell, text, NUMBER)
        return
    cell.style = _number_style(cell, len(text.partition(".")[2]))
    cell.value = int(text) if "." not in text else float(text)


def _number_style(cell: Any, decimals: int) -> Any:
    """The style that shows so many decimals. One style each: not every program minds a cell's own number format."""
    name = f"{NUMBER}, {decimals} decimals"
    if name in cell.parent.parent.named_styles:
        return name
    style = NamedStyle(name, _font(), alignment=Alignment(horizontal="right", vertical="top"))
    style.number_format = f"0.{'0' * decimals}" if decimals else "0"
    return style


def set_up_page(sheet: Worksheet, title: str, paper: str, freeze: str) -> None:
    """Landscape, as wide as the page, the head on every page, the plan's name and page numbers in the footer."""
    sheet.freeze_panes = freeze
    sheet.print_title_rows = "1:1"
    sheet.page_setup.orientation = "landscape"
    sheet.page_setup.paperSize = PAPERS[paper]
    sheet.page_setup.fitToWidth = 1
    sheet.page_setup.fitToHeight = 0
    sheet.sheet_properties.pageSetUpPr = PageSetupProperties(fitToPage=True)
    sheet.page_margins.left = sheet.page_margins.right = 0.4
    footer: Any = sheet.oddFooter
    footer.left.text = title[:100].replace("&", "&&")  # & alone begins a code
    footer.right.text = "page &P of &N"


def _write(cell: Any, column: Column[Item], text: str) -> None:
    if column.fill:
        write_text(cell, text, BOX)
    elif column.number and is_number(text):
        write_number(cell, text)
    else:
        write_text(cell, text, NUMBER if column.number else TEXT)
