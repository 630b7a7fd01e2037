"""The points at which an instrument is checked before use."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from typing import NamedTuple

from sizewright.instruments.model import Instrument
from sizewright.text.numbers import Number, as_decimal, finite_decimal


class CheckPoint(NamedTuple):
    """One point: its name, what it should show, between which bounds, in which unit, and how it is done."""

    point: str
    nominal: Number | None
    lower: Number | None
    upper: Number | None
    unit: str
    how: str


def check_points(instrument: Instrument, sizes: Sequence[Number]) -> tuple[CheckPoint, ...]:
    """Zero and the ends of the sizes it is used for, within its maximum permissible error; one point without a number
    where it has none."""
    if instrument.kind.attribute or instrument.mpe_constant is None:
        return (CheckPoint("as its kind is checked", None, None, None, instrument.unit, instrument.kind.field_check),)
    nominals = [Fraction(0)] if not instrument.lower else [Fraction(instrument.lower)]
    nominals += sorted({Fraction(size) for size in (min(sizes), max(sizes))} - set(nominals)) if sizes else []
    return tuple(_point(instrument, nominal) for nominal in nominals)


def _point(instrument: Instrument, nominal: Fraction) -> CheckPoint:
    error = Fraction(instrument.mpe_constant or 0) + Fraction(instrument.mpe_slope) * abs(nominal)
    bounds = [nominal - error, nominal + error]
    lower, upper = (decimal if (decimal := finite_decimal(each)) is not None else each for each in bounds)
    name = "zero" if not nominal else str(as_decimal(nominal))
    return CheckPoint(name, nominal, lower, upper, instrument.unit, instrument.kind.field_check if not nominal else "")
