"""The order in which a plan is worked through: by balloon, or by instrument to spare changes of it."""

from __future__ import annotations

from dataclasses import replace
from typing import Literal

from sizewright.plan.model import Plan, PlanLine

Order = Literal["balloon", "instrument"]
ORDERS: tuple[Order, ...] = ("balloon", "instrument")


def in_order_of(plan: Plan, order: Order) -> Plan:
    """`plan` with its lines in that order: an instrument's lines together, instruments as they are first needed.

    Within an instrument the order of the sheet stays; lines that need none come last.
    """
    if order == "balloon":
        return plan
    places = {id(instrument): place for place, (instrument, _) in enumerate(plan.instruments)}
    lines = sorted(plan.lines, key=lambda line: places.get(_tool(line), len(places)))
    return replace(plan, lines=tuple(lines), order=order)


def _tool(line: PlanLine) -> int:
    """What tells the line's instrument from others; where one is named for each side, the first."""
    needed = line.choice is not None and line.readings_per_piece and line.choice.instrument is not None
    return id(line.choice.instrument) if needed and line.choice is not None else 0
