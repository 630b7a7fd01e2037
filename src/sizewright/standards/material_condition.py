"""A zone that goes with a size: virtual and resultant condition, bonus, and the value of position from coordinates.

Rules of ASME Y14.5 (virtual condition, resultant condition, position) and ISO 2692 (maximum and least material
requirement; the virtual condition is there the virtual size). All numbers are in one unit; nothing is rounded but
`diametral_position`, and that upward.
"""

from decimal import ROUND_CEILING, Context, Decimal
from typing import Literal, NamedTuple

Material = Literal["M", "L", "S"]  # at maximum material, at least material, regardless of feature size

# Coordinates have 15 figures at most: their squares are exact here, and a root that is not exact differs from any
# number of places asked for long before its last digit.
_WORK = Context(prec=80)


class Boundaries(NamedTuple):
    """The two worst boundaries of a feature of size: none of its surface lies inside the one or outside the other."""

    inner: Decimal
    outer: Decimal


def boundaries(lower: Decimal, upper: Decimal, zone: Decimal, material: Material, *, internal: bool) -> Boundaries:
    """Inner and outer boundary of a feature of limits `lower` to `upper` with a zone of `zone`.

    At (M) or (L) one of them is the virtual condition, constant at every size, and the other the resultant condition,
    which the bonus widens by the whole size tolerance; regardless of feature size there is no bonus.
    """
    tolerance = _WORK.subtract(upper, lower)
    least_inner = _WORK.subtract(lower, zone)
    most_outer = _WORK.add(upper, zone)
    if material == "S":
        return Boundaries(least_inner, most_outer)
    virtual_is_inner = internal == (material == "M")
    if virtual_is_inner:
        return Boundaries(least_inner, _WORK.add(most_outer, tolerance))
    return Boundaries(_WORK.subtract(least_inner, tolerance), most_outer)


def virtual_condition(lower: Decimal, upper: Decimal, zone: Decimal, material: Material, *, internal: bool) -> Decimal:
    """The virtual condition at (M) or (L): the size of the gauge, or of the mating part at its worst."""
    both = boundaries(lower, upper, zone, material, internal=internal)
    return both.inner if internal == (material == "M") else both.outer


def resultant_condition(
    lower: Decimal, upper: Decimal, zone: Decimal, material: Material, *, internal: bool
) -> Decimal:
    """The worst boundary on the other side, all of the bonus used."""
    both = boundaries(lower, upper, zone, material, internal=internal)
    return both.outer if internal == (material == "M") else both.inner


def bonus(size: Decimal, lower: Decimal, upper: Decimal, material: Material, *, internal: bool) -> Decimal:
    """What a feature measured as `size` adds to its zone: how far it is from the limit that the modifier names.

    Never below zero nor above the size tolerance: a size out of its limits earns no more. `size` is that of the actual
    mating envelope (at M), not a two-point size, which can be too kind.
    """
    if material == "S":
        return Decimal(0)
    from_lower = internal == (material == "M")
    earned = _WORK.subtract(size, lower) if from_lower else _WORK.subtract(upper, size)
    return min(max(earned, Decimal(0)), _WORK.subtract(upper, lower))


def diametral_position(x: Decimal, y: Decimal, z: Decimal = Decimal(0), *, places: int = 4) -> Decimal:
    """The diameter about the true position on which an axis (or a point) that is off by `x`, `y`, `z` lies.

    Twice the distance, rounded up to `places`: a part is never made better by rounding. Exact where the root is.
    """
    value = _WORK.sqrt(_squared(x, y, z))
    step = Decimal(1).scaleb(-places)
    return value if value.as_tuple().exponent >= -places else value.quantize(step, ROUND_CEILING, _WORK)  # type: ignore[operator]


def lies_within(x: Decimal, y: Decimal, z: Decimal = Decimal(0), *, diameter: Decimal) -> bool:
    """Whether an axis off by `x`, `y`, `z` lies in a zone of `diameter`: decided on squares, without a root."""
    return _squared(x, y, z) <= _WORK.multiply(diameter, diameter)


def _squared(x: Decimal, y: Decimal, z: Decimal) -> Decimal:
    squares = [_WORK.multiply(each, each) for each in (x, y, z)]
    return _WORK.multiply(Decimal(4), _WORK.add(_WORK.add(squares[0], squares[1]), squares[2]))
