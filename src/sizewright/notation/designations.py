"""Designations of threads: from the text of one, size, pitch and series, to its model."""

from __future__ import annotations

import re
from collections.abc import Callable
from decimal import Decimal
from fractions import Fraction
from typing import Any, Literal

from sizewright.notation.amounts import decimal, fraction
from sizewright.notation.model import Span, Thread
from sizewright.text.errors import CalloutError
from sizewright.text.numbers import plain

_NUMBER = r"\d*[.,]?\d+"
_TURNS = rf"(?:\d+ ?1/2|{_NUMBER})"
_METRIC = (
    rf"(?P<form>MJ?|Tr) ?(?P<size>{_NUMBER})"
    rf"(?: ?[x*-]? ?(?:Ph ?(?P<lead>{_NUMBER}) ?-? ?P ?(?P<of_lead>{_NUMBER})"
    rf"|(?:P|pitch)? ?=? ?(?P<pitch>{_NUMBER})(?: ?mm|P(?! ?\d))?(?: ?\(? ?P ?(?P<parted>{_NUMBER}) ?\)?)?))?"
)
_INCH_SIZE = rf"(?P<size>(?:#|no\.? ?)\d+|(?:\d+[ -]+)?\d+ ?/ ?\d+|\d+ - \d+/\d+|{_NUMBER}) ?(?:\"|''|in\.?)?"
_INCH = (
    rf"{_INCH_SIZE}(?P<mark>(?<=[\"'n.]))?"
    rf"(?: ?[-x]? ?(?:(?P<pitch>{_NUMBER}) ?P ?- ?(?P<lead>{_NUMBER}) ?L|(?P<tpi>{_TURNS})))?(?:[- ]*TPI)?"
    r"[ -]*(?P<series>UN[RJ]?(?:EF|[CFS])?|(?:stub[ -]*)?acme(?:[ -]*stub)?)?"
)
_NPT = (
    rf"{_INCH_SIZE}(?: OD)?(?:[ -]+(?P<tpi>{_TURNS}))?(?: OD)?[ -]*(?P<gender>[MF]?)(?P<form>NPTF?)"
    r"(?: ?- ?(?P<class_>\d))?"
)
_NPT_FIRST = rf"(?P<gender>)(?P<form>NPTF?)[ -]*{_INCH_SIZE}(?:[ -]+(?P<tpi>{_TURNS}))?(?P<class_>)"
_PIPE = (
    rf"(?:ISO ?\d+(?:-1)? ?-? ?)?(?P<form>G|BSPP|R[cp]?)[ -]*{_INCH_SIZE}"
    rf"(?: ?-? ?(?P<class_>[AB])| ?- ?(?P<tpi>{_TURNS}))?(?: ?\(? ?BSPP? ?\)?| ISO ?\d+(?:-1)?)?"
)
_OTHER_NAME = r"BSPT|BSP(?!P)|BSW|BSF|BSB|BA|NPS[A-Z]?|NPTR|ANPT|PTF|P[TF]|NEF|NC|NF|NS|UNM|BUTT(?:RESS)?|Pg|Rd"
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
    "PT": "a taper pipe thread of ISO 7-1: R outside, Rc inside",
    "PF": "G, the parallel pipe thread of ISO 228-1",
}


def designation(terminal: str, text: str, span: Span) -> Thread:
    """The thread that `text`, called `terminal` by the grammar, designates.

    Raises:
        CalloutError: it is a thread that is not held here, or a number in it is none.
    """
    return _FORMS[terminal](text.strip(), span)


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


def _series_last(text: str, span: Span) -> Thread:
    """A thread whose series stands last: Unified, Acme, NPT, BSPP."""
    if re.search("NPTF?", text, re.IGNORECASE) and not _other_name(text):
        return _npt(_NPT, text, span)
    if re.search("BSPP", text, re.IGNORECASE):
        return Thread("G", _pipe_size(_parts(rf"{_INCH_SIZE}.*", text, span)["size"], span), span=span)
    _refuse_others(text, span)
    return _inch(text, span)


def _name_first(text: str, span: Span) -> Thread:
    """A thread whose name stands first: G, R, Rc, Rp, NPT."""
    if re.match("NPTF?", text, re.IGNORECASE) and not _other_name(text):
        return _npt(_NPT_FIRST, text, span)
    if not re.fullmatch(_PIPE, text, re.IGNORECASE):
        _refuse_others(text, span)
    parts = _parts(_PIPE, text, span)
    form = {"BSPP": "G"}.get(parts["form"].upper(), parts["form"].capitalize())
    if parts["class_"] and form != "G":
        raise CalloutError(f"a class on a pipe thread {form}", *span, "G1/2A: classes belong to G")
    classes = (parts["class_"].upper(),) if parts["class_"] else ()
    tpi = _number(parts["tpi"], span)
    return Thread(form, _pipe_size(parts["size"], span), tpi=tpi, classes=classes, span=span)


def _npt(pattern: str, text: str, span: Span) -> Thread:
    parts = _parts(pattern, text, span)
    classes = (parts["class_"],) if parts["class_"] else ()
    size = _pipe_size(parts["size"], span) + (" OD" if re.search("OD", text, re.IGNORECASE) else "")
    side: Literal["internal", "external"] | None = None
    if parts["gender"]:
        side = "external" if parts["gender"].upper() == "M" else "internal"
    tpi = _number(parts["tpi"], span)
    return Thread(parts["form"].upper(), size, tpi=tpi, classes=classes, side=side, span=span)


def _other_name(text: str) -> str:
    """The name of a thread that is known and not held here; empty where there is none."""
    match = re.search(rf"(?<![a-z])(?:{_OTHER_NAME})(?![a-z])", text, re.IGNORECASE)
    return match[0].upper() if match else ""


def _refuse_others(text: str, span: Span) -> None:
    name = _other_name(text)
    if name:
        hint = _OTHERS.get(name, "its diameters with their limits, as sizes")
        raise CalloutError(f"{name} threads are not held here", *span, hint)


_FORMS: dict[str, Callable[[str, Span], Thread]] = {
    "METRIC_THREAD": _metric,
    "INCH_THREAD": _series_last,
    "BARE_INCH_THREAD": _inch,
    "TAPPED_SIZE": _inch,
    "PIPE_THREAD": _name_first,
}


def _parts(pattern: str, text: str, span: Span) -> dict[str, Any]:
    match = re.fullmatch(pattern, text, re.IGNORECASE)
    if match is None:
        raise CalloutError(
            f'"{text}" does not read as a thread', *span, "M10x1.5, 1/4-20 UNC, Tr40x7, 1/4-18 NPT, G1/2"
        )
    return match.groupdict()


def _number(text: str | None, span: Span) -> Decimal | None:
    if text is None:
        return None
    whole, half, _ = text.partition("1/2")
    value = decimal(whole, span) + (Decimal("0.5") if half else 0)
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
        if decimal(text, span) == 0:
            raise CalloutError("a thread of size 0", *span, "#0-80 for the number size")
        return plain(decimal(text, span))
    value = fraction(text, span).value
    whole, rest = divmod(Fraction(value), 1)
    return " ".join(filter(None, (str(whole) if whole else "", f"{rest}" if rest else "")))


def _pipe_size(text: str, span: Span) -> str:
    """A pipe size is the name of a fraction: `.5` is `1/2`."""
    size = _inch_size(text, span)
    if "." not in size:
        return size
    whole, rest = divmod(Fraction(size), 1)
    return " ".join(filter(None, (str(whole) if whole else "", f"{rest}" if rest else "")))
