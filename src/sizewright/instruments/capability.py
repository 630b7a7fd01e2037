"""Whether an instrument is good enough for a tolerance: the one place where its uncertainty is held against it.

The ratio is the tolerance over twice the expanded uncertainty, T/2U: the width of the tolerance zone over the width of
the uncertainty interval (N to 1 of ASME B89.7.3.1; the measurement capability index of JCGM 106). With 4, U is an
eighth of the tolerance at most.
"""

from decimal import ROUND_FLOOR, Decimal
from typing import NamedTuple

from sizewright.instruments.amounts import decimal_of
from sizewright.instruments.demand import Demand
from sizewright.instruments.shelf import Held
from sizewright.instruments.uncertainty import expanded
from sizewright.text.numbers import Number

_TENTH = Decimal("0.1")
_HUNDREDTH = Decimal("0.01")


class Capability(NamedTuple):
    """What is compared, in base units (mm, degrees). `uncertainty` is expanded (95 %), None where it is not known;
    `tolerance` is None where nothing sets one (then every instrument is good enough)."""

    uncertainty: Decimal | None
    tolerance: Decimal | None
    asked: Decimal

    @property
    def enough(self) -> bool:
        """Whether the uncertainty is small enough."""
        if self.tolerance is None:
            return True
        return self.uncertainty is not None and reaches(self.tolerance, self.uncertainty, self.asked)

    @property
    def ratio(self) -> Decimal | None:
        """T/2U, rounded down; None where one of the two is not known."""
        return ratio_of(self.tolerance, self.uncertainty)

    @property
    def allowed(self) -> Decimal | None:
        """The expanded uncertainty that would just do."""
        return None if self.tolerance is None else self.tolerance / (2 * self.asked)


def reaches(tolerance: Number, uncertainty: Decimal, asked: Decimal) -> bool:
    """Whether T/2U is at least `asked`: compared exactly, not as it is shown."""
    return 2 * uncertainty * asked <= decimal_of(tolerance)


def ratio_of(tolerance: Number | None, uncertainty: Decimal | None) -> Decimal | None:
    """T/2U of a tolerance and an expanded uncertainty of one unit, rounded down; None where one is not known."""
    if tolerance is None or not uncertainty:
        return None
    whole = decimal_of(tolerance) / (2 * uncertainty)
    return whole.quantize(_TENTH if whole >= 1 else _HUNDREDTH, ROUND_FLOOR)


def compare(one: Held, ask: Demand) -> Capability:
    """What is compared when an instrument on the shelf measures what is asked."""
    tolerance = None if ask.tolerance is None else decimal_of(ask.tolerance)
    return Capability(expanded(one, ask), tolerance, ask.ratio)


def shortfall(one: Held, ask: Demand) -> Decimal | None:
    """How far an instrument falls short of `ask`: a figure that only orders instruments, the best has the least.

    It is the greater of resolution over resolution asked and uncertainty over uncertainty allowed, both times the same
    (the tolerance and the resolution asked). None stands for "no reading at all".
    """
    found = compare(one, ask)
    if one.resolution is None or found.uncertainty is None:
        return None
    tolerance = found.tolerance or Decimal(1)  # nothing asked, or a width of 0
    asked = decimal_of(ask.resolution) if ask.resolution else Decimal("0.1")
    return max(decimal_of(one.resolution) * tolerance, 2 * found.uncertainty * found.asked * asked)
