"""Write a class table to a file, in the form that the file's ending names; and its CSV and XLSX."""

from __future__ import annotations

import csv
import io
from collections.abc import Callable
from pathlib import Path

from sizewright.output import class_texts as texts
from sizewright.output.atomic import write_whole
from sizewright.output.endings import known_ending
from sizewright.output.safe import guard, one_line
from sizewright.text.errors import InputError
from sizewright.training.class_marks import ClassMarks


def class_csv(marks: ClassMarks, _: str = "") -> bytes:
    """A row a question of every trainee: line, question, cell, answer, point, what is right, why."""
    stream = io.StringIO(newline="")
    writer = csv.writer(stream)
    writer.writerow(("trainee", "file", "line", "of", "question", "cell", "answer", "points", "right is", "why"))
    for paper in marks.papers:
        for mark in paper.marks:
            row = (paper.trainee, paper.source, mark.line, mark.of, mark.question, mark.address, mark.given)
            writer.writerow(
                [*(guard(one_line(each)) for each in row), int(mark.right), guard(mark.expected), guard(mark.why)]
            )
    return stream.getvalue().encode("utf-8-sig")


def class_xlsx(marks: ClassMarks, paper: str = "A4") -> bytes:
    """The tables as the sheets of a workbook, and a sheet of what to know.

    Raises:
        InputError: the paper is unknown.
    """
    from openpyxl import Workbook
    from openpyxl.utils import get_column_letter

    from sizewright.output.repeatable import WRITTEN, repeatable
    from sizewright.output.xlsx_cells import (
        HEAD,
        NUMBER,
        NUMBER_HEAD,
        PAPERS,
        TEXT,
        add_styles,
        set_up_page,
        write_text,
    )

    if paper not in PAPERS:
        raise InputError(f"paper {one_line(paper)} is unknown; {' and '.join(PAPERS)} are there")
    workbook = Workbook()
    workbook.remove(workbook.worksheets[0])
    add_styles(workbook)
    to_know = texts.Table("to know", (("to know", False),), tuple((each,) for each in texts.remarks(marks)))
    for table in (*texts.tables(marks), to_know):
        grid = workbook.create_sheet(table.name)
        for index, (head, number) in enumerate(table.heads, start=1):
            write_text(grid.cell(1, index), head, NUMBER_HEAD if number else HEAD)
            longest = max([len(head), *(len(row[index - 1]) for row in table.rows)])
            grid.column_dimensions[get_column_letter(index)].width = min(60, longest + 4)
        for place, row in enumerate(table.rows, start=2):
            for index, ((_, number), text) in enumerate(zip(table.heads, row, strict=True), start=1):
                write_text(grid.cell(place, index), text, NUMBER if number else TEXT)
        set_up_page(grid, texts.title(marks), paper, "B2")
    properties = workbook.properties
    properties.title = texts.title(marks)[:255]
    properties.creator = properties.lastModifiedBy = ""
    properties.created = properties.modified = WRITTEN
    stream = io.BytesIO()
    workbook.save(stream)
    return repeatable(stream.getvalue())


def _docx(marks: ClassMarks, paper: str) -> bytes:
    from sizewright.output.class_docx import class_docx

    return class_docx(marks, paper)


_FORMS: dict[str, Callable[[ClassMarks, str], bytes]] = {".docx": _docx, ".xlsx": class_xlsx, ".csv": class_csv}


def check_class_ending(path: Path) -> None:
    """Refuse a file whose ending tells no form, before any work is done for it.

    Raises:
        InputError: the ending is unknown.
    """
    known_ending(path, _FORMS)


def write_class(marks: ClassMarks, path: Path, paper: str = "A4") -> None:
    """Write the class table, whole or not at all.

    Raises:
        InputError: the ending or the paper is unknown.
        OutputError: the file cannot be written; what stood there is untouched.
    """
    check_class_ending(path)
    write_whole(path, _FORMS[path.suffix.lower()](marks, paper))
