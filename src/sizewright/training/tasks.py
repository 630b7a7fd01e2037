"""From plans to the tasks of a rotation."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import NamedTuple

from sizewright.instruments.model import Instrument
from sizewright.instruments.shelf import Crib
from sizewright.plan.model import Plan, PlanLine
from sizewright.text.errors import InputError
from sizewright.training.times import Times
from sizewright.training.timetable import Task, Work
from sizewright.training.tools import Tool, tools_of


class Part(NamedTuple):
    """One sheet's part: its letter in the chart, its name, and the lines that get no task.

    `idle` are lines that ask for no reading, `unserved` those that nothing in the crib reaches, `unread` those that do
    not read.
    """

    letter: str
    name: str
    copies: int
    idle: tuple[str, ...]
    unserved: tuple[str, ...]
    unread: tuple[str, ...]


@dataclass(slots=True)
class _Bundle:
    """Lines of one part for the same tools."""

    tools: tuple[Tool, ...]
    lines: list[str] = field(default_factory=list)
    readings: int = 0


def work_of(
    plans: Sequence[Plan],
    crib: Crib,
    people: Sequence[str],
    times: Mapping[str, Times],
    *,
    shared: bool = False,
    copies: int | None = None,
) -> tuple[Work, tuple[Part, ...]]:
    """What `people` have to do with the parts of `plans`, and the parts.

    The plans must have been made with `crib`. `copies` is how many pieces of each part there are (None: what each sheet
    says). Everyone measures every line once, on any piece; where the work is `shared`, every line of every piece is
    measured once, by one of them.

    Raises:
        InputError: an instrument of a plan has no row in `times`.
    """
    tools = tools_of(crib, times)
    parts: list[Part] = []
    tasks: list[Task] = []
    for number, (plan, name) in enumerate(zip(plans, _names(plans), strict=True)):
        part = _part(plan, _letters(number), name, plan.pieces if copies is None else copies)
        parts.append(part)
        for place, bundle in enumerate(_bundles(plan, tools), start=1):
            tasks += _tasks(part, f"{part.letter}{place}", bundle, times, shared)
    owned = {tool.name: tool.owned for tool in tools.values()}
    used = {name for task in tasks for name in task.tools}
    return (
        Work(
            tuple(tasks),
            tuple(people),
            {name: count for name, count in owned.items() if name in used},
            {part.name: part.copies for part in parts},
            shared,
        ),
        tuple(parts),
    )


def _tasks(part: Part, mark: str, bundle: _Bundle, times: Mapping[str, Times], shared: bool) -> list[Task]:
    task = Task(
        mark=mark,
        part=part.name,
        lines=tuple(bundle.lines),
        tools=tuple(tool.name for tool in bundle.tools),
        readings=bundle.readings,
        minutes=max(_times(tool, times).minutes(len(bundle.lines), bundle.readings) for tool in bundle.tools),
    )
    if not shared:
        return [task]
    numbered = part.copies > 1
    return [
        task._replace(piece=piece, mark=f"{mark}/{piece}" if numbered else mark) for piece in range(1, part.copies + 1)
    ]


def _times(tool: Tool, times: Mapping[str, Times]) -> Times:
    kind = tool.entries[0].kind.name
    if kind not in times:
        raise InputError(f"no time is known for {kind}; a file given by --times may have a row for it")
    return times[kind]


def _bundles(plan: Plan, tools: Mapping[Instrument, Tool]) -> list[_Bundle]:
    """The lines with something to measure, by the tools they need, in the order first needed."""
    bundles: dict[frozenset[str], _Bundle] = {}
    for line in plan.lines:
        # Of a line whose side is not told, one instrument is used in the end; until then all of them are held.
        needed = {tools[one].name: tools[one] for one in _instruments(line)}
        if needed:
            bundle = bundles.setdefault(frozenset(needed), _Bundle(tuple(needed.values())))
            bundle.lines.append(line.number)
            bundle.readings += line.readings_per_piece
    return list(bundles.values())


def _instruments(line: PlanLine) -> list[Instrument]:
    if line.choice is None or not line.readings_per_piece:
        return []
    if line.choice.by_side:
        return [tool for _, tool in line.choice.by_side]
    return [line.choice.instrument] if line.choice.instrument is not None else []


def _part(plan: Plan, letter: str, name: str, copies: int) -> Part:
    unread = tuple(line.number for line in plan.lines if line.characteristic is None)
    unserved = tuple(line.number for line in plan.lines if line.readings_per_piece and not _instruments(line))
    idle = tuple(line.number for line in plan.lines if line.characteristic is not None and not line.readings_per_piece)
    return Part(letter, name, copies, idle, unserved, unread)


def _names(plans: Sequence[Plan]) -> list[str]:
    """What the parts are called; two of the same name are told apart by number."""
    made: list[str] = []
    for plan in plans:
        title = plan.title
        name = ", ".join(filter(None, (title.get("part"), title.get("drawing")))) or plan.sheet.source.stem
        unlike, number = name, 2
        while unlike in made:
            unlike, number = f"{name} ({number})", number + 1
        made.append(unlike)
    return made


def _letters(number: int) -> str:
    """A, B ... Z, AA, AB ... for 0, 1 ... 25, 26, 27 ..."""
    before, place = divmod(number, 26)
    return (_letters(before - 1) if before else "") + chr(ord("A") + place)
