"""How a reading comes about, step by step, in the order in which a person reads the scale."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from sizewright.training.scales.dials import Dial
from sizewright.training.scales.exercises import Exercise
from sizewright.training.scales.figures import UNIT_WORDS, figure, say, say_signed, short
from sizewright.training.scales.micrometer import Micrometer
from sizewright.training.scales.model import AnyConstruction, Part, Reading
from sizewright.training.scales.protractor import Protractor
from sizewright.training.scales.rules import Rule
from sizewright.training.scales.vernier import Vernier

NAMES = {
    "rule": "steel rule",
    "vernier-caliper": "vernier caliper",
    "height-gauge": "vernier height gauge",
    "depth-gauge": "vernier depth gauge",
    "micrometer": "outside micrometer",
    "vernier-micrometer": "outside micrometer with vernier",
    "depth-micrometer": "depth micrometer",
    "dial": "dial gauge",
    "dial-caliper": "dial caliper",
    "protractor": "bevel protractor",
}


def steps(exercise: Exercise) -> tuple[str, ...]:
    """The steps from the lines to the size, each a short sentence without its full stop."""
    scale, reading = exercise.scale, exercise.reading
    found = [_part(scale, part) for part in reading.parts]
    if isinstance(scale, Protractor):
        way = "left" if exercise.setting < 0 else "right"
        found.insert(0, f"the dial's numbers grow to the {way}: read both scales to the {way}")
    if isinstance(scale, Micrometer):
        found += _trap(scale, reading)
    if len(reading.parts) > 1:
        found.append(f"together {say(scale, reading.value)}")
    return (*found, *_corrections(exercise))


def _part(scale: AnyConstruction, part: Part) -> str:
    """One part of a reading in words."""
    value = _value(scale, part.value)
    product = f"{part.count} x {_value(scale, part.each)} = {say(scale, part.value)}"
    match part.name:
        case "main line":
            return f"main scale: the last line at or before the vernier's 0 is {value}{_inch_sum(scale, part.value)}"
        case "vernier line":
            return (
                f"vernier: line {part.count} meets: {product}" if part.count else "vernier: its 0 meets: nothing to add"
            )
        case "sleeve line":
            last = "last line covered" if isinstance(scale, Micrometer) and scale.backwards else "last line uncovered"
            return f"sleeve: the {last} is {value}{_inch_sum(scale, part.value)}"
        case "thimble line":
            where = "last past" if isinstance(scale, Micrometer) and scale.vernier else "at"
            return f"thimble: line {part.count} stands {where} the index line: {product}"
        case "sleeve vernier line":
            return (
                f"sleeve vernier: line {part.count} meets: {product}" if part.count else "sleeve vernier: its 0 meets"
            )
        case "bar line":
            return f"bar: the last line uncovered is {value}"
        case "turns":
            return f"counter: {part.count} whole turns: {product}"
        case "dial line":
            return f"dial: the hand stands at line {part.count}: {product}"
        case "rule line":
            return f"rule: the last line at or before the end of the part is {say(scale, part.value)}"
        case "between lines":
            return f"the end lies half-way to the next line: {value}"


def _value(scale: AnyConstruction, value: Fraction) -> str:
    text = short(scale, value)
    return text if scale.unit == "deg" else f"{text} {UNIT_WORDS[scale.unit]}"


def _inch_sum(scale: AnyConstruction, value: Fraction) -> str:
    """How an inch value on the line is put together: whole inches, tenths, single lines."""
    space = scale.space if isinstance(scale, Vernier) else scale.pitch if isinstance(scale, Micrometer) else None
    if scale.unit != "inch" or scale.fractional or space is None or value <= 0:
        return ""
    whole, rest = divmod(value, 1)
    tenths, rest = divmod(rest, Fraction(1, 10))
    lines = rest / space
    parts = [
        *([f"{whole}"] if whole else []),
        *([f"{tenths} x 0.1"] if tenths else []),
        *([f"{lines} x {short(scale, space)}"] if lines else []),
    ]
    return f" ({' + '.join(parts)})" if len(parts) > 1 else ""


def _trap(scale: Micrometer, reading: Reading) -> Iterator[str]:
    """What to beware of where the thimble stands near a whole turn."""
    line = reading.part("thimble line").count
    turn = _value(scale, scale.pitch)
    if line > scale.divisions * 15 // 16:
        yield f"the turn of {turn} is not complete: the next sleeve line does not count, even if it shows"
    elif line < scale.divisions // 16 + 1 and not (line == 0 and reading.value == 0):
        yield f"the turn of {turn} is just complete: the sleeve line counts, even if it is half hidden"


def _corrections(exercise: Exercise) -> Iterator[str]:
    scale, shown = exercise.scale, figure(exercise.scale, exercise.reading.value)
    if exercise.zero is not None and isinstance(scale, Rule):
        yield (
            f"the part begins at {say(scale, exercise.zero)}: {shown} - {figure(scale, exercise.zero)} = "
            f"{say(scale, exercise.reading.value - exercise.zero)}"
        )
    elif exercise.zero is not None:
        size = exercise.reading.value - exercise.zero
        signed = figure(scale, exercise.zero)
        term = f"- {signed}" if exercise.zero > 0 else f"- ({signed})"
        yield f"zero reads {say_signed(scale, exercise.zero)}{_below(exercise)}: {shown} {term} = {say(scale, size)}"
        shown = figure(scale, size)
    if exercise.nibs is not None:
        yield f"inside: add the nibs: {shown} + {figure(scale, exercise.nibs)} = {say(scale, exercise.size)}"


def _below(exercise: Exercise) -> str:
    """How a zero reading below zero is taken from the lines."""
    scale, zero = exercise.scale, exercise.zero
    if zero is None or zero >= 0:
        return ""
    if isinstance(scale, Protractor):
        return " (its 0 stands on the other side of the dial's 0)"
    if isinstance(scale, Vernier):
        line = scale.reading(zero).part("vernier line").count
        return f" (its 0 stands before the first line; line {line} of {scale.lines} meets: {scale.lines - line} short)"
    if isinstance(scale, Micrometer) and not scale.vernier:
        line = scale.reading(zero).part("thimble line").count
        return f" (thimble line {line} of {scale.divisions}: {scale.divisions - line} short of 0)"
    if isinstance(scale, Dial):
        line = scale.reading(zero).part("dial line").count
        return f" (the hand stands {scale.divisions - line} lines before 0)"
    return ""
