"""Reads the published figures that the thread tests hold the rules against."""

from __future__ import annotations

import csv
from decimal import Decimal
from pathlib import Path

from sizewright.standards.threads.model import Limits, ThreadLimits

_DATA = Path(__file__).parents[1] / "data"


def published(name: str) -> list[dict[str, str]]:
    lines = (_DATA / f"{name}.csv").read_text(encoding="utf-8").splitlines()
    return list(csv.DictReader(line for line in lines if not line.startswith("#")))


def by_name(limits: ThreadLimits) -> dict[str, Decimal | None]:
    found = {}
    for diameter in ("major", "pitch", "minor"):
        found[f"{diameter}_min"], found[f"{diameter}_max"] = getattr(limits, diameter)
    return found


def corrections(cell: str) -> dict[str, Decimal]:
    """Read `minor_max 0.1139; pitch_max 0.1205`."""
    pairs = (part.split() for part in cell.split("; ") if part)
    return {name: Decimal(value) for name, value in pairs}


def expected(row: dict[str, str], fields: tuple[str, ...], differs: str = "") -> dict[str, Decimal]:
    """Published limits of a row by name, with the values named in `differs` in their place."""
    prints = {field: Decimal(row[field]) for field in fields if row.get(field)}
    known = corrections(differs)
    return {field: known.get(field, value) for field, value in prints.items()}


def least(limits: Limits) -> Decimal:
    """Lower limit of a diameter that has to have one."""
    assert limits[0] is not None, "no lower limit"
    return limits[0]


def most(limits: Limits) -> Decimal:
    """Upper limit of a diameter that has to have one."""
    assert limits[1] is not None, "no upper limit"
    return limits[1]


def both(limits: Limits) -> tuple[Decimal, Decimal]:
    """Limits of a diameter that has to have both."""
    return least(limits), most(limits)


def spread(limits: Limits) -> Decimal:
    """Tolerance of a diameter that has to have both limits."""
    return most(limits) - least(limits)


FIELDS = ("major_max", "major_min", "pitch_max", "pitch_min", "minor_max", "minor_min")
