"""Hardness scales: the range in which a scale's standard uses it."""

from __future__ import annotations

from decimal import Decimal
from functools import cache

from sizewright.standards.errors import NotDefined
from sizewright.standards.tables import rows


@cache
def _ranges() -> dict[str, tuple[Decimal, Decimal]]:
    return {row["scale"]: (Decimal(row["least"]), Decimal(row["greatest"])) for row in rows("hardness_ranges")}


def scale_range(scale: str) -> tuple[Decimal, Decimal]:
    """The least and the greatest hardness that `scale` is used for (ISO 6508-1, Table 1; ISO 6506-1).

    Raises:
        NotDefined: the table does not hold the scale.
    """
    found = _ranges().get(scale)
    if found is None:
        raise NotDefined(f"no range is held for the scale {scale}")
    return found
