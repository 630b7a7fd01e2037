"""A dial with its hand: a dial gauge with the counter of turns, or a dial caliper with its bar."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from math import cos, pi, sin

from sizewright.output.pictures.scale_pen import (
    EDGE,
    FINE,
    INK,
    LIGHT,
    LINE,
    MM_PER,
    NOTE,
    NUMBER,
    SMALL_NUMBER,
    Pen,
    times,
)
from sizewright.training.scales.dials import Dial, DialLines
from sizewright.training.scales.figures import UNIT_WORDS, short
from sizewright.training.scales.model import Line

_RADIUS = 27.0
_COUNTER = 7.0
_LENGTHS = (2.6, 3.6, 4.8)
_BAR, _BAR_LENGTHS = 12.0, (3.4, 5.0, 6.4)
_BAR_BEFORE, _SLIDER = 30.0, 56.0  # paper mm of bar shown before the slider's edge, and of the slider
_MARGIN = 1.5
_NOTE_ROOM = 4.5


def dial_picture(scale: Dial, setting: Fraction, words: str, marked: bool = False) -> Pen:
    """The picture at `setting`; where `marked`, an arrow outside the dial shows the line that is read."""
    lines = scale.geometry(setting)
    room = 4.0 if marked else 0.0
    if scale.counter:
        pen = Pen(2 * (_RADIUS + _MARGIN + room), 2 * (_RADIUS + _MARGIN + room) + _NOTE_ROOM)
        centre = (pen.width / 2, _RADIUS + _MARGIN + room)
    else:
        pen = Pen(2 * _MARGIN + _BAR_BEFORE + _SLIDER + room, 2 * (_RADIUS + _MARGIN + room) + _NOTE_ROOM)
        centre = (pen.width - _MARGIN - room - _RADIUS, _RADIUS + _MARGIN + room)
        _bar(pen, scale, lines, centre, marked)
    pen.describe(words)
    pen.circle(centre, _RADIUS, "#ffffff")
    _ring(pen, centre, _RADIUS - 0.8, lines.dial, SMALL_NUMBER)
    if scale.counter:
        _counter(pen, (centre[0], centre[1] + 10.5), lines)
    value = f"{short(scale, scale.reading_value)} {UNIT_WORDS[scale.unit]}"
    pen.text(value, (centre[0], centre[1] - 9.0), SMALL_NUMBER)
    _hand(pen, centre, lines.hand, _RADIUS - 2.2, 3.4, 0.9)
    pen.circle(centre, 1.6, INK, 0)
    if not scale.counter:
        pen.text(f"bar {times(scale.factor)}", (_MARGIN, pen.height - 2.2), NOTE, "start")
    if marked:
        x, y = _toward(lines.hand)
        pen.arrow((centre[0] + (_RADIUS + 0.4) * x, centre[1] + (_RADIUS + 0.4) * y), (-x, -y))
    return pen


def _toward(turn: Fraction) -> tuple[float, float]:
    """The direction on paper of a place on a dial, clockwise from the top."""
    angle = float(turn) * 2 * pi
    return sin(angle), -cos(angle)


def _ring(pen: Pen, centre: tuple[float, float], radius: float, lines: Sequence[Line], size: float) -> None:
    for line in lines:
        x, y = _toward(line.at)
        inner = radius - _LENGTHS[line.rank]
        pen.line(
            (centre[0] + radius * x, centre[1] + radius * y),
            (centre[0] + inner * x, centre[1] + inner * y),
            (FINE, FINE, EDGE)[line.rank],
        )
        if line.label:
            place = radius - _LENGTHS[2] - size * 0.8 - 0.2
            pen.text(line.label, (centre[0] + place * x, centre[1] + place * y), size)


def _counter(pen: Pen, centre: tuple[float, float], lines: DialLines) -> None:
    pen.circle(centre, _COUNTER, "#ffffff", FINE)
    for line in lines.counter:
        x, y = _toward(line.at)
        pen.line(
            (centre[0] + _COUNTER * x, centre[1] + _COUNTER * y),
            (centre[0] + (_COUNTER - 1.5) * x, centre[1] + (_COUNTER - 1.5) * y),
            FINE,
        )
        place = _COUNTER - 2.9
        pen.text(line.label, (centre[0] + place * x, centre[1] + place * y), 2.1)
    _hand(pen, centre, lines.counter_hand, _COUNTER - 1.2, 1.5, 0.5)
    pen.circle(centre, 0.7, INK, 0)


def _hand(pen: Pen, centre: tuple[float, float], turn: Fraction, length: float, tail: float, half_width: float) -> None:
    """A hand that runs out into a point."""
    x, y = _toward(turn)
    across = (-y * half_width, x * half_width)
    back = (centre[0] - tail * x, centre[1] - tail * y)
    tip = (centre[0] + length * x, centre[1] + length * y)
    pen.shape([(back[0] + across[0], back[1] + across[1]), tip, (back[0] - across[0], back[1] - across[1])], INK, 0)


def _bar(pen: Pen, scale: Dial, lines: DialLines, centre: tuple[float, float], marked: bool) -> None:
    """The bar goes under the slider; the slider's left edge is where it is read."""
    size = float(scale.factor * MM_PER[scale.unit])
    top, edge = centre[1] - _BAR / 2, _MARGIN + _BAR_BEFORE
    begin = max(_MARGIN, edge - float(lines.edge) * size - 4.0)
    pen.box(begin, top, edge, top + _BAR, LIGHT, 0)
    for height in (top, top + _BAR):
        pen.line((begin, height), (edge, height), EDGE)
    if begin > _MARGIN:
        pen.line((begin, top), (begin, top + _BAR), EDGE)
    for line in lines.bar:
        at = edge - float(lines.edge - line.at) * size
        if not _MARGIN <= at <= edge:
            continue
        long = _BAR_LENGTHS[line.rank]
        pen.line((at, top + _BAR), (at, top + _BAR - long), LINE)
        number = SMALL_NUMBER if line.small else NUMBER
        if line.label and at + 0.31 * number * len(line.label) < edge:
            pen.text(line.label, (at, top + _BAR - long - number * 0.62 - 0.3), number)
    pen.box(edge, centre[1] - 14, edge + _SLIDER, centre[1] + 14, "#ffffff")
    if marked:
        index = float(scale.reading(lines.edge).parts[0].value - lines.edge) * size + edge
        if index >= _MARGIN:
            pen.arrow((index, top + _BAR + 0.4), (0, -1))
