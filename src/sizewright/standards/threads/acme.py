"""Acme threads (ASME B1.5): general purpose classes 2G, 3G, 4G; what is known of centralizing and stub Acme."""

from decimal import ROUND_HALF_EVEN, Decimal
from functools import cache
from typing import NamedTuple

from sizewright.standards.errors import NotDefined
from sizewright.standards.tables import rows
from sizewright.standards.threads.exact import exactly, rounded, trimmed
from sizewright.standards.threads.model import Doubt, ThreadLimits

CENTRALIZING = ("2C", "3C", "4C")
DEFAULT_CLASS = "2G"
"""ASME B1.5: the class preferred for general purpose; ASME B1.8 has no other."""


class _ClassRule(NamedTuple):
    """ASME B1.5: coefficients of a class, allowance a D^(1/2), pitch tolerance b D^(1/2) + c P^(1/2) (inches)."""

    allowance: Decimal
    by_diameter: Decimal
    by_pitch: Decimal


CLASSES = {
    "2G": _ClassRule(Decimal("0.008"), Decimal("0.006"), Decimal("0.030")),
    "3G": _ClassRule(Decimal("0.006"), Decimal("0.0028"), Decimal("0.014")),
    "4G": _ClassRule(Decimal("0.004"), Decimal("0.002"), Decimal("0.010")),
}


@exactly
def stub_basic(diameter: Decimal, tpi: Decimal) -> tuple[Decimal, Decimal]:
    """Return the basic pitch and minor diameter of a stub Acme thread in inches: D - 0.3 P, D - 0.6 P (ASME B1.8).

    Its limits are not held here.
    """
    pitch = 1 / tpi
    return rounded(diameter - Decimal("0.3") * pitch, 4), rounded(diameter - Decimal("0.6") * pitch, 4)


@cache
def preferred() -> dict[Decimal, Decimal]:
    """Return the preferred threads per inch by basic major diameter in inches (ASME B1.5)."""
    return {Decimal(row["basic_major"]): Decimal(row["tpi"]) for row in rows("acme_sizes")}


def acme_name(diameter: Decimal, tpi: Decimal) -> str:
    """Write the thread as ASME B1.5 designates it, `1.750-4 ACME`."""
    return f"{rounded(diameter, 3) if rounded(diameter, 3) == diameter else diameter}-{trimmed(tpi)} ACME"


def preferred_tpi(diameter: Decimal) -> Decimal:
    """Return the preferred threads per inch of a basic major diameter in inches (ASME B1.5).

    Raises:
        NotDefined: The diameter is not in the preferred list.
    """
    if diameter not in preferred():
        near = sorted(preferred(), key=lambda d: (abs(d - diameter), d))[:3]
        message = f"{trimmed(diameter)} in is not a preferred diameter of ASME B1.5."
        raise NotDefined(message, tuple(acme_name(d, preferred()[d]) for d in near))
    return preferred()[diameter]


@exactly
def pitch_tolerance(diameter: Decimal, tpi: Decimal, thread_class: str) -> Decimal:
    """Return the unrounded pitch diameter tolerance in inches of screw and nut (ASME B1.5)."""
    rule = CLASSES[thread_class]
    return rule.by_diameter * diameter.sqrt() + rule.by_pitch * (1 / tpi).sqrt()


@exactly
def pitch_allowance(diameter: Decimal, thread_class: str) -> Decimal:
    """Return the allowance in inches on the pitch diameter of the screw, to four places (ASME B1.5)."""
    return rounded(CLASSES[thread_class].allowance * diameter.sqrt(), 4)


def _root_clearance(tpi: Decimal) -> Decimal:
    """Least clearance in inches at root and nut major diameter: 0.020 to 10 tpi, finer 0.010 (ASME B1.5)."""
    return Decimal("0.020") if tpi <= 10 else Decimal("0.010")


def _check_class(thread_class: str) -> None:
    if thread_class in CENTRALIZING:
        raise NotDefined(
            f"Limits of centralizing Acme class {thread_class} are not held here.", (thread_class.replace("C", "G"),)
        )
    if thread_class not in CLASSES:
        raise NotDefined(f"{thread_class} is not a class of general purpose Acme threads.", tuple(CLASSES))


@exactly
def acme_limits(diameter: Decimal, tpi: Decimal, thread_class: str, internal: bool) -> ThreadLimits:
    """Return the limits in inches of a general purpose Acme thread (ASME B1.5).

    Allowance and tolerance are those of the thread's own diameter, also outside the preferred combinations.

    Args:
        diameter: Basic major diameter in inches.
        tpi: Threads per inch; with several starts those of the pitch, not of the lead.
        thread_class: 2G, 3G or 4G.
        internal: True for a nut.

    Raises:
        NotDefined: The class has no limits here, or the pitch is too coarse for the diameter.
    """
    _check_class(thread_class)
    if diameter <= 0 or tpi <= 0 or 2 / tpi > diameter:
        near = tuple(acme_name(d, n) for d, n in preferred().items() if d >= diameter)[:2]
        raise NotDefined(
            f"{trimmed(tpi)} threads per inch are too coarse for an Acme thread of {trimmed(diameter)} in.", near
        )
    pitch = 1 / tpi
    basic_major = rounded(diameter, 4)
    basic_pitch = rounded(diameter - pitch / 2, 4)
    basic_minor = rounded(diameter - pitch, 4)
    tolerance = pitch_tolerance(diameter, tpi, thread_class)
    crest = max(Decimal("0.05") * pitch, Decimal("0.005"))
    clearance = _root_clearance(tpi)
    why = [
        f"pitch tolerance {rounded(tolerance, 4)} in, class {thread_class}, ASME B1.5",
        f"crest tolerance {rounded(crest, 4)} in: 0.05 P, at least 0.005",
        f"root clearance {clearance} in",
    ]
    remarks = ["tolerances for a length of engagement up to 2 D"]
    if preferred().get(diameter) != tpi:
        remarks.append(
            Doubt("not a preferred combination: some tables borrow the tolerance of a preferred diameter of this pitch")
        )
    if internal:
        return ThreadLimits(
            major=(basic_major + clearance, basic_major + 2 * clearance),
            pitch=(basic_pitch, basic_pitch + rounded(tolerance, 4)),
            minor=(basic_minor, rounded(diameter - pitch + crest, 4)),
            why=tuple(why),
            remarks=tuple(remarks),
        )
    allowance = pitch_allowance(diameter, thread_class)
    why.append(f"allowance {allowance} in on the pitch diameter")
    pitch_max = basic_pitch - allowance
    minor_max = basic_minor - clearance
    return ThreadLimits(
        major=(rounded(diameter - crest, 4, ROUND_HALF_EVEN), basic_major),
        pitch=(pitch_max - rounded(tolerance, 4), pitch_max),
        minor=(rounded(minor_max - Decimal("1.5") * tolerance, 4, ROUND_HALF_EVEN), minor_max),
        why=tuple(why),
        remarks=tuple(remarks),
    )
