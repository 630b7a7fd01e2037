from __future__ import annotations

from collections.abc import Callable
from decimal import ROUND_HALF_UP, Decimal

import pytest

from sizewright.standards.errors import NotDefined
from sizewright.standards.threads.acme import acme_limits, preferred_tpi, stub_basic
from sizewright.standards.threads.pipe import (
    g_limits,
    g_sizes,
    iso7_gauging,
    iso7_sizes,
    npt_gauging,
    npt_pipe_diameter,
    npt_sizes,
    rp_limits,
)
from sizewright.standards.threads.trapezoidal import basic_diameters, is_standard, pitches_of, tr_limits

from .thread_prints import published, spread

D = Decimal


@pytest.mark.parametrize("row", published("tr_limits"), ids=lambda row: f"Tr{row['diameter']}x{row['pitch']}")
def test_trapezoidal_7e_equals_the_printed_chart(row: dict[str, str]) -> None:
    value = {name: D(cell) for name, cell in row.items()}
    limits = tr_limits(value["diameter"], value["pitch"], "7e", internal=False)
    assert (value["d_min"], value["d_max"]) == limits.major
    assert (value["d2_min"], value["d2_max"]) == limits.pitch
    assert (value["d3_min"], value["d3_max"]) == limits.minor


@pytest.mark.parametrize("row", published("tr_basic"), ids=lambda row: f"Tr{row['diameter']}x{row['pitch']}")
def test_trapezoidal_basic_diameters_equal_iso_2904(row: dict[str, str]) -> None:
    value = {name: D(cell) for name, cell in row.items()}
    basic = basic_diameters(value["diameter"], value["pitch"])
    assert (value["d2"], value["d3"]) == (basic.pitch, basic.external_minor)
    assert (value["D1"], value["D4"]) == (basic.internal_minor, basic.internal_major)
    assert is_standard(value["diameter"], value["pitch"])


def test_trapezoidal_nut_and_starts() -> None:
    nut = tr_limits(D(40), D(7), "7H", internal=True)
    assert nut.major == (D(41), None)
    assert nut.pitch == (D("36.5"), D("36.975"))
    assert nut.minor == (D(33), D("33.560"))
    two_starts = tr_limits(D(40), D(7), "7e", internal=False, lead=D(14))
    # 355 um x 1.12 = 397.6, to the micrometre.
    assert two_starts.pitch == (D("35.977"), D("36.375"))
    assert any("2 starts" in reason for reason in two_starts.why)


@pytest.mark.parametrize(
    ("diameter", "pitch", "tolerance_class", "internal", "near"),
    [
        (40, "7.5", "7e", False, "Tr40x7"),
        (40, "7", "6g", False, "7e"),
        (40, "7", "7e", True, "7H"),
        (8, "7", "7e", False, "Tr8x3"),
    ],
)
def test_trapezoidal_refusals(diameter: int, pitch: str, tolerance_class: str, internal: bool, near: str) -> None:
    with pytest.raises(NotDefined) as refusal:
        tr_limits(D(diameter), D(pitch), tolerance_class, internal)
    assert near in refusal.value.near


def test_trapezoidal_plan() -> None:
    assert pitches_of(D(40))[0] == 7
    with pytest.raises(NotDefined, match="Tr41"):
        pitches_of(D(41))


@pytest.mark.parametrize("row", published("acme_limits"), ids=lambda row: f"{row['diameter']}-{row['tpi']}")
def test_acme_2g_screw_equals_the_suppliers_table(row: dict[str, str]) -> None:
    value = {name: D(cell) for name, cell in row.items()}
    limits = acme_limits(value["diameter"], value["tpi"], "2G", internal=False)
    assert (value["major_min"], value["major_max"]) == limits.major
    assert (value["pitch_min"], value["pitch_max"]) == limits.pitch
    assert (value["minor_min"], value["minor_max"]) == limits.minor


@pytest.mark.parametrize("row", published("acme_basic"), ids=lambda row: f"{row['diameter']}-{row['tpi']}")
def test_acme_nut_starts_from_the_basic_diameters(row: dict[str, str]) -> None:
    value = {name: D(cell) for name, cell in row.items()}
    limits = acme_limits(value["diameter"], value["tpi"], "2G", internal=True)
    assert (value["pitch_diameter"], value["minor"]) == (limits.pitch[0], limits.minor[0])
    assert preferred_tpi(value["diameter"]) == value["tpi"]


@pytest.mark.parametrize(("thread_class", "near"), [("2C", "2G"), ("5G", "3G")])
def test_acme_classes_without_limits_are_refused(thread_class: str, near: str) -> None:
    with pytest.raises(NotDefined) as refusal:
        acme_limits(D(1), D(5), thread_class, internal=False)
    assert near in refusal.value.near


def test_acme_outside_the_preferred_list() -> None:
    assert any("not a preferred" in note for note in acme_limits(D("0.625"), D(6), "2G", internal=False).remarks)
    with pytest.raises(NotDefined, match="too coarse"):
        acme_limits(D("0.25"), D(4), "2G", internal=False)
    with pytest.raises(NotDefined, match="preferred diameter"):
        preferred_tpi(D("0.7"))


@pytest.mark.parametrize("row", published("g_open"), ids=lambda row: f"G{row['size']}")
def test_g_limits_equal_an_independent_open_table(row: dict[str, str]) -> None:
    size = row["size"]
    major, pitch, minor = (D(row[name]) for name in ("major_diameter", "pitch_diameter", "minor_diameter"))
    width = D(row["pitch_tolerance"])
    class_a, class_b = g_limits(size, False, "A"), g_limits(size, False, "B")
    internal = g_limits(size, True)
    assert class_a.major == class_b.major == (major - D(row["external_major_tolerance"]), major)
    assert class_a.pitch == (pitch - width, pitch)
    # ISO 228-1: class B has twice the tolerance of class A.
    assert class_b.pitch == (pitch - 2 * width, pitch)
    assert class_a.minor == (None, minor)
    assert internal.major == (major, None)
    assert internal.pitch == (pitch, pitch + width)
    assert internal.minor == (minor, minor + D(row["internal_minor_tolerance"]))


def test_g_has_all_sizes_of_the_open_table() -> None:
    assert list(g_sizes()) == [row["size"] for row in published("g_open")]


@pytest.mark.parametrize("size", iso7_sizes())
def test_iso_7_checks_the_gauge_plane(size: str) -> None:
    external, internal = iso7_gauging(size, "R"), iso7_gauging(size, "Rc")
    parallel = rp_limits(size)
    basic = g_limits(size, True)
    assert (external.major, external.pitch, external.minor) == (basic.major[0], basic.pitch[0], basic.minor[0])
    # A plane that moves along the axis moves the diameter by a sixteenth; the print rounds both.
    half = spread(parallel.pitch) / 2
    assert abs(half - internal.plane_tolerance / 16) < D("0.005")
    assert any("not by diameters" in note for note in external.remarks)
    assert external.useful_length is not None


def test_iso_7_half_inch() -> None:
    gauging = iso7_gauging("1/2", "R")
    assert (gauging.gauge_length, gauging.plane_tolerance, gauging.turns) == (D("8.2"), D("1.8"), D(1))
    assert gauging.useful_length == D("13.2")


@pytest.mark.parametrize("row", published("npt_positions"), ids=lambda row: f"{row['nps']} NPT")
def test_npt_gauge_plane_equals_the_prints(row: dict[str, str]) -> None:
    gauging = npt_gauging(row["nps"], internal=False)
    assert gauging.gauge_length == D(row["L1"])
    assert gauging.useful_length == D(row["L2"])
    assert gauging.turns == 1
    assert gauging.plane_tolerance == (1 / D(row["tpi"])).quantize(D("0.00001"), ROUND_HALF_UP)
    # ASME B1.20.1: E1 = E0 + L1/16, prints round it at the fifth place.
    assert abs(gauging.pitch - (D(row["E0"]) + D(row["L1"]) / 16)) <= D("0.00001")


@pytest.mark.parametrize("size", npt_sizes())
def test_npt_lengths_follow_the_formulas(size: str) -> None:
    gauging = npt_gauging(size, internal=False)
    pitch = gauging.plane_tolerance
    outside = npt_pipe_diameter(size)
    assert gauging.useful_length is not None
    assert abs(gauging.useful_length - (D("0.8") * outside + D("6.8")) * pitch) <= D("0.0002")
    e0 = outside - (D("0.05") * outside + D("1.1")) * pitch
    assert abs(gauging.pitch - e0 - gauging.gauge_length / 16) <= D("0.00002")


def test_npt_and_nptf_say_what_is_checked() -> None:
    plain, dryseal = npt_gauging("3/8", internal=True), npt_gauging("3/8", internal=True, kind="NPTF", nptf_class=2)
    assert any("not by diameters" in note for note in plain.remarks)
    assert any("truncation has to be inspected" in note for note in dryseal.remarks)
    assert (plain.major, plain.minor, plain.useful_length) == (None, None, None)


@pytest.mark.parametrize(
    ("ask", "near"),
    [
        (lambda: g_limits("1/3", True), "G3/8"),
        (lambda: g_limits("1/2", False), "G1/2A"),
        (lambda: g_limits("1/2", False, "C"), "G1/2B"),
        (lambda: g_limits("1/2", True, "A"), "G1/2"),
        (lambda: g_limits("two", True), "G1/16"),
        (lambda: iso7_gauging("5/8", "R"), "R1/2"),
        (lambda: rp_limits("7/8"), "Rp3/4"),
        (lambda: npt_gauging("5/8", internal=True), "1/2"),
        (lambda: npt_pipe_diameter("7"), "6"),
        (lambda: npt_gauging("1/2", internal=True, nptf_class=1), "NPTF-1"),
        (lambda: npt_gauging("1/2", internal=True, kind="NPTF", nptf_class=3), "NPTF-2"),
    ],
)
def test_pipe_refusals(ask: Callable[[], object], near: str) -> None:
    with pytest.raises(NotDefined) as refusal:
        ask()
    assert near in refusal.value.near


def test_the_nearest_sizes_come_first_and_are_three() -> None:
    # by the number that the name says: 9/16 is 1/16 from 1/2 and 5/8, 3/16 from 3/8 (and from 3/4)
    with pytest.raises(NotDefined) as refusal:
        g_limits("9/16", True)
    assert refusal.value.near == ("G1/2", "G5/8", "G3/8")
    with pytest.raises(NotDefined) as refusal:
        tr_limits(D(40), D(9), "7e", internal=False)  # ISO 2903 has 3, 5, 6, 7, 8, 10 and 12 over 22.4 up to 45 mm
    assert refusal.value.near == ("Tr40x8", "Tr40x10", "Tr40x7")


def test_a_crest_limit_midway_goes_to_the_even_figure() -> None:
    # 11/16-8: 0.6875 - 0.05/8 = 0.68125; a 5 to the even figure is what matches the printed tables of ASME B1.5
    assert acme_limits(D("0.6875"), D(8), "2G", internal=False).major == (D("0.6812"), D("0.6875"))


def test_a_stub_thread_is_three_tenths_of_its_pitch_high() -> None:
    # ASME B1.8: D - 0.3 P and D - 0.6 P, by hand for 1 inch with 5 threads
    assert stub_basic(D(1), D(5)) == (D("0.9400"), D("0.8800"))


def test_a_parallel_internal_pipe_thread_has_the_same_tolerance_on_every_diameter() -> None:
    # ISO 7-1, 1/2: 20.955, 19.793, 18.631 mm, each within 0.142
    found = rp_limits("1/2")
    assert (found.major, found.pitch) == ((D("20.813"), D("21.097")), (D("19.651"), D("19.935")))
    assert found.minor == (D("18.489"), D("18.773"))


@pytest.mark.parametrize(("internal", "gauge"), [(True, "L1 plug gauge"), (False, "L1 ring gauge")])
def test_a_taper_thread_is_checked_by_the_other_member(internal: bool, gauge: str) -> None:
    """ASME B1.20.1: a plug for the internal thread, a ring for the external one."""
    assert gauge in npt_gauging("1/2", internal=internal).remarks[0]
