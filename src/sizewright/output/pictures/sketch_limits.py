"""Drawings of the principle: gauges that pass or reject, thread gauges, leaves held against a light."""

from __future__ import annotations

from sizewright.output.pictures.scale_pen import GREY, LIGHT
from sizewright.output.pictures.sketch import Sketch


def plug(pen: Sketch) -> None:
    """A long go end and a short not-go end."""
    pen.box(4, 10, 26, 15, GREY)
    pen.box(4, 29, 26, 34, GREY)
    pen.box(5, 15.3, 31, 28.7)
    pen.box(31, 18, 53, 26, LIGHT)
    pen.box(53, 14.7, 61, 29.3)
    pen.box(64, 10, 81, 15, GREY)
    pen.box(64, 29, 81, 34, GREY)
    pen.note("GO", 17, 22)
    pen.note("NOT GO", 57, 11)
    pen.note("enters over the whole length", 4, 39, "start")
    pen.note("does not enter", 81, 39, "end")


def ring(pen: Sketch) -> None:
    """A go ring over a shaft, a not-go ring that stops at its end."""
    pen.box(4, 17, 38, 27, GREY)
    for top in (8.0, 27.3):
        pen.box(12, top, 26, top + 8.7)
    pen.note("GO passes over", 20, 41)
    pen.box(58, 17, 82, 27, GREY)
    for top in (8.0, 26.7):
        pen.box(49, top, 57.8, top + 9.3)
    pen.note("NOT GO stops at the end", 63, 41)
    pen.axis((2, 22), (83, 22))


def snap(pen: Sketch) -> None:
    """Two pairs of jaws, one after the other."""
    pen.gauge((10, 5), (64, 5), (64, 11), (40, 11), (40, 10.4), (18, 10.4), (18, 33.6), (40, 33.6), (40, 33), (64, 33),
              (64, 39), (10, 39))  # fmt: skip
    pen.box(46, 11, 62, 13.2)
    pen.box(46, 31, 62, 33)
    pen.box(24, 10.4, 42, 13.8)
    pen.box(24, 30.2, 42, 33.6)
    pen.circle((72, 22), 9.2, GREY)
    pen.pointer((62, 22), (46, 22))
    pen.note("GO", 54, 8)
    pen.note("NOT GO", 31, 8)
    pen.note("by its own weight", 40, 42)


def thread_plug(pen: Sketch) -> None:
    """The go end turned in over the whole length, the not-go end by two turns at most."""
    for left, turns, right in ((6.0, 8, 30.0), (62.0, 3, 71.0)):
        upper = pen.thread(left, 13, turns, 3, 2.4)
        lower = pen.thread(left, 31, turns, 3, 2.4, down=False)
        pen.shape([*upper, (right, 22), *reversed(lower)])
    pen.box(30, 17, 62, 27, LIGHT)
    pen.note("GO", 18, 22)
    pen.note("NOT GO", 66.5, 9)
    pen.note("by hand, over the whole length", 4, 37, "start")
    pen.note("two turns at most (ISO 1502), three (ASME B1.2)", 82, 41.5, "end")


def thread_ring(pen: Sketch) -> None:
    """A ring on a screw, cut open."""
    upper, lower = pen.thread(6, 14, 20, 3, 2.4), pen.thread(6, 30, 20, 3, 2.4, down=False)
    pen.shape([*upper, (66, 22), *reversed(lower)], GREY)
    pen.gauge(*pen.thread(24, 13.6, 6, 3, 2.4), (42, 6), (24, 6))
    pen.gauge(*pen.thread(24, 30.4, 6, 3, 2.4, down=False), (42, 38), (24, 38))
    pen.axis((3, 22), (70, 22))
    pen.note("GO: by hand, whole length", 46, 8, "start")
    pen.note("NOT GO: two turns at most (ISO 1502), three (ASME B1.2)", 42, 42)


def taper_thread(pen: Sketch) -> None:
    """A tapered plug with steps against the face of the part."""
    pen.part((30, 4), (76, 4), (76, 12), (30, 9))
    pen.part((30, 40), (76, 40), (76, 32), (30, 35))
    pen.gauge((22, 8.4), (72, 12), (72, 32), (22, 35.6))
    pen.box(4, 17, 22, 27, LIGHT)
    for at in (26.5, 30.0, 33.5):
        pen.line((at, 8.8), (at, 16))
    pen.line((30, 3), (30, 41), 0.3, stroke_dasharray="1.5 1")
    pen.note("face of the part", 29, 3, "end")
    pen.note("steps", 34, 19.5, "start")
    pen.note("face between the steps", 34, 24.5, "start")


def thread_anvils(pen: Sketch) -> None:
    """A cone and a vee on a thread."""
    _screw(pen)
    pen.gauge((33.8, 2), (42.2, 2), (42.2, 7), (39.9, 7), (38, 14), (36.1, 7), (33.8, 7))
    pen.gauge((31, 42), (42, 42), (42, 35), (39.4, 35), (36.5, 30.4), (33.6, 35), (31, 35))
    pen.note("cone", 31, 5, "end")
    pen.note("vee", 29, 40, "end")
    pen.note("both for this pitch", 46, 5, "start")
    pen.span((72, 14.2), (72, 29.8))
    pen.note("pitch", 74, 20.5, "start")
    pen.note("dia.", 74, 24.5, "start")


def three_wires(pen: Sketch) -> None:
    """Two wires on one side, one opposite, flat faces over them."""
    _screw(pen)
    pen.circle((32, 11.2), 2.1, "#ffffff")
    pen.circle((38, 11.2), 2.1, "#ffffff")
    pen.circle((35, 32.8), 2.1, "#ffffff")
    pen.box(26, 3, 44, 9)
    pen.box(28, 35, 42, 41)
    pen.span((74, 9), (74, 35))
    for height in (9, 35):
        pen.line((44, height), (77, height), 0.16)
    pen.note("over", 76, 20, "start")
    pen.note("wires", 76, 24, "start")
    pen.note("two wires", 24, 6, "end")
    pen.note("one opposite", 26, 39, "end")


def _screw(pen: Sketch) -> None:
    upper, lower = pen.thread(8, 11.5, 10, 6, 5.2), pen.thread(5, 32.5, 11, 6, 5.2, down=False)
    pen.shape([*upper, (71, 22), *reversed(lower)], GREY)
    pen.axis((4, 22), (73, 22))


def pitch_gauge(pen: Sketch) -> None:
    """A toothed leaf along a thread, no light between."""
    pen.part(*pen.thread(6, 22, 12, 4.5, 3.9), (60, 38), (6, 38))
    pen.gauge((15, 12), *pen.thread(15, 21.4, 6, 4.5, 3.9), (42, 12))
    pen.shape([(42, 12), (66, 6), (66, 14), (42, 20)], LIGHT)
    pen.note("1.5", 28, 16)
    pen.note("no light along the whole leaf", 6, 42, "start")
    pen.note("case", 70, 10, "start")


def radius_leaf(pen: Sketch) -> None:
    """A leaf that fits and one that shows light at the ends or in the middle."""
    for left, radius, off, half, words in (
        (4.0, 18.0, 0.0, 40, "fits"),
        (32.0, 12.0, 8.7, 60, "leaf too small"),
        (60.0, 28.0, -10.0, 30, "leaf too large"),
    ):
        centre = (left + 1, 36)
        pen.part(*(pen.turned(centre, -90 + 5 * i, (18, 0))[0] for i in range(19)), centre)
        (middle,) = pen.turned(centre, -45, (off, 0))
        inner = [pen.turned(middle, -45 - half + half * i / 10, (radius, 0))[0] for i in range(21)]
        pen.gauge(*inner, (left + 23, 12))
        pen.note(words, left + 11, 41)
    pen.note("against a light", 42, 5)


def comparator_plates(pen: Sketch) -> None:
    """Plates of one process beside the part, a nail drawn across the lay."""
    for number, (left, step) in enumerate(((4.0, 1.0), (22.0, 1.7), (40.0, 2.6))):
        pen.box(left, 12, left + 15, 30)
        at = left + step
        while at < left + 15:
            pen.line((at, 12), (at, 30), 0.16 + 0.05 * number)
            at += step
    pen.box(62, 10, 80, 32, GREY)
    for step in range(1, 11):
        pen.line((62 + step * 1.7, 10), (62 + step * 1.7, 32), 0.2)
    pen.pointer((23, 21), (37, 21))
    pen.pointer((63, 21), (79, 21))
    pen.note("plates of the same process", 30, 35)
    pen.note("part", 71, 35)
    pen.note("draw the nail across the marks", 42, 41)
    pen.note("0.8", 11.5, 9)
    pen.note("1.6", 29.5, 9)
    pen.note("3.2", 47.5, 9)
