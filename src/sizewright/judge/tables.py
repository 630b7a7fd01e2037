"""Tables of readings as rows of text by column, whatever file they come from."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from pathlib import Path
from typing import NamedTuple

from sizewright.judge.model import Unreadable
from sizewright.judge.reading_log import HEADER
from sizewright.sheet.csv_rows import csv_rows
from sizewright.sheet.files import file_bytes, file_text
from sizewright.sheet.near import did_you_mean, near, quoted
from sizewright.sheet.rows import TableRow, heading
from sizewright.text.cells import unguard
from sizewright.text.errors import InputError

FIELDS = (
    "balloon", "limits of", "piece", "instance", "lower limit", "upper limit", "value", "unit", "instrument", "serial",
    "by", "when", "note",
)  # fmt: skip
NEEDED = ("balloon", "value")
WORKSHEET = "readings"
_TEXT_FILES = (".csv", ".tsv", ".txt")
_COLUMN = re.compile(r'\s*([^=,"]+?)\s*=\s*("[^"]*"|[^,"]*)\s*(?:,|$)')


class Table(NamedTuple):
    """A table of readings: its rows below the header, by column; what cannot be used at all; remarks on the file.

    `heads` are the texts of the header's cells; `torn` is the number of the last line where that has no end, else 0.
    """

    heads: tuple[str, ...]
    rows: tuple[ReadingRow, ...]
    unreadable: tuple[Unreadable, ...]
    remarks: tuple[str, ...]
    torn: int = 0


@dataclass(frozen=True, slots=True)
class ReadingRow:
    """One row: `cells` by our column names, `problems` of its cells, `text` the whole of it for a report.

    `number` is its line in the file, `width` is how many cells it has, `unheaded` tells whether something stands where
    the header names no column.
    """

    place: str
    number: int
    text: str
    cells: Mapping[str, str]
    width: int
    unheaded: bool = False
    problems: Mapping[str, str] = field(default_factory=dict)

    def __getitem__(self, name: str) -> str:
        """The text under our column `name`, empty where there is none."""
        return self.cells.get(name, "")


def columns_of(text: str) -> dict[str, str]:
    """The column map `text`: `value=Actual, balloon=Feature No`; a head with a comma stands in quotation marks.

    Raises:
        InputError: it does not read, or names a column of ours that is none.
    """
    columns: dict[str, str] = {}
    at = 0
    while at < len(text):
        found = _COLUMN.match(text, at)
        if found is None or not found[2].strip('" '):
            raise InputError(
                f"{quoted(text[at:].strip())} is no column map; one reads: value=Actual, balloon=Feature No"
            )
        name = " ".join(found[1].lower().split())
        if name not in FIELDS:
            hint = did_you_mean(near(name, FIELDS)) or f"ours are {', '.join(FIELDS)}"
            raise InputError(f"{quoted(found[1])} is no column of readings; {hint}")
        if name in columns:
            raise InputError(f"the column map names {name} twice")
        columns[name] = found[2].strip('" ')
        at = found.end()
    return columns


def read_table(path: Path, columns: Mapping[str, str] | None = None) -> Table:
    """The table in the file `path`; `columns` gives the heads of another program's columns by our names.

    Raises:
        InputError: the file cannot be used, or no row names the columns that are needed.
    """
    wanted = _wanted(columns or {})
    ending = path.suffix.lower()
    if ending == ".xlsx":
        from sizewright.sheet.filled_rows import filled_rows

        return _table(filled_rows(path, WORKSHEET), path, wanted, columns or {})
    if ending not in _TEXT_FILES:
        raise InputError(f"{path.name}: readings are read from {', '.join(_TEXT_FILES)} and .xlsx")
    text, remarks = _text(path)
    rows, faults = csv_rows(text, path, lambda row: _heads_in(row, wanted))
    torn = 0 if text.endswith("\n") or not text else text.count("\n") + 1
    bad = [
        Unreadable(
            _place(path, fault.line),
            fault.text.strip(),
            "the row is not finished: it has no end" if fault.line == torn else fault.message,
        )
        for fault in faults
    ]
    return _table(rows, path, wanted, columns or {}, bad, remarks, torn)


def _text(path: Path) -> tuple[str, tuple[str, ...]]:
    """The text of a file. A log that a failing machine cut off within a character is still a log."""
    data = file_bytes(path)
    if data.startswith(HEADER.rstrip()):
        return data.decode("utf-8-sig", "replace").replace("\r\n", "\n").replace("\r", "\n"), ()
    return file_text(path)


def _wanted(columns: Mapping[str, str]) -> dict[str, str]:
    """Our column names by the heads that stand for them, folded; a mapped column is known by its mapped head alone."""
    heads = {name: name for name in FIELDS if name not in columns}
    heads |= {" ".join(head.lower().split()): name for name, head in columns.items()}
    return heads


def _heads_in(row: TableRow, wanted: Mapping[str, str]) -> int:
    """How many of the wanted columns `row` names; 0 where it is no header."""
    names = [wanted[heading(cell)] for cell in row.cells if heading(cell) in wanted]
    return len(set(names)) if set(NEEDED) <= set(names) else 0


def _table(
    rows: Sequence[TableRow],
    path: Path,
    wanted: Mapping[str, str],
    columns: Mapping[str, str],
    bad: Sequence[Unreadable] = (),
    remarks: Sequence[str] = (),
    torn: int = 0,
) -> Table:
    rows = [row for row in rows if row.filled]
    at = next((index for index, row in enumerate(rows) if _heads_in(row, wanted)), None)
    if at is None:
        raise InputError(_no_header(rows, path, wanted))
    heads = tuple(heading(cell) for cell in rows[at].cells)
    where: dict[str, int] = {}
    for index, head in enumerate(heads):
        if head in wanted:
            where.setdefault(wanted[head], index)
    for name, head in columns.items():
        if name not in where:
            known = [cell.flat.strip() for cell in rows[at].cells if cell.filled]
            hint = did_you_mean(near(head, known)) or f"it has {', '.join(map(quoted, known))}"
            raise InputError(f"{path.name} has no column {quoted(head)} for {name}; {hint}")
    guarded = path.suffix.lower() != ".xlsx"
    made = tuple(_row(row, path, heads, where, guarded) for row in rows[at + 1 :])
    return Table(heads, made, tuple(bad), tuple(remarks), torn)


def _row(row: TableRow, path: Path, heads: Sequence[str], where: Mapping[str, int], guarded: bool) -> ReadingRow:
    free = unguard if guarded else str
    cells = {name: free(row.cell(index).flat).strip() for name, index in where.items()}
    problems = {name: row.cell(index).problem for name, index in where.items() if row.cell(index).problem}
    text = ", ".join(cell.flat.strip() for cell in row.cells).rstrip(", ")
    unheaded = any(index >= len(heads) or not heads[index] for index in row.filled)
    return ReadingRow(_place(path, row.number), row.number, text, cells, len(row.cells), unheaded, problems)


def _place(path: Path, number: int) -> str:
    return f"{path.name}, row {number}"


def _no_header(rows: Sequence[TableRow], path: Path, wanted: Mapping[str, str]) -> str:
    needed = [next(head for head, name in wanted.items() if name == each) for each in NEEDED]
    said = f"{path.name} has no row that names the columns {' and '.join(map(quoted, needed))}"
    if not rows:
        return f"{said}: it is empty"
    has = ", ".join(quoted(cell.flat.strip()) for cell in rows[0].cells if cell.filled)
    return f"{said}; its first row has {has}. Other names are told with --columns: value=Actual, balloon=Feature No"
