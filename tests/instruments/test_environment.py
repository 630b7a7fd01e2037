"""Where parts are measured, as a title block tells it."""

from __future__ import annotations

from decimal import Decimal

import pytest

from sizewright.instruments.environment import environment_of

# temperature typed, °C, spread in K
TEMPERATURES = [
    ("", "20", "2"),
    ("23", "23", "2"),
    ("23 °C", "23", "2"),
    ("23 ±1.5 °C", "23", "1.5"),
    ("68 °F", "20", "2"),
    ("77 ±9 °F", "25", "5"),
    ("-5 °C", "-5", "2"),
]


@pytest.mark.parametrize(("typed", "degrees", "spread"), TEMPERATURES)
def test_a_temperature_is_read_with_its_spread(typed: str, degrees: str, spread: str) -> None:
    found = environment_of("steel", typed)
    assert (found.temperature, found.spread) == (Decimal(degrees), Decimal(spread))
    assert any("is told" in each or "not told" in each for each in found.said) == ("±" not in typed)


@pytest.mark.parametrize("material", ["", "unobtainium"])
def test_a_material_that_is_not_known_stands_for_all_metals_and_that_is_said(material: str) -> None:
    found = environment_of(material, "20 ±1 °C")
    low, high = found.part.alpha - found.part.half_width, found.part.alpha + found.part.half_width
    assert (low, high) == (Decimal("0.00001"), Decimal("0.000024"))
    assert len(found.said) == 1
