"""Texts that the grammar would read in one way and people in another: looked for before anything else is read."""

import re
from decimal import Decimal

from sizewright.text.errors import CalloutError

# Abbreviations after which a point belongs to the number as often as to the word (inch sizes have no zero before it).
_SHARED_POINT = re.compile(
    r"(?<![A-Za-z.])(?P<word>holes?|places?|plcs?|pl|off|csk|c'?sink|s\.?f|b\.?c|p\.?c\.?d|k\.?w|ga|gauge)\.(?P<figures>\d+)",
    re.IGNORECASE,
)
_PER_CENT = re.compile(r"[^%A-Za-z]*±(?P<share> ?[\d.,]+ ?%)")
_STACKED_CLASS = re.compile(
    r"[Ø ]*(\d*[.,]?\d+) ?\n[Ø ]*(?P<second>(\d*[.,]?\d+) ?(?:[A-Za-z]{1,2}\d{1,2}|(?:RC|LC|LT|LN|FN) ?\d{1,2}))",
    re.IGNORECASE,
)
_NEAR = Decimal("1.01")  # two limits are closer than this, two sizes of a part seldom


def refuse_doubtful(text: str) -> None:
    """Refuse what would be read as something a thousand times as large, or as something else altogether.

    Raises:
        CalloutError: a point between a word and a figure; a tolerance in per cent of a size; two limits below each
            other with a class, which would be that of the second as a size of its own.
    """
    point = _SHARED_POINT.search(text)
    if point is not None:
        hint = f"{point['word']} .{point['figures']} or {point['word']}. {point['figures']}"
        raise CalloutError("the point can be the word's or the number's", *_one_at(point.end("word")), hint)
    share = _PER_CENT.match(text)
    if share is not None:
        raise CalloutError("a tolerance in per cent", *share.span("share"), "its amount, as in 25 ±0.1")
    stacked = _STACKED_CLASS.fullmatch(text)
    if stacked is not None and _near(stacked[1], stacked[3]):
        hint = "the limits with the class beside them: 25 h6 (25.000/24.987)"
        raise CalloutError("two limits with a class below them, or two sizes", *stacked.span("second"), hint)


def _one_at(offset: int) -> tuple[int, int]:
    return offset, offset + 1


def _near(one: str, two: str) -> bool:
    least, most = sorted(Decimal(each.replace(",", ".")) for each in (one, two))
    return most <= _NEAR * least
