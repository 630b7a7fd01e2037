"""Budgets and plans for tests of judging: invented, small."""

from __future__ import annotations

from decimal import Decimal

from sizewright.instruments.budget_model import Budget

D = Decimal


def budget(
    u: str, expanded: str | None = None, dof: int | None = None, bias: str = "0", unit: str = "mm", of: str = "size"
) -> Budget:
    """A budget with the standard uncertainty `u`, U twice that unless given."""
    combined = D(u)
    return Budget(
        unit=unit, of=of, instrument="digital caliper", terms=(), combined=combined, dof=dof, factor=D(2), bias=D(bias),
        expanded=2 * combined + D(bias) if expanded is None else D(expanded),
    )  # fmt: skip
