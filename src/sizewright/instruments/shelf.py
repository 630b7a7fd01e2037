"""A crib sorted for choosing: figures of the instruments in base units (mm, degrees), grouped by what they reach."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal
from functools import cached_property

from sizewright.instruments.amounts import decimal_of, minus, plus, to_base
from sizewright.instruments.features import GAUGE_FEATURES, OUTER, units_of
from sizewright.instruments.model import Instrument
from sizewright.standards.expansion import UNKNOWN, Expansion, gauge_steel
from sizewright.text.numbers import Number

DIRECT, TRANSFER, GAUGE = 0, 1, 2


@dataclass(frozen=True, slots=True, eq=False)
class Held:
    """An instrument as it stands for one feature, in base units; two are never equal, so that one is found by itself.

    `tier` says what comes first whatever the rank: a direct reading, then a transfer, then a gauge without a reading
    (which comes first where the feature is judged by gauges anyway). `mpe_extra` is already in `mpe_constant`.
    """

    instrument: Instrument
    feature: str
    tier: int
    lower: Number
    upper: Number
    resolution: Number | None
    mpe_constant: Number | None
    mpe_slope: Decimal
    transfer: Decimal = Decimal(0)
    repeatability: tuple[Decimal, Decimal, str] = (Decimal(0), Decimal(1), "")
    expansion: Expansion = UNKNOWN

    @property
    def limit_gauge(self) -> bool:
        """Whether it only decides, by limits of its own."""
        return self.instrument.kind.attribute and self.resolution is None


@dataclass(frozen=True)
class Crib:
    """The instruments a shop owns, in the order of their file; `source` names the file."""

    source: str
    instruments: tuple[Instrument, ...]

    @cached_property
    def by_feature(self) -> Mapping[str, tuple[Held, ...]]:
        """The instruments that reach each feature, simplest first; made once, as a plan asks for every line."""
        shelves: dict[str, list[Held]] = {}
        for instrument in self.instruments:
            for feature in instrument.kind.reaches:
                if instrument.unit in units_of(feature):
                    shelves.setdefault(feature, []).append(held(instrument, feature))
        return {feature: tuple(sorted(shelf, key=_simplest_first)) for feature, shelf in shelves.items()}


NOTHING_OWNED = Crib("no crib", ())


def held(instrument: Instrument, feature: str) -> Held:
    """`instrument` with its figures in base units, as they are for `feature`."""
    unit, constant = instrument.unit, instrument.mpe_constant
    if constant is not None:
        constant = to_base(constant, unit)
        if isinstance(constant, Decimal) and feature not in OUTER:
            constant = plus(constant, instrument.kind.mpe_extra)
    return Held(
        instrument=instrument,
        feature=feature,
        tier=_tier(instrument, feature),
        lower=to_base(instrument.lower, unit),
        upper=to_base(instrument.upper, unit),
        resolution=None if instrument.resolution is None else to_base(instrument.resolution, unit),
        mpe_constant=constant,
        mpe_slope=instrument.mpe_slope,
        transfer=instrument.kind.transfer,
        repeatability=_repeatability(instrument),
        expansion=instrument.material or gauge_steel(),
    )


def _repeatability(instrument: Instrument) -> tuple[Decimal, Decimal, str]:
    """The shop's own figure, or that of the kind, known to a quarter: 8 degrees of freedom (JCGM 100, G.4.2)."""
    own = instrument.repeatability
    if own is not None:
        spread = decimal_of(to_base(own.spread, instrument.unit))
        return spread, Decimal(own.readings - 1), f"{own.readings} repeated readings"
    usual = instrument.kind.repeatability
    return Decimal(0) if usual is None else decimal_of(usual), Decimal(8), "a trained hand (common practice)"


def _simplest_first(one: Held) -> tuple[int, int, Number, Number]:
    """Tier, rank, coarser resolution, smaller range."""
    nothing = minus(one.lower, one.lower)
    fineness = nothing if one.resolution is None else minus(nothing, one.resolution)
    return one.tier, one.instrument.kind.rank, fineness, minus(one.upper, one.lower)


def _tier(instrument: Instrument, feature: str) -> int:
    if instrument.kind.attribute:
        return DIRECT if feature in GAUGE_FEATURES else GAUGE
    return DIRECT if instrument.kind.direct else TRANSFER
