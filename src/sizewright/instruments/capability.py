"""Whether an instrument is good enough for a tolerance: the one place where an error is held against it.

Now a first stand-in: the maximum permissible error at the size, at most a quarter of the tolerance. A budget of the
whole uncertainty (error, resolution, repeatability, temperature) takes the place of `compare` and nothing else changes.
"""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from sizewright.instruments.amounts import plus, times
from sizewright.instruments.demand import Demand, demand
from sizewright.instruments.features import needs, units_of
from sizewright.instruments.model import Instrument
from sizewright.instruments.shelf import Held, held
from sizewright.resolve.characteristic import Characteristic
from sizewright.text.numbers import Number

RATIO = Decimal(4)
SHARE = Decimal("0.1")


@dataclass(frozen=True, slots=True)
class Capability:
    """What is compared, in base units (mm, degrees): `error` times `ratio` must not exceed `tolerance`.

    `error` is None where it is not known, `tolerance` where nothing sets one (then every instrument is good enough).
    """

    error: Number | None
    tolerance: Number | None
    ratio: Decimal = RATIO

    @property
    def enough(self) -> bool:
        """Whether the error is small enough."""
        if self.tolerance is None:
            return True
        return self.error is not None and times(self.error, self.ratio) <= self.tolerance


def capability(instrument: Instrument, characteristic: Characteristic) -> Capability | None:
    """What is compared when `instrument` measures `characteristic`, or None where it does not reach it."""
    for feature in needs(characteristic).features:
        if feature in instrument.kind.reaches and instrument.unit in units_of(feature):
            return compare(held(instrument, feature), demand(characteristic, SHARE))
    return None


def compare(instrument: Held, ask: Demand) -> Capability:
    """What is compared for an instrument on the shelf: its permissible error at the largest size asked for."""
    error = instrument.mpe_constant
    if error is not None and instrument.mpe_slope and ask.upper is not None:
        error = plus(error, times(instrument.mpe_slope, ask.upper))
    return Capability(error, ask.tolerance)


def shortfall(instrument: Held, ask: Demand) -> Number | None:
    """How far an instrument falls short of `ask`: a figure that only orders instruments, the best has the least.

    It is the greater of resolution over resolution asked and error over error allowed, both times the same (the
    tolerance and the resolution asked), as products are exact and quick. None stands for "no reading at all".
    """
    found = compare(instrument, ask)
    if instrument.resolution is None or found.error is None:
        return None
    tolerance, asked = ask.tolerance or Decimal(1), ask.resolution or SHARE  # nothing asked, or a width of 0
    return max(times(instrument.resolution, tolerance), times(times(found.error, found.ratio), asked))
