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
    whole = 2 * combined + abs(D(bias)) if expanded is None else D(expanded)
    return Budget(
        unit=unit, of=of, instrument="digital caliper", terms=(), combined=combined, dof=dof, factor=D(2), bias=D(bias),
        unrounded=whole, expanded=whole,
    )  # fmt: skip
