"""What a characteristic asks of an instrument: the sizes it must cover and the tolerance it must resolve.

The tolerance is upper minus lower limit. Where one bound says it all (a zone, a texture), it runs from zero to that
bound. Where a bound stands alone (12.5 MAX), there is no width: ten units of its last place stand for it, at most
1 mm, 0.04 in or 1° and never more than the bound itself. That rule is common practice, and the answer says so.
"""

from dataclasses import dataclass, replace
from datetime import date
from decimal import Decimal
from fractions import Fraction
from typing import NamedTuple

from sizewright.instruments.amounts import magnitude, minus, plus, spoken, times, to_base, trimmed
from sizewright.instruments.environment import WORKSHOP, Environment
from sizewright.instruments.features import FORM_FEATURES, taper_gauged
from sizewright.resolve.characteristic import Characteristic, Limits, Status
from sizewright.text.numbers import Number

SHARE = Decimal("0.1")
RATIO = Decimal(4)
_FROM_ZERO = FORM_FEATURES | {"surface texture", "edge", "edge break"}
_MOST: dict[str, Number] = {
    "mm": Decimal(1),
    "inch": Decimal("0.04"),
    "deg": Fraction(1),
    "um": Decimal(1),
    "uin": Decimal(10),
}


@dataclass(frozen=True, slots=True, eq=False)
class Demand:
    """What is asked; two are never equal. `unit` is the characteristic's; the other numbers are in base units.

    `lower` and `upper` are the sizes to cover (None where not known), `tolerance` the width (None where nothing sets
    one), `resolution` the largest resolution that will do. `width` and `asked` are those two in `unit`; `said` names
    the width in a sentence. `measurable` is false where the unit is neither a length nor an angle (a ratio). `ratio` is
    the tolerance over twice the expanded uncertainty (T/2U) that is asked for, in the `environment`.
    """

    unit: str
    lower: Number | None
    upper: Number | None
    tolerance: Number | None = None
    resolution: Number | None = None
    width: Number | None = None
    asked: Number | None = None
    said: str = ""
    measurable: bool = True
    ratio: Decimal = RATIO
    environment: Environment = WORKSHOP


class Wish(NamedTuple):
    """What a shop asks of its instruments: a resolution of `share` of the tolerance, the tolerance `ratio` times the
    width of the uncertainty interval (T/2U); where they measure; `today`, after which an instrument that is due counts
    as overdue (None: nothing is looked at); `pieces`, how many parts get readings."""

    share: Decimal = SHARE
    ratio: Decimal = RATIO
    environment: Environment = WORKSHOP
    today: date | None = None
    pieces: int = 1


USUAL = Wish()
"""What a shop asks where nothing else is told."""


def demand(characteristic: Characteristic, wish: Wish = USUAL) -> Demand:
    """What `characteristic` asks of an instrument under `wish`."""
    return replace(_demand(characteristic, wish.share), ratio=wish.ratio, environment=wish.environment)


def _demand(characteristic: Characteristic, share: Decimal) -> Demand:
    unit = characteristic.unit
    limits = _limits(characteristic)
    lower, upper = _cover(characteristic, limits)
    found = _tolerance(characteristic, limits)
    if found is None:
        return Demand(unit, lower, upper, measurable=unit in _MOST)
    tolerance, said = found
    asked = trimmed(times(tolerance, share))
    return Demand(unit, lower, upper, to_base(tolerance, unit), to_base(asked, unit), tolerance, asked, said)


def _limits(characteristic: Characteristic) -> tuple[Limits, ...]:
    if characteristic.status is not Status.TOLERANCED:
        return ()
    if characteristic.limits or characteristic.either is None:
        return characteristic.limits
    return characteristic.either.internal + characteristic.either.external


def _cover(characteristic: Characteristic, limits: tuple[Limits, ...]) -> tuple[Number | None, Number | None]:
    """The smallest and largest size to be measured; a thread goes by its nominal size, as its gauges do."""
    if characteristic.unit not in _MOST:
        return None, None  # a ratio or a number without unit is no size that a range could cover
    nominal = characteristic.nominal
    if taper_gauged(characteristic):
        return None, None  # a pipe size is a name
    if characteristic.kind in _FROM_ZERO:
        tops = [magnitude(bound) for bound in _bounds(limits)]
        return None, to_base(max(tops), characteristic.unit) if tops else None
    if nominal is not None and (characteristic.kind == "thread" or not limits):
        bounds = [nominal]
    else:
        bounds = _sizes(limits, characteristic.unit) or ([] if nominal is None else [nominal])
    if not bounds:
        return None, None
    # The sign of an edge tells burr from undercut, not where the size lies.
    sizes = sorted(magnitude(bound) for bound in bounds)
    return to_base(sizes[0], characteristic.unit), to_base(sizes[-1], characteristic.unit)


def _sizes(limits: tuple[Limits, ...], unit: str) -> list[Number]:
    """The sizes to be measured at most and at least. Where a bound stands alone they lie on its good side, as far as
    what stands in for the tolerance: an instrument that begins at 12.5 cannot tell a size below it."""
    sizes: list[Number] = []
    for pair in limits:
        if pair.upper is not None:
            sizes += (
                [pair.upper] if pair.lower is not None else [pair.upper, minus(pair.upper, _stand_in(pair.upper, unit))]
            )
        if pair.lower is not None:
            sizes += (
                [pair.lower] if pair.upper is not None else [pair.lower, plus(pair.lower, _stand_in(pair.lower, unit))]
            )
    return sizes


def _bounds(limits: tuple[Limits, ...]) -> list[Number]:
    return [bound for pair in limits for bound in (pair.lower, pair.upper) if bound is not None]


def _tolerance(characteristic: Characteristic, limits: tuple[Limits, ...]) -> tuple[Number, str] | None:
    """The tolerance in the characteristic's unit and what to call it; None where nothing sets one."""
    unit = characteristic.unit
    if unit not in _MOST:
        return None
    measured = [pair for pair in limits if pair.of == "pitch diameter"] or list(limits)
    widths = [minus(pair.upper, pair.lower) for pair in measured if pair.lower is not None and pair.upper is not None]
    if widths:
        width = min(widths)
        return width, f"the tolerance {spoken(width, unit)}"
    bounds = _bounds(tuple(measured))
    if not bounds:
        return None
    top = measured[0].upper
    if characteristic.kind in _FROM_ZERO and top is not None and top > 0:
        return top, f"the {spoken(top, unit)} from zero to the limit"
    stand_in = _stand_in(bounds[0], unit)
    return stand_in, f"{spoken(stand_in, unit)} (a single limit has no tolerance, this stands in, common practice)"


def _stand_in(bound: Number, unit: str) -> Number:
    """Ten units of the last place of a bound that stands alone, within the most for its unit and the bound itself."""
    most = min(_MOST[unit], magnitude(bound)) if bound else _MOST[unit]
    if isinstance(bound, Fraction):
        return most
    exponent = bound.as_tuple().exponent
    if isinstance(exponent, int) and -99 < exponent < 9:
        return min(Decimal(1).scaleb(exponent + 1), most)
    return most
