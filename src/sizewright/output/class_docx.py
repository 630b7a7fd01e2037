"""A class table as a DOCX document: the class, where it went wrong, then every point lost."""

from __future__ import annotations

from sizewright.output import class_texts as texts
from sizewright.output import docx_styles as styles
from sizewright.output.docx_tables import Cell, Line
from sizewright.output.training_pages import Pages
from sizewright.training.class_marks import ClassMarks

_HEADINGS = {
    "class": "The class",
    "by question": "Where the class went wrong, by kind of question",
    "by line": "Where the class went wrong, by line: the worst first",
    "points lost": "Every point lost",
}
_SHARES: dict[str, tuple[float, ...]] = {
    "class": (52, *(22,) * 8, 25, 20),
    "by question": (40, 25, 20, 188),
    "by line": (20, 40, 25, 20, 168),
    "points lost": (40, 14, 40, 16, 48, 55, 60),
}


def class_docx(marks: ClassMarks, paper: str = "A4") -> bytes:
    """The class table as the bytes of a DOCX file on `paper`, A4 or Letter.

    Raises:
        InputError: the paper is neither.
    """
    pages = Pages(texts.title(marks), paper, landscape=True)
    pages.items("", texts.remarks(marks))
    for table in texts.tables(marks):
        if not table.rows:
            continue
        pages.heading(_HEADINGS[table.name])
        head: list[Line] = [(styles.NUMBER_HEAD if number else styles.HEAD, text) for text, number in table.heads]
        rows: list[list[Cell]] = [
            [
                [(styles.NUMBER if number else styles.CELL, text)]
                for (_, number), text in zip(table.heads, row, strict=True)
            ]
            for row in table.rows
        ]
        pages.table(_SHARES[table.name], head, rows, _HEADINGS[table.name])
    return pages.data()
