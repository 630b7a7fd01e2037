"""The other way round: which tolerance classes of ISO 286-1 stand for given limits, or would hold measured sizes.

All sizes and limits are in millimetres. What is found is a proposal: limits do not say which class was meant.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from decimal import ROUND_CEILING, ROUND_FLOOR, Decimal
from functools import cache
from typing import NamedTuple

from sizewright.standards.errors import NotDefined
from sizewright.standards.fits import preferred_classes
from sizewright.standards.iso286 import (
    Deviations,
    defined_classes,
    deviations,
    find_deviations,
    is_hole,
    split_class,
    tolerance,
)
from sizewright.standards.iso286_tables import GRADES, HOLE_LETTERS, LARGEST_SIZE, SHAFT_LETTERS
from sizewright.text.numbers import MM_PER_INCH

_STEPS = tuple(Decimal(step) for step in ("10", "5", "1", "0.5", "0.1", "0.05", "0.01", "0.001"))
_INCH_STEPS = tuple(
    Decimal(step) * MM_PER_INCH
    for step in ("10", "5", "1", "0.5", "0.25", "0.125", "0.0625", "0.1", "0.05", "0.03125", "0.01", "0.005", "0.001")
)
_NEARLY = Decimal("0.5")
_MEASURED_REACH = "10"
_USUAL_GRADES = frozenset(GRADES[GRADES.index("5") : GRADES.index("11") + 1])


class ClassMatch(NamedTuple):
    """A tolerance class beside two given limits of size, in millimetres.

    Attributes:
        name: The class, such as "H7".
        nominal: The nominal size at which it was looked up.
        deviations: Its limit deviations.
        lower_difference: Lower limit of the class less the lower limit given.
        upper_difference: Upper limit of the class less the upper limit given.
        preferred: Whether the class stands in a list of preferred fits.
    """

    name: str
    nominal: Decimal
    deviations: Deviations
    lower_difference: Decimal
    upper_difference: Decimal
    preferred: bool

    @property
    def exact(self) -> bool:
        """Whether the class has exactly the limits given."""
        return self.lower_difference == 0 and self.upper_difference == 0

    @property
    def distance(self) -> Decimal:
        """The sum of the differences at both ends, in millimetres."""
        return abs(self.lower_difference) + abs(self.upper_difference)


class HoldingClass(NamedTuple):
    """A tolerance class whose limits hold all measured sizes, in millimetres.

    `room_below` and `room_above` are the distances from the smallest and the largest size to the limits.
    """

    name: str
    nominal: Decimal
    deviations: Deviations
    room_below: Decimal
    room_above: Decimal
    preferred: bool


def classes_holding(
    lower: Decimal, upper: Decimal, nominal: Decimal | None, internal: bool, count: int = 5, *, inch: bool = False
) -> tuple[ClassMatch, ...]:
    """The classes nearest to two limits of size in millimetres, an exact match first, preferred ones before others.

    Holes with `internal` true, else shafts. Without a nominal size `plausible_nominal` chooses one.

    Raises:
        NotDefined: The nominal size is outside of ISO 286-1, or no nominal size is plausible.
    """
    chosen = plausible_nominal(lower, upper, internal, inch=inch) if nominal is None else nominal
    _require_size(chosen)
    matches = [_match(name, chosen, lower, upper) for name in defined_classes(chosen, internal)]
    matches.sort(key=lambda match: (match.distance, not match.preferred))
    return tuple(matches[:count])


def classes_holding_sizes(
    sizes: Sequence[Decimal], nominal: Decimal | None, internal: bool, count: int = 5, *, inch: bool = False
) -> tuple[HoldingClass, ...]:
    """The classes that would hold all measured sizes in millimetres: preferred ones first, then the tightest.

    Grades that are used for fits (IT5 to IT11) come before finer and coarser ones. Without a nominal size
    `measured_nominal` chooses one.

    Raises:
        NotDefined: The nominal size is outside of ISO 286-1.
        ValueError: There is no size.
    """
    if not sizes:
        raise ValueError("at least one measured size is needed")
    chosen = measured_nominal(sizes, inch=inch) if nominal is None else nominal
    _require_size(chosen)
    held = [_held(name, chosen, min(sizes), max(sizes)) for name in defined_classes(chosen, internal)]
    found = [candidate for candidate in held if candidate.room_below >= 0 and candidate.room_above >= 0]
    found.sort(key=_usefulness)
    return tuple(found[:count])


def plausible_nominal(lower: Decimal, upper: Decimal, internal: bool, *, inch: bool = False) -> Decimal:
    """A nominal size that two limits of size in millimetres may come from; a proposal, not a rule of the standard.

    Round sizes are tried first, round in inches with `inch` true. A preferred class with exactly these limits wins,
    then any class, then a preferred class that differs by no more than half of the tolerance, then the roundest size
    within the limits.

    Raises:
        NotDefined: The limits are outside of the sizes of ISO 286-1.
    """
    _require_size(lower)
    _require_size(upper)
    candidates = tuple(_round_sizes((lower + upper) / 2, inch=inch))
    allowed = (upper - lower) * _NEARLY
    for only_preferred, reach in ((True, Decimal(0)), (False, Decimal(0)), (True, allowed)):
        for candidate in candidates:
            if _smallest_distance(candidate, lower, upper, internal, only_preferred) <= reach:
                return candidate
    return next((candidate for candidate in candidates if lower <= candidate <= upper), lower)


def measured_nominal(sizes: Sequence[Decimal], *, inch: bool = False) -> Decimal:
    """The roundest size that the mean of measured sizes in millimetres misses by no more than IT10.

    A proposal, not a rule of the standard.

    Raises:
        NotDefined: The mean is outside of the sizes of ISO 286-1.
    """
    mean = sum(sizes, Decimal(0)) / len(sizes)
    _require_size(mean)
    reach = tolerance(_MEASURED_REACH, mean)
    near = (candidate for candidate in _round_sizes(mean, inch=inch) if abs(candidate - mean) <= reach)
    return next(near, mean)


def _require_size(nominal: Decimal) -> None:
    """Raise for a size outside of ISO 286-1, Table 1, with the reason that the table gives."""
    tolerance("6", nominal)


def _round_sizes(middle: Decimal, *, inch: bool) -> Iterator[Decimal]:
    """The multiples next to a size, of coarse steps first, nearest first."""
    for step in _INCH_STEPS if inch else _STEPS:
        multiples = {(middle / step).to_integral_value(rounding) * step for rounding in (ROUND_FLOOR, ROUND_CEILING)}
        yield from sorted((size for size in multiples if 0 < size <= LARGEST_SIZE), key=lambda size: abs(size - middle))


def _smallest_distance(
    nominal: Decimal, lower: Decimal, upper: Decimal, internal: bool, only_preferred: bool
) -> Decimal:
    """How far the nearest class at a nominal size is from two limits; infinite where there is none."""
    if only_preferred:
        classes = _preferred_parts(internal)
    else:
        grades = {grade for grade in GRADES if _has_width(grade, nominal, upper - lower)}
        letters = HOLE_LETTERS if internal else SHAFT_LETTERS
        classes = tuple((letter, grade) for letter in letters for grade in grades)
    distances = (_distance(letters, grade, nominal, lower, upper) for letters, grade in classes)
    return min(distances, default=Decimal("Infinity"))


@cache
def _preferred_parts(internal: bool) -> tuple[tuple[str, str], ...]:
    return tuple(_parts(name) for name in sorted(preferred_classes()) if is_hole(name) == internal)


def _has_width(grade: str, nominal: Decimal, width: Decimal) -> bool:
    try:
        return tolerance(grade, nominal) == width
    except NotDefined:
        return False


def _distance(letters: str, grade: str, nominal: Decimal, lower: Decimal, upper: Decimal) -> Decimal:
    found = find_deviations(letters, grade, nominal)
    if found is None:
        return Decimal("Infinity")
    class_lower, class_upper = found.limits(nominal)
    return abs(class_lower - lower) + abs(class_upper - upper)


def _parts(name: str) -> tuple[str, str]:
    split = split_class(name)
    if split is None:
        raise AssertionError(f"{name} is no tolerance class")
    return split


def _match(name: str, nominal: Decimal, lower: Decimal, upper: Decimal) -> ClassMatch:
    found = deviations(*_parts(name), nominal)
    class_lower, class_upper = found.limits(nominal)
    return ClassMatch(name, nominal, found, class_lower - lower, class_upper - upper, name in preferred_classes())


def _held(name: str, nominal: Decimal, smallest: Decimal, largest: Decimal) -> HoldingClass:
    found = deviations(*_parts(name), nominal)
    class_lower, class_upper = found.limits(nominal)
    is_preferred = name in preferred_classes()
    return HoldingClass(name, nominal, found, smallest - class_lower, class_upper - largest, is_preferred)


def _usefulness(held: HoldingClass) -> tuple[bool, bool, Decimal, Decimal]:
    usual = _parts(held.name)[1] in _USUAL_GRADES
    return not held.preferred, not usual, held.deviations.width, abs(held.room_below - held.room_above)
