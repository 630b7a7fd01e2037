"""A vernier caliper, height gauge or depth gauge: the beam's lines against the vernier's, at full clearness.

The lines meet at the edge between beam and slider. Calipers lie; height and depth gauges stand upright.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
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
from sizewright.training.scales.model import Line
from sizewright.training.scales.vernier import Vernier

_BEFORE, _AFTER = 13.0, 9.0  # paper mm of beam shown before the vernier's zero (at least) and after its last line
_LONGEST, _TALLEST = 178.0, 132.0  # paper mm of beam that fit a page
_SLIDER_MARGIN = 6.0
_BEAM, _SLIDER = 15.0, 14.0  # paper mm of beam and slider beside the edge between them
_MAIN_LENGTHS = (4.2, 5.6, 7.2, 8.4, 9.6)
_VERNIER_LENGTHS = (4.2, 5.4, 6.6)
_MARGIN = 1.0
_NOTES = 4.0

Place = Callable[[float, float], tuple[float, float]]  # along the beam, across it (beam negative) -> paper


def vernier_picture(scale: Vernier, setting: Fraction, words: str, marked: bool = False) -> Pen:
    """The picture at `setting`; where `marked`, arrows show the main line and the line that meets."""
    size = float(scale.factor * MM_PER[scale.unit])
    vernier_length = float(scale.lines * scale.vernier_space) * size
    before = _before(scale, setting, size, vernier_length)
    length = before + vernier_length + _AFTER
    across = _BEAM + _SLIDER + 2 * _MARGIN
    pen = Pen(across + 2 * _NOTES, length + 2 * _MARGIN + 2 * _NOTES) if scale.upright else Pen(
        length + 2 * _MARGIN, across + _NOTES + (3.5 if marked else 0)
    )  # fmt: skip
    pen.describe(words)
    place = _upright(pen) if scale.upright else _lying(3.5 if marked else 0)
    origin = float(setting) * size - before  # where the picture begins on the beam, in paper mm from its zero
    _bodies(pen, scale, place, (before, vernier_length, length), origin)
    lines = scale.geometry(setting)
    shown = [line for line in lines.main if 0 <= float(line.at) * size - origin <= length]
    _lines(pen, scale, place, [(line, float(line.at) * size - origin) for line in shown], length)
    _lines(pen, scale, place, [(line, float(line.at) * size - origin) for line in lines.vernier])
    _engraving(pen, scale, place, before, length)
    if marked:
        _marks(pen, scale, setting, place, size, origin)
    return pen


def _before(scale: Vernier, setting: Fraction, size: float, vernier_length: float) -> float:
    """How much of the beam is shown before the vernier's zero: back to the last large number where that fits."""
    number = scale.number_every * scale.space
    wanted = float(setting % number) * size + 4.0
    room = (_TALLEST if scale.upright else _LONGEST) - vernier_length - _AFTER
    return max(_BEFORE, wanted) if wanted <= room else _BEFORE


def _lying(room: float) -> Place:
    return lambda along, across: (_MARGIN + along, _MARGIN + room + _BEAM + across)


def _upright(pen: Pen) -> Place:
    """Numbers grow upward; the vernier stands to the right of the beam."""
    return lambda along, across: (_NOTES + _MARGIN + _BEAM + across, pen.height - _NOTES - _MARGIN - along)


def _bodies(pen: Pen, scale: Vernier, place: Place, lengths: tuple[float, float, float], origin: float) -> None:
    """The beam, open where it goes on, and the slider."""
    before, vernier_length, length = lengths
    begin = max(0.0, -origin - 4.0)  # the beam begins a little before its zero
    corners = [(begin, -_BEAM), (length, -_BEAM), (length, 0), (begin, 0)]
    pen.shape([place(*corner) for corner in corners], LIGHT, 0)
    pen.line(place(begin, -_BEAM), place(length, -_BEAM), EDGE)
    if begin:
        pen.line(place(begin, -_BEAM), place(begin, 0), EDGE)
    first, last = before - _SLIDER_MARGIN, before + vernier_length + _SLIDER_MARGIN
    corners = [(first, 0), (last, 0), (last, _SLIDER), (first, _SLIDER)]
    pen.shape([place(*corner) for corner in corners], "#ffffff")
    pen.line(place(begin, 0), place(length, 0), EDGE)
    if scale.kind == "depth-gauge":  # the base, on which the gauge stands
        corners = [(first - 3.5, 0.4), (first, 0.4), (first, _SLIDER + 3), (first - 3.5, _SLIDER + 3)]
        pen.shape([place(*corner) for corner in corners], GREY)


def _lines(pen: Pen, scale: Vernier, place: Place, lines: Sequence[tuple[Line, float]], beam: float = 0.0) -> None:
    """Lines from the edge outward, on a `beam` of that length or else on the slider, with their numbers."""
    side = -1 if beam else 1
    lengths = _VERNIER_LENGTHS if side > 0 else _MAIN_LENGTHS
    for line, at in lines:
        long = lengths[min(line.rank, len(lengths) - 1)]
        pen.line(place(at, 0), place(at, side * long), FINE if side > 0 else LINE)
        if not line.label:
            continue
        size = SMALL_NUMBER if line.small or side > 0 else NUMBER
        half = size * (0.4 if scale.upright else 0.32 * len(line.label))
        if beam and not half <= at <= beam - half:  # a number cut in two may be taken for another
            continue
        if scale.upright:
            pen.text(line.label, place(at, side * (long + 0.5)), size, "start" if side > 0 else "end")
        else:
            pen.text(line.label, place(at, side * (long + size * 0.62 + 0.4)), size)


def _engraving(pen: Pen, scale: Vernier, place: Place, before: float, length: float) -> None:
    """What stands on the instrument, and how large the picture is."""
    value = f"{short(scale, scale.reading_value)} {UNIT_WORDS[scale.unit]}"
    if scale.upright:
        pen.text(times(scale.factor), (pen.width / 2, pen.height - 2.2), NOTE)
        pen.text(value, place(length - _AFTER + _SLIDER_MARGIN - 2, _SLIDER / 2), NOTE)
        return
    pen.text(times(scale.factor), (pen.width - _MARGIN, pen.height - 2.2), NOTE, "end")
    pen.text(value, place(before - _SLIDER_MARGIN + 1.2, _SLIDER - 2), NOTE, "start")


def _marks(pen: Pen, scale: Vernier, setting: Fraction, place: Place, size: float, origin: float) -> None:
    reading = scale.reading(setting)
    main = float(reading.part("main line").value) * size - origin
    meets = float(setting + reading.part("vernier line").count * scale.vernier_space) * size - origin
    (x, y), (x2, y2) = place(0, 0), place(0, 1)
    direction = (x2 - x, y2 - y)
    if main >= 0:
        pen.arrow(place(main, -_BEAM + 0.3), direction)
    pen.arrow(place(meets, _SLIDER - 1.4), (-direction[0], -direction[1]))
