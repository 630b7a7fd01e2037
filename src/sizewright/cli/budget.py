"""`sizewright budget`: the uncertainty budget of one line of a sheet with its instrument, or with another."""

from __future__ import annotations

import argparse
import sys
from typing import TYPE_CHECKING

from sizewright.cli.planned import add_planned, planned
from sizewright.text.errors import InputError

if TYPE_CHECKING:
    from sizewright.instruments.budget_model import Budget
    from sizewright.instruments.model import Instrument
    from sizewright.plan.model import Plan, PlanLine

_EPILOG = """\
examples:
  sizewright budget housing.sheet 1
  sizewright budget housing.sheet 2.1 --instrument "digital caliper 0-150 mm"
  sizewright budget housing.sheet 1 --json

The room is that of the title block: `temperature: 23 ±2 °C`, `material: aluminium 6061`.
"""


def add(parser: argparse.ArgumentParser) -> None:
    """Add the options of `budget`."""
    parser.epilog = _EPILOG
    add_planned(parser)
    parser.add_argument("balloon", metavar="BALLOON", help="the line, as the plan numbers it: 1, 2.1")
    parser.add_argument("--instrument", metavar="NAME", help="an instrument of the crib by name or serial")
    parser.add_argument("--json", action="store_true", help="a JSON object on standard output, for programs")


def run(given: argparse.Namespace) -> int:
    """Show the budget, or say why there is none."""
    plan = planned(given)
    if isinstance(plan, int):
        return plan
    line = _line(plan, given.balloon)
    budgets = list(_budgets(plan, line, given.instrument))
    if given.json:
        from sizewright.output.budgets import budget_json

        for budget in budgets:
            sys.stdout.write(budget_json(line, budget))
    else:
        from sizewright.output.budget_terminal import print_budgets

        print_budgets(plan, line, budgets)
    return 1 if plan.faults else 0


def _line(plan: Plan, number: str) -> PlanLine:
    """The line of that number.

    Raises:
        InputError: the plan has none, or nothing is decided on it.
    """
    found = [line for line in plan.lines if line.number == number.strip()]
    if not found:
        several = [line.number for line in plan.lines if line.number.startswith(f"{number.strip()}.")]
        known = several or [line.number for line in plan.lines]
        raise InputError(f"the plan has no line {number!r}; it has {', '.join(known[:20])}")
    line = found[0]
    if line.characteristic is None:
        raise InputError(f"line {line.number} was not read: {line.unread}")
    if line.choice is None or not line.readings_per_piece:
        why = line.choice.why if line.choice is not None else "nothing is measured"
        raise InputError(f"line {line.number} has no budget: {why}")
    return line


def _budgets(plan: Plan, line: PlanLine, name: str | None) -> list[Budget]:
    """The budgets of the instruments named, one each where the side is not told.

    Raises:
        InputError: no instrument goes by that name, or it has no budget for the line.
    """
    from sizewright.instruments.uncertainty import budget_of

    assert line.characteristic is not None
    tools = _named(plan, name) if name else _chosen(line)
    found = [budget_of(tool, line.characteristic, plan.wish) for tool in tools]
    known = [budget for budget in found if budget is not None]
    if not known:
        tool = tools[0].name if tools else "nothing in the crib"
        raise InputError(f"line {line.number} has no budget with {tool}: it does not reach it, or shows no value")
    return known


def _named(plan: Plan, name: str) -> list[Instrument]:
    from sizewright.judge.tools import Tools

    owned = Tools(plan.crib, ()).of(name).owned
    if not owned:
        from sizewright.instruments.kinds import near

        close = near(name, tuple(one.name for one in plan.crib.instruments))
        raise InputError(f"the crib has no instrument {name!r}" + (f"; near: {', '.join(close)}" if close else ""))
    return list(owned)


def _chosen(line: PlanLine) -> list[Instrument]:
    choice = line.choice
    assert choice is not None
    if choice.by_side:
        return [tool for _, tool in choice.by_side]
    return [choice.instrument] if choice.instrument is not None else []
