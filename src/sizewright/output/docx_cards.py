"""Instrument cards as DOCX: one upright page a card, to be printed and laminated, readable in grey.

A page: the name, what it measures with the QR code of its key facts, its scale or principle, the check and the steps,
usual mistakes, the crib's own items, check points and an uncertainty budget, cautions.
"""

from __future__ import annotations

import io
from collections.abc import Sequence
from typing import Any

from docx.document import Document as DocumentType
from docx.shared import Mm

from sizewright.output import docx_card_styles as card_styles
from sizewright.output import docx_styles as styles
from sizewright.output.card_rows import (
    CAUTIONS,
    budget_rows,
    check_rows,
    field_check_sentence,
    item_rows,
    sentence,
)
from sizewright.output.card_scales import CardPicture, pictures_of
from sizewright.output.pictures.scale import scale_png
from sizewright.output.qr import qr_png
from sizewright.output.safe import one_line, visible
from sizewright.text.errors import InputError
from sizewright.training import card_words as words
from sizewright.training.cards import Card

QR_WIDTH = 35.0
_QR_COLUMN = 38.0
_NARROW = 95.0  # mm; two pictures up to this stand side by side
_GAP = 4.0
_MOST_HEIGHT = 90.0  # mm of pictures above each other


def cards_docx(cards: Sequence[Card], paper: str = "A4") -> bytes:
    """The cards as the bytes of a DOCX file on `paper`, A4 or Letter.

    Raises:
        InputError: the paper is neither.
    """
    if paper not in styles.PAPERS:
        raise InputError(f"paper {one_line(paper)} is unknown; {' and '.join(styles.PAPERS)} are there")
    document, width = card_styles.card_document(paper, f"Instrument cards: {one_line(cards[0].source)}")
    for card in cards:
        _Page(document, card, width).add()
    stream = io.BytesIO()
    document.save(stream)
    return stream.getvalue()


class _Page:
    """One card on its page, `width` mm between the margins."""

    def __init__(self, document: DocumentType, card: Card, width: float) -> None:
        self.document, self.card, self.width = document, card, width

    def add(self) -> None:
        """Append the whole card."""
        self.document.add_paragraph(sentence(self.card.kind.name), style=card_styles.NAME)
        self._top()
        self._pictures()
        self._mistakes(self.document)
        self._items()
        self._figures()
        self._cautions()

    def _layout(self, widths: Sequence[float]) -> list[Any]:
        """A row of cells without borders."""
        return _table(self.document, card_styles.LAYOUT, widths, 1)[0]

    def _top(self) -> None:
        text, code = self._layout([self.width - _QR_COLUMN, _QR_COLUMN])
        _head(text, "What it measures", first=True)
        text.add_paragraph(f"{sentence(words.measures(self.card))}. {words.manner(self.card)}", style=card_styles.TEXT)
        _head(text, "Where it reaches")
        for phrase in self.card.access:
            text.add_paragraph(sentence(phrase), style=card_styles.BULLET)
        for line in words.error_sentences(self.card):
            text.add_paragraph(sentence(line), style=card_styles.TEXT)
        facts = words.key_facts(self.card)
        _picture(code.paragraphs[0], qr_png(facts), QR_WIDTH, f"QR code with the key facts as text:\n{facts}")
        code.add_paragraph("Key facts as text: a phone's camera shows them, without a network.", style=card_styles.NOTE)

    def _pictures(self) -> None:
        pictures = pictures_of(self.card)
        narrow = [each for each in pictures if each.pen.width <= _NARROW]
        if not pictures:
            self._check_and_use(self._layout([self.width / 2] * 2))
        elif len(narrow) < len(pictures):
            self._stacked(pictures)
            self._check_and_use(self._layout([self.width / 2] * 2))
        elif sum(each.pen.width + _GAP for each in narrow) > self.width * 0.75:
            for cell, each in zip(self._layout([self.width / len(narrow)] * len(narrow)), narrow, strict=True):
                _show(cell, each)
            self._between()
            self._check_and_use(self._layout([self.width / 2] * 2))
        else:
            self._beside(narrow)

    def _stacked(self, pictures: Sequence[CardPicture]) -> None:
        height = 0.0
        for each in pictures:
            height += each.pen.height
            if height <= _MOST_HEIGHT:
                _show(self.document, each)

    def _beside(self, pictures: Sequence[CardPicture]) -> None:
        """Pictures at the left, what to read and to do at the right."""
        taken = [each.pen.width + _GAP for each in pictures]
        *cells, text = self._layout([*taken, self.width - sum(taken)])
        for cell, each in zip(cells, pictures, strict=True):
            _picture(cell.paragraphs[0], scale_png(each.pen), each.pen.width, each.words)
        for number, each in enumerate(pictures):
            _head(text, each.title, first=not number)
            text.add_paragraph(_reading(each), style=card_styles.TEXT)
        self._check_and_use([text, text])

    def _between(self) -> None:
        self.document.add_paragraph("", style=card_styles.GAP)

    def _check_and_use(self, cells: Sequence[Any]) -> None:
        left, right = cells
        same = left is right
        _head(left, "Check before use", first=not same)
        left.add_paragraph(field_check_sentence(self.card), style=card_styles.TEXT)
        _head(right, "How to use it", first=not same)
        number = card_styles.new_list(self.document)
        for step in self.card.steps:
            card_styles.numbered(right.add_paragraph(sentence(step), style=card_styles.STEP), number)

    def _mistakes(self, holder: Any) -> None:
        _head(holder, "Usual mistakes, and what to do instead")
        for each in self.card.mistakes:
            paragraph = holder.add_paragraph(style=card_styles.BULLET)
            paragraph.add_run(sentence(each.mistake), style="Strong")
            if each.instead:
                paragraph.add_run(f": {each.instead}")

    def _items(self) -> None:
        _head(self.document, "In the crib")
        head, rows, shares = item_rows(self.card)
        _grid(self.document, self.width, shares, head, rows, "The crib's own items of this kind")

    def _figures(self) -> None:
        """Check points at the left, the budget at the right, each where there is one."""
        self._between()
        points = check_rows(self.card)
        half = self.width / 2
        cells = self._layout([half, half] if points else [self.width])
        if points:
            _head(cells[0], "Check before use: what it may show", first=True)
            head, rows, shares = points
            _grid(cells[0], half - _GAP, shares, head, rows, "Check points with both limits, from the permissible error")
        _head(cells[-1], "What uncertainty to expect", first=True)
        if self.card.example is not None:
            cells[-1].add_paragraph(f"Example: {words.example_title(self.card)}.", style=card_styles.TEXT)
            head, rows, shares = budget_rows(self.card)
            _grid(cells[-1], half - _GAP, shares, head, rows, "Uncertainty budget of the example")
        for line in words.example_sentences(self.card):
            cells[-1].add_paragraph(line, style=card_styles.TEXT)

    def _cautions(self) -> None:
        _head(self.document, "Cautions")
        self.document.add_paragraph(" ".join((*self.card.cautions, *CAUTIONS)), style=card_styles.TEXT)


def _show(holder: Any, picture: CardPicture) -> None:
    """A picture under its title, with the reading below it."""
    _head(holder, picture.title, first=hasattr(holder, "tables") and not isinstance(holder, DocumentType))
    _picture(holder.add_paragraph(style=card_styles.PICTURE), scale_png(picture.pen), picture.pen.width, picture.words)
    holder.add_paragraph(_reading(picture), style=card_styles.TEXT)


def _reading(picture: CardPicture) -> str:
    return f"{sentence('; '.join(picture.lines)).rstrip('.')}."


def _head(holder: Any, text: str, first: bool = False) -> None:
    """A heading; the `first` of a cell takes the paragraph that every cell begins with."""
    if first:
        holder.paragraphs[0].style = card_styles.HEAD_FIRST
        holder.paragraphs[0].add_run(text)
    else:
        holder.add_paragraph(text, style=card_styles.HEAD)


def _picture(paragraph: Any, png: bytes, width: float, about: str) -> None:
    paragraph.style = card_styles.PICTURE
    inline = paragraph.add_run().add_picture(io.BytesIO(png), width=Mm(width))._inline
    inline.docPr.set("descr", about)


def _grid(
    holder: Any, width: float, shares: Sequence[float], head: Sequence[str], rows: Sequence[Sequence[str]], about: str
) -> None:
    """A table with borders and a head that repeats."""
    widths = [width * share / sum(shares) for share in shares]
    made = _table(holder, styles.GRID, widths, len(rows) + 1, about)
    for cells, texts, style in ((cells, texts, styles.HEAD if not i else card_styles.SMALL)
                                for i, (cells, texts) in enumerate(zip(made, [head, *rows], strict=True))):  # fmt: skip
        for cell, text in zip(cells, texts, strict=True):
            cell.paragraphs[0].style = style
            cell.paragraphs[0].add_run(visible(text))


def _table(holder: Any, style: str, widths: Sequence[float], rows: int, about: str = "") -> list[list[Any]]:
    """A table of fixed columns whose rows stay whole; its cells, row by row."""
    if isinstance(holder, DocumentType):
        table: Any = holder.add_table(rows, len(widths))
    else:
        table = holder.add_table(rows, len(widths))
        holder.paragraphs[-1].style = card_styles.GAP  # a cell has to end with a paragraph
    return card_styles.dressed(table, style, widths, about)
