"""Virtual and resultant condition, bonus, and position from coordinates, against published and own examples."""

from __future__ import annotations

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sizewright.standards.material_condition import (
    Material,
    bonus,
    boundaries,
    diametral_position,
    lies_within,
    resultant_condition,
    virtual_condition,
)

D = Decimal

# lower, upper, zone, material, internal, virtual, resultant, source
CONDITIONS = [
    ("0.625", "0.635", "0.024", "M", True, "0.601", "0.669", "Goodheart-Willcox, GD&T 2021, p. 300 (virtual)"),
    ("14.85", "15", "0.1", "M", False, "15.1", "14.60", "slides on Y14.5M-1994, straightness of a pin (virtual)"),
    ("10.0", "10.2", "0.3", "M", True, "9.7", "10.7", "own arithmetic by ASME Y14.5"),
    ("9.4", "9.6", "0.2", "M", False, "9.8", "9.0", "own arithmetic by ASME Y14.5"),
    ("10.0", "10.2", "0.3", "L", True, "10.5", "9.5", "own arithmetic by ASME Y14.5"),
    ("9.4", "9.6", "0.2", "L", False, "9.2", "10.0", "own arithmetic by ASME Y14.5"),
    ("10.0", "10.2", "0", "M", True, "10.0", "10.4", "own arithmetic: the boundary is the limit of size"),
]


@pytest.mark.parametrize(
    ("lower", "upper", "zone", "material", "internal", "virtual", "resultant", "_source"), CONDITIONS
)
def test_virtual_and_resultant_condition(
    lower: str, upper: str, zone: str, material: Material, internal: bool, virtual: str, resultant: str, _source: str
) -> None:
    limits = D(lower), D(upper), D(zone), material
    assert virtual_condition(*limits, internal=internal) == D(virtual)
    assert resultant_condition(*limits, internal=internal) == D(resultant)


def test_without_a_modifier_there_are_two_boundaries_and_no_bonus() -> None:
    assert boundaries(D("10.0"), D("10.2"), D("0.3"), "S", internal=True) == (D("9.7"), D("10.5"))
    assert bonus(D("10.2"), D("10.0"), D("10.2"), "S", internal=True) == 0


# size, lower, upper, material, internal, bonus, source
BONUSES = [
    (".502", ".499", ".505", "M", True, ".003", "forum thread on bonus with tilt, 1997: hole .502 of .499 at MMC"),
    ("14.85", "14.85", "15", "M", False, "0.15", "slides on Y14.5M-1994: 0.1 becomes 0.25"),
    ("10.15", "10.0", "10.2", "M", True, "0.15", "own arithmetic"),
    ("9.45", "9.4", "9.6", "M", False, "0.15", "own arithmetic"),
    ("10.05", "10.0", "10.2", "L", True, "0.15", "own arithmetic"),
    ("9.45", "9.4", "9.6", "L", False, "0.05", "own arithmetic"),
    ("10.3", "10.0", "10.2", "M", True, "0.2", "a size out of its limits earns no more than the tolerance"),
    ("9.9", "10.0", "10.2", "M", True, "0", "nor less than nothing"),
]


@pytest.mark.parametrize(("size", "lower", "upper", "material", "internal", "expected", "_source"), BONUSES)
def test_bonus(
    size: str, lower: str, upper: str, material: Material, internal: bool, expected: str, _source: str
) -> None:
    assert bonus(D(size), D(lower), D(upper), material, internal=internal) == D(expected)


# x, y, z, places, position: Pythagorean ones are exact, the others rounded up.
POSITIONS = [
    ("0.12", "0.16", "0", 4, "0.40"),
    ("0.12", "-0.05", "0", 4, "0.26"),
    ("0.1", "0.1", "0", 4, "0.2829"),  # 0.28284...
    ("0.1", "0.1", "0", 3, "0.283"),
    (".003", ".004", "0", 4, ".010"),
    ("0.02", "0.03", "0.06", 4, "0.14"),
    ("0", "0", "0", 4, "0"),
]


@pytest.mark.parametrize(("x", "y", "z", "places", "expected"), POSITIONS)
def test_position_from_coordinates(x: str, y: str, z: str, places: int, expected: str) -> None:
    assert diametral_position(D(x), D(y), D(z), places=places) == D(expected)


offsets = st.decimals(-10, 10, places=6)


@given(offsets, offsets, offsets, st.integers(0, 6))
def test_rounding_never_makes_a_part_better(x: Decimal, y: Decimal, z: Decimal, places: int) -> None:
    shown = diametral_position(x, y, z, places=places)
    assert lies_within(x, y, z, diameter=shown)
    step = D(1).scaleb(-places)
    assert shown < step or not lies_within(x, y, z, diameter=shown - step)


def test_an_axis_is_off_in_two_directions() -> None:
    # 3-4-5 triangle: off by 0.05, so a diameter of 0.1
    assert diametral_position(D("0.03"), D("0.04")) == D("0.10")
    assert lies_within(D("0.03"), D("0.04"), diameter=D("0.1"))
    assert not lies_within(D("0.03"), D("0.04"), diameter=D("0.0999"))
