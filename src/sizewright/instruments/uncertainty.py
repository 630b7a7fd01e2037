"""The uncertainty of a measurement: a budget after the Guide to the expression of uncertainty (JCGM 100).

Every source is taken as a standard uncertainty: a rectangle's half-width over the root of 3 (JCGM 100, 4.3.7), a
triangle's over the root of 6 (4.3.9), a standard deviation as it is. They add up by their squares (5.1.2). The
effective degrees of freedom follow Welch and Satterthwaite (G.4.1), cut down to a whole number; the coverage factor is
Student's for 95 %. Where one rectangle, or two, outweigh the rest, the sum is no bell: the factor is that of the
rectangle or the trapezium (EA-4/02, examples S9 and S10, from memory).
"""

from collections.abc import Iterator, Sequence
from decimal import ROUND_CEILING, ROUND_HALF_EVEN, Context, Decimal, localcontext
from functools import cache, lru_cache
from typing import NamedTuple

from sizewright.instruments.amounts import LENGTHS, MM_PER, decimal_of
from sizewright.instruments.budget_model import Budget, Shape, Term
from sizewright.instruments.demand import USUAL, Demand, Wish, demand
from sizewright.instruments.features import needs, units_of
from sizewright.instruments.model import Instrument
from sizewright.instruments.shelf import Held, held
from sizewright.resolve.characteristic import Characteristic

COVERAGE = Decimal("0.95")
_PRECISION = 28
_ROOTS: dict[Shape, Decimal] = {
    "rectangular": Decimal(3).sqrt(),
    "triangular": Decimal(6).sqrt(),
    "arcsine": Decimal(2).sqrt(),
    "normal": Decimal(1),
}
_ROOT_3 = _ROOTS["rectangular"]
# A value of position is twice the distance from the true place (ASME Y14.5, ISO 1101), 2 sqrt(x^2 + y^2): with the same
# uncertainty u of either coordinate that of the value is 2 u.
_TWICE = Decimal(2)
_POSITION = "the value of position is twice the distance from the true place: every term of a coordinate counts twice"
_NEGLIGIBLE = Decimal("0.3")  # EA-4/02 S9.14: how much of the greatest all the others together may be
_FACTOR_STEP = Decimal("0.001")
_DEFAULT_DOF = Decimal(8)  # JCGM 100, G.4.2: what is doubtful by a quarter of itself has 8 degrees of freedom


class Source(NamedTuple):
    """One source of uncertainty before it is worked out; see `budget_model.Term`. In base units (mm, degrees, K)."""

    name: str
    stated: Decimal
    unit: str
    shape: Shape
    dof: Decimal | None
    source: str
    sensitivity: Decimal = Decimal(1)

    @property
    def standard(self) -> Decimal:
        """The standard uncertainty, in the source's own unit."""
        return self.stated / _ROOTS[self.shape]

    @property
    def contribution(self) -> Decimal:
        """What it does to the result, in the result's unit."""
        return self.standard * abs(self.sensitivity)


class Sum(NamedTuple):
    """What sources come to: combined standard uncertainty, effective degrees of freedom, coverage factor."""

    combined: Decimal
    dof: int | None
    factor: Decimal

    @property
    def expanded(self) -> Decimal:
        """The factor times the combined standard uncertainty, not rounded."""
        return self.factor * self.combined


def combine(sources: Sequence[Source]) -> Sum:
    """The sum of independent `sources`, of which there is at least one that is not nothing."""
    parts = [(source.contribution, source.dof, source.shape) for source in sources]
    variance = sum((part * part for part, _, _ in parts), Decimal(0))
    if not variance:
        return Sum(Decimal(0), None, factor_of(None))
    doubtful = sum((part**4 / dof for part, dof, _ in parts if dof is not None), Decimal(0))
    dof = _whole_below(variance * variance / doubtful) if doubtful else None
    return Sum(variance.sqrt(), dof, _flat_factor(parts, variance) or factor_of(dof))


_MANY = 10_000  # beyond, Student's factor is the normal one to every figure shown
_BY_ROUNDING = Decimal("1e-9")  # short of a whole number by less than this: the roots were rounded, it is that number


def _whole_below(dof: Decimal) -> int | None:
    """Degrees of freedom cut down to a whole number (JCGM 100, G.4.1), 1 at least; None where they are many."""
    return None if dof >= _MANY + 1 else max(1, int(dof.quantize(_BY_ROUNDING)))


@cache
def factor_of(dof: int | None) -> Decimal:
    """The coverage factor for 95 % of Student's t with `dof` degrees of freedom (None: normal), to three places."""
    from sizewright.standards.distributions import quantile

    value = quantile(float((1 + COVERAGE) / 2), dof)
    return Decimal(value).quantize(_FACTOR_STEP, ROUND_HALF_EVEN)


def _flat_factor(parts: Sequence[tuple[Decimal, Decimal | None, Shape]], variance: Decimal) -> Decimal | None:
    """The factor where one or two rectangles outweigh the rest; None where the sum may be taken for a bell."""
    ordered = sorted(parts, key=lambda part: part[0], reverse=True)
    if ordered[0][2] != "rectangular":
        return None
    first = ordered[0][0]
    if _small(variance - first * first, first * first):
        return (COVERAGE * _ROOT_3).quantize(_FACTOR_STEP, ROUND_HALF_EVEN)
    if ordered[1][2] != "rectangular":
        return None
    second = ordered[1][0]
    both = first * first + second * second
    if not _small(variance - both, both):
        return None
    ratio = (first - second) / (first + second)
    squared = ratio * ratio
    top = 1 - ((1 - COVERAGE) * (1 - squared)).sqrt()
    return (top / ((1 + squared) / 6).sqrt()).quantize(_FACTOR_STEP, ROUND_HALF_EVEN)


def _small(rest: Decimal, main: Decimal) -> bool:
    return rest <= _NEGLIGIBLE * _NEGLIGIBLE * main


def two_figures_up(value: Decimal) -> Decimal:
    """`value` with two figures, rounded up: how an expanded uncertainty is reported (JCGM 100, 7.2.6)."""
    if not value:
        return Decimal(0)
    step = Decimal(1).scaleb(value.adjusted() - 1)
    rounded = value.quantize(step, ROUND_CEILING, Context(prec=_PRECISION))
    return rounded if rounded.adjusted() == value.adjusted() else rounded.quantize(step * 10)


def sources_of(one: Held, ask: Demand) -> list[Source]:
    """The sources of a reading of `ask` by `one`; none where it shows no value or its error is not known."""
    if one.mpe_constant is None or one.resolution is None:
        return []
    return [*_own(one, ask), *_temperature(one, ask)]


def _own(one: Held, ask: Demand) -> Iterator[Source]:
    """What the instrument itself and the hand that holds it bring in, as much of it as reaches the result."""
    shown = _shown_by(one, ask)
    return (source._replace(sensitivity=_TWICE) for source in shown) if one.feature == "position" else shown


def _shown_by(one: Held, ask: Demand) -> Iterator[Source]:
    kind, unit, size = one.instrument.kind, _base(ask.unit), _size(ask)
    assert one.mpe_constant is not None
    assert one.resolution is not None
    error = decimal_of(one.mpe_constant) + one.mpe_slope * size
    yield Source("maximum permissible error", error, unit, "rectangular", None, "the instrument passed its check")
    if one.transfer:
        said = "transfer by hand, known to a quarter (common practice)"
        yield Source("transfer", one.transfer, unit, "rectangular", _DEFAULT_DOF, said)
    step = decimal_of(one.resolution) * kind.read_share
    yield Source("reading", step / 2, unit, "rectangular", None, _reading_words(kind.read))
    if kind.read == "digital":
        yield Source("zero setting", step / 2, unit, "rectangular", None, "one step of the display (common practice)")
    spread, dof, said = one.repeatability
    if spread:
        yield Source("repeatability", spread, unit, "normal", dof, said)


def _reading_words(read: str) -> str:
    if read in ("digital", "vernier"):
        return f"{read}: one step, nothing is judged between"
    return f"{read} of a division, judged by eye (common practice)" if read else "one step"


def _temperature(one: Held, ask: Demand) -> Iterator[Source]:
    """What temperature does to a length; a zone or an angle has no length that could grow."""
    if ask.unit not in LENGTHS or ask.lower is None or ask.upper is None:
        return
    room, size, tool = ask.environment, _size(ask), one.expansion
    part = room.part
    yield Source(
        "part warmer or colder than instrument", room.difference, "K", "rectangular", None,
        f"within {_plain(room.difference)} K, {part.material}", size * part.alpha,
    )  # fmt: skip
    if part.alpha != tool.alpha and room.spread:
        said = f"swings by {_plain(room.spread)} K; {part.material} against {tool.material}"
        lengthens = size * (part.alpha - tool.alpha)
        yield Source("temperature", room.spread, "K", "rectangular", None, said, lengthens)
    if room.off:
        grown = size * room.off
        for each, whose in ((part, "part"), (tool, "instrument")):
            yield Source(f"expansion of the {whose}", each.half_width, "/K", "rectangular", None, each.words(), grown)


def bias_of(one: Held, ask: Demand) -> Decimal:
    """By how much a reading is too long because part and instrument are off 20 °C together, in mm; 0 where it is not a
    length. JCGM 100, F.2.4.5: a known error that is not corrected is added to the uncertainty in full."""
    room = ask.environment
    if not room.off or ask.unit not in LENGTHS or ask.lower is None or ask.upper is None:
        return Decimal(0)
    return _size(ask) * (room.part.alpha - one.expansion.alpha) * room.off


@lru_cache(maxsize=1024)
def expanded(one: Held, ask: Demand) -> Decimal | None:
    """The expanded uncertainty (95 %) in base units, with a bias that nobody corrects; None where it is not known.

    Remembered, as choosing asks for the same several times: to pass, to rank, and to say why.
    """
    sources = sources_of(one, ask)
    return combine(sources).expanded + abs(bias_of(one, ask)) if sources else None


def budget_for(one: Held, ask: Demand, of: str = "size") -> Budget | None:
    """The budget of a reading of `ask` by `one`, in the unit asked; None where its uncertainty is not known."""
    sources = sources_of(one, ask)
    if not sources:
        return None
    with localcontext() as context:
        context.prec = _PRECISION
        found, per_unit = combine(sources), MM_PER.get(ask.unit, Decimal(1))
        bias = bias_of(one, ask) / per_unit
        whole = found.expanded / per_unit + abs(bias)
        terms = tuple(_term(source, ask.unit, per_unit) for source in sources)
    return Budget(
        unit=ask.unit,
        of=of,
        instrument=one.instrument.name,
        terms=terms,
        combined=found.combined / per_unit,
        dof=found.dof,
        factor=found.factor,
        bias=bias,
        unrounded=whole,
        expanded=two_figures_up(whole),
        remarks=_remarks(one, ask, sources),
    )


def _remarks(one: Held, ask: Demand, sources: Sequence[Source]) -> tuple[str, ...]:
    said = ask.environment.said if any(source.unit == "K" for source in sources) else ()
    return (*said, _POSITION) if one.feature == "position" else said


def budget_of(instrument: Instrument, characteristic: Characteristic, wish: Wish = USUAL) -> Budget | None:
    """The budget of `instrument` for `characteristic`, at the feature where it errs most.

    None where it does not reach it, shows no value, or its error is not known.
    """
    ask, of = demand(characteristic, wish), said_of(characteristic)
    reached = [
        budget_for(held(instrument, feature), ask, of)
        for feature in needs(characteristic).features
        if feature in instrument.kind.reaches and instrument.unit in units_of(feature)
    ]
    return max((one for one in reached if one is not None), key=lambda one: one.unrounded, default=None)


def said_of(characteristic: Characteristic) -> str:
    """What a budget is of: the limits' name where there is one pair, else the characteristic."""
    limits = characteristic.limits
    return limits[0].of if len(limits) == 1 else characteristic.kind


def _term(source: Source, unit: str, per_unit: Decimal) -> Term:
    """A source as it is printed: its own figures in the budget's unit where it is a length."""
    own = per_unit if source.unit not in ("K", "/K") else Decimal(1)
    return Term(
        name=source.name,
        stated=source.stated / own,
        stated_unit=unit if source.unit not in ("K", "/K") else source.unit,
        shape=source.shape,
        standard=source.standard / own,
        sensitivity=source.sensitivity * own / per_unit,
        contribution=source.contribution / per_unit,
        dof=source.dof,
        source=source.source,
    )


def _size(ask: Demand) -> Decimal:
    return Decimal(0) if ask.upper is None else decimal_of(ask.upper)


def _base(unit: str) -> str:
    return unit if unit == "deg" else "mm"


@lru_cache(maxsize=256)
def _plain(value: Decimal) -> str:
    return format(value.normalize(), "f")
