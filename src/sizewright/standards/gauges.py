"""Plain limit gauges for a toleranced hole (plug) or shaft (ring, snap).

Two systems: the ISO system of ISO/R 1938 and DIN 7162, in millimetres, by tolerance grade; and the inch gauge
classes XXX to ZZ of ASME B89.1.5 with the ten per cent rule, in inches or millimetres.
"""

from decimal import Decimal
from functools import cache
from typing import Literal, NamedTuple

from sizewright.standards.errors import NotDefined
from sizewright.standards.iso286 import tolerance
from sizewright.standards.tables import rows

GAUGE_CLASSES: tuple[str, ...] = ("XXX", "XX", "X", "Y", "Z", "ZZ")
"""The gauge classes of ASME B89.1.5, finest first."""

GAUGE_GRADES: tuple[str, ...] = ("6", "7", "8", "9", "10", "11", "12")
"""The tolerance grades for which the ISO system has gauges, finest first."""

_ISO_LARGEST = Decimal(500)
_MICROMETRE_EXPONENT = -3
_GAUGE_SHARE = Decimal("0.05")


class GaugeMember(NamedTuple):
    """One member of a limit gauge: limits of its size when new, and the size at which a GO member is worn out.

    `worn` is None for a NOT GO member: it has no wear limit.
    """

    lower: Decimal
    upper: Decimal
    worn: Decimal | None = None


class LimitGauge(NamedTuple):
    """A GO and a NOT GO member, in the unit of the part's limits.

    `basis` is the grade ("IT7") or the gauge class ("X") that gave the figures. `confirmed` is false where the
    figures rest on no print. `wear_may_pass_limit` tells that a worn GO member may accept a part just outside.
    """

    go: GaugeMember
    not_go: GaugeMember
    basis: str
    confirmed: bool
    wear_may_pass_limit: bool


class _IsoRow(NamedTuple):
    """ISO/R 1938: figures by grade and size of the part, in millimetres."""

    upto: Decimal
    z: Decimal
    y: Decimal
    alpha: Decimal
    z1: Decimal
    y1: Decimal
    plug_tolerance: Decimal
    ring_tolerance: Decimal
    confirmed: bool


def gauge_grade(width: Decimal, nominal: Decimal) -> str:
    """The coarsest of IT6 to IT12 whose tolerance does not exceed a part tolerance, both in millimetres.

    Common practice for a part whose limits are no tolerance class: the gauge is then never coarser than the part.

    Raises:
        NotDefined: The part tolerance is finer than IT6, or ISO 286-1 has no grades at this size.
    """
    for grade in reversed(GAUGE_GRADES):
        if tolerance(grade, nominal) <= width:
            return grade
    reason = f"the ISO gauge system starts at IT6, and a tolerance of {width} mm at {nominal} mm is finer than that"
    raise NotDefined(reason, ("IT6",))


def iso_plug(lower: Decimal, upper: Decimal, nominal: Decimal, grade: str | None = None) -> LimitGauge:
    """The plug gauge for a hole with the limits `lower` and `upper`, all in millimetres.

    The grade is that of the hole's class ("7" for H7); without one, `gauge_grade` chooses it.

    Raises:
        NotDefined: ISO/R 1938 has no gauges for the grade or the size.
    """
    grade, row = _iso_row(upper - lower, nominal, grade)
    middle = lower + row.z
    half = row.plug_tolerance / 2
    go = GaugeMember(middle - half, middle + half, worn=lower - row.y + row.alpha)
    not_go = GaugeMember(upper - row.alpha - half, upper - row.alpha + half)
    return LimitGauge(go, not_go, f"IT{grade}", row.confirmed, row.y > row.alpha)


def iso_ring(lower: Decimal, upper: Decimal, nominal: Decimal, grade: str | None = None) -> LimitGauge:
    """The ring or snap gauge for a shaft with the limits `lower` and `upper`, all in millimetres.

    The grade is that of the shaft's class ("6" for g6); without one, `gauge_grade` chooses it.

    Raises:
        NotDefined: ISO/R 1938 has no gauges for the grade or the size.
    """
    grade, row = _iso_row(upper - lower, nominal, grade)
    middle = upper - row.z1
    half = row.ring_tolerance / 2
    go = GaugeMember(middle - half, middle + half, worn=upper + row.y1 - row.alpha)
    not_go = GaugeMember(lower + row.alpha - half, lower + row.alpha + half)
    return LimitGauge(go, not_go, f"IT{grade}", row.confirmed, row.y1 > row.alpha)


def gauge_tolerance(gauge_class: str, size: Decimal, unit: Literal["inch", "mm"]) -> Decimal:
    """The tolerance of a gauge class ("X") at a gauge size, both in the unit given; ASME B89.1.5.

    Raises:
        NotDefined: There is no such class, or not at this size.
    """
    if gauge_class not in GAUGE_CLASSES:
        raise NotDefined(f"ASME B89.1.5 defines no gauge class {gauge_class}", GAUGE_CLASSES)
    steps = _class_rows()[unit]
    for over, upto, tolerances in steps:
        if over < size <= upto:
            return tolerances[gauge_class]
    first, last = steps[0][0], steps[-1][1]
    raise NotDefined(f"the gauge classes of ASME B89.1.5 cover sizes above {first} to {last} {unit}, not {size} {unit}")


def ten_percent_class(lower: Decimal, upper: Decimal, unit: Literal["inch", "mm"]) -> str:
    """The coarsest gauge class for a part with the limits `lower` and `upper` by the ten per cent rule.

    Common practice: a tenth of the part tolerance goes to the gauges, half of it to each member.

    Raises:
        NotDefined: Even class XXX takes more than its share, or the size is outside of the table.
    """
    share = (upper - lower) * _GAUGE_SHARE
    for gauge_class in reversed(GAUGE_CLASSES):
        if all(gauge_tolerance(gauge_class, size, unit) <= share for size in (lower, upper)):
            return gauge_class
    reason = f"no gauge class is within five per cent of a part tolerance of {upper - lower} {unit}"
    raise NotDefined(reason, GAUGE_CLASSES[:1])


def class_plug(
    lower: Decimal, upper: Decimal, unit: Literal["inch", "mm"], gauge_class: str | None = None
) -> LimitGauge:
    """The plug gauge for a hole with the limits `lower` and `upper`: GO tolerance plus, NOT GO tolerance minus.

    Without a gauge class the ten per cent rule chooses one. The GO member is worn out at the hole's lower limit.

    Raises:
        NotDefined: There is no such class, or none at this size or for this tolerance.
    """
    chosen = gauge_class or ten_percent_class(lower, upper, unit)
    go = GaugeMember(lower, lower + gauge_tolerance(chosen, lower, unit), worn=lower)
    not_go = GaugeMember(upper - gauge_tolerance(chosen, upper, unit), upper)
    return LimitGauge(go, not_go, chosen, confirmed=True, wear_may_pass_limit=False)


def class_ring(
    lower: Decimal, upper: Decimal, unit: Literal["inch", "mm"], gauge_class: str | None = None
) -> LimitGauge:
    """The ring or snap gauge for a shaft with these limits: GO tolerance minus, NOT GO tolerance plus.

    Without a gauge class the ten per cent rule chooses one. The GO member is worn out at the shaft's upper limit.

    Raises:
        NotDefined: There is no such class, or none at this size or for this tolerance.
    """
    chosen = gauge_class or ten_percent_class(lower, upper, unit)
    go = GaugeMember(upper - gauge_tolerance(chosen, upper, unit), upper, worn=upper)
    not_go = GaugeMember(lower, lower + gauge_tolerance(chosen, lower, unit))
    return LimitGauge(go, not_go, chosen, confirmed=True, wear_may_pass_limit=False)


def _iso_row(width: Decimal, nominal: Decimal, grade: str | None) -> tuple[str, _IsoRow]:
    if not 0 < nominal <= _ISO_LARGEST:
        raise NotDefined(f"the ISO gauge system covers sizes above 0 to {_ISO_LARGEST} mm, not {nominal} mm")
    chosen = gauge_grade(width, nominal) if grade is None else grade
    steps = _iso_rows().get(chosen)
    if steps is None:
        near = sorted(GAUGE_GRADES, key=lambda known: abs(int(known) - int(chosen)))
        reason = f"the ISO gauge system covers the grades IT6 to IT12, not IT{chosen}"
        raise NotDefined(reason, tuple(f"IT{known}" for known in near[:1]))
    return chosen, next(row for row in steps if nominal <= row.upto)


@cache
def _iso_rows() -> dict[str, tuple[_IsoRow, ...]]:
    grouped: dict[str, tuple[_IsoRow, ...]] = {}
    for row in rows("gauges_iso"):
        grade = row["grade"].removeprefix("IT")
        grouped[grade] = (*grouped.get(grade, ()), _read_iso_row(row))
    return grouped


def _read_iso_row(row: dict[str, str]) -> _IsoRow:
    def millimetres(heading: str) -> Decimal:
        return Decimal(row[heading]).scaleb(_MICROMETRE_EXPONENT)

    return _IsoRow(
        upto=Decimal(row["upto_mm"]),
        z=millimetres("z"),
        y=millimetres("y"),
        alpha=millimetres("alpha"),
        z1=millimetres("z1"),
        y1=millimetres("y1"),
        plug_tolerance=millimetres("H"),
        ring_tolerance=millimetres("H1"),
        confirmed=row["checked"] != "unconfirmed",
    )


@cache
def _class_rows() -> dict[str, tuple[tuple[Decimal, Decimal, dict[str, Decimal]], ...]]:
    grouped: dict[str, tuple[tuple[Decimal, Decimal, dict[str, Decimal]], ...]] = {"inch": (), "mm": ()}
    for row in rows("gauges_inch"):
        tolerances = {name: Decimal(row[name]) for name in GAUGE_CLASSES}
        step = (Decimal(row["over"]), Decimal(row["upto"]), tolerances)
        grouped[row["unit"]] = (*grouped[row["unit"]], step)
    return grouped
