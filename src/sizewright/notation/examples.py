"""The table of forms that read: one row a form, with its meaning. The command shows it, the tests run it."""

from __future__ import annotations

import csv
from functools import cache
from importlib import resources
from typing import Literal, NamedTuple


class Example(NamedTuple):
    """A callout that reads, under a sheet's unit, and what it means in words."""

    family: str
    callout: str
    unit: Literal["mm", "inch"]
    meaning: str


@cache
def examples() -> tuple[Example, ...]:
    """The rows of `examples.csv` in their order; `\\n` in a callout stands for a line end."""
    text = (resources.files("sizewright.notation") / "examples.csv").read_text(encoding="utf-8")
    rows = csv.DictReader(line for line in text.splitlines() if not line.startswith("#"))
    return tuple(_example(row) for row in rows)


def _example(row: dict[str, str]) -> Example:
    unit: Literal["mm", "inch"] = "inch" if row["unit"] == "inch" else "mm"
    return Example(row["family"], row["callout"].replace("\\n", "\n"), unit, row["meaning"])
