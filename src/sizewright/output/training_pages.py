"""The pages of a training document: portrait or landscape, with the styles and tables of every other document."""

from __future__ import annotations

import io
from collections.abc import Iterable, Sequence
from typing import Any

from docx.enum.section import WD_ORIENT
from docx.oxml import OxmlElement
from docx.oxml.ns import qn
from docx.shared import Mm

from sizewright.output import docx_styles as styles
from sizewright.output.docx_tables import Boxes, Cell, Line, add_box_grid, add_table
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
        self.paragraph("Title", title)

    def paragraph(self, style: str, text: str) -> None:
        """Append a paragraph."""
        self._document.add_paragraph(text, style=style)

    def heading(self, text: str) -> None:
        """Append a heading."""
        self.paragraph("Heading 1", text)

    def items(self, title: str, texts: Sequence[str]) -> None:
        """Append a list under its title; nothing at all where it is empty."""
        if texts and title:
            self.heading(title)
        for text in texts:
            self.paragraph(styles.ITEM, f"–\t{text}")

    def table(self, shares: Sequence[float], head: Sequence[Line], rows: Iterable[Sequence[Cell]], about: str) -> None:
        """Append a table as wide as the page, its columns in the proportion of `shares`."""
        widths = [self.width * share / sum(shares) for share in shares]
        add_table(self._document, widths, head, rows, about)

    def boxes(self, labels: Sequence[str], across: int) -> None:
        """Append a grid of boxes as wide as the page."""
        add_box_grid(self._document, Boxes(labels, across, self.width))

    def data(self) -> bytes:
        """The bytes of the file; the same pages give the same bytes."""
        stream = io.BytesIO()
        self._document.save(stream)
        return repeatable(stream.getvalue())

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
