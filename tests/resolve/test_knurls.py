"""Knurls, and sheets by their gauge number."""

from __future__ import annotations

import pytest

from sizewright.resolve.answer import answer
from sizewright.resolve.characteristic import Status
from sizewright.resolve.context import Context, Unit
from sizewright.text.numbers import plain

# (callout, unit of the sheet, nominal, unit, pattern). DIN 82 for the letters; ASME B94.6 for the diametral pitch,
# after a knurl maker's general information; the rest as textbooks of machine drawing print it.
KNURLS: list[tuple[str, Unit, str | None, str, str | None]] = [
    ("DIAMOND KNURL 1 RAISED 30°", "mm", "1", "mm", "diamond"),
    ("33P. DIAMOND KNURL, RAISED", "inch", "33", "tpi", "diamond"),
    ("21 TPI DIAMOND KNURL", "mm", "21", "tpi", "diamond"),
    ("96 DP STRAIGHT KNURL", "inch", "96", "diametral_pitch", "straight"),
    ("KNURL DIN 82 - RGE 0.8", "inch", "0.8", "mm", "RGE"),
    ("DIN 82 RAA 1", "mm", "1", "mm", "RAA"),
    ("STRAIGHT KNURL PITCH 0,8", "mm", "0.8", "mm", "straight"),
    ("DIAMOND KNURL .031", "inch", "0.031", "inch", "diamond"),
    ("MEDIUM KNURL", "inch", None, "none", None),
]


@pytest.mark.parametrize(("callout", "sheet", "nominal", "unit", "pattern"), KNURLS, ids=[row[0] for row in KNURLS])
def test_a_knurl_has_its_pitch(callout: str, sheet: Unit, nominal: str | None, unit: str, pattern: str | None) -> None:
    given = answer(callout, Context(sheet))
    assert given.error is None, given.error
    (made,) = given.characteristics
    assert (made.kind, made.unit, made.extra.get("parameter")) == ("knurl", unit, pattern)
    assert (None if made.nominal is None else plain(made.nominal)) == nominal


@pytest.mark.parametrize("callout", ["16 GA", "16 GAUGE STEEL", "STEEL 16 GA", "18 SWG", "GA 16"])
def test_a_gauge_number_alone_has_no_thickness(callout: str) -> None:
    given = answer(callout, Context("inch"))
    (made,) = given.characteristics
    assert (made.kind, made.nominal, made.limits, made.status) == ("thickness", None, (), Status.UNTOLERANCED)
    assert any("type it in decimals" in remark.text for remark in given.remarks)


def test_a_thickness_beside_a_gauge_number_is_for_information() -> None:
    (made,) = answer("12 GA. (.105)", Context("inch")).characteristics
    assert made.nominal is not None
    assert (plain(made.nominal), made.status) == ("0.105", Status.REFERENCE)


def test_a_toleranced_thickness_beside_a_gauge_number_has_limits() -> None:
    (made,) = answer("16 GA (.060 ±.005)", Context("inch")).characteristics
    assert [(str(limits.lower), str(limits.upper)) for limits in made.limits] == [("0.055", "0.065")]
