"""Threads: the rules of `threads.lark`, and how a designation and what follows it make one thread."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Any, Literal

from sizewright.notation.amounts import decimal
from sizewright.notation.build import span_of
from sizewright.notation.designations import designation
from sizewright.notation.kinds import DEPENDENT_KINDS, OF_THE_DRILL
from sizewright.notation.model import Amount, Feature, Size, Standing, Thread
from sizewright.notation.pieces import Piece, RawSize, RawThread, Tail
from sizewright.notation.tokens import Token
from sizewright.text.errors import CalloutError

_SIDES: dict[str, Literal["internal", "external"]] = {
    **dict.fromkeys(("ext", "external", "male", "screw", "bolt", "stud", "shaft"), "external"),
    **dict.fromkeys(("int", "internal", "female", "tap", "tapped", "hole", "nut"), "internal"),
    **dict.fromkeys(("tap hole", "tap holes", "tapped hole", "tapped holes"), "internal"),
}
_STARTS = {
    "single": 1, "double": 2, "two": 2, "triple": 3, "three": 3, "quadruple": 4, "four": 4, "five": 5, "six": 6,
}  # fmt: skip
_GREATEST_STARTS = 12
_PIPES = ("G", "R", "Rc", "Rp", "NPT", "NPTF")
_CLASS_HINTS = {
    "M": "6H for a hole, 6g for a screw",
    "MJ": "4H5H for a hole, 4h6h for a screw",
    "Tr": "7H for a nut, 7e for a screw",
    "UN": "2B for a hole, 2A for a screw",
    "Acme": "2G",
    "G": "A or B for an external thread",
}


class ThreadsBuilder:
    """Rules of `threads.lark`."""

    def thread_size(self, children: list[Token]) -> RawThread:
        token = children[0]
        span = span_of(token)
        return RawThread(designation(token.type, str(token), span), [], span)

    def thread(self, children: list[Any]) -> RawThread:
        first = children[0] if isinstance(children[0], Token) else None
        body, *tails = children if first is None else children[1:]
        if isinstance(body, Token):
            body = self.thread_size([body])
        side = "" if first is None else _first_word(first)
        if first is not None and side:
            tails.insert(0, Tail("thread_side", (first.type, side), span_of(first)))
        drilled = first is not None and first.lower().startswith("drill")
        return RawThread(body.thread, tails, span_of(*children), span_of(first) if drilled else None)

    def thread_word(self, children: list[Token]) -> Tail:
        token = children[0]
        return Tail(token.type.lower(), (token.type, token.strip(" -")), span_of(token))

    def thread_tail(self, children: list[Tail]) -> Tail:
        return children[0]

    def thread_in_parentheses(self, children: list[Any]) -> Tail:
        return children[1]  # type: ignore[no-any-return]

    def late_thread_word(self, children: list[Any]) -> Tail:
        return children[-1]  # type: ignore[no-any-return]

    def engaged(self, children: list[Token]) -> Tail:
        token = next(c for c in children if c.type.startswith("ENGAGED"))
        span = span_of(token)
        number, unit = re.search(r"(\d*[.,]?\d+) ?(\D*)$", token).groups()  # type: ignore[union-attr]
        named: Literal["mm", "inch"] | None = None if not unit.strip() else "mm" if unit.lower() == "mm" else "inch"
        name = "dashed" if token.type == "ENGAGED_DASH" else "engaged"
        return Tail(name, Amount(decimal(number, span), unit=named, span=span), span)


def _first_word(first: Token) -> str:
    """The word before a thread that tells its side; empty where it is THREAD alone."""
    if first.type == "TAP":
        return "tap"
    word = re.split(r"[ .]", first.lower())[0]
    return word if word in _SIDES else ""


# ---- what follows ----------------------------------------------------------------------------------------------------


def settle(raw: RawThread) -> tuple[Thread, Tail | None, bool]:
    """The thread with all that was typed after it, its count and whether it is typical.

    Raises:
        CalloutError: two of what a thread has one of, or what a thread cannot have.
    """
    thread, places, typical = raw.thread._replace(span=raw.span), None, False
    for tail in raw.tails:
        match tail.name:
            case "places":
                if places is not None and places.value[0] != tail.value[0]:
                    raise CalloutError("a second count", *tail.span, "one count for a feature")
                places = tail
            case "typical":
                typical = True
            case "basic":
                raise CalloutError("a basic thread", *tail.span, "a class, as in M10x1.5-6H")
            case _:
                thread = _with(thread, tail)
    return thread, places, typical


def _with(thread: Thread, tail: Tail) -> Thread:
    word_of = tail.value[-1] if isinstance(tail.value, tuple) else ""
    typed = word_of if isinstance(word_of, str) else ""
    word = typed.lower().rstrip(".")
    match tail.name:
        case "thread_class":
            if thread.form in _PIPES:
                raise CalloutError(f"a class on a pipe thread {thread.form}", *tail.span, "G1/2A, 1/4-18 NPTF-2")
            if thread.classes:
                raise CalloutError("a second class", *tail.span, "one class, or a pair as in 6H/6g")
            return thread._replace(classes=_classes(typed, thread.form), class_span=tail.span)
        case "hand":
            hand: Literal["left", "right"] = "left" if word.startswith("l") else "right"
            return thread._replace(hand=_once(thread.hand, hand, tail, "both hands"))
        case "starts":
            return thread._replace(starts=_once(thread.starts, _starts(word, tail), tail, "two numbers of starts"))
        case "engagement_group":
            group = _once(thread.engagement, word.strip().upper(), tail, "two groups of engagement")
            return thread._replace(engagement=group)
        case "dashed" if thread.form not in ("M", "MJ", "Tr") or not thread.classes:
            raise CalloutError("a number that is no class", *tail.span, _CLASS_HINTS.get(thread.form, ""))
        case "engaged" | "dashed":
            if tail.value.value == 0:
                raise CalloutError("a length of engagement of 0", *tail.span, "LE .5")
            return thread._replace(engaged=_once(thread.engaged, tail.value, tail, "two lengths of engagement"))
        case "thread_side":
            return thread._replace(side=_once(thread.side, _SIDES[word], tail, "both sides of a thread"))
        case "through":
            return thread._replace(through="through all" if "all" in word else "through")
        case "reference":
            return thread._replace(standing=Standing.REFERENCE)
        case "insert" if re.fullmatch(r"(?:x ?)?[\d.]*\d ?d(?:ia)?(?: (?:engagement|long|lg))?", word):
            return thread._replace(notes=(*thread.notes, word.removeprefix("x").strip()))
        case "insert":
            return thread._replace(insert="; ".join(filter(None, (thread.insert, word.removeprefix("x").strip()))))
        case "finish":
            return thread._replace(finish="; ".join(filter(None, (thread.finish, word))))
        case "thread_name" if word.split()[-1] not in ("coarse", "fine"):
            return thread
        case name if name not in ("note", "thread_name"):
            raise CalloutError("what stands after a size, after a thread", *tail.span, "its class, THRU, LH")
        case _:
            return thread._replace(notes=(*thread.notes, typed.strip("() ").lower().rstrip(".")))


def _once(before: Any, value: Any, tail: Tail, message: str) -> Any:
    if before is not None and before != value:
        raise CalloutError(message, *tail.span, "one for a thread")
    return value


def _classes(typed: str, form: str) -> tuple[str, ...]:
    """Classes in one spelling: inch classes have capitals, metric ones are kept as typed."""
    classes = tuple(typed.replace(" ", "").split("/"))
    return classes if form in ("M", "MJ", "Tr") else tuple(each.upper() for each in classes)


def _starts(word: str, tail: Tail) -> int:
    first = re.split(r"[ -]", word)[0].removesuffix("starts").removesuffix("start")
    count = int(first) if first.isdigit() else _STARTS.get(first)
    if count is None:
        raise CalloutError("how many starts is not told", *tail.span, "2 STARTS")
    if not 1 <= count <= _GREATEST_STARTS:
        raise CalloutError(f"a thread of {count} starts", *tail.span, f"1 to {_GREATEST_STARTS} starts")
    return count


def part_threads(piece: Piece) -> Iterator[Piece]:
    """`Ø5 ↧12 M6`: a depth has no class M, so a thread begins there."""
    raw = piece.body
    if not isinstance(raw, RawSize) or not raw.has_mark("DEPTH"):
        yield piece
        return
    at = [n for n, tail in enumerate(raw.tails) if _thread_class(tail)]
    ends = [*at, len(raw.tails)]
    threads = [
        RawThread(Thread("M", raw.tails[n].value[0].grade), raw.tails[n + 1 : end], raw.tails[n].span)
        for n, end in zip(at, ends[1:], strict=True)
    ]
    raw.tails = raw.tails[: ends[0]]
    yield piece
    yield from map(Piece, threads)


def _thread_class(tail: Tail) -> bool:
    return tail.name == "classes" and len(tail.value) == 1 and tail.value[0].letters == "M"


# ---- what belongs to a thread ----------------------------------------------------------------------------------------


def claim_depths(features: list[Feature]) -> Iterator[Feature]:
    """Depths and lengths that stand after a thread are the thread's, but not those of the hole drilled for it."""
    owner: Feature | None = None
    for feature in features:
        if not isinstance(feature, Size) or feature.kind not in DEPENDENT_KINDS:
            owner = feature
            yield feature
            continue
        owned = feature._replace(kind=_owned_kind(feature, owner))
        owner = owned if feature.kind == "wide" else owner  # no thread is wide: what is deep after it is not the thread
        yield owned


def _owned_kind(size: Size, owner: Feature | None) -> str:
    threaded = isinstance(owner, Thread)
    match size.kind:
        case "wide":
            return "length"
        case "long":
            return "thread length" if threaded else "length"
        case "full thread":
            return "thread length" if isinstance(owner, Thread) and _is_external(owner) else "thread depth"
        case "depth" if threaded and OF_THE_DRILL.isdisjoint(size.notes):
            return "thread depth"
        case _:
            return size.kind


def _is_external(thread: Thread) -> bool:
    """Whether a word or the class says that it is a screw: 2A, 6g."""
    if thread.side is not None or len(thread.classes) != 1:
        return thread.side == "external"
    return thread.classes[0].endswith("A") if thread.form == "UN" else thread.classes[0][-1:].islower()
