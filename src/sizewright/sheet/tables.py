"""Tables: a sheet's content as rows of cells, from CSV or XLSX.

The header row names the columns balloon, zone, view, class, callout and remark, in any order and case; only callout has
to be there. Rows of two cells before it are title-block entries. Places are counted within the cell: a fault's line is
the row's number in XLSX and the file's line in CSV; its column counts characters of the cell, its text is the cell's.
"""

from __future__ import annotations

from pathlib import Path

from sizewright.sheet.csv_rows import csv_rows
from sizewright.sheet.drafts import Draft, Row, balloon_number, numbered
from sizewright.sheet.faults import fault_in, in_order
from sizewright.sheet.files import file_text
from sizewright.sheet.model import Entry, Fault, Sheet
from sizewright.sheet.near import did_you_mean, near, quoted
from sizewright.sheet.rows import COLUMNS, Cell, TableRow, heading, headings
from sizewright.sheet.shape import Piece
from sizewright.sheet.title import WORDS, enter, near_words, title_word
from sizewright.text.errors import CalloutError, InputError


def read_csv(path: Path) -> Sheet:
    """Read a CSV file: its cells parted by commas, semicolons or tabs.

    Raises:
        InputError: the file cannot be used, or has no column "callout".
    """
    text, remarks = file_text(path)
    return read_csv_text(text, path, remarks)


def read_csv_text(text: str, source: Path, remarks: tuple[str, ...] = ()) -> Sheet:
    """Read the text of a CSV file, its line ends all `\\n`; `source` is what its faults are shown under.

    Raises:
        InputError: it is too long, or has no column "callout".
    """
    rows, faults = csv_rows(text, source)
    return _read(rows, source, faults, remarks)


def read_xlsx(path: Path) -> Sheet:
    """Read an XLSX file: its worksheet named callouts, or else its first.

    Raises:
        InputError: the file cannot be used, or has no column "callout".
    """
    from sizewright.sheet.xlsx_rows import xlsx_rows

    return _read(xlsx_rows(path), path, [], ())


def _read(rows: list[TableRow], source: Path, faults: list[Fault], remarks: tuple[str, ...]) -> Sheet:
    rows = [row for row in rows if row.filled]
    header = next((index for index, row in enumerate(rows) if headings(row)), None)
    if header is None:
        raise InputError(f'{source} has no column "callout"; {_nearest(rows)}')
    reader = _TableReader(faults)
    for row in rows[:header]:
        reader.take_title(row)
    reader.take_header(rows[header])
    for row in rows[header + 1 :]:
        reader.take(row)
    lines, late = numbered(reader.drafts)
    return Sheet(source, reader.title, lines, in_order(reader.faults + late), remarks)


def _nearest(rows: list[TableRow]) -> str:
    for row in rows:
        for cell in row.cells:
            if near(heading(cell), ("callout",)):
                return f"did you mean it by {quoted(cell.flat.strip())} on line {row.number}?"
    return f"its header row names the columns {', '.join(COLUMNS)}"


class _TableReader:
    """Takes a table's rows one after another. Faults are gathered; none is raised."""

    def __init__(self, faults: list[Fault]) -> None:
        self.faults = list(faults)
        self.title: dict[str, Entry] = {}
        self.drafts: list[Draft] = []
        self._columns: dict[str, int] = {}
        self._unheaded: set[int] = set()

    def take_title(self, row: TableRow) -> None:
        """Read a row above the header: a word and its value."""
        name, value = row.cell(0), row.cell(1)
        typed = name.flat.strip().removesuffix(":")
        word = title_word(typed)
        if word is None or max(row.filled) > 1:
            hint = did_you_mean(near_words(typed)) or f"above the header: {', '.join(WORDS)}, with the value beside it"
            text = " ".join(row.cells[index].flat.strip() for index in row.filled)
            self._fault(Cell(text, row.number), "this row is no title-block entry", hint)
        elif self._trusted(value):
            fault = enter(self.title, word, Row(value.line, value.flat), _stripped(value.flat))
            self.faults += [fault] if fault else []

    def take_header(self, row: TableRow) -> None:
        """Read the header: which column is where."""
        for index, cell in enumerate(row.cells):
            name = heading(cell)
            if name in COLUMNS and name not in self._columns:
                self._columns[name] = index
            elif name:
                self._unheaded.add(index)
                problem = "stands twice" if name in COLUMNS else "is no column of a sheet"
                hint = did_you_mean(near(name, COLUMNS)) or f"the columns are {', '.join(COLUMNS)}"
                self._fault(cell, f"{quoted(cell.flat.strip())} {problem}; what is below it is not read", hint)

    def take(self, row: TableRow) -> None:
        """Read a row below the header."""
        cells = {name: row.cell(self._columns.get(name)) for name in COLUMNS}
        read = {*self._columns.values(), *self._unheaded}
        for index in row.filled:
            if index not in read:
                hint = "a callout with commas in it stands in quotation marks"
                self._fault(row.cells[index], "the column of this cell has no heading", hint)
            elif index not in self._unheaded:
                self._trusted(row.cells[index])
        if any(cell.filled for cell in cells.values()):
            self.drafts.append(self._draft(row, cells))

    def _draft(self, row: TableRow, cells: dict[str, Cell]) -> Draft:
        balloon = cells["balloon"]
        number = _stripped(balloon.flat)
        draft = Draft(Row(row.number, balloon.flat), number.end, number_piece=number)
        draft.view = cells["view"].flat.strip()
        draft.remarks += filter(None, [cells["remark"].flat.strip()])
        draft.pieces += [(line, _stripped(line.typed)) for line in cells["callout"].rows()]
        for name in ("balloon", "zone", "class"):
            if cells[name].filled and not cells[name].problem:
                self._set(draft, name, cells[name])
        self._check_zeros(cells["callout"])
        return draft

    def _set(self, draft: Draft, name: str, cell: Cell) -> None:
        piece = _stripped(cell.flat)
        try:
            if name == "balloon":
                draft.number = balloon_number(piece.text)
            elif name == "zone":
                draft.set_zone(piece.text)
            else:
                draft.set_class(piece.text)
        except CalloutError as error:
            self.faults.append(fault_in(cell.flat, cell.line, error, piece.offset))

    def _check_zeros(self, cell: Cell) -> None:
        inch = "unit" in self.title and self.title["unit"].value == "inch"
        asme = "manner" in self.title and self.title["manner"].value == "asme"
        if cell.loose and (inch or asme):
            message = "the cell is a number, and the zeros typed at its end are lost; they can choose its tolerance"
            self._fault(cell, message, "make the cell text, and type it again")

    def _trusted(self, cell: Cell) -> bool:
        if cell.problem:
            self._fault(cell, cell.problem, cell.hint)
        return not cell.problem

    def _fault(self, cell: Cell, message: str, hint: str) -> None:
        piece = _stripped(cell.flat)
        self.faults.append(Fault(cell.line, piece.offset + 1, len(piece.text), message, cell.flat, hint))


def _stripped(text: str) -> Piece:
    return Piece(text.strip(), len(text) - len(text.lstrip()))
