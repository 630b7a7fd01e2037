"""Test data of the fits: CSV files with their source on top, and sizes to try."""

from __future__ import annotations

import csv
from decimal import Decimal
from functools import cache
from pathlib import Path

from hypothesis import strategies as st

from sizewright.standards.iso286 import split_class
from sizewright.standards.iso286_tables import range_bounds

_FOLDER = Path(__file__).parent / "data"
_JUST_ABOVE = Decimal("0.001")


@cache
def table(name: str) -> tuple[dict[str, str], ...]:
    """The rows of a data file without the lines that state the source."""
    lines = (_FOLDER / f"{name}.csv").read_text(encoding="utf-8").splitlines()
    return tuple(csv.DictReader(line for line in lines if not line.startswith("#")))


def parts(name: str) -> tuple[str, str]:
    """Letters and grade of a class that is known to be one."""
    split = split_class(name)
    assert split is not None, name
    return split


def both_ends(row: dict[str, str]) -> tuple[Decimal, Decimal]:
    """A size just above the lower bound of a row's range, and its upper bound."""
    return Decimal(row["over_mm"]) + _JUST_ABOVE, Decimal(row["upto_mm"])


def micrometres(value: Decimal) -> Decimal:
    return value.scaleb(3)


BOUNDS = range_bounds()
RANGES = tuple(zip((Decimal(0), *BOUNDS), BOUNDS, strict=False))
SIZES = st.one_of(
    st.sampled_from(BOUNDS),
    st.decimals(min_value="0.001", max_value=3150, places=3),
    st.decimals(min_value="0.1", max_value=500, places=1),
)
