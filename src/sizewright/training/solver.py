"""The optional solver: the constraint solver of OR-Tools, where it is installed.

It starts from the timetable of the plain method and may shorten it, or prove that nothing is shorter.
"""

from __future__ import annotations

from collections.abc import Sequence
from importlib.util import find_spec
from math import ceil
from typing import Any

from sizewright.text.errors import InputError
from sizewright.training.bounds import Bound
from sizewright.training.packing import length
from sizewright.training.resources import Problem

_WORKERS = 8
_SLACK = 1e-6  # the bound comes as a float


class SolverMissingError(InputError):
    """The solver is asked for and not installed."""

    def __init__(self) -> None:
        """The sentence says how to install it."""
        super().__init__("the solver is not installed; pip install 'sizewright[solver]' brings it")


def check_solver() -> None:
    """Refuse to go on where the solver is not installed, before any work is done.

    Raises:
        SolverMissingError: it is not.
    """
    if find_spec("ortools") is None:
        raise SolverMissingError


def solve(problem: Problem, starts: list[int], bound: Bound, seconds: float, seed: int = 0) -> tuple[list[int], Bound]:
    """Starts no worse than `starts`, and a bound no lower than `bound`, found within `seconds`.

    Raises:
        SolverMissingError: the solver is not installed.
    """
    check_solver()
    from ortools.sat.python import cp_model

    known = length(problem, starts)
    if known <= bound.minutes:
        return starts, bound
    model, variables, last = _model(cp_model, problem, starts, bound.minutes, known)
    solver = cp_model.CpSolver()
    solver.parameters.max_time_in_seconds = seconds
    solver.parameters.random_seed = seed % 2**31
    solver.parameters.num_workers = _WORKERS
    status = solver.solve(model)
    if status not in (cp_model.OPTIMAL, cp_model.FEASIBLE):
        return starts, bound
    found = [int(solver.value(variable)) for variable in variables]
    proven = ceil(solver.best_objective_bound - _SLACK)
    shorter = found if solver.value(last) < known else starts
    if proven <= bound.minutes:
        return shorter, bound
    return shorter, Bound(proven, "the solver has tried everything shorter")


def _model(
    cp_model: Any, problem: Problem, starts: Sequence[int], least: int, known: int
) -> tuple[Any, list[Any], Any]:
    """The model, its start variables, and the variable for the end of the last job."""
    model = cp_model.CpModel()
    last = model.new_int_var(least, known, "last")
    users: list[list[Any]] = [[] for _ in problem.resources]
    variables = []
    for number, job in enumerate(problem.jobs):
        start = model.new_int_var(0, known - job.minutes, f"start {number}")
        interval = model.new_fixed_size_interval_var(start, job.minutes, f"job {number}")
        model.add(start + job.minutes <= last)
        model.add_hint(start, starts[number])
        variables.append(start)
        for need in job.needs:
            users[need].append(interval)
    for resource, intervals in zip(problem.resources, users, strict=True):
        if resource.units == 1:
            model.add_no_overlap(intervals)
        elif len(intervals) > resource.units:
            model.add_cumulative(intervals, [1] * len(intervals), resource.units)
    model.minimize(last)
    return model, variables, last
