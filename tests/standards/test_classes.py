"""From limits or measured sizes back to classes."""

from __future__ import annotations

from decimal import Decimal

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from sizewright.standards.classes import (
    classes_holding,
    classes_holding_sizes,
    measured_nominal,
    plausible_nominal,
)
from sizewright.standards.errors import NotDefined
from sizewright.standards.fits import preferred_classes
from sizewright.standards.iso286 import defined_classes, deviations, find_deviations, is_hole

from .fits_data import SIZES, parts, table

LIMITS = [
    # limits in mm, hole?, nominal size given or None; nominal size and class found, difference at each end
    ("25.000", "25.021", True, "25", "25", "H7", "0", "0"),
    ("25.000", "25.021", True, None, "25", "H7", "0", "0"),
    ("24.959", "24.980", False, None, "25", "f7", "0", "0"),
    ("24.993", "25.006", False, "25", "25", "js6", "0.0005", "0.0005"),
    ("25.048", "25.061", False, None, "25", "u6", "0", "0"),
    ("24.986", "25.007", True, "25", "25", "K7", "-0.001", "-0.001"),
    ("25.000", "25.020", True, None, "25", "H7", "0", "0.001"),
    ("24.96", "24.98", False, None, "25", "f7", "-0.001", "0"),
    ("12.69", "12.71", True, None, "12.7", "JS7", "0.001", "-0.001"),
    ("20.3", "20.313", True, None, "20.3", "H6", "0", "0"),
    ("17.002", "17.015", False, None, "17", "k6", "-0.001", "-0.003"),
    ("299.959", "299.991", True, None, "300", "M6", "0", "0"),
    ("24.9935", "25.0065", False, None, "25", "js6", "0", "0"),
]


@pytest.mark.parametrize(("lower", "upper", "internal", "given_size", "nominal", "name", "below", "above"), LIMITS)
def test_nearest_class(
    lower: str, upper: str, internal: bool, given_size: str | None, nominal: str, name: str, below: str, above: str
) -> None:
    size = Decimal(given_size) if given_size else None
    best = classes_holding(Decimal(lower), Decimal(upper), size, internal)[0]
    assert (best.name, best.nominal) == (name, Decimal(nominal))
    assert (best.lower_difference, best.upper_difference) == (Decimal(below), Decimal(above))
    assert best.exact is (Decimal(below) == Decimal(above) == 0)


@settings(max_examples=60, deadline=None)
@given(SIZES, st.booleans(), st.data())
def test_the_limits_of_a_class_lead_back_to_it(size: Decimal, internal: bool, data: st.DataObject) -> None:
    name = data.draw(st.sampled_from(defined_classes(size, internal)))
    lower, upper = deviations(*parts(name), size).limits(size)
    matches = classes_holding(lower, upper, size, internal, count=1000)
    exact = [match for match in matches if match.exact]
    assert name in {match.name for match in exact}
    assert matches[: len(exact)] == tuple(exact)
    distances = [match.distance for match in matches]
    assert distances == sorted(distances)
    assert {match.name for match in matches} == set(defined_classes(size, internal))
    for match in matches[:5]:
        assert match.nominal + match.deviations.lower == lower + match.lower_difference
        assert match.nominal + match.deviations.upper == upper + match.upper_difference


@settings(max_examples=60, deadline=None)
@given(st.integers(min_value=4, max_value=400), st.sampled_from(sorted(preferred_classes())))
def test_a_preferred_class_at_a_whole_size_gives_an_exact_match_without_a_nominal_size(size: int, name: str) -> None:
    found = find_deviations(*parts(name), Decimal(size))
    if found is None:
        assert name not in defined_classes(Decimal(size))
        return
    lower, upper = found.limits(Decimal(size))
    best = classes_holding(lower, upper, None, is_hole(name))[0]
    assert best.exact
    assert best.preferred


@pytest.mark.parametrize(
    ("lower", "upper", "internal", "nominal"),
    [
        ("9.9", "10.1", False, "10"),
        ("99.4", "99.6", True, "99.5"),
        ("7.61", "7.63", True, "7.6"),
        ("31.40", "31.41", False, "31.4"),
        ("3000", "3003", True, "3000"),
    ],
)
def test_plausible_nominal_sizes(lower: str, upper: str, internal: bool, nominal: str) -> None:
    assert plausible_nominal(Decimal(lower), Decimal(upper), internal) == Decimal(nominal)


MEASURED = [
    # sizes, hole?, nominal size given or None; nominal size, first classes
    (["25.010"], True, "25", "25", ["G6", "H6", "H7"]),
    (["24.973", "24.975"], False, None, "25", ["f6", "f7", "h8"]),
    (["12.702", "12.711"], False, None, "12.7", ["k6", "k7", "j7"]),
    (["50.000", "50.060"], True, None, "50", ["H9", "H10", "H11"]),
]


@pytest.mark.parametrize(("sizes", "internal", "given_size", "nominal", "names"), MEASURED)
def test_classes_of_measured_sizes(
    sizes: list[str], internal: bool, given_size: str | None, nominal: str, names: list[str]
) -> None:
    size = Decimal(given_size) if given_size else None
    found = classes_holding_sizes([Decimal(text) for text in sizes], size, internal)
    assert {held.nominal for held in found} == {Decimal(nominal)}
    assert [held.name for held in found[: len(names)]] == names


@settings(max_examples=60, deadline=None)
@given(st.lists(st.decimals(min_value="-0.05", max_value="0.05", places=3), min_size=1, max_size=4), st.booleans())
def test_classes_hold_every_measured_size(offsets: list[Decimal], internal: bool) -> None:
    nominal = Decimal(40)
    sizes = [nominal + offset for offset in offsets]
    held = classes_holding_sizes(sizes, nominal, internal, count=1000)
    for name in defined_classes(nominal, internal):
        lower, upper = deviations(*parts(name), nominal).limits(nominal)
        holds = lower <= min(sizes) and max(sizes) <= upper
        assert holds is (name in {candidate.name for candidate in held})
    widths = [candidate.deviations.width for candidate in held if candidate.preferred]
    assert widths == sorted(widths)
    assert all(candidate.preferred for candidate in held[: len(widths)])
    usual = [5 <= int(parts(candidate.name)[1]) <= 11 for candidate in held[len(widths) :]]
    assert usual == sorted(usual, reverse=True)
    assert all(candidate.room_below >= 0 <= candidate.room_above for candidate in held)


@pytest.mark.parametrize(
    ("sizes", "nominal"),
    [(["24.973", "24.975"], "25"), (["24.6"], "24.6"), (["12.711"], "12.7"), (["3.175"], "3.2"), (["0.8"], "0.8")],
)
def test_nominal_of_measured_sizes(sizes: list[str], nominal: str) -> None:
    assert measured_nominal([Decimal(text) for text in sizes]) == Decimal(nominal)


# ISO 286-2: H7 is +25/0 µm over 30 to 50 mm and +21/0 µm over 18 to 30 mm.
@pytest.mark.parametrize(("lower", "upper", "nominal"), [("1.2500", "1.2510", "1.25"), (".7500", ".7508", ".75")])
def test_limits_in_inches_come_from_a_size_round_in_inches(lower: str, upper: str, nominal: str) -> None:
    scale = Decimal("25.4")
    first, *_ = classes_holding(Decimal(lower) * scale, Decimal(upper) * scale, None, internal=True, inch=True)
    assert (first.nominal, first.name) == (Decimal(nominal) * scale, "H7")


def test_every_printed_class_is_found_from_its_printed_limits() -> None:
    missed = []
    for row in table("limits_prints")[::5]:
        size = Decimal(row["size_mm"])
        lower, upper = (size + Decimal(row[end]).scaleb(-3) for end in ("lower_um", "upper_um"))
        matches = classes_holding(lower, upper, size, is_hole(row["class"]), count=20)
        if row["class"] not in {match.name for match in matches if match.exact}:
            missed.append(row)
    assert missed == []


@pytest.mark.parametrize(("lower", "upper", "nominal"), [("4000", "4001", None), ("-1", "1", None), ("1", "2", "0")])
def test_sizes_outside_of_the_standard(lower: str, upper: str, nominal: str | None) -> None:
    with pytest.raises(NotDefined, match="ISO 286 sizes"):
        classes_holding(Decimal(lower), Decimal(upper), Decimal(nominal) if nominal else None, internal=True)


def test_no_measured_size() -> None:
    with pytest.raises(ValueError, match="at least one measured size"):
        classes_holding_sizes([], None, internal=True)
