"""Tapers and slopes: the exact rate, its limits where a tolerance is typed, and the angles that follow from it."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal
from fractions import Fraction

from sizewright.notation.model_surfaces import Taper
from sizewright.resolve.characteristic import Characteristic, Limits, Status
from sizewright.resolve.scope import Scope
from sizewright.standards.errors import NotDefined
from sizewright.standards.tapers import half_angle, included_angle, rate_of, slope_angle
from sizewright.text.errors import CalloutError
from sizewright.text.numbers import Number, add, as_decimal, finite_decimal, plain

_UNITS = {
    "ratio": ("ratio", 1),
    "inch per inch": ("ratio", 1),
    "inch per foot": ("inch_per_foot", 12),
    "mm per m": ("ratio", 1000),
    "%": ("ratio", 100),
}
_SMALL = 1000  # below the line of a ratio that a person would read
_STATUS = {"reference": Status.REFERENCE, "basic": Status.BASIC, "plain": Status.UNTOLERANCED}


def resolve_taper(taper: Taper, scope: Scope) -> Iterator[Characteristic]:
    """The one characteristic of a taper or slope.

    Raises:
        CalloutError: a size that the named taper does not have.
    """
    rate, form, why = _rate(taper, scope)
    if rate is None:
        yield Characteristic(
            "taper", "none", Status.UNTOLERANCED, count=taper.repeat.count, why=tuple(why), extra=_name(taper)
        )
        return
    unit, per = _UNITS[form]
    exact = rate / (per if unit == "ratio" else 12)
    nominal = _number(rate if unit != "ratio" else exact)
    why += _angles(taper, exact)
    limits: tuple[Limits, ...] = ()
    if taper.deviations is not None:
        upper, lower = (Fraction(value) / (per if unit == "ratio" else 1) for value in taper.deviations)
        limits = (Limits("size", _number(Fraction(nominal) + lower), _number(Fraction(nominal) + upper)),)
        why.append(f"typed tolerance ±{plain(taper.deviations[0])}")
    if taper.bare:
        scope.warn("a ratio alone is read as the taper of a cone: type TAPER, or SLOPE for a flat", taper.span)
    status = _STATUS[taper.standing]
    if taper.standing == "plain" and not limits:
        why.append("no tolerance typed")
    if taper.standing == "basic":
        why.append("basic: exact, toleranced where it is used")
    if taper.standing == "reference":
        why.append("reference: for information, no limits of its own")
    yield Characteristic(
        taper.kind,
        unit,
        Status.TOLERANCED if limits and taper.standing == "plain" else status,
        nominal,
        limits=limits if taper.standing == "plain" else (),
        count=taper.repeat.count,
        why=tuple(why),
        extra=_name(taper),
    )


def _rate(taper: Taper, scope: Scope) -> tuple[Fraction | None, str, list[str]]:
    if not taper.named:
        assert taper.rate is not None
        return taper.rate, taper.unit, []
    try:
        rate, form, why = rate_of(taper.named, taper.number)
    except NotDefined as error:
        if taper.named == "Morse":
            raise CalloutError(error.message, *taper.span, "MORSE TAPER 2") from error
        return None, "", [error.message]
    scope.info(f"{taper.named} {taper.number} is checked with its taper gauge, blued", taper.span)
    return rate, form, [why]


def _name(taper: Taper) -> dict[str, object]:
    return {"parameter": f"{taper.named} {taper.number}"} if taper.named else {}


def _angles(taper: Taper, exact: Fraction) -> list[str]:
    if taper.kind == "slope":
        return [f"{_one_in(exact)} in height over length: {plain(slope_angle(exact))}°"]
    half = half_angle(exact)
    whole = included_angle(exact)
    return [
        f"{_one_in(exact)} in diameter over length (ISO 3040): {plain(half)}° to the axis, {plain(whole)}° included"
    ]


def _one_in(exact: Fraction) -> str:
    turned = finite_decimal(1 / exact)
    if turned is not None and turned == turned.quantize(Decimal("0.001")):
        return f"1 in {plain(turned.normalize()) if turned != turned.to_integral_value() else int(turned)}"
    if exact.denominator <= _SMALL:
        return f"{exact.numerator} in {exact.denominator}"
    return f"about 1 in {plain(as_decimal(Fraction(round(1000 / exact), 1000)))}"


def _number(value: Fraction) -> Number:
    exact = finite_decimal(value)
    return value if exact is None else add(exact, Decimal(0))
