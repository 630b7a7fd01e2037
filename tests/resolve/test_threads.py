"""Threads as they are typed, to the limits that the standards publish; and which side, class and pitch is meant."""

from __future__ import annotations

from decimal import Decimal

import pytest

from sizewright.resolve.answer import answer, answer_json
from sizewright.resolve.characteristic import Characteristic, Limits, Status
from sizewright.resolve.context import Context, Unit

from ..standards.threads.thread_prints import FIELDS, expected, published

D = Decimal


def only(callout: str, context: Context) -> Characteristic:
    given = answer(callout, context)
    assert given.error is None, given.error
    (made,) = given.characteristics
    return made


def bounds(rows: tuple[Limits, ...]) -> dict[str, object]:
    """Limits by the names that the published tables have."""
    found: dict[str, object] = {}
    for row in rows:
        name = row.of.removesuffix(" diameter")
        found |= {f"{name}_min": row.lower, f"{name}_max": row.upper}
    return found


METRIC = [row for row in published("metric_limits") if row["internal_external"] == "external"]
INNER = [row for row in published("metric_limits") if row["internal_external"] == "internal"]
UNIFIED = published("unified_limits")


# Sources: those of the rows, named in the table.
@pytest.mark.parametrize("row", METRIC, ids=lambda row: row["designation"])
def test_a_metric_screw_typed_has_its_published_limits(row: dict[str, str]) -> None:
    made = only(row["designation"], Context())
    want = expected(row, FIELDS, row["differs"])
    assert want == {name: value for name, value in bounds(made.limits).items() if name in want}
    assert made.side == "external"


@pytest.mark.parametrize("row", INNER, ids=lambda row: row["designation"])
def test_a_metric_nut_typed_has_its_published_limits(row: dict[str, str]) -> None:
    made = only(row["designation"], Context("inch"))  # the unit of the sheet does not matter to it
    want = expected(row, FIELDS, row["differs"])
    want.pop("major_max", None)  # a reference figure of ASME B1.13M, not a limit: it stands in a remark
    assert want == {name: value for name, value in bounds(made.limits).items() if name in want}
    assert (made.side, made.unit) == ("internal", "mm")


@pytest.mark.parametrize("edition", ["1989", "2003"])
@pytest.mark.parametrize("row", UNIFIED, ids=lambda row: f"{row['designation']}-{row['class']}")
def test_a_unified_thread_typed_has_its_published_limits(row: dict[str, str], edition: str) -> None:
    made = only(f"{row['designation']}-{row['class']}", Context("inch", edition=edition))
    want = expected(row, FIELDS, "" if edition == "1989" else row["b1_30_differs"])
    assert want == {name: value for name, value in bounds(made.limits).items() if name in want}
    assert any(edition in reason for reason in made.why)


@pytest.mark.parametrize("row", published("acme_limits"), ids=lambda row: f"{row['diameter']}-{row['tpi']}")
def test_an_acme_screw_typed_has_its_published_limits(row: dict[str, str]) -> None:
    made = only(f"{row['diameter']}-{row['tpi']} ACME-2G EXT", Context("inch"))
    assert {field: D(row[field]) for field in FIELDS} == bounds(made.limits)


@pytest.mark.parametrize("row", published("tr_limits"), ids=lambda row: f"Tr{row['diameter']}x{row['pitch']}")
def test_a_trapezoidal_screw_typed_has_its_published_limits(row: dict[str, str]) -> None:
    made = only(f"Tr{row['diameter']}x{row['pitch']}-7e", Context())
    names = zip(("d_max", "d_min", "d2_max", "d2_min", "d3_max", "d3_min"), FIELDS, strict=True)
    assert {field: D(row[name]) for name, field in names} == bounds(made.limits)


@pytest.mark.parametrize("row", published("g_open"), ids=lambda row: f"G{row['size']}")
def test_a_pipe_thread_typed_has_its_published_limits(row: dict[str, str]) -> None:
    outer, inner = only(f"G{row['size']}A", Context()), only(f"G {row['size']}", Context())
    major, pitch, minor = (D(row[f"{name}_diameter"]) for name in ("major", "pitch", "minor"))
    assert bounds(outer.limits)["pitch_min"] == pitch - D(row["pitch_tolerance"])
    assert bounds(outer.limits)["major_min"] == major - D(row["external_major_tolerance"])
    assert bounds(inner.limits)["pitch_max"] == pitch + D(row["pitch_tolerance"])
    assert bounds(inner.limits)["minor_max"] == minor + D(row["internal_minor_tolerance"])


# ASME B1.20.1, Table 2: L1 and the pitch, in inches. (callout, L1, threads per inch)
NPT = [
    ("1/8-27 NPT", "0.1615", 27),
    ("1/4-18 NPT", "0.2278", 18),
    ("1/2 NPT", "0.320", 14),
    ("1 NPT", "0.400", D("11.5")),
]


@pytest.mark.parametrize(("callout", "l1", "tpi"), NPT)
def test_a_taper_thread_is_checked_by_its_gauge_plane(callout: str, l1: str, tpi: Decimal) -> None:
    made = only(callout, Context("inch"))
    assert made.either is not None
    (plane,) = made.either.external
    turn = (1 / D(tpi)).quantize(D("0.00001"))
    assert (plane.of, plane.lower, plane.upper) == ("gauge plane", D(l1) - turn, D(l1) + turn)
    (face,) = made.either.internal
    assert (face.lower, face.upper) == (-turn, turn)
    given = answer(callout, Context("inch"))
    assert any("not by diameters" in remark.text for remark in given.remarks)


# What tells the side, the class and the rest. (callout, unit, side, class, part of a reason or remark)
MEANT: list[tuple[str, Unit, str | None, str | None, str]] = [
    # ISO 965-1, designation: 6H and 6g where no class stands, 5H and 6h to M1.4
    ("M10 THRU", "mm", "internal", "6H", "no class typed: 6H taken (ISO 965-1"),
    ("M10 ↧12", "mm", "internal", "6H", "no class typed"),
    ("4 HOLES M10", "mm", "internal", "6H", "no class typed"),
    ("TAP M10", "mm", "internal", "6H", "no class typed"),
    ("M10 EXT", "mm", "external", "6g", "no class typed: 6g taken"),
    ("M1.2 STUD", "mm", "external", "6h", "no class typed: 6h taken"),
    ("M10", "mm", None, None, "nothing tells the side"),
    ("M10", "mm", None, None, "no pitch typed: the coarse pitch 1.5 mm (ISO 261)"),
    ("M16xPh3P1.5-6H (two starts)", "mm", "internal", "6H", "2 starts"),
    ("M20x2-7g6g-40", "mm", "external", "7g6g", "length of engagement 40 mm: group L"),
    ("M20x2-6H-L", "mm", "internal", "6H", "ISO 965-1 recommends 7H"),
    ("M10x1.3-6g", "mm", "external", "6g", "not a standard combination"),
    # ISO 965-1 tabulates the basic profile, ISO 965-4 (hot dip galvanized) the rounded root
    ("M10-6g", "mm", "external", "6g", "minor max: d1 + es, boundary of the basic profile"),
    ("M10-6az", "mm", "external", "6az", "minor max: d3 + es, root rounded with H/6"),
    # ISO 5855-2
    ("MJ8x1 EXT", "mm", "external", "4h6h", "ISO 5855-2"),
    # ASME B1.1: 2A and 2B for general use; Table 2 for the series
    ("1/4-20 TAP", "inch", "internal", "2B", "no series typed: UNC"),
    ("1/2 UNF-2A", "inch", "external", "2A", "no threads per inch typed: 20"),
    ("10-24 UNC-2B", "inch", "internal", "2B", "ASME B1.1-2003"),
    ("2-4.5 UNC-2B", "inch", "internal", "2B", "LE = D"),
    ("1/4-28 UNRF", "inch", "external", "2A", "no class typed: 2A"),
    ("1/4-28 UNJF EXT", "inch", "external", "3A", "no class typed: 3A"),
    ("2.500-28 UNS-2A LE 1.00", "inch", "external", "2A", "1.25"),
    ("1/2-13 UNC-2A AFTER PLATING", "inch", "external", "2A", "for the drawing to say"),
    ("1/2-13 UNC-2B HELICAL INSERT", "inch", "internal", "2B", "tapped larger"),
    # ISO 2903, ASME B1.5, ISO 228-1, ISO 7-1
    ("Tr40x7 NUT", "mm", "internal", "7H", "ISO 2903: tolerance quality medium"),
    ("1-5 ACME", "inch", None, "2G", "no class typed: 2G"),
    ("G1/2", "mm", "internal", None, "an external one has to state its class"),
    ("R 1/4", "mm", "external", None, 'R 1/4" is a radius'),
    ("Rc1/4", "mm", "internal", None, "taper plug gauge"),
    ("Rp1/4", "mm", "internal", None, "taper plug gauge"),
    # common practice, no source: how people type them
    ("M10-1.25", "mm", None, None, "nothing tells the side"),
    ("M8 P1.25 TAP", "mm", "internal", "6H", "no class typed"),
    ("4-M6 THRU", "mm", "internal", "6H", "no class typed"),
    ("EXTERNAL THREAD M8", "mm", "external", "6g", "no class typed"),
    ("10-32 TAPPED HOLES", "inch", "internal", "2B", "no series typed: UNF"),
    ("1/4-20 TPI", "inch", None, None, "no series typed: UNC"),
    ("1/2 MNPT", "inch", "external", None, "L1 ring gauge"),
    ("1/2-10 ACME-2C", "inch", None, "2C", "not held here"),
    ("G1/2-14", "mm", "internal", None, "(ISO 228-1)"),
    ("1/4-18 NPTF-2 EXT", "inch", "external", "2", "truncation has to be inspected"),
    # An engagement outside the standard's rules, and a class that the hole contradicts: common practice, no source
    ("Tr40x7-7e LE 40", "mm", "external", "7e", "engagement typed does not enter"),
    ("Tr40x7 NUT -L", "mm", "internal", "7H", "engagement typed does not enter"),
    ("M10-6g THRU", "mm", "external", "6g", "6g is an external thread, on a hole"),
    # ISO 965-1, Table 2: at M20x2 the group N ends with 24 mm; 1 in is 25.4 mm
    ("M20x2-7g6g-N-40", "mm", "external", "7g6g", "a length of 40 mm is group L, typed is N"),
    ("M20x2-6H LE 1in", "mm", "internal", "6H", "length of engagement 25.4 mm: group L"),
    ("M20x2-6H LE 20", "inch", "internal", "6H", "the length of engagement is taken in mm"),
    # ASME B1.5, ASME B1.8
    ("1-5 ACME EXT", "inch", "external", "2G", "ASME B1.5: preferred for general purpose"),
    ("1-5 STUB ACME EXT", "inch", "external", "2G", "no class typed: 2G taken (ASME B1.8)"),
    # Prints of ASME B1.1 to 1989 against ASME B1.30: the figures of tests/standards/threads
    ("5/8-11 UNC-2A", "inch", "external", "2A", "editions to 1989 round otherwise: major 0.6113, major 0.6234"),
    ("1/4-18 NPT EXT", "inch", "external", None, "one turn either way, ASME B1.20.1"),
    ("1/4-18 NPTF EXT", "inch", "external", None, "one turn either way, ASME B1.20.3"),
    # ASME B1.1 Table 2: 20 to the inch is coarse at 1/4, 28 fine, and so with the rounded root
    ("1/4-20 UNR-2A", "inch", "external", "2A", "series UNRC"),
    ("1/4-28 UNR-2A", "inch", "external", "2A", "series UNRF"),
    # ISO 7-1, Table 1: 1/4 parallel ±1.25 turns of the taper on the diameter; taper by its gauge plane
    ("Rp1/4", "mm", "internal", None, "±104 µm on every diameter"),
    ("Rc1/4", "mm", "internal", None, "gauge plane ±1.7 mm"),
]  # fmt: skip


@pytest.mark.parametrize(("callout", "unit", "side", "class_", "said"), MEANT, ids=[row[0] for row in MEANT])
def test_side_class_and_reason(callout: str, unit: Unit, side: str | None, class_: str | None, said: str) -> None:
    given = answer(callout, Context(unit))
    assert given.error is None, given.error
    made = given.characteristics[0]
    assert (made.side, made.class_) == (side, class_)
    assert any(said in text for text in (*made.why, *(remark.text for remark in given.remarks)))
    thread = made.extra["thread"]
    assert isinstance(thread, dict)
    assert thread["class"] == class_


# What has no reason to be remarked: (callout, unit, part of a remark that is not made).
UNSAID: list[tuple[str, Unit, str]] = [
    ("Tr40x7-7e", "mm", "engagement"),
    ("M10-6H THRU", "mm", "on a hole"),
    ("M10 THRU", "mm", "on a hole"),
    ("M20x2-7g6g-L-40", "mm", "typed is"),
    ("M20x2-6H LE 20mm", "inch", "is taken in"),
    ("1/2-13 UNC-2B", "inch", "round otherwise"),
    ("1/4-18 NPT EXT", "inch", "truncation"),
]


@pytest.mark.parametrize(("callout", "unit", "said"), UNSAID, ids=[row[0] for row in UNSAID])
def test_what_is_as_it_should_be_is_not_remarked(callout: str, unit: Unit, said: str) -> None:
    given = answer(callout, Context(unit))
    assert given.error is None, given.error
    assert not [remark.text for remark in given.remarks if said in remark.text]


# The series that a thread is of, typed or told by its pitch: ASME B1.1 Table 2. (callout, series)
@pytest.mark.parametrize(
    ("callout", "series"),
    [
        ("1/4-20 UNR-2A", "UNRC"),
        ("1/4-28 UNR-2A", "UNRF"),
        ("1/4-20 UN-2A", "UN"),
        ("1/4-20-2A", "UNC"),
        ("2-8 UNR-2A", "UNR"),
    ],
)
def test_a_thread_is_of_the_series_of_its_pitch(callout: str, series: str) -> None:
    thread = only(callout, Context("inch")).extra["thread"]
    assert isinstance(thread, dict)
    assert thread["form"] == series


# Pitch and lead in inches, to the four places that they are written to: designation for several starts after ASME B1.1
# (from memory), the arithmetic our own. (callout, threads per inch, starts)
LEADS = [
    ("2.500-.0833P-.1667L UNS-2A", "12", 2),
    ("2.500-.0833P-.1666L UNS-2A", "12", 2),
    ("2.500-.0833P-.25L UNS-2A", "12", 3),
    (".500-.1667P-.3333L ACME", "6", 2),
    ("1.000-.1P-.2L ACME", "10", 2),
    ("1.000-.16P-.32L ACME", "6.25", 2),
]


@pytest.mark.parametrize(("callout", "tpi", "starts"), LEADS)
def test_a_lead_in_inches_tells_the_starts(callout: str, tpi: str, starts: int) -> None:
    thread = only(callout, Context("inch")).extra["thread"]
    assert isinstance(thread, dict)
    assert (thread["tpi"], thread["starts"]) == (tpi, starts)


@pytest.mark.parametrize(
    "callout", ["2.500-.0833P-.17L UNS-2A", ".750-.0625P-.2L UNF-2A", ".750-.0625P-.03L UNF-2A", "M16xPh3P1.7"]
)
def test_a_lead_that_is_no_multiple_of_the_pitch_is_refused(callout: str) -> None:
    error = answer(callout, Context("inch")).error
    assert error is not None
    assert "is not a whole multiple of the pitch" in error.message


def test_a_centralizing_acme_thread_is_read_without_limits() -> None:
    made = only("1/2-10 ACME-2C EXT", Context("inch"))
    assert (made.status, made.limits) == (Status.UNTOLERANCED, ())


# Threads that are none, or two: (callout, unit, message, hint). ASME B1.1 Table 2 for the series, ISO 228-1 and
# ASME B1.20.1 for pipes; that a whole number before a fraction can be a count is common practice, no source.
REFUSED: list[tuple[str, Unit, str, str]] = [
    ("2 1/4-20", "inch", "2 1/4-20 can be a count and a thread 1/4-20 UNC", "2x 1/4-20 UNC, or 2 1/4-20 UN"),
    ("2 1/2-13", "inch", "2 1/2-13 can be a count and a thread 1/2-13 UNC", "2x 1/2-13 UNC"),
    ("3 UNC", "inch", "3 can be a number size or inches", '#3-24 or 3"-24'),
    ("8-20 2B", "inch", "8 can be a number size or inches", '#8-20 or 8"-20'),
    ("1/4 UNS-2A", "inch", "threads per inch are not typed, and 1/4 has no UNS threads", "1/4-20 UNC"),
    ("1-1/2 UN", "inch", "threads per inch are not typed, and 1 1/2 has several UN threads", "1 1/2-20 UN"),
    ("1/2 8UN", "inch", "1/2-8 is not a UN thread", "1/2-13 UNC"),
    ("6 UNEF", "inch", "6 has no UNEF threads", ""),
    (".500-.07P-.14L ACME", "inch", "a pitch of 0.07 in is no number of threads per inch", ""),
    ("M10-6g6H", "mm", "Class 6g6H is not for an external thread", "6g"),
    ("G1/2-11", "mm", "G1/2 has 14 threads per inch, typed are 11", ""),
    ("1/4-20 NPT", "inch", "1/4 NPT has 18 threads per inch, typed are 20", ""),
    ("G1/2 (two starts)", "mm", "a pipe thread of 2 starts", ""),
]


@pytest.mark.parametrize(("callout", "unit", "message", "hint"), REFUSED, ids=[row[0] for row in REFUSED])
def test_what_is_no_thread_or_two_is_refused(callout: str, unit: Unit, message: str, hint: str) -> None:
    error = answer(callout, Context(unit)).error
    assert error is not None
    assert error.message.startswith(message)
    assert hint in error.hint


# Read as one thread of that many inches: (callout, threads per inch). ASME B1.1 Table 2.
@pytest.mark.parametrize(
    ("callout", "tpi"), [("2 1/4-8 UN-2B", "8"), ("2 1/4 UNC-2B", "4.5"), ("1 1/4-7 UNC-2B", "7"), ("2 1/4-8", "8")]
)
def test_a_mixed_number_is_a_size_where_the_fraction_alone_is_no_usual_thread(callout: str, tpi: str) -> None:
    thread = only(callout, Context("inch")).extra["thread"]
    assert isinstance(thread, dict)
    assert (thread["size"], thread["tpi"]) == (callout[:5], tpi)


def test_a_pair_of_classes_is_the_nut_and_the_screw() -> None:
    for callout in ("M8x1.25-6H/6g", "M8x1.25-6g/6H", "1/4-20 UNC-2B/2A"):
        inner, outer = answer(callout, Context()).characteristics
        assert (inner.side, outer.side) == ("internal", "external")


def test_a_radius_in_inches_stays_a_radius() -> None:
    assert only("R 1/4", Context("inch")).kind == "radius"
    assert only('R 1/4"', Context("mm")).kind == "radius"
    assert only("R 1/4 ±1/64", Context("inch")).kind == "radius"


def test_a_hole_tapped_for_an_insert_has_no_limits_and_says_why() -> None:
    made = only("M8x1.25 STI", Context())
    assert made.status is Status.UNTOLERANCED
    assert made.limits == ()
    assert "larger than the thread" in made.why[-1]


# The hole under a thread: the lead of hand taps in pitches (ASME B94.9, from memory). (callout, remark, level)
DEPTHS = [
    ("Ø4.2 ↧13 M5x0.8-6H ↧10", "3.7 pitches for the tap to run out, a bottoming tap", "info"),
    ("Ø4.2 ↧15 M5x0.8-6H ↧10", "6.2 pitches for the tap to run out, a plug tap", "info"),
    ("Ø4.2 ↧18 M5x0.8-6H ↧10", "10.0 pitches for the tap to run out, a taper tap", "info"),
    ("Ø4.2 ↧11 M5x0.8-6H ↧10", "too little even for a bottoming tap", "warning"),
    ("M5 ↧10/PILOT HOLE ↧10", "no room for the tap", "warning"),
    ("Ø4.2 ↧13 M5x0.8-6H ↧.4in", None, ""),
    ("Ø4.2 ↧13 ±0.5 M5x0.8-6H ↧10 ±0.5", "2.5 pitches for the tap to run out, a bottoming tap", "info"),
    ("Ø4.2 ↧14 MAX; M5x0.8-6H ↧12 MIN", None, ""),
    ("Ø12 ↧5; M5x0.8-6H ↧10", None, ""),
]  # fmt: skip


@pytest.mark.parametrize(("callout", "said", "level"), DEPTHS)
def test_the_depth_of_a_thread_is_held_against_its_hole(callout: str, said: str | None, level: str) -> None:
    remarks = [remark for remark in answer(callout, Context()).remarks if "deep in a hole" in remark.text]
    assert [(said in each.text, each.level) for each in remarks if said] == ([(True, level)] if said else [])


def test_depths_and_lengths_belong_to_the_thread_before_them() -> None:
    kinds = [made.kind for made in answer("2X M8 ↧16\nØ6.8 ↧20", Context()).characteristics]
    assert kinds == ["thread", "thread depth", "diameter", "depth"]
    assert [made.kind for made in answer("M8, 25 LONG", Context()).characteristics] == ["thread", "thread length"]
    assert [made.kind for made in answer("Ø8 x 25 LONG", Context()).characteristics] == ["diameter", "length"]


# What a review by fresh eyes found read as something else. (callout, the pitches of its threads, in order)
PITCHES = [
    ("M10-1.25", ["1.25"]),
    ("M8x1 THREAD", ["1"]),
    ("M8x1.25 THRU", ["1.25"]),
    ("M8x1.25 DEEP 16", ["1.25"]),
    ("M8 x 6 DEEP", ["1.25"]),
    ("M8\nM10", ["1.25", "1.5"]),
    ("M6 ↧10 M8 ↧12", ["1", "1.25"]),
    ("Ø5 ↧12 M6 ↧10", ["1"]),
]


@pytest.mark.parametrize(("callout", "pitches"), PITCHES)
def test_a_pitch_is_told_from_a_depth(callout: str, pitches: list[str]) -> None:
    threads = [made.extra["thread"] for made in answer(callout, Context()).characteristics if made.kind == "thread"]
    assert [thread["pitch"] for thread in threads if isinstance(thread, dict)] == pitches


def test_full_thread_is_a_depth_in_a_hole_and_a_length_on_a_screw() -> None:
    kinds = [
        answer(f"1/2-13 UNC-2{side} .50 MIN FULL THREAD", Context("inch")).characteristics[1].kind for side in "AB"
    ]
    assert kinds == ["thread length", "thread depth"]


def test_an_inch_thread_on_a_metric_sheet_keeps_both_units_apart() -> None:
    given = answer("#10-24 UNC-2B ↧14.00", Context("mm"))
    assert [made.unit for made in given.characteristics] == ["inch", "mm"]
    assert any("a thread in inch, its depth in mm" in remark.text for remark in given.remarks)


def test_the_answer_tells_the_thread_as_the_promise_has_it() -> None:
    (made,) = answer_json(answer("Tr40x14(P7)LH-7e", Context()))["characteristics"]
    assert made["thread"] == {
        "form": "Tr", "size": "40", "pitch": "7", "starts": 2, "hand": "left", "class": "7e", "lead": "14",
    }  # fmt: skip
    (made,) = answer_json(answer("1/4-20 UNC-2B", Context("inch")))["characteristics"]
    assert made["thread"] == {
        "form": "UNC", "size": "1/4", "tpi": "20", "starts": 1, "hand": "right", "class": "2B",
    }  # fmt: skip
    assert made["nominal"] == "0.25"
