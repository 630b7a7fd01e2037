"""Every known callout comes to exactly its stated meaning."""

from __future__ import annotations

import pytest

from sizewright.resolve.answer import answer, answer_json
from sizewright.resolve.context import Context, Unit
from sizewright.text.numbers import plain

from ..support import callout_rows


def meaning(callout: str, unit: Unit) -> list[str]:
    """The characteristics of a callout in the short form of the table."""
    given = answer(callout, Context(unit))
    assert given.error is None, given.error
    parts = []
    for made in given.characteristics:
        limits = "open"
        if made.status == "toleranced":
            assert made.size is not None
            bounds = (made.size.lower, made.size.upper)
            limits = "..".join("" if bound is None else plain(bound) for bound in bounds)
        nominal = "-" if made.nominal is None else plain(made.nominal)
        count = "?" if made.count is None else made.count
        parts.append(f"{count} {made.kind} | {nominal} {made.unit} | {limits} | {made.status.value}")
    return parts


@pytest.mark.parametrize("row", callout_rows(), ids=lambda row: row["callout"])
def test_a_known_callout_has_its_stated_meaning(row: dict[str, str]) -> None:
    unit: Unit = "inch" if row["unit"] == "inch" else "mm"
    expected = [part.strip() for part in row["meaning"].split(";")]
    assert sorted(expected) == sorted(meaning(row["callout"], unit))


@pytest.mark.parametrize("row", callout_rows(), ids=lambda row: row["callout"])
def test_numbers_of_an_answer_are_plain_text(row: dict[str, str]) -> None:
    unit: Unit = "inch" if row["unit"] == "inch" else "mm"
    for made in answer_json(answer(row["callout"], Context(unit)))["characteristics"]:
        numbers = [made["nominal"], *(limits[end] for limits in made["limits"] for end in ("lower", "upper"))]
        assert all(number is None or ("e" not in number.lower() and "/" not in number) for number in numbers)
