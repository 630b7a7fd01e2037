"""The table of instrument kinds: one row of `kinds.csv` a kind, read on first use."""

from __future__ import annotations

import csv
from collections.abc import Mapping
from decimal import Decimal
from fractions import Fraction
from functools import cache
from importlib import resources
from types import MappingProxyType

from sizewright.instruments.model import Kind
from sizewright.text.errors import InputError
from sizewright.text.numbers import Number

_TABLE = "kinds.csv"
_PARTS = {"'": 60, '"': 3600}


class UnknownKindError(InputError):
    """No kind of that name; `near` lists the names that look like it, nearest first."""

    def __init__(self, name: str, near: tuple[str, ...]) -> None:
        """`name` is the kind asked for, as typed."""
        hint = f"; near: {', '.join(near)}" if near else ""
        super().__init__(f"no instrument kind {name!r}{hint}")
        self.name = name
        self.near = near


def kind(name: str) -> Kind:
    """The kind called `name`; case and doubled blanks do not matter.

    Raises:
        UnknownKindError: there is none; the error names the near ones.
    """
    found = kinds().get(" ".join(name.lower().split()))
    if found is None:
        raise UnknownKindError(name, near(name, tuple(kinds())))
    return found


@cache
def kinds() -> Mapping[str, Kind]:
    """All kinds by name, simplest first. Lengths in mm, angles in degrees."""
    text = (resources.files("sizewright.instruments") / _TABLE).read_text(encoding="utf-8")
    rows = csv.DictReader(line for line in text.splitlines() if not line.startswith("#"))
    return MappingProxyType({made.name: made for made in sorted(map(_kind, rows), key=lambda made: made.rank)})


def near(word: str, known: tuple[str, ...]) -> tuple[str, ...]:
    """The words of `known` that look like `word`, nearest first, three at most."""
    from difflib import get_close_matches  # only a wrong word needs it

    asked = word.lower()
    found = get_close_matches(asked, known, n=3, cutoff=0.6)
    found += [name for name in known if asked and asked in name and name not in found]
    return tuple(found[:3])


def angle(text: str) -> Fraction:
    """Degrees from `1.5`, `5'` (arc minutes) or `10"` (arc seconds).

    Raises:
        ValueError: anything else.
    """
    part = _PARTS.get(text[-1:], 1)
    return Fraction(text if part == 1 else text[:-1]) / part


def _kind(row: dict[str, str]) -> Kind:
    return Kind(
        name=row["kind"],
        reaches=frozenset(row["reaches"].split(" | ")),
        direct=row["direct"] == "yes",
        attribute=row["attribute"] == "yes",
        rank=int(row["rank"]),
        least_inside=_decimal(row["least_inside"]),
        greatest=Decimal(row["greatest"]),
        access=row["access"],
        field_check=row["field_check"],
        method=row["method"].replace(" | ", "; "),
        mistakes=row["mistakes"],
        mpe_constant=_number(row["mpe_constant"]),
        mpe_slope=_decimal(row["mpe_slope"]),
        repeatability=_number(row["repeatability"]),
        resolution=_number(row["resolution"]),
        source=row["source"],
        mpe_extra=_decimal(row["mpe_extra"]) or Decimal(0),
        transfer=_decimal(row["transfer"]) or Decimal(0),
        read=row["read"],
        check=row["check"],
    )


def _decimal(cell: str) -> Decimal | None:
    return Decimal(cell) if cell else None


def _number(cell: str) -> Number | None:
    return angle(cell) if cell[-1:] in _PARTS else _decimal(cell)
