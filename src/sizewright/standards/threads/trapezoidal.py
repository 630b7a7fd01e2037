"""ISO metric trapezoidal threads Tr (ISO 2901 to 2904): 30 degree flanks, limits by diameter, pitch and class."""

from decimal import ROUND_HALF_EVEN, Decimal
from functools import cache
from typing import NamedTuple

from sizewright.standards.errors import NotDefined
from sizewright.standards.tables import rows
from sizewright.standards.threads.exact import exactly, mm, rounded, trimmed
from sizewright.standards.threads.iso_metric import starts
from sizewright.standards.threads.model import Doubt, ThreadLimits

CLASSES = {True: ("7H", "8H", "9H"), False: ("7e", "8e", "8c", "9c")}

# ISO 2903: pitch diameter tolerances of threads with several starts.
_START_FACTORS = {1: "1", 2: "1.12", 3: "1.25", 4: "1.4"}
_MANY_STARTS = "1.6"


class BasicDiameters(NamedTuple):
    """Basic diameters of ISO 2904 in mm: pitch d2 = D2, external minor d3, internal minor D1, internal major D4."""

    pitch: Decimal
    external_minor: Decimal
    internal_minor: Decimal
    internal_major: Decimal


@cache
def _plan() -> dict[Decimal, dict[Decimal, bool]]:
    found: dict[Decimal, dict[Decimal, bool]] = {}
    for row in rows("tr_sizes"):
        found.setdefault(Decimal(row["d_mm"]), {})[Decimal(row["pitch_mm"])] = row["preferred"] == "yes"
    return found


@cache
def _pitches() -> dict[Decimal, dict[str, str]]:
    return {Decimal(row["pitch_mm"]): row for row in rows("tr_pitches")}


def tr_name(diameter: Decimal, pitch: Decimal) -> str:
    """Write the thread as ISO 2902 designates it, `Tr40x7`."""
    return f"Tr{trimmed(diameter)}x{trimmed(pitch)}"


def pitches_of(diameter: Decimal) -> tuple[Decimal, ...]:
    """Return the pitches in mm that ISO 2902 gives `diameter` mm, the preferred one first.

    Raises:
        NotDefined: The diameter is not in ISO 2902.
    """
    plan = _plan()
    if diameter not in plan:
        near = sorted(plan, key=lambda d: (abs(d - diameter), d))[:3]
        raise NotDefined(
            f"Tr{trimmed(diameter)} is not a diameter of ISO 2902.", tuple(f"Tr{trimmed(d)}" for d in near)
        )
    return tuple(sorted(plan[diameter], key=lambda pitch: (not plan[diameter][pitch], -pitch)))


def diameters() -> tuple[Decimal, ...]:
    """Return the diameters of ISO 2902 in mm, smallest first."""
    return tuple(sorted(_plan()))


@exactly
def crest_tolerances(pitch: Decimal) -> tuple[Decimal, Decimal]:
    """Return Td of the external major and TD1 of the internal minor diameter in mm, grade 4 (ISO 2903).

    Raises:
        NotDefined: The pitch is not one of ISO 2901.
    """
    if pitch not in _pitches():
        near = sorted(_pitches(), key=lambda p: (abs(p - pitch), p))[:2]
        raise NotDefined(f"{trimmed(pitch)} mm is not a pitch of ISO 2901.", tuple(trimmed(p) for p in near))
    return mm(_pitches()[pitch]["Td_4"]), mm(_pitches()[pitch]["TD1_4"])


def is_standard(diameter: Decimal, pitch: Decimal) -> bool:
    """Tell whether `diameter` and `pitch` (mm) are a combination of ISO 2902."""
    return pitch in _plan().get(diameter, {})


def _clearance(diameter: Decimal, pitch: Decimal) -> Decimal:
    if pitch not in _pitches():
        near = sorted(_pitches(), key=lambda p: (abs(p - pitch), p))[:2]
        message = f"{tr_name(diameter, pitch)} has no pitch of ISO 2901."
        raise NotDefined(message, tuple(tr_name(diameter, p) for p in near))
    return Decimal(_pitches()[pitch]["ac_mm"])


@exactly
def basic_diameters(diameter: Decimal, pitch: Decimal) -> BasicDiameters:
    """Return the basic diameters in mm: d2 = d - P/2, d3 = d - P - 2 ac, D1 = d - P, D4 = d + 2 ac (ISO 2904).

    Raises:
        NotDefined: The pitch is not one of ISO 2901.
    """
    clearance = _clearance(diameter, pitch)
    return BasicDiameters(
        pitch=rounded(diameter - pitch / 2, 3),
        external_minor=rounded(diameter - pitch - 2 * clearance, 3),
        internal_minor=rounded(diameter - pitch, 3),
        internal_major=rounded(diameter + 2 * clearance, 3),
    )


def _pitch_tolerance(diameter: Decimal, pitch: Decimal, grade: str, symbol: str) -> Decimal:
    """Td2 or TD2 in micrometres (ISO 2903, pitch diameter tables)."""
    table = rows("tr_pitch_tolerances")
    inside = [row for row in table if Decimal(row["d_over_mm"]) < diameter <= Decimal(row["d_incl_mm"])]
    for row in inside:
        if Decimal(row["pitch_mm"]) == pitch:
            return Decimal(row[f"{symbol}_{grade}"])
    near = sorted((Decimal(row["pitch_mm"]) for row in inside), key=lambda p: (abs(p - pitch), p))[:3]
    message = f"ISO 2903 gives no tolerances for {tr_name(diameter, pitch)}."
    raise NotDefined(message, tuple(tr_name(diameter, p) for p in near))


@exactly
def _for_starts(tolerance: Decimal, count: int) -> Decimal:
    return rounded(tolerance * Decimal(_START_FACTORS.get(count, _MANY_STARTS)), 0)


@exactly
def root_tolerance(pitch_tolerance: Decimal, deviation: Decimal) -> Decimal:
    """Return Td3 = 1.25 Td2 + |es| in micrometres (ISO 2903); the product is rounded first, a 5 to the even digit."""
    return rounded(Decimal("1.25") * pitch_tolerance, 0, ROUND_HALF_EVEN) + abs(deviation)


def default_class(internal: bool) -> str:
    """Return the class of tolerance quality medium (ISO 2903)."""
    return "7H" if internal else "7e"


@exactly
def tr_limits(
    diameter: Decimal, pitch: Decimal, tolerance_class: str, internal: bool, lead: Decimal | None = None
) -> ThreadLimits:
    """Return the limits in mm of a trapezoidal thread (ISO 2903).

    The class is that of the pitch diameter. The crest diameters d and D1 always have grade 4 and positions h and H.

    Args:
        diameter: Nominal diameter in mm.
        pitch: Pitch in mm.
        tolerance_class: 7H 8H 9H for internal, 7e 8e 8c 9c for external threads.
        internal: True for a nut.
        lead: Lead in mm of a thread of several starts.

    Raises:
        NotDefined: The pitch or the class is not defined for that diameter.
    """
    known = CLASSES[internal]
    if tolerance_class not in known:
        kind = "internal" if internal else "external"
        raise NotDefined(f"Class {tolerance_class} is not defined for {kind} trapezoidal threads.", known)
    basic = basic_diameters(diameter, pitch)
    grade, position = tolerance_class[0], tolerance_class[1]
    symbol = "TD2" if internal else "Td2"
    count = 1 if lead is None else starts(lead, pitch)
    width = _for_starts(_pitch_tolerance(diameter, pitch, grade, symbol), count)
    row = _pitches()[pitch]
    why = [f"{symbol} {width} µm, grade {grade}, ISO 2903"]
    remarks = []
    if not is_standard(diameter, pitch):
        remarks.append(Doubt(f"{tr_name(diameter, pitch)} is not a standard combination of ISO 2902"))
    if count > 1:
        why.append(f"{count} starts: {symbol} x {_START_FACTORS.get(count, _MANY_STARTS)}, ISO 2903")
        remarks.append(Doubt("the factor for several starts is not confirmed by a second print"))
    if internal:
        why += [f"TD1 {row['TD1_4']} µm, grade 4, ISO 2903", "H: EI 0"]
        minor_min = basic.internal_minor
        return ThreadLimits(
            major=(basic.internal_major, None),
            pitch=(basic.pitch, basic.pitch + mm(width)),
            minor=(minor_min, minor_min + mm(row["TD1_4"])),
            why=tuple(why),
            remarks=(*remarks, "ISO 2903 sets no upper limit of the internal major diameter D4"),
        )
    deviation = Decimal(row[f"es_{position}"])
    root = root_tolerance(width, deviation)
    why += [
        f"{position}: es {deviation} µm on d2 only, ISO 2903",
        f"Td {row['Td_4']} µm, grade 4, ISO 2903",
        f"Td3 {root} µm = 1.25 Td2 + |es|, ISO 2903",
    ]
    pitch_max = basic.pitch + mm(deviation)
    return ThreadLimits(
        major=(rounded(diameter, 3) - mm(row["Td_4"]), rounded(diameter, 3)),
        pitch=(pitch_max - mm(width), pitch_max),
        minor=(basic.external_minor - mm(root), basic.external_minor),
        why=tuple(why),
        remarks=tuple(remarks),
    )
