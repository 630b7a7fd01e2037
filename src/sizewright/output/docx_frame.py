"""What every DOCX document has around its lines: properties, footer with page numbers, title block, signatures."""

from __future__ import annotations

from datetime import UTC, datetime
from typing import Any

from docx.document import Document as DocumentType
from docx.enum.text import WD_TAB_ALIGNMENT
from docx.oxml import OxmlElement
from docx.oxml.ns import qn
from docx.shared import Mm

from sizewright.output import docx_styles as styles
from sizewright.output.docx_body import HEADING, Body
from sizewright.output.docx_tables import Boxes, Cell, box_grid_xml, table_xml
from sizewright.output.front import heading, title_block
from sizewright.output.safe import one_line
from sizewright.plan.model import Plan
from sizewright.text.errors import InputError

_PAIRS_ACROSS = 3


def framed_document(plan: Plan, name: str, paper: str) -> tuple[DocumentType, float]:
    """An empty document on `paper` with properties and footer, and the width between its margins in mm.

    `name` is what it is called: `Inspection plan`.

    Raises:
        InputError: the paper is unknown.
    """
    # The author is who the sheet names.
    return titled_document(f"{name}: {heading(plan)}", heading(plan), plan.title.get("made by", ""), paper)


def titled_document(title: str, foot: str, author: str, paper: str) -> tuple[DocumentType, float]:
    """The same for what is not made of one plan: `foot` stands in the footer; `author` is whom the user names, or "".

    Raises:
        InputError: the paper is unknown.
    """
    if paper not in styles.PAPERS:
        raise InputError(f"paper {one_line(paper)} is unknown; {' and '.join(styles.PAPERS)} are there")
    document = styles.new_document(paper)
    width = (styles.PAPERS[paper][0] - 2 * styles.MARGIN) / Mm(1)
    set_properties(document, title, author)
    add_footer(document, foot, width)
    return document, width


def add_title_block(body: Body, plan: Plan, width: float) -> None:
    """The title block's entries as a table of `width` mm."""
    entries = title_block(plan)
    label, value = 22.0, width / _PAIRS_ACROSS - 22.0
    rows: list[list[Cell]] = []
    for start in range(0, len(entries), _PAIRS_ACROSS):
        pairs = [*entries[start : start + _PAIRS_ACROSS], *[("", "")] * _PAIRS_ACROSS][:_PAIRS_ACROSS]
        rows.append([cell for word, text in pairs for cell in ([(styles.HEAD, word)], [(styles.CELL, text)])])
    body.add(table_xml([label, value] * _PAIRS_ACROSS, (), rows, "Title block of the drawing"))


def add_signatures(body: Body, width: float) -> None:
    """Boxes for names, signatures and dates; one row, which no page can split."""
    body.paragraph(HEADING, "Signatures")
    labels = [f"{role}: {what}" for role in ("measured by", "reviewed by") for what in ("name", "signature", "date")]
    body.add(box_grid_xml(Boxes(labels, len(labels), width)))


def set_properties(document: DocumentType, title: str, author: str = "") -> None:
    """Title and dates; the author is never the account that runs the program."""
    properties = document.core_properties
    properties.title = title[:255]
    properties.author = properties.last_modified_by = one_line(author)[:255]
    properties.comments = properties.subject = properties.keywords = ""
    properties.created = properties.modified = datetime.now(UTC).replace(tzinfo=None, microsecond=0)
    properties.revision = 1


def add_footer(document: DocumentType, foot: str, width: float, page: str = "page") -> None:
    """`foot` at the left, `page 1 of 2` at the right of a page `width` mm wide; `page` is what a page is called."""
    paragraph: Any = document.sections[0].footer.paragraphs[0]
    style: Any = document.styles["Footer"]
    style.paragraph_format.tab_stops.clear_all()
    style.paragraph_format.tab_stops.add_tab_stop(Mm(width), WD_TAB_ALIGNMENT.RIGHT)
    paragraph.add_run(f"{foot}\t{page} ")
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
