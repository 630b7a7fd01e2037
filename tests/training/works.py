"""Work for rotations: made by hand, at random, and from the shipped samples."""

from __future__ import annotations

from hypothesis import strategies as st

from sizewright.instruments.crib import default_crib
from sizewright.plan.build import build_plan
from sizewright.plan.model import Plan
from sizewright.sheet.read import read_sheet
from sizewright.training.tasks import work_of
from sizewright.training.times import usual_times
from sizewright.training.timetable import Task, Work

from ..support_command import ROOT

SAMPLES = {path.stem: path for path in sorted((ROOT / "samples").glob("*.sheet")) if not path.stem.startswith("faulty")}


def task(mark: str, minutes: int, *tools: str, part: str = "cap", piece: int = 0) -> Task:
    return Task(mark, part, ("1",), tools, 1, minutes, piece)


def work(
    *tasks: Task,
    people: int = 2,
    owned: dict[str, int] | None = None,
    copies: dict[str, int] | None = None,
    shared: bool = False,
) -> Work:
    tools = {tool for each in tasks for tool in each.tools}
    parts = {each.part for each in tasks}
    return Work(
        tasks,
        tuple(f"person {number}" for number in range(1, people + 1)),
        {tool: (owned or {}).get(tool, 1) for tool in sorted(tools)},
        {part: (copies or {}).get(part, 99) for part in sorted(parts)},
        shared,
    )


def plan(name: str) -> Plan:
    return build_plan(read_sheet(SAMPLES[name]), default_crib())


def sample_work(*names: str, people: int = 2, shared: bool = False, copies: int | None = None) -> Work:
    who = [f"person {number}" for number in range(1, people + 1)]
    plans = [plan(name) for name in names]
    return work_of(plans, default_crib(), who, usual_times(), shared=shared, copies=copies)[0]


@st.composite
def works(draw: st.DrawFn, most_tasks: int = 9, most_people: int = 5, longest: int = 20) -> Work:
    """Any tasks on any tools and parts, in either mode, bound to pieces or not."""
    tools, parts = ["caliper", "micrometer", "indicator", "protractor"], ["cap", "bar", "plate"]
    owned = {tool: draw(st.integers(1, 3)) for tool in tools}
    copies = {part: draw(st.integers(1, 3)) for part in parts}
    bound = {part: draw(st.booleans()) for part in parts}
    tasks = []
    for number in range(draw(st.integers(0, most_tasks))):
        part = draw(st.sampled_from(parts))
        held = draw(st.lists(st.sampled_from(tools), unique=True, max_size=3))
        piece = draw(st.integers(1, copies[part])) if bound[part] else 0
        tasks.append(task(f"A{number}", draw(st.integers(1, longest)), *held, part=part, piece=piece))
    people = draw(st.integers(1, most_people))
    return work(*tasks, people=people, owned=owned, copies=copies, shared=draw(st.booleans()))
