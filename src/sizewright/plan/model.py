"""A plan: a sheet resolved to balloon lines, each with limits, instrument, resolution and what to record."""

from dataclasses import dataclass, field
from typing import Literal, NamedTuple

from sizewright.instruments.demand import USUAL, Wish
from sizewright.instruments.model import Choice, Instrument
from sizewright.instruments.shelf import NOTHING_OWNED, Crib
from sizewright.plan.sampling_model import Sampling
from sizewright.resolve.characteristic import Characteristic, Limits, Remark
from sizewright.resolve.describe import aim, describe
from sizewright.sheet.model import Fault, Sheet
from sizewright.text.numbers import Number


class PlanLine(NamedTuple):
    """One line of the checklist: one characteristic of one balloon.

    `number` is the balloon, with a sub-number (2.1, 2.2) where the callout asks for several characteristics.
    `characteristic` is None and `unread` tells why where the callout did not read.
    `other_limits` are its limits in `other_unit`, rounded inward: where both units are asked for, or where the callout
    is not in the drawing's unit.
    `pieces` is how many pieces the line is checked on; `sample` says where that number comes from, where it is not
    simply typed.
    """

    number: str
    balloon: int
    callout: str
    view: str
    zone: str
    class_: str | None
    remark: str
    characteristic: Characteristic | None
    choice: Choice | None
    readings_per_piece: int
    other_limits: tuple[Limits, ...] = ()
    other_unit: str | None = None
    remarks: tuple[Remark, ...] = ()
    unread: str = ""
    pieces: int = 1
    sample: str = ""

    @property
    def limits(self) -> tuple[Limits, ...]:
        """The limits of the characteristic, in its own unit."""
        return self.characteristic.limits if self.characteristic else ()

    @property
    def description(self) -> str:
        """What is to be measured, in words."""
        return describe(self.characteristic) if self.characteristic else ""

    @property
    def aim(self) -> Number | None:
        """The size to aim for: the middle of the tolerance."""
        return aim(self.limits[0]) if len(self.limits) == 1 else None


@dataclass(frozen=True, slots=True)
class Plan:
    """A whole plan.

    `title` holds the sheet's entries by word; `pieces` is how many pieces get readings: the most of any line, see
    `PlanLine.pieces`; `crib` and `wish` are what its instruments were chosen from and for; `order` is that of its
    lines.
    """

    sheet: Sheet
    title: dict[str, str]
    unit: str
    pieces: int
    lines: tuple[PlanLine, ...]
    instruments: tuple[tuple[Instrument, tuple[str, ...]], ...]
    faults: tuple[Fault, ...] = ()
    cautions: tuple[str, ...] = ()
    sampling: Sampling = field(default_factory=Sampling)
    crib: Crib = NOTHING_OWNED
    wish: Wish = USUAL
    order: Literal["balloon", "instrument"] = "balloon"
