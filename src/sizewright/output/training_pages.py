"""The pages of a training document: portrait or landscape, with the styles and tables of every other document."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Any

from docx.enum.section import WD_ORIENT
from docx.oxml import OxmlElement
from docx.oxml.ns import qn
from docx.shared import Mm

from sizewright.output import docx_styles as styles
from sizewright.output.docx_body import HEADING, Body, file_of
from sizewright.output.docx_tables import Boxes, Cell, Line, box_grid_xml, table_xml
from sizewright.output.repeatable import WRITTEN, repeatable
from sizewright.output.safe import one_line
from sizewright.text.errors import InputError


class Pages:
    """A document that is written from top to bottom."""

    def __init__(self, title: str, paper: str, *, landscape: bool) -> None:
        """`title` stands on top, in the footer and in the properties; `paper` is A4 or Letter.

        Raises:
            InputError: the paper is unknown.
        """
        if paper not in styles.PAPERS:
            raise InputError(f"paper {one_line(paper)} is unknown; {' and '.join(styles.PAPERS)} are there")
        self._document = styles.new_document(paper)
        long, short = styles.PAPERS[paper]
        section = self._document.sections[0]
        if not landscape:
            section.orientation = WD_ORIENT.PORTRAIT
            section.page_width, section.page_height = short, long
        self.width = ((long if landscape else short) - 2 * styles.MARGIN) / Mm(1)
        self._footer(title)
        properties = self._document.core_properties
        properties.title = one_line(title)[:255]
        properties.author = properties.last_modified_by = properties.comments = ""
        properties.subject = properties.keywords = ""
        properties.created = properties.modified = WRITTEN
        properties.revision = 1
        self._body = Body()
        self.paragraph("Title", title)

    def paragraph(self, style: str, text: str) -> None:
        """Append a paragraph."""
        self._body.paragraph(style, text)

    def heading(self, text: str) -> None:
        """Append a heading."""
        self.paragraph(HEADING, text)

    def items(self, title: str, texts: Sequence[str]) -> None:
        """Append a list under its title; nothing at all where it is empty."""
        self._body.items(title, texts)

    def table(self, shares: Sequence[float], head: Sequence[Line], rows: Iterable[Sequence[Cell]], about: str) -> None:
        """Append a table as wide as the page, its columns in the proportion of `shares`."""
        widths = [self.width * share / sum(shares) for share in shares]
        self._body.add(table_xml(widths, head, rows, about))

    def boxes(self, labels: Sequence[str], across: int) -> None:
        """Append a grid of boxes as wide as the page."""
        self._body.add(box_grid_xml(Boxes(labels, across, self.width)))

    def data(self) -> bytes:
        """The bytes of the file; the same pages give the same bytes."""
        return repeatable(file_of(self._document, self._body))

    def _footer(self, title: str) -> None:
        paragraph: Any = self._document.sections[0].footer.paragraphs[0]
        paragraph.add_run(f"{one_line(title)}; page ")
        for field, after in (("PAGE", " of "), ("NUMPAGES", "")):
            element = OxmlElement("w:fldSimple")
            element.set(qn("w:instr"), field)
            run, text = OxmlElement("w:r"), OxmlElement("w:t")
            text.text = "1"
            run.append(text)
            element.append(run)
            paragraph._p.append(element)
            if after:
                paragraph.add_run(after)
