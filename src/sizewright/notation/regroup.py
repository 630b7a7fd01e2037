"""Pieces regrouped before they are weighed: words and numbers that belong to the piece beside them."""

from __future__ import annotations

from itertools import pairwise

from sizewright.notation.pairs import far_apart
from sizewright.notation.pieces import Piece, RawSize, RawThread, Tail
from sizewright.text.errors import CalloutError


def regrouped(pieces: list[Piece]) -> list[Piece]:
    """`pieces` with every word at the size that it belongs to, and the two limits of one size together.

    Raises:
        CalloutError: a word or a number that may belong to either side.
    """
    _move_drills(pieces)
    _give_drills(pieces)
    return _with_bounds_joined(pieces)


def _move_drills(pieces: list[Piece]) -> None:
    """In `M6 12 DEEP DRILL 16 DEEP` the word belongs to the size behind it, not to the depth before it.

    Raises:
        CalloutError: no size stands behind it, and the depth is a thread's.
    """
    for at, piece in enumerate(pieces):
        raw = piece.body
        if (
            not isinstance(raw, RawSize)
            or not raw.has_mark("DEPTH")
            or not raw.tails
            or raw.tails[-1].name != "process"
        ):
            continue
        after = pieces[at + 1] if at + 1 < len(pieces) else None
        body = after.body if after is not None and after.separator is None else None
        if isinstance(body, RawSize) and (body.has_mark("DEPTH") or body.has_mark("DIAMETER")):
            body.tails.append(raw.tails.pop())
        elif at and isinstance(pieces[at - 1].body, RawThread):
            word, hint = raw.tails[-1], "DRILL Ø5 ↧16 behind the thread's depth, or DRILL ↧16"
            raise CalloutError("the depth of the thread, or of its drill", *word.span, hint)


def _give_drills(pieces: list[Piece]) -> None:
    """`6.8 DRILL & TAP M8`: the first word is of the size before it."""
    for before, after in pairwise(pieces):
        size, thread = before.body, after.body
        if not isinstance(size, RawSize) or not isinstance(thread, RawThread) or thread.drill is None:
            continue
        if size.amount is not None and after.separator is None and {name for name, _ in size.marks} <= {"DIAMETER"}:
            size.tails.append(Tail("process", "drill", thread.drill))


def _with_bounds_joined(pieces: list[Piece]) -> list[Piece]:
    """`MAX 25.02 MIN 24.98` and `25.02 MAX 24.98 MIN` are one size: each word tells the limit beside it.

    Raises:
        CalloutError: one has MAX and the next MIN, and they are not plainly the limits of one size.
    """
    joined = pieces[:1]
    for piece in pieces[1:]:
        before, body = joined[-1].body, piece.body
        beside = piece.separator is None and piece.count is None
        if not beside or not isinstance(before, RawSize) or not isinstance(body, RawSize) or not _in_turn(before, body):
            joined.append(piece)
        elif _are_bounds(before, body):
            assert body.amount is not None
            before.tails += [Tail("to_limit", body.amount, body.amount.span), *body.tails]
            before.span = (before.span[0], body.span[1])
        else:
            hint = "12.1 MAX / 11.9 MIN for the limits of one size, a semicolon between two sizes"
            raise CalloutError("a MAX and a MIN side by side: one size, or two", *body.span, hint)
    return joined


def _bounds(size: RawSize) -> list[str]:
    marked = [name for name, _ in size.marks if name in ("MAX", "MIN")]
    return marked + [tail.value for tail in size.tails if tail.name == "bound"]


def _in_turn(before: RawSize, body: RawSize) -> bool:
    """Whether MAX and MIN stand at two numbers, one at each, or both about the first."""
    words = _bounds(before) + _bounds(body)
    marked = any(name not in ("MAX", "MIN") for name, _ in body.marks)  # R5 MIN is a size of its own
    return not marked and len(words) == 2 and set(words) == {"MAX", "MIN"}


def _are_bounds(before: RawSize, body: RawSize) -> bool:
    """Whether two numbers with a MAX and a MIN are the limits of one size: near enough, the mark before the first."""
    if before.amount is None or body.amount is None or body.marks:
        return False
    first = [name for name, _ in before.marks if name in ("MAX", "MIN")]
    own = [tail for tail in body.tails if tail.name == "bound"]
    odd = [t for t in before.tails if t.name != "bound"] + [t for t in body.tails if t.name not in _MAY_FOLLOW]
    return not odd and len(first) + len(own) == 1 and not far_apart(before.amount, body.amount)


_MAY_FOLLOW = ("bound", "typical", "places", "through", "reference")
