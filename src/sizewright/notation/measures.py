"""From a raw size to a measure: its marks and tails are weighed against each other, and what contradicts is refused."""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from typing import Literal

from sizewright.notation.amounts import is_angle, is_dual
from sizewright.notation.fits import CLASSED_KINDS, classed
from sizewright.notation.forms import form_of
from sizewright.notation.kinds import DRILLS, KIND_OF_MARK, NOTE_OF_MARK, SIDE_OF_MARK
from sizewright.notation.model import (
    Amount,
    Classed,
    Deviations,
    InchFit,
    LimitPair,
    Measure,
    PlusMinus,
    Span,
    Standing,
    Tolerance,
    ToleranceClass,
)
from sizewright.notation.pairs import Between, alike, dashed, far_apart, limit_pair
from sizewright.notation.pieces import Mark, RawSize, Tail
from sizewright.text.errors import CalloutError, with_article

_BETWEEN: dict[str, Between] = {
    "slash_limit": "/",
    "stacked_limit": "stacked",
    "to_limit": "to",
    "marked_limit": "marked",
}
_BOLT_CIRCLE = "bolt circle diameter"
# ↧16 MIN FULL THREAD, Ø50 BC: the word says more than the mark.
_NARROWER = ({"depth", "thread depth"}, {"depth", "full thread"}, {"diameter", _BOLT_CIRCLE})
# What only a round hole is made by, and words for what is round.
_OF_CENTRES = re.compile(r"cent(?:er|re)s|ctrs?$|c/c|o\.?c$")
_PROCESSES = frozenset({"drill", "ream", "bore", "punch", "hole", "shaft"})
_BOUNDS: dict[str, Literal["max", "min"]] = {"MAX": "max", "MIN": "min"}


@dataclass(slots=True, eq=False, repr=False)
class Weighed:
    """One size with everything typed about it, before it is joined to its neighbours."""

    measure: Measure
    kind: str | None = None
    letter_c: bool = False
    form: str | None = None  # counterbore, slot ...: the word for it, before the number or after it
    form_after: bool = False
    drill: str = ""
    on_circle: Span | None = None
    through: Literal["through", "through all"] | None = None
    places: Tail | None = None
    typical: bool = False
    total: Amount | None = None
    shorter_side: Amount | None = None
    modifiers: tuple[str, ...] = ()
    notes: tuple[str, ...] = ()
    span: Span = (0, 0)


@dataclass(slots=True, eq=False, repr=False)
class _Parts:
    """The tails of one size, sorted by what they are."""

    tolerance: Tolerance | None = None
    deviations: list[Tail] = field(default_factory=list)
    limit: Tail | None = None
    bounds: list[Mark] = field(default_factory=list)
    marks: list[Mark] = field(default_factory=list)
    standing: Standing = Standing.PLAIN
    other: RawSize | None = None
    classes: tuple[ToleranceClass, ...] = ()
    inch_fit: InchFit | None = None
    member: Tail | None = None


def weigh(raw: RawSize, text: str) -> Weighed:
    """Put a raw size together; `text` is the folded callout (blanks about a dash tell a range from a deviation).

    Raises:
        CalloutError: two tolerances, two kinds, or numbers that contradict each other.
    """
    result = Weighed(Measure(None), span=raw.span)
    if raw.inner is not None:
        result = weigh(raw.inner, text)
        result.span = raw.span
    parts = _sort(raw, result)
    _name(raw.marks + parts.marks, result)
    if raw.amount is None and result.drill and parts.other is not None:  # #7 (.201) DRILL
        measure, parts.other = weigh(parts.other, text).measure, None
        standing = measure.standing
    elif raw.inner is not None:
        _only_words(parts, raw)
        measure, standing = result.measure, Standing(raw.standing)
    else:
        measure, standing = _measure(raw, parts, text, result.kind), parts.standing
    other = measure.other if parts.other is None else _other(parts.other, measure, result.kind, text)
    _check_form(result, measure)
    result.measure = measure._replace(standing=standing, other=other, span=raw.span)
    return result


def _check_form(result: Weighed, measure: Measure) -> None:
    """`Ø6.6 / 11 C'BORE` is no pair of limits of a counterbore."""
    pair = measure.tolerance
    if result.form is not None and isinstance(pair, LimitPair) and far_apart(pair.upper, pair.lower):
        span = (min(pair.upper.span, pair.lower.span)[0], max(pair.upper.span, pair.lower.span)[1])
        raise CalloutError("two sizes about a stroke, or two limits", *span, "a semicolon between two sizes")


def _sort(raw: RawSize, result: Weighed) -> _Parts:
    parts = _Parts(bounds=[mark for mark in raw.marks if mark[0] in ("MAX", "MIN")])
    for tail in raw.tails:
        match tail.name:
            case "plus_minus":
                _alone(parts, tail)
                parts.tolerance = PlusMinus(tail.value)
            case "deviation":
                parts.deviations.append(tail)
            case "deviations":
                parts.deviations += [Tail("deviation", amount, amount.span) for amount in tail.value]
            case "slash_limit" | "stacked_limit" | "to_limit":
                if parts.limit is not None:
                    raise CalloutError("a third limit", *tail.span, "two limits, as in 25.1/24.9")
                parts.limit = tail
            case "marked_limit":
                mark, amount = tail.value
                if mark in ("MAX", "MIN"):
                    parts.bounds.append(Mark(mark, tail.span))
                elif mark not in (name for name, _ in raw.marks):
                    raise CalloutError(
                        "two marks that do not go together", *tail.span, "the same mark before both limits"
                    )
                if parts.limit is not None:
                    raise CalloutError("a third limit", *tail.span, "two limits, as in 25.1/24.9")
                parts.limit = Tail("to_limit" if mark in ("MAX", "MIN") else tail.name, amount, amount.span)
            case "bound":
                parts.bounds.append(Mark(tail.value, tail.span))
            case "mark_after":
                parts.marks.append(Mark(_after(*tail.value), tail.span))
            case "reference" | "basic":
                _stand(parts, Standing(tail.name), tail.span)
            case "other_unit":
                if parts.other is not None:
                    raise CalloutError("a third size for one dimension", *tail.span)
                parts.other = tail.value
            case "classes" | "inch_fit":
                if tail.name == "classes":
                    _refuse_far_class(raw, tail)
                _one_class(parts, tail)
            case "fit_member":
                if parts.member is not None and parts.member.value[0] != tail.value[0]:
                    raise CalloutError("both hole and shaft", *tail.span, "one of them")
                parts.member = tail
            case "typical":
                result.typical = True
            case "places":
                result.places = tail
            case "through":
                result.through = "through all" if "all" in tail.value[1].lower() else "through"
            case "total":
                result.total = tail.value
            case "shorter_side":
                result.shorter_side = tail.value
            case "drill":
                if result.drill not in ("", tail.value):
                    raise CalloutError("a second drill", *tail.span, "one drill for a hole")
                result.drill = tail.value
            case "process":
                result.notes += (tail.value,)
            case "modifier":
                result.modifiers += (tail.value[1].strip("()<>"),)
            case _:
                result.notes += (tail.value[1].strip("()").lower().rstrip("."),)
    if parts.member is not None and parts.inch_fit is None:
        result.notes += (parts.member.value[1],)  # Ø25 H7 BORE, Ø12 SHAFT
    if parts.tolerance is not None and parts.deviations:
        raise CalloutError("a second tolerance", *parts.deviations[0].span, "one tolerance for one size")
    return parts


def _after(terminal: str, word: str) -> str:
    return f"AFTER {form_of(word)}" if terminal == "HOLE_FORM_AFTER" else terminal.removesuffix("_AFTER")


def _stand(parts: _Parts, standing: Standing, span: Span) -> None:
    if parts.standing not in (Standing.PLAIN, standing):
        raise CalloutError("both basic and reference", *span, "one or the other")
    parts.standing = standing


def _alone(parts: _Parts, tail: Tail) -> None:
    if parts.tolerance is not None or parts.deviations:
        raise CalloutError("a second tolerance", *tail.span, "one tolerance for one size")


# Letters of classes that something else has too; it stands for that where the class is not right behind its number.
_CLASS_OR = {"M": "thread", "N": "roughness grade"}
_WITHOUT_CLASS = (
    "FORM counterbore",
    "FORM countersink",
    "FORM spotface",
    "BOLT_CIRCLE",
    "SQUARE",
)  # marks of sizes that hardly have one
_TOLERANCES = frozenset({"plus_minus", "deviation", "deviations", "classes"})


def _refuse_far_class(raw: RawSize, tail: Tail) -> None:
    """`17 A/F M10`, `Ø6.6 THRU N7`: with a word between the number and it, a thread and a roughness grade."""
    class_ = tail.value[0]
    other = _CLASS_OR.get(class_.letters)
    between = {each.name for each in raw.tails[: raw.tails.index(tail)]} - _TOLERANCES
    unlikely = any(name.startswith(_WITHOUT_CLASS) for name, _ in raw.marks)
    if other is not None and len(tail.value) == 1 and (between or unlikely):
        hint = f"{class_.name} after a semicolon for the {other}, right behind its number for the class"
        raise CalloutError(f"{class_.name} can be a {other} or a tolerance class", *tail.span, hint)


def _name(marks: list[Mark], result: Weighed) -> None:
    for name, span in marks:
        if name.startswith(("FORM ", "AFTER ")):
            _one_form(name, span, result)
        elif name.startswith("PROCESS "):
            result.notes += (name.removeprefix("PROCESS "),)
        elif name.startswith("AXIS "):
            result.notes += (f"{name[-1]} coordinate",)
            result.kind = "coordinate"
        elif name.startswith("HOLE"):
            result.notes += ("hole",)
            result.through = "through" if name.endswith("THRU") else result.through
        elif name == "ON_CIRCLE":
            result.on_circle = span
        elif name in NOTE_OF_MARK:
            result.notes += (NOTE_OF_MARK[name],)
        elif name in KIND_OF_MARK:
            kind = KIND_OF_MARK[name]
            if {result.kind, kind} in _NARROWER:
                result.kind = kind if result.kind in ("depth", "diameter") else result.kind
                continue
            if result.kind not in (None, kind):
                raise CalloutError(
                    f"both {with_article(result.kind)} and {with_article(kind)}", *span, "one mark for one size"
                )
            result.kind = kind
            result.notes += SIDE_OF_MARK.get(name, ())
            if {"od", "id"} <= set(result.notes):
                raise CalloutError("both an outside and an inside diameter", *span, "a semicolon between two diameters")
            result.letter_c = result.letter_c or name == "CHAMFER_C"
    if "hexagon" in result.notes and result.kind is None:
        result.kind = "across flats"
    if result.on_circle is not None:
        if result.kind not in (None, "diameter", _BOLT_CIRCLE) or result.form:
            raise CalloutError("ON what", *result.on_circle, "ON Ø50 BC")
        if any(_OF_CENTRES.search(note) for note in result.notes):
            raise CalloutError("a circle, or a distance of centres", *result.on_circle, "ON Ø50 BC, or 20 CTRS alone")
        result.kind = _BOLT_CIRCLE
    drilled = result.drill or set(result.notes) & (_PROCESSES | DRILLS)
    if result.kind is None and result.form is None and drilled:
        result.kind = "diameter"


def _one_form(name: str, span: Span, result: Weighed) -> None:
    when, _, form = name.partition(" ")
    if result.form not in (None, form) and {result.form, form} != {"counterbore", "spotface"}:
        raise CalloutError(f"both {with_article(result.form or '')} and {with_article(form)}", *span, "one of them")
    result.form = "spotface" if "spotface" in (result.form, form) else form
    result.form_after = when == "AFTER"


def _only_words(parts: _Parts, raw: RawSize) -> None:
    """After a closing bracket stand words only: a tolerance belongs inside."""
    if parts.deviations or parts.tolerance or parts.limit or parts.classes or parts.inch_fit:
        raise CalloutError("a tolerance after the closing bracket", *raw.tails[0].span, "the tolerance inside it")


def _measure(raw: RawSize, parts: _Parts, text: str, kind: str | None) -> Measure:
    nominal = raw.amount
    if nominal is None:
        if parts.limit or parts.deviations or parts.tolerance:
            raise CalloutError("a tolerance without a size", *raw.tails[0].span, "a number before it")
        return Measure(None)
    tolerance = parts.tolerance
    if len(parts.bounds) == 2 and len(parts.deviations) == 1 and parts.deviations[0].value.value < 0:
        second = parts.deviations.pop()  # 24.9 MIN - 25.1 MAX: the dash parts two limits
        parts.limit = Tail("to_limit", second.value._replace(value=-second.value.value), second.span)
    if parts.deviations:
        tolerance = _deviations(nominal, parts.deviations, text, kind)
    if parts.classes or parts.inch_fit:
        return _classed(raw, parts, tolerance, text, kind)
    bound: Literal["max", "min"] | None = None
    if parts.limit is not None:
        if tolerance is not None:
            raise CalloutError("two limits and a tolerance", *parts.limit.span, "one or the other")
        tolerance = _limits(nominal, parts, parts.limit, text)
    elif len(parts.bounds) > 1:
        raise CalloutError("both MAX and MIN on one number", *parts.bounds[1][1], "12.1 MAX / 11.9 MIN")
    elif parts.bounds:
        name, span = parts.bounds[0]
        if tolerance is not None:
            raise CalloutError(f"{name} beside a tolerance", *span, "one or the other")
        if parts.standing is not Standing.PLAIN:
            raise CalloutError(f"{name} on a {parts.standing.value} size", *span, "one or the other")
        bound = _BOUNDS[name]
    if isinstance(tolerance, LimitPair):
        upper, lower = alike([tolerance.upper, tolerance.lower])
        return Measure(None, LimitPair(upper, lower), bound)
    return _consistent(Measure(nominal, tolerance, bound))


def _one_class(parts: _Parts, tail: Tail) -> None:
    if parts.classes or parts.inch_fit:
        raise CalloutError("a second tolerance class", *tail.span, "one class, or a pair as in H7/g6")
    if isinstance(tail.value, InchFit):
        parts.inch_fit = tail.value
    else:
        parts.classes = tail.value


def _classed(raw: RawSize, parts: _Parts, tolerance: Tolerance | None, text: str, kind: str | None) -> Measure:
    """A size with a class: deviations beside it, or limits in brackets after it, are held against it later."""
    nominal = raw.amount
    assert nominal is not None
    typed = parts.classes[0].span if parts.classes else parts.inch_fit.span if parts.inch_fit else nominal.span
    if is_angle(nominal) or kind not in CLASSED_KINDS:
        name = "angle" if is_angle(nominal) else kind or "length"
        raise CalloutError(f"a tolerance class on {with_article(name)}", *typed, "± or limits")
    if isinstance(tolerance, LimitPair):
        raise CalloutError("limits beside a tolerance class", *typed, "limits in brackets: Ø25 H7 (25.021/25.000)")
    if parts.bounds or parts.limit:
        span = parts.bounds[0][1] if parts.bounds else parts.limit.span if parts.limit else nominal.span
        raise CalloutError("limits beside a tolerance class", *span, "limits in brackets: Ø25 H7 (25.021/25.000)")
    if parts.inch_fit is not None:
        if tolerance is not None:
            raise CalloutError("a tolerance beside a fit", *parts.inch_fit.span, "one or the other")
        member = parts.member.value[0] if parts.member else None
        return Measure(nominal, parts.inch_fit._replace(member=member))
    limits = None if parts.other is None else _typed_limits(parts.other, text)
    if limits is not None and is_dual(limits.upper, nominal) and len(parts.classes) == 1:
        limits = None  # Ø25 H7 [.9851/.9843]: the second dimension
    if limits is not None:
        parts.other = None
    measure = _consistent(Measure(nominal, tolerance))
    assert measure.nominal is not None
    if is_angle(measure.nominal):
        raise CalloutError("a tolerance class on an angle", *typed, "± or limits")
    return measure._replace(tolerance=classed(parts.classes, limits or measure.tolerance, measure.nominal, kind))


def _typed_limits(raw: RawSize, text: str) -> LimitPair | None:
    """The limits that stand in brackets after a class, or None where the brackets hold a second dimension."""
    tolerance = weigh(raw, text).measure.tolerance
    return tolerance if isinstance(tolerance, LimitPair) else None


def _consistent(measure: Measure) -> Measure:
    """One sort of number and one unit through the whole measure."""
    assert measure.nominal is not None
    match measure.tolerance:
        case PlusMinus(amount):
            nominal, amount = alike([measure.nominal, amount])
            return measure._replace(nominal=nominal, tolerance=PlusMinus(amount))
        case Deviations(upper, lower):
            nominal, upper, lower = alike([measure.nominal, upper, lower])
            return measure._replace(nominal=nominal, tolerance=Deviations(upper, lower))
        case _:
            return measure


def _limits(first: Amount, parts: _Parts, tail: Tail, text: str) -> LimitPair:
    second: Amount = tail.value
    if len(parts.bounds) == 2:
        (one, _), (two, span) = parts.bounds
        if one == two:
            raise CalloutError(f"{one} twice", *span, "one MAX and one MIN")
        upper, lower = (first, second) if one == "MAX" else (second, first)
        if upper.value < lower.value:
            raise CalloutError("the MAX is below the MIN", *span, "the larger number with MAX")
        return LimitPair(upper, lower)
    if parts.bounds:
        raise CalloutError(f"{parts.bounds[0][0]} beside two limits", *parts.bounds[0][1], "12.1 MAX / 11.9 MIN")
    return limit_pair(first, second, _BETWEEN[tail.name], text)


def _deviations(nominal: Amount, tails: list[Tail], text: str, kind: str | None) -> Tolerance:
    typed: list[Amount] = [tail.value for tail in tails]
    if len(typed) > 2:
        raise CalloutError("a third deviation", *tails[2].span, "two deviations, as in 25 +0.2/-0.1")
    if len(typed) == 1:
        return dashed(nominal, typed[0], text, kind)
    first, second = typed
    if first.value >= second.value:
        return Deviations(first, second)
    if (first.value > 0) == (second.value > 0) and 0 not in (first.value, second.value):
        raise CalloutError(
            "the upper deviation is below the lower one",
            first.span[0],
            second.span[1],
            f"the upper one first: {text[slice(*second.span)]}/{text[slice(*first.span)]}, if both signs are right",
        )
    return Deviations(second, first)


def _other(raw: RawSize, measure: Measure, kind: str | None, text: str) -> Measure:
    """The second of two dimensions; it has the first one's mark and shape.

    Raises:
        CalloutError: it is another sort of thing, or what tolerances the size stands beside the second one only.
    """
    inner = weigh(raw, text)
    if inner.kind not in (None, kind):
        raise CalloutError(
            f"{with_article(inner.kind or 'length')} beside {with_article(kind or 'length')}",
            *raw.span,
            "the same mark",
        )
    other = inner.measure
    if is_angle_measure(other) is not is_angle_measure(measure):
        raise CalloutError("an angle beside a length", *raw.span, "the same size in the other unit")
    of_class = isinstance(measure.tolerance, Classed) and isinstance(other.tolerance, LimitPair)
    if (measure.nominal is None) is not (other.nominal is None) and not of_class:
        raise CalloutError("limits beside a size", *raw.span, "the limits alone, 25.1/24.9, or both with limits")
    if other.tolerance is not None and measure.tolerance is None:
        raise CalloutError("a tolerance beside the second dimension only", *raw.span, "the tolerance beside the first")
    return other


def is_angle_measure(measure: Measure) -> bool:
    """Whether a measure is an angle."""
    if measure.nominal is not None:
        return is_angle(measure.nominal)
    return isinstance(measure.tolerance, LimitPair) and is_angle(measure.tolerance.upper)
