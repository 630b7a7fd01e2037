"""Limit gauges of classed sizes, as `read` shows them."""

from __future__ import annotations

from decimal import Decimal

import pytest

from sizewright.resolve.answer import answer
from sizewright.resolve.context import Context, Unit
from sizewright.resolve.gauging import gauge_words, gaugings

# (callout, unit, system, go lower, go upper, worn, no-go lower, no-go upper, source)
GAUGES = [
    ("Ø25 H7", "mm", "ISO system, IT7", "25.001", "25.005", "24.997", "25.019", "25.023",
     "DIN 7162: z 3, y 3, H 4 µm, worked by hand"),
    ("Ø1.0000 RC4 hole", "inch", "ten per cent rule, gauge class X", "1", "1.00006", "1", "1.00114", "1.0012",
     "ASME B89.1.5 class X 0.00006 over 0.825 to 1.51 in; 5 % of 0.0012 is 0.00006"),
]  # fmt: skip


@pytest.mark.parametrize(
    ("callout", "unit", "system", "go_low", "go_high", "worn", "not_go_low", "not_go_high", "source"), GAUGES
)
def test_the_gauge_of_a_class(
    callout: str, unit: Unit, system: str, go_low: str, go_high: str, worn: str, not_go_low: str, not_go_high: str,
    source: str,
) -> None:  # fmt: skip
    (made,) = answer(callout, Context(unit)).characteristics
    gauge = next(each.gauge for each in gaugings(made) if each.system == system)
    assert gauge is not None
    assert (Decimal(go_low), Decimal(go_high), Decimal(worn)) == (gauge.go.lower, gauge.go.upper, gauge.go.worn), source
    assert (Decimal(not_go_low), Decimal(not_go_high)) == (gauge.not_go.lower, gauge.not_go.upper), source


def test_a_class_with_no_gauge_says_why() -> None:
    (made,) = answer("Ø25 H14", Context()).characteristics
    first = next(gaugings(made))
    assert first.gauge is None
    assert first.reason


def test_a_size_without_a_class_has_no_gauge() -> None:
    (made,) = answer("Ø25 ±0.1", Context()).characteristics
    assert list(gaugings(made)) == []


def test_a_size_without_a_class_has_a_gauge_when_asked() -> None:
    # ±0.1 is 200 µm: IT11 at 25 mm is 130, IT12 is 210 (ISO 286-1, Table 1)
    (made,) = answer("Ø25 ±0.1 THRU", Context()).characteristics
    assert list(gaugings(made)) == []
    assert [each.system for each in gaugings(made, any_size=True)] == [
        "ISO system, IT11",
        "ten per cent rule, gauge class ZZ",
    ]
    (untold,) = answer("Ø25 ±0.1", Context()).characteristics  # hole or shaft: no gauge can be named
    assert list(gaugings(untold, any_size=True)) == []


# (callout, unit, words of the first gauge, the same without wear); sizes: the sources of the table above, and
# DIN 7162 for 25 g6 (z1 3, y1 3, H1 4 µm), worked by hand from 24.980/24.993
WORDS = [
    ("Ø25 H7", "mm",
     "plug gauge (ISO system, IT7): go 25.001 to 25.005, worn out at 24.997; no-go 25.019 to 25.023 mm; "
     "worn to that size it may accept a part just outside its limit",
     "plug gauge (ISO system, IT7): go 25.001 to 25.005; no-go 25.019 to 25.023 mm"),
    ("Ø25 g6", "mm",
     "ring or snap gauge (ISO system, IT6): go 24.988 to 24.992, worn out at 24.996; no-go 24.978 to 24.982 mm; "
     "worn to that size it may accept a part just outside its limit",
     "ring or snap gauge (ISO system, IT6): go 24.988 to 24.992; no-go 24.978 to 24.982 mm"),
    ("Ø1.0000 RC4 hole", "inch",
     "plug gauge (ten per cent rule, gauge class X): go 1.0000 to 1.000060, worn out at 1.0000; "
     "no-go 1.001140 to 1.0012 in",
     "plug gauge (ten per cent rule, gauge class X): go 1.0000 to 1.000060; no-go 1.001140 to 1.0012 in"),
    ("Ø25 H14", "mm",
     "plug gauge (ISO system): none, the ISO gauge system covers the grades IT6 to IT12, not IT14",
     "plug gauge (ISO system): none, the ISO gauge system covers the grades IT6 to IT12, not IT14"),
]  # fmt: skip


@pytest.mark.parametrize(("callout", "unit", "whole", "plain"), WORDS)
def test_a_gauge_in_words(callout: str, unit: Unit, whole: str, plain: str) -> None:
    (made,) = answer(callout, Context(unit)).characteristics
    first = next(gaugings(made))
    assert gauge_words(first) == whole
    assert gauge_words(first, wear=False) == plain
