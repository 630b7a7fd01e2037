"""From starts to slots: who does each task, on which piece, with which copy of the instrument.

Where never more than n jobs run at once on n alike things, dealing the things out in the order of the starts always
finds a free one. People keep the piece and the instrument they had, where they can.
"""

from __future__ import annotations

from collections.abc import Sequence

from sizewright.training.resources import Job, Problem
from sizewright.training.timetable import Slot, Timetable, Work


def allot(work: Work, problem: Problem, starts: Sequence[int]) -> Timetable:
    """The timetable of `problem` with `starts`; never more jobs may run at once than their resources have units."""
    dealer = _Dealer(work.people)
    in_order = sorted(range(len(problem.jobs)), key=lambda number: (starts[number], number))
    return Timetable(tuple(_slot(work, problem.jobs[number], starts[number], dealer) for number in in_order))


def _slot(work: Work, job: Job, start: int, dealer: _Dealer) -> Slot:
    task, end = job.task, start + job.minutes
    person = job.person
    if person is None:
        person = work.people[dealer.deal(("person", ""), len(work.people), "", start, end) - 1]
    piece = task.piece or dealer.deal(("part", task.part), work.copies[task.part], person, start, end)
    units = tuple(dealer.deal(("tool", tool), work.owned[tool], person, start, end) for tool in task.tools)
    return Slot(person, task, start, end, piece, units)


class _Dealer:
    """Deals out numbered things; knows until when each is in hand, and which a person had last."""

    def __init__(self, people: Sequence[str]) -> None:
        """Where there is one for each of `people`, each keeps a thing of their own."""
        self._places = {person: place for place, person in enumerate(people, start=1)}
        self._free_from: dict[tuple[str, str], dict[int, int]] = {}
        self._last: dict[tuple[str, tuple[str, str]], int] = {}

    def deal(self, sort: tuple[str, str], units: int, person: str, start: int, end: int) -> int:
        """The number, 1 to `units`, of a thing of `sort` that is free at `start`; it is in hand until `end`."""
        free_from = self._free_from.setdefault(sort, {})
        own = self._places.get(person) if units >= len(self._places) else None
        kept = own or self._last.get((person, sort))
        numbers = [kept] if kept is not None else []
        number: int = next(each for each in (*numbers, *range(1, units + 1)) if free_from.get(each, 0) <= start)
        free_from[number] = end
        self._last[person, sort] = number
        return number
