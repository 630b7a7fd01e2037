"""A timetable drawn with characters: a row a person, time from left to right, in bands as wide as the screen."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction
from math import ceil

from sizewright.output.rotation_rows import RotationSheet
from sizewright.output.safe import one_line
from sizewright.training.timetable import Slot

LEGEND = "A2: second task of part A, no mark where none fits; | begins, > goes on, . waits"
_NAME = 16  # columns for a name at most
_BANDS = 8  # more than these would be leafed through, not looked at: then labels give way
_SCALES = [Fraction(n) for n in (4, 3, 2, 1)] + [Fraction(1, n) for n in (2, 3, 5, 10, 15, 30, 60)]  # columns a minute
_TICKS = (1, 2, 5, 10, 15, 30, 60, 120, 240, 480, 720, 1440)
_TICK_SPACE = 9  # columns from one time to the next at least


def chart_lines(sheet: RotationSheet, width: int) -> list[str]:
    """The chart in lines of at most `width` columns (30 at least); empty where there is nothing to do."""
    timetable = sheet.rotation.timetable
    if not timetable.slots:
        return []
    people = sheet.rotation.work.people
    names = [one_line(person) for person in people]
    name_width = min(_NAME, max(map(len, (*names, "time"))))
    room = max(12, width - name_width - 2)
    scale = _scale(timetable.slots, timetable.minutes, room)
    tick = next((each for each in _TICKS if each * scale >= _TICK_SPACE), _TICKS[-1])
    band = max(1, int(room / scale))
    if band > tick:
        band -= band % tick
    slots = {person: timetable.of(person) for person in people}
    lines: list[str] = []
    for begin in range(0, timetable.minutes, band):
        end = min(begin + band, timetable.minutes)
        lines += [""] * bool(lines)
        lines.append(f"{'time':<{name_width}}  {_times(sheet, begin, end, tick, scale)}"[:width].rstrip())
        for person, name in zip(people, names, strict=True):
            lines.append(f"{_cut(name, name_width):<{name_width}}  {_row(slots[person], begin, end, scale)}".rstrip())
    return lines


def _scale(slots: Sequence[Slot], minutes: int, room: int) -> Fraction:
    """The scale at which every mark fits in as few bands as can be; a coarser one where that would be too many."""
    needed = [(1 + len(slot.task.mark), slot.end - slot.start) for slot in slots]
    fits = [scale for scale in _SCALES if all(int(length * scale) >= columns for columns, length in needed)]
    coarsest = fits[-1] if fits else _SCALES[0]
    bands = min(_BANDS, ceil(minutes * coarsest / room))
    return next((scale for scale in _SCALES if minutes * scale <= room * bands), _SCALES[-1])


def _times(sheet: RotationSheet, begin: int, end: int, tick: int, scale: Fraction) -> str:
    row = ""
    for minute in range(begin - begin % -tick, end, tick):
        column = int((minute - begin) * scale)
        if column >= len(row):
            row = f"{row:<{column}}{sheet.clock(minute)} "
    return row


def _row(slots: Sequence[Slot], begin: int, end: int, scale: Fraction) -> str:
    """What one person does from minute `begin` up to `end`."""
    row = ["."] * int((end - begin) * scale)
    for slot in slots:
        if slot.end <= begin or slot.start >= end:
            continue
        first, last = int(max(0, slot.start - begin) * scale), int((min(slot.end, end) - begin) * scale)
        for place, char in enumerate(_bar(slot, begin, max(1, last - first)), start=first):
            if place < len(row):
                row[place] = char
    return "".join(row)


def _bar(slot: Slot, begin: int, columns: int) -> Iterator[str]:
    mark = slot.task.mark if len(slot.task.mark) < columns else ""
    yield from f"{'|' if slot.start >= begin else '>'}{mark}".ljust(columns, "=")


def _cut(name: str, width: int) -> str:
    return name if len(name) <= width else f"{name[: width - 1]}…"
