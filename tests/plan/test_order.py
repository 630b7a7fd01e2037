"""A plan by instrument: the same lines, each instrument taken up once."""

from __future__ import annotations

from itertools import groupby
from pathlib import Path

import pytest

from sizewright.instruments.crib import default_crib
from sizewright.plan.build import build_plan
from sizewright.plan.model import Plan
from sizewright.plan.order import in_order_of
from sizewright.sheet.read import read_sheet

from ..support_command import ROOT

SHEETS = sorted((ROOT / "samples").glob("*.sheet"))


def tools(plan: Plan) -> list[str]:
    named = [line.choice.instrument if line.choice and line.readings_per_piece else None for line in plan.lines]
    return [name for name, _ in groupby(one.name if one else "" for one in named)]


@pytest.mark.parametrize("path", SHEETS, ids=lambda path: path.stem)
def test_each_instrument_is_taken_up_once(path: Path) -> None:
    plan = build_plan(read_sheet(path), default_crib())
    sorted_plan = in_order_of(plan, "instrument")
    assert sorted(line.number for line in plan.lines) == sorted(line.number for line in sorted_plan.lines)
    once = tools(sorted_plan)
    assert len(once) == len(set(once))
    assert in_order_of(plan, "balloon") is plan
