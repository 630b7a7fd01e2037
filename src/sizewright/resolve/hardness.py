"""Hardness and case depth: bounds in the scale typed; a scale is never turned into another."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal

from sizewright.notation.model_surfaces import CaseDepth, Hardness, Treatment
from sizewright.resolve.characteristic import Characteristic, Limits, Status
from sizewright.resolve.scope import Scope
from sizewright.standards.errors import NotDefined
from sizewright.standards.hardness import scale_range
from sizewright.text.errors import CalloutError
from sizewright.text.numbers import plain

_DEPTHS = {
    "CHD": "case hardening depth CHD, to 550 HV 1 where nothing else is typed (ISO 18203, ISO 15787)",
    "SHD": "surface hardening depth SHD, to 80 % of the least surface hardness where nothing else is typed (ISO 15787)",
    "NHD": "nitriding hardness depth NHD, to the core hardness + 50 HV where nothing else is typed (ISO 15787)",
    "effective": "effective case depth: to a stated hardness, usually 50 HRC (common practice)",
    "total": "total case depth: to where the case ends",
}


def resolve_hardness(feature: Hardness | CaseDepth | Treatment, scope: Scope) -> Iterator[Characteristic]:
    """The one characteristic of a hardness, of a case depth, or of a treatment named alone (a note).

    Raises:
        CalloutError: a lower limit below zero, or a case deeper than any is.
    """
    match feature:
        case Hardness():
            yield _hardness(feature, scope)
        case CaseDepth():
            yield _case_depth(feature, scope)
        case Treatment(words):
            why = (f"{words}: no hardness and no depth typed, so nothing to measure is asked for",)
            yield Characteristic("note", "none", Status.UNTOLERANCED, count=None, why=why)


def _hardness(hardness: Hardness, scope: Scope) -> Characteristic:
    bounds = [value for value in (hardness.nominal, hardness.lower, hardness.upper) if value is not None]
    _refuse_below_zero(bounds, "hardness", hardness.span)
    try:
        least, greatest = scale_range(hardness.scale)
    except NotDefined:
        pass
    else:
        if min(bounds) < least or max(bounds) > greatest:
            scope.warn(f"{hardness.scale} is used from {plain(least)} to {plain(greatest)}", hardness.span)
    typed = scope.text[slice(*hardness.span)].upper()
    if hardness.scale == "HBW" and "HBW" not in typed:
        scope.info("HB and Brinell are read as HBW, with the ball of tungsten carbide (ISO 6506-1)", hardness.span)
    extra: dict[str, object] = {}
    if hardness.condition:
        extra["parameter"] = f"{hardness.scale} {hardness.condition}"
    made = Characteristic(
        "hardness",
        hardness.scale,
        Status.REFERENCE if hardness.reference else Status.UNTOLERANCED,
        hardness.nominal,
        count=hardness.repeat.count,
        why=(*_said(hardness.words), "reference: for information, no limits of its own")
        if hardness.reference
        else (*_said(hardness.words), *_why(hardness.lower, hardness.upper, hardness.nominal)),
        limits=()
        if hardness.reference or hardness.lower is hardness.upper is None
        else (Limits("value", hardness.lower, hardness.upper),),
        extra=extra,
    )
    return made._replace(status=Status.TOLERANCED) if made.limits else made


def _case_depth(depth: CaseDepth, scope: Scope) -> Characteristic:
    bounds = [value for value in (depth.nominal, depth.lower, depth.upper) if value is not None]
    _refuse_below_zero(bounds, "case depth", depth.span)
    unit = depth.unit or scope.context.unit
    deepest = Decimal(10) if unit == "mm" else Decimal("0.4")
    if max(bounds) > deepest:
        raise CalloutError(
            f"a case {plain(max(bounds))} {'mm' if unit == 'mm' else 'in'} deep: deeper than any case is",
            *depth.span,
            "the unit after it if it is another",
        )
    why = _said(depth.words)
    if depth.name:
        why += (_DEPTHS[depth.name],)
    if depth.limit_hardness:
        why += (f"measured to {depth.limit_hardness}",)
    limits = () if depth.lower is depth.upper is None else (Limits("size", depth.lower, depth.upper),)
    return Characteristic(
        "case depth",
        unit,
        Status.TOLERANCED if limits else Status.UNTOLERANCED,
        depth.nominal,
        limits=limits,
        count=depth.repeat.count,
        why=(*why, *_why(depth.lower, depth.upper, depth.nominal)),
    )


def _refuse_below_zero(bounds: list[Decimal], what: str, span: tuple[int, int]) -> None:
    if min(bounds) < 0:
        raise CalloutError(f"the lower limit of the {what} is below zero", *span, "a smaller tolerance")
    if max(bounds) == 0:
        raise CalloutError(f"a {what} of 0", *span, "a number above 0")


def _said(words: str) -> tuple[str, ...]:
    return (f"as typed: {words}",) if words else ()


def _why(lower: Decimal | None, upper: Decimal | None, nominal: Decimal | None) -> tuple[str, ...]:
    if lower is None and upper is None:
        return ("no tolerance typed: the limits are those of the order or of the material's standard",)
    if lower is None:
        return ("MAX: an upper limit alone",)
    if upper is None:
        return ("MIN: a lower limit alone",)
    if nominal is None:
        return ("both limits typed",)
    if lower == nominal:
        return (f"typed deviation +{plain(upper - nominal)}, 0 below it (ISO 15787)",)
    return (f"typed deviations +{plain(upper - nominal)}/-{plain(nominal - lower)}",)
