"""Sizes, angles and chamfers: from a measure to characteristics with exact limits."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal
from fractions import Fraction

from sizewright.notation.amounts import is_angle
from sizewright.notation.forms import FORM_KINDS
from sizewright.notation.kinds import DRILLS
from sizewright.notation.measures import is_angle_measure
from sizewright.notation.model import (
    Amount,
    Chamfer,
    Classed,
    Deviations,
    Form,
    InchFit,
    LimitPair,
    Measure,
    PlusMinus,
    Repeat,
    Size,
    Standing,
)
from sizewright.resolve.characteristic import Characteristic, Limits, Side, Status
from sizewright.resolve.scope import Scope
from sizewright.text.errors import CalloutError
from sizewright.text.numbers import Number, add, multiply, plain

# What follows a hole, and what makes one.
_OF_HOLES = frozenset({
    "depth", "counterbore diameter", "countersink diameter", "spotface diameter", "countersink angle",
})  # fmt: skip
_PROCESSES = DRILLS | {"ream", "bore", "punch", "id", "pilot"}
_OUTER = frozenset({"shaft", "od"})
# A plain length may be a coordinate; nothing else can be smaller than nothing.
_MAY_BE_NEGATIVE = frozenset({"length", "angle"})
_MODIFIER_WORDS = {
    "E": "envelope requirement (ISO 14405-1): no part of the feature passes the envelope of perfect form at "
    "maximum-material size",
    "I": "independency (ASME Y14.5): the size does not limit the form",
    "F": "free state: measured unrestrained",
    "LP": "two-point size (ISO 14405-1)",
    "LS": "size by a sphere (ISO 14405-1)",
    "GG": "least-squares size (ISO 14405-1): measured as an associated feature, not between two points",
    "GX": "maximum inscribed size (ISO 14405-1)",
    "GN": "minimum circumscribed size (ISO 14405-1)",
    "CC": "circumference diameter (ISO 14405-1)",
    "CA": "area diameter (ISO 14405-1)",
    "CV": "volume diameter (ISO 14405-1)",
    "SX": "largest of the local sizes (ISO 14405-1)",
    "SN": "smallest of the local sizes (ISO 14405-1)",
    "SA": "average of the local sizes (ISO 14405-1)",
    "SM": "median of the local sizes (ISO 14405-1)",
    "SD": "mid-range of the local sizes (ISO 14405-1)",
    "SR": "range of the local sizes (ISO 14405-1)",
    "SQ": "standard deviation of the local sizes (ISO 14405-1)",
    "CT": "common tolerance (ISO 14405-1): the features are measured as one",
    "ACS": "any cross section (ISO 14405-1)",
    "SCS": "specific cross section (ISO 14405-1)",
    "ALS": "any longitudinal section (ISO 14405-1)",
    "UF": "united feature (ISO 14405-1): the parts are measured as one feature",
    "ST": "statistical tolerance (ASME Y14.5): holds where the process is under statistical control",
}


_TWICE = frozenset({"both sides", "both ends"})


def resolve_size(size: Size, following: object, scope: Scope) -> Iterator[Characteristic]:
    """The characteristics of a size; `following` is the next feature of the callout, or None."""
    if size.kind not in FORM_KINDS:
        _tell_twice(size, size.measure, scope)
    side = _side(size, following)
    for made in _classed_or_plain(size, side, scope):
        yield _with_modifiers(made, size)
    if size.total is not None:
        yield _total(size, size.total, scope)


def _tell_twice(feature: Size | Chamfer, measure: Measure, scope: Scope) -> None:
    if _TWICE.intersection(feature.notes) and feature.repeat.count == 1:
        scope.warn("both sides or ends are named: one place is counted, type 2x where there are two", measure.span)


def _classed_or_plain(size: Size, side: Side | None, scope: Scope) -> Iterator[Characteristic]:
    measure = _of_an_inch_drill(size)
    if not isinstance(measure.tolerance, Classed | InchFit) or measure.standing is not Standing.PLAIN:
        yield _resolved(size.kind, measure, size.repeat, scope, side, size.shorter_side)
        return
    from sizewright.resolve.fits import resolve_classed

    assert measure.nominal is not None
    unit = scope.unit_of(measure.nominal)
    if isinstance(measure.tolerance, InchFit) and measure.nominal.unit is None and scope.context.unit == "mm":
        scope.warn("an inch fit: the size is taken as inches", measure.span)
        unit = "inch"
    if measure.other is not None:
        from sizewright.resolve.dual import check_other, check_other_limits

        check_other(measure, unit, scope)
    made = Characteristic(size.kind, unit, Status.UNTOLERANCED, measure.nominal.value, count=size.repeat.count)
    for resolved in resolve_classed(made, measure.nominal, measure.tolerance, scope):
        if side is not None and resolved.side not in (None, side):
            scope.warn(f"a shaft's class {resolved.class_} on a hole", measure.span)
        _check_above_zero(resolved, measure)
        if measure.other is not None and isinstance(measure.tolerance, Classed) and len(measure.tolerance.classes) == 1:
            check_other_limits(resolved, measure.other, scope)
        yield resolved


def _of_an_inch_drill(size: Size) -> Measure:
    """The size, in inches where a fraction alone names a drill: those drills are inch sizes (ASME B94.11M)."""
    measure, nominal = size.measure, size.measure.nominal
    bare = measure.tolerance is None and measure.other is None and nominal is not None
    if not bare or nominal is None or nominal.form is not Form.FRACTION or nominal.unit is not None:
        return measure
    if DRILLS.isdisjoint(size.notes):
        return measure
    return measure._replace(nominal=nominal._replace(unit="inch"))


def _with_modifiers(made: Characteristic, size: Size) -> Characteristic:
    if not size.modifiers and not size.notes:
        return made
    why = made.why + tuple(
        f"({modifier}) {_MODIFIER_WORDS[modifier]}" for modifier in size.modifiers if modifier in _MODIFIER_WORDS
    )
    extra = dict(made.extra)
    if size.modifiers:
        extra["modifiers"] = list(size.modifiers)
    if "stock" in " ".join(size.notes) and made.status is Status.UNTOLERANCED:
        why = ("the tolerance is that of the stock as supplied",)
    return made._replace(why=why, extra=extra)


def _side(size: Size, following: object) -> Side | None:
    """A hole is told by ID, by THRU, by a process or a count of holes, or by the depth that follows its diameter."""
    if size.kind not in ("diameter", "square"):
        return None
    deep = isinstance(following, Size) and following.kind in _OF_HOLES
    if not _OUTER.isdisjoint(size.notes):
        return "external"
    made = any(note in _PROCESSES or note.endswith(("hole", "holes")) for note in size.notes)
    return "internal" if size.through or size.repeat.holes or deep or made else None


def resolve_chamfer(chamfer: Chamfer, scope: Scope) -> Iterator[Characteristic]:
    """A chamfer's size and angle, in the order typed, or its two legs."""
    _tell_twice(chamfer, chamfer.size, scope)
    size = _resolved("chamfer size", chamfer.size, chamfer.repeat, scope)
    if chamfer.second is not None:
        yield size
        yield _resolved("chamfer size", chamfer.second, chamfer.repeat, scope)
        return
    if chamfer.letter_c:
        yield size
        yield _letter_c_angle(chamfer.repeat, scope)
        return
    if chamfer.angle is None:
        yield size
        return
    angle = _resolved("chamfer angle", chamfer.angle, chamfer.repeat, scope, None, _chamfer_side(chamfer.size))
    yield from (angle, size) if chamfer.angle_first else (size, angle)


def _chamfer_side(size: Measure) -> Amount | None:
    """The shorter side of a chamfer's angle is the chamfer's own face, about as long as its size (ISO 2768-1, 4.2)."""
    return size.nominal


def _letter_c_angle(repeat: Repeat, scope: Scope) -> Characteristic:
    angle = Measure(Amount(Fraction(45)))
    made = _resolved("chamfer angle", angle, repeat, scope)
    return made._replace(why=("45° goes without saying after C", *made.why))


def _resolved(
    kind: str,
    measure: Measure,
    repeat: Repeat,
    scope: Scope,
    side: Side | None = None,
    shorter_side: Amount | None = None,
) -> Characteristic:
    angle = is_angle_measure(measure) or kind == "chamfer angle"
    unit = "deg" if angle else scope.unit_of_measure(measure)
    nominal = None if measure.nominal is None else measure.nominal.value
    if angle and nominal is not None and nominal > 360:
        raise CalloutError("an angle beyond a full turn", *measure.span, "360° at most")
    made = Characteristic(kind, unit, Status.UNTOLERANCED, nominal, side=side, count=repeat.count)
    if measure.other is not None:
        from sizewright.resolve.dual import check_other

        check_other(measure, unit, scope)
    typed, reason = _typed_limits(measure, scope)
    if measure.standing is Standing.REFERENCE:
        return made._replace(status=Status.REFERENCE, why=("reference: for information, no limits of its own",))
    if measure.standing is Standing.BASIC:
        return made._replace(status=Status.BASIC, why=("basic: exact, toleranced where it is used",))
    if typed is None:
        return _by_general(made, measure, scope, shorter_side)
    _check_sense(kind, typed, measure, scope)
    return made._replace(status=Status.TOLERANCED, limits=(typed,), why=(reason,))


def _typed_limits(measure: Measure, scope: Scope) -> tuple[Limits | None, str]:
    nominal = measure.nominal.value if measure.nominal is not None else None
    match measure.tolerance:
        case LimitPair(upper, lower):
            return Limits("size", lower.value, upper.value), "both limits typed"
        case PlusMinus(amount) if nominal is not None:
            value = amount.value
            return Limits("size", add(nominal, -value), add(nominal, value)), f"typed tolerance ±{scope.typed(amount)}"
        case Deviations(upper, lower) if nominal is not None:
            said = f"typed deviations {_signed(upper, scope)}/{_signed(lower, scope)}"
            return Limits("size", add(nominal, lower.value), add(nominal, upper.value)), said
    if measure.bound == "max":
        return Limits("size", None, nominal), "MAX: an upper limit alone"
    if measure.bound == "min":
        return Limits("size", nominal, None), "MIN: a lower limit alone"
    return None, ""


def _signed(amount: Amount, scope: Scope) -> str:
    sign = "+" if amount.value > 0 else "-" if amount.value < 0 else ""
    return sign + scope.typed(amount)


def _check_sense(kind: str, limits: Limits, measure: Measure, scope: Scope) -> None:
    if limits.lower is not None and limits.lower < 0 and kind not in _MAY_BE_NEGATIVE:
        raise CalloutError(f"the lower limit of the {kind} is below zero", *measure.span, "a smaller tolerance")
    above = measure.nominal is not None and measure.nominal.value > 0
    if limits.lower is not None and limits.lower < 0 and kind == "length" and above:
        scope.warn("the lower limit of this length is below zero: is a decimal mark missing?", measure.span)
    if kind in ("angle", "chamfer angle"):
        _check_angle(limits, measure, scope)
    if limits.lower is not None and limits.lower == limits.upper:
        scope.warn("both limits are the same: no tolerance at all", measure.span)


def _check_above_zero(made: Characteristic, measure: Measure) -> None:
    sides = (*made.either.internal, *made.either.external) if made.either is not None else made.limits
    if any(limits.lower is not None and limits.lower < 0 for limits in sides):
        raise CalloutError(
            f"{made.class_} at this size has a lower limit below zero", *measure.span, "a finer grade, or limits"
        )


def _check_angle(limits: Limits, measure: Measure, scope: Scope) -> None:
    bounds = [Fraction(bound) for bound in (limits.lower, limits.upper) if bound is not None]
    if any(abs(bound) > 360 for bound in bounds):
        raise CalloutError("an angle beyond a full turn", *measure.span, "360° at most")
    tolerance = measure.tolerance
    if isinstance(tolerance, PlusMinus) and limits.lower is not None and limits.lower <= 0:
        bare = scope.typed(tolerance.amount).replace(".", "").replace(",", "").isdigit()
        if bare and measure.nominal is not None and measure.nominal.value != 0:
            typed = scope.typed(tolerance.amount)
            raise CalloutError(
                "a tolerance as large as its angle, without a mark", *tolerance.amount.span, f"±{typed}' or ±{typed}°"
            )


def _by_general(made: Characteristic, measure: Measure, scope: Scope, shorter_side: Amount | None) -> Characteristic:
    if measure.nominal is None:
        return made._replace(why=("full radius: it follows from the width it blends into",))
    if scope.context.general is None:
        return made._replace(why=("no tolerance typed and no general tolerance given",))
    from sizewright.resolve.general import general_tolerance

    taken = general_tolerance(made.kind, measure.nominal, made.unit, scope.context, scope.context.general, shorter_side)
    if taken.remark:
        scope.info(taken.remark, measure.span)
    if taken.deviation is None:
        return made._replace(why=(f"no limits: {taken.remark}",))
    nominal = measure.nominal.value
    limits = Limits("size", add(nominal, -taken.deviation), add(nominal, taken.deviation))
    if made.unit == "inch" and isinstance(taken.deviation, Fraction):
        from sizewright.resolve.units import inward

        limits = inward(_in_mm(nominal, taken.deviation), "mm", "inch")
        return made._replace(
            status=Status.TOLERANCED, limits=(limits,), why=(taken.why, "converted exactly, rounded inward")
        )
    return made._replace(status=Status.TOLERANCED, limits=(limits,), why=(taken.why,))


def _in_mm(nominal: Number, deviation: Fraction) -> Limits:
    from sizewright.resolve.units import convert

    return Limits(
        "size",
        convert(Fraction(nominal) - deviation, "inch", "mm"),
        convert(Fraction(nominal) + deviation, "inch", "mm"),
    )


def _total(size: Size, total: Amount, scope: Scope) -> Characteristic:
    """The total of repeated spacings: for information, and checked."""
    nominal, count = size.measure.nominal, size.repeat.count
    angle = is_angle_measure(size.measure)
    unit = "deg" if angle else scope.unit_of(total) if total.unit else scope.unit_of_measure(size.measure)
    if is_angle(total) is not angle:
        raise CalloutError("a total of another sort than its spacings", *total.span)
    if nominal is not None and count is not None and not size.repeat.typical:
        _check_total(nominal, count, total, scope)
    return Characteristic(
        "angle" if angle else "length",
        unit,
        Status.REFERENCE,
        total.value,
        why=("the total of the spacings, for information",),
    )


def _check_total(nominal: Amount, count: int, total: Amount, scope: Scope) -> None:
    expected = multiply(nominal.value, count) if isinstance(nominal.value, Decimal) else nominal.value * count
    same_unit = nominal.unit == total.unit or total.unit is None or nominal.unit is None
    if same_unit and expected != total.value:
        scope.warn(f"{count} x {plain(nominal.value)} is {plain(expected)}, not {plain(total.value)}", total.span)
