"""ASME B1.1: tolerance formulas of Unified threads and the rounding of each edition."""

from decimal import ROUND_HALF_EVEN, ROUND_HALF_UP, Decimal
from fractions import Fraction
from functools import cache
from typing import NamedTuple

from sizewright.standards.errors import NotDefined
from sizewright.standards.tables import rows
from sizewright.standards.threads.exact import TWO_THIRDS, exactly, power, root3, rounded, trimmed

ONE_THIRD = Fraction(1, 3)


class Edition(NamedTuple):
    """How an edition of ASME B1.1 rounds; places are decimals of an inch.

    Attributes:
        name: What `why` calls it.
        pitch_places: Places of P = 1/n, None where P stays exact.
        part_places: Places of tolerances and thread heights before they are added to a diameter.
        minor_ties: How a 5 goes when an internal minor diameter is rounded to three places.
        joint_root: True where the UNR root depth is one constant, False where it is the sum of two rounded parts.
        shared_diameters: True where the series with LE = 9 P borrow the diameter of a group for the pitch tolerance.
        printed: True where tables print some limits that the rule does not give; those win.
    """

    name: str
    pitch_places: int | None
    part_places: int
    minor_ties: str
    joint_root: bool
    shared_diameters: bool
    printed: bool


EDITIONS = {
    "2003": Edition(
        name="ASME B1.1-2003 and later, rounding of ASME B1.30",
        pitch_places=8,
        part_places=6,
        minor_ties=ROUND_HALF_UP,
        joint_root=True,
        shared_diameters=False,
        printed=False,
    ),
    "1989": Edition(
        name="ASME B1.1 to 1989, four-place tables",
        pitch_places=None,
        part_places=4,
        minor_ties=ROUND_HALF_EVEN,
        joint_root=False,
        shared_diameters=True,
        printed=True,
    ),
}

# ASME B1.1 paragraph 5.8.1: tolerance of each class as a multiple of the class 2A pitch diameter tolerance.
CLASS_FACTORS = {
    "1A": Decimal("1.5"),
    "2A": Decimal(1),
    "3A": Decimal("0.75"),
    "1B": Decimal("1.95"),
    "2B": Decimal("1.3"),
    "3B": Decimal("0.975"),
}


def edition_of(key: str) -> Edition:
    """Return an edition by its key.

    Raises:
        NotDefined: No such key.
    """
    if key not in EDITIONS:
        raise NotDefined(f"{key} is not an edition of ASME B1.1 held here.", tuple(EDITIONS))
    return EDITIONS[key]


@exactly
def pitch_of(tpi: Decimal, edition: Edition) -> Decimal:
    """Return P = 1/n in inches with the places the edition carries."""
    pitch = 1 / tpi
    return pitch if edition.pitch_places is None else rounded(pitch, edition.pitch_places)


@exactly
def standard_engagement(diameter: Decimal, tpi: Decimal, series: str) -> tuple[Decimal, str]:
    """Return the length of engagement in inches on which tolerances rest, and its rule (ASME B1.1 paragraph 5.8.1).

    D for UNC, UNF and the constant pitches 4, 6 and 8; 9 P for all others, except 1-14 UNS, the former fine thread.
    """
    by_diameter = series in ("UNC", "UNF") or (series == "UN" and tpi in (4, 6, 8))
    if by_diameter or (diameter == 1 and tpi == 14):
        return diameter, "D"
    return 9 / tpi, "9P"


@cache
def _shared_diameters() -> dict[Decimal, Decimal]:
    table = rows("unified_tolerance_diameters")
    return {Decimal(row["basic_major"]): Decimal(row["tolerance_diameter"]) for row in table}


@exactly
def class_2a_tolerance(diameter: Decimal, tpi: Decimal, series: str, edition: Edition) -> Decimal:
    """Return the class 2A pitch diameter tolerance in inches, to six places (ASME B1.1 paragraph 5.8.1).

    0.0015 D^(1/3) + 0.0015 LE^(1/2) + 0.015 P^(2/3).
    """
    pitch = pitch_of(tpi, edition)
    engagement, rule = standard_engagement(diameter, tpi, series)
    if rule == "9P":
        engagement = 9 * pitch
        if edition.shared_diameters:
            diameter = _shared_diameters().get(diameter, diameter)
    by_size = Decimal("0.0015") * (power(diameter, ONE_THIRD) + engagement.sqrt())
    return rounded(by_size + Decimal("0.015") * power(pitch, TWO_THIRDS), 6)


@exactly
def major_tolerance(tpi: Decimal, thread_class: str, edition: Edition) -> Decimal:
    """Return Td in inches of the external major diameter: 0.06 P^(2/3), class 1A 0.09 P^(2/3) (ASME B1.1 8.3.1)."""
    factor = Decimal("0.09") if thread_class == "1A" else Decimal("0.06")
    return rounded(factor * power(pitch_of(tpi, edition), TWO_THIRDS), edition.part_places)


@exactly
def minor_tolerance(diameter: Decimal, tpi: Decimal, thread_class: str, edition: Edition, factor: Decimal) -> Decimal:
    """Return TD1 in inches of the internal minor diameter (ASME B1.1 paragraph 5.8.2), times `factor`."""
    pitch = pitch_of(tpi, edition)
    small = Decimal("0.05") * power(pitch, TWO_THIRDS) + Decimal("0.03") * pitch / diameter - Decimal("0.002")
    most = min(small, Decimal("0.394") * pitch)
    coarse = Decimal("0.25") * pitch - Decimal("0.40") * pitch * pitch
    if thread_class == "3B":
        fine = Decimal("0.23") * pitch - Decimal("1.5") * pitch * pitch
        width = max(most, fine if tpi >= 13 else Decimal("0.12") * pitch)
    elif diameter < Decimal("0.25"):
        width = max(most, coarse)
    else:
        width = coarse if tpi >= 4 else Decimal("0.15") * pitch
    return rounded(width * factor, edition.part_places)


@exactly
def height(sixteenths: int, tpi: Decimal, edition: Edition) -> Decimal:
    """Return `sixteenths`/16 of twice H in inches, rounded as a part: 6 gives 0.649519 P, 10 gives 1.082532 P."""
    return rounded(root3() * sixteenths / 16 * pitch_of(tpi, edition), edition.part_places)


@exactly
def unr_depth(tpi: Decimal, edition: Edition) -> Decimal:
    """Return 11/16 of twice H = 1.190785 P in inches, from major to UNR minor diameter (ASME B1.1 8.3.1)."""
    if edition.joint_root:
        return height(11, tpi, edition)
    return height(10, tpi, edition) + height(1, tpi, edition)


@exactly
def internal_minor(value: Decimal, diameter: Decimal, thread_class: str, upper: bool, edition: Edition) -> Decimal:
    """Round an internal minor limit (inches) as the tables print it.

    From number 6 (0.138) upward three places, in class 3B only for the lower limit; otherwise four.
    """
    if diameter < Decimal("0.138"):
        return rounded(value, 4)
    if thread_class == "3B":
        return rounded(value, 4) if upper else rounded(rounded(value, 3, edition.minor_ties), 4)
    return rounded(value, 3, edition.minor_ties)


@exactly
def engagement_factors(diameter: Decimal, tpi: Decimal, series: str, length: Decimal) -> tuple[Decimal, Decimal, str]:
    """Return the factors on the pitch and on the internal minor tolerance for a stated length of engagement in inches.

    Pitch tolerance: as tabulated from 5 P to 1.5 D (series with LE = D) or to 15 P (the others); beyond, to twice that,
    1.25 times (FED-STD-H28/2B 50.4 and example 5.4). Minor tolerance: 0.5 to 0.33 D, 0.75 to 0.67 D, 1 to 1.5 D,
    1.25 to 3 D (FED-STD-H28/2B 30.1).

    Raises:
        NotDefined: Under 5 P or beyond the reach of those rules.
    """
    _, rule = standard_engagement(diameter, tpi, series)
    least = 5 / tpi
    most = Decimal("1.5") * diameter if rule == "D" else 15 / tpi
    ends = (
        f"{trimmed(rounded(least, 4))} in (5 P)",
        f"{trimmed(rounded(most, 4))} in ({'1.5 D' if rule == 'D' else '15 P'})",
    )
    if not least <= length <= 2 * most or length > 3 * diameter:
        message = f"ASME B1.1 defines no tolerance for a length of engagement of {trimmed(length)} in on this thread."
        raise NotDefined(message, ends)
    pitch_factor = Decimal(1) if length <= most else Decimal("1.25")
    steps = (("0.33", "0.5"), ("0.67", "0.75"), ("1.5", "1"), ("3", "1.25"))
    minor_factor = next(Decimal(f) for reach, f in steps if length <= Decimal(reach) * diameter)
    factors = f"{trimmed(pitch_factor)} x pitch tolerance, {trimmed(minor_factor)} x TD1"
    why = f"LE {trimmed(length)} in stated: {factors}, FED-STD-H28/2B"
    return pitch_factor, minor_factor, why


@cache
def _printed() -> dict[tuple[Decimal, Decimal, str], dict[str, Decimal]]:
    found: dict[tuple[Decimal, Decimal, str], dict[str, Decimal]] = {}
    for row in rows("unified_printed"):
        key = Decimal(row["basic_major"]), Decimal(row["tpi"]), row["class"]
        found.setdefault(key, {})[row["field"]] = Decimal(row["value"])
    return found


def printed_limits(diameter: Decimal, tpi: Decimal, thread_class: str, edition: Edition) -> dict[str, Decimal]:
    """Return limits in inches, by name, that the edition's tables print against its own rounding rule."""
    return _printed().get((diameter, tpi, thread_class), {}) if edition.printed else {}
