"""Room for the checks of instruments before use, in the same table as the readings: one row a point."""

from __future__ import annotations

from collections.abc import Iterator

from sizewright.instruments.amounts import trimmed
from sizewright.instruments.field_check import CheckPoint
from sizewright.instruments.model import Instrument
from sizewright.output.rows import Bound, Row
from sizewright.output.safe import visible
from sizewright.output.slots import CHECK, Slot
from sizewright.plan.checks import checks_of
from sizewright.plan.model import Plan
from sizewright.resolve.describe import unit_shown
from sizewright.text.numbers import plain


def check_slots(plan: Plan) -> Iterator[Slot]:
    """The points at which the plan's instruments are tried before use, instrument by instrument."""
    for check in checks_of(plan):
        for point in check.points:
            yield Slot(_row(check.instrument, point), 1, 1, bound_of(point), name_of(check.instrument))


def bound_of(point: CheckPoint) -> Bound:
    """The limits of a point as text, under its name."""
    if point.lower is None or point.upper is None:
        return Bound(point.point, "", "")
    return Bound(point.point, plain(trimmed(point.lower)), plain(trimmed(point.upper)))


def name_of(instrument: Instrument) -> str:
    """An instrument's name with its serial, as tables of readings name it."""
    name, serial = visible(instrument.name), visible(instrument.serial)
    return f"{name} #{serial}" if serial else name


def _row(instrument: Instrument, point: CheckPoint) -> Row:
    return Row(
        number=CHECK,
        view="",
        zone="",
        class_="",
        requirement=f"check before use: {visible(point.how)}",
        characteristic="",
        standing="",
        limits=(),
        unit=unit_shown(point.unit) if point.lower is not None else "",
        other_limits=(),
        other_unit="",
        aim="",
        instrument=visible(instrument.name),
        tool=visible(instrument.name),
        resolution="",
        method="",
        by_gauge=point.lower is None,
        readings_per_piece=1,
        pieces=1,
        sample="",
        why="",
        notes=(),
    )
