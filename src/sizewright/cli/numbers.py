"""Numbers given on the command line: sizes in the unit asked for, exact."""

from __future__ import annotations

import argparse
from decimal import Decimal, InvalidOperation


def size(text: str) -> Decimal:
    """A size above zero, with a decimal point or comma.

    Raises:
        argparse.ArgumentTypeError: it is none.
    """
    try:
        value = Decimal(text.strip().replace(",", "."))
    except InvalidOperation:
        raise argparse.ArgumentTypeError(f"{text!r} is not a number") from None
    if not value.is_finite() or not 0 < value < 100_000 or len(value.as_tuple().digits) > 15:
        raise argparse.ArgumentTypeError(f"{text!r} is not the size of a part")
    return value
