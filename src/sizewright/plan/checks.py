"""The checks before use that a plan asks for: for each of its instruments, the points over the sizes it measures."""

from collections.abc import Iterable, Iterator, Sequence
from fractions import Fraction
from typing import NamedTuple

from sizewright.instruments.amounts import MM_PER, to_base
from sizewright.instruments.field_check import CheckPoint, check_points
from sizewright.instruments.model import Instrument
from sizewright.plan.model import Plan, PlanLine
from sizewright.text.numbers import Number, finite_decimal


class Check(NamedTuple):
    """An instrument of a plan, the lines it is for, and the points at which it is tried first."""

    instrument: Instrument
    lines: tuple[str, ...]
    points: tuple[CheckPoint, ...]


def checks_of(plan: Plan) -> tuple[Check, ...]:
    """The checks of a plan's instruments, in the order first needed."""
    by_number = {line.number: line for line in plan.lines}
    return tuple(check_of(instrument, [by_number[n] for n in numbers]) for instrument, numbers in plan.instruments)


def check_of(instrument: Instrument, lines: Sequence[PlanLine]) -> Check:
    """The check of one instrument before it measures `lines`."""
    numbers = tuple(line.number for line in lines)
    return Check(instrument, numbers, check_points(instrument, list(_sizes(instrument, lines))))


def _sizes(instrument: Instrument, lines: Iterable[PlanLine]) -> Iterator[Number]:
    """The sizes that the lines ask for, in the instrument's unit; a zone counts as the reading it allows."""
    for line in lines:
        for pair in line.limits:
            for bound in (pair.lower, pair.upper):
                if bound is not None and line.characteristic is not None:
                    yield _in_unit(bound, line.characteristic.unit, instrument.unit)


def _in_unit(value: Number, unit: str, wanted: str) -> Number:
    if unit == wanted or wanted == "deg":
        return value
    exact = Fraction(to_base(value, unit)) / Fraction(MM_PER.get(wanted, 1))
    return finite_decimal(exact) or exact
