"""The places of a plan that ask for a reading: line by line, piece by piece, as its documents have them.

`sizewright.output.slots` shows the same places as text; a test holds the two against each other.
"""

from __future__ import annotations

from collections.abc import Container, Iterator
from typing import NamedTuple

from sizewright.judge.asked import NO_LIMITS, asked_limits
from sizewright.plan.model import Plan, PlanLine
from sizewright.resolve.characteristic import Limits

Key = tuple[str, int, int, str]


class Place(NamedTuple):
    """Room for one reading. `piece` and `instance` count from 1; `limits` has no bounds where no verdict is possible
    from a number (a thread by gauge, a side that is not told)."""

    line: PlanLine
    piece: int
    instance: int
    limits: Limits

    @property
    def of(self) -> str:
        """Which of the line's limits is read; empty where there is but one place."""
        return self.limits.of if len(asked(self.line)) > 1 else ""

    @property
    def key(self) -> Key:
        """What tells the place from every other: line, piece, instance, and which limits."""
        return self.line.number, self.piece, self.instance, self.of


def places_of(plan: Plan, pieces: Container[int] | None = None) -> Iterator[Place]:
    """All the readings that `plan` asks for, of `pieces` alone where they are told; piece by piece within a line."""
    for line in plan.lines:
        for piece in range(1, line.pieces + 1):
            if pieces is not None and piece not in pieces:
                continue
            for instance in range(1, line.readings_per_piece + 1):
                for limits in asked(line):
                    yield Place(line, piece, instance, limits)


def asked(line: PlanLine) -> tuple[Limits, ...]:
    """The limits that get a reading each; `NO_LIMITS` where one answer stands for the line."""
    limits = {each.of: each for each in line.limits}
    return tuple(limits.get(name, NO_LIMITS) for name in asked_limits(line))
