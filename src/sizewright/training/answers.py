"""The right answers of an exercise, from the plan: limits in the unit asked for, readings, suitable instruments."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from sizewright.instruments.capability import shortfall
from sizewright.instruments.demand import Demand, demand
from sizewright.instruments.features import needs
from sizewright.instruments.model import Instrument
from sizewright.instruments.pick import covers, enters, usable
from sizewright.instruments.shelf import Held, held
from sizewright.judge.asked import asked_limits
from sizewright.plan.model import Plan, PlanLine
from sizewright.resolve.characteristic import Characteristic, Limits, Status
from sizewright.resolve.units import OTHER_UNIT, inward
from sizewright.text.numbers import Number
from sizewright.training.skills import suggested

MOST_PIECES = 5  # a lot of 80 is an inspection, no exercise


class Asked(NamedTuple):
    """One pair of limits that is asked for: what is bounded, its side where both are asked, the limits in the unit
    asked for, and in the other unit (None where there is none). `true` are those of the line, in its own `true_unit`.

    A line without limits asks for one pair, and the right answer is that there is none.
    """

    of: str
    side: str
    limits: Limits
    unit: str
    true: Limits
    true_unit: str
    other: Limits | None = None
    other_unit: str = ""

    @property
    def label(self) -> str:
        """What is bounded, with its side where that is needed; empty for the one size of a line."""
        return f"{self.side} {self.of}".strip() if self.side or self.of not in ("size", "zone", "value", "") else ""


class Exercise(NamedTuple):
    """One line to be worked: its right answers.

    `pieces` and `places` tell how many readings are taken, `reads` the names of the limits that get one each (an empty
    name: one answer for the whole line). `resolution` is the coarsest that will do, in the unit of the line;
    `suitable` are the instruments of the crib that may be chosen.
    """

    line: PlanLine
    asked: tuple[Asked, ...]
    pieces: int
    places: int
    reads: tuple[str, ...]
    resolution: Number | None
    suitable: tuple[Held, ...]

    @property
    def made(self) -> Characteristic:
        """The characteristic, which every exercise has."""
        assert self.line.characteristic is not None
        return self.line.characteristic

    @property
    def decides(self) -> bool:
        """Whether there is something to decide."""
        return bool(self.reads)

    @property
    def untold(self) -> bool:
        """Whether nothing can be decided before the side is known."""
        return self.made.either is not None

    @property
    def slots(self) -> tuple[tuple[int, int], ...]:
        """Piece and place of every reading."""
        return tuple((piece, place) for piece in range(1, self.pieces + 1) for place in range(1, self.places + 1))


def exercises_of(plan: Plan, unit: str | None = None) -> tuple[Exercise, ...]:
    """The lines of `plan` that can be worked, with limits in `unit` (mm or inch; None: that of the line).

    Which lines are left out, and why, tells `left_out`.
    """
    return tuple(_exercise(line, plan, unit) for line in plan.lines if not _why_left_out(line))


def left_out(plan: Plan) -> tuple[tuple[str, str], ...]:
    """Numbers of the lines that are no exercise, each with the reason."""
    return tuple((line.number, why) for line in plan.lines if (why := _why_left_out(line)))


def _why_left_out(line: PlanLine) -> str:
    if line.characteristic is None:
        return f"not read: {line.unread}"
    need = needs(line.characteristic)
    return "" if need.features else need.why


def _exercise(line: PlanLine, plan: Plan, unit: str | None) -> Exercise:
    made = line.characteristic
    assert made is not None
    choice = line.choice
    return Exercise(
        line=line,
        asked=_asked(made, unit),
        pieces=min(line.pieces, MOST_PIECES),
        places=line.readings_per_piece or made.count or 1,
        reads=tuple("" if len(asked_limits(line)) == 1 else each for each in asked_limits(line)),
        resolution=_resolution(line),
        suitable=_suitable(line, plan) if line.readings_per_piece and choice is not None else (),
    )


def _asked(made: Characteristic, unit: str | None) -> tuple[Asked, ...]:
    if made.either is not None:
        sides = (("internal", made.either.internal), ("external", made.either.external))
        return tuple(_pair(each, side, made.unit, unit) for side, pairs in sides for each in pairs)
    return tuple(_pair(each, "", made.unit, unit) for each in made.limits) or (
        _pair(Limits("", None, None), "", made.unit, unit),
    )


def _pair(limits: Limits, side: str, own: str, unit: str | None) -> Asked:
    other = OTHER_UNIT.get(own, "")
    converted = inward(limits, own, other) if other else None
    foreign = own in ("mm", "inch", "um", "uin") and unit is not None and _system(own) != unit
    if foreign and converted is not None:
        return Asked(limits.of, side, converted, other, limits, own, limits, own)
    return Asked(limits.of, side, limits, own, limits, own, converted, other)


def _system(unit: str) -> str:
    return "mm" if unit in ("mm", "um") else "inch"


def _resolution(line: PlanLine) -> Number | None:
    """The resolution asked for; none where the instrument suggested shows no value."""
    choice = line.choice
    if choice is None or not line.readings_per_piece:
        return None
    if choice.instrument is not None and choice.instrument.resolution is None:
        return None
    return choice.resolution_asked


def _suitable(line: PlanLine, plan: Plan) -> tuple[Held, ...]:
    """What may be chosen: all that is good enough for a feature that may be meant, and what the plan itself names."""
    made, choice = line.characteristic, line.choice
    assert made is not None
    assert choice is not None
    ask = demand(made, plan.wish._replace(pieces=line.pieces))
    found: dict[int, Held] = {}
    for feature in needs(made).features:
        shelf = plan.crib.by_feature.get(feature, ())
        named = {id(tool) for tool in _named(line)}
        good = usable(shelf, ask) if made.status is Status.TOLERANCED else []
        good += _no_worse(shelf, named, ask) if choice.falls_short else []
        for one in [*good, *(each for each in shelf if id(each.instrument) in named)]:
            found.setdefault(id(one.instrument), one)
    for tool in _named(line):
        found.setdefault(id(tool), held(tool, needs(made).features[0]))
    return tuple(found.values())


def _no_worse(shelf: Sequence[Held], named: set[int], ask: Demand) -> list[Held]:
    """Where nothing is good enough: what measures the size at least as well as what the plan suggests."""
    reading = [(one, shortfall(one, ask)) for one in shelf if covers(one, ask) and enters(one, ask)]
    least = [short for one, short in reading if short is not None and id(one.instrument) in named]
    return [one for one, short in reading if short is not None and least and short <= max(least)]


def _named(line: PlanLine) -> tuple[Instrument, ...]:
    assert line.choice is not None
    return (*suggested(line), *line.choice.alternatives)
