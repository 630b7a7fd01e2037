"""What a shop asks of its instruments, as options shared by the commands that choose or judge by them."""

from __future__ import annotations

import argparse
import datetime
from decimal import Decimal
from typing import TYPE_CHECKING

from sizewright.cli.numbers import figure

if TYPE_CHECKING:
    from sizewright.instruments.demand import Wish

_MOST_RATIO = 1000


def add_wish(parser: argparse.ArgumentParser) -> None:
    """Add `--share`, `--ratio` and `--today`."""
    parser.add_argument(
        "--share", type=_share, default=Decimal("0.1"), help="resolution asked for, as a share of the tolerance (0.1)"
    )
    parser.add_argument(
        "--ratio",
        type=_ratio,
        default=Decimal(4),
        metavar="N",
        help="tolerance asked for over twice the expanded uncertainty, T/2U (4)",
    )
    parser.add_argument(
        "--today", type=_day, metavar="DATE", help="the day by which an instrument is overdue (2026-03-31; today)"
    )


def wish_of(given: argparse.Namespace) -> Wish:
    """The options as a wish; the day is that of the machine's clock where none is given."""
    from sizewright.instruments.demand import Wish

    return Wish(share=given.share, ratio=given.ratio, today=given.today or datetime.date.today())


def _share(text: str) -> Decimal:
    value = figure(text)
    if not 0 < value <= 1:
        raise argparse.ArgumentTypeError(f"{text} is no share; above 0, 1 at most, such as 0.1")
    return value


def _ratio(text: str) -> Decimal:
    value = figure(text)
    if not 0 < value <= _MOST_RATIO:
        raise argparse.ArgumentTypeError(f"{text} is no ratio; above 0, {_MOST_RATIO} at most")
    return value


def _day(text: str) -> datetime.date:
    try:
        return datetime.date.fromisoformat(text)
    except ValueError:
        raise argparse.ArgumentTypeError(f"{text!r} is no day; such as 2026-03-31") from None
