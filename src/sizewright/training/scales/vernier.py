"""Straight verniers: calipers, height gauges, depth gauges.

n vernier spaces cover n - 1 main spaces, or 2n - 1 on an extended one; one vernier space then lacks main space / n to
the next whole number of main spaces. At the true value x the last main line before the vernier's zero is
floor(x / main space), and line (x mod main space) / (main space / n) meets a main line.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from math import ceil
from typing import NamedTuple

from sizewright.training.scales.model import (
    Construction,
    Line,
    Part,
    Reading,
    closest,
    counted,
    meeting_lines,
    passed_lines,
    rank_of,
)


class VernierLines(NamedTuple):
    """The lines of both scales along the beam, from the beam's zero, in the scale's unit."""

    main: tuple[Line, ...]
    vernier: tuple[Line, ...]

    def meeting(self) -> tuple[int, ...]:
        """The vernier lines that stand exactly at a main line."""
        return meeting_lines(self.vernier, self.main)


@dataclass(frozen=True, kw_only=True)
class Vernier(Construction[VernierLines]):
    """A straight vernier: `lines` spaces that cover `covers` main spaces of width `space`.

    Every so many main lines (`ranks`) are longer; each `number_every`th has a large number, each `digit_every`th a
    small digit. On the vernier each `vernier_every`th line is numbered in steps of `vernier_step`, and each
    `vernier_half`th is drawn longer.
    """

    space: Fraction
    lines: int
    covers: int
    ranks: tuple[int, ...]
    number_every: int
    digit_every: int = 0
    vernier_every: int
    vernier_step: int
    vernier_half: int = 0
    upright: bool = False
    nib: Fraction | None = None

    @property
    def vernier_space(self) -> Fraction:
        """The width of one vernier space."""
        return self.covers * self.space / self.lines

    def reading(self, setting: Fraction) -> Reading:
        """See `Construction.reading`."""
        self.check(setting)
        main = setting // self.space
        line = (setting - main * self.space) / self.reading_value
        return self._reading(main, line.numerator)

    def _reading(self, main: int, line: int) -> Reading:
        return Reading((Part("main line", main, self.space), Part("vernier line", line, self.reading_value)))

    def geometry(self, setting: Fraction) -> VernierLines:
        """See `Construction.geometry`."""
        width = self.vernier_space
        return VernierLines(
            _main_lines(self), tuple(self._vernier_line(k, setting + k * width) for k in range(self.lines + 1))
        )

    def _vernier_line(self, number: int, at: Fraction) -> Line:
        if number % self.vernier_every == 0:
            return Line(at, 2, str(number // self.vernier_every * self.vernier_step))
        return Line(at, 1 if self.vernier_half and number % self.vernier_half == 0 else 0)

    def read_back(self, lines: VernierLines) -> Reading:
        """See `Construction.read_back`: the last main line at or before the vernier's zero, then the line that meets.

        Where no line meets exactly, the one that comes nearest is taken; zero and the last line meet together and
        count as zero.
        """
        zero = lines.vernier[0].at
        passed = passed_lines(lines.main, zero)
        main = counted(lines.main, max(passed - 1, 0), self.space, Fraction(1)) - (0 if passed else self.space)
        return self._reading((main / self.space).numerator, closest(lines.vernier, lines.main) % self.lines)

    def level(self, setting: Fraction) -> int:
        """See `Construction.level`: numbered lines are plain, the ends of the vernier are hard."""
        line = self.reading(setting).part("vernier line").count
        if line % self.vernier_every == 0:
            return 1
        return 3 if min(line, self.lines - line) <= max(1, self.lines // 12) else 2


@lru_cache(maxsize=64)
def _main_lines(scale: Vernier) -> tuple[Line, ...]:
    """The beam's lines, from its zero on past the end of the vernier at the greatest setting."""
    count = ceil((scale.greatest + scale.covers * scale.space) / scale.space) + 2
    return tuple(_main_line(scale, i) for i in range(count + 1))


def _main_line(scale: Vernier, index: int) -> Line:
    at, rank = index * scale.space, rank_of(index, scale.ranks)
    if index % scale.number_every == 0:
        return Line(at, rank, str(at))
    if scale.digit_every and index % scale.digit_every == 0:
        return Line(at, rank, str(index // scale.digit_every % (scale.number_every // scale.digit_every)), small=True)
    return Line(at, rank)
