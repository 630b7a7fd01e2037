"""Hints of a guided worksheet: by step, fitting requirement, feature and instrument, and faded over the sheet.

The first third of the lines has full hints, the second third short ones, the rest none. A hint never names the
instrument that the plan suggests: choosing it is the trainee's work.
"""

from __future__ import annotations

import csv
import re
from collections.abc import Mapping
from functools import cache
from importlib import resources
from types import MappingProxyType
from typing import Literal, NamedTuple

from sizewright.instruments.kinds import kinds
from sizewright.instruments.model import Kind
from sizewright.plan.model import PlanLine
from sizewright.training.skills import feature_of, skill_of, suggested

Stage = Literal["full", "short", "none"]
FADING = "Hints are full for the first third of the lines, short for the second, and then there are none."
_TABLE = "hints.csv"
_PLAIN_CARE = "Wipe the instrument and the part; look for burrs, wear and a false zero."
_SHORT_CARE = "Clean? Zero? Worn?"


class Step(NamedTuple):
    """One step of working a line: its key in the table of hints, and what is asked."""

    key: str
    title: str
    task: str


STEPS = (
    Step("read", "1 Callout", "Read it: what is asked for, and in how many places?"),
    Step("limits", "2 Limits", "Work out the lower and the upper limit, with the unit."),
    Step("choose", "3 Instrument", "Choose one of those laid out: to what resolution, and why?"),
    Step("check", "4 Check", "Check it before use: against what, and what did it show?"),
    Step("measure", "5 Measure", "Measure: how did you hold, support and move part and instrument?"),
    Step("scale", "6 Scale", "Read the scale twice before you write."),
    Step("write", "7 Write", "Write it down: one reading for each place of each piece."),
    Step("decide", "8 Decide", "Accept, reject, undecided, or no verdict, and why?"),
)


class Hint(NamedTuple):
    """A row of the table."""

    full: str
    short: str

    def at(self, stage: Stage) -> str:
        """What is said at this stage."""
        return {"full": self.full, "short": self.short, "none": ""}[stage]


def stage_of(place: int, count: int) -> Stage:
    """How much is said for the line at `place` (from 0) of `count`."""
    third = -(-count // 3)
    return "full" if place < third else "short" if place < 2 * third else "none"


def hints_for(line: PlanLine, stage: Stage) -> Mapping[str, str]:
    """The hint for each step of `line`, by the step's key; empty texts where nothing is said."""
    skill, tools = skill_of(line), suggested(line)
    tool = tools[0].kind if tools and line.readings_per_piece else None
    return MappingProxyType(
        {
            "read": _said("read", skill.family, stage),
            "limits": _said("limits", skill.source, stage),
            "choose": _said("choose", feature_of(line), stage),
            "check": _care(tool, stage),
            "measure": _handling(tool, stage),
            "scale": _said("scale", "digital" if tool is None else tool.read, stage),
            "write": _said("write", "any", stage),
            "decide": _said("decide", "any", stage),
        }
    )


@cache
def _hints() -> Mapping[tuple[str, str], Hint]:
    text = (resources.files("sizewright.training") / _TABLE).read_text(encoding="utf-8")
    rows = csv.DictReader(line for line in text.splitlines() if not line.startswith("#"))
    return MappingProxyType({(row["step"], row["of"]): Hint(row["full"], row["short"]) for row in rows})


def _said(step: str, of: str, stage: Stage) -> str:
    table = _hints()
    found = table.get((step, of)) or table.get((step, "any"))
    return found.at(stage) if found is not None else ""


def _care(tool: Kind | None, stage: Stage) -> str:
    """The check before use, with no word that names the instrument."""
    if stage == "none":
        return ""
    if tool is None:
        return _PLAIN_CARE if stage == "full" else _SHORT_CARE
    parts = _unnamed(tool.field_check, tool)
    if stage == "short":
        return _sentence(parts[:1]) or _SHORT_CARE
    return _sentence(parts) or _PLAIN_CARE


def _handling(tool: Kind | None, stage: Stage) -> str:
    """The steps of use and the usual mistakes; in short the mistakes alone."""
    if stage == "none":
        return ""
    if tool is None:
        return "Let part and instrument come to the same temperature; measure each size twice."
    mistakes = f"Beware: {_joined(_unnamed(tool.mistakes, tool))}."
    return f"{_sentence(_unnamed(tool.method, tool))} {mistakes}" if stage == "full" else mistakes


def _unnamed(text: str, tool: Kind) -> list[str]:
    """The parts of `text`, its own name replaced; parts that send the reader to another kind are left out."""
    names = sorted(kinds(), key=len, reverse=True)
    own = re.compile(rf"\b({'|'.join(map(re.escape, _own_names(tool)))})\b", re.IGNORECASE)
    parts = [own.sub("instrument", part.strip()) for part in text.split(";")]
    return [part for part in parts if part and not any(name in part for name in names) and not part.startswith("as ")]


def _own_names(tool: Kind) -> list[str]:
    """The words that name an instrument: all of its name, and its head word in both numbers."""
    head = tool.name.split()[-1]
    return [tool.name, head, head.removesuffix("s"), f"{head}s"]


def _joined(parts: list[str]) -> str:
    return "; ".join(parts)


def _sentence(parts: list[str]) -> str:
    text = _joined(parts)
    return f"{text[:1].upper()}{text[1:]}." if text else ""
