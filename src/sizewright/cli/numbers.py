"""Numbers given on the command line: sizes in the unit asked for, exact."""

from __future__ import annotations

import argparse
from decimal import Decimal, InvalidOperation

_MOST_DIGITS = 15
_LARGEST, _FINEST = 5, -12  # of the size of a part, as powers of ten: below 100 000


def size(text: str) -> Decimal:
    """A size above zero, with a decimal point or comma.

    Raises:
        argparse.ArgumentTypeError: it is none.
    """
    value = offset(text)
    if value <= 0:
        raise argparse.ArgumentTypeError(f"{text!r} is not the size of a part")
    return value


def width(text: str) -> Decimal:
    """The width of a zone: a size, or 0.

    Raises:
        argparse.ArgumentTypeError: it is none.
    """
    value = offset(text)
    if value < 0:
        raise argparse.ArgumentTypeError(f"{text!r} is not the width of a zone")
    return value


def figure(text: str) -> Decimal:
    """Any number, with a decimal point or comma: a factor, a ratio, a probability.

    Raises:
        argparse.ArgumentTypeError: it is none.
    """
    value = _number(text)
    if not value.is_finite() or abs(value.adjusted()) > _MOST_DIGITS or len(value.as_tuple().digits) > _MOST_DIGITS:
        raise argparse.ArgumentTypeError(f"{text!r} is no number that can be used here")
    return value


def _number(text: str) -> Decimal:
    try:
        return Decimal(text.strip().replace(",", "."))
    except InvalidOperation:
        raise argparse.ArgumentTypeError(f"{text!r} is not a number") from None


def offset(text: str) -> Decimal:
    """A distance with its sign, or 0.

    Raises:
        argparse.ArgumentTypeError: it is none.
    """
    value = _number(text)
    long = not value.is_finite() or len(value.as_tuple().digits) > _MOST_DIGITS
    if long or not _FINEST <= value.adjusted() < _LARGEST:
        raise argparse.ArgumentTypeError(f"{text!r} is not the size of a part")
    return value
