"""ANSI B4.1: the standard inch fits RC, LC, LT, LN and FN on the hole basis.

The symbols of this standard are not the classes of ISO 286, and their limits are not converted ones.
"""

import re
from bisect import bisect_left
from decimal import Decimal
from functools import cache
from typing import NamedTuple

from sizewright.standards.errors import NotDefined
from sizewright.standards.fits import Fit, fit
from sizewright.standards.iso286 import Deviations
from sizewright.standards.tables import rows

LARGEST_SIZE = Decimal("19.69")
"""The nominal size, in inches, at which the tables of ANSI B4.1 end."""

FAMILIES: dict[str, str] = {
    "RC": "running and sliding",
    "LC": "locational clearance",
    "LT": "locational transition",
    "LN": "locational interference",
    "FN": "force and shrink",
}
"""The families of standard fits and their names in ANSI B4.1."""

_THOUSANDTH_EXPONENT = -3
_SYMBOL = re.compile(r"([A-Z]{2})([1-9][0-9]?)")
_SOUND = frozenset({"two", "one"})


class InchFit(NamedTuple):
    """A standard fit at a nominal size; all figures in inches.

    Attributes:
        symbol: The fit symbol, such as "RC4".
        hole: Limit deviations of the hole.
        shaft: Limit deviations of the shaft.
        fit: The extreme clearances and the kind of fit.
        hole_class: Letter symbol of the hole in the ABC agreement.
        shaft_class: Letter symbol of the shaft in the ABC agreement, or "" where the standard gives none.
        checked: How far the row of the table is confirmed: "two" or "one" prints, "shaft", "calculated",
            "letter" or "unconfirmed"; the head of the table explains each.
        note: What is odd about the row, or "".
    """

    symbol: str
    hole: Deviations
    shaft: Deviations
    fit: Fit
    hole_class: str
    shaft_class: str
    checked: str
    note: str

    @property
    def name(self) -> str:
        """The name of the fit's family, such as "running and sliding"."""
        return FAMILIES[self.symbol[:2]]

    @property
    def confirmed(self) -> bool:
        """Whether every limit of the row was found in print."""
        return self.checked in _SOUND

    @property
    def doubtful(self) -> bool:
        """Whether the row is unconfirmed and at odds with the arithmetic of the other fits."""
        return self.note.startswith("doubtful")


class _SizeTable(NamedTuple):
    lower_bounds: tuple[Decimal, ...]
    upper_bounds: tuple[Decimal, ...]
    fits: tuple[InchFit, ...]

    def at(self, nominal: Decimal) -> InchFit | None:
        """The row for a size in inches; a size on the bound of two steps belongs to the lower one."""
        index = bisect_left(self.upper_bounds, nominal)
        if index == len(self.fits) or nominal <= self.lower_bounds[index]:
            return None
        return self.fits[index]


def symbols() -> tuple[str, ...]:
    """All fit symbols of ANSI B4.1 in the order of the standard."""
    return tuple(_tables())


def inch_fit(symbol: str, nominal_inch: Decimal) -> InchFit:
    """The fit with a symbol such as "RC4" at a nominal size in inches.

    Raises:
        NotDefined: ANSI B4.1 has no such fit, or not at this size.
    """
    table = _tables().get(symbol)
    found = table.at(nominal_inch) if table else None
    if found is None:
        raise _not_defined(symbol, nominal_inch)
    return found


@cache
def _tables() -> dict[str, _SizeTable]:
    grouped: dict[str, list[dict[str, str]]] = {}
    for row in rows("b4_1_fits"):
        grouped.setdefault(row["fit"], []).append(row)
    return {
        symbol: _SizeTable(
            tuple(Decimal(row["over_in"]) for row in steps),
            tuple(Decimal(row["to_in"]) for row in steps),
            tuple(_inch_fit(row) for row in steps),
        )
        for symbol, steps in grouped.items()
    }


def _inch_fit(row: dict[str, str]) -> InchFit:
    hole = Deviations(_inches(row["hole_lower"]), _inches(row["hole_upper"]))
    shaft = Deviations(_inches(row["shaft_lower"]), _inches(row["shaft_upper"]))
    return InchFit(
        row["fit"],
        hole,
        shaft,
        fit(hole, shaft),
        row["hole_symbol"],
        row["shaft_symbol"],
        row["checked"],
        row["note"],
    )


def _inches(thousandths: str) -> Decimal:
    return Decimal(thousandths).scaleb(_THOUSANDTH_EXPONENT)


def _not_defined(symbol: str, nominal: Decimal) -> NotDefined:
    if nominal <= 0:
        return NotDefined(f"ANSI B4.1 sizes start above 0 in, so {nominal} in has no standard fit")
    if nominal > LARGEST_SIZE:
        return NotDefined(f"ANSI B4.1 sizes end at {LARGEST_SIZE} in, so {nominal} in has no standard fit")
    table = _tables().get(symbol)
    if table is None:
        return NotDefined(f"ANSI B4.1 defines no fit {symbol}", _near(symbol, nominal))
    start = table.lower_bounds[0]
    reason = f"fit {symbol} of ANSI B4.1 starts above {start} in, so it is not defined at {nominal} in"
    return NotDefined(reason, _near(symbol, nominal))


def _near(symbol: str, nominal: Decimal) -> tuple[str, ...]:
    """The nearest fits of the same family that are defined at the size, or the first of every family."""
    match = _SYMBOL.fullmatch(symbol)
    family = [known for known in symbols() if match and known[:2] == match[1] and _tables()[known].at(nominal)]
    if not match or not family:
        return tuple(f"{known}1" for known in FAMILIES)
    number = int(match[2])
    return tuple(sorted(family, key=lambda known: abs(int(known[2:]) - number))[:2])
