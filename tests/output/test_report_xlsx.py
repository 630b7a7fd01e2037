from __future__ import annotations

import io
import random
from collections.abc import Callable, Iterator
from decimal import Decimal
from fractions import Fraction
from pathlib import Path

import pytest
from openpyxl import load_workbook
from openpyxl.workbook import Workbook

from sizewright.judge.model import Judgement, LineJudgement, Outcome, Reading
from sizewright.output.report_columns import LIVE
from sizewright.output.report_xlsx import report_xlsx
from sizewright.plan.model import PlanLine
from sizewright.resolve.characteristic import Characteristic, Limits, Status
from sizewright.text.errors import InputError
from sizewright.text.numbers import Number, plain

from .conftest import needed, run
from .judgements import GUARDED, hostile_judgement, judged, outcome_of, sample_plan, with_troubles
from .plans import INJECTIONS, line, plan_of
from .test_report_docx import mixed

Sheets = Callable[[Path], dict[str, list[dict[str, str]]]]
D = Decimal
SEED = 20261125


def opened(judgement: Judgement) -> Workbook:
    return load_workbook(io.BytesIO(report_xlsx(judgement)))


def column(workbook: Workbook, sheet: str, head: str) -> list[object]:
    found = workbook[sheet]
    place = [cell.value for cell in found[1]].index(head)
    return [row[place].value for row in found.iter_rows(min_row=2)]


def test_the_sheets_are_there_with_a_row_for_everything() -> None:
    judgement = with_troubles(judged(sample_plan("worm-housing"), mixed))
    workbook = opened(judgement)
    assert workbook.sheetnames == ["report", "readings", "budgets", "instruments", "notes"]
    assert column(workbook, "report", "balloon") == [each.line.number for each in judgement.lines]
    assert column(workbook, "report", "verdict") == [each.standing for each in judgement.lines]
    outcomes = [each for line in judgement.lines for each in line.outcomes]
    assert column(workbook, "readings", "verdict") == [each.verdict for each in outcomes]
    assert column(workbook, "instruments", "serial")[0] == "DC-7"
    notes = dict(zip(column(workbook, "notes", "about"), column(workbook, "notes", "text"), strict=True))
    assert notes["verdict"] == "REJECTED"
    assert "read upside down" in str(notes["corrected reading"])
    assert "two and a half" in str(notes["Readings that could not be read; they are kept"])


def test_values_and_limits_are_numbers_that_show_their_zeros() -> None:
    sheet = opened(judged(sample_plan("worm-housing"), lambda *_: "62.010"))["readings"]
    heads = [cell.value for cell in sheet[1]]
    for head, value, form in (("value", 62.01, "0.000"), ("upper limit", 62.03, "0.000")):
        cell = sheet.cell(2, heads.index(head) + 1)
        assert (cell.value, cell.number_format) == (value, form)
    assert str(sheet.cell(2, heads.index(LIVE) + 1).value).startswith("=IF(")


def test_budgets_stand_once() -> None:
    judgement = judged(sample_plan("worm-housing"))
    served = {str(text) for text in column(opened(judgement), "budgets", "for lines")}
    numbers = [number for text in served for number in text.split(", ")]
    assert sorted(numbers) == sorted(each.line.number for each in judgement.lines if each.budget)


def test_typed_text_stays_text() -> None:
    workbook = opened(hostile_judgement())
    for sheet in workbook.worksheets:
        for row in sheet.iter_rows(min_row=2):
            for cell in row:
                live = sheet.title == "readings" and cell.column == sheet.max_column
                assert live or cell.data_type in ("s", "n"), cell.value
    assert [*column(workbook, "report", "callout")][:-1] == list(INJECTIONS)


def test_unknown_paper_is_refused() -> None:
    with pytest.raises(InputError, match="A4 and Letter"):
        report_xlsx(judged(sample_plan("worm-housing")), "A5")


# lower, upper, value: near limits, long decimals, angles without an end
HARD: list[tuple[Number | None, Number | None, Number]] = [
    (D("6.5"), D("6.7"), D("6.5")),
    (D("6.5"), D("6.7"), D("6.7000000000001")),
    (D("6.5"), D("6.7"), D("6.70000000000001")),
    (D("6.5"), D("6.7"), D("6.70000000000000000001")),
    (D("6.5"), D("6.7"), D("6.69999999999999999999")),
    (D("6.5"), D("6.7"), D("6.4999999999999999999999")),
    (D("6.5"), D("6.7"), D("6." + "6" * 300)),
    (D("6.5"), D("6.7"), D("6.7" + "0" * 300 + "1")),
    (D("0"), D("0.00000000000000012345678"), D("0.0000000000000001")),
    (D("0"), D("0.00000000000000012345678"), D("0.00000000000000012345679")),
    (D("25400.0001"), D("25400.0003"), D("25400.0003")),
    (D("25400.0001"), D("25400.0003"), D("25400.0003000001")),
    (None, D("12"), D("12.0000000000000000")),
    (None, D("12"), D("12.00000000000001")),
    (D("3"), None, D("2.99999999999999")),
    (D("-0.35"), D("-0.20"), D("-0.2000000001")),
    (D("-0.35"), D("-0.20"), D("-0.1999999999")),
    (Fraction(59, 2), Fraction(91, 3), Fraction(91, 3)),
    (Fraction(59, 2), Fraction(91, 3), Fraction("30.333333333")),
    (Fraction(59, 2), Fraction(91, 3), Fraction("30.333333334")),
    (Fraction(59, 2), Fraction(91, 3), Fraction("30.33333334")),
    (Fraction(59, 2), Fraction(91, 3), Fraction(91, 3) + Fraction(1, 10**12)),
    (Fraction(1, 3), Fraction(2, 3), Fraction(1, 3) - Fraction(1, 10**15)),
    (Fraction(1, 3), Fraction(2, 3), Fraction(1, 3)),
]


def random_cases(count: int) -> Iterator[tuple[Number | None, Number | None, Number]]:
    """Limits of every form with values on them, beside them, inside and outside."""
    chance = random.Random(SEED)
    for _ in range(count):
        places = chance.randrange(7)
        low = D(chance.randrange(-50000, 500000)).scaleb(-places)
        high = low + D(chance.randrange(400)).scaleb(-places)
        step = D(chance.choice((-1, 0, 0, 1))).scaleb(-chance.randrange(1, 17))
        value = chance.choice((low, high, low + (high - low) / 2, high + (high - low), low - 1)) + step
        lower, upper = chance.choice(((low, high), (low, high), (None, high), (low, None)))
        if chance.random() < 0.15:
            yield (
                None if lower is None else Fraction(lower) / 3,
                None if upper is None else Fraction(upper) / 3,
                Fraction(value) / 3,
            )
        else:
            yield lower, upper, value


def judged_cases(cases: list[tuple[Number | None, Number | None, Number]]) -> tuple[list[PlanLine], list[Outcome]]:
    lines, outcomes = [], []
    for number, (lower, upper, value) in enumerate(cases, start=1):
        limits = Limits("size", lower, upper)
        unit = "deg" if isinstance(value, Fraction) else "mm"
        lines.append(line(str(number), "x", Characteristic("length", unit, Status.TOLERANCED, limits=(limits,))))
        outcomes.append(outcome_of(Reading(str(number), 1, 1, "", plain(value), value, None, unit), limits))
    return lines, outcomes


def odd_outcomes() -> list[Outcome]:
    """A gauge's answers, a bonus, a reading that does not read, and one without limits."""
    limits, none = Limits("zone", D(0), D("0.2")), Limits("", None, None)
    made = Reading("1", 1, 1, "", "", None, None, "mm")
    bonus = Limits("zone", D(0), D("0.35"))
    return [
        outcome_of(made._replace(answer="accept", typed="ok"), none),
        outcome_of(made._replace(answer="reject", typed="no"), none),
        outcome_of(made._replace(value=D("0.35"), typed="0.35"), bonus, bonus=D("0.15")),
        outcome_of(made._replace(value=D("0.36"), typed="0.36"), bonus, bonus=D("0.15")),
        outcome_of(made._replace(typed='two "and" a half'), limits),
        Outcome(made._replace(value=D("5"), typed="5"), none, none, "undecided", "the side is not known"),
    ]


def judgement_of_cases(count: int) -> tuple[Judgement, list[Outcome]]:
    lines, outcomes = judged_cases(HARD + list(random_cases(count)))
    for outcome in odd_outcomes():
        made = Characteristic("position", "mm", Status.TOLERANCED, limits=(outcome.limits,))
        lines.append(line(str(len(lines) + 1), "y", made))
        outcomes.append(outcome)
    judged_lines = tuple(
        LineJudgement(each, outcome.verdict, "", (outcome,)) for each, outcome in zip(lines, outcomes, strict=True)
    )
    return judged(plan_of(tuple(lines), 1), lambda *_: None)._replace(lines=judged_lines), outcomes


def test_the_spreadsheet_judges_as_the_judgement_does(tmp_path: Path, sheets: Sheets) -> None:
    judgement, outcomes = judgement_of_cases(600)
    (tmp_path / "report.xlsx").write_bytes(report_xlsx(judgement))
    shown = [row[LIVE] for row in sheets(tmp_path / "report.xlsx")["readings"]]
    wrong = [(each.limits, each.reading.value, text) for each, text in zip(outcomes, shown, strict=True)
             if each.verdict != text]  # fmt: skip
    assert wrong == []
    assert len({each.verdict for each in outcomes}) == 3


def test_another_spreadsheet_judges_the_same(tmp_path: Path) -> None:
    program = needed("ssconvert")
    judgement, outcomes = judgement_of_cases(200)
    (tmp_path / "report.xlsx").write_bytes(report_xlsx(judgement))
    run(program, "--recalc", "-S", str(tmp_path / "report.xlsx"), str(tmp_path / "sheet-%s.csv"))
    import csv

    with (tmp_path / "sheet-readings.csv").open(encoding="utf-8", newline="") as file:
        shown = [row[LIVE] for row in csv.DictReader(file)]
    wrong = [(each.limits, each.reading.value, text) for each, text in zip(outcomes, shown, strict=True)
             if each.verdict != text]  # fmt: skip
    assert wrong == []


def test_the_formula_follows_what_is_typed_over_a_value(tmp_path: Path, sheets: Sheets) -> None:
    lines, outcomes = judged_cases([(D("6.5"), D("6.7"), D("6.70000000000000000001")), (D("6.5"), D("6.7"), D("6.6"))])
    made = tuple(LineJudgement(a, b.verdict, "", (b,)) for a, b in zip(lines, outcomes, strict=True))
    workbook = opened(judged(plan_of(tuple(lines), 1))._replace(lines=made))
    sheet = workbook["readings"]
    place = [cell.value for cell in sheet[1]].index("value") + 1
    sheet.cell(2, place, 6.6)
    sheet.cell(3, place, "about 6.6")
    workbook.save(tmp_path / "typed.xlsx")
    assert [row[LIVE] for row in sheets(tmp_path / "typed.xlsx")["readings"]] == ["accept", "not a number"]


def test_under_a_guard_band_the_live_verdict_stays_simple_and_the_other_tells_the_rule(
    tmp_path: Path, sheets: Sheets
) -> None:
    judgement = judged(sample_plan("worm-housing"), mixed, GUARDED)
    (tmp_path / "report.xlsx").write_bytes(report_xlsx(judgement))
    shown = sheets(tmp_path / "report.xlsx")["readings"]
    outcomes = [each for line in judgement.lines for each in line.outcomes]
    assert [row["verdict"] for row in shown] == [each.verdict for each in outcomes]
    for row, each in zip(shown, outcomes, strict=True):
        if each.reading.value is not None:
            assert row[LIVE] == ("accept" if each.limits.holds(each.reading.value) else "reject")
    assert {row["verdict"] for row in shown} == {"accept", "reject", "undecided"}
    assert shown[0]["accepted from"] == "62.004"
