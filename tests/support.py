"""Reading the tests' own tables."""

from __future__ import annotations

import csv
from functools import cache
from pathlib import Path

HERE = Path(__file__).parent


@cache
def table(path: str) -> tuple[dict[str, str], ...]:
    """The rows of a CSV below this folder; lines that begin with # on top of it state the source."""
    with (HERE / path).open(encoding="utf-8", newline="") as file:
        lines = file.readlines()
    start = next(i for i, line in enumerate(lines) if not line.startswith("#"))
    return tuple(csv.DictReader(lines[start:]))


def callout_rows() -> tuple[dict[str, str], ...]:
    """The callouts with their meanings."""
    return table("data/callouts.csv")
