"""A plan as a DOCX worksheet: what to know first, then the checklist with boxes to fill, then room for many readings.

It is meant to be printed and filled by hand, and to be read in grey: nothing depends on colour.
"""

from __future__ import annotations

import io
from collections.abc import Iterator, Sequence
from datetime import UTC, datetime
from typing import Any

from docx.document import Document as DocumentType
from docx.enum.text import WD_TAB_ALIGNMENT
from docx.oxml import OxmlElement
from docx.oxml.ns import qn
from docx.shared import Mm

from sizewright.output import docx_styles as styles
from sizewright.output.docx_checklist import add_checklist, grid_rows
from sizewright.output.docx_pictures import add_fits
from sizewright.output.docx_tables import Boxes, Cell, add_box_grid, add_table
from sizewright.output.front import (
    fault_words,
    heading,
    instrument_rows,
    methods,
    remarks,
    sample_rows,
    title_block,
    unread_words,
)
from sizewright.output.rows import Row, rows_of
from sizewright.output.safe import one_line, visible
from sizewright.output.slots import slots_of
from sizewright.plan.model import Plan
from sizewright.text.errors import InputError

_PAIRS_ACROSS = 3


def plan_docx(plan: Plan, paper: str = "A4") -> bytes:
    """The plan as the bytes of a DOCX file on `paper`, A4 or Letter.

    Raises:
        InputError: the paper is neither.
    """
    if paper not in styles.PAPERS:
        raise InputError(f"paper {one_line(paper)} is unknown; {' and '.join(styles.PAPERS)} are there")
    document = styles.new_document(paper)
    width = (styles.PAPERS[paper][0] - 2 * styles.MARGIN) / Mm(1)
    rows = rows_of(plan)
    _properties(document, plan)
    _footer(document, plan, width)
    document.add_paragraph(f"Inspection plan: {heading(plan)}", style="Title")
    _title_block(document, plan, width)
    _what_to_know(document, plan, rows)
    _sampling(document, plan, width)
    document.add_paragraph("Checklist", style="Heading 1")
    add_checklist(document, rows, width)
    _continued_readings(document, rows, width)
    add_fits(document, plan)
    _instruments(document, plan, width)
    _items(document, "Methods", [note.sentence() for note in methods(rows)])
    _signatures(document, width)
    stream = io.BytesIO()
    document.save(stream)
    return stream.getvalue()


def _properties(document: DocumentType, plan: Plan) -> None:
    """Title and dates; the author is who the sheet names, never the account that runs the program."""
    properties = document.core_properties
    properties.title = f"Inspection plan: {heading(plan)}"[:255]
    properties.author = properties.last_modified_by = one_line(plan.title.get("made by", ""))[:255]
    properties.comments = properties.subject = properties.keywords = ""
    properties.created = properties.modified = datetime.now(UTC).replace(tzinfo=None, microsecond=0)
    properties.revision = 1


def _footer(document: DocumentType, plan: Plan, width: float) -> None:
    paragraph: Any = document.sections[0].footer.paragraphs[0]
    style: Any = document.styles["Footer"]
    style.paragraph_format.tab_stops.clear_all()
    style.paragraph_format.tab_stops.add_tab_stop(Mm(width), WD_TAB_ALIGNMENT.RIGHT)
    paragraph.add_run(f"{heading(plan)}\tpage ")
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


def _title_block(document: DocumentType, plan: Plan, width: float) -> None:
    entries = title_block(plan)
    label, value = 22.0, width / _PAIRS_ACROSS - 22.0
    rows: list[list[Cell]] = []
    for start in range(0, len(entries), _PAIRS_ACROSS):
        pairs = [*entries[start : start + _PAIRS_ACROSS], *[("", "")] * _PAIRS_ACROSS][:_PAIRS_ACROSS]
        rows.append([cell for word, text in pairs for cell in ([(styles.HEAD, word)], [(styles.CELL, text)])])
    add_table(document, [label, value] * _PAIRS_ACROSS, (), rows, "Title block of the drawing")


def _what_to_know(document: DocumentType, plan: Plan, rows: tuple[Row, ...]) -> None:
    if incomplete := unread_words(rows):
        document.add_paragraph("Faults of the sheet", style="Heading 1")
        document.add_paragraph(incomplete, style=styles.WARNING)
        _items(document, "", [fault_words(fault) for fault in plan.faults])
    else:
        _items(document, "Faults of the sheet", [fault_words(fault) for fault in plan.faults])
    _items(document, "Cautions", [visible(caution) for caution in plan.cautions])
    _items(document, "Remarks", [note.sentence() for note in remarks(rows)])


def _sampling(document: DocumentType, plan: Plan, width: float) -> None:
    """How many pieces are checked, with room for what the sample says of the lot."""
    samples = sample_rows(plan)
    _items(document, "Sampling", [visible(note) for note in plan.sampling.notes])
    if not samples:
        return
    if not plan.sampling.notes:
        document.add_paragraph("Sampling", style="Heading 1")
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
    add_table(document, widths, [(styles.HEAD, head) for head in heads], rows, "Sampling, one row a sample")


def _items(document: DocumentType, title: str, texts: Sequence[str]) -> None:
    if texts and title:
        document.add_paragraph(title, style="Heading 1")
    for text in texts:
        document.add_paragraph(f"–\t{text}", style=styles.ITEM)


def _instruments(document: DocumentType, plan: Plan, width: float) -> None:
    instruments = instrument_rows(plan)
    if not instruments:
        return
    document.add_paragraph("Instruments needed", style="Heading 1")
    heads = ("instrument", "range", "resolution", "place, due", "for lines", "serial", "check before use", "checked")
    shares = (46, 32, 24, 32, 34, 40, 45, 20)
    rows: list[list[Cell]] = [
        [
            [(styles.STRONG, each.name)],
            [(styles.CELL, each.range)],
            [(styles.CELL, each.resolution)],
            [(styles.CELL, text) for text in (each.place, each.due and f"due {each.due}") if text],
            [(styles.CELL, each.lines)],
            [(styles.CELL, each.serial)] if each.serial else [Boxes(("",), 1, width * 40 / 273 - 4)],
            [(styles.CELL, each.field_check)],
            [(styles.CHOICE, "☐ done"), (styles.CHOICE, "☐ fails")],
        ]
        for each in instruments
    ]
    widths = [width * share / sum(shares) for share in shares]
    add_table(document, widths, [(styles.HEAD, head) for head in heads], rows, "Instruments needed, with boxes to fill")


def _continued_readings(document: DocumentType, rows: Sequence[Row], width: float) -> None:
    for row in grid_rows(rows):
        document.add_paragraph(f"Readings for balloon {row.number}", style="Heading 1")
        document.add_paragraph(f"{one_line(row.requirement)}; {'; '.join(_limit_words(row))}", style=styles.LEGEND)
        labels = [slot.label for slot in slots_of((row,))]
        add_box_grid(document, Boxes(labels, 10, width))


def _limit_words(row: Row) -> Iterator[str]:
    for bound in row.limits:
        lower, upper = bound.said_lower or "none", bound.said_upper or "none"
        yield f"{bound.label}: lower {lower}, upper {upper} {row.unit}"
    if row.standing:
        yield row.standing


def _signatures(document: DocumentType, width: float) -> None:
    document.add_paragraph("Signatures", style="Heading 1")
    labels = [f"{role}: {what}" for role in ("measured by", "reviewed by") for what in ("name", "signature", "date")]
    add_box_grid(document, Boxes(labels, len(labels), width))  # one row, which no page can split
