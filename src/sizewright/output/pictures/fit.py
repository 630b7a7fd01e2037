"""A picture of a fit: the zones of hole and shaft about the zero line, to scale, with deviations and extremes."""

from __future__ import annotations

from fractions import Fraction
from typing import TYPE_CHECKING

from sizewright.output.pictures.drawing import FONT
from sizewright.output.pictures.zones import Zone, Zones, figure

if TYPE_CHECKING:
    import drawsvg

WIDTH, HEIGHT = 520, 300
_TOP, _BOTTOM = 48, 268
_ZONE_WIDTH = 84
_FIRST_ZONE, _STEP = 78, 118
_EXTREMES_AT, _EXTREMES_STEP = 350, 84
_GREY, _INK = "#c8c8c8", "#000000"
_LETTERS = {"font_family": f"{FONT}, sans-serif", "fill": _INK}


def fit_picture(zones: Zones) -> drawsvg.Drawing:
    """The picture as a drawing of `WIDTH` by `HEIGHT` units: the hole hatched, the shaft grey."""
    import drawsvg

    drawing = drawsvg.Drawing(WIDTH, HEIGHT)
    drawing.append_title(describe_picture(zones))
    place = _Scale(zones)
    hatch = _hatch(drawing)
    drawing.append(drawsvg.Text(zones.title, 15, 14, 22, **_LETTERS))
    _zero_line(drawing, zones, place)
    for position, zone in enumerate(zones.zones):
        _zone(drawing, zone, _FIRST_ZONE + position * _STEP, place, hatch if zone.internal else _GREY)
    if zones.fit is not None:
        _extremes(drawing, zones, place)
    return drawing


def describe_picture(zones: Zones) -> str:
    """The picture in words, as its alternative text."""
    parts = [f"{z.name} from {figure(z.lower)} to {figure(z.upper)} {zones.fine_unit}" for z in zones.zones]
    parts += [f"{name} {figure(value).lstrip('+')} {zones.fine_unit}" for name, value in zones.extremes]
    return f"Tolerance zones of {zones.title}: {'; '.join(parts)}"


class _Scale:
    """From a deviation to a height on the picture; the zero line always lies on it."""

    def __init__(self, zones: Zones) -> None:
        bounds = [Fraction(0), *(bound for zone in zones.zones for bound in (zone.lower, zone.upper))]
        self._highest, lowest = max(bounds), min(bounds)
        self._span = (self._highest - lowest) or Fraction(1)

    def __call__(self, deviation: Fraction) -> float:
        return float(_TOP + (self._highest - deviation) / self._span * (_BOTTOM - _TOP))


def _hatch(drawing: drawsvg.Drawing) -> str:
    """Define the hatching of holes in the drawing and return how a shape refers to it."""
    import drawsvg

    pattern = drawsvg.Raw(
        '<pattern id="hatch" width="8" height="8" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">'
        '<rect width="8" height="8" fill="#ffffff"/><line x1="0" y1="0" x2="0" y2="8" stroke="#000000"/></pattern>'
    )
    drawing.append_def(pattern)
    return "url(#hatch)"


def _zero_line(drawing: drawsvg.Drawing, zones: Zones, place: _Scale) -> None:
    import drawsvg

    height = place(Fraction(0))
    drawing.append(drawsvg.Line(14, height, _EXTREMES_AT - 14, height, stroke=_INK, stroke_width=1))
    drawing.append(drawsvg.Text("0", 11, 14, height - 4, **_LETTERS))
    drawing.append(drawsvg.Text(f"deviations in {zones.fine_unit}", 10, WIDTH - 14, 22, text_anchor="end", **_LETTERS))


def _zone(drawing: drawsvg.Drawing, zone: Zone, left: float, place: _Scale, fill: str) -> None:
    import drawsvg

    top, bottom = place(zone.upper), place(zone.lower)
    height = max(bottom - top, 1)
    box = drawsvg.Rectangle(left, top, _ZONE_WIDTH, height, fill=fill, stroke=_INK, stroke_width=1.5)
    drawing.append(box)
    middle = left + _ZONE_WIDTH / 2
    drawing.append(
        drawsvg.Rectangle(middle - 5 * len(zone.name) - 2, (top + bottom) / 2 - 9, 10 * len(zone.name) + 4, 18,
                          fill="#ffffff")
    )  # fmt: skip
    drawing.append(drawsvg.Text(zone.name, 13, middle, (top + bottom) / 2 + 5, text_anchor="middle", **_LETTERS))
    for bound, at in ((zone.upper, top), (zone.lower, bottom)):
        if bound:  # the zero line has its own figure
            drawing.append(drawsvg.Text(figure(bound), 11, left - 4, at + 4, text_anchor="end", **_LETTERS))


def _extremes(drawing: drawsvg.Drawing, zones: Zones, place: _Scale) -> None:
    """Two dimension lines: hole's upper to shaft's lower limit, hole's lower to shaft's upper limit."""
    hole, shaft = zones.zones
    spans = [(hole.upper, shaft.lower), (hole.lower, shaft.upper)]
    for position, ((one, two), (name, value)) in enumerate(zip(spans, zones.extremes, strict=True)):
        at = _EXTREMES_AT + _EXTREMES_STEP * position
        _dimension(drawing, at, place(one), place(two))
        text = f"{figure(value).lstrip('+')} {zones.fine_unit}"
        middle = (place(one) + place(two)) / 2
        _label(drawing, at + 4, middle, [*name.split(), text])


def _dimension(drawing: drawsvg.Drawing, at: float, one: float, two: float) -> None:
    import drawsvg

    drawing.append(drawsvg.Line(at, one, at, two, stroke=_INK, stroke_width=1))
    for height in (one, two):
        drawing.append(drawsvg.Line(at - 4, height, at + 4, height, stroke=_INK, stroke_width=1))


def _label(drawing: drawsvg.Drawing, left: float, middle: float, lines: list[str]) -> None:
    import drawsvg

    first = min(max(middle - 6 * (len(lines) - 1), _TOP), _BOTTOM - 12 * (len(lines) - 1))
    for position, line in enumerate(lines):
        drawing.append(drawsvg.Text(line, 10, left, first + 12 * position + 3, **_LETTERS))
