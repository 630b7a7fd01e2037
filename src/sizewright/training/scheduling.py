"""Short timetables by a plain method, the same each time for the same seed.

Jobs are placed one after the other (see `packing`), in orders that several rules give; the best is then improved: by
placing from the far end, which never lengthens it, by moving jobs in the order and keeping what is no worse, and at
last by annealing. It ends as soon as a lower bound is reached, as nothing can be shorter.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import count
from math import exp
from random import Random

from sizewright.training.packing import Packer, length
from sizewright.training.resources import Problem

PLACINGS = 2_000_000  # jobs placed in all, a few seconds; a count instead of a clock, so that the outcome is the same
_LEAST_TRIES = 12
_PATIENCE = 600  # tries without gain after which small changes are given up
# Annealing: steps of a round, the warmth it begins with as a share of the length, and what is left of it at the end.
# The figures did best of those tried on the pairs of samples.
_STEPS = 15_000
_WARM = 1 / 150
_COOLING = 0.25


def short_starts(problem: Problem, bound: int, seed: int = 0, placings: int = PLACINGS) -> list[int]:
    """The starts of a timetable as short as found; `bound` is what no timetable undercuts.

    The search is over when `bound` is reached or it has placed jobs `placings` times; `seed` chooses the random moves.
    """
    if not problem.jobs:
        return []
    random = Random(seed)
    tries = max(_LEAST_TRIES, placings // len(problem.jobs))
    best: list[int] = []
    shortest = 0
    for starts in _tries(problem, Packer(problem), random):
        minutes = length(problem, starts)
        if not best or minutes < shortest:
            best, shortest = starts, minutes
        tries -= 1
        if shortest <= bound or tries <= 0:
            break
    return best


def _tries(problem: Problem, packer: Packer, random: Random) -> Iterator[list[int]]:
    """Starts without end: those of the rules, then improved ones."""
    firsts = []
    for order in _rules(problem):
        for starts in _settled(problem, packer, order):
            yield starts
        firsts.append(starts)
    firsts.sort(key=lambda starts: _badness(problem, starts))
    yield from _improved(problem, packer, _by_start(firsts[0]), random)
    for turn in count():
        # Anew from the rules' outcomes in turn, the best first.
        yield from _cooled(problem, packer, _by_start(firsts[turn % len(firsts)]), random)


def _rules(problem: Problem) -> Iterator[list[int]]:
    """Orders by rule. A resource is as tight as the time for which each of its units is needed."""
    tight = [sum(minutes) / each.units for minutes, each in zip(problem.loads(), problem.resources, strict=True)]
    jobs = problem.jobs
    numbers = range(len(jobs))
    yield sorted(numbers, key=lambda n: -max(tight[need] for need in jobs[n].needs))
    yield sorted(numbers, key=lambda n: -jobs[n].minutes)
    yield sorted(numbers, key=lambda n: -sum(tight[need] for need in jobs[n].needs))
    yield sorted(numbers, key=lambda n: -jobs[n].minutes * max(tight[need] for need in jobs[n].needs))
    yield _tightest_first(problem)
    yield _turns(problem)


def _tightest_first(problem: Problem) -> list[int]:
    """Always the job whose resources have most left to do, the longest of equals."""
    left = [sum(minutes) / each.units for minutes, each in zip(problem.loads(), problem.resources, strict=True)]
    waiting = set(range(len(problem.jobs)))
    order: list[int] = []
    if len(waiting) > 1500:  # the rule costs the square of the jobs
        return sorted(waiting)
    while waiting:
        number = max(
            waiting,
            key=lambda n: (
                sorted((left[need] for need in problem.jobs[n].needs), reverse=True),
                problem.jobs[n].minutes,
                -n,
            ),
        )
        waiting.remove(number)
        order.append(number)
        for need in problem.jobs[number].needs:
            left[need] -= problem.jobs[number].minutes / problem.resources[need].units
    return order


def _turns(problem: Problem) -> list[int]:
    """Everyone goes round the tasks in the same order, each beginning one task further on."""
    people = list(dict.fromkeys(job.person for job in problem.jobs))
    marks = list(dict.fromkeys(job.task.mark for job in problem.jobs))
    where = {(job.person, job.task.mark): number for number, job in enumerate(problem.jobs)}
    step = max(1, len(marks) // len(people))
    return [
        where[person, marks[(turn + place * step) % len(marks)]]
        for turn in range(len(marks))
        for place, person in enumerate(people)
    ]


def _settled(problem: Problem, packer: Packer, order: Sequence[int]) -> Iterator[list[int]]:
    """The starts of `order`, then those of placing from the far end in turn, as long as that shortens them."""
    starts = packer.pack(order)
    yield starts
    minutes = length(problem, starts)
    while True:
        starts = packer.pack(_from_the_end(problem, starts))
        yield starts
        shorter = length(problem, starts)
        if shorter >= minutes:
            return
        minutes = shorter


def _improved(problem: Problem, packer: Packer, order: list[int], random: Random) -> Iterator[list[int]]:
    """Starts of orders changed a little at a time; a change stays unless it makes things worse."""
    worst = _badness(problem, packer.pack(order))
    idle = 0
    while idle < _PATIENCE:
        changed = list(order)
        _move(changed, random)
        starts = packer.pack(changed)
        yield starts
        badness = _badness(problem, starts)
        idle = 0 if badness < worst else idle + 1
        if badness <= worst:
            order, worst = _by_start(starts), badness


def _cooled(problem: Problem, packer: Packer, order: list[int], random: Random) -> Iterator[list[int]]:
    """Starts of orders changed at random; what is worse stays with a chance that shrinks (simulated annealing)."""
    starts = packer.pack(order)
    people = len({job.person for job in problem.jobs})
    cost = _cost(problem, people, starts)
    warm = _WARM * length(problem, starts)
    for step in range(_STEPS):
        changed = list(order)
        _move(changed, random)
        starts = packer.pack(changed)
        yield starts
        worse = _cost(problem, people, starts) - cost
        if worse <= 0 or random.random() < exp(-worse / (warm * _COOLING ** (step / _STEPS))):
            order, cost = _by_start(starts), cost + worse


def _cost(problem: Problem, people: int, starts: Sequence[int]) -> float:
    """The length and how late people end on average, in minutes."""
    longest, ends = _badness(problem, starts)
    return longest + ends / people


def _move(order: list[int], random: Random) -> None:
    """Take one job to another place in the order, or let two change places."""
    one, other = random.randrange(len(order)), random.randrange(len(order))
    if random.random() < 0.5:
        order.insert(other, order.pop(one))
    else:
        order[one], order[other] = order[other], order[one]


def _badness(problem: Problem, starts: Sequence[int]) -> tuple[int, int]:
    """The length, then how late people end, taken together: who ends early leaves room for what holds the rest up."""
    ends: dict[str | None, int] = {}
    for start, job in zip(starts, problem.jobs, strict=True):
        ends[job.person] = max(ends.get(job.person, 0), start + job.minutes)
    return max(ends.values(), default=0), sum(ends.values())


def _by_start(starts: Sequence[int]) -> list[int]:
    return sorted(range(len(starts)), key=lambda number: starts[number])


def _from_the_end(problem: Problem, starts: Sequence[int]) -> list[int]:
    """The order of the same timetable run backwards: a mirror of it is a timetable too."""
    return sorted(range(len(starts)), key=lambda number: -starts[number] - problem.jobs[number].minutes)
