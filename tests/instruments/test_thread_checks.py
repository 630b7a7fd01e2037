"""How a thread is checked: wires of the crib and the limits over them, tap drills, gauges."""

from __future__ import annotations

from decimal import Decimal

import pytest

from sizewright.instruments.choose import choose
from sizewright.instruments.crib import CribError, default_crib, parse_crib
from sizewright.instruments.thread_checks import thread_checks
from sizewright.resolve.answer import answer
from sizewright.resolve.characteristic import Characteristic
from sizewright.resolve.context import Context, Unit

CRIB = default_crib()
NO_WIRES = parse_crib('[[instrument]]\nkind = "steel rule"\nrange = [0, 300]\nunit = "mm"\nresolution = 0.5\n')


def made(callout: str, unit: Unit = "mm") -> Characteristic:
    given = answer(callout, Context(unit))
    assert given.error is None, given.error
    return given.characteristics[0]


# (callout, unit, label, part of the text, source)
CHECKS: list[tuple[str, Unit, str, str, str]] = [
    # M = E + w (1 + 1/sin a) - (P/2) cot a: 8.862 + 3 x 0.895 - 1.299038 = 10.247962, and 0.00195 for the lead
    ("M10x1.5-6g", "mm", "three wires", "wires of 0.895 mm: 10.250 to 10.381 mm", "FED-STD-H28, computed by hand"),
    ("M10x1.5-6g", "mm", "three wires", "best wire 0.866 mm", "0.57735 P"),
    ("1/2-13 UNC-2A", "inch", "three wires", "best wire 0.0444 in", "0.57735 / 13"),
    ("1-8 UNC-2A", "inch", "three wires", "best wire 0.0722 in", "shop notes: 0.072 in at 8 tpi"),
    ("1-5 ACME-2G EXT", "inch", "three wires", "best wire 0.1033 in", "handbook: 0.10329 in at 5 tpi Acme"),
    ("Tr40x7-7e", "mm", "three wires", "best wire 3.6235 mm", "0.517638 P"),
    ("M10x1.5-6g", "mm", "crests", "9.732 to 9.968 mm: major diameter", "ISO 965-2"),
    ("M10x1.5-6g", "mm", "thread mic", "pitch diameter 8.862 to 8.994 mm", "ISO 965-2"),
    ("M10x1.5-6H", "mm", "tap drill", "8.5 mm, d - P (ISO 2306): 77 % of thread", "ISO 2306"),
    ("M6-6H", "mm", "tap drill", "5 mm, d - P (ISO 2306): 77 % of thread", "ISO 2306"),
    ("M10x1.5-6H", "mm", "gauge", "plain plug NO-GO, 8.676 mm", "ISO 965-2"),
    ("M10x1.5-6H", "mm", "gauge", "thread plug GO, 9.026 mm", "ISO 965-2"),
    ("1/4-20 UNC-2B", "inch", "tap drill", "#7 (0.2010 in, 75 %)", "tap drill charts: #7, 75 %"),
    ("#8-32 UNC-2B", "inch", "tap drill", "#29 (0.1360 in, 69 %)", "tap drill charts: #29, 69 %"),
    ("1/2-13 UNC-2B", "inch", "tap drill", "27/64 (0.421875 in, 78 %)", "tap drill charts: 27/64"),
    ("G1/2", "mm", "bore", "18.631 to 19.172 mm", "ISO 228-1"),
    ("MJ6x1-4H5H", "mm", "tap drill", "outside the minor diameter's limits", "ISO 5855-2: D1 is larger"),
]  # fmt: skip


@pytest.mark.parametrize(("callout", "unit", "label", "said", "source"), CHECKS)
def test_a_check_has_its_sizes(callout: str, unit: Unit, label: str, said: str, source: str) -> None:
    assert source
    texts = [check.text for check in thread_checks(made(callout, unit), CRIB) if check.label == label]
    assert any(said in text for text in texts), texts


def test_without_wires_in_the_crib_the_best_wire_is_named() -> None:
    texts = [check.text for check in thread_checks(made("M10x1.5-6g"), NO_WIRES) if check.label == "three wires"]
    assert texts[0].startswith("no wire of the crib fits; with wires of 0.866 mm: ")


def test_each_side_is_told_where_nothing_tells_the_side() -> None:
    texts = [check.text for check in thread_checks(made("M10"), CRIB)]
    assert {text.partition(":")[0] for text in texts} == {"internal", "external"}


@pytest.mark.parametrize("callout", ["1/4-18 NPT", "R 1/4", "2-4 STUB ACME", "(M10x1.5-6g)", "M8 STI", "25 ±0.1"])
def test_what_has_no_limits_of_diameters_has_no_checks_by_them(callout: str) -> None:
    assert list(thread_checks(made(callout), CRIB)) == []


def test_an_insert_hole_gets_no_tap_drill() -> None:
    assert all(check.label != "tap drill" for check in thread_checks(made("M10-6H INS-2D"), CRIB))


# A thread's instrument and what else is said of it. (callout, unit, instrument, advice)
CHOSEN: list[tuple[str, Unit, str, str]] = [
    ("M10x1.5-6g", "mm", "thread ring gauge", "or by three wires, wires of 0.895 mm: 10.250 to 10.381 mm"),
    ("1/4-18 NPT", "inch", "taper thread gauge", ""),
    ("R 1/4", "mm", "taper thread gauge", ""),
    ("Rp 1/4", "mm", "taper thread gauge", ""),
    ("Tr40x7-7e", "mm", "thread micrometer", "its anvils must be those of a 30° thread"),
]  # fmt: skip


@pytest.mark.parametrize(("callout", "unit", "name", "advice"), CHOSEN)
def test_a_thread_gets_its_instrument(callout: str, unit: Unit, name: str, advice: str) -> None:
    found = choose(made(callout, unit), CRIB)
    assert found.instrument is not None
    assert found.instrument.kind.name == name
    assert advice in found.advice


@pytest.mark.parametrize(
    ("entry", "said"),
    [
        ('kind = "three-wire set"\nrange = [3, 100]\nunit = "mm"\nresolution = 0.001\nwires = [0.5, "x"]', "wires"),
        ('kind = "three-wire set"\nrange = [3, 100]\nunit = "mm"\nresolution = 0.001\nwires = []', "wires"),
        ('kind = "steel rule"\nrange = [0, 300]\nunit = "mm"\nresolution = 0.5\nwires = [1]', "three-wire set"),
    ],
)
def test_wires_that_are_none_are_refused(entry: str, said: str) -> None:
    with pytest.raises(CribError, match=said):
        parse_crib(f"[[instrument]]\n{entry}\n")


def test_wires_are_kept_in_order() -> None:
    entry = 'kind = "three-wire set"\nrange = [3, 100]\nunit = "mm"\nresolution = 0.001\nwires = [1.1, 0.895]'
    assert parse_crib(f"[[instrument]]\n{entry}\n").instruments[0].wires == (Decimal("0.895"), Decimal("1.1"))
