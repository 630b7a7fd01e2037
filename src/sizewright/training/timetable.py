"""What a rotation has to do, a timetable for it, and a check that the timetable has no clash.

The check knows nothing of how timetables are made: it looks at every pair of slots that overlap.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping
from typing import NamedTuple


class Task(NamedTuple):
    """One part measured with one instrument: the lines of the part that this instrument serves.

    `mark` is its short name in a chart (A2: the second task of part A). `tools` are all the instruments that are held
    for it; more than one where the drawing does not tell the side of a line. `piece` is the piece it is bound to, 0
    where any piece will do; of one part, all tasks are bound or none is. `minutes` is its length.
    """

    mark: str
    part: str
    lines: tuple[str, ...]
    tools: tuple[str, ...]
    readings: int
    minutes: int
    piece: int = 0


class Work(NamedTuple):
    """All that has to be done: every person does every task, or each task is done by one of them (`shared`).

    `owned` is how many there are of each tool, `copies` how many pieces of each part.
    """

    tasks: tuple[Task, ...]
    people: tuple[str, ...]
    owned: Mapping[str, int]
    copies: Mapping[str, int]
    shared: bool = False


class Slot(NamedTuple):
    """A person at a task from minute `start` up to minute `end`, on one piece, with numbered copies of the tools.

    `units` are the numbers, from 1, of the copies of `task.tools`, in the same order.
    """

    person: str
    task: Task
    start: int
    end: int
    piece: int
    units: tuple[int, ...]


class Timetable(NamedTuple):
    """The slots in the order in which they start."""

    slots: tuple[Slot, ...]

    @property
    def minutes(self) -> int:
        """When the last slot ends."""
        return max((slot.end for slot in self.slots), default=0)

    def of(self, person: str) -> tuple[Slot, ...]:
        """The slots of one person."""
        return tuple(slot for slot in self.slots if slot.person == person)


def clashes(work: Work, timetable: Timetable) -> list[str]:
    """Everything wrong with `timetable`, a sentence each; nothing where it holds."""
    return [*_undone(work, timetable), *_wrong_slots(work, timetable), *_in_two_hands(timetable)]


def _undone(work: Work, timetable: Timetable) -> Iterator[str]:
    """Tasks that are not done exactly once, by each person or by one of them."""
    times = Counter(("" if work.shared else slot.person, slot.task) for slot in timetable.slots)
    for task in work.tasks:
        for person in ("",) if work.shared else work.people:
            if times[person, task] != 1:
                said = f"task {task.mark} is done" if work.shared else f"{person} does task {task.mark}"
                yield f"{said} {times[person, task]} times, not once"


def _wrong_slots(work: Work, timetable: Timetable) -> Iterator[str]:
    """Slots that are too long or short, or name a task, person, piece or copy that is not there."""
    tasks = frozenset(work.tasks)
    for slot in timetable.slots:
        task, where = slot.task, f"{slot.person}, task {slot.task.mark}"
        if task not in tasks or slot.person not in work.people:
            yield f"{where}: nobody asked for this"
            continue
        if slot.start < 0 or slot.end - slot.start != task.minutes:
            yield f"{where}: {slot.start} to {slot.end} is not {task.minutes} minutes"
        if not 1 <= slot.piece <= work.copies[task.part] or task.piece not in (0, slot.piece):
            yield f"{where}: there is no piece {slot.piece} for it"
        if len(slot.units) != len(task.tools):
            yield f"{where}: {len(slot.units)} instruments, not {len(task.tools)}"
        for tool, unit in zip(task.tools, slot.units, strict=False):
            if not 1 <= unit <= work.owned[tool]:
                yield f"{where}: there is no number {unit} of {tool}"


def _in_two_hands(timetable: Timetable) -> Iterator[str]:
    """Slots that overlap and share a person, a piece or an instrument."""
    slots = sorted(timetable.slots, key=lambda slot: slot.start)
    for place, one in enumerate(slots):
        for other in slots[place + 1 :]:
            if other.start >= one.end:
                break  # so do all that follow
            for thing in sorted(_held(one) & _held(other)):
                both = f"{one.task.mark} and {other.task.mark}"
                yield f"{' '.join(thing)}: in tasks {both} at minute {other.start}"


def _held(slot: Slot) -> set[tuple[str, ...]]:
    tools = {("instrument", tool, str(unit)) for tool, unit in zip(slot.task.tools, slot.units, strict=False)}
    return {("person", slot.person), ("piece", slot.task.part, str(slot.piece)), *tools}
