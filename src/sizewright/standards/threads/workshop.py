"""What the shop needs beside the limits: tap drills, percentage of thread, and which gauge checks which diameter."""

from decimal import Decimal
from functools import cache
from typing import Literal, NamedTuple

from sizewright.standards.errors import NotDefined
from sizewright.standards.tables import rows
from sizewright.standards.threads.exact import exactly, root3, trimmed
from sizewright.standards.threads.model import ThreadLimits
from sizewright.text.numbers import MM_PER_INCH

Unit = Literal["mm", "in"]

TAP_LEADS = (("taper", Decimal(10)), ("plug", Decimal(5)), ("bottoming", Decimal(2)))
"""The chamfered lead of hand taps in pitches, the longest that each has (ASME B94.9, from memory)."""

_TURNS = "may engage two turns at most by ISO 1502, three by ASME B1.2"


class Drill(NamedTuple):
    """A standard inch drill with its exact diameter in inches (ASME B94.11M)."""

    name: str
    diameter: Decimal


class TapDrill(NamedTuple):
    """A drill for a tapped hole.

    Attributes:
        drill: The drill.
        diameter: Its diameter in the unit asked for.
        percent: Percentage of thread that it leaves.
        inside: True where it lies within the limits of the internal minor diameter; None where none were given.
    """

    drill: Drill
    diameter: Decimal
    percent: Decimal
    inside: bool | None


class Check(NamedTuple):
    """One gauge or instrument: which member, what it checks and the size it stands for in the unit of the limits."""

    gauge: str
    member: Literal["GO", "NO-GO", "limits"]
    checks: str
    size: Decimal | tuple[Decimal, Decimal]


@cache
def drills() -> tuple[Drill, ...]:
    """Return all drills of ASME B94.11M to 3 1/2 in, smallest first."""
    found = [Drill(row["designation"], Decimal(row["exact_in"])) for row in rows("drill_sizes")]
    return tuple(sorted(found, key=lambda drill: drill.diameter))


@exactly
def full_depth(pitch: Decimal) -> Decimal:
    """Return 100 percent of thread on the diameter: 3/4 root3 P = 1.299038 P, the sharp-root height of handbooks."""
    return root3() * 3 / 4 * pitch


@exactly
def percent_of_thread(major: Decimal, hole: Decimal, pitch: Decimal) -> Decimal:
    """Return 100 (D - hole) / (1.299038 P) of a 60 degree thread; one unit for all three, unrounded."""
    return (major - hole) / full_depth(pitch) * 100


@exactly
def hole_for_percent(major: Decimal, pitch: Decimal, percent: Decimal) -> Decimal:
    """Return the hole that leaves `percent` of thread: D - 0.01299038 P x percent; one unit, unrounded."""
    return major - full_depth(pitch) * percent / 100


@exactly
def metric_tap_drill(diameter: Decimal, pitch: Decimal) -> Decimal:
    """Return the nominal tap drill d - P in mm of an ISO metric thread (ISO 2306): 77 percent of thread."""
    return diameter - pitch


@exactly
def tap_drills(
    major: Decimal,
    pitch: Decimal,
    percent: Decimal = Decimal(75),
    *,
    minor: tuple[Decimal, Decimal | None] | None = None,
    unit: Unit = "in",
    count: int = 3,
) -> tuple[TapDrill, ...]:
    """Return the standard drills nearest to the hole that leaves `percent` of thread, nearest first.

    Args:
        major: Basic major diameter in `unit`.
        pitch: Pitch in `unit`.
        percent: Percentage of thread wanted.
        minor: Limits of the internal minor diameter in `unit`, the upper one None where it is not known; drills inside
            them come first.
        unit: `in` or `mm`.
        count: How many drills to return.

    Raises:
        NotDefined: The hole lies outside the drills of ASME B94.11M.
    """
    scale = Decimal(1) if unit == "in" else MM_PER_INCH
    wanted = hole_for_percent(major, pitch, percent)
    smallest, largest = drills()[0], drills()[-1]
    if not smallest.diameter * scale <= wanted <= largest.diameter * scale:
        message = f"ASME B94.11M has no drill near {trimmed(wanted.quantize(Decimal('0.001')))} {unit}."
        raise NotDefined(message, (smallest.name, largest.name))
    found = []
    for drill in drills():
        diameter = drill.diameter * scale
        inside = None if minor is None else minor[0] <= diameter <= (minor[1] or major)
        found.append(TapDrill(drill, diameter, percent_of_thread(major, diameter, pitch), inside))
    found.sort(key=lambda tap: (tap.inside is False, abs(tap.diameter - wanted), tap.diameter))
    return tuple(found[:count])


def internal_checks(limits: ThreadLimits) -> tuple[Check, ...]:
    """Return what checks an internal thread: thread plugs for the flanks, plain plugs for the minor diameter.

    Sizes are the product limits; gauge tolerances and wear are those of ISO 1502 or ASME B1.2.
    """
    checks: list[Check] = []
    low, high = limits.pitch
    if low is not None:
        both = "pitch diameter with lead and flank angle errors (virtual size) not too small, and major diameter clear"
        checks.append(Check("thread plug", "GO", both, low))
    if high is not None:
        checks.append(Check("thread plug", "NO-GO", f"pitch diameter alone not too large: {_TURNS}", high))
    low, high = limits.minor
    if low is not None:
        checks.append(Check("plain plug", "GO", "minor diameter not too small", low))
    if high is not None:
        checks.append(Check("plain plug", "NO-GO", "minor diameter not too large", high))
    return tuple(checks)


def external_checks(limits: ThreadLimits) -> tuple[Check, ...]:
    """Return what checks an external thread: thread rings or snaps for the flanks, a micrometer for the crests.

    Sizes are the product limits; gauge tolerances and wear are those of ISO 1502 or ASME B1.2.
    """
    checks: list[Check] = []
    low, high = limits.pitch
    if high is not None:
        both = "pitch diameter with lead and flank angle errors (virtual size) not too large, and minor diameter clear"
        checks.append(Check("thread ring", "GO", both, high))
    if low is not None:
        checks.append(Check("thread ring", "NO-GO", f"pitch diameter alone not too small: {_TURNS}", low))
    low, high = limits.major
    if low is not None and high is not None:
        checks.append(Check("micrometer over the crests", "limits", "major diameter", (low, high)))
    return tuple(checks)
