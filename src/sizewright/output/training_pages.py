"""The pages of a training document: portrait or landscape, with the styles and tables of every other document."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Any

from docx.enum.section import WD_ORIENT
from docx.enum.text import WD_TAB_ALIGNMENT
from docx.shared import Mm

from sizewright.output import docx_styles as styles
from sizewright.output.docx_body import HEADING, Body, file_of
from sizewright.output.docx_frame import titled_document
from sizewright.output.docx_tables import Boxes, Cell, Line, box_grid_xml, table_xml
from sizewright.output.repeatable import WRITTEN, repeatable
from sizewright.output.safe import one_line


class Pages:
    """A document that is written from top to bottom."""

    def __init__(self, title: str, paper: str, *, landscape: bool) -> None:
        """`title` stands on top, in the footer and in the properties; `paper` is A4 or Letter.

        Raises:
            InputError: the paper is unknown.
        """
        self._document, self.width = titled_document(one_line(title), one_line(title), "", paper)
        if not landscape:
            self._upright(paper)
        self._document.core_properties.created = self._document.core_properties.modified = WRITTEN
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

    def _upright(self, paper: str) -> None:
        long, short = styles.PAPERS[paper]
        section = self._document.sections[0]
        section.orientation = WD_ORIENT.PORTRAIT
        section.page_width, section.page_height = short, long
        self.width = (short - 2 * styles.MARGIN) / Mm(1)
        stops: Any = self._document.styles["Footer"]
        stops.paragraph_format.tab_stops.clear_all()
        stops.paragraph_format.tab_stops.add_tab_stop(Mm(self.width), WD_TAB_ALIGNMENT.RIGHT)
