"""Placing jobs one after the other, each as early as its resources allow.

The minutes at which a resource is in use are the bits of a whole number, so that looking for a free stretch costs a few
operations on whole numbers, however full the timetable is.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from sizewright.training.resources import Problem


class Packer:
    """Places the jobs of `problem` in any order that is asked for; made once, as a search asks thousands of times."""

    def __init__(self, problem: Problem) -> None:
        """What does not depend on the order is worked out here."""
        people = len({job.person for job in problem.jobs}) if all(job.person for job in problem.jobs) else None
        # Where there are as many as there are people, nobody ever waits for one.
        binding = [
            people is None or resource.units < people or resource.sort == "person" for resource in problem.resources
        ]
        self._jobs = [
            (
                job.minutes,
                (1 << job.minutes) - 1,
                _steps(job.minutes),
                tuple(need for need in job.needs if binding[need]),
            )
            for job in problem.jobs
        ]
        self._units = [resource.units for resource in problem.resources]

    def pack(self, order: Iterable[int]) -> list[int]:
        """The start of every job when the jobs are placed in `order` (their indices), each at its earliest.

        One of the orders gives a shortest timetable: that of the starts in such a timetable.
        """
        jobs, units = self._jobs, self._units
        full = [0] * len(units)  # bit t: all units are in use in minute t
        # Of n units, n - 1 layers stand below: bit t of layer k tells whether more than k units are in use then.
        below = [[0] * (each - 1) for each in units]
        starts = [0] * len(jobs)
        for number in order:
            minutes, mask, steps, needs = jobs[number]
            busy = 0
            for need in needs:
                busy |= full[need]
            start = first_free(busy, minutes, steps)
            starts[number] = start
            mask <<= start
            for need in needs:
                full[need] |= mask if units[need] == 1 else _stacked(below[need], mask)
        return starts


def first_free(busy: int, minutes: int, steps: Sequence[int]) -> int:
    """The first minute from which `minutes` bits in a row of `busy` are 0; `steps` are `_steps(minutes)`."""
    free = ~busy & ((1 << (busy.bit_length() + minutes)) - 1)
    for step in steps:
        free &= free >> step
    return (free & -free).bit_length() - 1


def _steps(minutes: int) -> tuple[int, ...]:
    """Shifts after which bit t tells of `minutes` free minutes from t on: each at most doubles the stretch."""
    steps, run = [], 1
    while run < minutes:
        steps.append(min(run, minutes - run))
        run += steps[-1]
    return tuple(steps)


def _stacked(layers: list[int], mask: int) -> int:
    """Put `mask` on the layers from below; what finds no room in them is what the last unit takes."""
    for level, used in enumerate(layers):
        if not mask:
            return 0
        layers[level], mask = used | mask, used & mask
    return mask


def length(problem: Problem, starts: Sequence[int]) -> int:
    """When the last job ends."""
    return max((start + job.minutes for start, job in zip(starts, problem.jobs, strict=True)), default=0)
