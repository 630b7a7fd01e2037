"""Datum features and datum targets: a letter with a mark that tells it, `[A]`, `-A-`, `DATUM B`, `Ø12/A1`."""

from __future__ import annotations

import re

from sizewright.notation.amounts import decimal
from sizewright.notation.model import Amount, DatumFeature, DatumTarget, Form, Portion, Span
from sizewright.notation.pieces import RawReady
from sizewright.text.errors import CalloutError

DOUBTFUL_DATUMS = frozenset("MLSP")
"""Letters that are a modifier's too: as the first datum of a frame they are written with TO before them."""

_UNITS = {"mm": "mm", "in": "inch", '"': "inch"}
_AREA = re.compile(
    r"(?P<round>Ø)? ?(?P<first>[\d.,]*\d)(?: ?x ?(?P<second>[\d.,]*\d))? ?(?P<unit>mm|in|\")?", re.IGNORECASE
)
_NUMBER = re.compile(r"\d+(?:[.,]\d+)?|[.,]\d+")
# Tolerance grades of holes begin here in practice: Ø12/H7 is no target.
_LOWEST_GRADE = 5


def read_datum(text: str, start: int) -> RawReady:
    """The datum feature or target that `text`, which stands at `start`, names.

    Raises:
        CalloutError: its brackets do not match, its area is no number, or it may be a tolerance class.
    """
    span = (start, start + len(text))
    if (text.count("("), text.count("[")) != (text.count(")"), text.count("]")):
        raise CalloutError("a bracket about a datum that is not closed, or closed twice", *span, "[A], -A-, DATUM A")
    target = re.search(r"(?<![A-Za-z\d])(?<!\d )[A-Z]{1,2}\d{1,2}(?![A-Za-z\d])", text, re.IGNORECASE)
    if target is None:
        letter = re.findall(r"(?<![A-Za-z])[A-Za-z]{1,2}(?![A-Za-z])", text)[-1].upper()
        return RawReady((DatumFeature(letter, span=span),), span)
    label = target[0].upper()
    called = "target" in text.lower()
    if not called and int(re.sub(r"\D", "", label)) >= _LOWEST_GRADE:
        hint = f"DATUM TARGET {label}, or the class without the stroke"
        raise CalloutError(f"{label} can be a datum target or a tolerance class", *span, hint)
    rest = text[: target.start()] + " " * len(target[0]) + text[target.end() :]
    return RawReady((DatumTarget(label, _area(rest, start), span=span),), span)


def _area(text: str, start: int) -> Portion | None:
    found = _AREA.search(text)
    return None if found is None else portion(found, start)


def portion(found: re.Match[str], start: int) -> Portion:
    """The portion of a match with the groups round, first, second and unit, in a text that stands at `start`.

    Raises:
        CalloutError: a number that is none, or a portion of nothing.
    """
    unit = _UNITS.get((found["unit"] or "").lower()[:2])
    first = number(found["first"], (start + found.start("first"), start + found.end("first")), unit)
    second = None
    if found["second"]:
        second = number(found["second"], (start + found.start("second"), start + found.end("second")), unit)
    if found["round"] and second is not None:
        raise CalloutError("a diameter and an x", start + found.start(), start + found.end(), "Ø25 or 25x25")
    return Portion(first, second, bool(found["round"]))


def number(text: str, span: Span, unit: str | None, *, may_be_zero: bool = False) -> Amount:
    """A length typed as a decimal, above zero unless it `may_be_zero`.

    Raises:
        CalloutError: it is none.
    """
    if not _NUMBER.fullmatch(text):
        raise CalloutError(f'"{text}" is not a number', *span, "0.1, .004")
    value = decimal(text, span)
    if value == 0 and not may_be_zero:
        raise CalloutError("a length of 0", *span, "a length above 0")
    return Amount(value, Form.DECIMAL, unit, span)  # type: ignore[arg-type]
