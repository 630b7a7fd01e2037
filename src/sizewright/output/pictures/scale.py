"""The picture of a scale at a setting: the one function that knows which kind is drawn how, and the words for it."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path
from typing import NamedTuple

from sizewright.output.atomic import write_whole
from sizewright.output.pictures.drawing import check_picture_ending, png_of, svg_of
from sizewright.output.pictures.scale_dial import dial_picture
from sizewright.output.pictures.scale_micrometer import micrometer_picture
from sizewright.output.pictures.scale_pen import DOTS_PER_INCH, Pen, times
from sizewright.output.pictures.scale_protractor import protractor_picture
from sizewright.output.pictures.scale_rule import rule_picture
from sizewright.output.pictures.scale_vernier import vernier_picture
from sizewright.output.scale_words import caption, zero_words
from sizewright.training.scales.dials import Dial
from sizewright.training.scales.exercises import Exercise
from sizewright.training.scales.explain import NAMES
from sizewright.training.scales.figures import say
from sizewright.training.scales.micrometer import Micrometer
from sizewright.training.scales.model import AnyConstruction
from sizewright.training.scales.protractor import Protractor
from sizewright.training.scales.rules import Rule
from sizewright.training.scales.vernier import Vernier


def scale_picture(
    scale: AnyConstruction, setting: Fraction, words: str, *, start: Fraction | None = None, marked: bool = False
) -> Pen:
    """The picture of `scale` at `setting`, with `words` as its description.

    `start` is where the part begins on a rule. `marked` adds arrows at the lines that are read, which is for a key
    only.

    Raises:
        InputError: the scale cannot show `setting`.
    """
    scale.check(setting)
    match scale:
        case Vernier():
            return vernier_picture(scale, setting, words, marked)
        case Micrometer():
            return micrometer_picture(scale, setting, words, marked)
        case Dial():
            return dial_picture(scale, setting, words, marked)
        case Rule():
            return rule_picture(scale, setting, start or Fraction(0), words, marked)
        case Protractor():
            return protractor_picture(scale, setting, words, marked)
    raise TypeError(type(scale))


def describe_scale(scale: AnyConstruction) -> str:
    """The picture in words that give nothing away: what instrument it is and how it is built."""
    size = "angles true" if isinstance(scale, Protractor) else times(scale.factor)
    return f"{NAMES[scale.kind]}, {scale.about}, {size}; the lines themselves have to be seen to be read"


class Picture(NamedTuple):
    """A picture and the words for those who do not see it."""

    pen: Pen
    words: str


def exercise_pictures(exercise: Exercise, key: bool = False) -> list[Picture]:
    """The scale at its reading, and at its zero reading where it has a zero error; in a `key` marked and named."""
    scale, number = exercise.scale, exercise.number
    words = f"Exercise {number}: {describe_scale(scale)}"
    zero = f"Exercise {number}, the zero reading: {describe_scale(scale)}"
    if key:
        words = f"Exercise {number}: {caption(exercise)} that reads {say(scale, exercise.reading.value)}"
        zero = f"Exercise {number}, the zero reading: {zero_words(exercise)}"
    start = exercise.zero if isinstance(scale, Rule) else None
    found = [Picture(scale_picture(scale, exercise.setting, words, start=start, marked=key), words)]
    if exercise.zero_setting is not None:
        found.append(Picture(scale_picture(scale, exercise.zero_setting, zero, marked=key), zero))
    return found


def scale_png(pen: Pen) -> bytes:
    """The picture as PNG bytes, fine enough for print."""
    return png_of(pen.drawing, DOTS_PER_INCH)


def write_scale(pen: Pen, path: Path) -> None:
    """Write the picture to `path`, whole or not at all; the ending tells the form.

    Raises:
        InputError: the ending is neither .svg nor .png.
        OutputError: the file cannot be written.
    """
    check_picture_ending(path)
    write_whole(path, svg_of(pen.drawing).encode() if path.suffix.lower() == ".svg" else scale_png(pen))
