"""Guard bands and zones of the decision rules: arithmetic by hand, quantiles, and properties."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sizewright.judge.model import Rule
from sizewright.judge.probability import conformance
from sizewright.judge.rule import check_rule, guard_band, guard_words, is_empty, rule_words, zones
from sizewright.judge.verdict import decide, hold, reason
from sizewright.resolve.characteristic import Limits
from sizewright.text.errors import InputError
from sizewright.text.numbers import Number

from .support import D, budget

SIMPLE = Rule("simple")
ISO_2013 = Rule("guarded", factor=Decimal(1))
ISO_2017 = Rule("guarded")
SIZE = Limits("size", D("25.000"), D("25.021"))


def bounds(lower: str | None, upper: str | None, of: str = "size") -> Limits:
    return Limits(of, None if lower is None else D(lower), None if upper is None else D(upper))


# rule, u, U, dof, limits, guard band, source
GUARDS = [
    (ISO_2013, "0.001", "0.0020", None, SIZE, "0.0020", "ISO 14253-1:2013: g = U"),
    (ISO_2017, "0.001", "0.0020", None, SIZE, "0.0017", "1.645 u, rounded up (normal quantile)"),
    (ISO_2017, "0.0100", "0.020", None, bounds("10.0", "10.5"), "0.017", "the same, U with two figures"),
    (ISO_2017, "0.010", "0.026", 5, bounds("10.0", "10.5"), "0.021", "t 95 % one-sided, 5 dof: 2.015"),
    (ISO_2017, "0.010", "0.065", 2, bounds(None, "10.5"), "0.030", "t 95 % one-sided, 2 dof: 2.920"),
    (Rule("guarded", factor=D("0.83")), "0.00315", "0.0063", None, SIZE, "0.0053", "0.83 x 0.0063 = 0.005229"),
    (Rule("guarded", conformance=D("0.99")), "0.0010", "0.0020", None, SIZE, "0.0024", "2.326 u"),
    (Rule("guarded", factor=D(0)), "0.0010", "0.0020", None, SIZE, "0", "no guard band"),
]


@pytest.mark.parametrize(("rule", "u", "expanded", "dof", "limits", "guard", "source"), GUARDS)
def test_guard_bands(
    rule: Rule, u: str, expanded: str, dof: int | None, limits: Limits, guard: str, source: str
) -> None:
    found = zones(rule, limits, budget(u, expanded, dof))
    assert found.guard == D(guard), source
    if limits.lower is not None:
        assert found.acceptance.lower == limits.lower + D(guard)  # type: ignore[operator]
    assert limits.upper is not None
    assert found.acceptance.upper == limits.upper - D(guard)  # type: ignore[operator]
    assert found.rejected_above == limits.upper + D(guard)  # type: ignore[operator]


def test_the_same_uncertainty_under_two_editions() -> None:
    # 2.00 u and 1.65 u: decision rules notes, ISO 14253-1:2013 and 2017
    limits, given_ = bounds("0", "100"), budget("1.000", "2.000")
    assert zones(ISO_2013, limits, given_).guard == D("2.000")
    assert zones(ISO_2017, limits, given_).guard == D("1.645")


def test_a_known_error_widens_the_guard_band() -> None:
    found = zones(ISO_2017, bounds("10", "11"), budget("0.0100", "0.025", bias="0.005"))
    assert found.guard == D("0.022")  # 1.645 x 0.010 + 0.005, rounded up


def test_a_known_error_is_taken_off_both_limits() -> None:
    # g with F((T - g - b) / u) - F(-(g - b) / u) = 0.95 for T 0.1, u 0.02, b 0.005 is 0.0383536462 (mpmath findroot)
    found = guard_band(ISO_2017, bounds("10", "10.1"), budget("0.02", "0.04500000", bias="0.005"))
    assert found.inside == D("0.03835365")
    assert found.outside == D("0.03789708")  # 1.6448536270 u + b = 0.0378970725


@pytest.mark.parametrize("width", ["0.034", "0.036", "0.040", "0.050", "0.080"])
def test_both_tails_count_where_the_tolerance_is_not_wide(width: str) -> None:
    given_ = budget("0.010", "0.020000")
    limits = Limits("size", D(0), D(width))
    found = zones(ISO_2017, limits, given_)
    if D(width) < 2 * D("0.0196"):  # 1.96 u to each side are needed even midway
        assert found.empty
        return
    assert found.guard is not None
    assert found.guard >= D("0.01644")
    edge = found.acceptance.lower
    assert edge is not None
    assert conformance(edge, limits, given_) >= D("0.95")
    assert isinstance(edge, Decimal)
    assert conformance(edge - D("0.00001"), limits, given_) < D("0.95")


# by how much a reading is out: figures to 39 places from the mark, words beyond (common practice, no source)
FAR = [
    (D("11.5"), "above the upper limit by 0.5 mm"),
    (Fraction(47, 4), "above the upper limit by 0.75 mm"),
    (D(f"1{'0' * 38}11"), "above the upper limit by an amount beyond all sizes"),
    (11 + Fraction(5 * 10**38), f"above the upper limit by 5{'0' * 38} mm"),
    (11 + Fraction(10**40), "above the upper limit by an amount beyond all sizes"),
    (D(f"11.{'0' * 39}1"), "above the upper limit by a hair"),
    (D(f"11.{'0' * 38}1"), "above the upper limit by 0.000000000000000000000000000000000000001 mm"),
    (10 - Fraction(10**40), "below the lower limit by an amount beyond all sizes"),
]


@pytest.mark.parametrize(("value", "said"), FAR)
def test_how_far_out_is_told_in_words_where_figures_say_nothing(value: Number, said: str) -> None:
    held = hold(SIMPLE, bounds("10", "11"), None, "mm", "length", from_zero=False)
    assert decide(value, held.zones) == "reject"
    assert reason(value, "reject", held) == said


def test_an_empty_zone_accepts_nothing_and_says_so() -> None:
    limits = bounds("10.00", "10.02")
    for rule in (ISO_2013, ISO_2017):
        found = zones(rule, limits, budget("0.008", "0.016"))
        assert found.empty
        assert is_empty(found.acceptance)
        assert not any(found.acceptance.holds(D(v)) for v in ("10.00", "10.01", "10.02"))
        assert decide(D("10.01"), found) == "undecided"
        assert decide(D("10.05"), found) == "reject"
        binary = zones(Rule("guarded", rule.factor, binary=True), limits, budget("0.008", "0.016"))
        assert decide(D("10.01"), binary) == "reject"


def test_between_midway_and_one_limit_no_band_is_wide_enough() -> None:
    # T = 3.6 u: 1.645 u fit twice, but midway the conformance is 2 F(1.8) - 1 = 92.8 %
    found = zones(ISO_2017, Limits("size", D(0), D("3.6")), budget("1.0", "2.0"))
    assert found.empty
    assert found.guard is None


# ---- what cannot be less than zero -----------------------------------------------------------------------------------


def test_a_zone_has_no_guard_band_at_zero() -> None:
    found = zones(ISO_2017, bounds("0", "0.05", "zone"), budget("0.0020", "0.0040"), from_zero=True)
    assert found.acceptance == bounds("0", "0.0467", "zone")  # 1.645 x 0.002 = 0.0033
    assert found.rejected_below == 0
    assert decide(D("0"), found) == "accept"


def test_a_zone_narrow_against_the_uncertainty_has_a_wider_band() -> None:
    limits, given_ = bounds("0", "0.0040", "zone"), budget("0.0020", "0.00400")
    found = zones(ISO_2017, limits, given_, from_zero=True)
    assert found.guard is not None
    assert found.guard > D("0.00329")
    edge = found.acceptance.upper
    assert edge is not None
    assert conformance(edge, limits, given_, from_zero=True) >= D("0.95")
    narrow = zones(ISO_2017, bounds("0", "0.0038", "zone"), given_, from_zero=True)
    assert narrow.empty
    assert decide(D(0), narrow) == "undecided"


def test_a_roughness_has_no_lower_limit_to_guard() -> None:
    found = zones(ISO_2013, bounds(None, "1.6", "value"), budget("0.05", "0.10"), from_zero=True)
    assert found.acceptance == bounds(None, "1.50", "value")
    assert zones(ISO_2013, bounds(None, "0.1", "value"), budget("0.1", "0.2"), from_zero=True).empty


# ---- words and what cannot be used -----------------------------------------------------------------------------------


def test_the_rule_is_stated_by_name_edition_and_width() -> None:
    assert "ISO 14253-1:2017" in rule_words(ISO_2017)[0]
    assert "95 %" in rule_words(ISO_2017)[0]
    assert "1.65 u" in rule_words(ISO_2017)[0]
    assert "ISO 14253-1:2013" in rule_words(ISO_2013)[0]
    assert "guard band of the expanded uncertainty U" in rule_words(ISO_2013)[0]
    assert "0.83 times" in rule_words(Rule("guarded", factor=D("0.83")))[0]
    assert rule_words(SIMPLE)[0].startswith("Simple acceptance")
    assert "rejected" in rule_words(Rule("guarded", binary=True))[1]
    assert any("counts against" in words for words in rule_words(ISO_2017))


def test_the_guard_band_of_a_line_is_told_with_its_uncertainty() -> None:
    limits, narrow = bounds("10", "11"), bounds("10.00", "10.01")
    assert guard_words(ISO_2013, limits, budget("0.010"), "mm") == "U 0.020 mm, k 2.00, 95 %; guard band 0.020 mm"
    assert "nothing taken off" in guard_words(SIMPLE, limits, budget("0.010"), "mm")
    assert "takes the whole tolerance" in guard_words(ISO_2013, narrow, budget("0.010"), "mm")
    assert "no guard band is wide enough" in guard_words(ISO_2017, bounds("0", "3.6"), budget("1.0"), "mm")


@pytest.mark.parametrize(
    "rule",
    [
        Rule("guarded", factor=D("-0.1")),
        Rule("guarded", factor=D("NaN")),
        Rule("guarded", factor=D("Infinity")),
        Rule("guarded", conformance=D("0.5")),
        Rule("guarded", conformance=D(1)),
        Rule("guarded", conformance=D(95)),
    ],
)
def test_rules_that_cannot_be_used(rule: Rule) -> None:
    with pytest.raises(InputError, match=r"guard band|conformance"):
        check_rule(rule)


# ---- properties ------------------------------------------------------------------------------------------------------

lengths = st.decimals(min_value=-1000, max_value=1000, places=4)
small = st.decimals(min_value=D("0.0001"), max_value=2, places=4)
angles = st.fractions(min_value=-90, max_value=90, max_denominator=3600)
rules = st.builds(
    Rule,
    st.just("guarded"),
    st.one_of(st.none(), st.decimals(min_value=0, max_value=3, places=2)),
    st.decimals(min_value=D("0.6"), max_value=D("0.999"), places=3),
    st.booleans(),
)
dofs = st.one_of(st.none(), st.integers(1, 300))


@st.composite
def pairs(draw: st.DrawFn) -> Limits:
    if draw(st.booleans()):
        ends: list[Number] = sorted([draw(lengths), draw(lengths)])
    else:
        ends = sorted([draw(angles), draw(angles)])
    lower, upper = draw(st.sampled_from([(ends[0], ends[1]), (None, ends[1]), (ends[0], None)]))
    return Limits("size", lower, upper)


def like(limits: Limits, value: Decimal) -> Number:
    bound = limits.lower if limits.lower is not None else limits.upper
    return Fraction(value) if isinstance(bound, Fraction) else value


@given(rules, pairs(), small, dofs)
def test_the_acceptance_zone_lies_within_the_limits(rule: Rule, limits: Limits, u: Decimal, dof: int | None) -> None:
    found = zones(rule, limits, budget(str(u), dof=dof))
    if found.empty:
        return
    if limits.lower is not None:
        assert found.acceptance.lower is not None
        assert found.acceptance.lower >= limits.lower
    if limits.upper is not None:
        assert found.acceptance.upper is not None
        assert found.acceptance.upper <= limits.upper


@given(rules, pairs(), small, dofs, lengths)
def test_what_a_guarded_rule_accepts_the_simple_one_accepts(
    rule: Rule, limits: Limits, u: Decimal, dof: int | None, value: Decimal
) -> None:
    reading = like(limits, value)
    guarded, simple = zones(rule, limits, budget(str(u), dof=dof)), zones(SIMPLE, limits, None)
    if decide(reading, guarded) == "accept":
        assert decide(reading, simple) == "accept"
    if decide(reading, simple) == "accept" and not rule.binary:
        assert decide(reading, guarded) != "reject"
    if rule.binary:
        assert decide(reading, guarded) != "undecided"


@given(rules, pairs(), small, dofs, lengths, lengths)
def test_a_reading_further_in_is_never_judged_worse(
    rule: Rule, limits: Limits, u: Decimal, dof: int | None, one: Decimal, other: Decimal
) -> None:
    rank = {"accept": 2, "undecided": 1, "reject": 0}
    found = zones(rule, limits, budget(str(u), dof=dof))
    low, high = sorted([like(limits, one), like(limits, other)])
    if limits.upper is None:
        assert rank[decide(low, found)] <= rank[decide(high, found)]
    elif limits.lower is None:
        assert rank[decide(high, found)] <= rank[decide(low, found)]
    else:
        middle = (limits.lower + limits.upper) / 2  # type: ignore[operator]
        if low >= middle:
            assert rank[decide(high, found)] <= rank[decide(low, found)]
        elif high <= middle:
            assert rank[decide(low, found)] <= rank[decide(high, found)]


@given(pairs(), small, dofs, st.decimals(min_value=D("0.6"), max_value=D("0.999"), places=3))
def test_what_is_accepted_conforms_as_wanted(limits: Limits, u: Decimal, dof: int | None, wanted: Decimal) -> None:
    given_ = budget(str(u), dof=dof)
    found = zones(Rule("guarded", conformance=wanted), limits, given_)
    if found.empty:
        return
    for edge in (found.acceptance.lower, found.acceptance.upper):
        if edge is not None:
            assert conformance(edge, limits, given_) >= wanted - D("0.000002")


@given(small, dofs, st.decimals(min_value=0, max_value=3, places=2), st.decimals(min_value=0, max_value=3, places=2))
def test_a_greater_factor_has_a_wider_band(u: Decimal, dof: int | None, one: Decimal, more: Decimal) -> None:
    given_, limits = budget(str(u), dof=dof), bounds("0", "10")
    less = guard_band(Rule("guarded", factor=one), limits, given_).inside
    wide = guard_band(Rule("guarded", factor=one + more), limits, given_).inside
    assert less is not None
    assert wide is not None
    assert less <= wide


@pytest.mark.parametrize("exponent", [-300, -30, 0, 30, 300])
def test_extreme_limits_are_exact(exponent: int) -> None:
    step = Decimal(1).scaleb(exponent)
    limits = Limits("size", Decimal(10) * step, Decimal(11) * step)
    given_ = budget(str(Decimal("0.01") * step), str(Decimal("0.020") * step))
    found = zones(ISO_2013, limits, given_)
    assert found.acceptance == Limits("size", Decimal("10.02") * step, Decimal("10.98") * step)
    edge = found.acceptance.upper
    assert isinstance(edge, Decimal)
    with_hair = Decimal(f"10.98{'0' * 57}1E{exponent}")
    assert with_hair > edge
    assert decide(edge, found) == "accept"
    assert decide(with_hair, found) == "undecided"


def test_limits_with_more_digits_than_fit_are_rounded_inwards() -> None:
    limits = Limits("size", D("1"), Decimal("1E+500"))
    found = zones(ISO_2013, limits, budget("0.01", "0.02"))
    assert isinstance(found.acceptance.upper, Decimal)
    assert found.acceptance.upper < Decimal("1E+500")
    assert found.acceptance.lower == D("1.02")
    below = zones(ISO_2013, Limits("size", Decimal("-1E+500"), D("1")), budget("0.01", "0.02"))
    assert isinstance(below.acceptance.lower, Decimal)
    assert below.acceptance.lower > Decimal("-1E+500")
