"""What the drawings of gauges share: a canvas for a card, a part cut open, a surface plate, dimensions with arrows."""

from __future__ import annotations

from itertools import pairwise
from math import atan2, cos, degrees, hypot, pi, sin

from sizewright.output.pictures.scale_pen import EDGE, FINE, GREY, INK, LIGHT, LINE, NOTE, Pen

WIDTH, HEIGHT = 84.0, 44.0
Point = tuple[float, float]


class Sketch(Pen):
    """A pen on the canvas of a card: `WIDTH` by `HEIGHT` millimetres; a part is grey, a gauge white."""

    def __init__(self, words: str) -> None:
        """`words` say what the drawing shows."""
        super().__init__(WIDTH, HEIGHT)
        self.describe(words)

    def part(self, *points: Point) -> None:
        """A part's outline, grey."""
        self.shape(points, GREY)

    def gauge(self, *points: Point) -> None:
        """A gauge's outline, white."""
        self.shape(points)

    def note(self, words: str, x: float, y: float, anchor: str = "middle") -> None:
        """A few words."""
        self.text(words, (x, y), NOTE + 0.3, anchor)

    def plate(self, top: float = 38.0) -> None:
        """A surface plate across the canvas whose face lies at `top`."""
        self.box(2, top, WIDTH - 2, top + 4, LIGHT)

    def pointer(self, start: Point, tip: Point) -> None:
        """A line with an arrow at `tip`."""
        length = hypot(tip[0] - start[0], tip[1] - start[1])
        self.line(start, tip, LINE)
        self.arrow(tip, ((tip[0] - start[0]) / length, (tip[1] - start[1]) / length))

    def span(self, one: Point, two: Point) -> None:
        """A dimension line with an arrow at both ends."""
        middle = ((one[0] + two[0]) / 2, (one[1] + two[1]) / 2)
        self.pointer(middle, one)
        self.pointer(middle, two)

    def axis(self, one: Point, two: Point) -> None:
        """A centre line."""
        self.line(one, two, FINE, stroke_dasharray="3 0.8 0.6 0.8")

    def turned(self, centre: Point, angle: float, *points: Point) -> list[Point]:
        """`points`, given from `centre`, turned by `angle` degrees (clockwise as seen) and put at `centre`."""
        c, s = cos(angle * pi / 180), sin(angle * pi / 180)
        return [(centre[0] + x * c - y * s, centre[1] + x * s + y * c) for x, y in points]

    def bar(self, one: Point, two: Point, thick: float, fill: str = "#ffffff") -> None:
        """A bar `thick` mm wide from one point to another."""
        angle = degrees(atan2(two[1] - one[1], two[0] - one[0]))
        length, half = hypot(two[0] - one[0], two[1] - one[1]), thick / 2
        self.shape(self.turned(one, angle, (0, -half), (length, -half), (length, half), (0, half)), fill)

    def dial(self, centre: Point, radius: float, hand: float = -90) -> None:
        """A small dial whose hand points to `hand` degrees."""
        self.circle(centre, radius, "#ffffff")
        for step in range(12):
            ray = self.turned(centre, step * 30, (radius * 0.82, 0), (radius * 0.97, 0))
            self.line(ray[0], ray[1], FINE)
        (tip,) = self.turned(centre, hand, (radius * 0.75, 0))
        self.line(centre, tip, LINE)
        self.circle(centre, 0.4, INK, 0)

    def thread(
        self, left: float, base: float, turns: int, pitch: float, height: float, down: bool = True
    ) -> list[Point]:
        """The points of a thread's flanks from `left`: crests at `base`, roots `height` below (above if not `down`)."""
        sign = 1 if down else -1
        points: list[Point] = []
        for turn in range(turns):
            x = left + turn * pitch
            points += [(x, base + sign * height), (x + pitch / 2, base)]
        return [*points, (left + turns * pitch, base + sign * height)]

    def arc(self, centre: Point, radius: float, start: float, end: float, width: float = EDGE) -> None:
        """Part of a circle from `start` to `end` degrees, clockwise as seen."""
        steps = max(2, round(abs(end - start) / 3))
        points = [self.turned(centre, start + (end - start) * i / steps, (radius, 0))[0] for i in range(steps + 1)]
        for one, two in pairwise(points):
            self.line(one, two, width)
