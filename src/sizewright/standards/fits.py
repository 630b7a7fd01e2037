"""Fits of a hole and a shaft of the same nominal size: kind, extreme clearances, basis, preferred fits."""

from decimal import Decimal
from enum import StrEnum
from functools import cache
from typing import NamedTuple

from sizewright.standards.iso286 import Deviations
from sizewright.standards.tables import rows


class FitType(StrEnum):
    """The three kinds of fit, ISO 286-1, terms related to fits."""

    CLEARANCE = "clearance"
    TRANSITION = "transition"
    INTERFERENCE = "interference"


class FitBasis(StrEnum):
    """The fit system to which a fit belongs; H with h belongs to both."""

    HOLE = "hole basis"
    SHAFT = "shaft basis"
    BOTH = "hole basis and shaft basis"
    NEITHER = "neither"


class Fit(NamedTuple):
    """A fit: clearances are positive, interferences negative, in the unit of the deviations."""

    type: FitType
    clearance_min: Decimal
    clearance_max: Decimal
    basis: FitBasis

    @property
    def spread(self) -> Decimal:
        """The span of the fit: largest less smallest clearance, which is the sum of both tolerances."""
        return self.clearance_max - self.clearance_min

    @property
    def clearance_mean(self) -> Decimal:
        """The clearance when both parts are at the middle of their limits; negative for an interference."""
        return (self.clearance_min + self.clearance_max) / 2


class PreferredFit(NamedTuple):
    """A fit of a list of preferred fits.

    `list` names the list (ANSI B4.2 or ISO 286-1), `basis` the system in which it stands there. `confirmed` is
    false for a row that rests on no print.
    """

    hole_class: str
    shaft_class: str
    list: str
    basis: FitBasis
    name: str
    use: str
    confirmed: bool


def fit(hole: Deviations, shaft: Deviations) -> Fit:
    """The fit of a hole and a shaft, both in the same unit and from the same nominal size."""
    smallest = hole.lower - shaft.upper
    largest = hole.upper - shaft.lower
    return Fit(_fit_type(smallest, largest), smallest, largest, _basis(hole, shaft))


def preferred(hole_class: str, shaft_class: str) -> tuple[PreferredFit, ...]:
    """The entries of the preferred lists for a pair such as ("H7", "g6"), ANSI B4.2 before ISO 286-1.

    Empty where no list has the pair.
    """
    return _preferred_fits().get((hole_class, shaft_class), ())


@cache
def preferred_classes() -> frozenset[str]:
    """All hole and shaft classes that stand in some list of preferred fits."""
    return frozenset(name for pair in _preferred_fits() for name in pair)


def _fit_type(smallest: Decimal, largest: Decimal) -> FitType:
    """ISO 286-1, terms related to fits: equal limits count as clearance, or as interference when nothing is left."""
    if smallest >= 0:
        return FitType.CLEARANCE
    return FitType.INTERFERENCE if largest <= 0 else FitType.TRANSITION


def _basis(hole: Deviations, shaft: Deviations) -> FitBasis:
    """ISO 286-1, terms of the fit system: hole basis has EI zero (H), shaft basis has es zero (h)."""
    if hole.lower == 0:
        return FitBasis.BOTH if shaft.upper == 0 else FitBasis.HOLE
    return FitBasis.SHAFT if shaft.upper == 0 else FitBasis.NEITHER


@cache
def _preferred_fits() -> dict[tuple[str, str], tuple[PreferredFit, ...]]:
    found: dict[tuple[str, str], tuple[PreferredFit, ...]] = {}
    for row in rows("iso286_preferred_fits"):
        hole_class, shaft_class = row["fit"].split("/")
        entry = PreferredFit(
            hole_class,
            shaft_class,
            row["list"],
            FitBasis.HOLE if row["basis"] == "hole" else FitBasis.SHAFT,
            row["name"],
            row["use"],
            row["checked"] == "read",
        )
        found[hole_class, shaft_class] = (*found.get((hole_class, shaft_class), ()), entry)
    return found
