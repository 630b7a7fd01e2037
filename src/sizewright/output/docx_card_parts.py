"""Headings, lines, pictures and tables of a DOCX of instrument cards."""

from __future__ import annotations

import io
from collections.abc import Sequence
from typing import Any

from docx.document import Document as DocumentType
from docx.shared import Mm

from sizewright.output import docx_card_styles as card_styles
from sizewright.output.safe import visible


class CardWriter:
    """Writes into a document, or into a cell of one, in named styles; `width` is in mm between the margins.

    A style is found once and then set by its identifier: looking it up by name each time costs more than all else.
    While `large` is set, the large form of each style that has one is taken.
    """

    def __init__(self, document: DocumentType, width: float) -> None:
        self.document, self.width, self.large = document, width, False
        self._ids: dict[str, str] = {str(style.name): style.style_id for style in document.styles}

    def text(self, holder: Any, style: str, text: str, strong: bool = False) -> Any:
        """Append a paragraph; the empty one that a cell begins with is taken first. `strong` makes the text bold."""
        paragraph = holder.paragraphs[0] if self._untouched(holder) else holder.add_paragraph()
        paragraph._p.style = self._id(style)
        run = paragraph.add_run(visible(text))
        if strong:
            run._r.style = self._ids["Strong"]
        return paragraph

    def _id(self, style: str) -> str:
        """The identifier of a style, or of its large form on a card with little on it."""
        usual = self._ids[style]
        return self._ids.get(style + card_styles.LARGE, usual) if self.large else usual

    def head(self, holder: Any, text: str) -> None:
        """Append a heading, without space above it where it begins a cell."""
        self.text(holder, card_styles.HEAD_FIRST if self._untouched(holder) else card_styles.HEAD, text)

    def between(self) -> None:
        """A little space, which parts two tables too."""
        self.text(self.document, card_styles.GAP, "")

    def picture(self, holder: Any, png: bytes, width: float, about: str) -> None:
        """Append a picture `width` mm wide with its alternative text."""
        paragraph = self.text(holder, card_styles.PICTURE, "")
        inline = paragraph.runs[0].add_picture(io.BytesIO(png), width=Mm(width))._inline
        inline.docPr.set("descr", about)

    def layout(self, widths: Sequence[float]) -> list[Any]:
        """A row of cells without borders."""
        return self._table(self.document, card_styles.LAYOUT, widths, 1)[0]

    def grid(
        self, holder: Any, width: float, shares: Sequence[float], head: Sequence[str], rows: Sequence[Sequence[str]],
        about: str,
    ) -> None:  # fmt: skip
        """Append a table with borders and a head that repeats; `about` is for people who cannot see it."""
        widths = [width * share / sum(shares) for share in shares]
        made = self._table(holder, card_styles.GRID, widths, len(rows) + 1, about)
        for at, (cells, texts) in enumerate(zip(made, [head, *rows], strict=True)):
            for cell, text in zip(cells, texts, strict=True):
                self.text(cell, card_styles.SMALL if at else card_styles.COLUMN, text)

    def _table(self, holder: Any, style: str, widths: Sequence[float], rows: int, about: str = "") -> list[list[Any]]:
        table: Any = holder.add_table(rows, len(widths))
        if not isinstance(holder, DocumentType):
            holder._tc.p_lst[-1].style = self._ids[card_styles.GAP]  # a cell has to end with a paragraph
        table._tbl.tblPr.style = self._ids[style]
        return card_styles.dressed(table, style, widths, about)

    @staticmethod
    def _untouched(holder: Any) -> bool:
        """Whether `holder` is a cell in which nothing stands yet."""
        if isinstance(holder, DocumentType):
            return False
        first, *rest = holder._tc.p_lst
        return not rest and not len(first)
