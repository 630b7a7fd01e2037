"""Instrument cards as DOCX: one upright page a card, to be printed and laminated, readable in grey.

A page: the name, what it measures with the QR code of its key facts, its scale or principle, the check and the steps,
usual mistakes, the crib's own items, check points and an uncertainty budget, cautions.
"""

from __future__ import annotations

import io
from collections.abc import Sequence
from typing import Any

from sizewright.output import docx_card_styles as card_styles
from sizewright.output import docx_styles as styles
from sizewright.output.card_rows import CAUTIONS, budget_rows, field_check_sentence, item_rows, sentence
from sizewright.output.card_scales import CardPicture, pictures_of
from sizewright.output.docx_card_parts import CardWriter
from sizewright.output.pictures.drawing import png_of
from sizewright.output.pictures.scale_pen import DOTS_PER_INCH
from sizewright.output.qr import qr_png
from sizewright.output.safe import one_line
from sizewright.text.errors import InputError
from sizewright.training import card_words as words
from sizewright.training.cards import Card

QR_WIDTH = 35.0
_QR_COLUMN = 38.0
_NARROW = 95.0  # mm; pictures up to this stand side by side
_GAP = 4.0
_MOST_HEIGHT = {"A4": 90.0, "Letter": 72.0}  # mm of pictures above each other
_CODE = "The code holds the key facts as text: a phone's camera shows them without a network."
_MOST_BESIDE = 0.75  # of the width; what pictures leave is too narrow for text beyond
_TALL = 80.0  # mm; beside such a picture there is room for all
_LEFT = 0.54  # of the width, for check, steps and mistakes
_EDGE = 3.5
_FEW = 4
_ENLARGED = 1.12


def cards_docx(cards: Sequence[Card], paper: str = "A4") -> bytes:
    """The cards as the bytes of a DOCX file on `paper`, A4 or Letter.

    Raises:
        InputError: the paper is neither.
    """
    if paper not in styles.PAPERS:
        raise InputError(f"paper {one_line(paper)} is unknown; {' and '.join(styles.PAPERS)} are there")
    document, width = card_styles.card_document(paper, f"Instrument cards: {one_line(cards[0].source)}")
    writer = CardWriter(document, width)
    for card in cards:
        _Page(writer, card, paper).add()
    stream = io.BytesIO()
    document.save(stream)
    return stream.getvalue()


class _Page:
    """One card on its page, `width` mm between the margins."""

    def __init__(self, writer: CardWriter, card: Card, paper: str) -> None:
        self.to, self.card, self.width, self.paper = writer, card, writer.width, paper

    def add(self) -> None:
        """Append the whole card."""
        body = self.to.document
        pictures = pictures_of(self.card)
        # A card without scale and budget and with few items has little on it: larger, it is read from further off.
        plain = self.card.example is None and all(each.scalable for each in pictures)
        self.to.large = plain and len(self.card.items) <= _FEW
        self.to.text(body, card_styles.NAME, sentence(self.card.kind.name))
        self._top()
        self._middle([self._enlarged(each) for each in pictures])
        self.to.text(body, card_styles.HEAD, "In the crib")
        head, rows, shares = item_rows(self.card)
        self.to.grid(body, self.width, shares, head, rows, "The crib's own items of this kind")
        self.to.text(body, card_styles.HEAD, "Cautions")
        self.to.text(body, card_styles.TEXT, " ".join((*self.card.cautions, *CAUTIONS)))

    def _top(self) -> None:
        text, code = self.to.layout([self.width - _QR_COLUMN, _QR_COLUMN])
        self.to.head(text, "What it measures")
        self.to.text(text, card_styles.TEXT, f"{sentence(words.measures(self.card))}. {words.manner(self.card)}")
        self.to.head(text, "Where it reaches")
        for phrase in self.card.access:
            self.to.text(text, card_styles.BULLET, sentence(phrase))
        self.to.head(text, "How far it may be wrong")
        for line in words.error_sentences(self.card):
            self.to.text(text, card_styles.TEXT, sentence(line))
        facts = words.key_facts(self.card)
        self.to.picture(code, qr_png(facts), QR_WIDTH, f"QR code with the key facts as text:\n{facts}")
        self.to.text(text, card_styles.TEXT, _CODE)
        self.to.between()

    def _enlarged(self, picture: CardPicture) -> CardPicture:
        return picture._replace(width=picture.width * _ENLARGED) if self.to.large else picture

    def _middle(self, pictures: Sequence[CardPicture]) -> None:
        """Pictures, check, steps, mistakes and budget, as the shape of the pictures has it."""
        wide = [each for each in pictures if each.width > _NARROW]
        taken = sum(each.width + _GAP for each in pictures)
        if wide:
            self._stacked(pictures)
        elif taken > self.width * _MOST_BESIDE:
            for cell, each in zip(self.to.layout([self.width / len(pictures)] * len(pictures)), pictures, strict=True):
                self._shown(cell, each)
        else:
            self._beside(pictures, taken)
            return
        self.to.between()
        left, right = self._parted()
        self._check_and_use(left)
        self._mistakes(left)
        self._uncertainty(right)

    def _parted(self) -> tuple[Any, Any]:
        left, right = self.to.layout([self.width * _LEFT, self.width * (1 - _LEFT)])
        return left, right

    def _stacked(self, pictures: Sequence[CardPicture]) -> None:
        height = 0.0
        for each in pictures:
            height += each.pen.height
            if height <= _MOST_HEIGHT[self.paper]:
                self._shown(self.to.document, each)

    def _shown(self, holder: Any, picture: CardPicture) -> None:
        """A picture under its title, with the reading below it."""
        self.to.head(holder, picture.title)
        self.to.picture(holder, _print(picture), picture.width, picture.words)
        self.to.text(holder, card_styles.TEXT, _reading(picture))

    def _beside(self, pictures: Sequence[CardPicture], taken: float) -> None:
        """Pictures at the left, what to read and to do at the right; the rest there too where they are tall."""
        *cells, text = self.to.layout([*(each.width + _GAP for each in pictures), self.width - taken])
        for cell, each in zip(cells, pictures, strict=True):
            self.to.picture(cell, _print(each), each.width, each.words)
        for each in pictures:
            self.to.head(text, each.title)
            self.to.text(text, card_styles.TEXT, _reading(each))
        self._check_and_use(text)
        if any(each.pen.height > _TALL for each in pictures):
            self._mistakes(text)
            self._uncertainty(text, self.width - taken)
            return
        self.to.between()
        left, right = self._parted()
        self._mistakes(left)
        self._uncertainty(right)

    def _check_and_use(self, holder: Any) -> None:
        self.to.head(holder, "Check before use")
        self.to.text(holder, card_styles.TEXT, field_check_sentence(self.card))
        self.to.head(holder, "How to use it")
        number = card_styles.new_list(self.to.document)
        for step in self.card.steps:
            card_styles.numbered(self.to.text(holder, card_styles.STEP, sentence(step)), number)

    def _mistakes(self, holder: Any) -> None:
        self.to.head(holder, "Usual mistakes, and what to do instead")
        for each in self.card.mistakes:
            paragraph = self.to.text(holder, card_styles.BULLET, sentence(each.mistake), strong=True)
            paragraph.add_run(f": {each.instead}" if each.instead else "")

    def _uncertainty(self, holder: Any, width: float = 0) -> None:
        self.to.head(holder, "What uncertainty to expect")
        if self.card.example is not None:
            self.to.text(holder, card_styles.TEXT, f"Example: {words.example_title(self.card)}.")
            head, rows, shares = budget_rows(self.card)
            room = (width or self.width * (1 - _LEFT)) - _EDGE
            self.to.grid(holder, room, shares, head, rows, "Uncertainty budget of the example")
        for line in words.example_sentences(self.card):
            self.to.text(holder, card_styles.TEXT, line)


def _reading(picture: CardPicture) -> str:
    return f"{sentence('; '.join(picture.lines)).rstrip('.')}."


def _print(picture: CardPicture) -> bytes:
    """The picture fine enough for an office printer: half as fine as a sheet of scales, whose lines are measured."""
    return png_of(picture.pen.drawing, DOTS_PER_INCH // 2)
