from __future__ import annotations

from decimal import ROUND_HALF_UP, Decimal

import pytest

from sizewright.standards.errors import NotDefined
from sizewright.standards.threads.exact import cosine, rounded, sine
from sizewright.standards.threads.iso_metric import metric_limits
from sizewright.standards.threads.unified import unified_limits
from sizewright.standards.threads.wires import (
    best_wire,
    lead_term,
    limits_over_wires,
    over_wires,
    pitch_diameter_from_wires,
    wire_range,
)
from sizewright.standards.threads.workshop import (
    drills,
    external_checks,
    hole_for_percent,
    internal_checks,
    metric_tap_drill,
    percent_of_thread,
    tap_drills,
)

from .thread_prints import both, published

D = Decimal


@pytest.mark.parametrize("row", published("three_wire"), ids=lambda row: f"{row['kind']}-{row['source']}")
def test_three_wire_figures_equal_the_prints(row: dict[str, str]) -> None:
    angle = int(row["angle"])
    pitch = D(row["pitch"]) if row["pitch"] else 1 / D(row["tpi"])
    wire = best_wire(pitch, angle) if row["kind"] == "best" or row["wire"] == "best" else D(row["wire"])
    if row["kind"] == "best":
        value = wire
    elif row["kind"] == "reading":
        value = over_wires(D(row["basis"]), pitch, wire, angle)
    else:
        value = over_wires(D(row["basis"]) - D("0.649519") * pitch, pitch, wire, angle)
    printed = D(row["printed"])
    # The example table carries the pitch diameter to six places, so its sixth place may be one off.
    assert abs(value.quantize(printed, ROUND_HALF_UP) - printed) <= (
        D("0.000001") if printed.as_tuple().exponent == -6 else 0
    )


@pytest.mark.parametrize(
    ("angle", "best", "flank"),
    [(60, "0.577350", "3"), (55, "0.563691", "3.165681"), (30, "0.517638", "4.863703"), (29, "0.516450", "4.993929")],
)
def test_constants_of_each_flank_angle(angle: int, best: str, flank: str) -> None:
    assert rounded(best_wire(D(1), angle), 6) == D(best)
    one, two = over_wires(D(10), D(1), D(1), angle), over_wires(D(10), D(1), D(2), angle)
    assert rounded(two - one, 6) == D(flank)


def test_whitworth_rule_of_the_shop_books() -> None:
    # F. D. Jones, Turning and boring (1914): M = D + 3.1657 w - 1.6008 P.
    reading = over_wires(D(1) - D("0.640327") / 8, D(1) / 8, D("0.07"), 55)
    assert abs(reading - (1 + D("3.1657") * D("0.07") - D("1.6008") / 8)) < D("0.00001")


def test_wire_range_of_sixty_degrees_equals_the_textbook() -> None:
    found = wire_range(D(1))
    assert (rounded(found.least, 3), rounded(found.best, 5), rounded(found.most, 2)) == (
        D("0.505"),
        D("0.57735"),
        D("0.90"),
    )


def test_reading_and_pitch_diameter_are_inverse_with_the_lead_term() -> None:
    wire = best_wire(D("1.5"))
    reading = over_wires(D("9.026"), D("1.5"), wire, lead=D("1.5"))
    assert reading > over_wires(D("9.026"), D("1.5"), wire)
    back = pitch_diameter_from_wires(reading, D("1.5"), wire, lead=D("1.5"))
    assert abs(back - D("9.026")) < D("1e-25")
    simple = pitch_diameter_from_wires(over_wires(D(9), D(1), wire), D(1), wire)
    assert abs(simple - 9) < D("1e-35")


def test_window_over_wires_is_the_pitch_diameter_tolerance() -> None:
    # Thread measurement guide: 1/4-20 UNC-2A over 0.0289 in wires, window 0.0037 in.
    low, high = limits_over_wires((D("0.2127"), D("0.2164")), D("0.05"), D("0.0289"))
    assert high - low == D("0.0037")
    assert D("0.2560") < low < D("0.2562")


def test_steep_leads_and_other_angles_are_refused() -> None:
    with pytest.raises(NotDefined, match="5 degrees"):
        lead_term(D("9.026"), D("3"), D("0.866"))
    with pytest.raises(NotDefined) as refusal:
        best_wire(D(1), 47)
    assert refusal.value.near[0] == "55"


def test_angles_agree_with_their_exact_values() -> None:
    assert rounded(sine(D(30)), 30) == D("0.5")
    assert rounded(cosine(D(60)), 30) == D("0.5")
    assert rounded(sine(D(15)) ** 2, 20) == rounded((2 - D(3).sqrt()) / 4, 20)


@pytest.mark.parametrize(
    ("major", "tpi", "drill", "percent"), [("0.25", 20, "#7", 75), ("0.190", 24, "#25", 75), ("0.5", 13, "27/64", 78)]
)
def test_usual_tap_drills(major: str, tpi: int, drill: str, percent: int) -> None:
    # Percentages as drill charts print them: #7 75, #25 75, 27/64 78.
    minor = unified_limits(D(major), D(tpi), "2B").minor
    found = tap_drills(D(major), 1 / D(tpi), D(percent), minor=both(minor))[0]
    assert found.drill.name == drill
    assert rounded(found.percent, 0) == percent
    assert found.inside


def test_metric_tap_drill_in_millimetres() -> None:
    # 8.5 mm for M10x1.5 leaves 77 percent.
    assert rounded(percent_of_thread(D(10), D("8.5"), D("1.5")), 0) == 77
    assert abs(hole_for_percent(D(10), D("1.5"), D(77)) - D("8.5")) < D("0.001")
    found = tap_drills(D(10), D("1.5"), D(77), unit="mm")[0]
    # Q is 0.332 in = 8.4328 mm, R is 0.339 in = 8.6106 mm.
    assert (found.drill.name, found.diameter) == ("Q", D("8.4328"))
    assert metric_tap_drill(D(10), D("1.5")) == D("8.5")


def test_drills_run_from_number_80_to_three_and_a_half() -> None:
    assert (drills()[0].name, drills()[-1].name) == ("#80", "3 1/2")
    with pytest.raises(NotDefined) as refusal:
        tap_drills(D(6), D("0.25"))
    assert refusal.value.near == ("#80", "3 1/2")


def test_what_checks_an_internal_thread() -> None:
    limits = metric_limits(D(10), D("1.5"), "6H", internal=True)
    found = {(check.gauge, check.member): check.size for check in internal_checks(limits)}
    assert found == {
        ("thread plug", "GO"): D("9.026"),
        ("thread plug", "NO-GO"): D("9.206"),
        ("plain plug", "GO"): D("8.376"),
        ("plain plug", "NO-GO"): D("8.676"),
    }


def test_what_checks_an_external_thread() -> None:
    limits = metric_limits(D(10), D("1.5"), "6g", internal=False)
    found = {(check.gauge, check.member): check.size for check in external_checks(limits)}
    assert found == {
        ("thread ring", "GO"): D("8.994"),
        ("thread ring", "NO-GO"): D("8.862"),
        ("micrometer over the crests", "limits"): (D("9.732"), D("9.968")),
    }


def test_the_smallest_drill_is_the_smallest_hole() -> None:
    """ASME B94.11M: #80 is 0.0135 in, 0.343 mm."""
    with pytest.raises(NotDefined):
        tap_drills(D("0.3"), D("0.08"), D(77), unit="mm")
    assert tap_drills(D("0.0135"), D("0.003"), D(0))[0].drill.name == "#80"
