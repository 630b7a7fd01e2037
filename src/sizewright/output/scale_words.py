"""The words of a sheet of scales that give nothing away: titles, captions, instructions, the names of the blanks."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from sizewright.training.scales.exercises import Exercise
from sizewright.training.scales.explain import NAMES
from sizewright.training.scales.figures import say, say_signed
from sizewright.training.scales.model import AnyConstruction
from sizewright.training.scales.rules import Rule

_UNIT_WORDS = {"mm": "mm", "inch": "in", "deg": "° and ′"}


def unit_word(scale: AnyConstruction) -> str:
    """The unit in which a blank is filled."""
    return _UNIT_WORDS[scale.unit]


def sheet_title(exercises: Sequence[Exercise], key: bool) -> str:
    """`Scale reading: vernier caliper`, with `key` in front for the trainer's."""
    names = list(dict.fromkeys(NAMES[each.scale.kind] for each in exercises))
    shown = ", ".join(names) if len(names) <= 2 else "several instruments"
    return f"{'Key to scale reading' if key else 'Scale reading'}: {shown}"


def caption(exercise: Exercise) -> str:
    """What instrument an exercise shows, and what has to be known beside the picture."""
    words = NAMES[exercise.scale.kind]
    if exercise.nibs is not None:
        words += f", inside reading, both nibs together {say(exercise.scale, exercise.nibs)}"
    return words


def zero_words(exercise: Exercise) -> str:
    """The zero reading with its sign, or where the part begins on a rule; empty where there is neither. For a key."""
    if exercise.zero is None:
        return ""
    if isinstance(exercise.scale, Rule):
        return say(exercise.scale, exercise.zero)
    return say_signed(exercise.scale, exercise.zero)


def blanks(exercise: Exercise) -> tuple[str, ...]:
    """What a trainee writes down for one exercise."""
    if exercise.zero is not None and isinstance(exercise.scale, Rule):
        return ("end reads", "begins at", "length")
    found = ["reading"]
    if exercise.zero is not None:
        found += ["zero reads", "corrected"]
    if exercise.nibs is not None:
        found.append("with the nibs")
    return tuple(found)


def instructions(exercises: Sequence[Exercise]) -> Iterator[str]:
    """What to do, and only what the sheet needs."""
    yield "Read each scale as finely as it is made to be read. The reading value stands on the instrument."
    rules = [each for each in exercises if isinstance(each.scale, Rule)]
    if any(getattr(each.scale, "judged", False) for each in rules):
        yield "Where the end of a part lies between two wide lines of a rule, judge half a space."
    if any(each.zero is not None for each in rules):
        yield "Where the part begins at another line than 0, its length is the end less the beginning."
    if any(each.zero_setting is not None for each in exercises):
        yield (
            "Where a second picture shows the zero reading, write it with its sign (+ where the instrument reads too "
            "much) and correct the reading by it."
        )
    if any(each.nibs is not None for each in exercises):
        yield "For an inside reading add what both nibs measure to what the scale reads."
