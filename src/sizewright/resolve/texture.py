"""Surface texture: bounds in the unit typed or that of the sheet, and the acceptance rule that the text asks for.

A number without its unit is in µm on a metric sheet and in µin on one in inches. Where the number is of the other
unit's series, a factor of 40 would be at stake: both readings are named and none is taken.
"""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal

from sizewright.notation.model_surfaces import Texture
from sizewright.resolve.characteristic import Characteristic, Limits, Status
from sizewright.resolve.scope import Scope
from sizewright.standards import texture as series
from sizewright.text.errors import CalloutError
from sizewright.text.numbers import plain

_SAID = {"um": "µm", "uin": "µin", "mm": "mm", "%": "%", "none": ""}
_QUADRATIC = ("RMS", "AARH")
_ROUGHNESS = ("", "Ra", "Rq", "RMS", "AA", "CLA", "AARH")
_RULES = {
    "max": "max rule: no measured value may be over the upper limit (ISO 1302, ISO 21920-1)",
    "16 %": "16 % rule: at most 16 % of the measured values may be outside a limit (ISO 1302, ISO 21920-1)",
    "median": "median rule: half of the measured values have to comply (ISO 21920-1)",
}


def resolve_texture(texture: Texture, scope: Scope) -> Iterator[Characteristic]:
    """The one characteristic of a texture requirement.

    Raises:
        CalloutError: the unit is not told and both are likely.
    """
    parameter, lower, upper = texture.parameter, texture.lower, texture.upper
    why: list[str] = []
    if texture.grade:
        lower, upper = _graded(texture, why)
        unit, parameter = "um", "Ra"
    else:
        unit = texture_unit(texture, scope)
        parameter = _parameter(texture, scope, why)
    extra: dict[str, object] = {"parameter": parameter} if parameter else {}
    rule = _rule(texture, scope, why)
    if rule and (lower is not None or upper is not None):
        extra["rule"] = rule
    why += _more(texture)
    if any(word.startswith("(") and any(figure.isdigit() for figure in word) for word in texture.words):
        scope.warn("what stands in brackets are exceptions: a line of their own for each", texture.span)
    if texture.reference:
        why.append("reference: for information, no limits of its own")
        yield Characteristic(
            "surface texture", unit, Status.REFERENCE, count=texture.repeat.count, why=tuple(why), extra=extra
        )
        return
    if lower is None and upper is None:
        why.append("no number typed: the faces are to be finished, no texture is asked for")
        yield Characteristic("surface texture", unit, Status.UNTOLERANCED, count=texture.repeat.count, why=tuple(why))
        return
    yield Characteristic(
        "surface texture",
        unit,
        Status.TOLERANCED,
        limits=(Limits("value", lower, upper),),
        count=texture.repeat.count,
        why=tuple(why),
        extra=extra,
    )


def _graded(texture: Texture, why: list[str]) -> tuple[Decimal | None, Decimal]:
    names = texture.grade.split("-")
    values = [series.grade(name) for name in names]
    for name, (micrometres, microinches) in zip(names, values, strict=True):
        why.append(f"{name} is Ra {micrometres} µm (ISO 1302:1992; paired with {microinches} µin)")
    return (values[0][0] if len(values) == 2 else None), values[-1][0]


# ---- unit ------------------------------------------------------------------------------------------------------------


def texture_unit(texture: Texture, scope: Scope) -> str:
    """``um``, ``uin`` or ``none`` (a parameter without a unit); CalloutError where the text leaves it open."""
    if texture.parameter in ("Rsk", "Rku"):
        return "none"
    if texture.unit is not None:
        if texture.unit == "um" and not texture.parameter and "√" not in scope.text:
            _refuse_length(texture, scope)
        return texture.unit
    values = [value for value in (texture.lower, texture.upper) if value is not None]
    if not values:
        return "um" if scope.context.unit == "mm" else "uin"
    if texture.parameter == "RSm":
        raise CalloutError("RSm without its unit: µm or mm", *texture.span, f"RSm {plain(values[-1])} mm, or µm")
    return _metric(texture, values, scope) if scope.context.unit == "mm" else _inch(texture, values, scope)


def _refuse_length(texture: Texture, scope: Scope) -> None:
    if any(word in scope.text.lower() for word in ("finish", "texture", "roughness", "✓", "✔", "surface")):
        return
    shown = plain(texture.upper if texture.upper is not None else texture.lower or Decimal(0))
    raise CalloutError(
        "a number in µm that nothing tells to be a texture: it can be a length, as of a coating",
        *texture.span,
        f"Ra {shown} µm for a texture",
    )


def _metric(texture: Texture, values: list[Decimal], scope: Scope) -> str:
    """µm, unless the number is one of the µin series that no roughness in µm has."""
    value = max(values)
    inchlike = series.in_microinches(value) and not series.in_micrometres(value) and value > 4
    over = texture.parameter in _ROUGHNESS and value > series.greatest_micrometres()
    if over or (inchlike and texture.parameter in ("", "RMS", "AA", "CLA", "AARH")):
        raise _both(texture, value)
    if inchlike and texture.parameter in _ROUGHNESS:
        scope.warn(f"{plain(value)} is taken in µm; it is a usual number in µin: type the unit", texture.span)
    elif not texture.parameter:
        scope.info(f"{plain(value)} is taken as Ra in µm, as the sheet is in mm", texture.span)
    return "um"


def _inch(texture: Texture, values: list[Decimal], scope: Scope) -> str:
    """µin, unless the number is one of the µm series."""
    value = max(values)
    if series.in_micrometres(value) and not series.in_microinches(value):
        raise _both(texture, value)
    if not series.in_microinches(value) and value != value.to_integral_value():
        raise _both(texture, value)
    if not texture.parameter:
        scope.info(f"{plain(value)} is taken as Ra in µin, as the sheet is in inches", texture.span)
    return "uin"


def _both(texture: Texture, value: Decimal) -> CalloutError:
    name = texture.parameter or "Ra"
    return CalloutError(
        f"{plain(value)} can be in µm or in µin",
        *texture.span,
        f"{name} {plain(value)} µm, or {name} {plain(value)} µin",
    )


# ---- what it means ---------------------------------------------------------------------------------------------------


def _parameter(texture: Texture, scope: Scope, why: list[str]) -> str:
    if texture.parameter in _QUADRATIC:
        scope.warn(
            "RMS is the quadratic mean Rq; many shops read it as Ra, which is some 10 % less: ask where it matters",
            texture.span,
        )
        return "Rq"
    if texture.parameter in ("AA", "CLA"):
        why.append(f"{texture.parameter} is an older name of Ra")
        return "Ra"
    if not texture.parameter:
        if texture.lower is None and texture.upper is None:
            return ""
        why.append("a number at the mark without a parameter is Ra (ASME Y14.36, common practice)")
        return "Ra"
    return texture.parameter


def _rule(texture: Texture, scope: Scope, why: list[str]) -> str:
    """The acceptance rule, typed or the default of the standard that the drawing follows."""
    if texture.rule is not None:
        why.append(_RULES[texture.rule])
        return texture.rule
    said = " ".join(texture.words)
    if texture.lower is None and texture.upper is None and not texture.grade:
        return ""
    if "21920" in said:
        why.append("ISO 21920-1, no rule typed: max rule, no measured value may be outside a limit")
        return "max"
    if "B46.1" in said or (scope.context.manner == "asme" and "1302" not in said):
        why.append(
            "ASME B46.1: the value over the evaluation length complies; the 16 % rule holds only where it is called"
        )
        return ""
    named = "ISO 1302" if "1302" in said else "ISO 1302, ISO 4288"
    why.append(f"no max typed: 16 % rule, at most 16 % of the measured values may be outside a limit ({named})")
    if "1302" not in said:
        why.append("a drawing that follows ISO 21920-1 (2021) takes the max rule instead")
    return "16 %"


def _more(texture: Texture) -> Iterator[str]:
    if texture.removal is not None:
        yield {
            "required": "material is to be removed by machining",
            "prohibited": "no material may be removed",
            "any": "any process will do",
        }[texture.removal]
    if texture.lengths:
        yield f"over {texture.lengths} sampling length{'s' if texture.lengths > 1 else ''}"
    if texture.band:
        yield (
            f"transmission band {texture.band} mm"
            if "-" in texture.band[1:]
            else f"cut-off {texture.band.lstrip('-')} mm"
        )
    if texture.lay:
        yield f"lay {texture.lay}"
    if texture.allowance:
        yield f"allowance for machining {texture.allowance}"
    if texture.words:
        yield f"as typed: {', '.join(texture.words)}"
