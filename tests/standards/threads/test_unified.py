from __future__ import annotations

from decimal import Decimal

import pytest

from sizewright.standards.errors import NotDefined
from sizewright.standards.threads.unified import allowance, basic_major, series_of, size_name, unified_limits
from sizewright.standards.threads.unified_rules import edition_of, minor_tolerance

from .thread_prints import FIELDS, both, by_name, corrections, expected, most, published

D = Decimal

PRINTS = published("unified_limits")
ALSO_1989 = published("unified_external_open")
INTERNAL_MINOR = published("unified_internal_minor")
DRILL_CHART = published("unified_drill_chart")
PITCH_IN_MM = published("unified_pitch_mm")


def taken_apart(designation: str) -> tuple[Decimal, Decimal, str]:
    size, _, rest = designation.rpartition("-")
    tpi, series = rest.split()
    return basic_major(size), D(tpi), series


@pytest.mark.parametrize("row", PRINTS, ids=lambda row: f"{row['designation']}-{row['class']}")
def test_four_place_edition_equals_its_print(row: dict[str, str]) -> None:
    diameter, tpi, series = taken_apart(row["designation"])
    limits = unified_limits(diameter, tpi, row["class"], series, edition="1989")
    want = expected(row, FIELDS)
    assert want == {field: by_name(limits)[field] for field in want}
    if row["allowance"]:
        assert D(row["allowance"]) == allowance(diameter, tpi, row["class"], edition="1989")


@pytest.mark.parametrize("row", PRINTS, ids=lambda row: f"{row['designation']}-{row['class']}")
def test_edition_in_force_differs_only_where_its_rounding_does(row: dict[str, str]) -> None:
    diameter, tpi, series = taken_apart(row["designation"])
    limits = unified_limits(diameter, tpi, row["class"], series)
    want = expected(row, FIELDS, row["b1_30_differs"])
    assert want == {field: by_name(limits)[field] for field in want}
    if row["allowance"]:
        differing = corrections(row["b1_30_differs"]).get("allowance", D(row["allowance"]))
        assert differing == allowance(diameter, tpi, row["class"])


@pytest.mark.parametrize("row", ALSO_1989, ids=lambda row: f"{row['size']}-{row['tpi']}-{row['class']}")
def test_external_limits_equal_an_open_list(row: dict[str, str]) -> None:
    limits = unified_limits(basic_major(row["size"]), D(row["tpi"]), row["class"], edition="1989")
    want = expected(row, FIELDS)
    assert want == {field: by_name(limits)[field] for field in want}


@pytest.mark.parametrize("row", INTERNAL_MINOR, ids=lambda row: f"{row['size']}-{row['tpi']}")
def test_internal_minor_limits_equal_a_tap_makers_page(row: dict[str, str]) -> None:
    diameter, tpi = basic_major(row["size"]), D(row["tpi"])
    two = unified_limits(diameter, tpi, "2B", edition="1989").minor
    three = unified_limits(diameter, tpi, "3B", edition="1989").minor
    assert (D(row["min"]), D(row["max_2B"])) == two
    assert (D(row["min"]), D(row["max_3B"])) == three


@pytest.mark.parametrize("row", PITCH_IN_MM, ids=lambda row: f"{row['size']}-{row['tpi']}")
def test_internal_pitch_diameters_equal_a_metric_catalogue(row: dict[str, str]) -> None:
    diameter, tpi = basic_major(row["size"]), D(row["tpi"])
    two = unified_limits(diameter, tpi, "2B", "UNF", edition="1989").pitch
    three = unified_limits(diameter, tpi, "3B", "UNF", edition="1989").pitch
    assert two[0] == three[0]
    printed = (D(row["min"]), D(row["max_2B"]), D(row["max_3B"]))
    assert printed == tuple((inches * D("25.4")).quantize(D("0.001")) for inches in (*both(two), most(three)))


@pytest.mark.parametrize("row", DRILL_CHART, ids=lambda row: f"{row['size']}-{row['tpi']}")
def test_number_sizes_equal_a_drill_chart(row: dict[str, str]) -> None:
    diameter, tpi = basic_major(row["size"]), D(row["tpi"])
    external = unified_limits(diameter, tpi, "2A", edition="1989")
    internal = unified_limits(diameter, tpi, "2B", edition="1989")
    assert (D(row["major_min"]), D(row["major_max"])) == external.major
    assert (D(row["minor_min"]), D(row["minor_max"])) == internal.minor
    assert allowance(diameter, tpi, "2A", edition="1989") == D(row["allowance"])


def test_worked_examples_of_the_edition_in_force() -> None:
    # Machinery's Handbook 31st ed., 1/2-28 UNEF-2A and -2B, 19/64-36 UNS-2B.
    external = unified_limits(D("0.5"), D(28), "2A", "UNEF")
    assert external.major == (D("0.4924"), D("0.4989"))
    assert external.pitch == (D("0.4720"), D("0.4757"))
    assert external.minor == (None, D("0.4564"))
    assert unified_limits(D("0.5"), D(28), "2A", root="flat").minor == (None, D("0.4602"))
    assert allowance(D("0.5"), D(28), "2A") == D("0.0011")
    assert unified_limits(D("0.5"), D(28), "2B").minor[0] == D("0.461")
    odd = unified_limits(basic_major("19/64"), D(36), "2B", "UNS")
    assert odd.minor == (D("0.267"), D("0.273"))
    assert odd.pitch[0] == D("0.2789")


def test_stated_length_of_engagement() -> None:
    # FED-STD-H28/2B 5.4: 2.500-28 UNS, LE 1 in.
    external = unified_limits(D("2.5"), D(28), "2A", "UNS", length_of_engagement=D(1), root="flat")
    internal = unified_limits(D("2.5"), D(28), "2B", "UNS", length_of_engagement=D(1))
    assert external.major == (D("2.4921"), D("2.4986"))
    assert external.pitch == (D("2.4698"), D("2.4754"))
    assert external.minor == (None, D("2.4599"))
    assert internal.minor == (D("2.461"), D("2.468"))
    assert internal.pitch == (D("2.4768"), D("2.4841"))
    assert internal.major == (D("2.5000"), None)


# ASME B1.1, 5.8.2, worked by hand to four places: A = 0.05 P^(2/3) + 0.03 P/D - 0.002, B = 0.394 P,
# C = 0.25 P - 0.40 P^2, E = 0.23 P - 1.5 P^2, G = 0.12 P; diameter, threads per inch, class, tolerance, which of them
MINOR_TOLERANCES = [
    ("0.5", 13, "3B", "0.0117", "A"),
    ("1.25", 13, "3B", "0.0089", "A, more than E 0.0088; G would be 0.0092"),
    ("2", 13, "3B", "0.0088", "E, more than A 0.0082"),
    ("2", 12, "3B", "0.0100", "G, more than A 0.0088"),
    ("0.06", 80, "2B", "0.0049", "B, less than A 0.0069"),
    ("0.138", 32, "2B", "0.0098", "A"),
    ("0.216", 28, "2B", "0.0084", "C 0.00842, more than A 0.00838"),
    ("0.25", 20, "2B", "0.0115", "C"),
    ("0.5", 13, "2B", "0.0169", "C"),
    ("1.5", 4, "2B", "0.0375", "C, still at four threads"),
    ("4", 3, "2B", "0.0500", "0.15 P below four threads"),
]


@pytest.mark.parametrize(("diameter", "tpi", "thread_class", "expected", "source"), MINOR_TOLERANCES)
def test_the_rule_of_the_internal_minor_diameter(
    diameter: str, tpi: int, thread_class: str, expected: str, source: str
) -> None:
    found = minor_tolerance(D(diameter), D(tpi), thread_class, edition_of("1989"), D(1))
    assert found == D(expected), source


@pytest.mark.parametrize(
    ("series", "said"), [("UNC", "series UNC, LE = D, tolerances serve 5 P to 1.5 D"), ("UNRC", "series UNRC, LE = D")]
)
def test_the_reason_names_the_series_as_typed(series: str, said: str) -> None:
    why = unified_limits(D("0.5"), D(13), "2A", series).why
    assert any(each.startswith(said) for each in why)
    # FED-STD-H28/2B, 50.4: to 15 P where the tolerances rest on 9 P
    assert "series UN, LE = 9P, tolerances serve 5 P to 15 P" in unified_limits(D(1), D(16), "2A", "UN").why


def test_usual_length_of_engagement_changes_nothing_of_the_pitch_diameter() -> None:
    plain = unified_limits(D("0.5"), D(13), "2B")
    assert unified_limits(D("0.5"), D(13), "2B", length_of_engagement=D("0.5")).pitch == plain.pitch


@pytest.mark.parametrize(
    ("text", "inches"),
    [
        ("#10", "0.190"),
        ("No. 4", "0.112"),
        ("1/4", "0.25"),
        ("1 1/2", "1.5"),
        ("1-3/4", "1.75"),
        (".250", "0.25"),
        (".312", "0.3125"),
        (".6250", "0.625"),
        (".3120", "0.3120"),  # four places abbreviate nothing
        ("2", "2"),
    ],
)
def test_written_sizes(text: str, inches: str) -> None:
    assert basic_major(text) == D(inches)


@pytest.mark.parametrize(
    ("size", "tpi", "series"),
    [
        ("1/4", 20, "UNC"),
        ("1/4", 28, "UNF"),
        ("1/4", 32, "UNEF"),
        ("5/16", 20, "UN"),
        ("1", 12, "UNF"),
        ("1", 14, "UNS"),
        ("#10", 32, "UNF"),
        ("2", "4.5", "UNC"),
        ("3 1/2", 4, "UNC"),
    ],
)
def test_series_of(size: str, tpi: int | str, series: str) -> None:
    assert series_of(basic_major(size), D(tpi)) == series


def test_size_names() -> None:
    assert [size_name(D(d)) for d in ("0.190", "1.25", "0.2969")] == ["#10", "1 1/4", "0.2969"]


@pytest.mark.parametrize(
    ("size", "tpi", "thread_class", "series", "near"),
    [
        ("1/4", 18, "2A", "UNC", "1/4-20 UNC"),
        ("1/4", 28, "2A", "UNC", "1/4-28 UNF"),
        ("5/8", 10, "2A", "UN", "5/8-10 UNS"),
        ("1/4", 20, "4A", None, "2A"),
        ("1/4", 32, "1A", None, "2A"),
        ("#10", 24, "1B", None, "2B"),
        ("1/4", 28, "3B", "UNRF", "UN"),
        ("1/4", 28, "2A", "UNJF", "3A"),
        ("1/4", 20, "2A", "BSW", "UNC"),
        ("1/4", 4, "2A", None, "1/4-20 UNC"),
    ],
)
def test_what_the_standard_lacks_is_refused_with_the_nearest(
    size: str, tpi: int, thread_class: str, series: str | None, near: str
) -> None:
    with pytest.raises(NotDefined) as refusal:
        unified_limits(basic_major(size), D(tpi), thread_class, series)
    assert near in refusal.value.near


@pytest.mark.parametrize("length", ["0.1", "1.7"])
def test_lengths_of_engagement_beyond_the_rules_are_refused(length: str) -> None:
    with pytest.raises(NotDefined, match="length of engagement"):
        unified_limits(D("0.5"), D(13), "2A", length_of_engagement=D(length))


def test_unknown_edition_and_size_are_refused() -> None:
    with pytest.raises(NotDefined, match="edition"):
        unified_limits(D("0.5"), D(13), "2A", edition="1911")
    for text in ("M6", "#", "1/0", ""):
        with pytest.raises(NotDefined, match="not a size"):
            basic_major(text)


def test_why_names_the_edition_and_print_exceptions_are_remarked() -> None:
    old = unified_limits(D("0.625"), D(11), "2A", edition="1989")
    new = unified_limits(D("0.625"), D(11), "2A")
    assert "1989" in old.why[0]
    assert "2003" in new.why[0]
    assert any("as printed" in note for note in old.remarks)
    assert (old.major[1], new.major[1]) == (D("0.6234"), D("0.6233"))


def test_unj_profile() -> None:
    # ASME B1.15 geometry worked by hand: 0.25 - 0.974279/28, 0.2268 - 0.505181/28.
    external = unified_limits(D("0.25"), D(28), "3A", "UNJF")
    internal = unified_limits(D("0.25"), D(28), "3B", "UNJF")
    assert external.major == unified_limits(D("0.25"), D(28), "3A").major
    assert external.pitch == (D("0.2243"), D("0.2268"))
    assert external.minor == (D("0.2041"), D("0.2088"))
    assert internal.minor == (D("0.2152"), None)
    assert any("B1.15" in note for note in internal.remarks)


def test_unr_has_the_limits_of_un() -> None:
    rounded_root = unified_limits(D("0.25"), D(28), "2A", "UNRF")
    assert rounded_root.pitch == unified_limits(D("0.25"), D(28), "2A", "UNF").pitch
    assert not any("flat root" in note for note in rounded_root.remarks)
