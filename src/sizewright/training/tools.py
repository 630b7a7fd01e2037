"""The things behind a crib's entries: how many hands can hold an instrument at once.

A crib is a list of entries. Two entries that are alike are two instruments of one sort; an entry in mm and one in
inches can be one and the same instrument. Where the crib leaves this open, the smaller number is taken, so that no
timetable puts one thing in two hands.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from fractions import Fraction
from typing import NamedTuple

from sizewright.instruments.amounts import to_base
from sizewright.instruments.model import Instrument
from sizewright.instruments.shelf import Crib
from sizewright.training.times import Times

_ALIKE = Fraction(1, 20)  # 0-150 mm and 0-6 inch are one caliper: ends that differ by a twentieth of the range at most


class Tool(NamedTuple):
    """Instruments of one sort that stand in for each other; `name` is unlike that of every other tool.

    `owned` is how many there are, `entries` are the crib's entries for them.
    """

    name: str
    owned: int
    entries: tuple[Instrument, ...]


@dataclass(slots=True)
class _Sort:
    """Entries alike in everything but serial, place and date."""

    entries: list[Instrument] = field(default_factory=list)

    @property
    def serials(self) -> frozenset[str]:
        return frozenset(one.serial for one in self.entries if one.serial)

    @property
    def owned(self) -> int:
        """Each serial once: the same one on two entries is the same thing."""
        once = {one.serial or str(place): one.owned for place, one in enumerate(self.entries)}
        return sum(once.values())


def tools_of(crib: Crib, times: Mapping[str, Times]) -> dict[Instrument, Tool]:
    """The tool that each entry of `crib` belongs to."""
    groups: list[list[_Sort]] = []
    for sort in _sorts(crib.instruments):
        same = next((group for group in groups if any(_one_thing(sort, other, times) for other in group)), None)
        if same is None:
            groups.append([sort])
        else:
            same.append(sort)
    names = _names([group[0].entries[0] for group in groups])
    found: dict[Instrument, Tool] = {}
    for name, group in zip(names, groups, strict=True):
        entries = tuple(one for sort in group for one in sort.entries)
        found |= dict.fromkeys(entries, Tool(name, min(sort.owned for sort in group), entries))
    return found


def _sorts(instruments: Sequence[Instrument]) -> list[_Sort]:
    sorts: dict[object, _Sort] = {}
    for one in instruments:
        key = (
            one.kind.name,
            one.unit,
            one.lower,
            one.upper,
            one.resolution,
            one.mpe_constant,
            one.mpe_slope,
            one.wires,
        )
        sorts.setdefault(key, _Sort()).entries.append(one)
    return list(sorts.values())


def _one_thing(a: _Sort, b: _Sort, times: Mapping[str, Times]) -> bool:
    """Whether two sorts share a thing: a serial, or the same kind in another unit where neither serial denies it."""
    if a.serials & b.serials:
        return a.entries[0].kind.name == b.entries[0].kind.name
    if a.serials and b.serials:
        return False
    first, second = a.entries[0], b.entries[0]
    shown = times.get(first.kind.name)
    if first.kind.name != second.kind.name or first.unit == second.unit or shown is None or not shown.all_units:
        return False
    if "deg" in (first.unit, second.unit):
        return True
    (low, high), (lower, upper) = _ends(first), _ends(second)
    slack = _ALIKE * max(high - low, upper - lower)
    return abs(low - lower) <= slack and abs(high - upper) <= slack


def _ends(one: Instrument) -> tuple[Fraction, Fraction]:
    return Fraction(to_base(one.lower, one.unit)), Fraction(to_base(one.upper, one.unit))


def _names(firsts: Sequence[Instrument]) -> list[str]:
    """Their names; what would be alike is told apart by serial, else by number."""
    names = [one.name for one in firsts]
    made: list[str] = []
    for one in firsts:
        name = one.name
        if names.count(name) > 1:
            name = f"{name}, {one.serial}" if one.serial else name
        number = 2
        unlike = name
        while unlike in made:
            unlike, number = f"{name} ({number})", number + 1
        made.append(unlike)
    return made
