"""Uncertainty budgets against published ones, against an uncertainty library, and against budgets worked by hand."""

from __future__ import annotations

from decimal import Decimal
from typing import get_args

import pytest
from GTC import rp, type_b, ureal
from hypothesis import given
from hypothesis import strategies as st

from sizewright.instruments.budget_model import Budget, Shape
from sizewright.instruments.crib import default_crib, parse_crib
from sizewright.instruments.demand import Wish
from sizewright.instruments.environment import Environment, environment_of
from sizewright.instruments.model import Instrument
from sizewright.instruments.uncertainty import Source, Sum, budget_of, combine, factor_of, two_figures_up
from sizewright.resolve.answer import answer
from sizewright.resolve.characteristic import Characteristic
from sizewright.resolve.context import Context
from sizewright.standards.expansion import Expansion


def source(stated: str, shape: Shape = "normal", dof: str | None = None, sensitivity: str = "1") -> Source:
    return Source("", Decimal(stated), "mm", shape, None if dof is None else Decimal(dof), "", Decimal(sensitivity))


def near(value: Decimal, expected: str) -> bool:
    """Whether `value` is `expected` within half its last place."""
    wanted = Decimal(expected)
    return abs(value - wanted) <= Decimal(1).scaleb(int(wanted.as_tuple().exponent)) / 2


# t for 95 %, degrees of freedom: JCGM 100:2008, table G.2
T_95 = {1: "12.71", 2: "4.30", 3: "3.18", 4: "2.78", 5: "2.57", 6: "2.45", 8: "2.31", 9: "2.26", 10: "2.23", 15: "2.13",
        16: "2.12", 20: "2.09", 30: "2.04", 50: "2.01", None: "1.96"}  # fmt: skip


@pytest.mark.parametrize(("dof", "expected"), T_95.items())
def test_the_coverage_factor_is_that_of_the_table(dof: int | None, expected: str) -> None:
    assert near(factor_of(dof), expected)


def test_a_gauge_block_by_comparison() -> None:
    """JCGM 100:2008 H.1, in nm: printed u 32, effective degrees of freedom 16, k (95 %) 2.12, U 67 to 68."""
    found = combine(
        [source("25", dof="18"), source("9.7", dof="25.6"), source("2.9", dof="50"), source("16.6", dof="2")]
    )
    assert near(found.combined, "31.7")
    assert (found.dof, found.factor) == (16, Decimal("2.120"))
    assert 67 <= found.expanded <= 68


def test_the_parts_of_that_comparison() -> None:
    """The same example: three parts of the difference come to 9.7 nm with 25.6 degrees of freedom."""
    found = combine([source("5.8", dof="24"), source("3.9", dof="5"), source("6.7", dof="8")])
    assert near(found.combined, "9.7")
    assert found.dof == 25
    cyclic = combine([source("0.2"), source("0.5", "arcsine")])  # the temperature of the bed: 0.41 K
    assert near(cyclic.combined, "0.41")


def test_a_micrometer_with_a_digital_display() -> None:
    """A public technical note, at 21.5 mm, in mm: s of 3 readings 0.00058, u 0.00051; 10 degrees of freedom."""
    found = combine([source("0.000335", dof="2"), source("0.0005", "rectangular"), source("0.00025")])
    assert near(found.combined, "0.00051")
    assert found.dof == 10


def test_a_vernier_caliper_where_two_rectangles_outweigh_the_rest() -> None:
    """EA-4/02, supplement S10 (from memory), in mm: u 0.033 of rounded terms, 0.0324 of unrounded; k 1.83, U 0.06."""
    parts = [source("0.0008", "rectangular"), source("2", "rectangular", sensitivity="0.0017")]
    found = combine([*parts, source("0.025", "rectangular"), source("0.050", "rectangular")])
    assert abs(found.combined - Decimal("0.0324")) < Decimal("0.0001")
    assert near(found.factor, "1.83")
    assert near(found.expanded, "0.06")


def test_a_gauge_block_of_50_mm() -> None:
    """EA-4/02, supplement S4 (from memory), in nm: u 36.4, U 73 with k of 2."""
    parts = [source("30", "rectangular"), source("5.4"), source("32", "rectangular"), source("16.6"), source("11.8")]
    found = combine([source("15"), *parts, source("6.7", "rectangular")])
    assert near(found.combined, "36.4")
    assert near(2 * found.combined, "73")


def test_one_rectangle_that_outweighs_the_rest_has_the_factor_of_a_rectangle() -> None:
    """0.95 times the root of 3: EA-4/02, supplement S9 (from memory)."""
    found = combine([source("1", "rectangular"), source("0.1", "rectangular"), source("0.05")])
    assert near(found.factor, "1.65")


MICROMETER = """
[[instrument]]
kind = "outside micrometer"
range = [25, 50]
unit = "mm"
resolution = 0.01
mpe = 0.004
repeatability = {spread = 0.002, readings = 10}
"""
STEEL = Expansion("steel", Decimal("0.0000115"), Decimal("0.000001"))


def made(callout: str, unit: str = "mm") -> Characteristic:
    return answer(callout, Context("inch" if unit == "inch" else "mm")).characteristics[0]


def budget(instrument: Instrument, callout: str, room: Environment, unit: str = "mm") -> Budget:
    found = budget_of(instrument, made(callout, unit), Wish(environment=room))
    assert found is not None
    return found


def test_a_shaft_of_40_h7_in_a_shop_at_23_degrees() -> None:
    """Worked by hand, in µm: 2.31, 0.58, 2.00 (9 degrees of freedom), 0.27, 0.07 come to 3.12, 53, 2.006 and 6.26."""
    (micrometer,) = parse_crib(MICROMETER).instruments
    room = Environment(Decimal(23), Decimal(2), Decimal(1), STEEL._replace(half_width=Decimal(0)))
    found = budget(micrometer, "Ø40 h7", room)
    micrometres = [term.contribution * 1000 for term in found.terms]
    for value, expected in zip(micrometres, ["2.31", "0.58", "2.00", "0.27", "0.00", "0.07"], strict=True):
        assert near(value, expected)
    assert near(found.combined * 1000, "3.12")
    assert (found.dof, found.factor) == (53, Decimal("2.006"))
    assert near(found.unrounded * 1000, "6.26")
    assert (found.bias, found.expanded) == (Decimal(0), Decimal("0.0063"))


def test_a_part_of_aluminium_in_a_warm_shop_is_measured_too_long() -> None:
    """100 mm of aluminium 6061 at 25 °C by a steel micrometer: 6.05 µm too long (computed; the same in handbooks)."""
    found = budget(
        by_name("outside micrometer 75-100 mm"), "Ø100 -0.02/-0.05", environment_of("aluminium 6061", "25 °C")
    )
    assert near(found.bias * 1000, "6.05")
    assert found.expanded >= found.factor * found.combined + found.bias


def test_what_is_known_to_a_quarter_of_itself_has_eight_degrees_of_freedom() -> None:
    """JCGM 100:2008, G.4.2, formula G.3: one half of the inverse square of 0.25 is 8."""
    found = budget(by_name("telescoping gauge 8-150 mm"), "Ø20 H11", environment_of("brass", ""))
    assert [term.dof for term in found.terms if term.name == "transfer"] == [8]


def by_name(name: str) -> Instrument:
    return next(one for one in default_crib().instruments if one.name == name)


def library(found: Budget) -> tuple[float, float, float]:
    """Combined uncertainty, degrees of freedom and factor of the same terms by GTC 1.5."""
    shapes = {"rectangular": type_b.uniform, "triangular": type_b.triangular, "arcsine": type_b.arcsine}
    total = ureal(0, 0)
    for term in found.terms:
        half = float(term.stated * term.sensitivity)
        spread = shapes[term.shape](abs(half)) if term.shape in shapes else abs(half)
        total += ureal(0, spread, float(term.dof) if term.dof is not None else float("inf"))
    return float(total.u), float(total.df), float(rp.k_factor(int(total.df) if total.df < 1e6 else total.df))


# callout, instrument, material, temperature
AGAINST_THE_LIBRARY = [
    ("Ø40 h7", "outside micrometer 25-50 mm", "steel", "23 ±2 °C"),
    ("Ø20 H7", "dial bore gauge 18-35 mm", "EN AW-6082", "26 °C"),
    ("Ø20 H11", "telescoping gauge 8-150 mm", "brass", ""),
    ("Ø6 H11", "small-hole gauge 3-13 mm", "", "68 °F"),
    ("Ø100 h9", "digital outside micrometer 75-100 mm", "titanium", "21 ±1 °C"),
    ("30° ±1°", "optical comparator 0-360 deg", "", ""),
]


@pytest.mark.parametrize(("callout", "name", "material", "temperature"), AGAINST_THE_LIBRARY)
def test_a_budget_agrees_with_an_uncertainty_library(callout: str, name: str, material: str, temperature: str) -> None:
    found = budget(by_name(name), callout, environment_of(material, temperature))
    combined, dof, factor = library(found)
    assert float(found.combined) == pytest.approx(combined, rel=1e-12)
    assert found.dof is None or found.dof == int(dof)
    assert float(found.factor) == pytest.approx(factor, abs=0.0006)


def test_a_value_of_position_has_twice_the_uncertainty_of_its_coordinates() -> None:
    """P = 2 sqrt(x^2 + y^2), worked out by GTC 1.5 at a place between the axes and on one of them."""
    found = budget(by_name("digital height gauge 0-300 mm"), "|⌖|Ø0.3|A|B|C|", Environment())
    assert {term.sensitivity for term in found.terms} == {Decimal(2)}
    one = combine([source(str(term.standard), dof=None if term.dof is None else str(term.dof)) for term in found.terms])
    for at in ((0.06, 0.08), (0.1, 0.0)):
        x, y = (ureal(each, float(one.combined)) for each in at)
        value = 2 * (x * x + y * y) ** 0.5
        assert float(found.combined) == pytest.approx(float(value.u), rel=1e-9)
    assert any("counts twice" in remark for remark in found.remarks)


def test_a_transfer_stands_as_a_term_of_its_own() -> None:
    found = budget(by_name("telescoping gauge 8-150 mm"), "Ø20 H11", Environment())
    assert [term.name for term in found.terms][:3] == ["maximum permissible error", "transfer", "reading"]


def test_an_inch_line_has_its_budget_in_inches() -> None:
    found = budget(by_name("outside micrometer 0-1 inch"), "Ø.500 ±.002", Environment(), "inch")
    assert (found.unit, found.terms[0].stated_unit) == ("inch", "inch")
    assert Decimal("0.0001") < found.expanded < Decimal("0.0005")


def test_every_term_of_an_inch_budget_holds_together() -> None:
    """JCGM 100, 5.1.2 and 4.3.7: contribution is sensitivity times standard; a rectangle's is its half over root 3.
    Lengths are in inches, kelvins stay: 0.0002 in gives 0.000115 in, 1 K on .502 in of 20.5e-6/K gives 5.94e-6 in."""
    room = environment_of("brass", "25 °C")
    found = budget(by_name("outside micrometer 0-1 inch"), "Ø.500 ±.002", room, "inch")
    for term in found.terms:
        root = 3 if term.shape == "rectangular" else 1
        assert float(term.standard) == pytest.approx(float(term.stated) / root**0.5, rel=1e-12)
        assert float(term.contribution) == pytest.approx(abs(float(term.sensitivity * term.standard)), rel=1e-12)
    terms = {term.name: term for term in found.terms}
    assert near(terms["maximum permissible error"].standard, "0.0001155")
    warmer = terms["part warmer or colder than instrument"]
    assert (warmer.stated_unit, near(warmer.standard, "0.5774"), near(warmer.contribution, "0.00000594")) == (
        "K",
        True,
        True,
    )


def test_what_was_assumed_of_the_room_is_remarked_where_it_enters() -> None:
    room = environment_of("", "")
    assert room.said
    assert budget(by_name("outside micrometer 25-50 mm"), "Ø40 h7", room).remarks == room.said
    assert budget(by_name("optical comparator 0-360 deg"), "30° ±1°", room).remarks == ()


@pytest.mark.parametrize(
    ("callout", "name"),
    [
        ("Ø20 H7", "plug gauge 3-50 mm"),
        ("Ø20 H7", "outside micrometer 0-25 mm"),
        ("30° ±1°", "digital caliper 0-150 mm"),
    ],
)
def test_what_shows_no_value_or_does_not_reach_has_no_budget(callout: str, name: str) -> None:
    assert budget_of(by_name(name), made(callout)) is None


# value, reported (JCGM 100, 7.2.6: two figures)
ROUNDED = [
    ("0.00626", "0.0063"),
    ("0.0063", "0.0063"),
    ("0.00995", "0.010"),
    ("9.91", "10"),
    ("123", "130"),
    ("0", "0"),
]


@pytest.mark.parametrize(("value", "expected"), ROUNDED)
def test_an_expanded_uncertainty_is_reported_with_two_figures_rounded_up(value: str, expected: str) -> None:
    assert two_figures_up(Decimal(value)) == Decimal(expected)


positive = st.decimals(min_value="0.0001", max_value=1000, places=4)


@given(st.lists(positive, min_size=1, max_size=8), positive)
def test_a_further_source_never_makes_the_sum_smaller(parts: list[Decimal], more: Decimal) -> None:
    sources = [source(str(part)) for part in parts]
    assert combine([*sources, source(str(more))]).combined >= combine(sources).combined


@given(st.lists(st.tuples(positive, st.integers(1, 60)), min_size=1, max_size=8))
def test_the_effective_degrees_of_freedom_lie_between_the_least_and_the_sum(parts: list[tuple[Decimal, int]]) -> None:
    """JCGM 100, G.4.1, note 1."""
    found: Sum = combine([source(str(part), dof=str(dof)) for part, dof in parts])
    assert found.dof is not None
    assert min(dof for _, dof in parts) <= found.dof
    assert found.dof <= sum(dof for _, dof in parts)


@given(positive, st.sampled_from(get_args(Shape)), st.integers(1, 60), st.integers(1, 8))
def test_equal_sources_add_up_their_degrees_of_freedom(stated: Decimal, shape: Shape, dof: int, count: int) -> None:
    """JCGM 100, G.2b: of equal contributions with equal degrees of freedom exactly their sum, not one below."""
    assert combine([source(str(stated), shape, str(dof))] * count).dof == dof * count
