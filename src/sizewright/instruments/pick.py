"""Which instrument of a shelf measures what is asked: what reaches, covers and is good enough, the simplest first.

A shelf stands in the order simplest first, and everything here keeps that order.
"""

from collections.abc import Sequence
from decimal import Decimal
from functools import cache
from typing import NamedTuple

from sizewright.instruments.capability import compare, shortfall
from sizewright.instruments.demand import Demand
from sizewright.instruments.features import ANGLE_FEATURES, GAUGE_FEATURES, OPENINGS, THREAD_FEATURES
from sizewright.instruments.kinds import kinds
from sizewright.instruments.model import Instrument, Kind
from sizewright.instruments.shelf import Held, held

_OTHERS = 4  # alternatives shown; more would be a catalogue


class Pick(NamedTuple):
    """What a shelf offers: `chosen` (None where nothing covers), whether it falls short, and the ones after it.

    `partner` measures the sizes below the range of `chosen`, where the limits lie on both sides of its lower end.
    """

    chosen: Held | None
    short: bool = False
    others: tuple[Held, ...] = ()
    partner: Held | None = None


def pick(shelf: Sequence[Held], ask: Demand) -> Pick:
    """The simplest instrument of `shelf` that is good enough; else the best of those that cover, which falls short.

    Instruments graduated in the drawing's own unit come first: nobody should convert at the bench.
    """
    own = [one for one in shelf if one.instrument.unit == ask.unit]
    found = _good(own, ask) or (_good(shelf, ask) if len(own) < len(shelf) else None)
    return found or _best_of_the_short(shelf, ask)


def usable(shelf: Sequence[Held], ask: Demand) -> list[Held]:
    """Those that cover the size, enter the opening and are good enough."""
    return [one for one in shelf if serves(one, ask)]


def serves(one: Held, ask: Demand) -> bool:
    """Whether it covers the size, enters the opening and is good enough."""
    return covers(one, ask) and enters(one, ask) and good_enough(one, ask)


def covers(one: Held, ask: Demand) -> bool:
    """Whether both limits lie inside its range; a zone or a roughness runs from zero, its limit must be inside."""
    if ask.upper is None:
        return True
    lower = ask.upper if ask.lower is None else ask.lower
    return one.lower <= lower and ask.upper <= one.upper


def enters(one: Held, ask: Demand) -> bool:
    """Whether it enters the opening at its smallest."""
    least = one.instrument.kind.least_inside
    if least is None or ask.lower is None or one.feature not in OPENINGS:
        return True
    return ask.lower >= least


def good_enough(one: Held, ask: Demand) -> bool:
    """Whether its resolution and its error will do; a gauge answers for itself where the feature is gauged."""
    if ask.tolerance is None:
        return True
    if one.limit_gauge:
        return one.feature in THREAD_FEATURES
    leaf = one.instrument.kind.attribute and one.feature in GAUGE_FEATURES
    return (leaf or fine_enough(one, ask)) and compare(one, ask).enough


def fine_enough(one: Held, ask: Demand) -> bool:
    """Whether its resolution is no coarser than what is asked."""
    if ask.resolution is None:
        return True
    return one.resolution is not None and one.resolution <= ask.resolution


def first_of_each_kind(shelf: Sequence[Held]) -> list[Held]:
    """`shelf` without the second and further instruments of a kind."""
    first: dict[str, Held] = {}
    for one in shelf:
        first.setdefault(one.instrument.kind.name, one)
    return list(first.values())


def kind_that_would_do(feature: str, ask: Demand) -> Kind | None:
    """The simplest kind of the table whose usual figures and sizes are good enough, whatever the crib holds."""
    if not ask.measurable:
        return None
    return next((one.instrument.kind for one in usable(_usual(feature), ask)), None)


def _good(shelf: Sequence[Held], ask: Demand) -> Pick | None:
    """The simplest that is good enough; two of a kind that share the range count as simple as one of them."""
    passing = _simplest(shelf, ask)
    half = next((one for one in _upper_halves(shelf, ask) if good_enough(one, ask)), None)
    if half is not None and not (passing and _order(passing[0]) <= _order(half)):
        return Pick(half, False, tuple(passing[:_OTHERS]), _lower_half(half, shelf, ask))
    return Pick(passing[0], False, tuple(passing[1 : 1 + _OTHERS])) if passing else None


def _simplest(shelf: Sequence[Held], ask: Demand) -> list[Held]:
    """The first kinds that serve, as many as are shown, with the first instrument of each."""
    found: dict[str, Held] = {}
    for one in shelf:
        kind = one.instrument.kind.name
        if kind not in found and serves(one, ask):
            found[kind] = one
            if len(found) > _OTHERS:
                break
    return list(found.values())


def _order(one: Held) -> tuple[int, int]:
    return one.tier, one.instrument.kind.rank


def _best_of_the_short(shelf: Sequence[Held], ask: Demand) -> Pick:
    """The one least short; those that show no value come after all that do."""
    covering = [one for one in shelf if covers(one, ask) and enters(one, ask)] + _upper_halves(shelf, ask)
    if not covering:
        return Pick(None)
    figures = [(shortfall(one, ask), one) for one in covering]
    reading = [(short, one) for short, one in figures if short is not None]
    best = _least_short(reading, ask) if reading else covering[0]
    return Pick(best, True, partner=None if covers(best, ask) else _lower_half(best, shelf, ask))


def _least_short(figures: Sequence[tuple[Decimal, Held]], ask: Demand) -> Held:
    """The one least short; one graduated in the drawing's own unit, unless another is twice as good."""
    least = min(figures, key=lambda pair: pair[0])
    own = [pair for pair in figures if pair[1].instrument.unit == ask.unit]
    best_own = min(own, key=lambda pair: pair[0]) if own else least
    return (best_own if best_own[0] <= 2 * least[0] else least)[1]


def _upper_halves(shelf: Sequence[Held], ask: Demand) -> list[Held]:
    """Those that hold the upper limit while one of the same kind holds the lower: 25 js6 needs two micrometers."""
    lower, upper = ask.lower, ask.upper
    if upper is None or lower is None:
        return []
    above = [one for one in shelf if lower < one.lower <= upper <= one.upper and enters(one, ask)]
    return [one for one in above if _lower_half(one, shelf, ask) is not None]


def _lower_half(upper: Held, shelf: Sequence[Held], ask: Demand) -> Held | None:
    """The instrument like `upper` whose range holds the lower limit and meets the range of `upper`."""
    if ask.lower is None:
        return None
    for one in shelf:
        alike = one.instrument.kind is upper.instrument.kind and one.instrument.unit == upper.instrument.unit
        if alike and one.resolution == upper.resolution and one.lower <= ask.lower and upper.lower <= one.upper:
            return one
    return None


@cache
def _usual(feature: str) -> tuple[Held, ...]:
    """Every kind that reaches `feature` with its usual figures, simplest first."""
    found = [held(_usual_instrument(made, feature), feature) for made in kinds().values() if _counts(made, feature)]
    return tuple(sorted(found, key=_order))


def _counts(made: Kind, feature: str) -> bool:
    """Whether a kind's figures say something of `feature`: lengths do not of an angle, gauges not of what is read."""
    if feature not in made.reaches or (feature in ANGLE_FEATURES and not made.reaches <= ANGLE_FEATURES):
        return False
    return feature in GAUGE_FEATURES or not made.attribute


def _usual_instrument(made: Kind, feature: str) -> Instrument:
    unit = "deg" if feature in ANGLE_FEATURES else "mm"
    lower, slope = Decimal(0), made.mpe_slope or Decimal(0)
    return Instrument(made.name, made, unit, lower, made.greatest, made.resolution, made.mpe_constant, slope)
