"""From the grammar's rules to pieces: one method a rule, called while the parser reads.

Each method is named after its rule. A family whose rules need more than tokens has its methods in a class of its own,
from which `CalloutBuilder` inherits. Offsets here are offsets into the folded text.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from itertools import takewhile, zip_longest
from typing import Any

from sizewright.notation import amounts
from sizewright.notation.forms import form_of, process_name
from sizewright.notation.model import Amount, Span
from sizewright.notation.pieces import Mark, Piece, RawReady, RawSize, RawThread, Tail
from sizewright.notation.regroup import regrouped
from sizewright.notation.tokens import Token
from sizewright.text.errors import CalloutError

_FIGURES = ["one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve"]
_MAX_COUNT = 5000
_THREAD_WORDS = {
    "THREAD_CLASS", "HAND", "STARTS", "ENGAGEMENT_GROUP", "THREAD_SIDE", "THREAD_NAME", "INSERT", "FINISH",
}  # fmt: skip
_PUNCTUATION = {"LPAR", "RPAR", "LBOX", "RBOX", "BAR", "COMMA", "SLASH", "STACKED", "EQUALS", "TO"}
_WORDS_OF_ALL = {"typical", "places", "through", "reference", "note"}
_UNITS = {"MM": "mm", "INCH": "inch"}


def span_of(*parts: Any) -> Span:
    """The stretch from the first to the last of `parts` (tokens, amounts, tails, marks)."""
    return _span(parts[0])[0], _span(parts[-1])[1]


def _span(part: Any) -> Span:
    if isinstance(part, Token):
        start, end = part.start_pos or 0, part.end_pos or 0
        return start + len(part) - len(part.lstrip(" ")), end  # some marks take the blank before them along
    return part.span  # type: ignore[no-any-return]


def _read(token: Token) -> Amount:
    return amounts.read(token.type, str(token), span_of(token))


class SizesBuilder:
    """Rules of `sizes.lark` that make sizes."""

    def amount(self, children: list[Token]) -> Amount:
        read = _read(children[0])
        if len(children) == 1:
            return read
        unit = children[1]
        if amounts.is_angle(read):
            raise CalloutError("a unit of length after an angle", *span_of(unit))
        return Amount(read.value, read.form, _UNITS[unit.type], span_of(*children))  # type: ignore[arg-type]

    any_amount = amount
    unsigned_zero = amount

    def unit(self, children: list[Token]) -> Token:
        return children[0]

    def signed(self, children: list[Any]) -> Amount:
        sign, amount = children
        value = -amount.value if sign == "-" else amount.value
        return Amount(value, amount.form, amount.unit, span_of(sign, amount))

    def mark(self, children: list[Token]) -> Mark:
        token = children[0]
        if token.type == "BOUND":
            return Mark(_bound_name(token), span_of(token))
        if token.type == "HOLE_FORM":
            return Mark(f"FORM {form_of(token)}", span_of(token))
        if token.type == "AXIS":
            return Mark(f"AXIS {token[0]}", span_of(token))
        if token.type == "HOLE_WORD":
            return Mark("HOLE_THRU" if token[0] in "tT" else "HOLE", span_of(token))
        if token.type == "PROCESS":
            return Mark(f"PROCESS {process_name(token)}", span_of(token))
        if token.type == "CHAMFER" and len(token.strip()) == 1:
            return Mark("CHAMFER_C", span_of(token))
        return Mark(token.type, span_of(token))

    def plain(self, children: list[Any]) -> RawSize:
        return RawSize(children[0], [], children[1:], span=span_of(*children))

    def origin(self, children: list[Any]) -> RawSize:
        typed = 2 if len(children) > 1 and isinstance(children[1], Token) else 1
        return self.plain([self.amount(children[:typed]), *children[typed:]])

    def marked(self, children: list[Any]) -> RawSize:
        marks = [c for c in children if isinstance(c, Mark)]
        amount, *tails = children[len(marks) :]
        return RawSize(amount, marks, tails, span=span_of(*children))

    def marked_zero(self, children: list[Any]) -> RawSize:
        return self.marked([_read(c) if isinstance(c, Token) else c for c in children])

    def middle(self, children: list[Any]) -> RawSize:
        sign, number, _, amount, _, lower = children
        upper = self.signed([sign, _read(number)])
        tails = [Tail("deviation", upper, upper.span), Tail("deviation", lower, lower.span)]
        return RawSize(amount, [], tails, span=span_of(sign, lower))

    def full_radius(self, children: list[Any]) -> RawSize:
        return RawSize(None, [Mark("RADIUS", span_of(children[0]))], children[1:], span=span_of(*children))

    def reference_feature(self, children: list[Any]) -> RawSize | RawThread:
        return _enclosed(children, "reference")

    def basic_feature(self, children: list[Any]) -> RawSize | RawThread:
        return _enclosed(children, "basic")

    marked_reference = reference_feature
    marked_basic = basic_feature


def _enclosed(children: list[Any], standing: str) -> RawSize | RawThread:
    marks = [c for c in children if isinstance(c, Mark)]
    opening, inner, _, *tails = children[len(marks) :]
    if isinstance(inner, RawReady):
        raise CalloutError(
            "brackets about what has a language of its own", *inner.span, "one pair of brackets, or none"
        )
    if isinstance(inner, RawThread):
        if marks or any(tail.name not in _WORDS_OF_ALL for tail in tails):
            odd = tails[0] if tails else inner
            raise CalloutError("a thread in brackets with the marks of a size", *span_of(odd), "(M10x1.5)")
        inner.tails += [Tail(standing, ("", ""), span_of(opening)), *tails]
        return inner
    inner.marks = marks + inner.marks
    return RawSize(None, [], tails, standing, inner, span_of(*children))


def _bound_name(token: Token) -> str:
    word = token.strip()[:3].upper()
    return {"≤": "MAX", "<": "MAX", "≥": "MIN", ">": "MIN"}.get(word[0], word)


Method = Callable[[Any, list[Any]], Tail]


def _of_child(name: str, index: int) -> Method:
    """A method for rule `name` whose tail carries the child at `index`."""

    def method(_self: Any, children: list[Any]) -> Tail:
        return Tail(name, children[index], span_of(*children))

    return method


def _of_amount(name: str) -> Method:
    """A method for rule `name` whose tail carries its number."""

    def method(_self: Any, children: list[Any]) -> Tail:
        return Tail(name, next(c for c in children if isinstance(c, Amount)), span_of(*children))

    return method


def _of_word(name: str) -> Method:
    """A method for rule `name` whose tail carries its word, a token."""

    def method(_self: Any, children: list[Token]) -> Tail:
        word = next(c for c in children if c.type not in _PUNCTUATION)
        return Tail(name, (word.type, word.strip()), span_of(word))

    return method


class TailsBuilder:
    """Rules of `sizes.lark` for what may follow a size."""

    plus_minus = _of_amount("plus_minus")
    deviation = _of_child("deviation", -1)
    to_limit = _of_child("to_limit", 1)
    total = _of_amount("total")
    shorter_side = _of_amount("shorter_side")

    mark_after = _of_word("mark_after")
    typical = _of_word("typical")
    reference = _of_word("reference")
    basic = _of_word("basic")
    through = _of_word("through")
    modifier = _of_word("modifier")
    note = _of_word("note")

    def other_limit(self, children: list[Any]) -> Tail:
        name = "stacked_limit" if children[0].type == "STACKED" else "slash_limit"
        return Tail(name, children[1], span_of(children[1]))

    def marked_limit(self, children: list[Any]) -> Tail:
        _, mark, amount = children
        name = _bound_name(mark) if mark.type == "BOUND" else mark.type
        return Tail("marked_limit", (name, amount), span_of(mark, amount))

    def other_unit(self, children: list[Any]) -> Tail:
        inner, span = children[1], span_of(*children)
        if isinstance(inner, RawThread):
            raise CalloutError("a thread in brackets after a size", *inner.span, "the thread after a semicolon")
        if isinstance(inner, RawReady):
            raise CalloutError("what is no size, in brackets after a size", *inner.span, "a semicolon between the two")
        return Tail("other_unit", inner, span)

    def bound(self, children: list[Token]) -> Tail:
        word = next(c for c in children if c.type not in _PUNCTUATION)
        return Tail("bound", _bound_name(word), span_of(word))

    def deviations_in_parentheses(self, children: list[Any]) -> Tail:
        return Tail("deviations", [c for c in children if isinstance(c, Amount)], span_of(*children))

    def late_word(self, children: list[Token]) -> Tail:
        word = children[-1]
        return Tail(word.type.lower(), (word.type, word.strip()), span_of(word))

    def places(self, children: list[Token]) -> Tail:
        token = next(c for c in children if c.type == "PLACES")
        return counted(token, span_of(token), holes=re.search(r"hol|hl", token, re.IGNORECASE) is not None)

    def count(self, children: list[Token]) -> Tail:
        return counted(children[0], span_of(children[0]), holes=False)


def counted(text: str, span: Span, *, holes: bool) -> Tail:
    """How often, from `4x`, `(4) PLACES` or `two holes`.

    Raises:
        CalloutError: none, or more than any drawing has.
    """
    figure = re.search(r"\d+", text)
    count = int(figure[0]) if figure else _FIGURES.index(re.split(r"[ -]", text.lower().lstrip("- "))[0]) + 1
    if not 1 <= count <= _MAX_COUNT:
        raise CalloutError(f"a count of {count}", *span, f"a count from 1 to {_MAX_COUNT}")
    return Tail("places", (count, holes), span)


class CalloutBuilder(SizesBuilder, TailsBuilder):
    """Rules of `callout.lark`: the pieces in order."""

    def separator(self, children: list[Token]) -> str:
        return children[0].type

    def next(self, children: list[Any]) -> Piece:
        *before, body = children
        separator = next((c for c in before if isinstance(c, str)), None)
        count = next((c for c in before if isinstance(c, Tail)), None)
        return Piece(body, separator, count)

    def next_counted(self, children: list[Any]) -> Piece:
        return Piece(children[-1], children[0].type, self.places(children[1:2]))

    def ending(self, children: list[Token]) -> list[Tail]:
        return [self.places(children)]

    def callout(self, children: list[Any]) -> tuple[list[Tail], list[Piece]]:
        leading = list(takewhile(lambda child: isinstance(child, Tail), children))
        first, *rest = children[len(leading) :]
        pieces = [Piece(first)]
        for child, after in zip_longest(rest, rest[1:]):
            if isinstance(child, Piece):
                pieces.append(child)
            elif _counts_next(child, after):
                after.count = child
            elif isinstance(child, list):
                leading += _of_all(child, pieces)
            else:
                _attach(child, pieces)
        return leading, regrouped(pieces)


def _counts_next(word: Any, after: Any) -> bool:
    """Whether a count that stands behind a comma is that of the feature right behind it: `Ø50 PCD, 6 HOLES Ø5`."""
    counts = isinstance(word, Tail) and word.name == "places"
    return counts and isinstance(after, Piece) and after.separator is None and after.count is None


def _of_all(ending: list[Tail], pieces: list[Piece]) -> list[Tail]:
    """A count on the last line, which holds for every line before it.

    Raises:
        CalloutError: a semicolon or a count of its own parts them.
    """
    if any(piece.separator == "SEMICOLON" or piece.count is not None for piece in pieces):
        raise CalloutError("how often, for which of them", *ending[0].span, "the count before each: 4x Ø10; R5")
    return ending


def _attach(word: Tail, pieces: list[Piece]) -> None:
    """A word after a comma belongs to the feature before it; a thread's word to the last thread."""
    of_thread = word.name.upper() in _THREAD_WORDS
    bodies = [piece.body for piece in pieces if isinstance(piece.body, RawThread)] if of_thread else [pieces[-1].body]
    if not bodies or not isinstance(bodies[-1], RawSize | RawThread):
        raise CalloutError(
            "nothing for this word to belong to", *word.span, f"a {'thread' if of_thread else 'size'} before it"
        )
    bodies[-1].tails.append(word)
