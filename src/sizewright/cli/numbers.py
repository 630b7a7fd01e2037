"""Numbers given on the command line: sizes in the unit asked for, exact."""

from __future__ import annotations

import argparse
from decimal import Decimal, InvalidOperation

_MOST_DIGITS = 15


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
    try:
        value = Decimal(text.strip().replace(",", "."))
    except InvalidOperation:
        raise argparse.ArgumentTypeError(f"{text!r} is not a number") from None
    if not value.is_finite() or abs(value.adjusted()) > _MOST_DIGITS or len(value.as_tuple().digits) > _MOST_DIGITS:
        raise argparse.ArgumentTypeError(f"{text!r} is no number that can be used here")
    return value


def offset(text: str) -> Decimal:
    """A distance with its sign, or 0.

    Raises:
        argparse.ArgumentTypeError: it is none.
    """
    try:
        value = Decimal(text.strip().replace(",", "."))
    except InvalidOperation:
        raise argparse.ArgumentTypeError(f"{text!r} is not a number") from None
    if not value.is_finite() or abs(value) >= 100_000 or len(value.as_tuple().digits) > 15 or value.adjusted() < -12:
        raise argparse.ArgumentTypeError(f"{text!r} is not the size of a part")
    return value
