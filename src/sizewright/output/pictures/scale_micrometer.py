"""A micrometer's sleeve and thimble, laid flat (developed), so that no line of them is foreshortened."""

from __future__ import annotations

from fractions import Fraction

from sizewright.output.pictures.scale_pen import (
    EDGE,
    FINE,
    GREY,
    LIGHT,
    LINE,
    MM_PER,
    NOTE,
    NUMBER,
    SMALL_NUMBER,
    Pen,
    times,
)
from sizewright.training.scales.figures import UNIT_WORDS, short
from sizewright.training.scales.micrometer import Micrometer, MicrometerLines
from sizewright.training.scales.model import Line

_HALF = 18.0  # paper mm of thimble shown above and below the index line
_SLEEVE_HALF = 12.5
_VERNIER_ROOM = 6.0  # paper mm of thimble and sleeve above the last vernier line
_BEVEL, _BODY = 13.0, 15.0
_BEFORE = 5.0  # paper mm of sleeve before its first line
_SHOWN = 56.0  # paper mm between the left end of the picture and the thimble at most
_LEAST = 9.0  # and at least
_LEAST_BY_VERNIER = 13.0  # where the vernier's numbers need it
_SLEEVE_LENGTHS = (3.0, 4.4, 5.8)
_THIMBLE_LENGTHS = (4.0, 6.4)
_MARGIN = 1.0
_NOTE_ROOM = 4.5


def micrometer_picture(scale: Micrometer, setting: Fraction, words: str, marked: bool = False) -> Pen:
    """The picture at `setting`; where `marked`, arrows show the lines that are read."""
    return _Picture(scale, setting, words, marked).pen


class _Picture:
    """Places on paper: along the axis from the thimble's edge leftward, and upward from the index line."""

    def __init__(self, scale: Micrometer, setting: Fraction, words: str, marked: bool) -> None:
        self.scale, self.lines = scale, scale.geometry(setting)
        per = scale.factor * MM_PER[scale.unit]
        self.size, self.division = float(per), float(scale.division_width * per)
        above = max(_HALF, float(scale.vernier and self.lines.vernier[-1].at) * self.division + _VERNIER_ROOM)
        self.above, self.below = above, _HALF
        self.sleeve_above = max(_SLEEVE_HALF, above - 3.0 if scale.vernier else 0.0)
        self.length = self._sleeve_length()
        self.pen = Pen(2 * _MARGIN + _SHOWN + _BEVEL + _BODY, 2 * _MARGIN + above + self.below + _NOTE_ROOM)
        self.pen.describe(words)
        self.left = _MARGIN + _SHOWN - self.length
        self.edge_at, self.index_at = _MARGIN + _SHOWN, _MARGIN + above
        self._sleeve_body()
        self._sleeve()
        self._thimble_body()  # it covers what goes under it, a number in part
        self._thimble()
        if marked:
            self._marks(scale, setting, self.lines)

    def _sleeve_length(self) -> float:
        """The sleeve from a little before its first line, or from a stretch that has a number on it."""
        first = float(self.lines.edge - self.lines.sleeve[0].at) * self.size + _BEFORE
        return min(max(first, _LEAST_BY_VERNIER if self.scale.vernier else _LEAST), _SHOWN)

    def _sleeve_body(self) -> None:
        pen, left, edge, index = self.pen, self.left, self.edge_at, self.index_at
        top, bottom = index - self.sleeve_above, index + _SLEEVE_HALF
        pen.box(left, top, edge, bottom, LIGHT, 0)
        pen.line((left, top), (edge, top), EDGE)
        pen.line((left, bottom), (edge, bottom), EDGE)
        pen.line((left, index), (edge, index), LINE)
        if left > _MARGIN:  # the sleeve comes out of the frame
            pen.line((left, top), (left, bottom), EDGE)

    def _thimble_body(self) -> None:
        pen, edge, index = self.pen, self.edge_at, self.index_at
        upper, lower = index - self.above, index + self.below
        pen.box(edge, upper, edge + _BEVEL, lower, "#ffffff")
        pen.box(edge + _BEVEL, upper, edge + _BEVEL + _BODY, lower, GREY)
        value = short(self.scale, self.scale.reading_value)
        pen.text(value, (edge + _BEVEL + _BODY / 2, index - 2), SMALL_NUMBER)
        pen.text(UNIT_WORDS[self.scale.unit], (edge + _BEVEL + _BODY / 2, index + 2), SMALL_NUMBER)
        pen.text(times(self.scale.factor), (pen.width - _MARGIN, pen.height - 2.2), NOTE, "end")

    def _sleeve(self) -> None:
        """Whole lines on one side of the index line, half lines on the other where the sleeve is made so."""
        half_width = float(self.scale.line_width) * self.size / 2
        for line in self.lines.sleeve:
            at = self.edge_at - float(self.lines.edge - line.at) * self.size
            left, right = at - half_width, min(at + half_width, self.edge_at)
            if left < self.left or left >= self.edge_at:
                continue
            up = -1 if self._whole_above(line) else 1
            end = self.index_at + up * _SLEEVE_LENGTHS[min(line.rank, 2)]
            self.pen.box(left, min(self.index_at, end), right, max(self.index_at, end), "#000000", 0)
            if line.label and at - 0.32 * len(line.label) * NUMBER >= self.left:
                self.pen.text(line.label, (at, end + up * 2.2), NUMBER)
        for line in self.lines.vernier:
            at = self.index_at - float(line.at) * self.division
            self.pen.line((self.edge_at - 7.0, at), (self.edge_at, at), FINE)
            lift = 0.0 if line.at else 0.95  # the number of the index line stands above it
            self.pen.text(line.label, (self.edge_at - 8.6, at - lift), NOTE)

    def _whole_above(self, line: Line) -> bool:
        return self.scale.split and line.rank > 0

    def _thimble(self) -> None:
        edge = self.edge_at
        for line in self.lines.thimble:
            at = float(line.at) * self.division
            if not -self.below + 0.6 <= at <= self.above - 0.6:
                continue
            height = self.index_at - at
            self.pen.line((edge, height), (edge + _THIMBLE_LENGTHS[line.rank], height), FINE)
            if line.label and -self.below + 2 <= at <= self.above - 2:
                self.pen.text(line.label, (edge + _THIMBLE_LENGTHS[1] + 0.6, height), NUMBER, "start")

    def _marks(self, scale: Micrometer, setting: Fraction, lines: MicrometerLines) -> None:
        reading = scale.reading(setting)
        way = -1 if scale.backwards else 1
        main = self.edge_at - float(lines.edge - way * reading.part("sleeve line").value) * self.size
        if _MARGIN < main < self.edge_at + 3:
            self.pen.arrow((main, self.index_at + _SLEEVE_HALF - 3.4), (0, -1))
        index = self.index_at
        if scale.vernier:
            index -= float(lines.vernier[reading.part("sleeve vernier line").count].at) * self.division
        self.pen.arrow((self.edge_at + _BEVEL + 0.5, index), (-1, 0))
