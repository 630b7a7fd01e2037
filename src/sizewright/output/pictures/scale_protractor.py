"""A bevel protractor: the degree dial against its vernier, as two arcs. Angles are true, the arc is enlarged."""

from __future__ import annotations

from fractions import Fraction
from math import cos, radians, sin

from sizewright.output.pictures.scale_pen import EDGE, FINE, LIGHT, LINE, NOTE, NUMBER, SMALL_NUMBER, Pen
from sizewright.training.scales.model import Line
from sizewright.training.scales.protractor import Protractor

_RADIUS = 138.0  # paper mm, of the circle along which the lines meet
_DIAL, _VERNIER = 13.0, 12.0
_DIAL_LENGTHS = (4.0, 5.2, 6.4)
_VERNIER_LENGTHS = (4.0, 5.6)
_HALF, _VERNIER_HALF = 35.0, 25.5  # degrees shown to each side of the vernier's zero; and of the vernier's plate
_MARGIN = 1.0


def protractor_picture(scale: Protractor, setting: Fraction, words: str, marked: bool = False) -> Pen:
    """The picture at `setting`; where `marked`, arrows show the degree line and the line that meets."""
    half_width = (_RADIUS + _DIAL) * sin(radians(_HALF))
    lowest = _RADIUS * cos(radians(_HALF))
    pen = Pen(2 * (half_width + _MARGIN), _RADIUS + _DIAL - lowest + 2 * _MARGIN + (4 if marked else 0))
    pen.describe(words)
    lines = scale.geometry(setting)
    arc = _Arc(pen, float(setting), 4.0 if marked else 0.0)
    arc.plate(_RADIUS, _RADIUS + _DIAL, _HALF, LIGHT)
    arc.plate(_RADIUS - _VERNIER, _RADIUS, _VERNIER_HALF, "#ffffff")
    shown = [line for line in lines.main if abs(float(line.at - setting)) <= _HALF - 0.3]
    for line in shown:
        arc.line(line, _DIAL_LENGTHS[line.rank], 1, NUMBER)
    for line in lines.vernier:
        arc.line(line, _VERNIER_LENGTHS[line.rank], -1, SMALL_NUMBER)
    pen.text("angles true, arc enlarged", (pen.width / 2, pen.height - 4), NOTE)
    if marked:
        reading, way = scale.reading(setting), -1 if setting < 0 else 1
        arc.arrow(way * reading.part("main line").value, _RADIUS + _DIAL + 0.3, 1)
        meets = setting + way * reading.part("vernier line").count * Fraction(scale.covers, scale.lines)
        arc.arrow(meets, _RADIUS - _VERNIER - 0.3, -1)
    return pen


class _Arc:
    """Places on paper by angle and radius; the vernier's zero stands at the top."""

    def __init__(self, pen: Pen, zero: float, room: float) -> None:
        self.pen, self.zero = pen, zero
        self.middle = (pen.width / 2, _MARGIN + room + _RADIUS + _DIAL)

    def at(self, degrees: float, radius: float) -> tuple[float, float]:
        """A place by its angle on the dial."""
        angle = radians(degrees - self.zero)
        return self.middle[0] + radius * sin(angle), self.middle[1] - radius * cos(angle)

    def plate(self, inner: float, outer: float, half: float, fill: str) -> None:
        """A ring's sector about the vernier's zero."""
        turns = [self.zero - half + half * i / 60 for i in range(121)]
        points = [self.at(turn, outer) for turn in turns] + [self.at(turn, inner) for turn in reversed(turns)]
        self.pen.shape(points, fill, EDGE)

    def line(self, line: Line, length: float, side: int, size: float) -> None:
        """A line outward (1) or inward (-1) from the arc, with its number."""
        degrees = float(line.at)
        self.pen.line(self.at(degrees, _RADIUS), self.at(degrees, _RADIUS + side * length), LINE if side > 0 else FINE)
        if line.label:
            self.pen.text(line.label, self.at(degrees, _RADIUS + side * (length + size * 0.62 + 0.4)), size)

    def arrow(self, degrees: Fraction, radius: float, side: int) -> None:
        """An arrow that points at the arc from outside (1) or inside (-1)."""
        (x, y), (x2, y2) = self.at(float(degrees), radius), self.at(float(degrees), radius - side)
        self.pen.arrow((x, y), (x2 - x, y2 - y))
