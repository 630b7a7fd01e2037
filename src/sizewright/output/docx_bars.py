"""Limit bars in a DOCX report: limits, the zone in which the rule accepts, and the readings, drawn as one shape.

The shape is vector text in the document itself: a picture file for each line would weigh a thousand times as much.
It reads in grey: the box is the limits, the shade is the acceptance zone, a cross marks what is not accepted.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache
from typing import NamedTuple

from sizewright.judge.model import Outcome
from sizewright.output.docx_xml import attribute
from sizewright.resolve.characteristic import Limits
from sizewright.text.numbers import Number

WIDTH, HEIGHT = 33.0, 5.0  # mm
_EMU_PER_MM = 36000
_W, _H = 1000, 150
_LEFT, _RIGHT = 200, 800  # where the lower and the upper limit stand
_TOP, _BOTTOM, _MIDDLE = 40, 110, 75
_CLEAR = 14  # how far from its limit a reading outside is drawn at least
LEGEND = (
    "In the pictures the box stands for the limits, its shaded part for the zone in which the rule accepts. Each "
    "stroke is a reading; a cross marks one that is not accepted, an arrow head one that lies beyond the picture."
)
_EXTENT = f'cx="{round(WIDTH * _EMU_PER_MM)}" cy="{round(HEIGHT * _EMU_PER_MM)}"'
_FORM = (
    '<mc:AlternateContent><mc:Choice Requires="wps"><w:drawing><wp:inline distT="0" distB="0" distL="0" distR="0">'
    f'<wp:extent {_EXTENT}/><wp:docPr id="%d" name="limit bar %d" descr="%s"/>'
    '<a:graphic xmlns:a="http://schemas.openxmlformats.org/drawingml/2006/main"><a:graphicData '
    'uri="http://schemas.microsoft.com/office/word/2010/wordprocessingShape"><wps:wsp><wps:cNvSpPr/><wps:spPr>'
    f'<a:xfrm><a:off x="0" y="0"/><a:ext {_EXTENT}/></a:xfrm><a:custGeom>'
    "<a:pathLst>%s</a:pathLst></a:custGeom>"
    '<a:solidFill><a:srgbClr val="C4C4C4"/></a:solidFill>'
    '<a:ln w="9525"><a:solidFill><a:srgbClr val="000000"/></a:solidFill></a:ln></wps:spPr><wps:bodyPr/></wps:wsp>'
    "</a:graphicData></a:graphic></wp:inline></w:drawing></mc:Choice></mc:AlternateContent>"
)
_FILLED = f'<a:path w="{_W}" h="{_H}">%s</a:path>'  # the box where all of it is shaded
_SHADE = f'<a:path w="{_W}" h="{_H}" stroke="0">%s</a:path>'
_STROKES = f'<a:path w="{_W}" h="{_H}" fill="none">%s</a:path>'
_LINE = '<a:moveTo><a:pt x="%d" y="%d"/></a:moveTo><a:lnTo><a:pt x="%d" y="%d"/></a:lnTo>'
_TICK = f'<a:moveTo><a:pt x="%d" y="8"/></a:moveTo><a:lnTo><a:pt x="%d" y="{_H - 8}"/></a:lnTo>'
_AXIS = _LINE % (0, _MIDDLE, _W, _MIDDLE)


class Scale(NamedTuple):
    """How values come to places across the picture, from `start` on, `span` for the whole of the box."""

    start: float
    span: float
    lower: bool
    upper: bool

    def place(self, value: Number) -> int:
        """Where `value` stands; it may lie outside the picture."""
        return int(_LEFT + (_RIGHT - _LEFT) * (float(value) - self.start) / self.span + 0.5)


def bar_xml(outcomes: Sequence[Outcome], words: str, identifier: int) -> str:
    """The picture of `outcomes`, which have values and share what they are limits of.

    `words` is its alternative text; `identifier` is its number in the document, which no other picture has.
    """
    scale = _scale(outcomes)
    if outcomes[0].acceptance is outcomes[0].limits and scale.lower and scale.upper:
        paths = _FILLED % _rectangle(_LEFT, _RIGHT) + _STROKES % (_AXIS + _ticks(outcomes, scale))
    else:
        paths = _shade(outcomes, scale) + _STROKES % (_AXIS + _box(scale) + _ticks(outcomes, scale))
    return _FORM % (identifier, identifier, attribute(words), paths)


def _scale(outcomes: Sequence[Outcome]) -> Scale:
    """Between two limits the box is the tolerance; with one it reaches from it past the farthest reading."""
    limits = outcomes[0].limits
    if limits.lower is not None and limits.upper is not None:
        width = float(limits.upper) - float(limits.lower)
        return Scale(float(limits.lower) - (0.5 if not width else 0), width or 1.0, True, True)
    values = [float(each.reading.value) for each in outcomes if each.reading.value is not None]
    if limits.upper is not None:
        end = float(limits.upper)
        span = max(end - min(values), abs(end) / 50, 1e-6) * 1.2
        return Scale(end - span, span, False, True)
    start = float(limits.lower) if limits.lower is not None else min(values)
    span = max(max(values) - start, abs(start) / 50, 1e-6) * 1.2
    return Scale(start, span, limits.lower is not None, False)


def _shade(outcomes: Sequence[Outcome], scale: Scale) -> str:
    """The acceptance zone, as it is for the first reading; a bonus moves it with the limits."""
    zone, limits = outcomes[0].acceptance, outcomes[0].limits
    if zone.lower is None and zone.upper is None:
        return ""
    left = _LEFT if zone.lower is None else max(_LEFT, scale.place(zone.lower))
    right = _RIGHT if zone.upper is None else min(_RIGHT, scale.place(zone.upper))
    if zone.lower == limits.lower:
        left = _LEFT
    if zone.upper == limits.upper:
        right = _RIGHT
    return _SHADE % _rectangle(left, right) if right > left else ""


@cache
def _rectangle(left: int, right: int) -> str:
    return (
        f'<a:moveTo><a:pt x="{left}" y="{_TOP}"/></a:moveTo><a:lnTo><a:pt x="{right}" y="{_TOP}"/></a:lnTo>'
        f'<a:lnTo><a:pt x="{right}" y="{_BOTTOM}"/></a:lnTo><a:lnTo><a:pt x="{left}" y="{_BOTTOM}"/></a:lnTo><a:close/>'
    )


def _box(scale: Scale) -> str:
    """The limits; where one is missing the box is open."""
    if scale.lower and scale.upper:
        return _rectangle(_LEFT, _RIGHT)
    sides = [_LINE % (_LEFT, _TOP, _RIGHT, _TOP), _LINE % (_LEFT, _BOTTOM, _RIGHT, _BOTTOM)]
    sides += [_LINE % (_LEFT, _TOP, _LEFT, _BOTTOM)] if scale.lower else []
    sides += [_LINE % (_RIGHT, _TOP, _RIGHT, _BOTTOM)] if scale.upper else []
    return "".join(sides)


def _ticks(outcomes: Sequence[Outcome], scale: Scale) -> str:
    """A stroke for each reading; readings that fall on one another share it."""
    found: dict[int, bool] = {}
    first = outcomes[0].limits
    for each in outcomes:
        place = scale.place(each.reading.value) if each.limits is first else _own_place(each, first, scale)  # type: ignore[arg-type]
        if not _LEFT + _CLEAR < place < _RIGHT - _CLEAR:
            place = _clear(each, place)
        if each.verdict != "accept":
            found[place] = True
        else:
            found.setdefault(place, False)
    return "".join([_tick(place, bad) for place, bad in found.items()])


def _tick(place: int, bad: bool) -> str:
    drawn = _TICK % (place, place) if 0 <= place <= _W else _arrow(place > 0)
    if not bad:
        return drawn
    middle = min(max(place, 14), _W - 14)
    return drawn + _LINE % (middle - 14, 0, middle + 14, 28) + _LINE % (middle - 14, 28, middle + 14, 0)


def _own_place(outcome: Outcome, first: Limits, scale: Scale) -> int:
    """Where a reading stands between its own limits: a bonus widens what the box stands for, not the box."""
    value = outcome.reading.value
    assert value is not None
    return (scale if outcome.limits == first else _scale((outcome,))).place(value)


def _clear(outcome: Outcome, place: int) -> int:
    """Where a reading near a limit is drawn: outside of it, however little it is outside, and inside if it complies."""
    value, limits = outcome.reading.value, outcome.limits
    assert value is not None
    if limits.lower is not None and value < limits.lower:
        return min(place, _LEFT - _CLEAR)
    if limits.upper is not None and value > limits.upper:
        return max(place, _RIGHT + _CLEAR)
    return place


def _arrow(rightwards: bool) -> str:
    tip, back = (_W, _W - 40) if rightwards else (0, 40)
    return _LINE % (back, _MIDDLE - 30, tip, _MIDDLE) + _LINE % (tip, _MIDDLE, back, _MIDDLE + 30)
