"""ISO 2768-1 against its tables (the tests' own copy) and against a second reprint, bounds included."""

from __future__ import annotations

from collections.abc import Callable
from decimal import Decimal
from fractions import Fraction

import pytest

from sizewright.standards import iso2768
from sizewright.standards.errors import NotDefined

from ..support import table

Rule = Callable[[Decimal, str], tuple[Decimal | Fraction, iso2768.Step]]
RULES: dict[str, Rule] = {"linear": iso2768.linear, "broken edge": iso2768.broken_edge, "angular": iso2768.angular}
TABLES = [
    ("linear", "iso2768_linear", "plus_minus_mm", 1),
    ("broken edge", "iso2768_radii_chamfers", "plus_minus_mm", 1),
    ("angular", "iso2768_angular", "plus_minus_arcmin", 60),
]


def given(rule: str, size: Decimal, class_: str) -> Fraction | None:
    try:
        return Fraction(RULES[rule](size, class_)[0])
    except NotDefined:
        return None


@pytest.mark.parametrize(
    "row", table("standards/data/iso2768_shop_page.csv"), ids=lambda r: f"{r['table']} {r['class']}"
)
def test_a_second_reprint_gives_the_same(row: dict[str, str]) -> None:
    expected = Fraction(row["plus_minus"]) if row["plus_minus"] else None
    for size in row["sizes"].split():
        assert expected == given(row["table"], Decimal(size), row["class"]), size


@pytest.mark.parametrize(("rule", "name", "column", "parts"), TABLES)
def test_every_step_holds_up_to_its_upper_bound_and_not_below_its_lower(
    rule: str, name: str, column: str, parts: int
) -> None:
    hair = Decimal("0.0001")
    for row in table(f"standards/data/{name}.csv"):
        expected = Fraction(row[column]) / parts if row[column] else None
        over = Decimal(row["over_mm"])
        first_taken = over == Decimal("0.5")
        assert expected == given(rule, over + hair, row["class"])
        assert (expected == given(rule, over, row["class"])) or not first_taken
        if row["to_mm"]:
            assert expected == given(rule, Decimal(row["to_mm"]), row["class"])


@pytest.mark.parametrize(
    ("rule", "size", "class_", "message"),
    [
        ("linear", "0.4999", "m", "ISO 2768-1 gives nothing below 0.5 mm: the deviation stands beside the size"),
        ("broken edge", "0.2", "c", "ISO 2768-1 gives nothing below 0.5 mm: the deviation stands beside the size"),
        ("linear", "4000.1", "m", "ISO 2768-1 gives nothing above 4000 mm"),
        ("linear", "2500", "f", "ISO 2768-1 class f gives nothing over 2000 up to 4000 mm"),
        ("linear", "2", "v", "ISO 2768-1 class v gives nothing 0.5 up to 3 mm"),
    ],
)
def test_what_the_standard_leaves_out_is_said(rule: str, size: str, class_: str, message: str) -> None:
    with pytest.raises(NotDefined) as caught:
        RULES[rule](Decimal(size), class_)
    assert message == caught.value.message
