"""The optional solver, where it is installed."""

from __future__ import annotations

from importlib.util import find_spec

import pytest
from hypothesis import given, settings

from sizewright.training.bounds import Bound
from sizewright.training.packing import Packer, length
from sizewright.training.resources import problem_of
from sizewright.training.rotation import rotate
from sizewright.training.solver import SolverMissingError, solve
from sizewright.training.timetable import Work, clashes

from .works import sample_work, task, work, works

INSTALLED = find_spec("ortools") is not None
needs_it = pytest.mark.skipif(not INSTALLED, reason="the optional solver is not installed")


@pytest.mark.skipif(INSTALLED, reason="the optional solver is installed")
def test_without_it_one_sentence_says_how_to_get_it() -> None:
    with pytest.raises(SolverMissingError, match=r"pip install 'sizewright\[solver\]'"):
        rotate(work(task("A1", 1, "a")), solver_seconds=1)


@needs_it
def test_it_reaches_the_bound_from_a_poor_start() -> None:
    problem = problem_of(sample_work("bearing-cap", "declination-clamp", people=3))
    poor = Packer(problem).pack(range(len(problem.jobs)))
    starts, bound = solve(problem, poor, Bound(0, ""), 30)
    assert length(problem, starts) == bound.minutes < length(problem, poor)


@needs_it
@settings(deadline=None, max_examples=20)
@given(works(most_tasks=5, most_people=3))
def test_it_never_makes_a_clash(given_work: Work) -> None:
    plain = rotate(given_work, placings=0)
    made = rotate(given_work, placings=0, solver_seconds=5)
    assert clashes(given_work, made.timetable) == []
    assert plain.bound.minutes <= made.bound.minutes <= made.timetable.minutes <= plain.timetable.minutes
