"""The checker finds every sort of clash; it shares no code with what makes timetables."""

from __future__ import annotations

import pytest

from sizewright.training.timetable import Slot, Timetable, Work, clashes

from .works import task, work

A1, A2 = task("A1", 5, "caliper"), task("A2", 3, "rule")
WORK = work(A1, A2, people=2, copies={"cap": 2})
GOOD = (
    Slot("person 1", A1, 0, 5, 1, (1,)),
    Slot("person 2", A2, 0, 3, 2, (1,)),
    Slot("person 2", A1, 5, 10, 2, (1,)),
    Slot("person 1", A2, 5, 8, 1, (1,)),
)

# (number of the slot changed, what is changed in it, part of what is said)
WRONG = [
    (2, {"start": 4, "end": 9}, "instrument caliper 1: in tasks A1 and A1 at minute 4"),
    (1, {"piece": 1}, "piece cap 1: in tasks A1 and A2 at minute 0"),
    (3, {"start": 3, "end": 6}, "person person 1: in tasks A1 and A2 at minute 3"),
    (2, {"person": "person 1", "start": 9, "end": 14}, "person 2 does task A1 0 times"),
    (2, {"person": "person 1", "start": 9, "end": 14}, "person 1 does task A1 2 times"),
    (0, {"end": 4}, "is not 5 minutes"),
    (1, {"start": -3, "end": 0}, "-3 to 0"),
    (0, {"piece": 3}, "no piece 3"),
    (0, {"units": (2,)}, "no number 2 of caliper"),
    (0, {"units": ()}, "0 instruments, not 1"),
    (0, {"person": "person 9"}, "nobody asked"),
]


def test_a_good_one_passes() -> None:
    assert clashes(WORK, Timetable(GOOD)) == []


@pytest.mark.parametrize(("number", "change", "said"), WRONG)
def test_a_clash_is_told(number: int, change: dict[str, object], said: str) -> None:
    slots = list(GOOD)
    slots[number] = slots[number]._replace(**change)  # type: ignore[arg-type]
    assert any(said in sentence for sentence in clashes(WORK, Timetable(tuple(slots))))


def test_a_slot_left_out_or_done_twice_is_told() -> None:
    assert clashes(WORK, Timetable(GOOD[:3])) == ["person 1 does task A2 0 times, not once"]
    again = GOOD[3]._replace(start=20, end=23)
    assert clashes(WORK, Timetable((*GOOD, again))) == ["person 1 does task A2 2 times, not once"]


def test_shared_work_is_done_once_by_one_of_them() -> None:
    shared = Work(WORK.tasks, WORK.people, WORK.owned, WORK.copies, shared=True)
    assert clashes(shared, Timetable(GOOD[:2])) == []
    assert "task A1 is done 2 times, not once" in clashes(shared, Timetable(GOOD))


def test_a_bound_task_is_on_its_piece() -> None:
    bound = A1._replace(piece=2)
    slot = Slot("person 1", bound, 0, 5, 1, (1,))
    assert clashes(work(bound, people=1), Timetable((slot,))) == ["person 1, task A1: there is no piece 1 for it"]
