"""The uncertainty of each reading: the budget of the instrument it was taken with, at the line it belongs to."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from sizewright.instruments.budget_model import Budget
from sizewright.instruments.model import Instrument
from sizewright.instruments.uncertainty import budget_of
from sizewright.plan.model import Plan, PlanLine


class BudgetBook:
    """The budgets of a plan's lines, each worked out once: called with a line, an instrument's name and a limit.

    The name is that of the readings; where it is empty, the instrument of the plan is taken. Where a name means several
    instruments, the one with the greatest uncertainty counts. None where it means none of the crib.
    """

    def __init__(self, plan: Plan, owned: Callable[[str], Sequence[Instrument]]) -> None:
        """`owned` tells which instruments of the crib go by a name."""
        self._plan = plan
        self._owned = owned
        self._made: dict[tuple[int, str], Budget | None] = {}

    def __call__(self, line: PlanLine, name: str, _: str) -> Budget | None:
        """The budget of a reading of `line`; every limit of a line has the same."""
        key = (id(line), name)
        if key not in self._made:
            self._made[key] = self._worst(line, name)
        return self._made[key]

    def _worst(self, line: PlanLine, name: str) -> Budget | None:
        made, choice = line.characteristic, line.choice
        if made is None or choice is None:
            return None
        if not name:
            return choice.budget
        budgets = [
            next((budget for chosen, budget in choice.budgets if chosen is instrument), None)
            or budget_of(instrument, made, self._plan.wish)
            for instrument in self._owned(name)
        ]
        return max((one for one in budgets if one is not None), key=lambda one: one.unrounded, default=None)
