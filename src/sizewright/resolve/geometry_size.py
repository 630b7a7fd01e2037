"""A frame under the size that carries it: virtual and resultant condition, bonus, worst boundaries, in words."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from decimal import Decimal

from sizewright.notation.model import Feature, Frame
from sizewright.resolve.characteristic import Characteristic, Side
from sizewright.resolve.geometry_rules import RULES
from sizewright.resolve.scope import Scope
from sizewright.standards.material_condition import Material, bonus, resultant_condition, virtual_condition
from sizewright.text.numbers import plain

Before = Sequence[tuple[Feature, tuple[Characteristic, ...]]]

# Kinds that are features of size: their axis or middle plane is what the zone holds.
OF_SIZE = frozenset(
    {"diameter", "length", "square", "thickness", "across flats", "spherical diameter", "slot width", "keyway width"}
    | {"groove width"}
)
_DATUMS = ("datum feature", "datum target")
_SIDES: tuple[Side, ...] = ("internal", "external")


def right_before(kinds: Sequence[str]) -> list[int]:
    """Which of the characteristics typed before a frame it stands under, by their kinds: their places.

    They are those since the frame before it (ASME Y14.5: a frame goes with the feature above it); where nothing stands
    between two frames, both go with the same.
    """
    found: list[int] = []
    framed = False
    for at, kind in enumerate(kinds):
        if kind in RULES:
            framed = True
        elif kind not in _DATUMS:
            found = [at] if framed else [*found, at]
            framed = False
    return found


def of_size(frame: Frame, before: Before, unit: str, scope: Scope) -> tuple[str, ...]:
    """What (M) or (L) comes to with the limits of the size typed before `frame`; a remark where that is not settled."""
    names = {modifier.name for modifier in frame.modifiers}
    material: Material = "M" if "M" in names else "L" if "L" in names else "S"
    if material == "S":
        return ()
    made = [each for _, group in before for each in group]
    above = [made[at] for at in right_before([each.kind for each in made])]
    sizes = [each for each in above if each.kind in OF_SIZE]
    if not sizes and frame.segment[0] > 1:
        return ()  # said of the first segment
    if any(each.kind == "thread" for each in above):
        scope.info("a frame under a thread goes by its pitch diameter: no bonus is worked out for it", frame.span)
        return ()
    if above and not sizes:
        scope.info(f"a frame under a {above[0].kind}: no bonus of ({material}) is worked out for it", frame.span)
        return ()
    if not sizes:
        scope.info(f"no size is typed before the frame: the bonus of ({material}) needs its limits", frame.span)
        return ()
    if len(sizes) > 1:
        scope.info("several sizes before the frame: which one its bonus goes by is not settled here", frame.span)
        return ()
    return tuple(_said(frame, sizes[0], material, unit, scope))


def _said(frame: Frame, size: Characteristic, material: Material, unit: str, scope: Scope) -> Iterator[str]:
    if size.unit != unit:
        scope.warn("the size and its frame have different units: no virtual condition is given", frame.span)
        return
    found = [(side, *limits) for side in _sides(size) if (limits := _limits(size, side)) is not None]
    if not found:
        scope.info(f"the size before the frame has no two limits: no virtual condition at ({material})", frame.span)
        return
    for side, lower, upper in found:
        yield _conditions(frame.zone.value, side, lower, upper, material, unit, told=len(found) == 1)


def _sides(size: Characteristic) -> tuple[Side, ...]:
    return (size.side,) if size.side is not None else _SIDES


def _limits(size: Characteristic, side: Side) -> tuple[Decimal, Decimal] | None:
    pairs = getattr(size.either, side) if size.either is not None else size.limits
    if len(pairs) != 1 or not isinstance(pairs[0].lower, Decimal) or not isinstance(pairs[0].upper, Decimal):
        return None
    return pairs[0].lower, pairs[0].upper


def _conditions(
    zone: object, side: Side, lower: Decimal, upper: Decimal, material: Material, unit: str, *, told: bool
) -> str:
    assert isinstance(zone, Decimal)
    internal = side == "internal"
    virtual = virtual_condition(lower, upper, zone, material, internal=internal)
    resultant = resultant_condition(lower, upper, zone, material, internal=internal)
    at = lower if internal == (material == "M") else upper
    most = bonus(upper if at == lower else lower, lower, upper, material, internal=internal)
    who = "" if told else f"if it is {'a hole or slot' if internal else 'a shaft or tab'}: "
    word = "in" if unit == "inch" else unit
    far = upper if at == lower else lower
    return (
        f"{who}virtual condition {plain(virtual)} {word}, resultant condition {plain(resultant)} {word} ({side}); "
        f"zone {plain(zone)} at size {plain(at)}, up to {plain(zone + most)} at {plain(far)}, one for one between "
        "(ASME Y14.5, ISO 2692)"
    )
