"""Readings sorted to the lines of a plan; those for which it has no room are kept with the reason."""

from __future__ import annotations

from collections.abc import Iterable

from sizewright.judge.asked import Room
from sizewright.judge.model import Reading, Unreadable
from sizewright.plan.model import Plan


def sort_readings(plan: Plan, readings: Iterable[Reading]) -> tuple[dict[int, list[Reading]], tuple[Unreadable, ...]]:
    """The readings by the place of their line in the plan, in their own order, and those for which there is no room."""
    places: dict[str, int] = {}
    for place, line in enumerate(plan.lines):
        places.setdefault(line.number, place)
    rooms: dict[int, Room] = {}
    by_line: dict[int, list[Reading]] = {}
    homeless: list[Unreadable] = []
    for reading in readings:
        found = places.get(reading.line)
        if found is None:
            homeless.append(_unreadable(reading, _no_line(plan, reading.line)))
            continue
        if found not in rooms:
            rooms[found], by_line[found] = Room(plan.lines[found], plan), []
        why = rooms[found].why_not(reading.piece, reading.instance, reading.of)
        if why:
            homeless.append(_unreadable(reading, why))
        else:
            by_line[found].append(reading)
    return by_line, tuple(homeless)


def _no_line(plan: Plan, number: str) -> str:
    under = [line.number for line in plan.lines if line.number.startswith(f"{number}.")] if number else []
    if under:
        return f"balloon {number} has the lines {', '.join(under)}: which of them is not told"
    return f"the plan has no line {number}" if number else "it names no line"


def _unreadable(reading: Reading, why: str) -> Unreadable:
    of = f" {reading.of}" if reading.of else ""
    text = f"line {reading.line}, piece {reading.piece}, place {reading.instance}{of}: {reading.typed}"
    if reading.unit and reading.value is not None:
        text += f" {reading.unit}"
    return Unreadable(reading.place, text, why)
