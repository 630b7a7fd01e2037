"""Drawings of the principle: gauges that go into bores and slots, and the hand instruments without lines to read."""

from __future__ import annotations

from sizewright.output.pictures.scale_pen import GREY, LIGHT
from sizewright.output.pictures.sketch import Sketch


def _section(pen: Sketch, top: float, bottom: float, left: float = 8, right: float = 76) -> None:
    """A part cut open along its bore, which lies between `top` and `bottom`."""
    pen.box(left, top - 7, right, top, GREY)
    pen.box(left, bottom, right, bottom + 7, GREY)


def caliper(pen: Sketch) -> None:
    """Outer jaws on a part, knife jaws in a slot, the rod in a depth."""
    pen.box(6, 14, 80, 19, LIGHT)
    pen.gauge((12, 14), (19, 14), (19, 22), (18, 38), (15, 38), (12, 19))
    pen.gauge((34, 12), (62, 12), (62, 22), (41, 22), (38, 38), (35, 38), (34, 22))
    pen.gauge((14, 14), (17, 14), (15.5, 3))
    pen.gauge((36, 12), (39, 12), (37.5, 3))
    pen.box(18.2, 23, 34.6, 34, GREY)
    pen.note("part", 26.5, 28.5)
    pen.box(5, 3, 14.6, 10, GREY)
    pen.box(38.3, 3, 48, 10, GREY)
    pen.box(44, 14, 58, 19.5)
    pen.note("37.52", 51, 16.8)
    pen.box(80, 15.7, 83.6, 17.3)
    pen.note("outer jaws", 44, 33, "start")
    pen.note("inner jaws", 49.5, 6, "start")
    pen.note("depth rod", 82, 23, "end")
    pen.note("part near the beam", 44, 38, "start")


def micrometer(pen: Sketch) -> None:
    """The frame with anvil and spindle on a part, and the ratchet."""
    pen.gauge((8, 9), (16, 9), (16, 25), (20, 33), (30, 36), (38, 33), (41, 25), (41, 9), (50, 9), (50, 28), (44, 38),
              (30, 43), (15, 38), (8, 28))  # fmt: skip
    pen.box(16, 11, 20, 15)
    pen.box(31, 11, 41, 15)
    pen.circle((25.5, 13), 5.5, GREY)
    pen.box(50, 10, 60, 16)
    pen.gauge((60, 9.5), (62, 8), (75, 8), (75, 18), (62, 18), (60, 16.5))
    pen.box(75, 10.5, 81, 15.5, LIGHT)
    pen.note("anvil", 18, 6)
    pen.note("spindle", 36, 6)
    pen.note("thimble", 68, 5.5)
    pen.pointer((78, 26), (78, 16.5))
    pen.note("ratchet: three clicks", 82, 28, "end")
    pen.note("hold it by the", 82, 35, "end")
    pen.note("insulation of the frame", 82, 39, "end")


def inside_micrometer(pen: Sketch) -> None:
    """A rod in a bore: the largest across, the least along."""
    pen.circle((22, 22), 17, GREY)
    pen.circle((22, 22), 13, "#ffffff")
    pen.bar((9.2, 20), (34.8, 24), 2.6)
    pen.arc((22, 22), 15, -25, 30)
    pen.note("across: the largest", 22, 42)
    _section(pen, 12, 34, 46, 80)
    pen.bar((60, 12.2), (66, 33.8), 2.6)
    pen.axis((44, 23), (82, 23))
    pen.line((55.5, 14), (66, 33.8), 0.16, stroke_dasharray="1 0.8")
    pen.note("along: the least", 63, 3)


def three_point(pen: Sketch) -> None:
    """Three anvils at a third of a turn each."""
    pen.circle((24, 22), 19, GREY)
    pen.circle((24, 22), 14, "#ffffff")
    pen.circle((24, 22), 5.5, LIGHT)
    for angle in (-90, 30, 150):
        near, far = pen.turned((24, 22), angle, (5.5, 0), (13.9, 0))
        pen.bar(near, far, 3.2)
    pen.note("three anvils find", 48, 12, "start")
    pen.note("the axis by themselves", 48, 16, "start")
    pen.note("three clicks, let it centre,", 48, 24, "start")
    pen.note("three clicks again", 48, 28, "start")
    pen.note("turn by 60° and compare:", 48, 36, "start")
    pen.note("a lobed bore shows", 48, 40, "start")


def dial_bore(pen: Sketch) -> None:
    """The gauge swung in a bore; the hand turns at the smallest reading."""
    pen.box(4, 20, 10, 42, GREY)
    pen.box(32, 20, 38, 42, GREY)
    stem = pen.turned((21, 31), 12, (-1.3, -3), (1.3, -3), (1.3, -22), (-1.3, -22))
    pen.shape(stem)
    head = pen.turned((21, 31), 12, (-11.2, -1.6), (11.2, -1.6), (11.2, 1.6), (-11.2, 1.6))
    pen.shape(head)
    pen.dial((26.5, 6), 5.4, -60)
    pen.arc((21, 31), 16, -100, -60)
    pen.note("swing through", 44, 24, "start")
    pen.note("the smallest reading", 44, 28, "start")
    pen.dial((66, 12), 9, -60)
    pen.arc((66, 12), 10.6, -90, -40)
    pen.note("read where the hand", 44, 33, "start")
    pen.note("turns back", 44, 37, "start")
    pen.note("clockwise is smaller", 44, 42, "start")


def telescoping(pen: Sketch) -> None:
    """A T in a bore, swung once through the axis, then measured over."""
    pen.box(4, 8, 40, 13, GREY)
    pen.box(4, 33, 40, 38, GREY)
    pen.bar((21, 13.2), (21, 32.8), 4)
    pen.box(18.2, 18, 23.8, 28, LIGHT)
    pen.box(23.8, 22, 43, 24)
    pen.box(43, 20.5, 48, 25.5, LIGHT)
    pen.arc((21, 23), 17, -30, 30)
    pen.note("lock lightly, swing once", 24, 42)
    pen.bar((68, 12), (68, 32), 4)
    pen.box(65, 17, 71, 27, LIGHT)
    pen.box(62, 6, 74, 12)
    pen.box(62, 32, 74, 38)
    pen.note("then over it", 68, 3)
    pen.note("with a micrometer", 66, 42)


def small_hole(pen: Sketch) -> None:
    """A split ball that a cone spreads until it drags."""
    pen.box(6, 8, 16, 38, GREY)
    pen.box(32, 8, 42, 38, GREY)
    pen.circle((24, 29), 7.8, "#ffffff")
    pen.box(21.6, 4, 26.4, 23)
    pen.gauge((23.2, 4), (24.8, 4), (24.8, 24), (26.6, 31), (21.4, 31), (23.2, 24))
    pen.line((24, 31), (24, 36.7))
    pen.note("a cone opens the split ball", 47, 12, "start")
    pen.note("until it drags lightly", 47, 16, "start")
    pen.note("measure over the halves,", 47, 25, "start")
    pen.note("not over the slot", 47, 29, "start")
    pen.note("twice: both within 0.01 mm", 47, 38, "start")


def pins(pen: Sketch) -> None:
    """The pin that enters and the next that does not."""
    pen.box(6, 20, 40, 38, GREY)
    pen.box(16, 20, 30, 38)
    pen.box(16.4, 6, 29.6, 34)
    pen.note("enters", 23, 3.4)
    pen.box(46, 20, 80, 38, GREY)
    pen.box(56, 20, 70, 38)
    pen.box(55.3, 6, 70.7, 19.8)
    pen.note("does not", 63, 3.4)
    pen.span((16, 41), (30, 41))
    pen.note("the size lies between the two pins", 57, 41.5)


def feeler(pen: Sketch) -> None:
    """Leaves slid into a gap."""
    pen.box(6, 8, 46, 20, GREY)
    pen.box(6, 23, 46, 35, GREY)
    pen.box(22, 20.4, 62, 22.6)
    pen.box(60, 18, 80, 25, LIGHT)
    pen.note("0.25", 55, 17.5)
    pen.note("the largest with light drag; the next does not enter", 42, 40)
