"""What every scale has: lines, a reading with its parts, and a construction that knows both.

Places and values are exact: millimetres, inches, degrees, or parts of a turn as `Fraction`.
"""

from __future__ import annotations

from abc import ABC, abstractmethod
from bisect import bisect_left, bisect_right
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Any, Generic, Literal, NamedTuple, TypeVar

from sizewright.text.errors import InputError

Unit = Literal["mm", "inch", "deg"]
PartName = Literal[
    "main line", "vernier line", "sleeve line", "thimble line", "sleeve vernier line", "bar line", "turns", "dial line",
    "rule line", "between lines",
]  # fmt: skip
Lines = TypeVar("Lines")


class Line(NamedTuple):
    """One line of a scale: where it stands, how long it is drawn (`rank` 0 is the shortest) and its number, if any.

    `small` numbers count between the large ones, as the tenths of an inch do; only large ones tell a value alone.
    """

    at: Fraction
    rank: int = 0
    label: str = ""
    small: bool = False


@dataclass(frozen=True, slots=True)
class Part:
    """One part of a reading: `count` lines or turns worth `each`."""

    name: PartName
    count: int
    each: Fraction

    @property
    def value(self) -> Fraction:
        """What the part adds to the reading."""
        return self.count * self.each


class Reading(NamedTuple):
    """A reading as a person takes it, part by part."""

    parts: tuple[Part, ...]

    @property
    def value(self) -> Fraction:
        """The sum of the parts."""
        return sum((part.value for part in self.parts), Fraction(0))

    def part(self, name: PartName) -> Part:
        """The part called `name`; KeyError where the scale has none."""
        for part in self.parts:
            if part.name == name:
                return part
        raise KeyError(name)


@dataclass(frozen=True, kw_only=True)
class Construction(ABC, Generic[Lines]):
    """How one scale is built. Settings, ranges and reading values are in `unit`.

    `about` says the construction in a few words, `source` where it is from. `factor` is how many times its size it is
    drawn, `fractional` whether it is read in fractions of an inch, `zero_error` whether it can read a little below
    zero.
    """

    kind: str
    form: str
    unit: Unit
    reading_value: Fraction
    greatest: Fraction
    about: str
    source: str
    factor: Fraction = Fraction(1)
    fractional: bool = False
    zero_error: bool = True

    @abstractmethod
    def reading(self, setting: Fraction) -> Reading:
        """What the scale reads at `setting`, by arithmetic.

        Raises:
            InputError: `setting` lies outside the scale or on no line of it.
        """

    @abstractmethod
    def geometry(self, setting: Fraction) -> Lines:
        """Where every line stands at `setting`, whether a line meets or not."""

    @abstractmethod
    def read_back(self, lines: Lines) -> Reading:
        """What a person would read from the lines as they stand; nothing else is looked at."""

    @abstractmethod
    def level(self, setting: Fraction) -> int:
        """How hard a setting is to read: 1 plain, 2 usual, 3 where people go wrong."""

    def signed(self, setting: Fraction) -> Fraction:
        """`setting` as the reading counts it (a protractor reads the same in both directions)."""
        return setting

    def check(self, setting: Fraction) -> None:
        """Refuse a setting that the scale cannot show exactly.

        Raises:
            InputError: it lies outside the scale (a little below zero is a zero error), or between two readings.
        """
        from sizewright.training.scales.figures import say

        least = -7 * self.reading_value if self.zero_error else 0
        if not least <= self.signed(setting) <= self.greatest:
            raise InputError(f"{self.kind} {self.form} reads from 0 to {say(self, self.greatest)}")
        if (setting / self.reading_value).denominator != 1:
            raise InputError(f"{self.kind} {self.form} reads in steps of {say(self, self.reading_value)}")


AnyConstruction = Construction[Any]


def rank_of(index: int, everys: Sequence[int]) -> int:
    """How long line `index` is drawn, where every so manieth line (`everys`, rising) is longer than the ones before."""
    return sum(1 for every in everys if index % every == 0)


def counted(lines: Sequence[Line], index: int, space: Fraction, label_unit: Fraction) -> Fraction:
    """The value of `lines[index]`, counted in spaces from the nearest large number, as a person counts.

    A number on the scale is worth `label_unit` each.
    """
    steps = range(len(lines))
    nearest = next(i for step in steps for i in (index - step, index + step) if _numbered(lines, i))
    return Fraction(lines[nearest].label) * label_unit + (index - nearest) * space


def nearest_line(lines: Sequence[Line], place: Fraction) -> int:
    """The index of the line that stands nearest to `place`; `lines` stand in rising order."""
    after = bisect_left(lines, place, key=_place)
    return min((i for i in (after - 1, after) if 0 <= i < len(lines)), key=lambda i: abs(lines[i].at - place))


def passed_lines(lines: Sequence[Line], place: Fraction) -> int:
    """How many `lines`, in rising order, stand at `place` or before it."""
    return bisect_right(lines, place, key=_place)


def meeting_lines(moving: Sequence[Line], fixed: Sequence[Line]) -> tuple[int, ...]:
    """The indexes of the `moving` lines that stand exactly at a `fixed` one; both in rising order."""
    return tuple(i for i, line in enumerate(moving) if fixed[nearest_line(fixed, line.at)].at == line.at)


def closest(moving: Sequence[Line], fixed: Sequence[Line]) -> int:
    """The index of the first `moving` line that comes closest to a `fixed` one."""
    gaps = [abs(fixed[nearest_line(fixed, line.at)].at - line.at) for line in moving]
    return gaps.index(min(gaps))


def _numbered(lines: Sequence[Line], index: int) -> bool:
    return 0 <= index < len(lines) and bool(lines[index].label) and not lines[index].small


def _place(line: Line) -> Fraction:
    return line.at
