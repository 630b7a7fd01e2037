"""What is chosen for a characteristic, with which reason. Expectations are common practice where no source is named."""

from __future__ import annotations

from datetime import date
from decimal import Decimal
from fractions import Fraction

import pytest

from sizewright.instruments.capability import Capability
from sizewright.instruments.choose import choose
from sizewright.instruments.crib import default_crib, parse_crib
from sizewright.instruments.demand import Wish, demand
from sizewright.instruments.features import CHARACTERISTIC_KINDS
from sizewright.instruments.model import Choice
from sizewright.resolve.answer import answer
from sizewright.resolve.characteristic import Characteristic, Either, Limits, Side, Status
from sizewright.resolve.context import Context
from sizewright.text.numbers import Number


def made(line: str, status: Status = Status.TOLERANCED, class_: str | None = None) -> Characteristic:
    """`kind [side], lower .. upper unit` as a characteristic; a lone `-` is a missing bound, one number a nominal."""
    head, _, figures = line.partition(", ")
    sides: dict[str, Side] = {"internal": "internal", "external": "external"}
    side = sides.get(head.rpartition(" ")[2])
    kind = head.rpartition(" ")[0] if side else head
    *bounds, unit = figures.replace(" ..", "").split()

    def number(text: str) -> Number | None:
        return None if text == "-" else Fraction(text) if unit == "deg" else Decimal(text)

    if len(bounds) == 1:
        return Characteristic(kind, unit, status, nominal=number(bounds[0]), side=side, class_=class_)
    limits = (Limits("size", number(bounds[0]), number(bounds[1])),)
    return Characteristic(kind, unit, status, limits=limits, side=side, class_=class_)


def chosen(line: str, status: Status = Status.TOLERANCED, class_: str | None = None) -> Choice:
    return choose(made(line, status, class_), default_crib())


# characteristic, instrument, resolution asked for, T/2U reached. A tenth of the tolerance and T/2U of 4 are asked for
# (common practice); the figures of the instruments are those of the default crib, their sources stand in kinds.csv.
# How a ratio comes about is worked out in test_uncertainty.py.
GOOD_ENOUGH = [
    ("length external, 99.9 .. 100.1 mm", "outside micrometer 100-125 mm", "0.02", "12.0"),
    ("length external, 45 .. 50 mm", "steel rule 0-300 mm", "0.5", "5.1"),
    ("length external, 200 .. 200.5 mm", "digital caliper 0-300 mm", "0.05", "6.1"),
    ("diameter internal, 6.5 .. 6.7 mm", "inside micrometer 5-30 mm", "0.02", "7.7"),
    ("diameter internal, 6.51 .. 6.69 mm", "inside micrometer 5-30 mm", "0.018", "6.9"),
    ("diameter external, 39.9 .. 40 mm", "outside micrometer 25-50 mm", "0.01", "7.9"),
    ("diameter external, 1.245 .. 1.255 inch", "outside micrometer 1-2 inch", "0.001", "16.6"),
    ("thickness, 2.95 .. 3.05 mm", "outside micrometer 0-25 mm", "0.01", "7.9"),
    ("slot width internal, 8 .. 8.036 mm", "gauge blocks 0.5-100 mm", "0.0036", "27.3"),
    ("depth, 6.2 .. 6.6 mm", "depth micrometer 0-150 mm", "0.04", "20.5"),
    ("depth, 20 .. 20.1 mm", "depth micrometer 0-150 mm", "0.01", "5.1"),
    ("bolt circle diameter, 59.8 .. 60.2 mm", "digital height gauge 0-300 mm", "0.04", "5.5"),
    ("countersink diameter, 10.2 .. 10.6 mm", "optical comparator 0-100 mm", "0.04", "20.7"),
    ("angle, 29.5 .. 30.5 deg", "optical comparator 0-360 deg", "0.1", "12.2"),
    ("angle, 85 .. 95 deg", "bevel protractor 0-360 deg", "1", "33.6"),
    ("countersink angle, 89 .. 91 deg", "optical comparator 0-360 deg", "0.2", "24.5"),
    ("radius, 5.8 .. 6.2 mm", "optical comparator 0-100 mm", "0.04", "20.6"),
    ("radius, 5.9 .. 6.1 mm", "optical comparator 0-100 mm", "0.02", "10.3"),
    ("chamfer size, 0.8 .. 1.2 mm", "optical comparator 0-100 mm", "0.04", "20.7"),
    ("edge, - .. 0.2 mm", "optical comparator 0-100 mm", "0.02", "10.3"),
    ("surface texture, - .. 1.6 um", "roughness tester 0.02-10 µm", "0.16", "5.2"),
    ("surface texture, - .. 63 uin", "roughness tester 1-400 µin", "6.3", "5.2"),
    ("circular run-out, - .. 0.1 mm", "test indicator 0-0.2 mm", "0.01", "6.3"),
    ("position, - .. 0.2 mm", "test indicator 0-0.2 mm", "0.02", "6.3"),
    ("line profile, - .. 0.1 mm", "optical comparator 0-100 mm", "0.01", "5.1"),
    ("length external, - .. 15.2 mm", "digital caliper 0-150 mm", "0.1", "12.3"),
    ("depth, 18 .. - mm", "digital caliper 0-150 mm", "0.1", "8.2"),
    ("length external, - .. .500 inch", "outside micrometer 0-1 inch", "0.001", "16.6"),
]  # fmt: skip

FALLS_SHORT = [
    ("diameter external, 39.975 .. 40 mm", "digital outside micrometer 25-50 mm", "0.0025", "3.7"),
    ("diameter internal, 62 .. 62.030 mm", "dial bore gauge 50-150 mm", "0.003", "2.9"),
    ("diameter internal, 20 .. 20.013 mm", "dial bore gauge 18-35 mm", "0.0013", "1.3"),
    ("diameter internal, 3.1 .. 3.2 mm", "pin gauges 0.2-20 mm", "0.01", "3.7"),
    ("diameter internal, 0.5 .. 0.6 mm", "pin gauges 0.2-20 mm", "0.01", "3.7"),
    ("diameter external, 1.2495 .. 1.2505 inch", "digital outside micrometer 1-2 inch", "0.0001", "3.3"),
    ("angle, 29.99 .. 30.01 deg", "sine bar 0-45 deg", "0.002", "2.7"),
    ("flatness, - .. 0.05 mm", "test indicator 0-0.2 mm", "0.005", "3.1"),
]


@pytest.mark.parametrize(("line", "name", "asked", "ratio"), GOOD_ENOUGH)
def test_the_simplest_that_is_good_enough_is_chosen(line: str, name: str, asked: str, ratio: str) -> None:
    found = chosen(line)
    assert found.instrument is not None
    assert (found.instrument.name, found.resolution_asked) == (name, Fraction(asked))
    assert found.ratio == Decimal(ratio)
    assert not found.falls_short
    assert found.method == found.instrument.kind.method
    assert f"T/2U {ratio}, 4 asked" in found.why


# A good part lies beyond a bound that stands alone: the range must go on there.
ONE_BOUND = [
    ("length external, - .. 1.000 inch", "outside micrometer 0-1 inch"),
    ("length external, 1.000 .. - inch", "outside micrometer 1-2 inch"),
    ("slot width internal, - .. .125 inch", "pin gauges 0.011-0.75 inch"),
    ("slot width internal, .125 .. - inch", "small-hole gauge 0.125-0.5 inch"),
]


@pytest.mark.parametrize(("line", "name"), ONE_BOUND)
def test_a_bound_that_stands_alone_asks_for_sizes_on_its_good_side(line: str, name: str) -> None:
    found = chosen(line)
    assert found.instrument is not None
    assert found.instrument.name == name


# characteristic, sizes to cover, width, resolution asked: what a bound asks that stands alone, at 0 or as an angle, and
# that what is neither a length nor an angle asks nothing of a range
DEMANDS: list[tuple[str, str | None, str | None, str | None, str | None]] = [
    ("angle, - .. 30 deg", "29", "30", "1", "0.1"),
    ("angle, 30 .. - deg", "30", "31", "1", "0.1"),
    ("edge, - .. 0 mm", None, "0", "1", "0.1"),
    ("edge, -0.3 .. - mm", None, "0.3", "0.3", "0.03"),
    ("edge, 0.1 .. 0.3 mm", None, "0.3", "0.2", "0.02"),
    ("flatness, 0 .. 0.05 mm", None, "0.05", "0.05", "0.005"),
    ("taper, 0.09 .. 0.11 ratio", None, None, None, None),
    ("surface texture, - .. 0.5 none", None, None, None, None),
    ("hardness, 58 .. - HRC", None, None, None, None),
]


@pytest.mark.parametrize(("line", "lower", "upper", "width", "asked"), DEMANDS)
def test_what_is_asked_of_an_instrument(
    line: str, lower: str | None, upper: str | None, width: str | None, asked: str | None
) -> None:
    found = demand(made(line))
    assert [None if each is None else Fraction(each) for each in (lower, upper, width, asked)] == [
        found.lower,
        found.upper,
        found.width,
        found.asked,
    ]
    assert found.measurable == (width is not None)


def test_where_nothing_sets_a_tolerance_any_uncertainty_will_do() -> None:
    free = Capability(Decimal("0.1"), None, Decimal(4))
    assert (free.enough, free.ratio, free.allowed) == (True, None, None)
    # T 0.04: U of T/8, JCGM 106
    bound = Capability(Decimal("0.005"), Decimal("0.04"), Decimal(4))
    assert (bound.enough, bound.ratio, bound.allowed) == (True, Decimal("4.0"), Decimal("0.005"))
    assert not Capability(None, Decimal("0.04"), Decimal(4)).enough
    assert not Capability(Decimal("0.0051"), Decimal("0.04"), Decimal(4)).enough


# A tolerance of 0.010: a resolution of 0.01 is ten times that asked, U of 0.0079 or 0.0097 is six or eight times.
@pytest.mark.parametrize("mpe", ["0.008", "0.010"])
def test_of_those_that_fall_short_the_one_nearest_to_what_is_asked_is_named(mpe: str) -> None:
    crib = parse_crib(
        '[[instrument]]\nkind="outside micrometer"\nrange=[0,25]\nunit="mm"\nresolution=0.01\nmpe=0.002\n'
        f'[[instrument]]\nkind="digital outside micrometer"\nrange=[0,25]\nunit="mm"\nresolution=0.001\nmpe={mpe}\n'
    )
    found = choose(made("diameter external, 20 .. 20.010 mm"), crib)
    assert found.instrument is not None
    assert (found.instrument.kind.name, found.falls_short) == ("digital outside micrometer", True)


@pytest.mark.parametrize(("line", "name", "asked", "ratio"), FALLS_SHORT)
def test_the_best_of_those_that_fall_short_says_by_how_much(line: str, name: str, asked: str, ratio: str) -> None:
    found = chosen(line)
    assert found.instrument is not None
    assert (found.instrument.name, found.resolution_asked) == (name, Fraction(asked))
    assert (found.falls_short, found.ratio) == (True, Decimal(ratio))
    assert found.why.startswith("falls short: ")
    assert f" gives T/2U {ratio}, 4 asked: " in found.why


# thread and side, gauge; ISO 1502 and ASME B1.2: a thread is gauged
THREADS = [
    ("thread internal, 6 mm", "thread plug gauge 3-24 mm"),
    ("thread external, 6 mm", "thread ring gauge 3-24 mm"),
    ("thread internal, 0.25 inch", "thread plug gauge 0.112-1 inch"),
]


@pytest.mark.parametrize(("line", "name"), THREADS)
def test_a_thread_is_gauged_by_its_side(line: str, name: str) -> None:
    head = made(line)
    pitch = (Limits("pitch diameter", head.nominal, head.nominal),)
    found = choose(head._replace(limits=pitch), default_crib())
    assert found.instrument is not None
    assert found.instrument.name == name
    assert found.method.startswith("tell the pitch with a pitch gauge")
    assert found.advice == "the gauge must be made for this size, pitch and class"


def test_two_micrometers_come_before_a_machine_that_covers_both_limits() -> None:
    found = chosen("diameter external, 74.98 .. 75.05 mm")
    assert found.instrument is not None
    assert found.instrument.name == "digital outside micrometer 75-100 mm"
    assert [one.name for one in found.alternatives] == ["digital outside micrometer 50-75 mm"]


UNTOLERANCED = [
    ("length, 84 mm", "steel rule 0-300 mm"),
    ("length external, 84.5 mm", "steel rule 0-300 mm"),
    ("length external, 500 mm", "tape measure 0-5000 mm"),
    ("angle, 30 deg", "combination protractor 0-180 deg"),
    ("diameter internal, 5 mm", "digital caliper 0-150 mm"),  # a rule does not enter under 6 mm
]


@pytest.mark.parametrize(("line", "name"), UNTOLERANCED)
def test_without_a_tolerance_the_simplest_that_covers_is_suggested(line: str, name: str) -> None:
    found = chosen(line, status=Status.UNTOLERANCED)
    assert found.instrument is not None
    assert (found.instrument.name, found.resolution_asked, found.falls_short) == (name, None, False)
    assert "no tolerance, so nothing sets a resolution; the simplest that covers " in found.why
    assert found.why.endswith(" (common practice)")


# status or kind, why: nothing is chosen
NOTHING = [
    (made("length, 84 mm", Status.REFERENCE), "reference: nothing to decide"),
    (made("length, 84 mm", Status.BASIC), "basic: it has no verdict of its own, the tolerance it belongs to has"),
    (made("length, 84 mm", Status.CONFLICT), "conflict: nothing can be chosen before the callout is settled"),
    (made("length, 84 mm", Status.UNREAD), "unread: nothing can be chosen before the callout reads"),
    (made("note, 1 mm", Status.UNTOLERANCED), "a note is checked by looking: nothing to measure"),
    (made("hardness, 58 .. 62 HRC"),
     "hardness needs a hardness tester of the scale called for, with its reference block"),
]  # fmt: skip


@pytest.mark.parametrize(("characteristic", "why"), NOTHING)
def test_where_nothing_is_to_be_measured_it_says_so(characteristic: Characteristic, why: str) -> None:
    found = choose(characteristic, default_crib())
    assert (found.instrument, found.why, found.falls_short) == (None, why, False)


WHOLE = [
    (
        "length external, 99.9 .. 100.1 mm",
        "resolution 0.01 mm, a tenth of the tolerance 0.2 mm is 0.02 mm; U 0.0084 mm, T/2U 12.0, 4 asked",
        "the limits lie on both sides of 100 mm: sizes below it need outside micrometer 75-100 mm",
    ),
    (
        "length external, 119.999 .. 120.001 mm",
        "falls short: resolution 0.01 mm is coarser than 0.0002 mm, a tenth of the tolerance "
        "0.002 mm; U 0.0085 mm gives T/2U 0.11, 4 asked: 0.00025 mm would do",
        "no kind in the table is known to do: ask a measuring room, or whether the tolerance can be wider",
    ),
    (
        "length external, 119.98 .. 120.02 mm",
        "falls short: resolution 0.01 mm is coarser than 0.004 mm, a tenth of the tolerance "
        "0.04 mm; U 0.0085 mm gives T/2U 2.3, 4 asked: 0.005 mm would do",
        "a coordinate measuring machine whose range takes 120.02 mm, usual resolution 0.0001 mm, would do",
    ),
    (
        "surface profile, - .. 0.1 mm",
        "nothing in the crib reaches this surface profile",
        "a coordinate measuring machine, usual resolution 0.0001 mm, would do",
    ),
    (
        "diameter external, 24.985 .. 25.015 mm",
        "resolution 0.001 mm, a tenth of the tolerance 0.03 mm is 0.003 mm; U 0.0033 mm, T/2U 4.6, 4 asked",
        "the limits lie on both sides of 25 mm: sizes below it need digital outside micrometer 0-25 mm",
    ),
    (
        "length external, - .. 15.2 mm",
        "resolution 0.01 mm, a tenth of 1 mm (a single limit has no tolerance, this "
        "stands in, common practice) is 0.1 mm; U 0.041 mm, T/2U 12.3, 4 asked",
        "",
    ),
    (
        "angle, 29.99 .. 30.01 deg",
        'falls short: resolution 2", a tenth of the tolerance 1\' 12" is 7.2"; '
        'U 12.96" gives T/2U 2.7, 4 asked: 9" would do',
        "no kind in the table is known to do: ask a measuring room, or whether the tolerance can be wider",
    ),
]


@pytest.mark.parametrize(("line", "why", "advice"), WHOLE)
def test_the_reason_is_plain(line: str, why: str, advice: str) -> None:
    found = chosen(line)
    assert (found.why, found.advice) == (why, advice)


def test_a_side_not_told_is_said_and_one_instrument_serves_both() -> None:
    found = chosen("diameter, 24.7 .. 25.3 mm")
    assert found.instrument is not None
    assert found.instrument.kind.reaches >= {"outside", "inside"}
    assert found.why.startswith("outside or inside is not told: this one serves them all; resolution 0.01 mm, ")
    assert "U 0.061 mm" in found.why  # as it is inside, where it errs most
    assert found.by_side == ()


def test_a_side_not_told_gets_an_instrument_for_each_where_one_is_not_enough() -> None:
    found = chosen("diameter, 30 .. 30.010 mm")
    assert found.why.startswith("outside or inside is not told: one is named for each. outside: ")
    assert [(side, one.name) for side, one in found.by_side] == [
        ("outside", "digital outside micrometer 25-50 mm"),
        ("inside", "dial bore gauge 18-35 mm"),
    ]
    assert found.instrument is found.by_side[0][1]
    assert found.by_side[1][1] in found.alternatives


def instrument(kind: str, low: int, high: int) -> str:
    return f'[[instrument]]\nkind="{kind}"\nrange=[{low},{high}]\nunit="mm"\nresolution=0.001\nmpe=0.001\n'


MICROMETER, BORE = instrument("outside micrometer", 25, 50), instrument("dial bore gauge", 18, 50)
MACHINE = instrument("coordinate measuring machine", 0, 500)

# crib, kinds named for each side, whether it falls short, kind suggested: a diameter of 30 to 30.1, its side not told
SIDES = [
    (MICROMETER, ["outside micrometer"], True, "outside micrometer"),
    (BORE, ["dial bore gauge"], True, "dial bore gauge"),
    (MICROMETER + BORE, ["outside micrometer", "dial bore gauge"], False, "outside micrometer"),
    (MICROMETER + BORE + MACHINE, ["outside micrometer", "dial bore gauge"], False, "outside micrometer"),
    (MICROMETER + MACHINE, [], False, "coordinate measuring machine"),
]


@pytest.mark.parametrize(("text", "sides", "short", "kind"), SIDES)
def test_one_for_all_sides_only_where_it_is_as_simple(text: str, sides: list[str], short: bool, kind: str) -> None:
    found = choose(made("diameter, 30 .. 30.1 mm"), parse_crib(text))
    assert found.instrument is not None
    assert (found.instrument.kind.name, found.falls_short) == (kind, short)
    assert [one.kind.name for _, one in found.by_side] == sides


def test_what_is_named_for_a_side_stands_in_the_reason() -> None:
    why = choose(made("diameter, 30 .. 30.1 mm"), parse_crib(MICROMETER)).why
    assert "one is named for each. outside: outside micrometer 25-50 mm, resolution 0.001 mm" in why
    assert why.endswith("; inside: nothing in the crib reaches this inside of 30.1 mm")


def test_a_bare_thread_is_gauged_on_both_sides() -> None:
    inner, outer = (Limits("pitch diameter", Decimal("5.268"), Decimal("5.350")),), ()
    bare = Characteristic("thread", "mm", Status.TOLERANCED, Decimal(6), either=Either(inner, outer))
    found = choose(bare, default_crib())
    assert [one.kind.name for _, one in found.by_side] == ["thread ring gauge", "thread plug gauge"]


def test_a_classed_hole_has_its_limit_gauge_among_the_alternatives() -> None:
    names = [one.kind.name for one in chosen("diameter internal, 25 .. 25.052 mm", class_="H9").alternatives]
    assert names == ["dial bore gauge", "plug gauge"]


def test_a_classed_hole_is_told_the_sizes_of_its_limit_gauge() -> None:
    """ISO 286-1 plug for 25 H7, as in the table of gauges that `tests/resolve/test_gauging.py` holds."""
    (hole,) = answer("Ø25 H7", Context()).characteristics
    assert (
        "or by plug gauge (ISO system, IT7): go 25.001 to 25.005; no-go 25.019 to 25.023 mm"
        in choose(hole, default_crib()).advice
    )


def test_comparator_plates_stand_beside_the_tester_and_fall_short_alone() -> None:
    beside = chosen("surface texture, - .. 1.6 um").alternatives
    assert [one.kind.name for one in beside] == ["roughness comparator plates"]
    plates = '[[instrument]]\nkind = "roughness comparator plates"\nrange = [0.025, 50]\nunit = "um"\n'
    found = choose(made("surface texture, - .. 1.6 um"), parse_crib(plates))
    assert found.falls_short
    assert found.advice == "a roughness tester, usual resolution 0.001 µm, would do"


def test_a_transfer_comes_only_where_no_direct_instrument_will_do() -> None:
    crib = parse_crib(
        '[[instrument]]\nkind="telescoping gauge"\nrange=[8,150]\nunit="mm"\nresolution=0.001\nmpe=0.002\n'
        '[[instrument]]\nkind="dial bore gauge"\nrange=[18,35]\nunit="mm"\nresolution=0.001\nmpe=0.002\n'
    )
    names = {text: choose(made(text), crib).instrument for text in (
        "diameter internal, 20 .. 20.021 mm", "diameter internal, 50 .. 50.025 mm")}  # fmt: skip
    assert [one.kind.name for one in names.values() if one] == ["dial bore gauge", "telescoping gauge"]


def test_an_inch_crib_serves_a_metric_drawing_by_the_exact_inch() -> None:
    text = '[[instrument]]\nkind="outside micrometer"\nrange=[0,1]\nunit="inch"\nresolution=0.0001\nmpe=0.0001\n'
    assert not choose(made("diameter external, 25.35 .. 25.4 mm"), parse_crib(text)).falls_short
    assert choose(made("diameter external, 25.35 .. 25.4001 mm"), parse_crib(text)).instrument is None


def test_the_share_is_settable() -> None:
    found = choose(made("length external, 59.9 .. 60.1 mm"), default_crib(), Wish(share=Decimal("0.04")))
    assert found.instrument is not None
    assert found.instrument.name == "digital outside micrometer 50-75 mm"
    assert found.resolution_asked == Decimal("0.008")
    assert "0.04 times the tolerance 0.2 mm is 0.008 mm" in found.why


def test_an_empty_tolerance_falls_short_and_does_not_raise() -> None:
    assert chosen("length external, 20 .. 20 mm").falls_short


@pytest.mark.parametrize("kind", sorted(CHARACTERISTIC_KINDS))
def test_every_kind_of_characteristic_gets_an_instrument_or_a_reason(kind: str) -> None:
    unit = "deg" if kind.endswith("angle") else "um" if kind == "surface texture" else "mm"
    found = chosen(f"{kind}, 5 .. 6 {unit}")
    assert found.why
    assert (found.instrument is None) == (found.method == "")


DATED = """
[[instrument]]
kind = "outside micrometer"
range = [25, 50]
unit = "mm"
resolution = 0.01
due = 2026-03-31

[[instrument]]
kind = "digital outside micrometer"
range = [25, 50]
unit = "mm"
resolution = 0.001
due = {second}
"""


# day, due date of the second micrometer, chosen, said
DUE = [
    ("2026-03-31", "2027-01-01", "outside micrometer 25-50 mm", ""),
    ("2026-04-01", "2027-01-01", "digital outside micrometer 25-50 mm",
     "outside micrometer 25-50 mm is past its due date 2026-03-31 and was left out"),
    ("2027-01-02", "2027-01-01", "outside micrometer 25-50 mm",
     "past its due date 2026-03-31: nothing else does, have it checked before it is used"),
]  # fmt: skip


@pytest.mark.parametrize(("day", "second", "name", "said"), DUE)
def test_an_instrument_past_its_due_date_is_never_suggested_silently(
    day: str, second: str, name: str, said: str
) -> None:
    crib = parse_crib(DATED.format(second=second))
    found = choose(made("diameter external, 39.9 .. 40 mm"), crib, Wish(today=date.fromisoformat(day)))
    assert found.instrument is not None
    assert (found.instrument.name, found.advice) == (name, said)


# pieces, count; a few dozen parts: common practice
@pytest.mark.parametrize(("pieces", "pays"), [(1, False), (29, False), (30, True), (200, True)])
def test_a_limit_gauge_is_named_where_so_many_readings_make_it_pay(pieces: int, pays: bool) -> None:
    (hole,) = answer("Ø25 +0.05/0 THRU", Context()).characteristics
    found = choose(hole, default_crib(), Wish(pieces=pieces))
    said = f"{pieces} readings: a limit gauge pays (common practice from 30 on), by plug gauge (ISO system, IT8): go "
    assert found.advice.startswith(said) == pays
    assert ("plug gauge" in [one.kind.name for one in found.alternatives]) == pays


def test_every_place_of_a_piece_is_a_reading_for_its_gauge() -> None:
    (holes,) = answer("2x Ø25 +0.05/0 THRU", Context()).characteristics
    assert "30 readings: a limit gauge pays" in choose(holes, default_crib(), Wish(pieces=15)).advice
    assert "a limit gauge pays" not in choose(holes, default_crib(), Wish(pieces=14)).advice


def test_the_ratio_is_settable() -> None:
    hole = made("diameter internal, 6.5 .. 6.7 mm")
    assert (
        choose(hole, default_crib(), Wish(ratio=Decimal(1))).instrument
        == chosen("diameter internal, 6 .. 6.7 mm").instrument
    )
    assert choose(hole, default_crib(), Wish(ratio=Decimal(20))).falls_short
