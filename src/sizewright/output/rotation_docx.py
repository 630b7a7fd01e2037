"""A rotation as a DOCX document to hang up: the chart, a list for each person, the tasks, what to know."""

from __future__ import annotations

import io
from collections.abc import Sequence
from datetime import UTC, datetime
from typing import Any

from docx.document import Document as DocumentType
from docx.oxml import OxmlElement
from docx.oxml.ns import qn
from docx.shared import Mm

from sizewright.output import docx_styles as styles
from sizewright.output import rotation_rows as shown
from sizewright.output.docx_tables import Cell, add_table
from sizewright.output.rotation_rows import RotationSheet
from sizewright.output.safe import one_line
from sizewright.training.timetable import Slot

_NAME_WIDTH = 34.0  # mm
_COLUMNS = 20  # columns of time in one table
_STEPS = (1, 2, 5, 10, 15, 20, 30, 60, 120, 240)  # minutes a column
_TABLES = 3  # tables of the chart at most, as long as a step allows it


def rotation_docx(sheet: RotationSheet, paper: str = "A4") -> bytes:
    """The rotation as the bytes of a DOCX file on `paper`, A4 or Letter."""
    document = styles.new_document(paper)
    width = (styles.PAPERS[paper][0] - 2 * styles.MARGIN) / Mm(1)
    _properties(document, sheet)
    _footer(document, sheet)
    document.add_paragraph(f"Rotation: {shown.heading(sheet)}", style="Title")
    _items(document, shown.summary(sheet))
    _chart(document, sheet, width)
    document.add_paragraph("Parts and tasks", style="Heading 1")
    _items(document, shown.part_rows(sheet))
    _tasks(document, sheet, width)
    for person in sheet.rotation.work.people:
        document.add_paragraph(shown.person_words(sheet, person), style="Heading 1")
        _slots(document, sheet, person, width)
    document.add_paragraph("To know", style="Heading 1")
    _items(document, (*shown.notes(sheet), *shown.CAUTIONS))
    stream = io.BytesIO()
    document.save(stream)
    return stream.getvalue()


def _properties(document: DocumentType, sheet: RotationSheet) -> None:
    """Title and dates; no author, as nobody is named and the account that runs the program is nobody's business."""
    properties = document.core_properties
    properties.title = f"Rotation: {shown.heading(sheet)}"[:255]
    properties.author = properties.last_modified_by = ""
    properties.comments = properties.subject = properties.keywords = ""
    properties.created = properties.modified = datetime.now(UTC).replace(tzinfo=None, microsecond=0)
    properties.revision = 1


def _footer(document: DocumentType, sheet: RotationSheet) -> None:
    paragraph: Any = document.sections[0].footer.paragraphs[0]
    paragraph.add_run(f"Rotation: {shown.heading(sheet)}; page ")
    _field(paragraph, "PAGE")
    paragraph.add_run(" of ")
    _field(paragraph, "NUMPAGES")


def _field(paragraph: Any, name: str) -> None:
    field = OxmlElement("w:fldSimple")
    field.set(qn("w:instr"), name)
    run = OxmlElement("w:r")
    text = OxmlElement("w:t")
    text.text = "1"
    run.append(text)
    field.append(run)
    paragraph._p.append(field)


def _items(document: DocumentType, texts: Sequence[str]) -> None:
    for text in texts:
        document.add_paragraph(f"–\t{text}", style=styles.ITEM)


def _chart(document: DocumentType, sheet: RotationSheet, width: float) -> None:
    """Tables with a row a person and a column a step of time, each cell with the tasks at work in it."""
    timetable = sheet.rotation.timetable
    if not timetable.slots:
        return
    step = next((each for each in _STEPS if each * _COLUMNS * _TABLES >= timetable.minutes), _STEPS[-1])
    document.add_paragraph("Chart", style="Heading 1")
    document.add_paragraph(
        f"Each column is {shown.minutes_words(step)}, headed by its beginning. A mark stands in every column in which "
        "its task is at work, with ▸ where it begins; a dash: the person waits.",
        style=styles.LEGEND,
    )
    widths = [_NAME_WIDTH, *[(width - _NAME_WIDTH) / _COLUMNS] * _COLUMNS]
    slots = {person: timetable.of(person) for person in sheet.rotation.work.people}
    for number, begin in enumerate(range(0, timetable.minutes, step * _COLUMNS)):
        if number:
            document.add_paragraph("", style=styles.LEGEND)  # two tables that touch would become one
        begins = range(begin, begin + step * _COLUMNS, step)
        head = [
            (styles.HEAD, "person"),
            *[(styles.HEAD, sheet.clock(b) if b < timetable.minutes else "") for b in begins],
        ]
        rows: list[list[Cell]] = [
            [
                [(styles.STRONG, one_line(person))],
                *([(styles.CELL, _at_work(slots[person], b, b + step, timetable.minutes))] for b in begins),
            ]
            for person in slots
        ]
        about = f"Chart from {sheet.clock(begin)}: a row a person, a column every {shown.minutes_words(step)}"
        add_table(document, widths, head, rows, about)


def _at_work(slots: Sequence[Slot], begin: int, end: int, last: int) -> str:
    """The marks of the tasks at work from `begin` up to `end`, a line each."""
    marks = [
        f"{'▸' if slot.start >= begin else ''}{slot.task.mark}"
        for slot in slots
        if slot.start < end and begin < slot.end
    ]
    return "\n".join(marks) or ("–" if begin < last else "")


def _tasks(document: DocumentType, sheet: RotationSheet, width: float) -> None:
    heads = ("task", "part", "lines", "instrument", "readings", "minutes", "pieces")
    rows = shown.task_rows(sheet)
    pieces = any(row.pieces for row in rows)
    shares = (14, 58, 50, 92, 18, 18, *((23,) if pieces else ()))
    cells: list[list[Cell]] = [
        [
            [(styles.STRONG, row.mark)],
            [(styles.CELL, row.part)],
            [(styles.CELL, row.lines)],
            [(styles.CELL, row.instrument)],
            [(styles.NUMBER, row.readings)],
            [(styles.NUMBER, row.minutes)],
            *([[(styles.CELL, row.pieces)]] if pieces else []),
        ]
        for row in rows
    ]
    _table(document, heads[: len(shares)], shares, cells, width, "Tasks, with lines, instrument and minutes")


def _slots(document: DocumentType, sheet: RotationSheet, person: str, width: float) -> None:
    heads = ("from", "to", "minutes", "task", "part", "piece", "instrument", "lines")
    cells: list[list[Cell]] = [
        [
            [(styles.NUMBER, row.start)],
            [(styles.NUMBER, row.end)],
            [(styles.NUMBER, row.minutes)],
            [(styles.STRONG, row.task)],
            [(styles.CELL, row.part)],
            [(styles.NUMBER, row.piece)],
            [(styles.CELL, row.instrument)],
            [(styles.CELL, row.lines)],
        ]
        for row in shown.slot_rows(sheet, person)
    ]
    if cells:
        _table(document, heads, (18, 18, 18, 16, 58, 14, 88, 43), cells, width, f"What {one_line(person)} does when")


def _table(
    document: DocumentType,
    heads: Sequence[str],
    shares: Sequence[int],
    rows: list[list[Cell]],
    width: float,
    about: str,
) -> None:
    numbers = ("from", "to", "minutes", "readings", "piece")
    head = [(styles.NUMBER_HEAD if each in numbers else styles.HEAD, each) for each in heads]
    add_table(document, [width * share / sum(shares) for share in shares], head, rows, about)
