"""What every form of a rotation shows, as text that is ready to be read."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from sizewright.output.safe import one_line
from sizewright.training.rotation import Rotation
from sizewright.training.tasks import Part
from sizewright.training.timetable import Slot, Task

CAUTIONS = (
    "Measure only what stands still, deburred, clean and at temperature; hand parts over with care, edges cut.",
    "A piece and an instrument go back to their place at the end of each task, wiped and checked for the next hand.",
)
_HOUR, _DAY = 60, 1440
_OR = " or "


class RotationSheet(NamedTuple):
    """A rotation to be shown: `parts` in the order of their letters; `begin` is the minute of the day at which it
    begins, None where times count from 0:00."""

    rotation: Rotation
    parts: tuple[Part, ...]
    begin: int | None = None

    def clock(self, minute: int) -> str:
        """`minute` of the timetable in hours and minutes: since the beginning, or of the day."""
        if self.begin is None:
            return f"{minute // _HOUR}:{minute % _HOUR:02d}"
        total = self.begin + minute
        day = f"+{total // _DAY} " if total >= _DAY else ""  # a timetable that runs past midnight
        return f"{day}{total % _DAY // _HOUR:02d}:{total % _HOUR:02d}"


class TaskRow(NamedTuple):
    """One task as text; `pieces` are those that it is done on one by one, where the work is shared."""

    mark: str
    part: str
    lines: str
    instrument: str
    readings: str
    minutes: str
    pieces: str = ""


class SlotRow(NamedTuple):
    """One slot as text."""

    person: str
    start: str
    end: str
    minutes: str
    task: str
    part: str
    piece: str
    instrument: str
    lines: str


def heading(sheet: RotationSheet) -> str:
    """The names of the parts, on one line."""
    return "; ".join(one_line(part.name) for part in sheet.parts)


def summary(sheet: RotationSheet) -> tuple[str, ...]:
    """What is done, how long it takes, and how near that is to the shortest, a sentence each."""
    rotation = sheet.rotation
    work, minutes, bound = rotation.work, rotation.timetable.minutes, rotation.bound
    people, tasks = _count(len(work.people), "person", "people"), _count(len(work.tasks), "task", "tasks")
    if work.shared:
        verb = "does" if len(work.people) == 1 else "share"
        done = f"{people} {verb} {tasks}: every line of every piece is measured once."
    else:
        done = f"{people}, {tasks}: everybody measures every line once, on any piece."
    because = one_line(bound.because)
    if rotation.shortest:
        near = "shortest possible"
    else:
        near = f"{minutes - bound.minutes} more than the lower bound; a shorter one may or may not exist"
    return (
        done,
        f"It takes {_duration(minutes)}: {near}.",
        f"Lower bound {_duration(bound.minutes)}: {because}.",
    )


def part_rows(sheet: RotationSheet) -> tuple[str, ...]:
    """Each part with its letter, its pieces, and the lines that are in no task."""
    return tuple("; ".join(_part_words(part)) for part in sheet.parts)


def task_rows(sheet: RotationSheet) -> tuple[TaskRow, ...]:
    """The tasks in their order; where the same is done on several pieces, once with the pieces."""
    work = sheet.rotation.work
    found: dict[str, list[Task]] = {}
    for task in work.tasks:
        found.setdefault(task.mark.partition("/")[0], []).append(task)
    return tuple(
        TaskRow(
            mark=mark,
            part=one_line(same[0].part),
            lines=_lines(same[0]),
            instrument=_together([one_line(tool) for tool in same[0].tools]),
            readings=str(same[0].readings),
            minutes=str(same[0].minutes),
            pieces=", ".join(str(task.piece) for task in same if task.piece),
        )
        for mark, same in found.items()
    )


def slot_rows(sheet: RotationSheet, person: str | None = None) -> tuple[SlotRow, ...]:
    """The slots of `person`, or of all: by person, then by start."""
    people = sheet.rotation.work.people if person is None else (person,)
    return tuple(_slot_row(sheet, slot) for each in people for slot in sheet.rotation.timetable.of(each))


def person_words(sheet: RotationSheet, person: str) -> str:
    """Who, from when to when, and how long of it is waiting."""
    slots = sheet.rotation.timetable.of(person)
    name = one_line(person)
    if not slots:
        return f"{name}: nothing to do"
    end = slots[-1].end
    waits = end - sum(slot.end - slot.start for slot in slots)
    waiting = f"waits {_duration(waits)} in between" if waits else "never waits"
    return f"{name}: {sheet.clock(0)} to {sheet.clock(end)}, {waiting}"


def notes(sheet: RotationSheet) -> tuple[str, ...]:
    """What to know of the timetable: how the times were made, what is held besides, what is taken to be at hand."""
    several = [row.mark for row in task_rows(sheet) if _OR in row.instrument]
    sides = f"{', '.join(several)}: the drawing does not tell the side of a line, so one of several instruments is used"
    bound = next((task.mark for task in sheet.rotation.work.tasks if "/" in task.mark), "")
    mark, _, piece = bound.partition("/")
    return (
        *([f"{bound} in the chart: task {mark} on piece {piece}."] if bound else []),
        "Times are estimates for a trained beginner (common practice, no source); --times FILE sets your own.",
        *([f"{sides}; all of them are kept free for the task."] if several else []),
        "Surface plate, stands and setting standards that an instrument needs are taken to be at hand.",
    )


def _part_words(part: Part) -> Iterator[str]:
    yield f"{part.letter}: {one_line(part.name)}, {_count(part.copies, 'piece', 'pieces')}"
    if part.idle:
        yield f"nothing to measure: {_numbers(part.idle)}"
    if part.unserved:
        yield f"NO INSTRUMENT in the crib reaches: {_numbers(part.unserved)}"
    if part.unread:
        yield f"NOT READ: {_numbers(part.unread)}"


def _slot_row(sheet: RotationSheet, slot: Slot) -> SlotRow:
    work, task = sheet.rotation.work, slot.task
    tools = [
        f"{one_line(tool)}, no. {unit}" if work.owned[tool] > 1 else one_line(tool)
        for tool, unit in zip(task.tools, slot.units, strict=True)
    ]
    return SlotRow(
        person=one_line(slot.person),
        start=sheet.clock(slot.start),
        end=sheet.clock(slot.end),
        minutes=str(slot.end - slot.start),
        task=task.mark.partition("/")[0],
        part=one_line(task.part),
        piece=str(slot.piece),
        instrument=_together(tools),
        lines=_lines(task),
    )


def _together(tools: list[str]) -> str:
    return _OR.join(tools)


def _lines(task: Task) -> str:
    return _numbers(task.lines)


def _numbers(numbers: tuple[str, ...]) -> str:
    return ", ".join(one_line(number) for number in numbers)


def minutes_words(minutes: int) -> str:
    """`1 minute`, `5 minutes`."""
    return _count(minutes, "minute", "minutes")


def _count(count: int, one: str, many: str) -> str:
    return f"1 {one}" if count == 1 else f"{count} {many}"


def _duration(minutes: int) -> str:
    """Minutes, and from an hour on hours too."""
    said = minutes_words(minutes)
    return said if minutes < _HOUR else f"{said} ({minutes // _HOUR} h {minutes % _HOUR:02d} min)"
