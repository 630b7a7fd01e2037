"""The texts of a worksheet that its forms share: title, what to know, instruments laid out, labels of boxes."""

from __future__ import annotations

from sizewright.instruments.amounts import spoken
from sizewright.instruments.model import Instrument
from sizewright.output.front import heading, title_block
from sizewright.output.safe import one_line, visible
from sizewright.resolve.describe import unit_shown
from sizewright.text.numbers import plain
from sizewright.training.answers import Asked, Exercise
from sizewright.training.worksheet import Worksheet

_LEVEL_WORDS = {"guided": "Guided worksheet", "project": "Project worksheet"}
_NOT_SHOWN = ("sampling", "made by", "date", "remark", "pieces", "lot")


def title(worksheet: Worksheet, key: bool = False) -> str:
    """What the document is called."""
    name = _LEVEL_WORDS[worksheet.level]
    return f"{f'Key to the {name.lower()}' if key else name}: {heading(worksheet.plan)}"


def drawing(worksheet: Worksheet) -> tuple[tuple[str, str], ...]:
    """The entries of the title block that a trainee needs."""
    return tuple((word, text) for word, text in title_block(worksheet.plan) if word not in _NOT_SHOWN)


def identity(worksheet: Worksheet) -> str:
    """What tells this worksheet from another of the same drawing."""
    picked = f"; lines picked: {one_line(worksheet.picked)}" if worksheet.picked else ""
    return f"Seed {worksheet.seed}: the same sheet and seed make the same worksheet{picked}."


def parts_words(worksheet: Worksheet) -> str:
    """The parts that must lie ready."""
    pieces = worksheet.pieces
    name = heading(worksheet.plan)
    count = "1 part" if pieces == 1 else f"{pieces} parts, numbered 1 to {pieces}"
    return f"{count}: {name}; the drawing itself, where there is one."


def unit_words(worksheet: Worksheet) -> str:
    """In which unit limits are given."""
    if worksheet.both:
        return (
            "Give limits in the unit of the line and in the other one, converted and rounded inward: lower limit up, "
            "upper limit down."
        )
    if worksheet.unit is not None and worksheet.unit != worksheet.plan.unit:
        word = "inches" if worksheet.unit == "inch" else "mm"
        return f"Give limits in {word}, converted and rounded inward: lower limit up, upper limit down."
    return ""


def tool_range(tool: Instrument) -> str:
    """From where to where an instrument measures."""
    return f"{plain(tool.lower)} to {spoken(tool.upper, tool.unit)}"


def tool_resolution(tool: Instrument) -> str:
    """What an instrument reads to."""
    return "shows no value" if tool.resolution is None else spoken(tool.resolution, tool.unit)


def readings_words(exercise: Exercise) -> str:
    """How many readings are taken."""
    count = len(exercise.slots)
    if count == 1:
        return "one reading"
    if exercise.pieces == 1:
        return f"{count} readings, one at each place"
    each = f"{exercise.places} on each" if exercise.places > 1 else "one on each"
    return f"{count} readings, {each} of {exercise.pieces} pieces"


def callout(exercise: Exercise) -> str:
    """The callout as typed."""
    return visible(exercise.line.callout)


def about(exercise: Exercise) -> str:
    """What is measured, where it stands, and the remark on the sheet."""
    line = exercise.line
    parts = [visible(line.description)]
    parts += [f"zone {visible(line.zone)}"] if line.zone else []
    parts += [f"view {visible(line.view)}"] if line.view else []
    parts += [visible(line.class_)] if line.class_ else []
    parts += [f"on the sheet: {one_line(line.remark)}"] if line.remark else []
    return "; ".join(parts)


def limit_labels(exercise: Exercise, both: bool) -> list[str]:
    """The labels of the boxes for limits: two for each pair, and two more in the other unit."""
    labels: list[str] = []
    for asked in exercise.asked:
        name = f"{asked.label}: " if asked.label else ""
        labels += [f"{name}lower, {unit_shown(asked.unit)}", f"{name}upper, {unit_shown(asked.unit)}"]
        if both and asked.other_unit:
            labels += [f"{name}{word}, {unit_shown(asked.other_unit)}" for word in ("lower", "upper")]
    return [label.removesuffix(", ").replace(", deg", ", degrees") for label in labels]


def row_label(asked: Asked) -> str:
    """What a row of the form is for, where a line has several."""
    return visible(asked.label)
