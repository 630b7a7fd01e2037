"""The shape of one line of a sheet, read by the grammar `sheet.lark`."""

from functools import cache
from typing import Literal, NamedTuple

from sizewright.notation.grammar import make_parser
from sizewright.notation.parser import Parser
from sizewright.notation.tokens import Token

Kind = Literal[
    "nothing", "worded", "view", "ballooned", "colonless", "numberlike", "unclear", "unnumbered", "continuation"
]

# Every blank that is not one to the grammar. A full-width form stands 0xFEE0 above the plain character.
BLANKS = (
    "\x1c\x1d\x1e\x1f\x85\xa0\u1680\u2000\u2001\u2002\u2003\u2004\u2005\u2006\u2007\u2008\u2009\u200a"
    "\u2028\u2029\u202f\u205f\u3000"
)
_PLAIN = dict.fromkeys(map(ord, BLANKS), " ") | {0xFEE0 + code: chr(code) for code in range(0x21, 0x7F)}


class Piece(NamedTuple):
    """A stretch of a line and its 0-based offset."""

    text: str
    offset: int

    @property
    def end(self) -> int:
        """The offset just after it."""
        return self.offset + len(self.text)


class Shape(NamedTuple):
    """A line taken apart: its head (a word or a number), its tags, the text after them, and its remark.

    Head and tags are in plain characters, text and remark as typed. `start` and `end` are the 0-based offsets of all
    but indentation and remark.
    """

    kind: Kind = "nothing"
    head: Piece | None = None
    tags: tuple[Piece, ...] = ()
    text: Piece | None = None
    remark: Piece | None = None
    start: int = 0
    end: int = 0


class _Shaper:
    """Rules of `sheet.lark`."""

    def line(self, children: list[Shape | Token]) -> Shape:
        shape = next((child for child in children if isinstance(child, Shape)), Shape())
        last = children[-1] if children else None
        if isinstance(last, Token) and last.type == "REMARK":
            shape = shape._replace(remark=_piece(last))
        return shape

    def worded(self, children: list[Token]) -> Shape:
        return _shape("worded", children)

    def view(self, children: list[Token]) -> Shape:
        return _shape("view", children)

    def ballooned(self, children: list[Token]) -> Shape:
        return _shape("ballooned", children)

    def colonless(self, children: list[Token]) -> Shape:
        return _shape("colonless", children)

    def numberlike(self, children: list[Token]) -> Shape:
        return _shape("numberlike", children)

    def unclear(self, children: list[Token]) -> Shape:
        return _shape("unclear", children)

    def unnumbered(self, children: list[Token]) -> Shape:
        return _shape("unnumbered", children)

    def tag(self, children: list[Token]) -> Token:
        return children[0]

    def continuation(self, children: list[Token]) -> Shape:
        texts = [child for child in children if child.type == "TEXT"]
        return self.line([_shape("continuation", texts), *children[2:]])


def _shape(kind: Kind, tokens: list[Token]) -> Shape:
    pieces = [(token.type, _piece(token)) for token in tokens]
    return Shape(
        kind,
        head=next((piece for name, piece in pieces if name in ("WORD", "VIEW", "BALLOON", "NUMBERLIKE")), None),
        tags=tuple(piece for name, piece in pieces if name in ("ZONE", "CLASS")),
        text=next((piece for name, piece in pieces if name in ("TEXT", "UNCLEAR")), None),
        start=pieces[0][1].offset,
        end=pieces[-1][1].end,
    )


def _piece(token: Token) -> Piece:
    return Piece(str(token), token.start_pos or 0)


@cache
def _parser() -> Parser:
    return make_parser(("sheet",), ("line", "continuation"), _Shaper())


def line_shape(typed: str) -> Shape:
    """The shape of one line, typed without its line end."""
    return _parsed(typed, "line")


def continuation_shape(typed: str) -> Shape:
    """The shape of an indented line that is known to continue a callout."""
    return _parsed(typed, "continuation")


def _parsed(typed: str, start: str) -> Shape:
    shape: Shape = _parser().parse(typed.translate(_PLAIN), start=start)
    return shape._replace(text=_as_typed(shape.text, typed), remark=_as_typed(shape.remark, typed))


def _as_typed(piece: Piece | None, typed: str) -> Piece | None:
    return Piece(typed[piece.offset : piece.end], piece.offset) if piece else None
