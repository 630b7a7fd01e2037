"""Steel rules: the edge of a part against the lines; on wide spaces half a space is judged by eye."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from typing import NamedTuple

from sizewright.training.scales.model import Construction, Line, Part, Reading, counted, passed_lines, rank_of


class RuleLines(NamedTuple):
    """The rule's lines, and where the part begins and ends, from the rule's zero in the scale's unit."""

    lines: tuple[Line, ...]
    start: Fraction
    end: Fraction


@dataclass(frozen=True, kw_only=True)
class Rule(Construction[RuleLines]):
    """A rule with a line each `space`; where `judged`, half a space is read by eye.

    Each `number_every`th line is numbered, every so manieth (`ranks`) is longer. A worn end is left out by laying the
    part at line `later_start`.
    """

    space: Fraction
    ranks: tuple[int, ...]
    number_every: int
    judged: bool = False
    later_start: Fraction

    def reading(self, setting: Fraction) -> Reading:
        """See `Construction.reading`."""
        self.check(setting)
        line = setting // self.space
        return self._reading(line, setting - line * self.space)

    def _reading(self, line: int, rest: Fraction) -> Reading:
        parts = (Part("rule line", line, self.space),)
        return Reading((*parts, Part("between lines", 1, rest)) if rest else parts)

    def geometry(self, setting: Fraction, start: Fraction = Fraction(0)) -> RuleLines:
        """See `Construction.geometry`; the part lies from `start` to `setting`."""
        return RuleLines(_rule_lines(self), start, setting)

    def read_back(self, lines: RuleLines) -> Reading:
        """See `Construction.read_back`: the last line at or before the end, and half a space beyond."""
        index = passed_lines(lines.lines, lines.end) - 1
        value = counted(lines.lines, index, self.space, Fraction(1))
        between = lines.end > lines.lines[index].at
        return self._reading((value / self.space).numerator, self.space / 2 if between else Fraction(0))

    def level(self, setting: Fraction) -> int:
        """See `Construction.level`: longer lines are plain, between two lines it is hard."""
        index = setting / self.space
        if index.denominator != 1:
            return 3
        if rank_of(index.numerator, self.ranks):
            return 1
        near = any(rank_of(index.numerator + step, self.ranks[1:]) for step in (-1, 1))
        return 2 if near else 3


@lru_cache(maxsize=32)
def _rule_lines(scale: Rule) -> tuple[Line, ...]:
    return tuple(
        Line(i * scale.space, rank_of(i, scale.ranks), str(i * scale.space) if i % scale.number_every == 0 else "")
        for i in range((scale.greatest / scale.space).numerator + 1)
    )
