"""Parallel keys and keyways: every row of the tables, keys by shaft diameter, keyway limits."""

from __future__ import annotations

from decimal import Decimal
from typing import Literal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sizewright.standards.errors import NotDefined
from sizewright.standards.iso286 import deviations
from sizewright.standards.keys import KeyFit, MetricKey, inch_key, inch_key_fit, metric_key

from .fits_data import both_ends, micrometres, parts, table


def section_and_depths(key: MetricKey) -> list[Decimal]:
    return [
        key.width.nominal,
        key.height.nominal,
        key.shaft_depth.nominal,
        key.shaft_depth.deviations.upper,
        key.hub_depth.nominal,
        key.hub_depth.deviations.upper,
    ]


COLUMNS = ("b", "h", "t1", "t1_tol", "t2", "t2_tol")


@pytest.mark.parametrize("row", table("keys_metric"), ids=lambda row: f"{row['over_mm']} to {row['upto_mm']}")
def test_every_row_of_din_6885(row: dict[str, str]) -> None:
    for diameter in both_ends(row):
        found = metric_key(diameter)
        assert section_and_depths(found) == [Decimal(row[name]) for name in COLUMNS]
        assert (found.over, found.upto) == (Decimal(row["over_mm"]), Decimal(row["upto_mm"]))
        assert found.shaft_depth.deviations.lower == found.hub_depth.deviations.lower == 0


def test_keys_of_another_table_by_shaft_diameter() -> None:
    rows = table("keys_by_shaft")
    assert len(rows) >= 25
    wrong = [
        row
        for row in rows
        if section_and_depths(metric_key(Decimal(row["shaft"]))) != [Decimal(row[name]) for name in COLUMNS]
    ]
    assert wrong == []


@pytest.mark.parametrize("row", table("keyway_widths"), ids=lambda row: f"{row['class']} up to {row['upto_mm']}")
def test_keyway_width_limits(row: dict[str, str]) -> None:
    for width in both_ends(row):
        found = deviations(*parts(row["class"]), width)
        assert micrometres(found.lower) == Decimal(row["lower_um"])
        assert micrometres(found.upper) == Decimal(row["upper_um"])


@pytest.mark.parametrize(
    ("fit", "shaft_class", "hub_class", "shaft_limits", "hub_limits"),
    [
        # keyway 8 mm wide for a shaft of 25 mm, micrometres: DIN 6885-1
        (KeyFit.NORMAL, "N9", "JS9", ("-36", "0"), ("-18", "18")),
        (KeyFit.CLOSE, "P9", "P9", ("-51", "-15"), ("-51", "-15")),
        (KeyFit.FREE, "H9", "D10", ("0", "36"), ("40", "98")),
    ],
)
def test_width_classes(
    fit: KeyFit, shaft_class: str, hub_class: str, shaft_limits: tuple[str, str], hub_limits: tuple[str, str]
) -> None:
    found = metric_key(Decimal(25), fit)
    assert (found.shaft_width.tolerance_class, found.hub_width.tolerance_class) == (shaft_class, hub_class)
    for keyway, limits in ((found.shaft_width, shaft_limits), (found.hub_width, hub_limits)):
        assert keyway.nominal == 8
        assert (micrometres(keyway.deviations.lower), micrometres(keyway.deviations.upper)) == tuple(
            map(Decimal, limits)
        )


@pytest.mark.parametrize(
    ("diameter", "width_lower", "height_class", "height_lower"),
    [("8", "-25", "h9", "-25"), ("22", "-30", "h9", "-30"), ("25", "-36", "h11", "-90"), ("100", "-52", "h11", "-110")],
)
def test_key_tolerances(diameter: str, width_lower: str, height_class: str, height_lower: str) -> None:
    found = metric_key(Decimal(diameter))
    assert found.width.tolerance_class == "h9"
    assert found.height.tolerance_class == height_class
    assert micrometres(found.width.deviations.lower) == Decimal(width_lower)
    assert micrometres(found.height.deviations.lower) == Decimal(height_lower)


@given(st.decimals(min_value="6.001", max_value=500, places=3), st.sampled_from(KeyFit))
def test_a_key_fills_less_than_both_depths(diameter: Decimal, fit: KeyFit) -> None:
    found = metric_key(diameter, fit)
    clearance = found.shaft_depth.nominal + found.hub_depth.nominal - found.height.nominal
    assert Decimal("0.2") <= clearance <= Decimal("0.5")
    assert found.over < diameter <= found.upto
    assert found.hub_width.deviations.lower >= found.shaft_width.deviations.lower


@pytest.mark.parametrize(("diameter", "confirmed"), [("25", True), ("48", False), ("120", False)])
def test_unconfirmed_rows_are_told(diameter: str, confirmed: bool) -> None:
    assert metric_key(Decimal(diameter)).confirmed is confirmed


@pytest.mark.parametrize("diameter", ["6", "0", "-3", "500.1"])
def test_no_metric_key(diameter: str) -> None:
    with pytest.raises(NotDefined, match="DIN 6885-1 has parallel keys for shafts above 6 to 500 mm"):
        metric_key(Decimal(diameter))


@pytest.mark.parametrize("row", table("keys_inch"), ids=lambda row: f"{row['over_in']} to {row['upto_in']}")
def test_every_row_of_asme_b17_1(row: dict[str, str]) -> None:
    for diameter in (Decimal(row["over_in"]) + Decimal("0.0001"), Decimal(row["upto_in"])):
        found = inch_key(diameter)
        assert found.width == Decimal(row["width"])
        assert found.preferred
        assert found.shape == ("square" if diameter <= Decimal("6.5") else "rectangular")
        square_or_only = row["square_height"] or row["rectangular_height"]
        shape: Literal["square", "rectangular"] = "square" if row["square_height"] else "rectangular"
        assert inch_key(diameter, shape).height == Decimal(square_or_only) == 2 * Decimal(row["keyseat_depth"])
        if row["rectangular_height"]:
            assert inch_key(diameter, "rectangular").height == Decimal(row["rectangular_height"])


@pytest.mark.parametrize(
    ("diameter", "seat_bottom", "hub_bottom"),
    [
        # S and T for square parallel keys, by hand from the formulas of ASME B17.1
        ("1", "0.859", "1.114"),
        ("0.5", "0.430", "0.560"),
        ("2", "1.718", "2.223"),
    ],
)
def test_depth_control(diameter: str, seat_bottom: str, hub_bottom: str) -> None:
    found = inch_key(Decimal(diameter))
    assert (found.seat_bottom.nominal, found.hub_bottom.nominal) == (Decimal(seat_bottom), Decimal(hub_bottom))
    assert (found.seat_bottom.deviations.lower, found.hub_bottom.deviations.upper) == (
        Decimal("-0.015"),
        Decimal("0.010"),
    )


@given(st.decimals(min_value="0.3126", max_value=30, places=4))
def test_a_key_leaves_its_clearance_between_shaft_and_hub(diameter: Decimal) -> None:
    found = inch_key(diameter)
    above_the_key = found.hub_bottom.nominal - found.seat_bottom.nominal - found.height
    assert abs(above_the_key - Decimal("0.005")) <= Decimal("0.001")
    assert 0 < found.seat_bottom.nominal < diameter


@pytest.mark.parametrize(
    ("width", "fit_class", "key", "keyseat"),
    [
        ("0.25", 1, ("-0.002", "0"), ("0", "0.002")),
        ("0.75", 1, ("-0.002", "0"), ("0", "0.003")),
        ("1", 1, ("-0.003", "0"), ("0", "0.003")),
        ("1.25", 2, ("0", "0.001"), ("0", "0.002")),
        ("2.5", 2, ("0", "0.002"), ("0", "0.002")),
    ],
)
def test_inch_fit_classes(width: str, fit_class: Literal[1, 2], key: tuple[str, str], keyseat: tuple[str, str]) -> None:
    found = inch_key_fit(Decimal(width), fit_class)
    assert (found.key.deviations.lower, found.key.deviations.upper) == tuple(map(Decimal, key))
    assert (found.keyseat.deviations.lower, found.keyseat.deviations.upper) == tuple(map(Decimal, keyseat))
    assert found.checked == "unconfirmed"


@pytest.mark.parametrize(("width", "fit_class"), [("1.25", 1), ("3.5", 2), ("0", 1)])
def test_no_inch_key_limits(width: str, fit_class: Literal[1, 2]) -> None:
    with pytest.raises(NotDefined, match="are known above 0 to"):
        inch_key_fit(Decimal(width), fit_class)


@pytest.mark.parametrize(
    ("diameter", "shape", "message", "near"),
    [
        ("0.3125", None, "ASME B17.1 has parallel keys for shafts above 0.3125 to 30 in", ()),
        ("30.5", None, "ASME B17.1 has parallel keys for shafts above 0.3125 to 30 in", ()),
        ("0.4", "rectangular", "no rectangular key for a shaft of 0.4 in", ("square",)),
        ("20", "square", "no square key for a shaft of 20 in", ("rectangular",)),
    ],
)
def test_no_inch_key(
    diameter: str, shape: Literal["square", "rectangular"] | None, message: str, near: tuple[str, ...]
) -> None:
    with pytest.raises(NotDefined, match=message) as caught:
        inch_key(Decimal(diameter), shape)
    assert caught.value.near == near
