"""ASME B1.1 Table 2: sizes of Unified threads and the series to which their threads per inch belong."""

import re
from decimal import Decimal
from fractions import Fraction
from functools import cache
from typing import NamedTuple

from sizewright.standards.errors import NotDefined
from sizewright.standards.tables import rows
from sizewright.standards.threads.exact import exactly, trimmed

NAMED = ("UNC", "UNF", "UNEF")
CONSTANT = (4, 6, 8, 12, 16, 20, 28, 32)

_SIZE = re.compile(
    r"(?:#|no\.?\s*)(?P<number>\d+)|(?:(?P<whole>\d+)[\s-]+)?(?P<fraction>\d+/[1-9]\d*)|(?P<decimal>\d*\.?\d+)", re.I
)
_SERIES = re.compile(r"UN(?P<root>[RJ]?)(?P<series>C|F|EF|S|)")


class UnifiedSize(NamedTuple):
    """One size of the standard series.

    Attributes:
        name: As written on drawings, `#10` or `1 1/4`.
        basic_major: Basic major diameter in inches.
        series: Series (UNC, UNF, UNEF or UN) by threads per inch.
    """

    name: str
    basic_major: Decimal
    series: dict[Decimal, str]


def _size(row: dict[str, str]) -> UnifiedSize:
    series = {Decimal(row[name]): name for name in NAMED if row[name]}
    for tpi in CONSTANT:
        if row[f"{tpi}-UN"]:
            series.setdefault(Decimal(tpi), row[f"{tpi}-UN"])
    return UnifiedSize(row["size"], Decimal(row["basic_major"]), series)


@cache
def sizes() -> dict[Decimal, UnifiedSize]:
    """Return the sizes of ASME B1.1 Table 2 by basic major diameter in inches."""
    return {size.basic_major: size for size in map(_size, rows("unified_series"))}


@exactly
def basic_major(text: str) -> Decimal:
    """Return the basic major diameter in inches of a size written `#10`, `1/4`, `1 1/2`, `1-1/2` or `.250`.

    A decimal of fewer than four places stands for the standard size that it abbreviates: .312 for 5/16.

    Raises:
        NotDefined: The text is no size.
    """
    match = _SIZE.fullmatch(text.strip().rstrip('"'))
    if match is None:
        raise NotDefined(f"{text} is not a size of a Unified thread.", ("#10", "1/4", ".250"))
    if match["number"]:
        # ASME B1.1: numbered sizes step by 0.013 from 0.060.
        return Decimal("0.060") + Decimal("0.013") * int(match["number"])
    if match["fraction"]:
        value = Fraction(match["fraction"]) + int(match["whole"] or 0)
        return Decimal(value.numerator) / value.denominator
    typed = Decimal(match["decimal"])
    if typed in sizes() or len(match["decimal"].partition(".")[2]) > 3:
        return typed
    meant = [known for known in sizes() if abs(known - typed) <= Decimal("0.0005")]
    return meant[0] if len(meant) == 1 else typed


def size_name(diameter: Decimal) -> str:
    """Name a basic major diameter in inches: `#10`, `1 1/4`, or the decimal where it is no standard size."""
    return sizes()[diameter].name if diameter in sizes() else trimmed(diameter)


def standard_pitches(diameter: Decimal) -> dict[Decimal, str]:
    """Return the series by threads per inch of a basic major diameter in inches; empty where it is no standard size."""
    return sizes()[diameter].series if diameter in sizes() else {}


def series_of(diameter: Decimal, tpi: Decimal) -> str:
    """Return the series of a thread: UNC, UNF, UNEF, UN, or UNS where ASME B1.1 Table 2 does not list it.

    Args:
        diameter: Basic major diameter in inches.
        tpi: Threads per inch.
    """
    return standard_pitches(diameter).get(tpi, "UNS")


def near_threads(diameter: Decimal, tpi: Decimal) -> tuple[str, ...]:
    """Name the standard threads of the size nearest to `diameter` inches, by nearness of threads per inch."""
    size = min(sizes().values(), key=lambda s: (abs(s.basic_major - diameter), s.basic_major))
    nearest = sorted(size.series, key=lambda n: (abs(n - tpi), n))[:3]
    return tuple(f"{size.name}-{trimmed(n)} {size.series[n]}" for n in nearest)


def split_series(series: str) -> tuple[str, str]:
    """Split a series name into the root letter (empty, R or J) and the plain series (UNC, UNF, UNEF, UN, UNS).

    Raises:
        NotDefined: The name is no series of Unified threads.
    """
    if (match := _SERIES.fullmatch(series)) is None:
        raise NotDefined(f"{series} is not a series of Unified threads.", ("UNC", "UNF", "UNEF", "UN", "UNS"))
    return match["root"], f"UN{match['series']}"


def check_series(diameter: Decimal, tpi: Decimal, series: str) -> tuple[str, tuple[str, ...]]:
    """Hold a typed plain series against ASME B1.1 Table 2; return the series that rules and remarks.

    Raises:
        NotDefined: The size has no such pitch in the typed series.
    """
    found = series_of(diameter, tpi)
    thread = f"{size_name(diameter)}-{trimmed(tpi)}"
    if series == found:
        return found, ()
    if series in NAMED or found == "UNS":
        own = [
            f"{size_name(diameter)}-{trimmed(n)} {name}"
            for n, name in standard_pitches(diameter).items()
            if name == series
        ]
        actual = [f"{thread} {found}"]
        near = tuple(dict.fromkeys([*own, *near_threads(diameter, tpi), *actual]))
        raise NotDefined(f"{thread} is not a {series} thread of ASME B1.1.", near)
    return found, (f"{thread} is designated {found} in ASME B1.1, not {series}",)
