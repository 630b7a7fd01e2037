"""ISO 286: published limits from several sources, every cell of the tables, and the rules as properties."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sizewright.standards.errors import NotDefined
from sizewright.standards.iso286 import (
    Deviations,
    defined_classes,
    deviations,
    find_deviations,
    is_class,
    is_hole,
    rounded_symmetrical,
    split_class,
    tolerance,
)
from sizewright.standards.iso286_tables import GRADES, HOLE_LETTERS, SHAFT_LETTERS

from .fits_data import BOUNDS, RANGES, SIZES, both_ends, micrometres, parts, table

Published = tuple[str, Decimal, Decimal, Decimal]


def printed_limits() -> Iterator[Published]:
    for row in table("limits_prints"):
        yield row["class"], Decimal(row["size_mm"]), Decimal(row["lower_um"]), Decimal(row["upper_um"])


def range_limits(name: str) -> Iterator[Published]:
    for row in table(name):
        for size in both_ends(row):
            yield row["class"], size, Decimal(row["lower_um"]), Decimal(row["upper_um"])


def groove_limits() -> Iterator[Published]:
    for row in table("limits_grooves"):
        size, lower, upper = (Decimal(row[heading]) for heading in ("d2_mm", "lower_mm", "upper_mm"))
        yield row["class"], size, micrometres(lower), micrometres(upper)


PUBLISHED = {
    "prints": tuple(printed_limits()),
    "physeng": tuple(range_limits("limits_physeng")),
    "freecad": tuple(range_limits("limits_freecad")),
    "grooves": tuple(groove_limits()),
}


@pytest.mark.parametrize("source", PUBLISHED)
def test_published_limits(source: str) -> None:
    wrong = []
    for name, size, lower, upper in PUBLISHED[source]:
        found = deviations(*parts(name), size)
        if (micrometres(found.lower), micrometres(found.upper)) != (lower, upper):
            wrong.append((name, size, lower, upper, found))
    assert wrong == []


def test_enough_published_limits_are_compared() -> None:
    rows = [table(f"limits_{source}") for source in PUBLISHED]
    assert [2 * len(found) for found in rows] == [500, 3358, 1030, 336]


def test_every_standard_tolerance_of_table_1() -> None:
    wrong = []
    for row in table("grades"):
        for grade in GRADES:
            cell = row[f"IT{grade}"]
            size = Decimal(row["upto_mm"])
            found = micrometres(tolerance(grade, size)) if cell else None
            if cell and found != Decimal(cell):
                wrong.append((grade, size, cell, found))
    assert wrong == []


def test_empty_cells_of_table_1_are_not_defined() -> None:
    empty = [(row["upto_mm"], grade) for row in table("grades") for grade in GRADES if not row[f"IT{grade}"]]
    assert len(empty) == 16
    for size, grade in empty:
        with pytest.raises(NotDefined, match=f"grade IT{grade} ends at 500 mm"):
            tolerance(grade, Decimal(size))


def grades_of(text: str) -> Iterator[str]:
    """Grades of a cell such as "all" or "IT3-IT5;IT7-IT8"."""
    if text == "all":
        yield from GRADES
        return
    for span in text.split(";"):
        ends = [GRADES.index(end.removeprefix("IT")) for end in span.split("-")]
        yield from GRADES[ends[0] : ends[-1] + 1]


def deltas() -> dict[tuple[str, Decimal], Decimal]:
    return {
        (grade, Decimal(row["upto_mm"])): Decimal(row[f"IT{grade}"])
        for row in table("deltas")
        for grade in ("3", "4", "5", "6", "7", "8")
    }


def expected_delta(row: dict[str, str], grade: str) -> Decimal:
    if row["plus_delta"] == "0":
        return Decimal(0)
    size = Decimal(row["upto_mm"])
    bound = min(bound for _, bound in deltas() if size <= bound)
    return deltas()[grade, bound]


def test_every_fundamental_deviation_of_tables_2_to_5() -> None:
    compared, wrong = 0, []
    for row in table("fundamental_deviations"):
        for grade in grades_of(row["grades"]):
            for size in both_ends(row):
                found = find_deviations(row["letter"], grade, size)
                if found is None:
                    assert size <= 1 or size > 500, (row, grade, size)
                    continue
                value = found.lower if row["which"] in {"EI", "ei"} else found.upper
                compared += 1
                if micrometres(value) != Decimal(row["deviation_um"]) + expected_delta(row, grade):
                    wrong.append((row, grade, size, value))
    assert wrong == []
    assert compared > 50_000


def covered_classes(size: Decimal) -> set[str]:
    """The classes that the lines of the tables cover at a size, JS and js aside."""
    return {
        row["letter"] + grade
        for row in table("fundamental_deviations")
        if Decimal(row["over_mm"]) < size <= Decimal(row["upto_mm"])
        for grade in grades_of(row["grades"])
    }


@pytest.mark.parametrize("size", ["0.5", "1", "2", "5", "9", "16", "40", "300", "500", "501", "3150"])
def test_nothing_is_defined_that_the_tables_do_not_cover(size: str) -> None:
    nominal = Decimal(size)
    defined = {name for name in defined_classes(nominal) if not name.lower().startswith("js")}
    impossible = set()
    if nominal > 500:
        impossible |= {"01", "0"}
    if nominal <= 1:
        impossible |= {"14", "15", "16", "17", "18"}
    assert defined == {name for name in covered_classes(nominal) if parts(name)[1] not in impossible}


SPECIAL_CASES = [
    # class, size in mm, lower and upper deviation in micrometres, where it is said
    ("M6", "250.001", "-41", "-9", "ISO 286-1, Table 2, footnote on M6"),
    ("M6", "315", "-41", "-9", "ISO 286-1, Table 2, footnote on M6"),
    ("M6", "250", "-37", "-8", "below the range of the footnote: -17 + 9"),
    ("M6", "316", "-46", "-10", "above the range of the footnote: -21 + 11"),
    ("M7", "300", "-52", "0", "the footnote names M6 only: -20 + 20"),
    ("N9", "3", "-29", "-4", "ISO 286-1, Table 3, N over IT8"),
    ("N9", "3.01", "-30", "0", "ISO 286-1, Table 3, N over IT8 above 3 mm"),
    ("K9", "3", "-25", "0", "ISO 286-1, Table 2, K over IT8 up to 3 mm"),
    ("k8", "25", "0", "33", "ISO 286-1, Table 5, k over IT7"),
    ("k3", "25", "0", "4", "ISO 286-1, Table 5, k up to IT3"),
    ("JS7", "10", "-7.5", "7.5", "ISO 286-2:2010, exact half"),
    ("js9", "11", "-21.5", "21.5", "ISO 286-2:2010, exact half"),
    ("P8", "25", "-55", "-22", "ISO 286-1, Table 3: no delta over IT7"),
    ("P7", "25", "-35", "-14", "ISO 286-1, Table 3: delta 8"),
    ("H13", "1", "0", "140", "ISO 286-1, Table 1: IT13 at 1 mm"),
    ("H14", "1.001", "0", "250", "ISO 286-1, Table 1: IT14 above 1 mm"),
    ("A13", "340", "1200", "2090", "ISO 286-2:1988, corrigendum 1:2006"),
    ("E8", "90", "72", "126", "ISO 286-2:1988, corrigendum 1:2006"),
    ("R10", "25", "-112", "-28", "ISO 286-2:1988, corrigendum 1:2006"),
    ("f9", "300", "-186", "-56", "ISO 286-2:1988, corrigendum 1:2006"),
]


@pytest.mark.parametrize(("name", "size", "lower", "upper", "source"), SPECIAL_CASES)
def test_special_cases(name: str, size: str, lower: str, upper: str, source: str) -> None:
    found = deviations(*parts(name), Decimal(size))
    assert (micrometres(found.lower), micrometres(found.upper)) == (Decimal(lower), Decimal(upper)), source


UNDEFINED = [
    # class, size in mm, part of the message, nearest class
    ("Q7", "25", "defines no hole letter Q", "P7"),
    ("i6", "25", "defines no shaft letter i", "h6"),
    ("AB7", "25", "defines no hole letter AB", "A7"),
    ("H19", "25", "defines no grade IT19", "H18"),
    ("H14", "1", "IT14 and coarser starts above 1 mm", "H13"),
    ("H01", "501", "IT01 ends at 500 mm", "H1"),
    ("H7", "3150.001", "sizes end at 3150 mm", ""),
    ("H7", "0", "sizes start above 0 mm", ""),
    ("h6", "-1", "sizes start above 0 mm", ""),
    ("A11", "1", "hole letter A starts above 1 mm", "C11"),
    ("b11", "0.8", "shaft letter b starts above 1 mm", "c11"),
    ("N9", "1", "coarser than IT8 starts above 1 mm", "N8"),
    ("K9", "3.1", "K has no value for grades coarser than IT8 above 3 mm", "K8"),
    ("K2", "20", "finer than IT3 above 3 mm", "K3"),
    ("J9", "20", "IT6, IT7 and IT8 only", "J8"),
    ("j4", "20", "IT5 to IT8 only", "j5"),
    ("j8", "3.1", "class j8 ends at 3 mm", "j7"),
    ("j9", "500", "IT5 to IT8 only", "h9"),
    ("j8", "500", "class j8 ends at 3 mm", "j7"),
    ("J9", "500", "IT6, IT7 and IT8 only", "J8"),
    ("j7", "501", "shaft letter j ends at 500 mm", "h7"),
    ("J7", "501", "hole letter J ends at 500 mm", "H7"),
    ("CD8", "10.1", "hole letter CD ends at 10 mm", "C8"),
    ("t6", "24", "shaft letter t starts above 24 mm", "s6"),
    ("v6", "14", "shaft letter v starts above 14 mm", "u6"),
    ("Y7", "18", "hole letter Y starts above 18 mm", "X7"),
    ("zc8", "501", "shaft letter zc ends at 500 mm", "u8"),
    ("c11", "600", "shaft letter c ends at 500 mm", "d11"),
]


@pytest.mark.parametrize(("name", "size", "message", "nearest"), UNDEFINED)
def test_what_is_not_defined_is_named(name: str, size: str, message: str, nearest: str) -> None:
    with pytest.raises(NotDefined) as caught:
        deviations(*parts(name), Decimal(size))
    assert message in caught.value.message
    assert caught.value.near[:1] == ((nearest,) if nearest else ())


def test_letters_of_mixed_case_are_no_class() -> None:
    with pytest.raises(NotDefined, match="all capital for a hole or all small for a shaft") as caught:
        deviations("Js", "7", Decimal(25))
    assert caught.value.near[0] == "js7"


@pytest.mark.parametrize(
    ("grade", "size", "near"),
    [("19", "25", ("IT18", "IT17")), ("14", "1", ("IT13", "IT12")), ("01", "600", ("IT1", "IT2")), ("7", "4000", ())],
)
def test_tolerances_that_are_not_defined_name_near_grades(grade: str, size: str, near: tuple[str, ...]) -> None:
    with pytest.raises(NotDefined) as caught:
        tolerance(grade, Decimal(size))
    assert caught.value.near == near


@pytest.mark.parametrize(
    ("text", "split", "known"),
    [
        ("H7", ("H", "7"), True),
        ("js13", ("js", "13"), True),
        ("ZA01", ("ZA", "01"), True),
        ("h0", ("h", "0"), True),
        ("Q7", ("Q", "7"), False),
        ("H19", ("H", "19"), False),
        ("Js7", None, False),
        ("H007", None, False),
        ("H07", None, False),
        ("H", None, False),
        ("7", None, False),
        ("H7/g6", None, False),
        (" H7", None, False),
        ("", None, False),
    ],
)
def test_the_shape_of_a_class(text: str, split: tuple[str, str] | None, known: bool) -> None:
    assert split_class(text) == split
    assert is_class(text) is known


@pytest.mark.parametrize(
    ("grade", "size", "half_um"),
    [("7", "10", "7"), ("9", "11", "21"), ("8", "25", "16"), ("6", "25", "6.5"), ("12", "4", "60"), ("7", "25", "10")],
)
def test_rounding_of_js_in_the_1988_edition(grade: str, size: str, half_um: str) -> None:
    found = rounded_symmetrical(grade, Decimal(size))
    assert (micrometres(found.lower), micrometres(found.upper)) == (-Decimal(half_um), Decimal(half_um))


def every_class() -> Iterator[tuple[str, str, Decimal, Deviations]]:
    for _, upto in RANGES:
        for name in defined_classes(upto):
            letters, grade = parts(name)
            yield letters, grade, upto, deviations(letters, grade, upto)


def test_every_defined_class_has_the_width_of_its_grade() -> None:
    wrong = [found for found in every_class() if not found[3].width == tolerance(found[1], found[2]) > 0]
    assert wrong == []


def breaks_its_letter(letters: str, found: Deviations) -> bool:
    if letters in {"H", "h"}:
        return (found.lower if letters == "H" else found.upper) != 0
    if letters in {"JS", "js"}:
        return found.lower != -found.upper
    return False


def test_h_starts_at_zero_and_js_is_symmetrical() -> None:
    assert [found[:3] for found in every_class() if breaks_its_letter(found[0], found[3])] == []


MIRRORED_IN_EVERY_GRADE = ("A", "B", "C", "CD", "D", "E", "EF", "F", "FG", "G", "H", "JS")
PRESS_LETTERS = ("P", "R", "S", "T", "U", "V", "X", "Y", "Z", "ZA", "ZB", "ZC")


def mirrored_pairs(size: Decimal) -> Iterator[tuple[str, str]]:
    """Letters and grades for which the general rule holds: hole and shaft mirror each other about zero."""
    yield from ((letters, grade) for letters in MIRRORED_IN_EVERY_GRADE for grade in GRADES)
    coarse = GRADES[GRADES.index("8") :] if 3 < size <= 500 else GRADES
    yield from ((letters, grade) for letters in PRESS_LETTERS for grade in coarse)
    yield from (("M", grade) for grade in GRADES[GRADES.index("9") :])


@given(SIZES)
def test_holes_mirror_shafts_by_the_general_rule(size: Decimal) -> None:
    for letters, grade in mirrored_pairs(size):
        hole, shaft = find_deviations(letters, grade, size), find_deviations(letters.lower(), grade, size)
        if hole is None or shaft is None:
            assert hole is shaft
        else:
            assert (hole.lower, hole.upper) == (-shaft.upper, -shaft.lower), (letters, grade)


def equivalent_pairs() -> Iterator[tuple[str, str, str]]:
    """Letters, hole grade and next finer shaft grade to which the special rule applies."""
    for letters in ("K", "M", "N", *PRESS_LETTERS):
        coarsest = "7" if letters in PRESS_LETTERS else "8"
        for rank in range(GRADES.index("5"), GRADES.index(coarsest) + 1):
            yield letters, GRADES[rank], GRADES[rank - 1]


@pytest.mark.parametrize("size", [upto for _, upto in RANGES if 3 < upto <= 500])
def test_hole_basis_and_shaft_basis_are_equivalent_by_the_special_rule(size: Decimal) -> None:
    """ISO 286-1: H7 with p6 has the clearances of P7 with h6; M6 with h5 over 250 to 315 mm is the exception."""
    unequal = []
    for letters, hole_grade, shaft_grade in equivalent_pairs():
        hole, shaft = find_deviations(letters, hole_grade, size), find_deviations(letters.lower(), shaft_grade, size)
        if hole is None or shaft is None:
            assert hole is shaft
            continue
        basic_hole, basic_shaft = deviations("H", hole_grade, size), deviations("h", shaft_grade, size)
        if basic_hole.lower - shaft.upper != hole.lower - basic_shaft.upper:
            unequal.append(letters + hole_grade)
    assert unequal == (["M6"] if 250 < size <= 315 else [])


@given(st.data())
def test_limits_step_only_at_range_bounds(data: st.DataObject) -> None:
    over, upto = data.draw(st.sampled_from(RANGES))
    size = data.draw(st.decimals(min_value=over, max_value=upto, places=3).filter(lambda size: size > over))
    letters = data.draw(st.sampled_from(HOLE_LETTERS + SHAFT_LETTERS))
    for grade in GRADES:
        assert find_deviations(letters, grade, size) == find_deviations(letters, grade, upto)


@pytest.mark.parametrize("bound", BOUNDS[:-1])
def test_a_size_on_a_bound_belongs_to_the_lower_range(bound: Decimal) -> None:
    below, above = bound - Decimal("0.001"), bound + Decimal("0.001")
    classes = defined_classes(bound)
    everything = {*classes, *defined_classes(above)}
    assert classes == defined_classes(below)
    assert all(deviations(*parts(name), bound) == deviations(*parts(name), below) for name in classes)
    assert any(find_deviations(*parts(name), above) != find_deviations(*parts(name), bound) for name in everything)


@given(SIZES, st.sampled_from("ABCDEFGHIJKLMNOPQRSTUVWXYZ"), st.sampled_from([*GRADES, "19", "99"]), st.booleans())
def test_near_classes_are_defined_and_of_the_same_kind(size: Decimal, letter: str, grade: str, internal: bool) -> None:
    letters = letter if internal else letter.lower()
    if find_deviations(letters, grade, size) is not None:
        assert letters + grade in defined_classes(size)
        return
    with pytest.raises(NotDefined) as caught:
        deviations(letters, grade, size)
    assert len(caught.value.near) == 4
    assert all(is_hole(name) == internal and name in defined_classes(size) for name in caught.value.near)


@given(SIZES)
def test_defined_classes_of_holes_and_shafts_make_up_all(size: Decimal) -> None:
    assert defined_classes(size, internal=True) + defined_classes(size, internal=False) == defined_classes(size)
    assert {"H7", "h6", "JS11", "g6"} <= set(defined_classes(size))


@pytest.mark.parametrize("size", ["0", "-5", "3150.1"])
def test_no_class_is_defined_outside_of_the_sizes(size: str) -> None:
    assert defined_classes(Decimal(size)) == ()
