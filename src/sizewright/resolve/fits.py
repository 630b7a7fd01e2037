"""Fits: tolerance classes of ISO 286 and inch fits of ANSI B4.1, from the typed class to exact limits."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal
from fractions import Fraction

from sizewright.notation.model import (
    Amount,
    Classed,
    Deviations,
    InchFit,
    LimitPair,
    PlusMinus,
    Tolerance,
    ToleranceClass,
)
from sizewright.resolve.characteristic import Characteristic, Either, Fit, Limits, Side, Status
from sizewright.resolve.scope import Scope
from sizewright.standards import b4_1, fits, iso286
from sizewright.standards.errors import NotDefined
from sizewright.text.errors import CalloutError, with_article
from sizewright.text.numbers import MM_PER_INCH, Number, add, finite_decimal, multiply, places, plain

_MICROMETRE = Decimal(1000)
_INWARD_PLACES = 4


def resolve_classed(
    made: Characteristic, nominal: Amount, tolerance: Classed | InchFit, scope: Scope
) -> Iterator[Characteristic]:
    """The characteristics of a size with a tolerance class (one), a pair of them (two) or an inch fit (one).

    Raises:
        CalloutError: the standard does not define the class at this size.
    """
    if isinstance(tolerance, InchFit):
        yield _inch_fit(made, nominal, tolerance, scope)
    elif len(tolerance.classes) == 1:
        yield _single(made, nominal, tolerance.classes[0], tolerance.typed, scope)
    else:
        yield from _pair(made, nominal, tolerance.classes, scope)


def _deviations(class_: ToleranceClass, nominal: Amount, unit: str) -> iso286.Deviations:
    """The class's deviations in mm at a nominal size in `unit`."""
    assert isinstance(nominal.value, Decimal)
    size = nominal.value if unit == "mm" else multiply(nominal.value, MM_PER_INCH)
    try:
        return iso286.deviations(class_.letters, class_.grade, size)
    except NotDefined as error:
        near = ", ".join(error.near[:5])
        raise CalloutError(error.message, *class_.span, f"defined near it: {near}" if near else "") from None


def _single(
    made: Characteristic, nominal: Amount, class_: ToleranceClass, typed: Tolerance | None, scope: Scope
) -> Characteristic:
    deviations = _deviations(class_, nominal, made.unit)
    if class_.letters in ("R", "r"):
        scope.warn(f"{class_.name} is read as a tolerance class; a radius stands after a semicolon", class_.span)
    classed = _with_class(made, nominal, class_, deviations)
    if typed is None:
        return classed
    return _held_against(classed, nominal, typed, deviations, class_, scope)


def _with_class(
    made: Characteristic, nominal: Amount, class_: ToleranceClass, deviations: iso286.Deviations
) -> Characteristic:
    side: Side = "internal" if class_.internal else "external"
    why = [_class_words(class_, deviations, made.unit, nominal.value)]
    limits = Limits("size", add(nominal.value, deviations.lower), add(nominal.value, deviations.upper))
    if made.unit == "inch":
        limits = _in_inches(nominal.value, deviations)
        why.append("converted exactly, rounded inward")
    return made._replace(
        status=Status.TOLERANCED, limits=(limits,), side=side, class_=class_.name, why=(*made.why, *why)
    )


def _class_words(class_: ToleranceClass, deviations: iso286.Deviations, unit: str, nominal: Number) -> str:
    upper, lower = _micrometres(deviations.upper), _micrometres(deviations.lower)
    size = f"{plain(nominal)} {'in' if unit == 'inch' else 'mm'}"
    return f"{class_.name} at {size}: {upper}/{lower} µm, IT{class_.grade} {_bare(deviations.width)} µm (ISO 286)"


def _micrometres(value: Decimal) -> str:
    return ("+" if value > 0 else "") + _bare(value)


def _bare(value: Decimal) -> str:
    exact = finite_decimal(Fraction(value) * 1000)
    return plain(exact if exact is not None else value * _MICROMETRE)


def _in_inches(nominal: Number, deviations: iso286.Deviations) -> Limits:
    from sizewright.resolve.units import inward

    size = Fraction(nominal) * Fraction(MM_PER_INCH)
    exact = Limits("size", size + Fraction(deviations.lower), size + Fraction(deviations.upper))
    return inward(exact, "mm", "inch")


def _held_against(
    classed: Characteristic,
    nominal: Amount,
    typed: Tolerance,
    deviations: iso286.Deviations,
    class_: ToleranceClass,
    scope: Scope,
) -> Characteristic:
    """What is typed beside a class must say the same; a contradiction gives no limits."""
    lower, upper = _typed_deviations(nominal, typed)
    if _agrees(classed.unit, (lower, upper), deviations):
        return classed._replace(why=(*classed.why, "the typed deviations agree"))
    if class_.letters in ("JS", "js") and classed.unit == "mm":
        rounded = iso286.rounded_symmetrical(class_.grade, Decimal(nominal.value))  # type: ignore[arg-type]
        if (lower, upper) == (rounded.lower, rounded.upper):
            limits = Limits("size", add(nominal.value, lower), add(nominal.value, upper))
            said = "the typed deviations are those of the 1988 edition, rounded to whole micrometres: taken"
            return classed._replace(limits=(limits,), why=(*classed.why, said))
    unit = "mm" if classed.unit == "mm" else "in"
    text = (
        f"{class_.name} gives {_signed(deviations.upper)}/{_signed(deviations.lower)} mm, "
        f"typed are {_signed(upper)}/{_signed(lower)} {unit}"
    )
    scope.warn(f"{text}: a contradiction, no limits given", class_.span)
    return classed._replace(status=Status.CONFLICT, limits=(), why=(*classed.why, text))


def _agrees(unit: str, typed: tuple[Number, Number], deviations: iso286.Deviations) -> bool:
    """Whether typed deviations are the class's: exactly in mm; in inches to the last place they are typed to.

    An inch figure may be rounded to the nearest, or inward where it has four places or more (ISO 370 writes limits so).
    """
    exact = deviations.lower, deviations.upper
    if unit == "mm":
        return typed == exact
    last = max(places(value) for value in typed if isinstance(value, Decimal))
    step = Fraction(1, 10**last)
    off = [abs(Fraction(value) - Fraction(mm) / Fraction(MM_PER_INCH)) for value, mm in zip(typed, exact, strict=True)]
    nearest = all(2 * each <= step for each in off)
    return typed[0] < typed[1] and (nearest or (last >= _INWARD_PLACES and all(each < step for each in off)))


def _typed_deviations(nominal: Amount, typed: Tolerance) -> tuple[Number, Number]:
    match typed:
        case PlusMinus(amount):
            return -amount.value, amount.value
        case Deviations(upper, lower):
            return lower.value, upper.value
        case LimitPair(upper, lower):
            return add(lower.value, -nominal.value), add(upper.value, -nominal.value)
    raise AssertionError(typed)


def _signed(value: Number) -> str:
    return ("+" if value > 0 else "") + plain(value)


def _pair(
    made: Characteristic, nominal: Amount, classes: tuple[ToleranceClass, ...], scope: Scope
) -> Iterator[Characteristic]:
    """Both members of a fit, the hole first, each with the fit that they make."""
    hole, shaft = (_deviations(class_, nominal, made.unit) for class_ in classes)
    found = fits.fit(hole, shaft)
    members = [
        _with_class(made, nominal, class_, deviations)
        for class_, deviations in zip(classes, (hole, shaft), strict=True)
    ]
    fit = _fit(found, members, made.unit)
    names = "/".join(class_.name for class_ in classes)
    basis = "neither hole basis nor shaft basis" if found.basis is fits.FitBasis.NEITHER else found.basis.value
    words = f"{names} is {with_article(fit.type)} fit, {basis}"
    scope.info(f"{words}: {_extremes(fit, made.unit)}")
    for said in _preferred_words(classes[0].name, classes[1].name):
        scope.info(said)
    if not fits.preferred(classes[0].name, classes[1].name):
        scope.info(f"{names} is not among the preferred fits of ISO 286-1 or ANSI B4.2")
    for member in members:
        yield member._replace(fit=fit)


def _preferred_words(hole: str, shaft: str) -> Iterator[str]:
    """What each list says of a preferred fit; lists that say the same are named together."""
    lists: dict[str, list[str]] = {}
    for each in fits.preferred(hole, shaft):
        doubt = "" if each.confirmed else " (not confirmed in print)"
        lists.setdefault(f"{each.name}: {each.use}{doubt}", []).append(each.list)
    for said, names in lists.items():
        yield f"preferred fit of {' and '.join(names)}, {said}"


def _fit(found: fits.Fit, members: list[Characteristic], unit: str) -> Fit:
    if unit == "mm":
        return Fit(found.type.value, found.clearance_max, found.clearance_min)
    hole, shaft = (member.limits[0] for member in members)
    biggest = add(hole.upper, -shaft.lower)  # type: ignore[operator,arg-type]
    smallest = add(hole.lower, -shaft.upper)  # type: ignore[operator,arg-type]
    return Fit(found.type.value, biggest, smallest)


def _extremes(fit: Fit, unit: str) -> str:
    """Both extremes in words, the spread between them, and the middle."""
    word = "in" if unit == "inch" else "mm"
    largest, smallest = Fraction(fit.clearance_max), Fraction(fit.clearance_min)
    middle, spread = finite_decimal((largest + smallest) / 2), finite_decimal(largest - smallest)
    assert middle is not None
    assert spread is not None
    return (
        f"{_gap(fit.clearance_max, word)} to {_gap(fit.clearance_min, word)}, "
        f"spread {plain(spread)} {word}, in the middle {_gap(middle, word)}"
    )


def _gap(value: Number, word: str) -> str:
    size = -value if value < 0 else value
    return f"{plain(size)} {word} {'interference' if value < 0 else 'clearance'}"


def _inch_fit(made: Characteristic, nominal: Amount, typed: InchFit, scope: Scope) -> Characteristic:
    if made.unit != "inch":
        raise CalloutError(
            "an inch fit (ANSI B4.1) on a size in mm", *typed.span, "the size in inches, or a class such as H7"
        )
    assert isinstance(nominal.value, Decimal)
    try:
        found = b4_1.inch_fit(typed.symbol, nominal.value)
    except NotDefined as error:
        near = ", ".join(error.near[:5])
        raise CalloutError(error.message, *typed.span, f"defined near it: {near}" if near else "") from None
    hole, shaft = _inch_limits(nominal, found.hole), _inch_limits(nominal, found.shaft)
    fit = Fit(found.fit.type.value, found.fit.clearance_max, found.fit.clearance_min)
    scope.info(f"{found.symbol} is a {found.name} fit, hole basis: {_extremes(fit, 'inch')}")
    if found.doubtful or not found.confirmed:
        scope.warn(f"the row of {found.symbol} at this size is not confirmed in print", typed.span)
    said = (
        *made.why,
        f"{found.symbol} at {plain(nominal.value)} in: hole {_thousandths(found.hole)}, "
        f"shaft {_thousandths(found.shaft)} thousandths of an inch (ANSI B4.1, whose table is in thousandths)",
    )
    classed = made._replace(status=Status.TOLERANCED, class_=found.symbol, fit=fit, why=said)
    if typed.member == "hole":
        return classed._replace(limits=(hole,), side="internal")
    if typed.member == "shaft":
        return classed._replace(limits=(shaft,), side="external")
    return classed._replace(either=Either((hole,), (shaft,)), limits=(), side=None)


def _inch_limits(nominal: Amount, deviations: iso286.Deviations) -> Limits:
    return Limits("size", add(nominal.value, deviations.lower), add(nominal.value, deviations.upper))


def _thousandths(deviations: iso286.Deviations) -> str:
    return f"{_micrometres(deviations.upper)}/{_micrometres(deviations.lower)}"
