"""Exercises of scale reading, drawn by a seed: the same seed gives the same ones. Plain readings come first."""

from __future__ import annotations

import random
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from hashlib import sha256
from typing import NamedTuple

from sizewright.text.errors import InputError
from sizewright.training.scales.model import AnyConstruction, Reading
from sizewright.training.scales.protractor import Protractor
from sizewright.training.scales.rules import Rule
from sizewright.training.scales.vernier import Vernier

MOST = 200
_LEVELS = 3
_TRIES = 400
_GREATEST_ERROR = 4  # reading values


class Exercise(NamedTuple):
    """One scale to read.

    `setting` is what the scale shows. `zero` is what it shows closed or on its setting piece (None: it was checked and
    reads 0); for a rule, the line at which the part begins. `nibs` is what both nibs of the inside jaws measure, None
    for an outside reading.
    """

    number: int
    scale: AnyConstruction
    setting: Fraction
    zero: Fraction | None = None
    nibs: Fraction | None = None

    @property
    def level(self) -> int:
        """How hard it is, 1 to 3."""
        return self.scale.level(self.setting)

    @property
    def reading(self) -> Reading:
        """What the scale reads."""
        return self.scale.reading(self.setting)

    @property
    def size(self) -> Fraction:
        """What was measured: the reading less the zero reading, and the nibs."""
        return self.reading.value - (self.zero or 0) + (self.nibs or 0)

    @property
    def zero_setting(self) -> Fraction | None:
        """What the zero picture shows; a protractor's zero error lies in the direction in which it is read."""
        if self.zero is None or isinstance(self.scale, Rule):
            return None
        return -self.zero if isinstance(self.scale, Protractor) and self.setting < 0 else self.zero


@dataclass(frozen=True, slots=True)
class Wish:
    """What a trainer asks for: how many exercises, of which scales, with which shares of zero errors and inside jaws.

    Shares are from 0 to 1; that of inside jaws holds for vernier calipers with nibs.
    """

    scales: tuple[AnyConstruction, ...]
    count: int
    zero_errors: Fraction = Fraction(1, 4)
    inside: Fraction = Fraction(1, 6)


def draw_exercises(wish: Wish, seed: int) -> tuple[Exercise, ...]:
    """The exercises that `seed` draws: form by form, plain readings first, corrections last within each level.

    Raises:
        InputError: there is no scale, or the count or a share is out of its range.
    """
    _check(wish)
    rng = random.Random(seed)
    drawn: list[Exercise] = []
    counts = _counts(wish)
    for position, scale in enumerate(wish.scales):
        drawn += _of_scale(rng, scale, counts[position])
    drawn = _with_zero_errors(rng, drawn, round(wish.zero_errors * len(drawn)))
    drawn = _with_nibs(rng, drawn, wish.inside)
    order = {id(scale): position for position, scale in enumerate(wish.scales)}
    drawn.sort(key=lambda each: (order[id(each.scale)], each.level, each.zero is not None, each.nibs is not None))
    return tuple(each._replace(number=number) for number, each in enumerate(drawn, start=1))


def _counts(wish: Wish) -> list[int]:
    """How many exercises each form gets: kinds take turns, so that each kind asked for comes before a second form."""
    turns: dict[str, int] = {}
    order: list[tuple[int, int]] = []
    for position, scale in enumerate(wish.scales):
        turns[scale.kind] = turns.get(scale.kind, 0) + 1
        order.append((turns[scale.kind], position))
    counts = [wish.count // len(wish.scales)] * len(wish.scales)
    for _, position in sorted(order)[: wish.count % len(wish.scales)]:
        counts[position] += 1
    return counts


def sheet_mark(exercises: Sequence[Exercise]) -> str:
    """A short mark by which a sheet and its key are told to belong together; it tells nothing of the answers."""
    content = "|".join(
        f"{each.scale.kind} {each.scale.form} {each.setting} {each.zero} {each.nibs}" for each in exercises
    )
    return sha256(content.encode()).hexdigest()[:6].upper()


def _check(wish: Wish) -> None:
    if not wish.scales:
        raise InputError("there is no scale to read")
    if not 1 <= wish.count <= MOST:
        raise InputError(f"{wish.count} exercises cannot be made; from 1 to {MOST} can")
    for share in (wish.zero_errors, wish.inside):
        if not 0 <= share <= 1:
            raise InputError("a share is a number from 0 to 1")


def _of_scale(rng: random.Random, scale: AnyConstruction, count: int) -> list[Exercise]:
    """`count` different settings, a third of each level as far as the scale has them."""
    settings: list[Fraction] = []
    for position in range(count):
        settings.append(_setting(rng, scale, 1 + position * _LEVELS // count, settings))
    return [Exercise(0, scale, setting) for setting in settings]


def _setting(rng: random.Random, scale: AnyConstruction, level: int, taken: Sequence[Fraction]) -> Fraction:
    """A setting of `level` that is not `taken`; any setting where the scale has none such."""
    found = Fraction(0)
    for _ in range(_TRIES):
        found = _any_setting(rng, scale)
        if scale.level(found) == level and found not in taken:
            break
    return found


def _any_setting(rng: random.Random, scale: AnyConstruction) -> Fraction:
    """A setting that leaves room below it for a zero error, or on a rule for a later beginning."""
    steps = (scale.greatest / scale.reading_value).numerator
    least = 3 * _GREATEST_ERROR
    if isinstance(scale, Rule):
        least = (scale.later_start / scale.reading_value).numerator + 2
    setting = rng.randint(least, steps) * scale.reading_value
    return -setting if isinstance(scale, Protractor) and rng.random() < 0.4 else setting


def _with_zero_errors(rng: random.Random, exercises: list[Exercise], count: int) -> list[Exercise]:
    chosen = set(rng.sample(range(len(exercises)), count))
    return [each._replace(zero=_zero(rng, each.scale)) if i in chosen else each for i, each in enumerate(exercises)]


def _zero(rng: random.Random, scale: AnyConstruction) -> Fraction:
    if isinstance(scale, Rule):
        return scale.later_start
    return rng.choice((-1, 1)) * rng.randint(1, _GREATEST_ERROR) * scale.reading_value


def _with_nibs(rng: random.Random, exercises: list[Exercise], share: Fraction) -> list[Exercise]:
    """Inside readings on a share of the calipers that have nibs, first on those without a zero error."""
    able = [i for i, each in enumerate(exercises) if isinstance(each.scale, Vernier) and each.scale.nib is not None]
    rng.shuffle(able)
    able.sort(key=lambda i: exercises[i].zero is not None)
    chosen = set(able[: round(share * len(able))])
    return [
        each._replace(nibs=each.scale.nib) if i in chosen and isinstance(each.scale, Vernier) else each
        for i, each in enumerate(exercises)
    ]
