"""A plan as a DOCX worksheet: what to know first, then the checklist with boxes to fill, then room for many readings.

It is meant to be printed and filled by hand, and to be read in grey: nothing depends on colour.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from sizewright.output import docx_styles as styles
from sizewright.output.docx_body import HEADING, Body, file_of
from sizewright.output.docx_checklist import add_checklist, grid_rows
from sizewright.output.docx_frame import add_signatures, add_title_block, framed_document
from sizewright.output.docx_pictures import add_fits
from sizewright.output.docx_tables import Boxes, Cell, box_grid_xml, table_xml
from sizewright.output.front import (
    InstrumentRow,
    fault_words,
    heading,
    instrument_rows,
    methods,
    remarks,
    sample_rows,
    unread_words,
)
from sizewright.output.rows import Row, rows_of
from sizewright.output.safe import one_line, visible
from sizewright.output.slots import slots_of
from sizewright.plan.model import Plan


def plan_docx(plan: Plan, paper: str = "A4") -> bytes:
    """The plan as the bytes of a DOCX file on `paper`, A4 or Letter.

    Raises:
        InputError: the paper is neither.
    """
    document, width = framed_document(plan, "Inspection plan", paper)
    body, rows = Body(), rows_of(plan)
    body.paragraph("Title", f"Inspection plan: {heading(plan)}")
    add_title_block(body, plan, width)
    _what_to_know(body, plan, rows)
    _sampling(body, plan, width)
    body.paragraph(HEADING, "Checklist")
    add_checklist(body, rows, width)
    _continued_readings(body, rows, width)
    add_fits(document, body, plan)
    _instruments(body, plan, width)
    body.items("Methods", [note.sentence() for note in methods(rows)])
    add_signatures(body, width)
    return file_of(document, body)


def _what_to_know(body: Body, plan: Plan, rows: tuple[Row, ...]) -> None:
    if incomplete := unread_words(rows):
        body.paragraph(HEADING, "Faults of the sheet")
        body.paragraph(styles.WARNING, incomplete)
        body.items("", [fault_words(fault) for fault in plan.faults])
    else:
        body.items("Faults of the sheet", [fault_words(fault) for fault in plan.faults])
    body.items("Cautions", [visible(caution) for caution in plan.cautions])
    body.items("Remarks", [note.sentence() for note in remarks(rows)])


def _sampling(body: Body, plan: Plan, width: float) -> None:
    """How many pieces are checked, with room for what the sample says of the lot."""
    samples = sample_rows(plan)
    body.items("Sampling", [visible(note) for note in plan.sampling.notes])
    if not samples:
        return
    if not plan.sampling.notes:
        body.paragraph(HEADING, "Sampling")
    heads = ("for", "lines", "pieces", "accept the lot on", "reject it on", "because", "nonconforming", "lot")
    shares = (26, 44, 16, 28, 26, 83, 28, 22)
    widths = [width * share / sum(shares) for share in shares]
    rows: list[list[Cell]] = [
        [
            [(styles.STRONG, each.of)],
            [(styles.CELL, each.lines)],
            [(styles.STRONG, each.pieces)],
            [(styles.CELL, each.accept or "each piece by itself")],
            [(styles.CELL, each.reject or "–")],
            [(styles.CELL, each.words)],
            [Boxes(("pieces",), 1, widths[6] - 4)],
            [(styles.CHOICE, "☐ accept"), (styles.CHOICE, "☐ reject")] if each.accept else [(styles.CELL, "–")],
        ]
        for each in samples
    ]
    body.add(table_xml(widths, [(styles.HEAD, head) for head in heads], rows, "Sampling, one row a sample"))


def _instruments(body: Body, plan: Plan, width: float) -> None:
    instruments = instrument_rows(plan)
    if not instruments:
        return
    body.paragraph(HEADING, "Instruments needed")
    heads = ("instrument", "range", "resolution", "place, due", "for lines", "serial", "check before use", "checked")
    shares = (42, 30, 22, 26, 30, 33, 72, 18)
    rows: list[list[Cell]] = [
        [
            [(styles.STRONG, each.name)],
            [(styles.CELL, each.range)],
            [(styles.CELL, each.resolution)],
            [(styles.CELL, text) for text in (each.place, each.due and f"due {each.due}") if text],
            [(styles.CELL, each.lines)],
            [(styles.CELL, each.serial)] if each.serial else [Boxes(("",), 1, width * 33 / sum(shares) - 4)],
            [(styles.CELL, each.field_check), *_points(each, width * 72 / sum(shares) - 4)],
            [(styles.CHOICE, "☐ done"), (styles.CHOICE, "☐ fails")],
        ]
        for each in instruments
    ]
    widths = [width * share / sum(shares) for share in shares]
    about = "Instruments needed, with boxes to fill"
    body.add(table_xml(widths, [(styles.HEAD, head) for head in heads], rows, about))


def _points(row: InstrumentRow, width: float) -> Iterator[Boxes]:
    """Boxes for what the instrument shows at each point of its check, the limits in their corner."""
    if row.points:
        yield Boxes(row.points, min(2, len(row.points)), width)


def _continued_readings(body: Body, rows: Sequence[Row], width: float) -> None:
    for row in grid_rows(rows):
        body.paragraph(HEADING, f"Readings for balloon {row.number}")
        body.paragraph(styles.LEGEND, f"{one_line(row.requirement)}; {'; '.join(_limit_words(row))}")
        labels = [slot.label for slot in slots_of((row,))]
        body.add(box_grid_xml(Boxes(labels, 10, width)))


def _limit_words(row: Row) -> Iterator[str]:
    for bound in row.limits:
        lower, upper = bound.said_lower or "none", bound.said_upper or "none"
        yield f"{bound.label}: lower {lower}, upper {upper} {row.unit}"
    if row.standing:
        yield row.standing
