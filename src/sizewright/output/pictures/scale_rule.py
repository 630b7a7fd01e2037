"""A steel rule with the edge of a part laid against it."""

from __future__ import annotations

from fractions import Fraction

from sizewright.output.pictures.scale_pen import EDGE, FINE, GREY, LIGHT, MM_PER, NOTE, NUMBER, Pen, times
from sizewright.training.scales.rules import Rule

_LENGTHS = (3.0, 4.2, 5.4, 6.6, 7.8, 9.0, 10.2)
_PART, _RULE = 10.0, 17.0
_BEYOND = 6.0  # paper mm of rule beyond its last line shown
_MARGIN = 1.0
_NOTE_ROOM = 4.5


def rule_picture(scale: Rule, setting: Fraction, start: Fraction, words: str, marked: bool = False) -> Pen:
    """The part from `start` to `setting` on the rule; where `marked`, arrows show the lines that are read."""
    size = float(scale.factor * MM_PER[scale.unit])
    length = float(scale.greatest) * size + _BEYOND
    pen = Pen(2 * _MARGIN + length, 2 * _MARGIN + _PART + _RULE + _NOTE_ROOM)
    pen.describe(words)
    lines = scale.geometry(setting, start)
    edge = _MARGIN + _PART

    def at(place: Fraction) -> float:
        return _MARGIN + float(place) * size

    pen.box(_MARGIN, edge, _MARGIN + length - 1, edge + _RULE, LIGHT, 0)
    pen.box(at(lines.start), _MARGIN + 1.5, at(lines.end), edge, GREY)
    for one, two in (
        ((_MARGIN, edge), (_MARGIN + length - 1, edge)),
        ((_MARGIN, edge + _RULE), (_MARGIN + length - 1, edge + _RULE)),
        ((_MARGIN, edge), (_MARGIN, edge + _RULE)),
    ):
        pen.line(one, two, EDGE)
    for line in lines.lines:
        long = _LENGTHS[line.rank]
        if line.at:  # the rule's end is its zero
            pen.line((at(line.at), edge), (at(line.at), edge + long), FINE)
        if line.label and line.at:
            pen.text(line.label, (at(line.at), edge + max(_LENGTHS[len(scale.ranks)], 6) + 3.0), NUMBER)
    pen.text("part", ((at(lines.start) + at(lines.end)) / 2, _MARGIN + _PART / 2 + 0.8), NOTE)
    unit = "mm" if scale.unit == "mm" else "in"
    pen.text(f"{scale.form} {unit}", (_MARGIN + 1.5, edge + _RULE - 2.0), NOTE, "start")
    pen.text(times(scale.factor), (pen.width - _MARGIN, pen.height - 2.2), NOTE, "end")
    if marked:
        for place in {lines.start, lines.end} - {Fraction(0)}:
            pen.arrow((at(place), edge + _RULE + 0.3), (0, -1))
    return pen
