"""How long lines take with a kind of instrument: a table of estimates, which a file of the user's own may replace.

Common practice, no source: they are there to be set to what a class really needs.
"""

from __future__ import annotations

import csv
from collections.abc import Mapping
from decimal import Decimal, InvalidOperation
from functools import cache
from importlib import resources
from math import ceil
from pathlib import Path
from types import MappingProxyType
from typing import NamedTuple

from sizewright.instruments.kinds import kind
from sizewright.sheet.files import file_text
from sizewright.text.errors import InputError

_TABLE = "times.csv"
_COLUMNS = ("kind", "prepare", "line", "reading", "all_units")
_OPTIONAL = "all_units"
_LONGEST = 1440  # a day: what takes longer is no exercise


class Times(NamedTuple):
    """Minutes with one kind: `prepare` once for a task, `line` once for a line, `reading` once for a reading.

    `all_units` tells that one thing shows every unit, so that a crib's entries in mm and inches may be the same thing.
    """

    prepare: Decimal
    line: Decimal
    reading: Decimal
    all_units: bool = False

    def minutes(self, lines: int, readings: int) -> int:
        """Whole minutes for a task of `lines` lines and `readings` readings, rounded up; 1 at least."""
        exact = self.prepare + lines * self.line + readings * self.reading
        return max(1, ceil(exact))


@cache
def usual_times() -> Mapping[str, Times]:
    """The estimates that ship with the package, by kind."""
    text = (resources.files("sizewright.training") / _TABLE).read_text(encoding="utf-8")
    return MappingProxyType(parse_times(text, "times of the package"))


def times_of(path: Path | None) -> Mapping[str, Times]:
    """The usual times, with those of the CSV file `path` in the place of the kinds it names.

    Raises:
        InputError: the file cannot be opened, lacks a column, or has a row that is no estimate; the row is named.
    """
    if path is None:
        return usual_times()
    text, _ = file_text(path)
    return MappingProxyType({**usual_times(), **parse_times(text, str(path), usual=usual_times())})


def parse_times(text: str, source: str, usual: Mapping[str, Times] | None = None) -> dict[str, Times]:
    """The estimates in the CSV text `text`; `source` names it in errors. Without the column all_units it is as usual.

    Raises:
        InputError: a column is missing, or a row is no estimate.
    """
    numbered = [
        (number, line)
        for number, line in enumerate(text.splitlines(), start=1)
        if line.strip() and not line.startswith("#")
    ]
    rows = csv.DictReader((line for _, line in numbered), skipinitialspace=True)
    missing = [name for name in _COLUMNS if name != _OPTIONAL and name not in (rows.fieldnames or ())]
    if missing:
        raise InputError(f"{source}: no column {missing[0]}; the columns are {', '.join(_COLUMNS)}")
    found: dict[str, Times] = {}
    try:
        for row in rows:
            where = f"{source}, line {numbered[rows.line_num - 1][0]}"
            name = _kind(row["kind"] or "", where)
            if name in found:
                raise InputError(f"{where}: {name} stands there twice")
            prepare, line, reading = (
                _minutes(row[each], f"{where}, {each}") for each in ("prepare", "line", "reading")
            )
            found[name] = Times(prepare, line, reading, _all_units(row, name, usual, where))
    except csv.Error as error:
        raise InputError(f"{source}: not a CSV table: {error}") from error
    return found


def _kind(name: str, where: str) -> str:
    try:
        return kind(name).name
    except InputError as error:
        raise InputError(f"{where}: {error}") from error


def _minutes(text: str | None, where: str) -> Decimal:
    try:
        value = Decimal((text or "").strip())
    except InvalidOperation:
        value = Decimal(-1)
    if not value.is_finite() or not 0 <= value <= _LONGEST:
        raise InputError(f"{where}: {(text or '').strip()!r} is no number of minutes; 0 to {_LONGEST} with a point")
    return value


def _all_units(row: Mapping[str, str | None], name: str, usual: Mapping[str, Times] | None, where: str) -> bool:
    word = (row.get(_OPTIONAL) or "").strip().lower()
    if word not in ("", "yes", "no"):
        raise InputError(f"{where}, {_OPTIONAL}: {word!r} is neither yes nor no")
    if word == "" and usual is not None and name in usual:
        return usual[name].all_units
    return word == "yes"
