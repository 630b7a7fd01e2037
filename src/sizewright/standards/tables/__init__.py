"""The tables of the standards: CSV files with their source on top, each read once, on first use."""

from __future__ import annotations

import csv
from functools import cache
from importlib import resources


@cache
def rows(name: str) -> tuple[dict[str, str], ...]:
    """The rows of table `name` (a file `name.csv` of this folder) as text, by column.

    Lines that begin with `#` state the source and are skipped.
    """
    text = (resources.files(__name__) / f"{name}.csv").read_text(encoding="utf-8")
    return tuple(csv.DictReader(line for line in text.splitlines() if not line.startswith("#")))
