"""Reading a sheet from its file."""

from __future__ import annotations

from pathlib import Path

from sizewright.sheet.faults import in_order
from sizewright.sheet.files import file_text, text_lines
from sizewright.sheet.lines import SheetReader
from sizewright.sheet.model import Sheet
from sizewright.sheet.tables import read_csv, read_xlsx
from sizewright.text.errors import InputError

_TABLES = {".csv": read_csv, ".tsv": read_csv, ".xlsx": read_xlsx}


def read_sheet(path: Path) -> Sheet:
    """Read the sheet, CSV or XLSX file `path` whole; what is wrong with its lines is in the sheet's `faults`.

    The callouts themselves are not read here.

    Raises:
        InputError: the file is missing, a folder, unreadable, too large or not what its ending says, or the ending is
            not known.
    """
    ending = path.suffix.lower()
    if ending == ".sheet":
        text, remarks = file_text(path)
        return read_text(text, path, remarks)
    read_table = _TABLES.get(ending)
    if read_table is None:
        said = f'the ending "{path.suffix}"' if path.suffix else "no ending"
        raise InputError(f"{path} has {said}; a sheet ends in .sheet, .csv, .tsv or .xlsx")
    return read_table(path)


def read_text(text: str, source: Path, remarks: tuple[str, ...] = ()) -> Sheet:
    """Read the text of a sheet, its line ends all `\\n`; `source` is what its faults are shown under.

    Raises:
        InputError: it has too many lines.
    """
    reader = SheetReader()
    for number, typed in enumerate(text_lines(text, source), 1):
        reader.take(number, typed)
    lines, faults = reader.finish()
    return Sheet(source, reader.title, lines, in_order(faults), (*remarks, *reader.remarks))
