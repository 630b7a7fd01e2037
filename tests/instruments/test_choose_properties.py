"""What holds of every choice, whatever the characteristic."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction

from hypothesis import given, settings
from hypothesis import strategies as st

from sizewright.instruments.amounts import to_base
from sizewright.instruments.choose import choose
from sizewright.instruments.crib import default_crib
from sizewright.instruments.demand import demand
from sizewright.instruments.features import CHARACTERISTIC_KINDS, THREAD_FEATURES, needs, units_of
from sizewright.instruments.model import Choice, Instrument
from sizewright.instruments.shelf import held
from sizewright.resolve.characteristic import Characteristic, Either, Limits, Side, Status

SHARE = Decimal("0.1")
numbers = st.one_of(
    st.decimals(min_value=-3000, max_value=3000, places=4),
    st.decimals(min_value=0, max_value=60, places=3),
    st.fractions(min_value=-400, max_value=400, max_denominator=3600),
    st.decimals(allow_nan=False, allow_infinity=False, min_value=Decimal("-1e30"), max_value=Decimal("1e30")),
)
pairs = st.builds(
    Limits,
    st.sampled_from(["size", "zone", "value", "pitch diameter", "major diameter"]),
    st.none() | numbers,
    st.none() | numbers,
)
sides: st.SearchStrategy[Side | None] = st.sampled_from(["internal", "external", None])
some_limits = st.lists(pairs, max_size=3).map(tuple)
anything = st.builds(
    Characteristic,
    kind=st.sampled_from(sorted(CHARACTERISTIC_KINDS)) | st.text(max_size=5),
    unit=st.sampled_from(["mm", "inch", "deg", "um", "uin", "HRC", "", "ratio"]),
    status=st.sampled_from(Status),
    nominal=st.none() | numbers,
    limits=some_limits,
    side=sides,
    class_=st.none() | st.just("H7"),
    either=st.none() | st.builds(Either, some_limits, some_limits),
)


@st.composite
def sane(draw: st.DrawFn) -> Characteristic:
    """A size as drawings have them: two limits close together, in a unit that fits its kind."""
    kind = draw(st.sampled_from(sorted(CHARACTERISTIC_KINDS)))
    side = draw(sides)
    features = needs(Characteristic(kind, "mm", Status.TOLERANCED, side=side)).features
    unit = draw(st.sampled_from(sorted(units_of(features[0])))) if features else "mm"
    lower = draw(st.decimals(min_value=0, max_value=320, places=3))
    upper = lower + draw(st.decimals(min_value=0, max_value=2, places=4))
    bounds: list[Decimal | Fraction] = [Fraction(lower), Fraction(upper)] if unit == "deg" else [lower, upper]
    limits = (Limits("size", bounds[0], bounds[1]),)
    return Characteristic(kind, unit, Status.TOLERANCED, limits=limits, side=side)


def _ones(found: Choice) -> list[tuple[Instrument, ...]]:
    """The chosen instruments, each with those of its kind that may be its partner in a split range."""
    main = [one for _, one in found.by_side] or ([found.instrument] if found.instrument else [])
    return [(one, *(other for other in found.alternatives if other.kind is one.kind)) for one in main]


@settings(max_examples=250, deadline=None)
@given(anything)
def test_choosing_never_raises_and_always_gives_a_reason(characteristic: Characteristic) -> None:
    found = choose(characteristic, default_crib())
    assert found.why
    assert not (found.falls_short and found.instrument is None)


@settings(max_examples=250, deadline=None)
@given(sane())
def test_the_chosen_instrument_reaches_and_covers(characteristic: Characteristic) -> None:
    ask = demand(characteristic)
    features = needs(characteristic).features
    for one, *partners in _ones(choose(characteristic, default_crib())):
        assert any(feature in one.kind.reaches and one.unit in units_of(feature) for feature in features)
        upper, lower = to_base(one.upper, one.unit), to_base(one.lower, one.unit)
        assert ask.upper is not None
        assert lower <= ask.upper <= upper
        lowest = min([lower, *(to_base(other.lower, other.unit) for other in partners)])
        assert ask.lower is None or lowest <= ask.lower


@settings(max_examples=250, deadline=None)
@given(sane())
def test_a_choice_that_does_not_fall_short_is_fine_enough(characteristic: Characteristic) -> None:
    found = choose(characteristic, default_crib())
    if found.falls_short or found.instrument is None:
        return
    ask = demand(characteristic)
    assert ask.tolerance is not None
    assert ask.resolution is not None
    assert Fraction(ask.resolution) == Fraction(ask.tolerance) * Fraction(SHARE)
    for one, *_ in _ones(found):
        if one.kind.reaches & (THREAD_FEATURES | {"radius"}) and one.kind.attribute:
            continue  # gauged, not read
        assert one.resolution is not None
        assert to_base(one.resolution, one.unit) <= ask.resolution


@settings(max_examples=150, deadline=None)
@given(sane(), st.sampled_from(default_crib().instruments))
def test_base_figures_are_exact(characteristic: Characteristic, instrument: Instrument) -> None:
    for feature in needs(characteristic).features:
        if feature in instrument.kind.reaches and instrument.unit in units_of(feature):
            factor = Fraction(to_base(Decimal(1), instrument.unit))
            assert Fraction(held(instrument, feature).upper) == Fraction(instrument.upper) * factor
