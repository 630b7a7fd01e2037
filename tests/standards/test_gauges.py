"""Limit gauges: worked examples, every row of the gauge tables, and what must hold for every gauge."""

from __future__ import annotations

from decimal import Decimal
from typing import Literal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sizewright.standards.errors import NotDefined
from sizewright.standards.gauges import (
    GAUGE_CLASSES,
    GAUGE_GRADES,
    LimitGauge,
    class_plug,
    class_ring,
    gauge_grade,
    gauge_tolerance,
    iso_plug,
    iso_ring,
    ten_percent_class,
)
from sizewright.standards.iso286 import deviations, is_hole, tolerance

from .fits_data import both_ends, micrometres, parts, table

Unit = Literal["inch", "mm"]


def gauge_of(name: str, size: Decimal, with_grade: bool = True) -> LimitGauge:
    letters, grade = parts(name)
    lower, upper = deviations(letters, grade, size).limits(size)
    make = iso_plug if is_hole(letters) else iso_ring
    return make(lower, upper, size, grade if with_grade else None)


ISO_EXAMPLES = [
    # class, size, GO lower, upper, worn, NOT GO lower, upper in mm; source
    ("H7", "25", "25.001", "25.005", "24.997", "25.019", "25.023", "DIN 7162 scheme, GOST 24853-81: z 3, y 3, H 4"),
    ("m6", "5", "5.00875", "5.01125", "5.0135", "5.00275", "5.00525", "GOST 21401-75, m6: 8.5 and 3.0 before rounding"),
    ("H9", "25", "25.007", "25.011", "25.000", "25.050", "25.054", "GOST 24853-81: z 9, H 4, no wear beyond the limit"),
    ("H7", "200", "200.002", "200.012", "199.997", "200.038", "200.048", "GOST 24853-81: alpha 3 over 180 mm"),
    ("h6", "200", "199.988", "199.998", "200.003", "199.968", "199.978", "GOST 24853-81: z1 7, y1 5, alpha 2"),
]


@pytest.mark.parametrize(("name", "size", "go_lower", "go_upper", "worn", "lower", "upper", "source"), ISO_EXAMPLES)
def test_iso_examples(
    name: str, size: str, go_lower: str, go_upper: str, worn: str, lower: str, upper: str, source: str
) -> None:
    found = gauge_of(name, Decimal(size))
    assert (found.go.lower, found.go.upper, found.go.worn) == tuple(map(Decimal, (go_lower, go_upper, worn))), source
    assert (found.not_go.lower, found.not_go.upper, found.not_go.worn) == (Decimal(lower), Decimal(upper), None)


@pytest.mark.parametrize("row", table("gauges_iso"), ids=lambda row: f"{row['grade']} up to {row['upto_mm']}")
def test_every_row_of_the_iso_gauges(row: dict[str, str]) -> None:
    """Formulas of DIN 7162: plug and ring about the limits K and G of the part; with H and h one is the size."""
    grade = row["grade"].removeprefix("IT")
    figure = {name: Decimal(row[name]) for name in ("it", "z", "y", "alpha", "z1", "y1", "H", "H1")}
    for size in both_ends(row):
        assert micrometres(tolerance(grade, size)) == figure["it"]
        plug, ring = gauge_of("H" + grade, size), gauge_of("h" + grade, size)
        assert plug.go.worn is not None
        assert ring.go.worn is not None
        assert [micrometres(value - size) for value in (plug.go.lower, plug.go.upper, plug.go.worn)] == [
            figure["z"] - figure["H"] / 2,
            figure["z"] + figure["H"] / 2,
            figure["alpha"] - figure["y"],
        ]
        assert [micrometres(value - size) for value in (ring.go.lower, ring.go.upper, ring.go.worn)] == [
            -figure["z1"] - figure["H1"] / 2,
            -figure["z1"] + figure["H1"] / 2,
            figure["y1"] - figure["alpha"],
        ]
        plug_end, ring_end = figure["it"] - figure["alpha"], figure["alpha"] - figure["it"]
        assert micrometres(plug.not_go.lower + plug.not_go.upper - 2 * size) == 2 * plug_end
        assert micrometres(ring.not_go.lower + ring.not_go.upper - 2 * size) == 2 * ring_end
        assert micrometres(plug.not_go.upper - plug.not_go.lower) == figure["H"]
        assert micrometres(ring.not_go.upper - ring.not_go.lower) == figure["H1"]


@given(st.sampled_from(GAUGE_GRADES), st.decimals(min_value="0.1", max_value=500, places=2))
def test_iso_gauges_lie_in_order(grade: str, size: Decimal) -> None:
    plug, ring = gauge_of("H" + grade, size), gauge_of("h" + grade, size)
    assert plug.go.worn is not None
    assert ring.go.worn is not None
    assert plug.go.worn < plug.go.upper < plug.not_go.upper
    assert ring.go.worn > ring.go.lower > ring.not_go.lower
    assert plug.wear_may_pass_limit is (plug.go.worn < size)
    assert ring.wear_may_pass_limit is (ring.go.worn > size)
    if int(grade) >= 9:
        assert not plug.wear_may_pass_limit
        assert not ring.wear_may_pass_limit
    assert plug == gauge_of("H" + grade, size, with_grade=False)


@pytest.mark.parametrize(
    ("width", "size", "grade"),
    [("0.021", "25", "7"), ("0.020", "25", "6"), ("0.033", "25", "8"), ("0.9", "25", "12"), ("0.013", "25", "6")],
)
def test_the_grade_of_a_free_tolerance(width: str, size: str, grade: str) -> None:
    assert gauge_grade(Decimal(width), Decimal(size)) == grade


@pytest.mark.parametrize(("grade", "confirmed"), [("6", True), ("7", True), ("8", False), ("12", False)])
def test_unconfirmed_figures_are_told(grade: str, confirmed: bool) -> None:
    assert gauge_of("H" + grade, Decimal(25)).confirmed is confirmed


@pytest.mark.parametrize(
    ("name", "size", "message", "near"),
    [
        ("H5", "25", "covers the grades IT6 to IT12, not IT5", ("IT6",)),
        ("h13", "25", "covers the grades IT6 to IT12, not IT13", ("IT12",)),
        ("H7", "500.1", "covers sizes above 0 to 500 mm", ()),
    ],
)
def test_no_iso_gauge(name: str, size: str, message: str, near: tuple[str, ...]) -> None:
    with pytest.raises(NotDefined, match=message) as caught:
        gauge_of(name, Decimal(size))
    assert caught.value.near == near


def test_no_iso_gauge_for_a_tolerance_finer_than_it6() -> None:
    with pytest.raises(NotDefined, match="starts at IT6"):
        gauge_grade(Decimal("0.012"), Decimal(25))


@pytest.mark.parametrize("row", table("gauges_inch"), ids=lambda row: f"{row['unit']} up to {row['upto']}")
def test_every_row_of_the_gauge_classes(row: dict[str, str]) -> None:
    unit: Unit = "inch" if row["unit"] == "inch" else "mm"
    for size in (Decimal(row["over"]) + Decimal("0.0001"), Decimal(row["upto"])):
        found = [gauge_tolerance(name, size, unit) for name in GAUGE_CLASSES]
        assert found == [Decimal(row[name]) for name in GAUGE_CLASSES]
        assert found == sorted(found)


CLASS_EXAMPLES = [
    # limits, unit, ten per cent class, plug GO and NOT GO, ring GO and NOT GO
    ("1.000", "1.002", "inch", "Y", ("1.000", "1.00009"), ("1.00191", "1.002"), ("1.00191", "1.002"), ("1", "1.00009")),
    ("0.500", "0.501", "inch", "X", ("0.5", "0.50004"), ("0.50096", "0.501"), ("0.50096", "0.501"), ("0.5", "0.50004")),
    (
        "25",
        "25.021",
        "mm",
        "XX",
        ("25", "25.00076"),
        ("25.02024", "25.021"),
        ("25.02024", "25.021"),
        ("25", "25.00076"),
    ),
]


@pytest.mark.parametrize(
    ("lower", "upper", "unit", "name", "plug_go", "plug_not_go", "ring_go", "ring_not_go"), CLASS_EXAMPLES
)
def test_gauge_class_examples(
    lower: str,
    upper: str,
    unit: Unit,
    name: str,
    plug_go: tuple[str, str],
    plug_not_go: tuple[str, str],
    ring_go: tuple[str, str],
    ring_not_go: tuple[str, str],
) -> None:
    plug = class_plug(Decimal(lower), Decimal(upper), unit)
    ring = class_ring(Decimal(lower), Decimal(upper), unit)
    assert (plug.basis, ring.basis) == (name, name)
    assert (plug.go.lower, plug.go.upper) == tuple(map(Decimal, plug_go))
    assert (plug.not_go.lower, plug.not_go.upper) == tuple(map(Decimal, plug_not_go))
    assert (ring.go.lower, ring.go.upper) == tuple(map(Decimal, ring_go))
    assert (ring.not_go.lower, ring.not_go.upper) == tuple(map(Decimal, ring_not_go))
    assert (plug.go.worn, ring.go.worn) == (Decimal(lower), Decimal(upper))


@given(
    st.decimals(min_value="0.02", max_value=11, places=4),
    st.decimals(min_value="0.0004", max_value="0.05", places=4),
    st.sampled_from(GAUGE_CLASSES),
)
def test_class_gauges_stay_inside_the_part(lower: Decimal, width: Decimal, name: str) -> None:
    upper = lower + width
    for gauge in (class_plug(lower, upper, "inch", name), class_ring(lower, upper, "inch", name)):
        assert lower <= gauge.go.lower < gauge.go.upper <= upper or gauge_tolerance(name, upper, "inch") > width
        assert lower <= gauge.not_go.lower < gauge.not_go.upper <= upper or gauge_tolerance(name, upper, "inch") > width
        assert not gauge.wear_may_pass_limit


@given(
    st.decimals(min_value="0.02", max_value=11, places=4), st.decimals(min_value="0.001", max_value="0.05", places=4)
)
def test_the_ten_per_cent_class_is_the_coarsest_that_fits(lower: Decimal, width: Decimal) -> None:
    upper = lower + width
    name = ten_percent_class(lower, upper, "inch")
    shares = {known: max(gauge_tolerance(known, size, "inch") for size in (lower, upper)) for known in GAUGE_CLASSES}
    assert 20 * shares[name] <= width
    assert all(20 * shares[coarser] > width for coarser in GAUGE_CLASSES[GAUGE_CLASSES.index(name) + 1 :])


@pytest.mark.parametrize(
    ("lower", "upper", "unit", "name", "message"),
    [
        ("0.4990", "0.4991", "inch", None, "no gauge class is within five per cent"),
        ("0.499", "0.501", "inch", "W", "defines no gauge class W"),
        ("12.010", "12.020", "inch", "X", "cover sizes above 0.010 to 12.010 inch"),
        ("0.2", "0.25", "mm", "X", "cover sizes above 0.254 to 305.054 mm"),
    ],
)
def test_no_class_gauge(lower: str, upper: str, unit: Unit, name: str | None, message: str) -> None:
    with pytest.raises(NotDefined, match=message):
        class_plug(Decimal(lower), Decimal(upper), unit, name)
