"""An uncertainty budget on the terminal: what is measured, the terms, what they come to, and against the tolerance."""

from __future__ import annotations

from collections.abc import Sequence
from decimal import Decimal

from rich.box import SIMPLE_HEAD
from rich.console import Console
from rich.table import Table
from rich.text import Text

from sizewright.instruments.budget_model import Budget
from sizewright.judge.ratios import ratio_words, ratios
from sizewright.output.budgets import budget_name, budget_sum, terms_grid
from sizewright.output.front import heading
from sizewright.output.rows import rows_of
from sizewright.output.safe import visible
from sizewright.output.terminal import WIDE, make_console, notes, pairs, say, show
from sizewright.plan.model import Plan, PlanLine

_NARROW = (0, 1, 5, 6)  # of the terms, what a narrow screen has room for; the rest follows as notes


def print_budgets(plan: Plan, line: PlanLine, budgets: Sequence[Budget], console: Console | None = None) -> None:
    """Print the budgets of `line` on `console` (standard output when none is given)."""
    console = console or make_console()
    (row,) = [row for row in rows_of(plan) if row.number == visible(line.number)][:1]
    say(console, Text(f"{heading(plan)}: line {row.number}", style="bold"))
    console.print()
    room = plan.wish.environment
    bounds = (f"{each.label} {each.lower or 'none'} to {each.upper or 'none'} {row.unit}" for each in row.limits)
    said = [
        ("callout", row.requirement),
        ("what", row.characteristic),
        ("limits", ", ".join(bounds)),
        ("room", f"{room.temperature.normalize():f} ±{room.spread.normalize():f} °C"),
        ("part", room.part.material),
    ]
    show(console, pairs(said))
    for budget in budgets:
        _one(console, line, budget, plan.wish.ratio)


def _one(console: Console, line: PlanLine, budget: Budget, asked: Decimal) -> None:
    say(console, Text(budget_name(budget), style="bold"))
    grid, wide = terms_grid(budget), console.width >= WIDE
    table = Table(box=SIMPLE_HEAD, safe_box=True, padding=(0, 1), pad_edge=False, collapse_padding=True)
    shown = range(len(grid.fields)) if wide else _NARROW
    for index in shown:
        field = grid.fields[index]
        table.add_column(field.head, justify="right" if field.number else "left", overflow="fold")
    for texts in grid.rows:
        table.add_row(*(Text(texts[index]) for index in shown))
    show(console, table)
    console.print(Text(budget_sum(budget)))
    reached = ratios(line.limits[0], budget) if len(line.limits) == 1 else None
    if reached is not None:
        words = ratio_words(reached)
        console.print(Text(f"{words[:1].upper()}{words[1:]}. Asked for is T/2U of {asked.normalize():f}."))
    if not wide:
        notes(console, "where the figures come from", [f"{term.name}: {term.source}" for term in budget.terms])
    notes(console, "taken for granted", [visible(remark) for remark in budget.remarks])
