"""Numbers given on the command line: sizes in the unit asked for, exact."""

from __future__ import annotations

import argparse
from decimal import Decimal, InvalidOperation


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
