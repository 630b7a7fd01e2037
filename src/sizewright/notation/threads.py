"""Threads: the rules of `threads.lark`, and how a designation and what follows it make one thread."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from dataclasses import replace
from decimal import Decimal
from fractions import Fraction
from typing import Any, Literal

from lark import Token, Transformer

from sizewright.notation.amounts import decimal, fraction
from sizewright.notation.build import span_of
from sizewright.notation.kinds import DEPENDENT_KINDS, PILOT_HOLE
from sizewright.notation.model import Amount, Feature, Size, Span, Standing, Thread
from sizewright.notation.pieces import RawThread, Tail
from sizewright.text.errors import CalloutError
from sizewright.text.numbers import plain

_NUMBER = r"\d*[.,]?\d+"
_METRIC = (
    rf"(?P<form>MJ?|Tr) ?(?P<size>{_NUMBER})"
    rf"(?: ?[x*-] ?(?:Ph ?(?P<lead>{_NUMBER}) ?-? ?P ?(?P<of_lead>{_NUMBER})"
    rf"|P? ?(?P<pitch>{_NUMBER})(?: ?\(? ?P ?(?P<parted>{_NUMBER}) ?\)?)?))?"
)
_INCH_SIZE = rf"(?P<size>(?:#|no\.? ?)\d+|(?:\d+[ -]+)?\d+ ?/ ?\d+|\d+ - \d+/\d+|{_NUMBER}) ?(?:\"|''|in\.?)?"
_INCH = (
    rf"{_INCH_SIZE}(?P<mark>(?<=[\"'n.]))?"
    rf"(?: ?[-x]? ?(?:(?P<pitch>{_NUMBER}) ?P ?- ?(?P<lead>{_NUMBER}) ?L|(?P<tpi>{_NUMBER})))?"
    r"[ -]*(?P<series>UN[RJ]?(?:EF|[CFS])?|(?:stub[ -]*)?acme(?:[ -]*stub)?)?"
)
_NPT = (
    rf"(?:{_INCH_SIZE}(?:[ -]+(?P<tpi>{_NUMBER}))?[ -]*(?P<form>NPTF?)(?: ?- ?(?P<class_>\d))?"
    rf"|(?P<form_>NPTF?)[ -]*{_INCH_SIZE.replace('size', 'size_')}(?:[ -]+(?P<tpi_>{_NUMBER}))?)"
)
_PIPE = (
    rf"(?:ISO ?\d+(?:-1)? ?-? ?)?(?P<form>G|BSPP|R[cp]?) ?{_INCH_SIZE}"
    r"(?: ?-? ?(?P<class_>[AB]))?(?P<note> ?\( ?BSPP? ?\))?"
)
_OTHER_NAME = r"BSPP|BSPT|BSP|BSW|BSF|BSB|BA|NPS[A-Z]?|NPTR|ANPT|PTF|NEF|NC|NF|NS|UNM|BUTT(?:RESS)?|Pg|Rd"
# What to type instead of a name that is not held, or why it is not.
_OTHERS = {
    "BSPT": "a taper pipe thread of ISO 7-1: R outside, Rc inside",
    "BSP": "G (parallel, ISO 228-1), R or Rc (taper, ISO 7-1)",
    "NC": "UNC, if the drawing means the Unified thread that replaced it",
    "NF": "UNF, if the drawing means the Unified thread that replaced it",
    "NEF": "UNEF, if the drawing means the Unified thread that replaced it",
    "NS": "UNS, if the drawing means the Unified thread that replaced it",
    "ANPT": "NPT, if the general purpose thread is meant",
    "PTF": "NPTF, if the standard dryseal thread is meant",
}
_SIDES: dict[str, Literal["internal", "external"]] = {
    **dict.fromkeys(("ext", "external", "male", "screw", "bolt", "stud", "shaft"), "external"),
    **dict.fromkeys(("int", "internal", "female", "tap", "tapped", "hole", "nut"), "internal"),
}
_STARTS = {
    "single": 1, "double": 2, "two": 2, "triple": 3, "three": 3, "quadruple": 4, "four": 4, "five": 5, "six": 6,
}  # fmt: skip
_GREATEST_STARTS = 12


class ThreadsBuilder(Transformer[Token, Any]):
    """Rules of `threads.lark`."""

    def thread_size(self, children: list[Token]) -> RawThread:
        token = children[0]
        span = span_of(token)
        return RawThread(_FORMS[token.type](token.strip(), span), [], span)

    def thread(self, children: list[Any]) -> RawThread:
        tapped = isinstance(children[0], Token) and children[0].type == "TAP"
        body, *tails = children[1:] if tapped else children
        if isinstance(body, Token):
            body = self.thread_size([body])
        if tapped:
            tails.insert(0, Tail("thread_side", ("TAP", "tap"), span_of(children[0])))
        return RawThread(body.thread, tails, span_of(*children))

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


# ---- designations ----------------------------------------------------------------------------------------------------


def _metric(text: str, span: Span) -> Thread:
    parts = _parts(_METRIC, text, span)
    form = "Tr" if parts["form"].lower() == "tr" else parts["form"].upper()
    lead = parts["lead"] or (parts["pitch"] if parts["parted"] else None)
    pitch = parts["of_lead"] or parts["parted"] or parts["pitch"]
    size = plain(decimal(parts["size"], span))
    return Thread(form, size, _number(pitch, span), lead=_number(lead, span), span=span)


def _inch(text: str, span: Span) -> Thread:
    parts = _parts(_INCH, text, span)
    series = (parts["series"] or "").upper()
    size = _inch_size(parts["size"], span)
    acme = "ACME" in series
    form = ("Stub Acme" if "STUB" in series else "Acme") if acme else "UN"
    return Thread(
        form,
        f'{size}"' if size.isdigit() and parts["mark"] is not None and not acme else size,
        _number(parts["pitch"], span),
        _number(parts["tpi"], span),
        _number(parts["lead"], span),
        "" if acme else series,
        span=span,
    )


def _npt(text: str, span: Span) -> Thread:
    parts = _parts(_NPT, text, span)
    form, size, tpi = (parts[name] or parts[f"{name}_"] for name in ("form", "size", "tpi"))
    classes = (parts["class_"],) if parts["class_"] else ()
    return Thread(form.upper(), _inch_size(size, span), tpi=_number(tpi, span), classes=classes, span=span)


def _pipe(text: str, span: Span) -> Thread:
    parts = _parts(_PIPE, text, span)
    form = {"BSPP": "G"}.get(parts["form"].upper(), parts["form"].capitalize())
    classes = (parts["class_"].upper(),) if parts["class_"] else ()
    return Thread(form, _inch_size(parts["size"], span), classes=classes, span=span)


def _other(text: str, span: Span) -> Thread:
    name = _found(_OTHER_NAME, text).upper()
    size = _found(_INCH_SIZE, text)
    if name == "BSPP" and size:
        return Thread("G", _inch_size(_parts(rf"{_INCH_SIZE}.*", text, span)["size"], span), span=span)
    raise CalloutError(
        f"{name} threads are not held here", *span, _OTHERS.get(name, "its diameters with their limits, as sizes")
    )


_FORMS: dict[str, Callable[[str, Span], Thread]] = {
    "METRIC_THREAD": _metric,
    "TRAPEZOIDAL": _metric,
    "UNIFIED": _inch,
    "TAPPED_SIZE": _inch,
    "ACME": _inch,
    "NPT": _npt,
    "PIPE_G": _pipe,
    "PIPE_R": _pipe,
    "OTHER_THREAD": _other,
}


def _parts(pattern: str, text: str, span: Span) -> dict[str, Any]:
    match = re.fullmatch(pattern, text, re.IGNORECASE)
    if match is None:
        raise CalloutError(
            f'"{text}" does not read as a thread', *span, "M10x1.5, 1/4-20 UNC, Tr40x7, 1/4-18 NPT, G1/2"
        )
    return match.groupdict()


def _found(pattern: str, text: str) -> str:
    match = re.search(pattern, text, re.IGNORECASE)
    return match[0] if match else ""


def _number(text: str | None, span: Span) -> Decimal | None:
    if text is None:
        return None
    value = decimal(text, span)
    if value == 0:
        raise CalloutError("a thread with a pitch or a count of 0", *span, "M10x1.5, 1/4-20 UNC")
    return value


def _inch_size(text: str, span: Span) -> str:
    """A size in one spelling: `#8`, `1/4`, `1 1/2`, `0.250`, `2`; a whole number of inches keeps its mark in `_inch`.

    Raises:
        CalloutError: a fraction that is none.
    """
    number = re.fullmatch(r"(?:#|no\.? ?)(\d+)", text, re.IGNORECASE)
    if number:
        return f"#{int(number[1])}"
    if "/" not in text:
        return plain(decimal(text, span))
    value = fraction(text, span).value
    whole, rest = divmod(Fraction(value), 1)
    return " ".join(filter(None, (str(whole) if whole else "", f"{rest}" if rest else "")))


# ---- what follows ----------------------------------------------------------------------------------------------------


def settle(raw: RawThread) -> tuple[Thread, Tail | None, bool]:
    """The thread with all that was typed after it, its count and whether it is typical.

    Raises:
        CalloutError: two of what a thread has one of, or what a thread cannot have.
    """
    thread, places, typical = replace(raw.thread, span=raw.span), None, False
    for tail in raw.tails:
        match tail.name:
            case "places":
                places = _once(places, tail, tail, "a second count")
            case "typical":
                typical = True
            case "basic":
                raise CalloutError("a basic thread", *tail.span, "a class, as in M10x1.5-6H")
            case _:
                thread = _with(thread, tail)
    return thread, places, typical


def _with(thread: Thread, tail: Tail) -> Thread:
    typed = tail.value[1] if isinstance(tail.value, tuple) else ""
    word = typed.lower().rstrip(".")
    match tail.name:
        case "thread_class":
            if thread.classes:
                raise CalloutError("a second class", *tail.span, "one class, or a pair as in 6H/6g")
            return replace(thread, classes=_classes(typed, thread.form), class_span=tail.span)
        case "hand":
            hand: Literal["left", "right"] = "left" if word.startswith("l") else "right"
            return replace(thread, hand=_once(thread.hand, hand, tail, "both hands"))
        case "starts":
            return replace(thread, starts=_once(thread.starts, _starts(word, tail), tail, "two numbers of starts"))
        case "engagement_group":
            group = _once(thread.engagement, word.strip().upper(), tail, "two groups of engagement")
            return replace(thread, engagement=group)
        case "dashed" if thread.form not in ("M", "MJ", "Tr"):
            raise CalloutError("a class without its letter", *tail.span, "2A for a screw, 2B for a hole")
        case "engaged" | "dashed":
            if tail.value.value == 0:
                raise CalloutError("a length of engagement of 0", *tail.span, "LE .5")
            return replace(thread, engaged=_once(thread.engaged, tail.value, tail, "two lengths of engagement"))
        case "thread_side":
            return replace(thread, side=_once(thread.side, _SIDES[word], tail, "both sides of a thread"))
        case "through":
            return replace(thread, through="through all" if "all" in word else "through")
        case "reference":
            return replace(thread, standing=Standing.REFERENCE)
        case "thread_name" if word.split()[-1] not in ("coarse", "fine"):
            return thread
        case _:
            return replace(thread, notes=(*thread.notes, typed.strip("() ").lower().rstrip(".")))


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


# ---- what belongs to a thread ----------------------------------------------------------------------------------------


def claim_depths(features: list[Feature]) -> Iterator[Feature]:
    """Depths and lengths that stand after a thread are the thread's, but not those of the hole drilled for it."""
    owner: Feature | None = None
    for feature in features:
        if not isinstance(feature, Size) or feature.kind not in DEPENDENT_KINDS:
            owner = feature
        elif feature.kind == "long":
            feature = replace(feature, kind="thread length" if isinstance(owner, Thread) else "length")
        elif feature.kind == "depth" and isinstance(owner, Thread) and PILOT_HOLE not in feature.notes:
            feature = replace(feature, kind="thread depth")
        yield feature
