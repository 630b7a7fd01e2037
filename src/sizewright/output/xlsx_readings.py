"""The sheet of an XLSX plan in which readings are typed: one row a reading, with a verdict that follows the value."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from typing import NamedTuple

from openpyxl.formatting.rule import Rule
from openpyxl.styles import Font, PatternFill
from openpyxl.styles.differential import DifferentialStyle
from openpyxl.utils import get_column_letter
from openpyxl.worksheet.datavalidation import DataValidation
from openpyxl.worksheet.worksheet import Worksheet

from sizewright.output.columns import READING_COLUMNS
from sizewright.output.rows import Bound
from sizewright.output.slots import GAUGE_ANSWERS, Slot
from sizewright.output.xlsx_cells import HEAD, TEXT, add_rows, keeps, write_text
from sizewright.text.numbers import ANGLE_PLACES

_HEADS = [column.head for column in READING_COLUMNS]
VALUE = get_column_letter(_HEADS.index("value") + 1)
LOWER = get_column_letter(_HEADS.index("lower limit") + 1)
UPPER = get_column_letter(_HEADS.index("upper limit") + 1)
_VERDICT = len(_HEADS) + 1
_PLACES = 12  # finer than any gauge, coarser than the noise of a computed cell (0.1+0.2)
_FINITE = 15
BEYOND = "reject without bonus"  # the size that earns the bonus stands in another row; judging reckons it


def add_readings(sheet: Worksheet, slots: Sequence[Slot]) -> None:
    """Fill `sheet` with a row for each reading, its checks and its verdict."""
    last = add_rows(sheet, READING_COLUMNS, slots)
    write_text(sheet.cell(1, _VERDICT), "verdict", HEAD)
    letter = get_column_letter(_VERDICT)
    sheet.column_dimensions[letter].width = 20
    for row, slot in enumerate(slots, start=2):
        cell = sheet.cell(row, _VERDICT, verdict_formula(slot, row))
        cell.style = TEXT
    if not slots:
        return
    _checks(sheet, slots)
    mark_verdicts(sheet, f"{letter}2:{letter}{last}")


def mark_verdicts(sheet: Worksheet, area: str) -> None:
    """Make verdicts that need a look easy to find: the words carry them, weight and shade only help."""
    for word, shade in (("reject", "C8C8C8"), (BEYOND, "E7E7E7"), ("not a number", "E7E7E7")):
        style = DifferentialStyle(font=Font(bold=True), fill=PatternFill(bgColor=shade))
        rule = Rule(type="cellIs", operator="equal", formula=[f'"{word}"'], dxf=style)
        sheet.conditional_formatting.add(area, rule)


def verdict_formula(slot: Slot, row: int) -> str:
    """The formula for the verdict in `row`: nothing, accept, reject, not a number, or why there is no verdict.

    A reading equal to a limit is accepted. Both sides are rounded before they are compared, so that a value computed in
    the cell (12.7-0.1) is not rejected for the noise of binary arithmetic.
    """
    cells = Cells(f"{VALUE}{row}", f"{LOWER}{row}", f"{UPPER}{row}")
    nothing = "undecided" if slot.row.either else "no verdict"
    beyond = BEYOND if slot.row.widens else "reject"
    return f"={live_verdict(cells, slot.bound, slot.row.unit, slot.row.by_gauge, nothing, beyond=beyond)}"


class Cells(NamedTuple):
    """Where a value and its limits stand."""

    value: str
    lower: str
    upper: str


def live_verdict(
    cells: Cells,
    bound: Bound,
    unit: str,
    by_gauge: bool,
    nothing: str,
    otherwise: str = "not a number",
    beyond: str = "reject",
) -> str:
    """The expression for the verdict on the value in `cells`: `nothing` where there are no limits, `otherwise` where it
    is no number, `beyond` where it is out of the limits."""
    value = cells.value
    number = f"AND(ISNUMBER({value}),NOT(ISLOGICAL({value})))"  # to some programs TRUE is the number 1
    verdict = f'IF({number},{_compared(cells, bound, unit, nothing, beyond)},"{otherwise}")'
    if by_gauge:
        for answer in GAUGE_ANSWERS:
            verdict = f'IF({value}="{answer}","{answer}",{verdict})'
    return f'IF(ISBLANK({value}),"",{verdict})'


def _compared(cells: Cells, bound: Bound, unit: str, nothing: str, beyond: str) -> str:
    outside = []
    for limit, cell, sign in ((bound.lower, cells.lower, "<"), (bound.upper, cells.upper, ">")):
        if limit:
            # A limit with more digits than a spreadsheet keeps is text in its cell and stands here as a constant.
            operand = cell if keeps(limit) else limit
            places = compared_places(limit, unit)
            outside.append(f"ROUND({cells.value},{places}){sign}ROUND({operand},{places})")
    if not outside:
        return f'"{nothing}"'
    return f'IF(OR({",".join(outside)}),"{beyond}","accept")'


def compared_places(limit: str, unit: str) -> int:
    """To how many places a reading is compared with `limit`: never fewer than the limit has.

    An angle without an end (33°10') is written to nine places and so may stand above its exact value; it is compared
    to fewer, still below a thousandth of a second.
    """
    whole, _, decimals = limit.lstrip("-").partition(".")
    if unit == "deg" and len(decimals) >= ANGLE_PLACES:
        return ANGLE_PLACES - 2
    return max(len(decimals), min(_PLACES, _FINITE - len(whole)), 0)


def _checks(sheet: Worksheet, slots: Sequence[Slot]) -> None:
    numbers = [row for row, slot in enumerate(slots, start=2) if not slot.row.by_gauge]
    answers = [row for row, slot in enumerate(slots, start=2) if slot.row.by_gauge]
    number = DataValidation(
        type="decimal",
        operator="between",
        formula1="-1000000",
        formula2="1000000",
        promptTitle="Reading",
        prompt="Type the value read, in the unit of its row (angles in decimal degrees). "
        "Leave it empty where nothing was measured.",
        errorTitle="Not a number",
        error="A reading is a number such as 12.34, with the decimal mark your spreadsheet is set to.",
    )
    answer = DataValidation(
        type="list",
        formula1=f'"{",".join(GAUGE_ANSWERS)}"',
        promptTitle="Gauge",
        prompt="Choose accept or reject, as the gauge says; a measured value may be typed instead.",
        errorTitle="Neither accept nor reject",
        error="A gauge answers accept or reject.",
    )
    for validation, rows in ((number, numbers), (answer, answers)):
        if rows:
            # A warning, not a ban: what someone insists on typing is kept, and the verdict says that it does not read.
            validation.errorStyle = "warning"
            validation.showErrorMessage = validation.showInputMessage = True
            validation.sqref = " ".join(_ranges(rows))
            sheet.add_data_validation(validation)


def _ranges(rows: Iterable[int]) -> Iterator[str]:
    """The value cells of `rows` as few ranges."""
    start = last = -1
    for row in rows:
        if row != last + 1:
            if start > 0:
                yield f"{VALUE}{start}:{VALUE}{last}"
            start = row
        last = row
    yield f"{VALUE}{start}:{VALUE}{last}"
