"""Notes on edges, and notes that hold everywhere: the rules of `notes.lark`; their size is read as any size is."""

from __future__ import annotations

import re
from decimal import Decimal
from functools import cache
from typing import Any, Literal

from sizewright.notation.amounts import decimal
from sizewright.notation.build import span_of
from sizewright.notation.grammar import make_parser
from sizewright.notation.model import ONCE, Chamfer, Repeat, Size, Span
from sizewright.notation.model_surfaces import Edge, EdgeNote, ForAll
from sizewright.notation.parser import Parser
from sizewright.notation.parsing import read_whole
from sizewright.notation.tokens import Token
from sizewright.text.errors import CalloutError

WORDS = {
    "SIZE": "a size", "WORD": "a word of the trade", "UNLESS": "UNLESS OTHERWISE SPECIFIED", "ISO_13715": "",
    "PLACE": "",
    "STATE": "-0.3", "COLON": "", "COMMA": "", "MM": "", "INCH": "", "PLACES": "", "TYPICAL": "TYP", "$END": "the end",
}  # fmt: skip
# The text does not tell how often.
_EVERYWHERE = Repeat(None)
_EDGES = re.compile(r"\b(?:break|broken|de-?burr(?:ed)?|burrs?|edges?|sharp)\b")
_ROUNDED = re.compile(r"\b(?:fillets?|rounds?|radi(?:i|us)|bends?|corners?)\b")
_WORKED = re.compile(r"\b(?:break|broken|de-?burr(?:ed)?|remove[ds]?|burrs?)\b")
Part = EdgeNote | ForAll | Edge


class _Sized:
    """A note with its size still as text: the words before it, the text, the words after it."""

    __slots__ = ("after", "count", "size", "words")

    def __init__(self, words: str, size: Token | None, after: tuple[str, ...], count: int | None) -> None:
        self.words, self.size, self.after, self.count = words, size, after, count


class NotesBuilder:
    """Rules of `notes.lark`."""

    def word(self, children: list[Token]) -> Token:
        return children[0]

    def unit(self, children: list[Token]) -> Token:
        return children[0]

    def after(self, children: list[Token]) -> Token:
        return children[-1]

    def sized_note(self, children: list[Token]) -> _Sized:
        at = next(n for n, token in enumerate(children) if token.type == "SIZE")
        return _Sized(_words(children[:at]), children[at], *_after(children[at + 1 :]))

    def worded_note(self, children: list[Token]) -> _Sized:
        return _Sized(_words(children), None, (), None)

    def edge(self, children: list[Token]) -> Edge:
        tokens = {token.type: token for token in children}
        upper, lower = _state(tokens["STATE"])
        place: Literal["outside", "inside"] | None = None
        if "PLACE" in tokens:
            place = "outside" if tokens["PLACE"][0] in "oOeE" else "inside"
        unit: Literal["mm", "inch"] | None = "mm" if "MM" in tokens else "inch" if "INCH" in tokens else None
        return Edge(upper, lower, unit, place, _EVERYWHERE, span_of(*children))

    def edges(self, children: list[Any]) -> tuple[Edge, ...]:
        return tuple(child for child in children if isinstance(child, Edge))


@cache
def _parser() -> Parser:
    return make_parser(("notes", "terminals", "words"), ("note",), NotesBuilder())


def read_note(text: str, offset: int) -> tuple[Part, ...]:
    """The notes of `text`, which stands at `offset` in the callout.

    Raises:
        CalloutError: it does not read, or its size is none that such a note can have.
    """
    read = read_whole(_parser(), text, "note", offset, WORDS)
    if isinstance(read, tuple):
        return tuple(each._replace(span=(each.span[0] + offset, each.span[1] + offset)) for each in read)
    whole = (offset, offset + len(text))
    size, place = None, whole
    if read.size is not None:
        start, end = span_of(read.size)
        place = (start + offset, end + offset)
        size = _size(text[start:end].rstrip(" "), place[0])
    return (_note(read, size, place, whole),)


def _note(read: _Sized, size: Size | Chamfer | None, place: Span, whole: Span) -> Part:
    words = read.words
    angle = isinstance(size, Size) and size.kind == "angle"
    if "draft" in words:
        if not angle:
            raise CalloutError("a draft without its angle", *place, "ALL DRAFT ANGLES 3°")
        assert isinstance(size, Size)
        return ForAll(words, size, read.after, whole)
    if angle:
        raise CalloutError("an angle where a size is meant", *place, "a length")
    if isinstance(size, Size) and _ROUNDED.search(words) and not _WORKED.search(words):
        return ForAll(words, size._replace(kind="radius"), read.after, whole)
    if isinstance(size, Chamfer) and re.search(r"\bcham", words) and not _WORKED.search(words):
        return ForAll(words, size, read.after, whole)
    if isinstance(size, Size) and re.search(r"\bcham", words) and not _EDGES.search(words):
        return ForAll(words, Chamfer(size.measure), read.after, whole)
    if not _EDGES.search(words):
        raise CalloutError("a note that tells neither edges, radii nor chamfers", *whole, "BREAK SHARP EDGES 0.2 MAX")
    if size is None and not _WORKED.search(words):
        raise CalloutError("a note on edges without what to do with them", *whole, "BREAK SHARP EDGES 0.2 MAX")
    if isinstance(size, Size) and size.kind == "radius" and not _WORKED.search(words):
        return ForAll(words, size, read.after, whole)
    return EdgeNote(words, size, read.after, _repeat(read), whole)


def _repeat(read: _Sized) -> Repeat:
    """A note on edges holds for all of them; a single edge is one."""
    if read.count is not None:
        return Repeat(read.count)
    one = re.search(r"\b(?:edge|corner)\b", read.words) and not re.search(r"\b(?:all|any|every)\b", read.words)
    return ONCE if one else _EVERYWHERE


def _words(tokens: list[Token]) -> str:
    text = " ".join(token.lower().strip(" ,:=") for token in tokens)
    text = re.sub(r"\bunless (?:otherwise )?(\w+)(?: otherwise)?", r"unless otherwise \1", " ".join(text.split()))
    return re.sub(r"\b(?:to|=)$", "", text.replace("unles ", "unless ")).strip()


def _after(tokens: list[Token]) -> tuple[tuple[str, ...], int | None]:
    """The words after the size, and a count that stands among them."""
    words: list[str] = []
    count: int | None = None
    for token in tokens:
        if token.type == "COMMA":
            continue
        if token.type == "PLACES":
            figure = re.search(r"\d+", token)
            assert figure is not None
            if count is not None or int(figure[0]) == 0:
                raise CalloutError("a second count, or a count of 0", *span_of(token), "(4 PLACES)")
            count = int(figure[0])
        elif token.type != "TYPICAL":
            words.append(_words([token]))
    return tuple(word for word in words if word), count


def _size(text: str, offset: int) -> Size | Chamfer:
    """The size in a note, read by the main language at its place."""
    from sizewright.notation.read import read_folded

    callout, notes = read_folded(" " * offset + text)
    place = (offset, offset + len(text))
    if notes:
        raise CalloutError(notes[0].text, *place)
    feature = callout.features[0]
    if len(callout.features) == 1 and isinstance(feature, Chamfer) and feature.repeat == ONCE:
        return feature
    if len(callout.features) == 1 and isinstance(feature, Size) and feature.kind in ("length", "radius", "angle"):
        if feature.repeat != ONCE or feature.modifiers or feature.notes or feature.through or feature.total:
            raise CalloutError("something beside the size of a note", *place, "one size")
        return feature
    raise CalloutError("a note whose size is none of an edge, a radius or an angle", *place, "0.2 MAX, R0.5, 0.5 x 45°")


def _state(token: Token) -> tuple[Decimal, Decimal]:
    """Upper and lower bound of an edge: one number is the far limit, the other is zero (ISO 13715)."""
    span = span_of(token)
    text = token.replace(" ", "")
    figures = [(sign, decimal(figure, span)) for sign, figure in re.findall(r"([+-]?)(\d+(?:[.,]\d+)?|[.,]\d+)", text)]
    first = figures[0][1]
    if text[0] == "±" or text.startswith(("+/-", "+-")):
        return first, -first
    values = [-figure if sign == "-" else figure for sign, figure in figures]
    if len(values) == 1:
        values.append(Decimal(0))
    if values[0] == values[1]:
        raise CalloutError("two bounds that are the same", *span, "-0.1/-0.5")
    return max(values), min(values)
