"""Restating: a callout as the other drawing practice writes it, in the other unit, with limits that stay inside.

Limits are converted exactly and rounded inward, so that a part that meets the new text meets the old one. Where a
general tolerance or a tolerance class gave the limits they are written out: the other unit's places and tables are
others.
"""

from __future__ import annotations

from collections.abc import Callable
from decimal import Decimal
from fractions import Fraction
from typing import NamedTuple

from sizewright.notation.measures import is_angle_measure
from sizewright.notation.model import (
    Amount,
    Callout,
    Chamfer,
    Classed,
    Deviations,
    Feature,
    GeneralNote,
    InchFit,
    LimitPair,
    Measure,
    PlusMinus,
    Size,
    Standing,
    Thread,
    Tolerance,
    UnitsNote,
)
from sizewright.notation.model_surfaces import EdgeNote, ForAll
from sizewright.notation.write import write_callout
from sizewright.resolve.characteristic import Characteristic, Limits, Status
from sizewright.resolve.context import Context, Manner, Unit
from sizewright.resolve.restate_surfaces import SURFACE_CHANGES
from sizewright.resolve.scope import Scope
from sizewright.resolve.sizes import resolve_size
from sizewright.resolve.threads import taper_of_radius
from sizewright.resolve.units import convert, inward, round_down, round_up
from sizewright.text.numbers import Number, places, plain

# Decimal places of a size without limits: one thousandth of an inch and a hundredth of a millimetre are about as fine.
_PLACES = {"inch": 3, "mm": 2}
_WORDS = {"mm": "mm", "inch": "in"}
_TOO_SMALL = "too small for the places of the other unit: kept in its own unit"


class Restated(NamedTuple):
    """The new text, and what cannot be said the other way or is said otherwise."""

    text: str
    remarks: tuple[str, ...]


def restate(callout: Callout, text: str, context: Context, manner: Manner, unit: Unit) -> Restated:
    """`callout` in `manner` and `unit`; `text` is its folded text, `context` the one it was typed under.

    Raises:
        CalloutError: it does not resolve.
    """
    scope = Scope(context, text)
    remarks: list[str] = []
    features = tuple(_feature(feature, scope, unit, remarks) for feature in callout.features)
    return Restated(write_callout(Callout(features), manner, unit), tuple(dict.fromkeys(remarks)))


def _feature(feature: Feature, scope: Scope, unit: Unit, remarks: list[str]) -> Feature:
    change = _CHANGES.get(type(feature))
    return feature if change is None else change(feature, scope, unit, remarks)


def _size(feature: Feature, scope: Scope, unit: Unit, remarks: list[str]) -> Feature:
    assert isinstance(feature, Size)
    if is_angle_measure(feature.measure):
        return feature
    if feature.drill and feature.measure.nominal is None:
        remarks.append(f"drill {feature.drill} keeps its name")
        return feature
    taper = taper_of_radius(feature, scope) if feature.kind == "radius" else None
    if taper is not None:
        return taper
    made, *others = resolve_size(feature, None, scope)
    if feature.total is None and (others or made.status is Status.CONFLICT):
        said = "a fit" if others else "a contradiction"
        remarks.append(f"{said} is kept in its own unit")
        own = feature.measure._replace(nominal=_in_own_unit(feature.measure.nominal, made.unit))
        return feature._replace(measure=own)
    measure = _measure(feature.measure, made, unit, remarks)
    total = None if feature.total is None else _plain(feature.total, scope, unit)
    side = None if feature.shorter_side is None else _plain(feature.shorter_side, scope, unit)
    return feature._replace(measure=measure, total=total, shorter_side=side)


def _chamfer(feature: Feature, scope: Scope, unit: Unit, remarks: list[str]) -> Feature:
    assert isinstance(feature, Chamfer)
    sizes = [feature.size] if feature.second is None else [feature.size, feature.second]
    changed = []
    for measure in sizes:
        made = next(iter(resolve_size(Size("chamfer size", measure), None, scope)))
        changed.append(_measure(measure, made, unit, remarks))
    second = changed[1] if len(changed) > 1 else None
    return feature._replace(size=changed[0], second=second)


def _note_with_size(feature: Feature, scope: Scope, unit: Unit, remarks: list[str]) -> Feature:
    assert isinstance(feature, EdgeNote | ForAll)
    size = feature.size
    if size is None:
        return feature
    changed = _chamfer(size, scope, unit, remarks) if isinstance(size, Chamfer) else _size(size, scope, unit, remarks)
    assert isinstance(changed, Size | Chamfer)
    return feature._replace(size=changed)


def _units_note(feature: Feature, _scope: Scope, unit: Unit, _remarks: list[str]) -> Feature:
    assert isinstance(feature, UnitsNote)
    return feature._replace(unit=unit)


def _general(feature: Feature, scope: Scope, unit: Unit, remarks: list[str]) -> Feature:
    """Linear deviations are rounded down; rules by decimal places hold for their own unit's places alone."""
    assert isinstance(feature, GeneralNote)
    rules = []
    for rule in feature.rules:
        amount = rule.amount
        if amount is None or rule.applies == "angles" or scope.unit_of(amount) == unit:
            rules.append(rule)
        elif rule.applies == "linear":
            exact = convert(amount.value, scope.unit_of(amount), unit)
            rounded = _amount(round_down(exact, _PLACES[unit] + 1))
            if amount.value and not rounded.value:
                remarks.append(_TOO_SMALL)
                rounded = amount._replace(unit=scope.unit_of(amount))
            rules.append(rule._replace(amount=rounded))
        else:
            remarks.append("general tolerances that go by decimal places are kept in their own unit")
            rules.append(rule._replace(amount=_in_own_unit(amount, scope.unit_of(amount))))
    return feature._replace(rules=tuple(rules))


def _thread(feature: Feature, scope: Scope, _unit: Unit, remarks: list[str]) -> Feature:
    """A thread is what its standard calls it in either unit; the pitch that ISO leaves out is written."""
    from sizewright.resolve.thread_forms import designate

    assert isinstance(feature, Thread)
    designated = designate(feature, scope)
    if feature.form in ("M", "MJ") and feature.pitch is None:
        remarks.append("the coarse pitch is written out (ASME B1.13M)")
        return feature._replace(pitch=designated.pitch)
    return feature


_CHANGES: dict[type, Callable[[Feature, Scope, Unit, list[str]], Feature]] = {
    Size: _size,
    Chamfer: _chamfer,
    Thread: _thread,
    UnitsNote: _units_note,
    EdgeNote: _note_with_size,
    ForAll: _note_with_size,
    **SURFACE_CHANGES,
    GeneralNote: _general,
}


# ---- one measure -----------------------------------------------------------------------------------------------------


def _measure(measure: Measure, made: Characteristic, unit: Unit, remarks: list[str]) -> Measure:
    """A measure in `unit`: the same limits inside, or the size alone rounded."""
    if measure.other is not None:
        remarks.append("the second of the two dimensions is left out")
    if made.unit == unit:
        return _untyped(measure._replace(other=None), unit)
    limits = made.size
    if limits is None and made.either is not None:
        remarks.append("a fit without its member has the limits of both: kept in its own unit")
        return measure._replace(other=None, nominal=_in_own_unit(measure.nominal, made.unit))
    if limits is None:
        return _alone(measure, made, unit, remarks)
    _say_what_gave(measure, made, remarks)
    new = inward(limits, made.unit, unit)
    if new.lower is None and new.upper is None:
        remarks.append("no tolerance at all: kept in its own unit")
        return measure._replace(other=None, nominal=_in_own_unit(measure.nominal, made.unit))
    if measure.bound is not None and not isinstance(measure.tolerance, LimitPair):
        bound = new.upper if measure.bound == "max" else new.lower
        remarks.append("the limit is rounded inward")
        return Measure(_amount(bound), bound=measure.bound, standing=measure.standing)
    changed = _with_limits(measure, made, new, unit)
    remarks.append(f"limits rounded inward: {_lost(limits, changed, made.unit, unit)}")
    return changed


def _with_limits(measure: Measure, made: Characteristic, new: Limits, unit: Unit) -> Measure:
    assert isinstance(new.lower, Decimal)
    assert isinstance(new.upper, Decimal)
    if measure.nominal is None or isinstance(measure.tolerance, Classed | InchFit):
        return Measure(None, LimitPair(_amount(new.upper), _amount(new.lower)), standing=measure.standing)
    assert made.nominal is not None
    step = max(places(new.lower), places(new.upper))
    nominal = Decimal(round(convert(made.nominal, made.unit, unit) * 10**step)).scaleb(-step)
    even = measure.tolerance is None or isinstance(measure.tolerance, PlusMinus)
    return Measure(_amount(nominal), _deviations(nominal, new.lower, new.upper, even=even), standing=measure.standing)


def _deviations(nominal: Decimal, lower: Decimal, upper: Decimal, *, even: bool) -> Tolerance:
    """The deviations to both limits; `even` writes the smaller one to both sides, as ± was typed."""
    above, below = upper - nominal, lower - nominal
    if even and below < 0 < above:
        return PlusMinus(_amount(min(above, -below)))
    return Deviations(_amount(above), _amount(below))


def _in_own_unit(amount: Amount | None, unit: str) -> Amount | None:
    return None if amount is None else amount._replace(unit="inch" if unit == "inch" else "mm")


def _alone(measure: Measure, made: Characteristic, unit: Unit, remarks: list[str]) -> Measure:
    """A reference or basic size, or one that nothing tolerances."""
    if measure.nominal is None or made.nominal is None:
        return measure._replace(other=None)
    exact = convert(made.nominal, made.unit, unit)
    decimals = _PLACES[unit] + (1 if measure.standing is Standing.BASIC else 0)
    rounded = _rounded(exact, decimals, unit)
    if exact and not rounded:
        remarks.append(_TOO_SMALL)
        return measure._replace(other=None, nominal=_in_own_unit(measure.nominal, made.unit))
    if measure.standing is Standing.BASIC and rounded != exact:
        off = abs(Fraction(rounded) - exact)
        remarks.append(f"a basic size is exact: {plain(rounded)} {_WORDS[unit]} is off by {_short(off)} {_WORDS[unit]}")
    return Measure(_amount(rounded), standing=measure.standing)


def _plain(amount: Amount, scope: Scope, unit: Unit) -> Amount:
    own = scope.unit_of(amount)
    if own == unit:
        return amount._replace(unit=None)
    exact = convert(amount.value, own, unit)
    return _amount(_rounded(exact, _PLACES[unit], unit))


def _rounded(exact: Fraction, decimals: int, unit: str) -> Decimal:
    """To the nearest; a millimetre size has no zeros at its end (ISO 129-1), an inch size keeps its places."""
    value = Decimal(round(exact * 10**decimals)).scaleb(-decimals)
    return value if unit == "inch" else Decimal(plain(value.normalize()))


def _untyped(measure: Measure, unit: Unit) -> Measure:
    """The same measure without units typed: the sheet's unit is the measure's own now."""

    def bare(amount: Amount) -> Amount:
        return amount._replace(unit=None) if amount.unit == unit else amount

    nominal = None if measure.nominal is None else bare(measure.nominal)
    match measure.tolerance:
        case PlusMinus(amount):
            tolerance: Tolerance | None = PlusMinus(bare(amount))
        case Deviations(upper, lower):
            tolerance = Deviations(bare(upper), bare(lower))
        case LimitPair(upper, lower):
            tolerance = LimitPair(bare(upper), bare(lower))
        case _:
            tolerance = measure.tolerance
    return measure._replace(nominal=nominal, tolerance=tolerance)


def _say_what_gave(measure: Measure, made: Characteristic, remarks: list[str]) -> None:
    if isinstance(measure.tolerance, Classed | InchFit):
        remarks.append(f"{made.class_} is written as its limits: the class belongs to the other unit")
    elif measure.tolerance is None and measure.bound is None:
        remarks.append(f"the general tolerance is written out: {made.why[0]}")


def _lost(old: Limits, new: Measure, unit: str, to: str) -> str:
    """By how much the tolerance became smaller."""
    match new.tolerance:
        case PlusMinus(amount):
            width = 2 * Fraction(amount.value)
        case Deviations(upper, lower) | LimitPair(upper, lower):
            width = Fraction(upper.value) - Fraction(lower.value)
        case _:
            raise AssertionError(new)
    assert old.width is not None
    return f"{_short(convert(old.width, unit, to) - width)} {_WORDS[to]} of the tolerance lost"


def _short(value: Fraction) -> str:
    return plain(round_up(value, 6) if value else round_down(value, 0))


def _amount(value: Number | None) -> Amount:
    assert value is not None
    return Amount(value)
