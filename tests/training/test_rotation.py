"""A rotation never has a clash, does everything once, and is bounded from below; short where that can be known."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations, permutations
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from sizewright.instruments.crib import default_crib
from sizewright.instruments.model import Instrument
from sizewright.instruments.shelf import Crib
from sizewright.plan.build import build_plan
from sizewright.sheet.read import read_text
from sizewright.training.bounds import in_whole, lower_bound
from sizewright.training.packing import Packer, length
from sizewright.training.resources import Problem, problem_of
from sizewright.training.rotation import rotate
from sizewright.training.tasks import work_of
from sizewright.training.times import usual_times
from sizewright.training.timetable import Work, clashes

from .works import SAMPLES, sample_work, task, work, works


def earliest(problem: Problem, order: tuple[int, ...]) -> int:
    """The length when jobs are placed in `order`, minute by minute; written without the package's way of placing."""
    placed: list[tuple[int, int]] = []
    for number in order:
        job = problem.jobs[number]
        start = 0
        while not all(_room(problem, placed, need, minute) for need in job.needs
                      for minute in range(start, start + job.minutes)):  # fmt: skip
            start += 1
        placed.append((number, start))
    return max((start + problem.jobs[number].minutes for number, start in placed), default=0)


def _room(problem: Problem, placed: list[tuple[int, int]], need: int, minute: int) -> bool:
    users = [n for n, start in placed if need in problem.jobs[n].needs
             and start <= minute < start + problem.jobs[n].minutes]  # fmt: skip
    return len(users) < problem.resources[need].units


def shortest(problem: Problem) -> int:
    """By trying every order: one of them gives a shortest timetable, as each of its jobs starts at its earliest."""
    return min(earliest(problem, order) for order in permutations(range(len(problem.jobs))))


@settings(deadline=None, max_examples=300)
@given(works(), st.integers(0, 3))
def test_there_is_never_a_clash_and_everything_is_done_once(given_work: Work, seed: int) -> None:
    made = rotate(given_work, seed=seed, placings=2000)
    assert clashes(given_work, made.timetable) == []
    assert made.timetable.minutes >= made.bound.minutes


@settings(deadline=None, max_examples=120)
@given(works(most_tasks=3, most_people=2, longest=4).filter(lambda each: len(problem_of(each).jobs) <= 6))
def test_the_bound_holds_and_the_search_finds_the_shortest_of_tiny_ones(tiny: Work) -> None:
    problem = problem_of(tiny)
    best = shortest(problem)
    assert lower_bound(problem).minutes <= best
    assert rotate(tiny, placings=5000).timetable.minutes == best


@settings(deadline=None)
@given(works(most_tasks=6), st.randoms(use_true_random=False))
def test_placing_by_bits_is_placing_minute_by_minute(given_work: Work, random: object) -> None:
    problem = problem_of(given_work)
    order = list(range(len(problem.jobs)))
    random.shuffle(order)  # type: ignore[attr-defined]
    assert length(problem, Packer(problem).pack(order)) == earliest(problem, tuple(order))


CALLOUTS = ("25 ±0.1", "Ø25 H7", "4x Ø6.6 THRU", "30° ±1°", "R3 ±0.5", "(30)", "Ra 1.6", "M10x1.5-6H", "40 ±0.02",
            "25 THUR", "| flatness | 0.05 |", "Ø20 h6", "1.250 in ±.001", "Ø12 H11 depth 8 ±0.1")  # fmt: skip


@settings(deadline=None, max_examples=60)
@given(
    st.lists(st.tuples(st.lists(st.sampled_from(CALLOUTS), min_size=1, max_size=8), st.integers(1, 3)), min_size=1,
             max_size=3),
    st.lists(st.tuples(st.sampled_from(default_crib().instruments), st.integers(1, 3)), min_size=1, max_size=40),
    st.integers(1, 4),
    st.booleans(),
)  # fmt: skip
def test_random_sheets_with_random_cribs_never_clash(
    sheets: list[tuple[list[str], int]], owned: list[tuple[Instrument, int]], people: int, shared: bool
) -> None:
    crib = Crib("random", tuple(one._replace(owned=count) for one, count in owned))
    plans = [
        build_plan(read_text(f"pieces: {pieces}\n" + "".join(f"{n}: {c}\n" for n, c in enumerate(callouts, 1)),
                             Path("random.sheet")), crib)
        for callouts, pieces in sheets
    ]  # fmt: skip
    who = [f"person {number}" for number in range(people)]
    given_work, parts = work_of(plans, crib, who, usual_times(), shared=shared)
    made = rotate(given_work, placings=1000)
    assert clashes(given_work, made.timetable) == []
    for part, plan in zip(parts, plans, strict=True):
        tasked = [
            number for task in given_work.tasks if task.part == part.name and task.piece < 2 for number in task.lines
        ]
        assert sorted([*tasked, *part.idle, *part.unserved, *part.unread]) == sorted(line.number for line in plan.lines)


def dealt(minutes: tuple[int, ...], units: int) -> Iterator[int]:
    """The fullest of `units` things for every way to deal `minutes` out to them."""
    if not minutes:
        yield 0
        return

    def deal(left: tuple[int, ...], sums: tuple[int, ...]) -> Iterator[int]:
        if not left:
            yield max(sums)
            return
        for place in range(units):
            yield from deal(left[1:], (*sums[:place], sums[place] + left[0], *sums[place + 1 :]))

    yield from deal(minutes, (0,) * units)


@settings(deadline=None)
@given(st.lists(st.integers(1, 9), max_size=6), st.integers(1, 3))
def test_the_bound_for_whole_tasks_is_below_every_way_to_deal_them_out(minutes: list[int], units: int) -> None:
    assert in_whole(minutes, units) <= min(dealt(tuple(minutes), units))


# (what it is, work, minutes of the lower bound, of the timetable); the figures follow from the sums in the comments
CASES = [
    ("nothing to do", work(people=2), 0, 0),
    ("one person: the sum", work(task("A1", 5, "a"), task("A2", 7, "a"), people=1), 12, 12),
    ("one instrument: 3 people, 4 minutes each", work(task("A1", 4, "a"), people=3), 12, 12),
    ("two of the instrument: two of three wait", work(task("A1", 4, "a"), people=3, owned={"a": 2}), 8, 8),
    ("one for each", work(task("A1", 4, "a"), people=3, owned={"a": 3}), 4, 4),
    ("one piece", work(task("A1", 4, "a"), task("A2", 3, "b"), people=3, copies={"cap": 1}), 21, 21),
    ("turns: each has 9 minutes", work(task("A1", 4, "a"), task("A2", 5, "b"), people=2), 10, 10),
    ("no instrument at all", work(task("A1", 6), people=4), 6, 6),
    ("shared: 6 and 4 and 2 for two", work(*(task(f"A{n}", n, f"t{n}") for n in (6, 4, 2)), shared=True), 6, 6),
    ("shared: 5, 5, 5 for two, none cut", work(*(task(f"A{n}", 5, f"t{n}") for n in range(3)), shared=True), 10, 10),
    (
        "three that exclude each other: 2 + 3 + 4 for two people",
        work(task("A1", 2, "a", "b"), task("A2", 3, "b", "c"), task("A3", 4, "a", "c"), people=2), 18, 18,
    ),
]  # fmt: skip


@pytest.mark.parametrize(("given_work", "bound", "minutes"), [case[1:] for case in CASES], ids=[c[0] for c in CASES])
def test_what_can_be_worked_out_by_hand(given_work: Work, bound: int, minutes: int) -> None:
    made = rotate(given_work)
    assert (made.bound.minutes, made.timetable.minutes) == (bound, minutes)
    assert made.shortest
    assert made.bound.because


@pytest.mark.parametrize("people", [2, 3])
@pytest.mark.parametrize("name", SAMPLES)
def test_the_lower_bound_is_reached_on_a_sample(name: str, people: int) -> None:
    for shared in (False, True):
        assert rotate(sample_work(name, people=people, shared=shared)).shortest


@pytest.mark.parametrize("names", list(combinations(SAMPLES, 2)), ids="+".join)
def test_the_lower_bound_is_reached_on_pairs_of_samples(names: tuple[str, ...]) -> None:
    """Three people at a pair leave no slack at all in places: there a fiftieth is allowed, without the solver."""
    assert rotate(sample_work(*names, people=2)).shortest
    assert all(rotate(sample_work(*names, people=people, shared=True)).shortest for people in (2, 3))
    made = rotate(sample_work(*names, people=3), placings=1_000_000)
    assert 50 * made.timetable.minutes <= 51 * made.bound.minutes + 50


def test_the_same_seed_gives_the_same_timetable() -> None:
    given_work = sample_work("worm-housing", "polar-axis", people=4)
    first, second = (rotate(given_work, seed=7, placings=20_000).timetable for _ in range(2))
    assert first == second


def test_fifty_people_at_every_sample_have_no_clash() -> None:
    given_work = sample_work(*SAMPLES, people=50)
    made = rotate(given_work, placings=0)
    assert len(made.timetable.slots) == 50 * len(given_work.tasks)


def test_people_keep_their_piece_where_there_is_one_for_each() -> None:
    made = rotate(sample_work("bearing-cap", people=3))
    pieces = {person: {slot.piece for slot in made.timetable.of(person)} for person in made.work.people}
    assert pieces == {"person 1": {1}, "person 2": {2}, "person 3": {3}}
