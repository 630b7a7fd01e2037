"""A rotation as a DOCX document to hang up: the chart, a list for each person, the tasks, what to know."""

from __future__ import annotations

from collections.abc import Sequence

from sizewright.output import docx_styles as styles
from sizewright.output import rotation_rows as shown
from sizewright.output.docx_body import HEADING, Body, file_of
from sizewright.output.docx_frame import titled_document
from sizewright.output.docx_tables import Cell, table_xml
from sizewright.output.rotation_rows import RotationSheet
from sizewright.output.safe import one_line
from sizewright.training.timetable import Slot

_NAME_WIDTH = 34.0  # mm
_COLUMNS = 20  # columns of time in one table
_STEPS = (1, 2, 5, 10, 15, 20, 30, 60, 120, 240)  # minutes a column
_TABLES = 3  # tables of the chart at most, as long as a step allows it


def rotation_docx(sheet: RotationSheet, paper: str = "A4") -> bytes:
    """The rotation as the bytes of a DOCX file on `paper`, A4 or Letter.

    Raises:
        InputError: the paper is neither.
    """
    title = f"Rotation: {shown.heading(sheet)}"
    document, width = titled_document(title, title, "", paper)
    body = Body()
    body.paragraph("Title", title)
    body.items("", shown.summary(sheet))
    _chart(body, sheet, width)
    body.items("Parts and tasks", shown.part_rows(sheet))
    _tasks(body, sheet, width)
    for person in sheet.rotation.work.people:
        body.paragraph(HEADING, shown.person_words(sheet, person))
        _slots(body, sheet, person, width)
    body.items("To know", (*shown.notes(sheet), *shown.CAUTIONS))
    return file_of(document, body)


def _chart(body: Body, sheet: RotationSheet, width: float) -> None:
    """Tables with a row a person and a column a step of time, each cell with the tasks at work in it."""
    timetable = sheet.rotation.timetable
    if not timetable.slots:
        return
    step = next((each for each in _STEPS if each * _COLUMNS * _TABLES >= timetable.minutes), _STEPS[-1])
    body.paragraph(HEADING, "Chart")
    body.paragraph(
        styles.LEGEND,
        f"Each column is {shown.minutes_words(step)}, headed by its beginning. A mark stands in every column in which "
        "its task is at work, with ▸ where it begins; a dash: the person waits.",
    )
    widths = [_NAME_WIDTH, *[(width - _NAME_WIDTH) / _COLUMNS] * _COLUMNS]
    slots = {person: timetable.of(person) for person in sheet.rotation.work.people}
    for number, begin in enumerate(range(0, timetable.minutes, step * _COLUMNS)):
        if number:
            body.paragraph(styles.LEGEND, "")  # two tables that touch would become one
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
        body.add(table_xml(widths, head, rows, about))


def _at_work(slots: Sequence[Slot], begin: int, end: int, last: int) -> str:
    """The marks of the tasks at work from `begin` up to `end`, a line each."""
    marks = [
        f"{'▸' if slot.start >= begin else ''}{slot.task.mark}"
        for slot in slots
        if slot.start < end and begin < slot.end
    ]
    return "\n".join(marks) or ("–" if begin < last else "")


def _tasks(body: Body, sheet: RotationSheet, width: float) -> None:
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
    _table(body, heads[: len(shares)], shares, cells, width, "Tasks, with lines, instrument and minutes")


def _slots(body: Body, sheet: RotationSheet, person: str, width: float) -> None:
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
        _table(body, heads, (18, 18, 18, 16, 58, 14, 88, 43), cells, width, f"What {one_line(person)} does when")


def _table(
    body: Body,
    heads: Sequence[str],
    shares: Sequence[int],
    rows: list[list[Cell]],
    width: float,
    about: str,
) -> None:
    numbers = ("from", "to", "minutes", "readings", "piece")
    head = [(styles.NUMBER_HEAD if each in numbers else styles.HEAD, each) for each in heads]
    body.add(table_xml([width * share / sum(shares) for share in shares], head, rows, about))
