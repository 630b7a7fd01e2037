"""The bevel protractor: a dial of degrees that counts from 0 to 90 both ways, and a vernier both ways from its zero."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from typing import NamedTuple

from sizewright.training.scales.model import Construction, Line, Part, Reading, closest, meeting_lines, rank_of

_PAST = 40  # degrees of the dial that follow the numbers 90, where the vernier still meets lines


class ProtractorLines(NamedTuple):
    """Both scales in degrees from the dial's zero, clockwise positive."""

    main: tuple[Line, ...]
    vernier: tuple[Line, ...]

    def meeting(self) -> tuple[int, ...]:
        """The vernier lines that meet a degree line, counted from the vernier's zero, clockwise positive."""
        zero = len(self.vernier) // 2
        return tuple(i - zero for i in meeting_lines(self.vernier, self.main))


@dataclass(frozen=True, kw_only=True)
class Protractor(Construction[ProtractorLines]):
    """A degree dial with a vernier of `lines` spaces to each side that cover `covers` degrees.

    A setting below zero stands to the left of the dial's zero; the reading is the same, taken to the left on both
    scales.
    """

    lines: int
    covers: int

    def signed(self, setting: Fraction) -> Fraction:
        """The reading of a setting: the same both ways."""
        return abs(setting)

    def reading(self, setting: Fraction) -> Reading:
        """See `Construction.reading`."""
        self.check(setting)
        size = abs(setting)
        main = size // 1
        return self._reading(main, ((size - main) / self.reading_value).numerator)

    def _reading(self, main: int, line: int) -> Reading:
        return Reading((Part("main line", main, Fraction(1)), Part("vernier line", line, self.reading_value)))

    def geometry(self, setting: Fraction) -> ProtractorLines:
        """See `Construction.geometry`."""
        space = Fraction(self.covers, self.lines)
        return ProtractorLines(
            _degree_lines(),
            tuple(self._vernier_line(k, setting + k * space) for k in range(-self.lines, self.lines + 1)),
        )

    def _vernier_line(self, number: int, at: Fraction) -> Line:
        numbered = number % 3 == 0
        return Line(at, 1 if numbered else 0, str(abs(number) * self.reading_value * 60) if numbered else "")

    def read_back(self, lines: ProtractorLines) -> Reading:
        """See `Construction.read_back`: the direction in which the dial's numbers grow holds for both scales."""
        middle = len(lines.vernier) // 2
        zero = lines.vernier[middle].at
        right, left = self._value(lines.main, zero, 1), self._value(lines.main, zero, -1)
        way = 1 if right > left or (right == left and zero >= 0) else -1  # at 0 and at 90 both ways are right
        passed = [line for line in lines.main if way * line.at <= way * zero and way * line.at >= 0]
        main = self._degrees(lines.main, max(passed, key=lambda line: way * line.at))
        side = [lines.vernier[middle + way * k] for k in range(self.lines + 1)]
        return self._reading(main, closest(side, lines.main) % self.lines)

    def _value(self, main: tuple[Line, ...], zero: Fraction, way: int) -> int:
        """The first number met from the vernier's zero in one direction."""
        ahead = [line for line in main if way * (line.at - zero) > 0 and line.label]
        return int(min(ahead, key=lambda line: way * line.at).label)

    def _degrees(self, main: tuple[Line, ...], line: Line) -> int:
        index = main.index(line)
        nearest = min((i for i, each in enumerate(main) if each.label == "0"), key=lambda i: abs(i - index))
        return abs(index - nearest)

    def level(self, setting: Fraction) -> int:
        """See `Construction.level`: to the left people take the wrong side of the vernier."""
        if setting < 0:
            return 3
        return 1 if self.reading(setting).part("vernier line").count % 3 == 0 else 2


@lru_cache(maxsize=1)
def _degree_lines() -> tuple[Line, ...]:
    return tuple(
        Line(Fraction(i), rank_of(i, (5, 10)), str(90 - abs(abs(i) - 90)) if i % 10 == 0 else "")
        for i in range(-90 - _PAST, 90 + _PAST + 1)
    )
