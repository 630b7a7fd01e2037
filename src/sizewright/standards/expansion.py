"""Linear thermal expansion: what a material named in a title block does when it is not at 20 °C (ISO 1)."""

import re
from collections.abc import Mapping
from decimal import Decimal
from functools import cache
from typing import NamedTuple

from sizewright.standards.tables import rows

REFERENCE_TEMPERATURE = Decimal(20)
"""ISO 1: sizes hold at this temperature, in °C."""

_PER_MILLION = Decimal("0.000001")
_GAUGE_STEEL = "gauge block steel"
_BLANKS = re.compile(r"[\s_/]+")


class Expansion(NamedTuple):
    """A coefficient of linear expansion per kelvin, known to within `half_width` (a rectangle)."""

    material: str
    alpha: Decimal
    half_width: Decimal

    def words(self) -> str:
        """Material and coefficient: `aluminium 6061, 23.6e-6 within 2.36e-6 per kelvin`."""
        alpha, half = ((each / _PER_MILLION).normalize() for each in (self.alpha, self.half_width))
        return f"{self.material}, {alpha:f}e-6 within {half:f}e-6 per kelvin"


UNKNOWN = Expansion("a metal not told", 17 * _PER_MILLION, 7 * _PER_MILLION)
"""What stands in where no material is told or known: from near cast iron to near aluminium."""


@cache
def gauge_steel() -> Expansion:
    """The steel of gauge blocks and of most instruments, 11.5e-6 within 1e-6 (ISO 3650, from memory)."""
    found = expansion_of(_GAUGE_STEEL)
    assert found is not None
    return found


@cache
def expansion_of(material: str) -> Expansion | None:
    """The expansion of the material that `material` names, or None where the table has none of that name.

    Of the table's names that stand in the text as words of their own, a grade (it has a figure) decides before a
    family, then the longest: `EN AW-6082 T6` is an aluminium, `stainless steel 316` is that grade.
    Known within 10 % of itself, gauge-block steel within 1e-6 per kelvin.
    """
    text = f" {_plain(material)} "
    fits = [name for name in _names() if f" {name} " in text]
    if not fits:
        return None
    row = _names()[max(fits, key=lambda name: (any(map(str.isdigit, name)), len(name)))]
    alpha = Decimal(row["alpha"]) * _PER_MILLION
    half = _PER_MILLION if row["material"] == _GAUGE_STEEL else alpha / 10
    return Expansion(row["material"], alpha, half)


@cache
def _names() -> Mapping[str, Mapping[str, str]]:
    found = {}
    for row in rows("expansion"):
        for name in (row["material"], *row["names"].split(" | ")):
            found[_plain(name)] = row
    return found


def _plain(text: str) -> str:
    """Lower case, one blank between words; marks that part words but are not part of a grade become blanks."""
    return _BLANKS.sub(" ", re.sub(r"[,;:+()\[\]]", " ", text.lower())).strip()
