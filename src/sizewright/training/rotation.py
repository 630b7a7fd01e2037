"""A rotation: the work, a timetable for it that holds, and how near it is to the shortest."""

from __future__ import annotations

from typing import NamedTuple

from sizewright.training.allot import allot
from sizewright.training.bounds import Bound, lower_bound
from sizewright.training.packing import length
from sizewright.training.resources import problem_of
from sizewright.training.scheduling import PLACINGS, short_starts
from sizewright.training.timetable import Timetable, Work, clashes


class Rotation(NamedTuple):
    """`timetable` does `work`; no timetable is shorter than `bound`."""

    work: Work
    timetable: Timetable
    bound: Bound

    @property
    def shortest(self) -> bool:
        """Whether no timetable can be shorter."""
        return self.timetable.minutes <= self.bound.minutes


def rotate(work: Work, *, seed: int = 0, placings: int = PLACINGS, solver_seconds: float | None = None) -> Rotation:
    """A timetable for `work`; the solver gets `solver_seconds` where the plain method is not at the bound (None: none).

    `seed` chooses the random moves of the search, `placings` how long it goes on; the same give the same timetable.

    Raises:
        SolverMissingError: the solver is asked for and not installed.
    """
    if solver_seconds is not None:
        from sizewright.training.solver import check_solver

        check_solver()
    problem = problem_of(work)
    bound = lower_bound(problem)
    starts = short_starts(problem, bound.minutes, seed, placings)
    if solver_seconds is not None:
        from sizewright.training.solver import solve

        starts, bound = solve(problem, starts, bound, solver_seconds, seed)
    timetable = allot(work, problem, starts)
    wrong = clashes(work, timetable)
    assert not wrong, wrong  # a timetable with a clash must never be handed out
    assert timetable.minutes == length(problem, starts)
    return Rotation(work, timetable, bound)
