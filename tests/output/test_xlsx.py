from __future__ import annotations

import io
from collections.abc import Callable
from decimal import Decimal
from pathlib import Path

import pytest
from openpyxl import load_workbook
from openpyxl.workbook import Workbook

from sizewright.instruments.crib import default_crib
from sizewright.output.check_slots import check_slots
from sizewright.output.xlsx import plan_xlsx
from sizewright.output.xlsx_cells import keeps
from sizewright.output.xlsx_readings import VALUE
from sizewright.plan.build import build_plan
from sizewright.plan.model import Plan
from sizewright.sheet.read import read_sheet
from sizewright.text.errors import InputError

from .plans import (
    CALIPER,
    INJECTIONS,
    THREAD_GAUGE,
    choice,
    hostile,
    housing,
    line,
    long_plan,
    mm_lines,
    plan_of,
    toleranced,
)

Sheets = Callable[[Path], dict[str, list[dict[str, str]]]]


def opened(plan: Plan) -> Workbook:
    return load_workbook(io.BytesIO(plan_xlsx(plan)))


def heads(sheet: object) -> list[str]:
    return [cell.value for cell in sheet[1]]  # type: ignore[index]


def test_the_plan_sheet_is_set_up_for_reading_and_printing() -> None:
    sheet = opened(housing())["plan"]
    assert (sheet.freeze_panes, sheet.print_title_rows) == ("B2", "$1:$1")
    assert (sheet.page_setup.orientation, sheet.page_setup.fitToWidth, sheet.page_setup.fitToHeight) == (
        "landscape",
        1,
        0,
    )
    assert sheet.max_row == len(housing().lines) + 1


def test_limits_are_numbers_that_show_their_zeros_and_balloons_are_text() -> None:
    sheet = opened(housing())["plan"]
    columns = {head: index for index, head in enumerate(heads(sheet), start=1)}
    lower = sheet.cell(2, columns["lower limit"])
    assert (lower.value, lower.number_format) == (62, "0.000")
    assert sheet.cell(3, 1).value == "2.1"
    assert sheet.cell(2, columns["other upper limit"]).value == 2.44212


@pytest.mark.parametrize(
    ("text", "kept"),
    [
        ("0.1", True),
        ("-62.030", True),
        ("30.333333333", True),
        ("1234567890.12345", True),
        ("0.12345678901234567", False),
    ],
)
def test_only_what_a_spreadsheet_keeps_is_a_number(text: str, kept: bool) -> None:
    assert kept == keeps(text)


def test_typed_text_stays_text() -> None:
    workbook = opened(hostile())
    for name in ("plan", "readings", "notes"):
        for row in workbook[name].iter_rows(min_row=2):
            for cell in row:
                verdict = name == "readings" and cell.column == len(heads(workbook[name]))
                assert verdict or cell.data_type in ("s", "n", "inlineStr"), cell.value
    callouts = [cell.value for cell in workbook["plan"]["E"][1:]]
    assert callouts[:-1] == list(INJECTIONS)


def test_the_author_is_the_sheet_s_and_the_title_the_plan_s() -> None:
    properties = opened(housing()).properties
    assert not properties.creator
    assert properties.title == "Inspection plan: Worm housing, EQ-310, revision C"
    assert opened(plan_of(mm_lines(), title={"made by": "A. Turner"})).properties.creator == "A. Turner"


def test_value_cells_are_checked_with_a_message_and_nothing_is_forbidden() -> None:
    checks = opened(housing())["readings"].data_validations.dataValidation
    assert {check.type for check in checks} == {"decimal", "list"}
    assert all(check.prompt and check.error and check.errorStyle == "warning" for check in checks)
    # every value cell is in one of them
    rows = opened(housing())["readings"].max_row
    covered = {cell for check in checks for each in check.sqref.ranges for cell in each.cells}
    assert len(covered) == rows - 1


def test_unknown_paper_is_refused() -> None:
    with pytest.raises(InputError, match="A4 and Letter"):
        plan_xlsx(housing(), "A5")


# limits, value typed, verdict
VERDICTS: list[tuple[str | None, str | None, object, str]] = [
    ("6.5", "6.7", 6.5, "accept"),
    ("6.5", "6.7", 6.7, "accept"),
    ("6.5", "6.7", 6.500001, "accept"),
    ("6.5", "6.7", 6.499999, "reject"),
    ("6.5", "6.7", 6.6999999, "accept"),
    ("6.5", "6.7", 6.7000001, "reject"),
    ("0.2", "0.3", "=0.1+0.2", "accept"),
    ("0.2", "0.3", "=0.1+0.2+0.00000001", "reject"),
    ("12.6", None, "=12.7-0.1", "accept"),
    ("120.4", "120.6", "=120.7-0.1", "accept"),
    ("-0.35", "-0.20", -0.35, "accept"),
    ("-0.35", "-0.20", -0.2, "accept"),
    ("-0.35", "-0.20", -0.351, "reject"),
    ("-0.35", "-0.20", -0.199, "reject"),
    (None, "12", 12, "accept"),
    (None, "12", 12.001, "reject"),
    (None, "12", -5, "accept"),
    ("3", None, 2.9999, "reject"),
    ("3", None, 3, "accept"),
    ("1.2500", "1.2505", 1.2505, "accept"),
    ("1.2500", "1.2505", 1.25051, "reject"),
    ("25400.0001", "25400.0003", 25400.0003, "accept"),
    ("25400.0001", "25400.0003", 25400.00031, "reject"),
    ("0", "0.00000000000000012345678", 0.0001, "reject"),
    ("6.5", "6.7", None, ""),
    ("6.5", "6.7", "6,6", "not a number"),
    ("6.5", "6.7", "about 6.6", "not a number"),
    ("6.5", "6.7", " ", "not a number"),
    ("6.5", "6.7", True, "not a number"),
    ("6.5", "6.7", "=1/0", "not a number"),
]


def test_verdicts_follow_the_values(tmp_path: Path, sheets: Sheets) -> None:
    """One row for each case; LibreOffice computes what openpyxl only writes."""
    lines = [line(str(i), "x", toleranced("length", low, high)) for i, (low, high, _, _) in enumerate(VERDICTS, 1)]
    thread = mm_lines()[5]
    special = [
        thread._replace(number="101", choice=choice(THREAD_GAUGE, None)),
        thread._replace(number="102", choice=choice(THREAD_GAUGE, None)),
        thread._replace(number="103", choice=choice(THREAD_GAUGE, None)),
        mm_lines()[12]._replace(number="104"),
        mm_lines()[6]._replace(number="105", readings_per_piece=1),
        lines[0]._replace(number="106", choice=choice(CALIPER._replace(kind=THREAD_GAUGE.kind))),
    ]
    typed = [value for *_, value, _ in VERDICTS] + ["accept", "Reject", "perhaps", 9.1, 84, 6.8]
    expected = [verdict for *_, verdict in VERDICTS] + [
        "accept", "reject", "not a number", "undecided", "no verdict", "reject",
    ]  # fmt: skip
    plan = plan_of((*lines, *special), pieces=1)
    workbook, checks = opened(plan), len(list(check_slots(plan)))
    for row, value in enumerate(typed, start=2 + checks):
        workbook["readings"][f"{VALUE}{row}"] = value  # type: ignore[assignment]
    workbook.save(tmp_path / "filled.xlsx")
    shown = sheets(tmp_path / "filled.xlsx")["readings"]
    assert expected == [row["verdict"] for row in shown[checks:]]


def test_another_program_reads_the_same(tmp_path: Path, sheets: Sheets) -> None:
    (tmp_path / "plan.xlsx").write_bytes(plan_xlsx(hostile()))
    shown = sheets(tmp_path / "plan.xlsx")
    assert [row["callout"] for row in shown["plan"]][:-1] == list(INJECTIONS)
    assert {row["lower limit"] for row in shown["plan"]} == {"1.0"}
    assert "&P" in next(row["text"] for row in shown["notes"] if row["about"] == "revision")


def test_readings_count_pieces_and_instances() -> None:
    sheet = opened(long_plan(3))["readings"]
    checks = len(list(check_slots(long_plan(3))))
    assert sheet.max_row - 1 == checks + 3 * sum(each.readings_per_piece for each in long_plan().lines)
    assert Decimal(str(sheet.cell(2 + checks, heads(sheet).index("lower limit") + 1).value)) == Decimal("1.41")


def test_a_zone_that_its_size_may_widen_is_not_simply_rejected(tmp_path: Path) -> None:
    path = tmp_path / "part.sheet"
    path.write_text("1: Ø6.6 +0.2/0 THRU |⌖|Ø0.3(M)|A|B|C|\n2: Ø6.6 +0.2/0 THRU |⌖|Ø0.3|A|B|C|\n", encoding="utf-8")
    sheet = opened(build_plan(read_sheet(path), default_crib()))["readings"]
    formulas = {str(row[0]): str(row[-1]) for row in sheet.iter_rows(min_row=2, values_only=True) if row[0] != "check"}
    assert '"reject without bonus"' in formulas["1.2"]
    assert all("without bonus" not in formulas[other] for other in ("1.1", "2.1", "2.2"))
