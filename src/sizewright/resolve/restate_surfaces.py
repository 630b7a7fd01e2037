"""Restating what is no size: frames and textures are converted, the rest is given the unit that went without saying."""

from __future__ import annotations

from collections.abc import Callable
from decimal import Decimal
from fractions import Fraction

from sizewright.notation.model import Amount, DatumTarget, Feature, Frame, Portion
from sizewright.notation.model_surfaces import CaseDepth, Edge, Knurl, Texture
from sizewright.resolve.characteristic import Limits
from sizewright.resolve.context import Unit
from sizewright.resolve.scope import Scope
from sizewright.resolve.texture import texture_unit
from sizewright.resolve.units import convert, inward, round_down

Change = Callable[[Feature, Scope, Unit, list[str]], Feature]

_TEXTURE_UNITS: dict[Unit, str] = {"mm": "um", "inch": "uin"}
# Decimal places of a zone and of what lies about one: a zone is rounded down, so it never grows; one that would become
# nothing keeps its unit.
_PLACES = {"inch": 4, "mm": 3}


def _frame(feature: Feature, scope: Scope, unit: Unit, remarks: list[str]) -> Feature:
    assert isinstance(feature, Frame)
    own = scope.unit_of(feature.zone)
    if own == unit:
        return feature._replace(zone=feature.zone._replace(unit=None))
    zone = round_down(convert(feature.zone.value, own, unit), _PLACES[unit])
    if not zone and feature.zone.value:
        remarks.append("the zone is too small for the places of the other unit: kept in its own unit")
        return _in_own_unit(feature, scope)
    remarks.append("the zone is rounded down")
    modifiers = tuple(
        each if each.amount is None else each._replace(amount=_near(each.amount, scope, unit))
        for each in feature.modifiers
    )
    portion = None if feature.portion is None else _portion(feature.portion, scope, unit)
    return feature._replace(zone=Amount(zone), modifiers=modifiers, portion=portion)


def _in_own_unit(frame: Frame, scope: Scope) -> Frame:
    """The same frame with the unit of each of its lengths written out."""

    def said(amount: Amount) -> Amount:
        return amount._replace(unit="inch" if scope.unit_of(amount) == "inch" else "mm")

    modifiers = tuple(
        each if each.amount is None else each._replace(amount=said(each.amount)) for each in frame.modifiers
    )
    portion = frame.portion
    if portion is not None:
        second = None if portion.second is None else said(portion.second)
        portion = portion._replace(first=said(portion.first), second=second)
    return frame._replace(zone=said(frame.zone), modifiers=modifiers, portion=portion)


def _target(feature: Feature, scope: Scope, unit: Unit, _remarks: list[str]) -> Feature:
    assert isinstance(feature, DatumTarget)
    return feature if feature.area is None else feature._replace(area=_portion(feature.area, scope, unit))


def _portion(portion: Portion, scope: Scope, unit: Unit) -> Portion:
    second = None if portion.second is None else _near(portion.second, scope, unit)
    return portion._replace(first=_near(portion.first, scope, unit), second=second)


def _near(amount: Amount, scope: Scope, unit: Unit) -> Amount:
    own = scope.unit_of(amount)
    if own == unit:
        return amount._replace(unit=None)
    places = _PLACES[unit] - 1
    exact = convert(amount.value, own, unit)
    return Amount(Decimal(round(exact * 10**places)).scaleb(-places))


def _texture(feature: Feature, scope: Scope, unit: Unit, remarks: list[str]) -> Feature:
    """Bounds in µm or µin, rounded inward; a grade has no unit."""
    assert isinstance(feature, Texture)
    if feature.lower is None and feature.upper is None:
        return feature
    own, to = texture_unit(feature, scope), _TEXTURE_UNITS[unit]
    if own == "none":
        return feature
    if own not in ("um", "uin") or own == to:
        return feature._replace(unit=own)  # type: ignore[arg-type]
    new = inward(Limits("value", feature.lower, feature.upper), own, to)
    if (new.lower is None and new.upper is None) or new.upper == 0:
        return feature._replace(unit=own)  # type: ignore[arg-type]
    remarks.append("the texture is rounded inward")
    return feature._replace(lower=_trimmed(new.lower), upper=_trimmed(new.upper), unit=to)  # type: ignore[arg-type]


def _trimmed(value: Decimal | Fraction | None) -> Decimal | None:
    if not isinstance(value, Decimal):
        return None
    return value.quantize(Decimal(1)) if value == value.to_integral_value() else value.normalize()


def _with_unit(feature: Feature, scope: Scope, unit: Unit, remarks: list[str]) -> Feature:
    """What keeps its unit says so, where the sheet's went without saying."""
    assert isinstance(feature, Edge | CaseDepth | Knurl)
    if unit == scope.context.unit or feature.unit is not None:
        return feature
    remarks.append("kept in its own unit")
    return feature._replace(unit=scope.context.unit)


SURFACE_CHANGES: dict[type, Change] = {
    Frame: _frame,
    DatumTarget: _target,
    Texture: _texture,
    Edge: _with_unit,
    CaseDepth: _with_unit,
    Knurl: _with_unit,
}
