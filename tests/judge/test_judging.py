"""Whole plans judged: from a sheet as typed to the standing of lines, pieces and part."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from decimal import Decimal
from fractions import Fraction
from functools import cache
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from sizewright.instruments.budget_model import Budget
from sizewright.instruments.crib import parse_crib
from sizewright.instruments.shelf import Crib
from sizewright.judge.asked import WHOLE, asked_limits, by_gauge, latest_of, missing_of
from sizewright.judge.bonus import joined
from sizewright.judge.judging import judge
from sizewright.judge.model import CheckReading, Judgement, LineJudgement, Outcome, Reading, Rule, Unreadable
from sizewright.plan.build import build_plan
from sizewright.plan.model import Plan, PlanLine
from sizewright.sheet.read import read_sheet
from sizewright.text.errors import InputError

from .support import D, budget

SIMPLE = Rule("simple")
GUARDED = Rule("guarded", factor=Decimal(1))
CALIPER = "digital caliper"

CRIB = """
[[instrument]]
kind = "digital caliper"
name = "digital caliper"
range = [0, 150]
unit = "mm"
resolution = 0.01
serial = "DC-11"
due = 2026-06-30

[[instrument]]
kind = "outside micrometer"
name = "micrometer"
range = [25, 50]
unit = "mm"
resolution = 0.01
serial = "OM-07"

[[instrument]]
kind = "outside micrometer"
name = "micrometer"
range = [25, 50]
unit = "mm"
resolution = 0.01
serial = "OM-08"
"""

SHEET = """
part: Worm housing
unit: mm
manner: iso
pieces: 2

1:  Ø30 H7 | position | Ø0.05 (M) | A | B(M) |
2:  120.5 ±0.1
3:  4x Ø6.6 ±0.1
4:  12 MAX
5:  (84)
6:  Ra 1.6
7:  30° ±0°30'
8:  M10x1.5-6g
9:  | flatness | 0.02 |
"""


@cache
def crib() -> Crib:
    return parse_crib(CRIB)


@pytest.fixture
def plan_of(tmp_path: Path) -> Any:
    def make(text: str) -> Plan:
        path = tmp_path / "part.sheet"
        path.write_text(text, encoding="utf-8")
        return build_plan(read_sheet(path), crib())

    return make


def reading(line: str, value: str | Fraction | None, piece: int = 1, instance: int = 1, **more: Any) -> Reading:
    number = D(value) if isinstance(value, str) else value
    given_: dict[str, Any] = {"of": "", "unit": "mm", "instrument": CALIPER, "answer": None, "place": "row"} | more
    return Reading(line=line, piece=piece, instance=instance, typed=str(value), value=number, **given_)


def known(u: str = "0.005") -> Any:
    def budget_for(line: PlanLine, instrument: str, of: str) -> Budget | None:  # noqa: ARG001
        assert line.characteristic is not None
        return budget(u, unit=line.characteristic.unit)

    return budget_for


def unknown(line: PlanLine, instrument: str, of: str) -> Budget | None:  # noqa: ARG001
    return None


def done(plan: Plan, readings: Sequence[Reading], rule: Rule = SIMPLE, **more: Any) -> Judgement:
    given_: dict[str, Any] = {"budget_for": known()} | more
    return judge(plan, readings, rule, **given_)


def found(judgement: Judgement, number: str) -> LineJudgement:
    return next(line for line in judgement.lines if line.line.number == number)


def only(judgement: Judgement, number: str) -> Outcome:
    (outcome,) = found(judgement, number).outcomes
    return outcome


# ---- one reading -----------------------------------------------------------------------------------------------------

# rule, value, verdict, part of the reason: line 2 is 120.4 to 120.6, U 0.010
VERDICTS = [
    (SIMPLE, "120.4", "accept", "within the limits"),
    (SIMPLE, "120.6", "accept", "within the limits"),
    (SIMPLE, "120.60000000000000000000000000000000000000001", "reject", "above the upper limit"),
    (SIMPLE, "120.387", "reject", "below the lower limit by 0.013 mm"),
    (GUARDED, "120.59", "accept", "guard band of 0.010 mm"),
    (GUARDED, "120.591", "undecided", "within the upper limit by 0.009 mm, nearer than the guard band"),
    (GUARDED, "120.610", "undecided", "above the upper limit by 0.010 mm, nearer than the guard band"),
    (GUARDED, "120.611", "reject", "above the upper limit by 0.011 mm"),
    (GUARDED, "120.4", "undecided", "on the lower limit"),
    (GUARDED._replace(binary=True), "120.591", "reject", "binary rule"),
    (GUARDED._replace(binary=True), "120.59", "accept", "within the limits"),
]


@pytest.mark.parametrize(("rule", "value", "verdict", "why"), VERDICTS)
def test_one_reading(plan_of: Any, rule: Rule, value: str, verdict: str, why: str) -> None:
    outcome = only(done(plan_of(SHEET), [reading("2", value)], rule), "2")
    assert outcome.verdict == verdict
    assert why in outcome.why
    assert outcome.limits.lower == D("120.4")
    assert outcome.conformance is not None


def test_without_uncertainty_a_guarded_rule_decides_nothing(plan_of: Any) -> None:
    plan = plan_of(SHEET)
    outcome = only(done(plan, [reading("2", "120.5")], GUARDED, budget_for=unknown), "2")
    assert outcome.verdict == "undecided"
    assert "no uncertainty is known" in outcome.why
    assert outcome.conformance is None
    assert only(done(plan, [reading("2", "120.5")], SIMPLE, budget_for=unknown), "2").verdict == "accept"


def test_a_budget_in_another_unit_is_none(plan_of: Any) -> None:
    inch = budget("0.0002", unit="inch")
    outcome = only(done(plan_of(SHEET), [reading("2", "120.5")], GUARDED, budget_for=lambda *_: inch), "2")
    assert outcome.verdict == "undecided"


def test_an_uncertainty_as_wide_as_the_tolerance_accepts_nothing(plan_of: Any) -> None:
    outcome = only(done(plan_of(SHEET), [reading("2", "120.5")], GUARDED, budget_for=known("0.06")), "2")
    assert outcome.verdict == "undecided"
    assert "nothing can be accepted" in outcome.why


def test_one_sided_limits_and_angles(plan_of: Any) -> None:
    readings = [reading("4", "12.0"), reading("4", "12.001", 2), reading("7", Fraction(61, 2), unit="deg")]
    readings += [reading("7", Fraction(61, 2) + Fraction(1, 10**30), 2, unit="deg")]
    judgement = done(plan_of(SHEET), readings)
    assert [outcome.verdict for outcome in found(judgement, "4").outcomes] == ["accept", "reject"]
    assert [outcome.verdict for outcome in found(judgement, "7").outcomes] == ["accept", "reject"]


def test_what_is_no_number_is_undecided(plan_of: Any) -> None:
    for bad, line in ((bad, line) for bad in (None, "NaN", "Infinity") for line in ("2", "1.2")):
        outcome = only(done(plan_of(SHEET), [reading("1.1", "30.010"), reading(line, bad)]), line)
        assert outcome.verdict == "undecided"
        assert "no number" in outcome.why


def test_less_than_nothing_is_questioned(plan_of: Any) -> None:
    judgement = done(plan_of(SHEET), [reading("9", "-0.001"), reading("9", "0.0", 2)])
    bad, good = found(judgement, "9").outcomes
    assert bad.verdict == "reject"
    assert "flatness cannot be" in bad.doubts[0]
    assert good.verdict == "accept"
    assert not good.doubts


def test_a_flat_face_is_accepted_under_a_guard_band(plan_of: Any) -> None:
    outcome = only(done(plan_of(SHEET), [reading("9", "0.001")], GUARDED, budget_for=known("0.002")), "9")
    assert outcome.verdict == "accept"
    assert outcome.acceptance.lower == 0
    assert outcome.acceptance.upper == D("0.016")


# ---- gauges and threads ----------------------------------------------------------------------------------------------


def test_a_gauge_decides_by_its_own_rule(plan_of: Any) -> None:
    plan = plan_of("unit: mm\n1: Ø25 H7\n2: Ø25 H11\n3: M10x1.5-6g\n")
    for rule in (SIMPLE, GUARDED):
        judgement = done(
            plan,
            [
                reading("1", None, answer="accept"),
                reading("2", None, answer="reject"),
                reading("3", None, answer="accept"),
            ],
            rule,
            budget_for=unknown,
        )
        assert [line.standing for line in judgement.lines] == ["accept", "reject", "accept"]
        # ISO gauge system, 25 H7: worn GO 24.997 (plain gauges notes, worked)
        assert "worn to 24.997" in only(judgement, "1").why
        assert "no uncertainty is taken off" in only(judgement, "2").why
        assert only(judgement, "1").conformance is None


def test_a_gauge_answers_once_for_all_limits(tmp_path: Path) -> None:
    (tmp_path / "part.sheet").write_text("unit: mm\n1: Ø25 H7\n2: M10x1.5-6H\n", encoding="utf-8")
    gauges = ('[[instrument]]\nkind = "plug gauge"\nrange = [3, 50]\nunit = "mm"\n',
              '[[instrument]]\nkind = "thread plug gauge"\nrange = [3, 24]\nunit = "mm"\n')  # fmt: skip
    lines = build_plan(read_sheet(tmp_path / "part.sheet"), parse_crib("".join(gauges))).lines
    assert [by_gauge(line) for line in lines] == [True, True]
    assert [asked_limits(line) for line in lines] == [("size",), (WHOLE,)]  # one pair of limits, three of them


def test_a_thread_by_its_diameters(plan_of: Any) -> None:
    plan = plan_of("unit: mm\n1: M10x1.5-6g\n")
    named = [("major diameter", "9.8"), ("pitch diameter", "8.9"), ("minor diameter", "8.0")]
    readings = [reading("1", value, of=of) for of, value in named]
    judgement = done(plan, readings)
    assert [outcome.limits.of for outcome in found(judgement, "1").outcomes] == [of for of, _ in named]
    assert judgement.standing == "accept"
    assert len(found(judgement, "1").statistics) == 3
    assert done(plan, [*readings, reading("1", "8.8", of="pitch diameter")]).standing == "reject"
    untold = done(plan, [reading("1", "8.9")])
    assert untold.standing == "undecided"
    assert "which of its limits" in only(untold, "1").why
    assert done(plan, readings[:1]).standing == "incomplete"


def test_a_side_that_is_not_told_decides_nothing(plan_of: Any) -> None:
    judgement = done(plan_of("unit: mm\n1: M10x1.5\n"), [reading("1", None, answer="accept")])
    assert judgement.standing == "undecided"
    assert "internal or external" in only(judgement, "1").why


# ---- bonus -----------------------------------------------------------------------------------------------------------

# size, position, verdict, bonus, part of the reason: Ø30 H7 is 30.000 to 30.021, Ø0.05 (M); ISO 2692, own arithmetic
BONUSES = [
    ("30.010", "0.060", "accept", "0.010", "bonus 0.010 mm at size 30.010 mm"),
    ("30.010", "0.06000001", "reject", "0.010", "above the upper limit"),
    ("30.021", "0.071", "accept", "0.021", "bonus 0.021 mm"),
    ("30.000", "0.050", "accept", "0.000", "bonus 0.000 mm"),
    ("30.000", "0.051", "reject", "0.000", "above the upper limit by 0.001 mm"),
    ("30.500", "0.071", "accept", "0.021", "bonus 0.021 mm"),
    ("29.900", "0.051", "reject", "0", "bonus 0 mm"),
]


@pytest.mark.parametrize(("size", "position", "verdict", "bonus", "why"), BONUSES)
def test_position_with_bonus(plan_of: Any, size: str, position: str, verdict: str, bonus: str, why: str) -> None:
    outcome = only(done(plan_of(SHEET), [reading("1.1", size), reading("1.2", position)]), "1.2")
    assert (outcome.verdict, outcome.bonus) == (verdict, D(bonus))
    assert why in outcome.why
    assert outcome.limits.upper == D("0.05") + D(bonus)
    assert "shift of the datum is not counted" in outcome.why


def test_what_the_bonus_changes_is_what_the_reason_tells(plan_of: Any) -> None:
    # Ø0.05 (M) at 30.010: 0.060; a reading of 0.05 needs none of it, 0.06 all of it (own arithmetic)
    plan = plan_of(SHEET)
    for position in ("0.050", "0.060"):
        why = only(done(plan, [reading("1.1", "30.010"), reading("1.2", position)]), "1.2").why
        assert why.startswith("within the limits; bonus 0.010 mm at size 30.010 mm")


def test_what_a_piece_lacks(plan_of: Any) -> None:
    holes = next(line for line in plan_of(SHEET).lines if line.number == "3")  # four readings a piece, two pieces
    assert missing_of(holes, {}, 2) == (8, frozenset({1, 2}))
    latest, corrected = latest_of(holes, [reading("3", "6.6", 1, place) for place in (1, 2, 3, 4, 4)])
    assert len(corrected) == 1
    assert missing_of(holes, latest, 2) == (4, frozenset({2}))
    assert missing_of(holes, latest, 1) == (0, frozenset())
    # of a sample of two any two pieces will do: the pieces that nobody read lack nothing
    latest, _ = latest_of(holes, [reading("3", "6.6", *place) for place in ((3, 1), (3, 2), (3, 3), (3, 4), (5, 1))])
    assert missing_of(holes, latest, 2) == (3, frozenset({5}))


def test_without_the_size_no_more_than_the_plain_zone_is_decided(plan_of: Any) -> None:
    plan = plan_of(SHEET)
    assert only(done(plan, [reading("1.2", "0.05")]), "1.2").verdict == "accept"
    missing = only(done(plan, [reading("1.2", "0.06")]), "1.2")
    assert missing.verdict == "undecided"
    assert "line 1.1" in missing.why
    assert only(done(plan, [reading("1.2", "0.0711")]), "1.2").verdict == "reject"
    gauged = [reading("1.1", None, answer="accept"), reading("1.2", "0.06")]
    assert only(done(plan, gauged), "1.2").verdict == "undecided"


def test_the_size_of_the_same_piece_counts(plan_of: Any) -> None:
    readings = [reading("1.1", "30.000", 1), reading("1.1", "30.020", 2)]
    readings += [reading("1.2", "0.06", piece) for piece in (1, 2)]
    judgement = done(plan_of(SHEET), readings)
    assert [outcome.verdict for outcome in found(judgement, "1.2").outcomes] == ["reject", "accept"]
    assert found(judgement, "1.2").statistics[0].capability is None


def test_a_frame_without_its_size_in_the_callout(plan_of: Any) -> None:
    outcome = only(done(plan_of("unit: mm\n1: | position | Ø0.05 (M) | A |\n"), [reading("1", "0.06")]), "1")
    assert outcome.verdict == "undecided"
    assert "no size is typed before it" in outcome.why


@pytest.mark.parametrize("size", ["Ø30 hole", "Ø30 MAX hole", "Ø29.9 MIN hole"])
def test_a_size_without_two_limits_gives_no_bonus(plan_of: Any, size: str) -> None:
    plan = plan_of(f"unit: mm\n1: {size} | position | Ø0.05 (M) | A |\n")
    outcome = only(done(plan, [reading("1.2", "0.06")]), "1.2")
    assert outcome.verdict == "undecided"
    assert "no two limits" in outcome.why


# A frame goes with the feature above it (ASME Y14.5): the hole at 10.1 leaves nothing for what holds the counterbore.
def test_a_frame_under_a_counterbore_gets_no_bonus_of_the_hole(plan_of: Any) -> None:
    frames = ("| position | Ø0.2 (M) | A |", "| position | Ø0.3 (M) | A |")
    plan = plan_of(f"unit: mm\n1: Ø10 ±0.1 THRU\n      {frames[0]}\n      CBORE Ø16 ±0.2 ↧5\n      {frames[1]}\n")
    judgement = done(plan, [reading("1.1", "10.1"), reading("1.2", "0.4"), reading("1.5", "0.4")])
    assert (only(judgement, "1.2").verdict, only(judgement, "1.2").bonus) == ("accept", D("0.2"))
    assert only(judgement, "1.5").verdict == "undecided"
    assert "none is worked out for the counterbore diameter above it" in only(judgement, "1.5").why


def test_an_inch_drawing_that_names_no_practice_follows_asme(plan_of: Any) -> None:
    plan = plan_of("unit: inch\n1: Ø1.000 +.010/-.000 hole | concentricity | Ø.005 (M) | A |\n")
    outcome = only(done(plan, [reading("1.1", "1.005", unit="inch"), reading("1.2", "0.006", unit="inch")]), "1.2")
    assert outcome.verdict == "undecided"
    assert "ASME Y14.5 has no (M) on concentricity" in outcome.why


def test_a_gauge_that_answers_for_a_frame_has_no_bonus(plan_of: Any) -> None:
    outcome = only(done(plan_of(SHEET), [reading("1.1", "30.010"), reading("1.2", None, answer="accept")]), "1.2")
    assert (outcome.verdict, outcome.bonus) == ("accept", None)


def test_a_value_that_is_no_number_is_undecided_with_a_bonus_too(plan_of: Any) -> None:
    outcome = only(done(plan_of(SHEET), [reading("1.1", "30.010"), reading("1.2", "NaN")]), "1.2")
    assert (outcome.verdict, outcome.bonus) == ("undecided", None)


def test_the_shift_of_a_datum_is_only_told_where_it_has_a_modifier(plan_of: Any) -> None:
    plan = plan_of("unit: mm\n1: Ø30 H7 | position | Ø0.05 (M) | A |\n")
    outcome = only(done(plan, [reading("1.1", "30.010"), reading("1.2", "0.06")]), "1.2")
    assert outcome.why == "within the limits; bonus 0.010 mm at size 30.010 mm"


# ISO 2692 has (M) on coaxiality, ASME Y14.5-2009, 7.6.4 has it not
@pytest.mark.parametrize(
    ("manner", "kind", "verdict"),
    [
        ("iso", "concentricity", "accept"),
        ("asme", "concentricity", "undecided"),
        ("iso", "position", "accept"),
        ("asme", "position", "accept"),
    ],
)
def test_a_bonus_counts_where_the_practice_of_the_drawing_has_it(
    plan_of: Any, manner: str, kind: str, verdict: str
) -> None:
    plan = plan_of(f"unit: mm\nmanner: {manner}\n1: Ø30 H7 | {kind} | Ø0.05 (M) | A |\n")
    outcome = only(done(plan, [reading("1.1", "30.010"), reading("1.2", "0.06")]), "1.2")
    assert outcome.verdict == verdict
    assert ("ASME Y14.5 has no (M)" in outcome.why) == (verdict == "undecided")


def test_a_size_of_no_told_side_gives_no_bonus(plan_of: Any) -> None:
    plan = plan_of("unit: mm\n1: Ø30 ±0.1 | position | Ø0.05 (M) | A |\n")
    outcome = only(done(plan, [reading("1.1", "30.0"), reading("1.2", "0.06")]), "1.2")
    assert outcome.verdict == "undecided"
    assert "internal or external" in outcome.why


def test_the_uncertainty_of_the_size_joins_in(plan_of: Any) -> None:
    readings = [reading("1.1", "30.010"), reading("1.2", "0.050")]
    # limit 0.060, U of both 0.002: together 0.0029
    outcome = only(done(plan_of(SHEET), readings, GUARDED, budget_for=known("0.001")), "1.2")
    assert outcome.verdict == "accept"
    assert outcome.acceptance.upper == D("0.0571")
    close = [reading("1.1", "30.010"), reading("1.2", "0.0575")]
    assert only(done(plan_of(SHEET), close, GUARDED, budget_for=known("0.001")), "1.2").verdict == "undecided"


def test_two_uncertainties_add_by_squares_and_known_errors_in_full() -> None:
    # JCGM 100, 5.1.2 and F.2.4.5: the root of 3 and 4 squared is 5, of U 6 and 8 it is 10; errors of 1 and 2: 3 (µm)
    one, other = budget("0.003", "0.007", 9, bias="0.001"), budget("0.004", "0.010", 5, bias="-0.002")
    both = joined(one, other)
    assert both is not None
    assert (both.combined, both.bias, both.unrounded, both.expanded) == (D("0.005"), D("0.003"), D("0.013"), D("0.013"))
    assert both.dof == 5
    assert joined(one, other._replace(unit="inch")) is None
    assert joined(one, None) is None


def test_the_uncertainty_of_the_size_takes_nothing_from_what_needs_no_bonus(plan_of: Any) -> None:
    # no bonus at 30.000; U of the frame alone 0.002 accepts to 0.048, with that of the size 0.0029 to 0.0471
    bare = [reading("1.1", "30.000"), reading("1.2", "0.0475")]
    outcome = only(done(plan_of(SHEET), bare, GUARDED, budget_for=known("0.001")), "1.2")
    assert (outcome.verdict, outcome.acceptance.upper) == ("accept", D("0.048"))
    # accepted both ways: what is shown is the zone with the bonus, 0.060 - 0.0029
    both = [reading("1.1", "30.010"), reading("1.2", "0.040")]
    outcome = only(done(plan_of(SHEET), both, GUARDED, budget_for=known("0.001")), "1.2")
    assert (outcome.verdict, outcome.acceptance.upper) == ("accept", D("0.0571"))


def test_a_bonus_from_a_doubtful_size_is_doubtful(plan_of: Any) -> None:
    checks = [failed("micrometer", "OM-07")]
    readings = [reading("1.1", "30.010", instrument="OM-07"), reading("1.2", "0.06")]
    outcome = only(done(plan_of(SHEET), readings, checks=checks, crib=crib()), "1.2")
    assert outcome.verdict == "undecided"
    assert "the size that its bonus rests on" in outcome.tainted


# ---- lines, pieces, part ---------------------------------------------------------------------------------------------


def all_good() -> list[Reading]:
    readings = []
    for piece in (1, 2):
        readings += [reading("1.1", "30.010", piece), reading("1.2", "0.02", piece), reading("2", "120.5", piece)]
        readings += [reading("3", "6.61", piece, instance) for instance in range(1, 5)]
        readings += [reading("4", "11.9", piece), reading("6", "1.2", piece, unit="um")]
        readings += [reading("7", Fraction(30), piece, unit="deg"), reading("8", None, piece, answer="accept")]
        readings += [reading("9", "0.01", piece)]
    return readings


def test_a_part_that_is_simply_good(plan_of: Any) -> None:
    judgement = done(plan_of(SHEET), all_good(), crib=crib())
    assert judgement.standing == "accept"
    assert judgement.pieces == ((1, "accept"), (2, "accept"))
    assert found(judgement, "5").standing == "no verdict"
    assert found(judgement, "3").asked == 8
    assert found(judgement, "3").why == "8 readings accepted"
    assert judgement.unreadable == ()
    assert judgement.why == "accepted: lines 1.1, 1.2, 2, 3, 4, 6, 7, 8 and 1 more; without a verdict: line 5"


def test_missing_readings_make_it_incomplete(plan_of: Any) -> None:
    readings = [each for each in all_good() if (each.line, each.piece, each.instance) != ("3", 2, 4)]
    judgement = done(plan_of(SHEET), readings)
    assert judgement.standing == "incomplete"
    assert judgement.pieces == ((1, "accept"), (2, "incomplete"))
    assert (found(judgement, "3").standing, found(judgement, "3").missing) == ("incomplete", 1)
    assert found(judgement, "3").why == "1 reading missing"
    nothing = done(plan_of(SHEET), [])
    assert nothing.standing == "incomplete"
    assert nothing.pieces == ()


def test_one_reject_rejects(plan_of: Any) -> None:
    judgement = done(plan_of(SHEET), [*all_good(), reading("3", "6.8", 2, 3)])
    assert judgement.standing == "reject"
    assert judgement.pieces == ((1, "accept"), (2, "reject"))
    assert found(judgement, "3").why == "1 of 8 readings rejected"


def test_a_corrected_reading_keeps_the_first(plan_of: Any) -> None:
    judgement = done(plan_of(SHEET), [reading("2", "121.5"), reading("2", "120.5"), reading("2", "120.45", of="size")])
    line = found(judgement, "2")
    assert [each.typed for each in line.corrected] == ["121.5", "120.5"]
    assert [outcome.reading.typed for outcome in line.outcomes] == ["120.45"]
    assert any("replaced" in remark for remark in judgement.remarks)


def test_readings_without_a_place_are_kept(plan_of: Any) -> None:
    bad = [
        reading("44", "1"), reading("1", "30"), reading("", "1"), reading("2", "120.5", 3), reading("2", "120.5", 0),
        reading("2", "120.5", 1, 2), reading("3", "6.6", 1, 0), reading("2", "1", of="pitch diameter"),
    ]  # fmt: skip
    earlier = Unreadable("f.csv, row 9", "2,x", "no number")
    judgement = done(plan_of(SHEET), bad, unreadable=[earlier])
    assert judgement.unreadable[0] is earlier
    assert len(judgement.unreadable) == 9
    whys = [each.why for each in judgement.unreadable[1:]]
    assert whys[0] == "the plan has no line 44"
    assert "1.1, 1.2" in whys[1]
    assert "no piece 3" in whys[3]
    assert "one place" in whys[5]
    assert "no limits of pitch diameter" in whys[7]
    assert all("row" in each.place for each in judgement.unreadable)


def test_lines_not_read_or_in_conflict_hold_the_part_back(plan_of: Any) -> None:
    plan = plan_of("unit: mm\n1: 120.5 ±0.1\n2: Ø30 Q77\n")
    judgement = done(plan, [reading("1", "120.5"), reading("2", "30")])
    assert judgement.standing == "incomplete"
    assert judgement.pieces == ((1, "incomplete"),)
    assert "not read" in found(judgement, "2").why
    assert found(judgement, "2").outcomes[0].verdict == "undecided"
    conflict = plan_of("unit: mm\n1: 120.5 ±0.1\n2: Ø30 k6 (+0.020/+0.002)\n")
    judgement = done(conflict, [reading("1", "120.5")])
    assert judgement.standing == "undecided"
    assert judgement.pieces == ((1, "undecided"),)
    assert "contradicts itself" in found(judgement, "2").why


def test_a_reference_is_recorded_without_a_verdict(plan_of: Any) -> None:
    judgement = done(plan_of(SHEET), [reading("5", "84.2")])
    line = found(judgement, "5")
    assert line.standing == "no verdict"
    assert line.outcomes[0].verdict == "undecided"
    assert "no verdict" in line.outcomes[0].why
    assert line.statistics[0].mean == D("84.2")


SAMPLED = """
unit: mm
lot: 5
sampling: major 3 Ac 1; all
1: 120.5 ±0.1
2 [major]: 12 MAX
"""


def sampled(plan_of: Any) -> Plan:
    """Five pieces, the second line on three of them, one nonconforming piece allowed."""
    plan: Plan = plan_of(SAMPLED)
    assert not plan.faults
    assert [line.pieces for line in plan.lines] == [5, 3]
    return plan


def test_a_sample_of_the_pieces_is_enough(plan_of: Any) -> None:
    plan = sampled(plan_of)
    readings = [reading("1", "120.5", piece) for piece in range(1, 6)]
    some = [*readings, *(reading("2", "11", piece) for piece in (1, 2, 3))]
    assert done(plan, some).standing == "accept"
    assert done(plan, some).pieces == tuple((piece, "accept") for piece in range(1, 6))
    fewer = done(plan, some[:-1])
    assert fewer.standing == "incomplete"
    assert found(fewer, "2").missing == 1
    assert (found(fewer, "2").asked, found(fewer, "1").asked) == (3, 5)


# heights of three pieces (12 MAX, U 0.010), the decision on the lot; Ac 1, Re 2
@pytest.mark.parametrize(
    ("values", "standing", "nonconforming", "undecided"),
    [
        (("11", "11", "11"), "accept", (), ()),
        (("11", "12.5", "11"), "accept", (2,), ()),
        (("12.5", "12.5", "11"), "reject", (1, 2), ()),
        (("12.5", "12.5"), "reject", (1, 2), ()),
        (("12.5", "11"), "incomplete", (1,), ()),
        (("12.5", "12.001", "11"), "undecided", (1,), (2,)),
        (("11", "12.001", "11"), "accept", (), (2,)),
    ],
)
def test_what_a_sample_decides_on_its_lot(
    plan_of: Any, values: Sequence[str], standing: str, nonconforming: tuple[int, ...], undecided: tuple[int, ...]
) -> None:
    readings = [reading("2", value, piece) for piece, value in enumerate(values, start=1)]
    (lot,) = done(sampled(plan_of), readings, GUARDED).lots
    assert (lot.standing, lot.nonconforming, lot.undecided) == (standing, nonconforming, undecided)
    assert (lot.of, lot.asked, lot.ac, lot.re, lot.lines) == ("major", 3, 1, 2, ("2",))


def test_sizes_converted_without_a_finite_decimal(plan_of: Any) -> None:
    # 1/25.4 in has no finite decimal: such values are fractions
    plan = plan_of("unit: inch\n1: Ø1.000 +.010/-.000 hole | position | Ø.005 (M) | A |\n")
    size = reading("1.1", 1 + Fraction(1, 3000), unit="inch")
    for position, verdict in ((Fraction(16, 3000), "accept"), (Fraction(16, 3000) + Fraction(1, 10**40), "reject")):
        for rule in (SIMPLE, GUARDED, Rule("guarded")):
            outcome = only(done(plan, [size, reading("1.2", position, unit="inch")], rule), "1.2")
            assert outcome.bonus == Fraction(1, 3000)
            assert outcome.verdict == (verdict if rule is SIMPLE else "undecided")


def test_a_known_process_gives_risks(plan_of: Any) -> None:
    plan = plan_of(SHEET)
    for process in (D("0.04"), {"2": D("0.04")}):
        judgement = done(plan, [reading("2", "120.5"), reading("4", "11")], process_sd=process)
        assert found(judgement, "2").statistics[0].risk is not None
        assert (found(judgement, "4").statistics[0].risk is None) == isinstance(process, dict)


def test_a_rule_that_cannot_be_used_is_refused(plan_of: Any) -> None:
    with pytest.raises(InputError):
        done(plan_of(SHEET), [], Rule("guarded", factor=D(-1)))


def test_budgets_are_asked_once(plan_of: Any) -> None:
    asked: list[tuple[str, str, str]] = []

    def budget_for(line: PlanLine, instrument: str, of: str) -> Budget | None:
        asked.append((line.number, instrument, of))
        return budget("0.005")

    done(plan_of(SHEET), all_good(), budget_for=budget_for)
    assert len(asked) == len(set(asked))
    assert ("3", CALIPER, "size") in asked


# ---- instruments -----------------------------------------------------------------------------------------------------


def failed(name: str, serial: str = "", point: str = "zero", when: str = "", passed: bool = False) -> CheckReading:
    return CheckReading(name, serial, point, D("-0.01"), D("0.01"), "mm", "0.03", passed, when=when)


def test_a_failed_check_taints(plan_of: Any) -> None:
    readings = [reading("2", "120.5"), reading("2", "121.5", 2)]
    judgement = done(plan_of(SHEET), readings, checks=[failed(CALIPER)], crib=crib())
    good, bad = found(judgement, "2").outcomes
    assert good.verdict == "undecided"
    assert "failed its check at zero: 0.03" in good.tainted
    assert "would be accepted" in good.why
    assert bad.verdict == "reject"
    assert bad.tainted
    (use,) = judgement.instruments
    assert "failed its check" in use.failed
    assert use.checks
    assert any("failed its check" in remark for remark in judgement.remarks)


# check on name and serial, reading's instrument, tainted
NAMES = [
    ("digital caliper", "DC-11", "digital caliper", True),
    ("digital caliper", "", "DC-11", True),
    ("Digital  Caliper", "", "digital caliper (DC-11)", True),
    ("digital caliper", "DC-11", "micrometer", False),
    ("micrometer", "OM-07", "OM-07", True),
    ("micrometer", "OM-07", "micrometer, OM-08", False),
    ("micrometer", "OM-07", "micrometer", True),  # it may be the one
    ("micrometer", "", "OM-08", True),  # the same
    ("height gauge", "", "height gauge", True),  # not in the crib
    ("height gauge", "H1", "height gauge", True),
    ("digital caliper", "DC-11", "digital caliper #DC-11", True),  # as the log of readings writes it
    ("micrometer", "OM-07", "micrometer #OM-07", True),
    ("micrometer", "OM-07", "micrometer #OM-08", False),
    ("micrometer", "OM-07", "micrometer #OM-99", False),  # no such serial in the crib
    ("height gauge", "H1", "height gauge #H1", True),
    ("height gauge", "H1", "height gauge #H2", False),
]


@pytest.mark.parametrize(("name", "serial", "used", "tainted"), NAMES)
def test_whose_check_it_was(plan_of: Any, name: str, serial: str, used: str, tainted: bool) -> None:
    judgement = done(
        plan_of(SHEET), [reading("2", "120.5", instrument=used)], checks=[failed(name, serial)], crib=crib()
    )
    assert bool(only(judgement, "2").tainted) == tainted


def test_a_check_repeated_clears_what_comes_after(plan_of: Any) -> None:
    checks = [failed(CALIPER, when="2026-05-04T08:00"), failed(CALIPER, when="2026-05-04T09:00", passed=True)]
    for when, tainted in (("2026-05-04T08:30", True), ("2026-05-04T09:30", False), ("", True)):
        judgement = done(plan_of(SHEET), [reading("2", "120.5", when=when)], checks=checks, crib=crib())
        assert bool(only(judgement, "2").tainted) == tainted


def test_a_check_that_passed_or_does_not_read_taints_nothing(plan_of: Any) -> None:
    checks = [failed(CALIPER, passed=True), failed(CALIPER, point="10.3")._replace(passed=None)]
    judgement = done(plan_of(SHEET), [reading("2", "120.5")], checks=checks, crib=crib())
    assert only(judgement, "2").verdict == "accept"
    assert len(judgement.instruments[0].checks) == 2


def test_overdue_and_unknown_instruments_are_said(plan_of: Any) -> None:
    readings = [reading("2", "120.5", when="2026-07-01T10:00"), reading("2", "120.5", 2, instrument="old rule")]
    judgement = done(plan_of(SHEET), readings, crib=crib())
    caliper, rule = judgement.instruments
    assert caliper.overdue == "due 2026-06-30, used on 2026-07-01"
    assert caliper.serial == "DC-11"
    assert caliper.lines == ("2",)
    assert not caliper.unknown
    assert rule.unknown
    outcome = found(judgement, "2").outcomes[0]
    assert outcome.verdict == "accept"
    assert "past its due date" in outcome.doubts[0]
    assert any("not in the crib" in remark for remark in judgement.remarks)
    in_time = done(plan_of(SHEET), [reading("2", "120.5", when="2026-06-30")], crib=crib())
    assert in_time.instruments[0].overdue == ""
    told = done(plan_of(SHEET), [reading("2", "120.5")], crib=crib(), on=date(2026, 7, 2))
    assert told.instruments[0].overdue


def test_an_instrument_named_with_its_serial_is_the_one_in_the_crib(plan_of: Any) -> None:
    late = reading("2", "120.5", when="2026-07-01", instrument="digital caliper #DC-11")
    (use,) = done(plan_of(SHEET), [late], crib=crib()).instruments
    assert (use.name, use.serial, use.unknown) == ("digital caliper", "DC-11", False)
    assert use.overdue == "due 2026-06-30, used on 2026-07-01"


def test_no_instrument_named_is_told(plan_of: Any) -> None:
    plan = plan_of("unit: mm\n1: 120.5 ±0.1\n")
    choice = plan.lines[0].choice
    assert choice is not None
    assert choice.instrument is not None
    checks = [failed(choice.instrument.name, choice.instrument.serial)]
    judgement = done(plan, [reading("1", "120.5", instrument="")], checks=checks, crib=crib())
    assert "no instrument is named" in only(judgement, "1").tainted
    assert any("without the name of an instrument" in remark for remark in judgement.remarks)
    assert done(plan, [reading("1", "120.5", instrument="")], crib=crib()).instruments == ()


def test_questions_from_outside_are_kept(plan_of: Any) -> None:
    judgement = done(plan_of(SHEET), [reading("2", "12.05")], doubts_of=lambda *_: ("ten times off?",))
    assert only(judgement, "2").doubts == ("ten times off?",)
    assert any("question" in remark for remark in judgement.remarks)


# ---- nothing is lost -------------------------------------------------------------------------------------------------

_PLANS: dict[str, Plan] = {}


@settings(deadline=None)
@given(
    st.lists(
        st.builds(
            Reading,
            line=st.sampled_from(["1.1", "1.2", "2", "3", "5", "8", "99", ""]),
            piece=st.integers(0, 3),
            instance=st.integers(0, 5),
            of=st.sampled_from(["", "size", "pitch diameter"]),
            typed=st.just("x"),
            value=st.one_of(
                st.none(),
                st.decimals(allow_nan=True, allow_infinity=True),
                st.sampled_from([D("1E+999999"), D("-9E+999999"), D("1E-999999"), D("1E+900"), D("30.01")]),
                st.fractions(),
                st.builds(Fraction, st.just(10**400), st.integers(1, 3)),
            ),
            answer=st.sampled_from([None, "accept", "reject"]),
            unit=st.just("mm"),
            instrument=st.sampled_from(["", CALIPER, "micrometer", "x"]),
            when=st.sampled_from(["", "2026-07-01", "soon"]),
        ),
        max_size=12,
    ),
    st.sampled_from([SIMPLE, GUARDED, Rule("guarded"), Rule("guarded", binary=True)]),
    st.sampled_from([known(), unknown]),
)
def test_every_reading_is_somewhere(readings: list[Reading], rule: Rule, budget_for: Any) -> None:
    plan = _sheet_plan()
    judgement = done(plan, readings, rule, budget_for=budget_for, crib=crib(), checks=[failed("micrometer", "OM-07")])
    kept = sum(len(line.outcomes) + len(line.corrected) for line in judgement.lines) + len(judgement.unreadable)
    assert kept == len(readings)
    for line in judgement.lines:
        assert line.missing >= 0
        if line.standing == "accept":
            assert all(outcome.verdict == "accept" for outcome in line.outcomes)


def _sheet_plan() -> Plan:
    if not _PLANS:
        import tempfile

        with tempfile.TemporaryDirectory() as folder:
            path = Path(folder) / "part.sheet"
            path.write_text(SHEET, encoding="utf-8")
            _PLANS["sheet"] = build_plan(read_sheet(path), crib())
    return _PLANS["sheet"]
