"""Surface texture: the older roughness grades, and which numbers each unit's series has."""

from __future__ import annotations

from decimal import Decimal
from functools import cache

from sizewright.standards.errors import NotDefined
from sizewright.standards.tables import rows


@cache
def _grades() -> dict[str, tuple[Decimal, Decimal]]:
    return {row["grade"]: (Decimal(row["ra_um"]), Decimal(row["ra_uin"])) for row in rows("roughness_grades")}


def grade(name: str) -> tuple[Decimal, Decimal]:
    """Ra of a roughness grade (`N7`), in µm and, by convention, in µin (ISO 1302:1992).

    Raises:
        NotDefined: there is no such grade.
    """
    found = _grades().get(name)
    if found is None:
        raise NotDefined(f"there is no roughness grade {name}", ("N1", "N12"))
    return found


def in_microinches(value: Decimal) -> bool:
    """Whether `value` stands in the usual series of Ra in µin (16, 32, 63, 125 ...)."""
    return any(value == microinches for _, microinches in _grades().values())


def in_micrometres(value: Decimal) -> bool:
    """Whether `value` stands in the usual series of Ra in µm (0.8, 1.6, 3.2 ...)."""
    return any(value == micrometres for micrometres, _ in _grades().values())


def greatest_micrometres() -> Decimal:
    """The largest Ra of the series, 50 µm: a larger number is more likely in µin."""
    return max(micrometres for micrometres, _ in _grades().values())
