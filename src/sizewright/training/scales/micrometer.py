"""Micrometers: sleeve, thimble and, on some, a vernier on the sleeve.

One turn of the thimble is the screw's pitch. The reading is the last sleeve line uncovered, and the thimble line at the
index line, and the sleeve vernier's line that meets a thimble line. A depth micrometer runs backwards: its thimble
covers the sleeve as the rod goes out, and the last line *covered* counts.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
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


class MicrometerLines(NamedTuple):
    """Where the lines stand.

    `sleeve` and the thimble's `edge` are places along the axis, in the scale's unit, growing toward the thimble; what
    lies beyond the edge is covered. `thimble` and `vernier` are places round the thimble in thimble spaces, upward from
    the index line (0).
    """

    sleeve: tuple[Line, ...]
    edge: Fraction
    thimble: tuple[Line, ...]
    vernier: tuple[Line, ...] = ()

    def meeting(self) -> tuple[int, ...]:
        """The vernier lines that stand exactly at a thimble line."""
        return meeting_lines(self.vernier, self.thimble)


@dataclass(frozen=True, kw_only=True)
class Micrometer(Construction[MicrometerLines]):
    """A micrometer of screw `pitch` with `divisions` thimble lines.

    Each `number_every`th sleeve line is numbered, each number worth `label_unit`. `vernier` spaces of the sleeve
    vernier cover `vernier_covers` thimble spaces. A sleeve line is `line_width` wide; a thimble space takes
    `division_width` of the circumference (both in the scale's unit, for drawing and for lines that half show).
    """

    pitch: Fraction
    divisions: int
    number_every: int
    label_unit: Fraction
    ranks: tuple[int, ...]
    split: bool = False  # half lines on the other side of the index line
    backwards: bool = False
    vernier: int = 0
    vernier_covers: int = 9
    line_width: Fraction
    division_width: Fraction

    @property
    def division(self) -> Fraction:
        """What one thimble line is worth."""
        return self.pitch / self.divisions

    @property
    def _way(self) -> int:
        return -1 if self.backwards else 1

    def reading(self, setting: Fraction) -> Reading:
        """See `Construction.reading`."""
        self.check(setting)
        turns = setting // self.pitch
        rest = setting - turns * self.pitch
        line = rest // self.division
        return self._reading(turns, line, ((rest - line * self.division) / self.reading_value).numerator)

    def _reading(self, turns: int, line: int, vernier: int) -> Reading:
        parts = [Part("sleeve line", turns, self.pitch), Part("thimble line", line, self.division)]
        if self.vernier:
            parts.append(Part("sleeve vernier line", vernier, self.reading_value))
        return Reading(tuple(parts))

    def geometry(self, setting: Fraction, creep: Fraction = Fraction(0)) -> MicrometerLines:
        """See `Construction.geometry`; the thimble's edge of a worn or badly set micrometer stands `creep` ahead."""
        turned = setting / self.division
        vernier = (
            Line(k * Fraction(self.vernier_covers, self.vernier), 0, _vernier_label(k, self.vernier))
            for k in range(self.vernier + 1)
            if self.vernier
        )
        thimble = (self._thimble_line(j, turned) for j in range(self.divisions))
        return MicrometerLines(
            _sleeve_lines(self),
            self._way * (setting + creep),
            tuple(sorted(thimble, key=lambda line: line.at)),
            tuple(vernier),
        )

    def _thimble_line(self, number: int, turned: Fraction) -> Line:
        half = Fraction(self.divisions, 2)
        at = (self._way * (number - turned) + half) % self.divisions - half
        return Line(at, 1 if number % 5 == 0 else 0, str(number) if number % 5 == 0 else "")

    def read_back(self, lines: MicrometerLines) -> Reading:
        """See `Construction.read_back`.

        A sleeve line at the edge of the thimble may half show before its turn is complete, or half hide after it. The
        thimble decides: just past its zero the line counts, at its last lines it does not.
        """
        line = self._thimble_number(lines.thimble)
        turns = self._turns(lines, line)
        return self._reading(turns, line, self._vernier_number(lines))

    def _thimble_number(self, thimble: Sequence[Line]) -> int:
        """The last thimble line that passed the index line, counted from a numbered one."""
        passed = sorted((line for line in thimble if self._way * line.at <= 0), key=lambda line: self._way * line.at)
        steps = next(i for i, line in enumerate(reversed(passed)) if line.label)
        return (int(passed[-1 - steps].label) + steps) % self.divisions

    def _turns(self, lines: MicrometerLines, line: int) -> int:
        """The complete turns that the sleeve shows, the lines at the edge decided by thimble line `line`."""
        sleeve = lines.sleeve
        uncovered = passed_lines(sleeve, lines.edge)
        if self.backwards:  # the last covered line is one before the first that shows
            first = counted(sleeve, 0, -self.pitch, self.label_unit)
            last = counted(sleeve, uncovered - 1, -self.pitch, self.label_unit) if uncovered else first + self.pitch
            if not (uncovered and sleeve[uncovered - 1].at == lines.edge):
                last -= self.pitch
        else:
            first = counted(sleeve, 0, self.pitch, self.label_unit)
            last = counted(sleeve, uncovered - 1, self.pitch, self.label_unit) if uncovered else first - self.pitch
        past = self._way * lines.edge - last  # how far the edge stands past that line; less than a turn
        if line > self.divisions * Fraction(3, 4) and past < self.pitch / 4:
            last -= self.pitch
        elif line < self.divisions * Fraction(1, 4) and past > self.pitch * Fraction(3, 4):
            last += self.pitch
        return (last / self.pitch).numerator

    def _vernier_number(self, lines: MicrometerLines) -> int:
        if not lines.vernier:
            return 0
        return closest(lines.vernier, lines.thimble) % self.vernier

    def level(self, setting: Fraction) -> int:
        """See `Construction.level`: near a complete turn the sleeve misleads."""
        reading = self.reading(setting)
        line = reading.part("thimble line").count
        if 0 < min(line, self.divisions - line) <= max(2, self.divisions // 16):
            return 3
        plain = not reading.part("sleeve vernier line").count if self.vernier else line % 5 == 0
        return 1 if plain and line else 2


def _vernier_label(number: int, spaces: int) -> str:
    """The last line is numbered 0 again on ten spaces; on five spaces the lines count by two."""
    return str(number % 10 if spaces == 10 else number * 10 // spaces % 10)


@lru_cache(maxsize=32)
def _sleeve_lines(scale: Micrometer) -> tuple[Line, ...]:
    """The sleeve's lines along the axis toward the thimble; they stand in falling order where it runs backwards."""
    count = (scale.greatest / scale.pitch).numerator
    lines = []
    for i in range(count + 1):
        number = i * scale.pitch / scale.label_unit
        label = str(number) if i % scale.number_every == 0 else ""
        lines.append(Line((-1 if scale.backwards else 1) * i * scale.pitch, rank_of(i, scale.ranks), label))
    return tuple(sorted(lines, key=lambda line: line.at))
