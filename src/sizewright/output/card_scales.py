"""The pictures of a card: its scales with the lines that are read marked, or a drawing of its principle."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from typing import NamedTuple

from sizewright.output.pictures.gauges import drawing_of, drawing_words, has_drawing
from sizewright.output.pictures.scale import scale_picture
from sizewright.output.pictures.scale_pen import Pen
from sizewright.training.cards import Card
from sizewright.training.scales.catalogue import SCALES
from sizewright.training.scales.exercises import Exercise
from sizewright.training.scales.explain import steps
from sizewright.training.scales.figures import say
from sizewright.training.scales.model import AnyConstruction
from sizewright.training.scales.rules import Rule

# The scale that a kind carries; a thread micrometer has that of an outside micrometer.
_SCALES = {
    "steel rule": "rule",
    "tape measure": "rule",
    "dial caliper": "dial-caliper",
    "vernier caliper": "vernier-caliper",
    "vernier depth gauge": "depth-gauge",
    "vernier height gauge": "height-gauge",
    "outside micrometer": "micrometer",
    "vernier outside micrometer": "vernier-micrometer",
    "depth micrometer": "depth-micrometer",
    "thread micrometer": "micrometer",
    "plunger dial gauge": "dial",
    "bevel protractor": "protractor",
}
_ABOUT = Fraction(3, 10)  # where on the scale the example lies: a rule's and a caliper's end are no good example
_STRIDE = 7  # readings from one try to the next
_USUAL = 2  # the level beyond which a setting is a trap


class CardPicture(NamedTuple):
    """A picture with its title and what is to be said beside it, line by line; `words` are for those who do not see it.

    `width` is in mm of paper; only a `scalable` one, which is not to scale, may be given another.
    """

    pen: Pen
    title: str
    lines: tuple[str, ...]
    words: str
    width: float
    scalable: bool = False


def pictures_of(card: Card) -> tuple[CardPicture, ...]:
    """The pictures of `card`: one a scale that an item of it carries, one a unit; its principle where it has no scale.

    A kind with both gets one scale, and the drawing.
    """
    scales = [_scale_picture(card, scale) for scale in _scales_of(card)]
    drawing = _drawing(card) if has_drawing(card.kind.name) else []
    return tuple(scales[:1] + drawing if drawing else scales)


def _scales_of(card: Card) -> Iterator[AnyConstruction]:
    """The scale of the first item of each unit, where one of that reading value is known."""
    kind = _SCALES.get(card.kind.name)
    seen: set[str] = set()
    for item in card.items:
        first = item.first
        found = [
            scale
            for scale in SCALES
            if scale.kind == kind and scale.unit == first.unit and first.resolution is not None
            and Fraction(first.resolution) in (scale.reading_value, _space(scale))
        ]  # fmt: skip
        if found and first.unit not in seen:
            seen.add(first.unit)
            yield max(found, key=lambda scale: _space(scale) == first.resolution)


def _space(scale: AnyConstruction) -> Fraction:
    """The step by which a crib names a rule: its lines, though half a space is judged."""
    return scale.space if isinstance(scale, Rule) else scale.reading_value


def _scale_picture(card: Card, scale: AnyConstruction) -> CardPicture:
    exercise = Exercise(1, scale, example_setting(scale))
    reading = say(scale, exercise.reading.value)
    words = f"The scale of a {card.kind.name}, {scale.about}, that reads {reading}; arrows show the lines that are read"
    pen = scale_picture(scale, exercise.setting, words, marked=True)
    told = [each for each in steps(exercise) if not each.startswith("together")]
    return CardPicture(pen, f"Its scale: {scale.about}", (*told, f"reading: {reading}"), words, pen.width)


def example_setting(scale: AnyConstruction) -> Fraction:
    """A usual setting about a third up the scale, no trap, in which no part of the reading is 0: always the same."""
    first = int(scale.greatest * _ABOUT / scale.reading_value)
    last = int(scale.greatest / scale.reading_value)
    settings = [step * scale.reading_value for step in range(first, last, _STRIDE)]
    full = [each for each in settings if all(part.count for part in scale.reading(each).parts)]
    return next((each for each in full if scale.level(each) <= _USUAL), (full or settings)[0])


def _drawing(card: Card) -> list[CardPicture]:
    name = card.kind.name
    words = f"How a {name} works, not to scale: {drawing_words(name)}"
    pen = drawing_of(name)
    return [CardPicture(pen, "How it works, not to scale", (drawing_words(name),), words, pen.width, scalable=True)]
