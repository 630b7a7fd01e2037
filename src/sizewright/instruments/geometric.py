"""How a geometric characteristic is inspected with hand and bench tools: the rows of `geometric_methods.csv`."""

from __future__ import annotations

import csv
from collections.abc import Mapping
from functools import cache
from importlib import resources
from types import MappingProxyType
from typing import NamedTuple

from sizewright.resolve.characteristic import Characteristic

_TABLE = "geometric_methods.csv"
_GAUGE = "at (M) a functional gauge of the virtual condition that goes over or into the whole feature decides as well"


class Method(NamedTuple):
    """How the part is set up, what is read, and the usual mistakes."""

    set_up: str
    steps: str
    beware: str

    @property
    def text(self) -> str:
        """All of it as one sentence each."""
        return f"{self.set_up}; {self.steps}"


def method_of(characteristic: Characteristic) -> Method | None:
    """The method for `characteristic`, by its zone; None where it is no geometric one."""
    rows = methods()
    shape = "diameter" if characteristic.extra.get("zone_shape") in ("diameter", "sphere") else "plain"
    found = rows.get((characteristic.kind, shape)) or rows.get((characteristic.kind, "plain"))
    if found is None:
        return None
    modifiers = characteristic.extra.get("modifiers")
    if isinstance(modifiers, list) and "M" in modifiers:
        return found._replace(steps=f"{found.steps}; {_GAUGE}")
    return found


@cache
def methods() -> Mapping[tuple[str, str], Method]:
    """All methods by characteristic and case (plain, or diameter where a zone has Ø before it)."""
    text = (resources.files("sizewright.instruments") / _TABLE).read_text(encoding="utf-8")
    rows = csv.DictReader(line for line in text.splitlines() if not line.startswith("#"))
    return MappingProxyType(
        {
            (row["characteristic"], row["case"]): Method(
                row["set_up"], row["steps"].replace(" | ", "; "), row["beware"]
            )
            for row in rows
        }
    )
