"""Dials: the dial gauge with its counter of turns, and the dial caliper, whose bar counts the turns."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from math import floor
from typing import NamedTuple

from sizewright.training.scales.model import (
    Construction,
    Line,
    Part,
    Reading,
    counted,
    nearest_line,
    passed_lines,
    rank_of,
)


class DialLines(NamedTuple):
    """Lines and hands, clockwise from the top in parts of a turn; `bar` and its `edge` in the scale's unit."""

    dial: tuple[Line, ...]
    hand: Fraction
    counter: tuple[Line, ...] = ()
    counter_hand: Fraction = Fraction(0)
    bar: tuple[Line, ...] = ()
    edge: Fraction = Fraction(0)


@dataclass(frozen=True, kw_only=True)
class Dial(Construction[DialLines]):
    """A dial of `divisions` lines, one `turn` of the hand; each line counts `label_step` on the dial's numbers.

    `counter` is how many turns the small hand counts; 0 where a bar counts them, whose lines stand every turn.
    """

    turn: Fraction
    divisions: int
    label_step: int = 1
    number_every: int = 10
    counter: int = 0
    bar_number_every: int = 0
    bar_digit_every: int = 0
    bar_ranks: tuple[int, ...] = ()

    def reading(self, setting: Fraction) -> Reading:
        """See `Construction.reading`."""
        self.check(setting)
        turns = setting // self.turn
        return self._reading(turns, ((setting - turns * self.turn) / self.reading_value).numerator)

    def _reading(self, turns: int, line: int) -> Reading:
        name = Part("turns" if self.counter else "bar line", turns, self.turn)
        return Reading((name, Part("dial line", line, self.reading_value)))

    def geometry(self, setting: Fraction) -> DialLines:
        """See `Construction.geometry`."""
        turned = setting / self.turn
        if not self.counter:
            return DialLines(_dial_lines(self), turned % 1, bar=_bar_lines(self), edge=setting)
        counter = tuple(Line(Fraction(i, self.counter), 1, str(i)) for i in range(self.counter))
        return DialLines(_dial_lines(self), turned % 1, counter, turned / self.counter % 1)

    def read_back(self, lines: DialLines) -> Reading:
        """See `Construction.read_back`: near a complete turn the large hand decides which turn counts."""
        # The dial closes on itself: its zero stands at a whole turn as well.
        closed = (*lines.dial, Line(lines.dial[0].at + 1, lines.dial[0].rank, ""))
        index = nearest_line(closed, lines.hand)
        back = next(i for i in range(len(closed)) if closed[index - i].label)
        line = int(closed[index - back].label) // self.label_step + back
        return self._reading(round(self._turned(lines) - Fraction(line, self.divisions)), line % self.divisions)

    def _turned(self, lines: DialLines) -> Fraction:
        """How many turns the counter or the bar shows, whole turns and a rest."""
        if self.counter:
            spaces = lines.counter_hand * self.counter
            below = floor(spaces)
            rest = spaces - below
            shown = Fraction(lines.counter[below].label) + rest
            return shown - self.counter if shown > self.counter - Fraction(1, 2) else shown  # just below zero
        index = max(passed_lines(lines.bar, lines.edge) - 1, 0)
        value = counted(lines.bar, index, self.turn, Fraction(1))
        return (value + lines.edge - lines.bar[index].at) / self.turn

    def level(self, setting: Fraction) -> int:
        """See `Construction.level`: near a complete turn the counter misleads."""
        line = self.reading(setting).part("dial line").count
        if 0 < min(line, self.divisions - line) <= self.divisions // 20:
            return 3
        return 1 if line and line % 5 == 0 else 2


@lru_cache(maxsize=16)
def _dial_lines(scale: Dial) -> tuple[Line, ...]:
    return tuple(
        Line(
            Fraction(i, scale.divisions),
            rank_of(i, (5, 10)),
            str(i * scale.label_step) if i % scale.number_every == 0 else "",
        )
        for i in range(scale.divisions)
    )


@lru_cache(maxsize=16)
def _bar_lines(scale: Dial) -> tuple[Line, ...]:
    lines = []
    for i in range((scale.greatest / scale.turn).numerator + 1):
        at, rank = i * scale.turn, rank_of(i, scale.bar_ranks)
        if i % scale.bar_number_every == 0:
            lines.append(Line(at, rank, str(at)))
        elif scale.bar_digit_every and i % scale.bar_digit_every == 0:
            lines.append(Line(at, rank, str((at * 10).numerator % 10), small=True))
        else:
            lines.append(Line(at, rank))
    return tuple(lines)
