"""Drawings of the principle: what stands on a surface plate, angles, texture, light and coordinates."""

from __future__ import annotations

from math import sin

from sizewright.output.pictures.scale_pen import FINE, GREY, LIGHT
from sizewright.output.pictures.sketch import Sketch


def height_gauge(pen: Sketch) -> None:
    """Base, column and scriber over a part."""
    pen.plate()
    pen.box(10, 32, 34, 38)
    pen.box(17, 3, 22, 32, LIGHT)
    pen.box(15, 12, 33, 20)
    pen.gauge((33, 16), (48, 17.6), (48, 18.6), (33, 18.6))
    pen.box(42, 18.6, 66, 38, GREY)
    pen.span((72, 18.6), (72, 38))
    pen.line((66, 18.6), (75, 18.6), FINE)
    pen.note("press here", 22, 35)
    pen.note("scriber", 40, 13.5)
    pen.note("height", 74, 28, "start")


def stacked_indicator(pen: Sketch) -> None:
    """An indicator carried from a stack of blocks to a part."""
    pen.plate()
    for top, bottom in ((18, 28), (28, 33), (33, 38)):
        pen.box(22, top, 34, bottom)
    pen.box(54, 17.4, 72, 38, GREY)
    for at, hand in ((28.0, -90.0), (63.0, -60.0)):
        pen.dial((at, 7), 5.5, hand)
        pen.line((at, 12.5), (at, 18 if at < 50 else 17.4), 0.4)
    pen.pointer((38, 7), (54, 7))
    pen.note("zero here", 20, 7, "end")
    pen.note("stack", 20, 28, "end")
    pen.note("part", 63, 28)
    pen.note("part =", 44, 20)
    pen.note("stack +", 44, 24)
    pen.note("difference", 44, 28)


def gauge_blocks(pen: Sketch) -> None:
    """A stack that is wrung together from few blocks."""
    heights = (("1.005", 3.6), ("1.3", 3.6), ("9", 9.0), ("30", 19.0))
    top = 4.0
    for words, height in heights:
        pen.box(10, top, 34, top + height)
        pen.note(words, 22, top + height / 2)
        top += height
    pen.span((40, 4), (40, top))
    pen.note("41.305 mm", 43, 22, "start")
    pen.note("last figure first; few blocks", 43, 8, "start")
    pen.note("slide, turn, press lightly:", 43, 32, "start")
    pen.note("a wrung stack clings", 43, 36, "start")


def surface_plate(pen: Sketch) -> None:
    """A plate on three feet, the datum face of a part on it."""
    pen.box(6, 24, 78, 33, LIGHT)
    for at in (14, 42, 70):
        pen.gauge((at - 2, 33), (at + 2, 33), (at + 3, 37), (at - 3, 37))
    pen.part((18, 12), (44, 12), (44, 24), (18, 24))
    pen.line((18, 24), (44, 24), 0.8)
    pen.note("datum face down", 31, 18)
    pen.note("all heights from here", 50, 14, "start")
    pen.note("three feet, level", 42, 41)
    pen.pointer((56, 17), (56, 23.6))


def square(pen: Sketch) -> None:
    """A square against an upright face; light shows what is off."""
    pen.plate()
    pen.box(10, 31, 34, 38)
    pen.box(24, 5, 30, 31)
    pen.part((30.2, 38), (32.6, 8), (54, 8), (54, 38))
    pen.pointer((44, 4), (31.8, 8))
    pen.note("light: judge it or try leaves", 46, 4.4, "start")
    pen.note("stock", 17, 35)
    pen.note("blade", 22, 18, "end")
    pen.note("part", 46, 24)
    pen.note("burrs off", 58, 34, "start")


def sine_bar(pen: Sketch) -> None:
    """Height of the stack over the distance of the rollers."""
    pen.plate()
    angle = -22.0
    low = (14.0, 35.4)
    (high,) = pen.turned(low, angle, (50, 0))
    pen.shape(pen.turned(low, angle, (-4, -6), (54, -6), (54, -2.2), (-4, -2.2)))
    pen.circle(low, 2.6, LIGHT)
    pen.circle(high, 2.6, LIGHT)
    pen.box(high[0] - 5, high[1] + 2.6, high[0] + 5, 38)
    pen.shape(pen.turned(low, angle, (12, -6), (44, -6), (44, -10 - 32 * 0.0), (12, -10)), GREY)
    pen.span((high[0] + 9, high[1] + 2.6), (high[0] + 9, 38))
    pen.note("H", high[0] + 12, 30)
    pen.note("L", 40, 31.5)
    pen.line(low, high, FINE)
    pen.arc(low, 16, angle, 0, FINE)
    pen.note("A", 28.5, 34)
    pen.note("H = L × sin A", 6, 6, "start")
    pen.note("indicator along the part", 4, 11, "start")


def protractor(pen: Sketch) -> None:
    """Head and blade on two faces."""
    pen.part((8, 38), (64, 38), (46, 14), (22, 14))
    pen.bar((66.6, 38.6), (46.4, 11.6), 2.6)
    pen.box(58, 38.2, 80, 42.6, LIGHT)
    pen.arc((64, 38), 13, 180, 233, FINE)
    pen.note("53°", 55.5, 33.5)
    pen.note("blade: no light", 58, 8, "start")
    pen.note("head", 69, 40.4)
    pen.note("over or under 90°? look first", 4, 6, "start")


def plunger(pen: Sketch) -> None:
    """The plunger square to the face, and tilted."""
    pen.plate(36)
    pen.box(4, 30, 80, 36, GREY)
    pen.dial((20, 11), 9, -40)
    pen.bar((20, 20), (20, 30), 1.6)
    pen.note("square: right", 32, 8, "start")
    pen.dial((58, 12), 8, -10)
    (start, end) = pen.turned((58, 12), 115, (8, 0), (19.6, 0))
    pen.bar(start, end, 1.6)
    pen.note("tilted:", 68, 11, "start")
    pen.note("reads more", 68, 15, "start")
    pen.note("half a turn", 23, 22, "start")
    pen.note("of preload", 23, 26, "start")


def stylus(pen: Sketch) -> None:
    """A stylus nearly flat to the face, and a steep one."""
    pen.plate(36)
    pen.box(4, 30, 80, 36, GREY)
    for at, angle in ((8.0, 12.0), (52.0, 48.0)):
        length = 22.0
        (pivot,) = pen.turned((at + 20, 29), 180 + angle, (length, 0))
        pen.line(pivot, (at + 20, 29), 0.5)
        pen.circle((at + 20, 28.9), 1.1, "#ffffff")
        pen.circle(pivot, 1.6, LIGHT)
    pen.note("within 15° of the face: right", 4, 20.5, "start")
    pen.note("steep: reads too much", 82, 4, "end")
    pen.note("true = reading × cos A", 82, 8.5, "end")
    pen.note("A", 66, 26.4)
    pen.arc((72, 29), 9, 180, 228, FINE)


def profile(pen: Sketch) -> None:
    """Run-up, five cut-offs and overrun across the lay."""
    points = [(4 + i * 0.5, 26 + 1.6 * sin(i * 0.9) + 1.1 * sin(i * 2.3)) for i in range(153)]
    pen.shape([*points, (80, 36), (4, 36)], GREY, 0.2)
    for at in range(6):
        pen.line((12 + at * 12, 18), (12 + at * 12, 36), FINE, stroke_dasharray="1 0.8")
    for at in range(5):
        pen.note(str(at + 1), 18 + at * 12, 33.5)
    pen.gauge((20, 8), (30, 8), (27, 14), (25, 24), (23, 14))
    pen.pointer((32, 10), (42, 10))
    pen.note("across the marks of the tool", 44, 10.2, "start")
    pen.note("run-up, five cut-offs, overrun", 42, 41)


def projector(pen: Sketch) -> None:
    """Lamp, part, lens and the shadow on a screen."""
    pen.circle((8, 22), 4, "#ffffff")
    pen.box(26, 18, 30, 26, GREY)
    pen.gauge((44, 12), (47, 16), (48, 22), (47, 28), (44, 32), (41, 28), (40, 22), (41, 16))
    pen.box(72, 3, 75, 41, LIGHT)
    for sign in (-1, 1):
        pen.line((12, 22 + sign * 2), (28, 22 + sign * 4), FINE)
        pen.line((28, 22 + sign * 4), (44, 22 + sign * 5), FINE)
        pen.line((44, 22 + sign * 5), (72, 22 - sign * 13), FINE)
    pen.line((71.4, 9), (71.4, 35), 1.2)
    pen.note("lamp", 8, 30)
    pen.note("part: focus its edge", 28, 38)
    pen.note("lens", 44, 8.5)
    pen.note("shadow on the screen", 69, 41.5, "end")


def coordinates(pen: Sketch) -> None:
    """A bridge with a probe on a part."""
    pen.plate(34)
    pen.gauge((14, 34), (14, 6), (70, 6), (70, 34), (66, 34), (66, 10), (18, 10), (18, 34))
    pen.box(36, 4, 44, 20, LIGHT)
    pen.line((40, 20), (40, 25), 0.5)
    pen.circle((40, 26), 1.1, "#ffffff")
    pen.part((28, 34), (28, 27.2), (52, 27.2), (52, 34))
    pen.note("qualify the ball; align; enough points for the form", 42, 41)
