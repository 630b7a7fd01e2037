"""Write a worksheet or its key to a file, in the form that the file's ending names."""

from __future__ import annotations

from pathlib import Path

from sizewright.output.atomic import write_whole
from sizewright.output.safe import one_line
from sizewright.text.errors import InputError
from sizewright.training.worksheet import Worksheet

ENDINGS = (".docx", ".xlsx")


def check_worksheet_ending(path: Path) -> None:
    """Refuse a file whose ending tells no form, before any work is done for it.

    Raises:
        InputError: the ending is unknown.
    """
    if path.suffix.lower() not in ENDINGS:
        raise InputError(f"{one_line(path.name)}: the ending tells the form; a worksheet is written as .docx or .xlsx")


def write_worksheet(worksheet: Worksheet, path: Path, paper: str = "A4", *, key: bool = False) -> None:
    """Write the trainee's copy, or the key, whole or not at all.

    Raises:
        InputError: the ending or the paper is unknown.
        OutputError: the file cannot be written; what stood there is untouched.
    """
    check_worksheet_ending(path)
    write_whole(path, _data(worksheet, path.suffix.lower(), paper, key))


def _data(worksheet: Worksheet, ending: str, paper: str, key: bool) -> bytes:
    # Each form imports its library only when it is asked for.
    if ending == ".xlsx":
        from sizewright.output.worksheet_xlsx import worksheet_xlsx

        return worksheet_xlsx(worksheet, paper, key=key)
    if key:
        from sizewright.output.worksheet_key import key_docx

        return key_docx(worksheet, paper)
    from sizewright.output.worksheet_docx import worksheet_docx

    return worksheet_docx(worksheet, paper)
