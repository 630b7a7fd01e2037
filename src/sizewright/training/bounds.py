"""How short a timetable can be at best: minutes that no timetable undercuts, with the reason.

Each bound holds on its own, so the largest of them holds. None looks at a timetable.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from sizewright.training.resources import Problem, Resource

# How far the search for tasks that exclude each other goes; any set it finds holds.
_LOOKS = 20_000
_TASKS = 300


class Bound(NamedTuple):
    """No timetable is shorter than `minutes`; `because` tells why, in words that stand after "because"."""

    minutes: int
    because: str


def lower_bound(problem: Problem) -> Bound:
    """The largest bound known for `problem`; of equal ones the simplest."""
    best = Bound(0, "there is nothing to do")
    for bound in _bounds(problem):
        if bound.minutes > best.minutes:
            best = bound
    return best


def _bounds(problem: Problem) -> Iterator[Bound]:
    loads = problem.loads()
    for resource, minutes in zip(problem.resources, loads, strict=True):
        yield Bound(-(-sum(minutes) // resource.units), _share(resource, sum(minutes)))
    for resource, minutes in zip(problem.resources, loads, strict=True):
        yield Bound(in_whole(minutes, resource.units), f"{_share(resource, sum(minutes))}, and no task is cut in two")
    yield _excluding(problem)


def _share(resource: Resource, minutes: int) -> str:
    """What a resource has to carry."""
    taken = f"{minutes} minutes in all"
    match resource.sort:
        case "person":
            return f"{resource.name} has tasks of {taken}"
        case "people":
            people = "1 person shares" if resource.units == 1 else f"{resource.units} people share"
            return f"{people} tasks of {taken}"
        case "piece":
            return f"{resource.name} is needed for {taken}"
        case "part":
            pieces = "1 piece" if resource.units == 1 else f"{resource.units} pieces"
            return f"{resource.name} ({pieces}) is needed for {taken}"
        case _:
            return f"{resource.name} ({resource.units} owned) is needed for {taken}"


def in_whole(minutes: Sequence[int], units: int) -> int:
    """What one of `units` alike things carries at least, when each of `minutes` goes to one of them as a whole.

    The fullest carries a sum of some of `minutes` that is no less than its share. And of the k units + 1 longest, some
    thing gets k + 1 (k = 1, 2 ...), which are no shorter than the k + 1 shortest of them.
    """
    if units == 1 or not minutes:
        return sum(minutes)
    sums = 1
    for each in minutes:
        sums |= sums << each
    share = -(-sum(minutes) // units)
    least = share + ((sums >> share) & -(sums >> share)).bit_length() - 1
    longest = sorted(minutes, reverse=True)
    for several in range(1, (len(longest) - 1) // units + 1):
        upto = several * units + 1
        least = max(least, sum(longest[upto - several - 1 : upto]))
    return max(least, longest[0])


def _excluding(problem: Problem) -> Bound:
    """Tasks of which no two can ever run at once, because each two of them share something of which there is one.

    They run one after the other, each as often as it is done. A task that is done by several people counts as often
    only where it excludes itself; the others are left to the bounds above.
    """
    single = [resource.units == 1 and resource.sort != "person" for resource in problem.resources]
    sums: dict[str, int] = {}
    things: dict[str, frozenset[int]] = {}
    for job in problem.jobs:
        alone = frozenset(need for need in job.needs if single[need])
        if alone:
            sums[job.task.mark] = sums.get(job.task.mark, 0) + job.minutes
            things[job.task.mark] = alone
    marks = sorted(sums, key=lambda mark: (-sums[mark], mark))[:_TASKS]
    beside = {
        mark: frozenset(other for other in marks if other != mark and things[mark] & things[other]) for mark in marks
    }
    best = _heaviest(marks, sums, beside)
    total = sum(sums[mark] for mark in best)
    return Bound(total, f"no two of the tasks {', '.join(sorted(best))} can run at once: {total} minutes in all")


def _heaviest(marks: Sequence[str], sums: dict[str, int], beside: dict[str, frozenset[str]]) -> list[str]:
    """Marks of which each two stand beside each other, the heaviest set found within `_LOOKS` looks."""
    best: list[str] = []
    heaviest, looks = 0, 0

    def search(chosen: list[str], weight: int, left: list[str]) -> None:
        nonlocal best, heaviest, looks
        looks += 1
        if weight > heaviest:
            best, heaviest = chosen, weight
        rest = sum(sums[mark] for mark in left)
        for place, mark in enumerate(left):
            if weight + rest <= heaviest or looks > _LOOKS:
                return
            search(
                [*chosen, mark], weight + sums[mark], [other for other in left[place + 1 :] if other in beside[mark]]
            )
            rest -= sums[mark]

    search([], 0, list(marks))
    return best
