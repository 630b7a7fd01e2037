"""A rotation as numbers: jobs that take time and need resources of which there are so many.

What makes timetables, bounds them and improves them works on these numbers alone: people, pieces and instruments are
all resources.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Literal, NamedTuple

from sizewright.training.timetable import Task, Work


class Resource(NamedTuple):
    """`units` alike things, of which a job takes one: a person (or all people, where any may do the job), the pieces of
    a part (or one of them, where the job is bound to it), the instruments of one sort."""

    sort: Literal["person", "people", "part", "piece", "tool"]
    name: str
    units: int


class Job(NamedTuple):
    """`task` done once, by `person` (None: by whoever is free); `needs` are indices of resources."""

    task: Task
    person: str | None
    minutes: int
    needs: tuple[int, ...]


class Problem(NamedTuple):
    """The jobs and resources of a rotation; nothing else limits when a job may run."""

    jobs: tuple[Job, ...]
    resources: tuple[Resource, ...]

    def loads(self) -> list[list[int]]:
        """For each resource the minutes of the jobs that need it."""
        found: list[list[int]] = [[] for _ in self.resources]
        for job in self.jobs:
            for need in job.needs:
                found[need].append(job.minutes)
        return found


def problem_of(work: Work) -> Problem:
    """The numbers behind `work`."""
    index: dict[Resource, int] = {}
    jobs = [
        Job(
            task, person, task.minutes, tuple(index.setdefault(each, len(index)) for each in _needs(work, task, person))
        )
        for person in ((None,) if work.shared else work.people)
        for task in work.tasks
    ]
    return Problem(tuple(jobs), tuple(index))


def _needs(work: Work, task: Task, person: str | None) -> Iterator[Resource]:
    yield Resource("people", "", len(work.people)) if person is None else Resource("person", person, 1)
    if task.piece:
        yield Resource("piece", f"piece {task.piece} of {task.part}", 1)
    else:
        yield Resource("part", task.part, work.copies[task.part])
    for tool in task.tools:
        yield Resource("tool", tool, work.owned[tool])
