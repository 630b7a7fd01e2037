"""Plans for the tests of readings: the samples, and a small sheet of our own."""

from __future__ import annotations

from functools import cache
from pathlib import Path

from sizewright.instruments.crib import default_crib
from sizewright.plan.build import build_plan
from sizewright.plan.model import Plan, PlanLine
from sizewright.sheet.read import read_sheet, read_text

from ..support_command import ROOT

SAMPLES = sorted(path for path in (ROOT / "samples").glob("*.sheet") if not path.name.startswith("faulty"))
SMALL = """\
part: Worm carrier
drawing: TM-901
unit: mm
general: ISO 2768-mK
pieces: 2
1: Ø25 H7
2: 2x Ø6.6 ±0.2
3: 30° ±0°30'
4: M42x0.75-6g
5: M6-6H
6: ⟂ Ø0.02 A
7: Ra 0.8
8: (84)
9: 12 ±0.05
10: Ø10 H7/g6
11: R0.5 MAX
12: 12 MIN
"""
INCH = """\
part: Clamp
unit: inch
1: Ø1.2500 +.0005/-.0000
2: 3 3/8 ±1/64
3: 45° ±30'
"""


@cache
def plan_of(text: str = SMALL) -> Plan:
    return build_plan(read_text(text, Path("carrier.sheet")), default_crib())


@cache
def sample(path: Path) -> Plan:
    return build_plan(read_sheet(path), default_crib())


def line(number: str, text: str = SMALL) -> PlanLine:
    return next(each for each in plan_of(text).lines if each.number == number)
