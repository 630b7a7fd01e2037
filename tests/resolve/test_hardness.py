"""Hardness and case depth as typed: bounds in the scale and unit typed."""

from __future__ import annotations

from decimal import Decimal

import pytest

from sizewright.resolve.answer import answer
from sizewright.resolve.context import Context, Unit

D = Decimal

# (callout, unit of the sheet, [kind, unit, nominal, lower, upper]). Sources: ISO 6506-1, 6507-1, 6508-1 for the ways of
# writing 220 HBW 10/3000, 700 HV30, 60 HRC; ISO 15787 and ISO 10303-214 (hardness 620 +160, depth 0,8 +0,8) for
# deviations to one side; the rest is common practice.
HARDNESSES: list[tuple[str, Unit, list[str]]] = [
    ("58-62 HRC", "mm", ["hardness HRC - 58 62"]),
    ("HRC 58-62", "mm", ["hardness HRC - 58 62"]),
    ("HRC 58 TO 62", "mm", ["hardness HRC - 58 62"]),
    ("Rc 58/62", "inch", ["hardness HRC - 58 62"]),
    ("58-62 Rc", "inch", ["hardness HRC - 58 62"]),
    ('ROCKWELL "C" 58-62', "inch", ["hardness HRC - 58 62"]),
    ("60 ±2 HRC", "mm", ["hardness HRC 60 58 62"]),
    ("60 +4 HRC", "mm", ["hardness HRC 60 60 64"]),
    ("60 +4/-2 HRC", "mm", ["hardness HRC 60 58 64"]),
    ("58 HRC MIN", "mm", ["hardness HRC 58 58 -"]),
    ("HB 180 MAX", "mm", ["hardness HBW 180 - 180"]),
    ("220 HBW", "mm", ["hardness HBW 220 - -"]),
    ("220 HBW 10/3000", "mm", ["hardness HBW 220 - -"]),
    ("700 HV30", "mm", ["hardness HV 700 - -"]),
    ("700 HV 10 MIN", "mm", ["hardness HV 700 700 -"]),
    ("HV10 450-500", "mm", ["hardness HV - 450 500"]),
    ("Shore A 70 ±5", "mm", ["hardness Shore A 70 65 75"]),
    ("CASE HARDEN 0.8-1.1 DEEP, 58-62 HRC", "mm", ["case depth mm - 0.8 1.1", "hardness HRC - 58 62"]),
    ("CARBURIZE .030-.040 DEEP", "inch", ["case depth inch - 0.030 0.040"]),
    ("CHD 0.8 +0.4", "mm", ["case depth mm 0.8 0.8 1.2"]),
    ("EFFECTIVE CASE DEPTH .030 MIN", "inch", ["case depth inch 0.030 0.030 -"]),
    ("SURFACE HARDNESS 58-62 HRC, CORE 30-40 HRC", "mm", ["hardness HRC - 58 62", "hardness HRC - 30 40"]),
    ("NITRIDE", "mm", ["note none - - -"]),
]


@pytest.mark.parametrize(("callout", "unit", "wanted"), HARDNESSES)
def test_a_hardness_has_its_bounds(callout: str, unit: Unit, wanted: list[str]) -> None:
    given = answer(callout, Context(unit))
    assert given.error is None, given.error
    made = []
    for each in given.characteristics:
        bounds = (each.size.lower, each.size.upper) if each.size else (None, None)
        numbers = ["-" if number is None else str(number) for number in (each.nominal, *bounds)]
        made.append(" ".join((each.kind, each.unit, *numbers)))
    assert made == wanted


def test_a_hardness_is_limited_in_its_value_and_a_depth_in_its_size() -> None:
    depth, hardness = answer("CASE HARDEN 0.8-1.1 DEEP, 58-62 HRC", Context()).characteristics
    assert (depth.limits[0].of, hardness.limits[0].of) == ("size", "value")


def test_a_pipe_thread_and_an_inch_fit_stay_what_they_are() -> None:
    assert answer("Rc 1/4", Context()).characteristics[0].kind == "thread"
    assert answer("1.2500 RC4", Context("inch")).characteristics[0].kind == "length"


def test_a_number_outside_its_scale_is_told() -> None:
    assert any("HRC is used from 20 to 70" in remark.text for remark in answer("75 HRC", Context()).remarks)


def test_a_texture_after_a_hardness_is_its_own() -> None:
    kinds = [made.kind for made in answer("Ø25 h6 HRC 58-62, Ra 0.4", Context()).characteristics]
    assert kinds == ["diameter", "hardness", "surface texture"]
