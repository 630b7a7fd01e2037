"""Holes and cut-outs: drills by name, the two sides of a countersink, and the depth that a spotface goes without."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal
from fractions import Fraction

from sizewright.notation.amounts import is_angle
from sizewright.notation.forms import FORM_KINDS
from sizewright.notation.model import ONCE, Amount, Size
from sizewright.resolve.characteristic import Characteristic, Status
from sizewright.resolve.scope import Scope
from sizewright.resolve.sizes import resolve_size
from sizewright.standards.threads.workshop import Drill, drills
from sizewright.text.errors import CalloutError
from sizewright.text.numbers import MM_PER_INCH, plain

# A drill's size typed beside its name may be rounded to three places.
_AGREES = Decimal("0.0005")
# A drill whose size is further off than this share of it is another thing with the same letter.
_SHARE = 10


def resolve_hole(size: Size, following: object, scope: Scope) -> Iterator[Characteristic]:
    """The characteristics of a number of a form, or of a drilled hole."""
    why: tuple[str, ...] = ()
    if size.drill:
        size, why = _drilled(size, scope)
    if size.kind == "bolt circle diameter" and size.repeat.holes:
        why += (f"{size.repeat.count} holes stand on it",)
        size = size._replace(repeat=ONCE)
    for made in resolve_size(size, following, scope):
        yield _as_form(made._replace(why=(*why, *made.why)), size)
    deep = isinstance(following, Size) and following.kind == "spotface depth"
    if size.kind == "spotface diameter" and not deep:
        unit = scope.unit_of_measure(size.measure)
        said = "no depth typed: as deep as cleans the face up"
        bare = Characteristic("spotface depth", unit, Status.UNTOLERANCED, side="internal", why=(said,))
        yield _as_form(bare._replace(count=size.repeat.count), size)


def refuse_drill_letter(size: Size, scope: Scope) -> None:
    """`.257 (F)` can be the drill F, whose size it is, or a size in the free state.

    Raises:
        CalloutError: the modifier is the name of a drill of just this size.
    """
    nominal = size.measure.nominal
    if nominal is None or size.measure.tolerance is not None or scope.unit_of(nominal) != "inch":
        return
    for drill in drills():
        if drill.name in size.modifiers and abs(Fraction(nominal.value) - Fraction(drill.diameter)) <= _AGREES:
            hint = f"{plain(drill.diameter)} ({drill.name} DRILL) for the drill, a tolerance for the modifier"
            raise CalloutError(f"({drill.name}) can be the drill of this size, or a modifier", *size.measure.span, hint)


def _as_form(made: Characteristic, size: Size) -> Characteristic:
    """A form is inside the part; what is on both sides occurs twice."""
    if size.kind not in FORM_KINDS:
        return made._replace(side="internal") if made.kind == "diameter" else made
    diameter = made.kind.endswith(("diameter", "width")) and not made.kind.startswith("groove")
    count = made.count * 2 if made.count is not None and "both sides" in size.notes else made.count
    return made._replace(side="internal" if diameter else made.side, count=count)


def _drilled(size: Size, scope: Scope) -> tuple[Size, tuple[str, ...]]:
    """The size with the diameter of its drill; a typed one is held against it.

    Raises:
        CalloutError: no drill has that name.
    """
    drill = next((each for each in drills() if each.name == size.drill), None)
    if drill is None:
        raise CalloutError(f"no drill is called {size.drill}", *size.measure.span, "#80 to #1, A to Z")
    said = f"drill {drill.name}: {plain(drill.diameter)} in (ASME B94.11M)"
    if size.measure.nominal is None:
        inch = scope.context.unit == "inch"
        amount = Amount(drill.diameter if inch else drill.diameter * MM_PER_INCH, span=size.measure.span)
        return size._replace(measure=size.measure._replace(nominal=amount)), (said,)
    _check(size.measure.nominal, drill, scope)
    return size, (said,)


def _check(typed: Amount, drill: Drill, scope: Scope) -> None:
    if is_angle(typed):
        raise CalloutError(f"an angle beside the drill {drill.name}", *typed.span, "the drill's name beside its size")
    unit = scope.unit_of(typed)
    exact = drill.diameter if unit == "inch" else drill.diameter * MM_PER_INCH
    near = _AGREES if unit == "inch" else _AGREES * MM_PER_INCH
    apart = abs(Decimal(typed.value) - exact)  # type: ignore[arg-type]
    if apart * _SHARE > exact:
        hint = "the drill's own size beside its name, or no letter: .2570 (F DRILL)"
        raise CalloutError(f"({drill.name}) is no drill of this size: {plain(exact)} {unit}", *typed.span, hint)
    if apart > near:
        scope.warn(
            f"drill {drill.name} is {plain(exact)} {unit}, typed is {scope.typed(typed)}: the typed size is taken",
            typed.span,
        )
