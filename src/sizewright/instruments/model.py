"""Instruments, their kinds, and what was chosen for a line."""

from datetime import date
from decimal import Decimal
from typing import NamedTuple

from sizewright.instruments.budget_model import Budget
from sizewright.standards.expansion import Expansion
from sizewright.text.numbers import Number

_SHARES = {"1/2": Decimal("0.5"), "1/5": Decimal("0.2")}


class Repeatability(NamedTuple):
    """The spread (standard deviation) of `readings` repeated readings, as a shop found it."""

    spread: Decimal
    readings: int


class Kind(NamedTuple):
    """A kind of instrument: a row of the kinds table.

    `reaches` are the features it can measure (outside, inside, depth, step, angle, radius, thread, texture ...);
    `direct` is false where a size is transferred or computed; `attribute` is true where it decides or compares and
    shows no value; `least_inside` is the smallest opening it enters and `greatest` the largest size it is usually made
    for; `rank` orders kinds from the simplest on;
    `mpe_extra` comes on top of the maximum permissible error for every feature but outside ones, `transfer` is what a
    size may change while it is carried to a micrometer; `read` says how the last figure comes about (digital, vernier,
    or the part of a division that the eye judges, `1/5`); `check` is the form of its check before use;
    lengths are in mm, angles in degrees (a `Fraction`: arc minutes have no finite decimal).
    """

    name: str
    reaches: frozenset[str]
    direct: bool
    attribute: bool
    rank: int
    least_inside: Decimal | None
    greatest: Decimal
    access: str
    field_check: str
    method: str
    mistakes: str
    mpe_constant: Number | None
    mpe_slope: Decimal | None
    repeatability: Number | None
    resolution: Number | None
    source: str
    mpe_extra: Decimal = Decimal(0)
    transfer: Decimal = Decimal(0)
    read: str = ""
    check: str = "look"

    @property
    def read_share(self) -> Decimal:
        """What part of a step can be told from the next: all of it, unless the eye judges between two lines."""
        return _SHARES.get(self.read, Decimal(1))


class Instrument(NamedTuple):
    """One entry of a crib. `lower`, `upper`, `resolution` and `mpe_constant` are in `unit` (mm, inch, deg, um or uin);
    `mpe_slope` is per unit of what is measured; angles are Fractions where they have no finite decimal; `wires` are the
    diameters of the wires of a three-wire set; `repeatability` is the shop's own, in `unit`; `material` is what it is
    made of, gauge-block steel where nothing is told."""

    name: str
    kind: Kind
    unit: str
    lower: Decimal
    upper: Decimal
    resolution: Number | None
    mpe_constant: Number | None
    mpe_slope: Decimal
    owned: int = 1
    place: str = ""
    serial: str = ""
    due: date | None = None
    wires: tuple[Decimal, ...] = ()
    repeatability: Repeatability | None = None
    material: Expansion | None = None


class Choice(NamedTuple):
    """The instrument suggested for a line, with the reason.

    `instrument` is None where nothing is to be measured or the crib has nothing that reaches it;
    `falls_short` says that it is the best there is, not good enough.
    `resolution_asked` is in `unit`.

    `budgets` are the uncertainties of a reading with each instrument named, `ratio` the tolerance over twice the
    greatest expanded uncertainty (T/2U), rounded down; None where there is no reading or no tolerance.

    Where the callout does not tell the side and no instrument serves every side well, `by_side` names one for each
    feature that may be meant; `instrument` is then the first of them."""

    instrument: Instrument | None
    why: str
    unit: str
    resolution_asked: Number | None
    falls_short: bool = False
    alternatives: tuple[Instrument, ...] = ()
    method: str = ""
    advice: str = ""
    by_side: tuple[tuple[str, Instrument], ...] = ()
    budgets: tuple[tuple[Instrument, Budget], ...] = ()
    ratio: Decimal | None = None

    @property
    def budget(self) -> Budget | None:
        """The uncertainty of a reading; where several instruments may be meant, of the least sure."""
        return max((budget for _, budget in self.budgets), key=lambda one: one.unrounded, default=None)
